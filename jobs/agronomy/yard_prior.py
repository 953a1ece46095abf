"""How a yard may differ from its grid cell, before and between readings.

Sun, grass, slope and soil differ. How the yard differs from its cell is modelled as a random course
of time (a Gaussian process; Rasmussen & Williams 2006, chapter 2) with four parts of level and two
of slope:

* a standing difference of the place, one that comes back each year at the same season, one of some
  weeks (wetness, thatch), one of some days (weather);
* a share of the cell's own temperature above freezing (both stand near 0 °C when the ground
  freezes; a bare south slope warms more), and a share of its quick changes (a wet or shaded yard
  follows slowly).

Where the cell's air is known too, the difference is not expected to be zero: of what the cell
stands off the soil its air explains (`air.soil_from_air`), part is weather the yard shares, part is
the cell's own (its sun, grass and soil, or its model's error), and the yard has its own instead.
Were both alike, the yard would stand off by half as much (`CELL_OWN_SHARE`).

The spreads are round numbers chosen on two pairs of neighbouring stations, each way
(tests/bench/yard_correction.py), where the result hardly moves with them.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

from jobs.agronomy.memory import faded_mean
from jobs.agronomy.series import FloatArray

# Spreads [°C] and memories [days] of the difference between a yard and its cell.
_PLACE_SD_C, _PLACE_DAYS = 0.5, 2000.0
_SEASON_SD_C, _SEASON_DAYS, _SEASON_WIDTH = 0.6, 1000.0, 0.8
_WEEKS_SD_C, _WEEKS_DAYS = 0.6, 60.0
_DAYS_SD_C, _DAYS_DAYS = 0.6, 8.0
#: Per °C of the cell above freezing, and per °C above its own ten-day average.
_SLOPE_SD: Final = 0.08
_QUICK_SD: Final = 0.2
_QUICK_DAYS: Final = 10.0
#: Share of a cell's excess over its air that is not the yard's. Two pairs of neighbour stations
#: give 0.49-0.62, each way; a little less is taken. 0.2-0.5 does nearly as well.
CELL_OWN_SHARE: Final = 0.4
#: Memory of a passing excess, where no air is forecast [days].
EXCESS_DAYS: Final = 10.0
#: A zone against its yard: a strip along paving, the shade of a house.
_ZONE_SD_C, _ZONE_SLOPE_SD = 0.8, 0.06


@dataclass(frozen=True, slots=True, eq=False)
class Features:
    """What the covariance looks at.

    Day number and zone (0 the yard as a whole), shape (n,); the cell's soil above freezing and its
    quick part [°C], shape (..., n).
    """

    day: FloatArray
    soil: FloatArray
    quick: FloatArray
    zone: NDArray[np.int64]


def covariance(a: Features, b: Features, cell_sd_c: float) -> FloatArray:
    """Covariance of the difference at ``a`` (..., n) with that at ``b`` (m,), shape (..., n, m)."""
    apart = np.abs(a.day[:, None] - b.day)
    same_zone = (a.zone[:, None] == b.zone) & (b.zone > 0)
    season = np.sin(np.pi * apart / 365.25) / _SEASON_WIDTH
    level = (
        (_PLACE_SD_C**2 + cell_sd_c**2) * np.exp(-apart / _PLACE_DAYS)
        + _SEASON_SD_C**2 * np.exp(-apart / _SEASON_DAYS - 2 * season**2)
        + _WEEKS_SD_C**2 * np.exp(-apart / _WEEKS_DAYS)
        + _DAYS_SD_C**2 * np.exp(-apart / _DAYS_DAYS)
        + _ZONE_SD_C**2 * same_zone
    )
    slope = _SLOPE_SD**2 + _ZONE_SLOPE_SD**2 * same_zone
    shared_soil = a.soil[..., :, None] * b.soil
    shared_quick = a.quick[..., :, None] * b.quick
    return np.asarray(level + slope * shared_soil + _QUICK_SD**2 * shared_quick)


def prior_variance(a: Features, cell_sd_c: float) -> FloatArray:
    """Prior variance of the difference at ``a``, shape (..., n)."""
    in_zone = a.zone > 0
    spreads = (_PLACE_SD_C, _SEASON_SD_C, _WEEKS_SD_C, _DAYS_SD_C, cell_sd_c)
    level = sum(sd**2 for sd in spreads) + _ZONE_SD_C**2 * in_zone
    slope = _SLOPE_SD**2 + _ZONE_SLOPE_SD**2 * in_zone
    return np.asarray(level + slope * a.soil**2 + _QUICK_SD**2 * a.quick**2)


def slow_average(values: FloatArray, start: float) -> FloatArray:
    """Return the ten-day running average along the last axis, from ``start`` if known."""
    return faded_mean(values, _QUICK_DAYS, start)
