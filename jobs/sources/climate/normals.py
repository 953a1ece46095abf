"""What is normal for a place, from latitude and distance to the oceans alone.

Invented, but shaped on measurements: the numbers were drawn by hand through the annual means,
amplitudes and spreads of the 28 stations of the U.S. Climate Reference Network in the project's
back-test records (33-48 °N), and, from memory and roughly, through the long-term means of coastal
cities on both hemispheres. Height above the sea and mountains are left out. Expect 1-3 °C of error
in the monthly means of lowland North America, more elsewhere.
"""

from __future__ import annotations

from dataclasses import dataclass
from statistics import NormalDist
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from jobs.agronomy.series import FloatArray

IntArray: TypeAlias = NDArray[np.int64]

#: Mean length of a Gregorian year [d].
YEAR_DAYS = 365.2425

#: Annual mean air temperature at a coast [°C] by distance from the equator [degrees].
_COAST_LAT = (0.0, 15.0, 25.0, 30.0, 34.0, 42.0, 52.0, 60.0, 70.0, 90.0)
_COAST_C = (26.5, 26.5, 24.0, 21.0, 18.2, 14.2, 9.5, 5.5, -4.0, -20.0)

#: Hearts of the continents: latitude, longitude, reach north-south and east-west [degrees],
#: and how continental the heart is.
_INTERIORS = (
    (43.0, -97.0, 24.0, 48.0, 1.0),
    (55.0, 95.0, 28.0, 55.0, 1.0),
    (-25.0, 135.0, 12.0, 18.0, 0.5),
    (-28.0, 24.0, 10.0, 10.0, 0.45),
    (-30.0, -63.0, 12.0, 10.0, 0.4),
)

#: Dry regions: latitude, longitude, reach [degrees], share of the rain that is withheld.
_DRY = (
    (38.0, -112.0, 12.0, 10.0, 0.75),
    (22.0, 15.0, 9.0, 40.0, 0.9),
    (42.0, 80.0, 9.0, 30.0, 0.75),
    (-25.0, 130.0, 9.0, 13.0, 0.7),
)


@dataclass(frozen=True, slots=True)
class Normals:
    """Normals of several places; each array holds one value a place.

    Attributes
    ----------
    mean_c, amplitude_c
        Annual mean and half-range of the daily mean air temperature [°C].
    warmest_day
        Day of the year on which the normal is highest.
    winter_sd_c, summer_sd_c
        Spread of daily means about the normal in the coldest and warmest month [°C].
    continentality
        0 on an ocean shore, 1 in the heart of a continent.
    wet_threshold
        A standard normal variable above this makes a wet day.
    wet_day_mm
        Mean rain of a wet day.
    range_c
        Mean daily range of air temperature [°C].
    """

    mean_c: FloatArray
    amplitude_c: FloatArray
    warmest_day: FloatArray
    winter_sd_c: FloatArray
    summer_sd_c: FloatArray
    continentality: FloatArray
    wet_threshold: FloatArray
    wet_day_mm: FloatArray
    range_c: FloatArray

    def summer_share(self, ordinals: IntArray) -> FloatArray:
        """Return the annual wave on days (proleptic ordinals): 1 on the warmest, -1 on the coldest.

        Parameters
        ----------
        ordinals
            Shape (places, days).
        """
        since_warmest = ordinals - self.warmest_day[:, None]
        return np.cos(2 * np.pi * since_warmest / YEAR_DAYS)

    def air_c(self, ordinals: IntArray) -> FloatArray:
        """Return the normal daily mean air temperature [°C], shape (places, days)."""
        wave = self.summer_share(ordinals)
        return self.mean_c[:, None] + self.amplitude_c[:, None] * wave

    def spread_c(self, ordinals: IntArray) -> FloatArray:
        """Return the standard deviation of daily means about the normal [°C]."""
        # The most changeable weeks come after midwinter, so the wave of the spread runs late.
        wave = self.summer_share(ordinals - 8)
        middle = (self.summer_sd_c + self.winter_sd_c)[:, None] / 2
        half = (self.summer_sd_c - self.winter_sd_c)[:, None] / 2
        return middle + half * wave


def normals_at(lat: FloatArray, lon: FloatArray) -> Normals:
    """Return the normals of places given in degrees north and east."""
    away = np.abs(lat)
    inland = _continentality(lat, lon)
    coast_c = np.interp(away, _COAST_LAT, _COAST_C)
    inland_c = coast_c - np.maximum(0.0, 1.4 + 0.44 * (away - 33.0))
    shore_amplitude_c = 0.8 + 0.13 * away
    inland_amplitude_c = np.minimum(24.0, 1.0 + 16.0 * (away / 48.0) ** 1.2)
    wet_share = 0.32 + 0.10 * (1 - inland) * (away > 35)
    dryness = _dryness(lat, lon)
    wet_share = wet_share * (1 - 0.35 * dryness)
    return Normals(
        mean_c=coast_c + inland * (inland_c - coast_c),
        amplitude_c=shore_amplitude_c + inland * (inland_amplitude_c - shore_amplitude_c),
        # Land warms and cools at once, the sea a month late; the South half a year later.
        warmest_day=212.0 - 13.0 * inland + np.where(lat < 0, YEAR_DAYS / 2, 0.0),
        winter_sd_c=2.6 + inland * np.interp(away, (0, 20, 33, 48), (0.0, 1.0, 3.6, 5.2)),
        summer_sd_c=np.interp(away, (0, 33, 45), (1.0, 1.9, 2.9)) * (1.1 - 0.1 * inland),
        continentality=inland,
        wet_threshold=np.array([NormalDist().inv_cdf(1 - share) for share in wet_share]),
        wet_day_mm=np.interp(away, (0, 33, 41, 48, 65), (13, 12, 8, 6, 4)) * (1 - 0.6 * dryness),
        range_c=9.0 + 3.0 * inland + 3.0 * dryness,
    )


def _continentality(lat: FloatArray, lon: FloatArray) -> FloatArray:
    out = np.full(lat.shape, 0.1)
    for heart_lat, heart_lon, reach_lat, reach_lon, most in _INTERIORS:
        east = (lon - heart_lon + 180.0) % 360.0 - 180.0
        here = np.exp(-((east / reach_lon) ** 2))
        # Towards the pole a northern continent stays one; towards the equator its winters wear
        # off. The southern ones end in the sea on both sides.
        off = np.maximum(0.0, heart_lat - lat) if heart_lat > 0 else heart_lat - lat
        here = here * most * np.exp(-((off / reach_lat) ** 2))
        out = np.maximum(out, here)
    # Westerlies carry the ocean's air over the Pacific shore of North America, no farther.
    pacific = 1 / (1 + np.exp(-(lon + 121.5) / 1.5))
    is_american = (lon > -170) & (lon < -50) & (lat > 0)
    return np.where(is_american, np.maximum(0.1, out * pacific), out)


def _dryness(lat: FloatArray, lon: FloatArray) -> FloatArray:
    out = np.zeros(lat.shape)
    for heart_lat, heart_lon, reach_lat, reach_lon, most in _DRY:
        east = (lon - heart_lon + 180.0) % 360.0 - 180.0
        near = ((lat - heart_lat) / reach_lat) ** 2 + (east / reach_lon) ** 2
        out = np.maximum(out, most * np.exp(-near))
    return out
