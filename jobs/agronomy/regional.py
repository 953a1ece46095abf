"""The usual soil year of a place nobody has measured, from latitude and elevation.

Annual and semi-annual harmonics of daily mean soil temperature at 5 cm, each coefficient linear in
latitude and elevation. Fitted by least squares to the 28 stations of the U.S. Climate Reference
Network that the back-tests use (32.9-48.3 °N, sea level to 2560 m, 2009-2024, open grassy ground;
Diamond et al. 2013, Bull. Amer. Meteor. Soc. 94:485-498; Bell et al. 2013, J. Hydrometeor.
14:977-988). Station elevations from memory.

Leaving each station out in turn, the curve is off by 1.7 °C over the year (root mean square), by
1.9 °C in March to May, and crosses 55 °F (12.8 °C) 7 days early or late on average; at worst, on a
high dry plateau, by 34. Outside the range of the fit it is a guess.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Final

import numpy as np

from jobs.agronomy.series import FloatArray

#: Constant, cos and sin of the annual wave, cos and sin of the semi-annual one [°C]:
#: at 42° and sea level; per degree of latitude north of that; per km of elevation.
_AT_42: Final = (11.88, -10.39, -4.69, 0.27, 0.32)
_PER_DEGREE: Final = (-0.742, -0.008, -0.148, 0.134, 0.092)
_PER_KM: Final = (-1.29, -1.30, 0.16, 0.43, 0.80)

#: Spread of the stations around the fit, coefficient by coefficient, one in ten added for the
#: stations' having been used in it [°C].
_SD: Final = (1.03, 1.41, 0.38, 0.33, 0.32)

#: Spread of the higher harmonics between stations, about zero [°C].
_HIGHER_SD: Final = 0.4

#: Where no elevation is known: the middle of the inhabited plains, and what it may be off [m].
_USUAL_ELEVATION_M: Final = 300.0

#: Where not even a latitude is known, the curve of 40° with this spread of its mean [°C].
_NO_PLACE_SD_C: Final = 5.0

#: Error of the curve in spring, leaving each station out in turn [°C].
CURVE_ERROR_C: Final = 1.9

#: Spread of one day's 5-day mean between years at one place, February to May, median of the
#: stations [°C].
YEAR_TO_YEAR_SD_C: Final = 2.4

#: Days in a row that tell about as much as one independent day would.
DAYS_PER_FACT: Final = 20.0


@dataclass(frozen=True, slots=True, eq=False)
class Curve:
    """Harmonic coefficients with their spread, and the error of the curve they draw [°C]."""

    coefficients: FloatArray
    coefficient_sd: FloatArray
    error_c: float


@cache
def harmonics(count: int) -> FloatArray:
    """Return the design matrix of ``count`` harmonics over a leap year, shape (366, 1 + 2 count).

    Treat as read-only: it is shared.
    """
    angle = 2 * np.pi * (np.arange(366) + 0.5) / 366
    columns = [np.ones(366)]
    for k in range(1, count + 1):
        columns += [np.cos(k * angle), np.sin(k * angle)]
    matrix = np.stack(columns, axis=1)
    matrix.setflags(write=False)
    return matrix


def curve(lat: float | None, elevation_m: float | None, count: int) -> Curve:
    """Return the regional curve of a place.

    Parameters
    ----------
    lat
        Latitude [degrees], sign ignored (dates are northern ones); None where unknown.
    elevation_m
        Elevation [m]; None where unknown.
    count
        Harmonics wanted, at least 2.
    """
    north = (40.0 if lat is None else abs(lat)) - 42.0
    km = (_USUAL_ELEVATION_M if elevation_m is None else elevation_m) / 1000.0
    coefficients = np.zeros(1 + 2 * count)
    coefficients[:5] = np.asarray(_AT_42) + north * np.asarray(_PER_DEGREE)
    coefficients[:5] += km * np.asarray(_PER_KM)
    spread = np.full(1 + 2 * count, _HIGHER_SD)
    spread[:5] = _SD
    error_c = CURVE_ERROR_C
    if elevation_m is None:
        error_c = float(np.hypot(error_c, 0.5))
    if lat is None:
        spread[0] = _NO_PLACE_SD_C
        error_c = _NO_PLACE_SD_C
    return Curve(coefficients, spread, error_c)
