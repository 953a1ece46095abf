"""Soil temperature at 5 cm under turf, driven by air, sun, rain and snow.

Two layers: the upper one is drawn towards the surface and towards the lower one, which follows it
over two weeks. Freezing and thawing take up latent heat, so the upper layer rests near 0 °C; snow
insulates. The form is the force-restore idea (Deardorff 1978, from memory) with a day's step; the
coefficients were fitted here to the measured air, rain and soil of the 28 back-test stations
(median-centred RMSE of daily means 1.3 °C).
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from jobs.agronomy.series import FloatArray
from jobs.sources.climate.normals import YEAR_DAYS, IntArray

#: Share of the distance to the surface covered in a day, without snow.
_TO_SURFACE = 0.25
#: Share of the distance to the lower layer covered in a day.
_TO_DEEP = 0.11
#: Share of the distance to the upper layer that the lower one covers in a day.
_DEEP_FOLLOWS = 0.07
#: Mean gain of the surface over the air [°C], its annual wave, and the wave's crest [days before
#: the warmest day]: sun on short grass in late spring.
_SUN_C = 1.8
_SUN_WAVE_C = 0.74
_SUN_CREST_BEFORE_WARMEST = 77.0
#: A wet day's surface is cooler [°C].
_WET_C = 0.67
#: Each mm of water lying as snow slows the surface's pull by this share.
_SNOW_INSULATES = 0.28
#: Melt [mm of water a day and °C above zero], and the most snow kept [mm of water].
_MELT = 2.8
_MOST_SNOW_MM = 120.0
#: Precipitation falls as snow below this daily mean [°C].
_SNOWS_BELOW_C = 0.5
#: Between these temperatures of the soil [°C] water freezes or thaws in it, and only this share
#: of the heat changes the temperature.
_FREEZING_C = (-1.6, 0.3)
_FREEZING_SHARE = 0.074


@dataclass(frozen=True, slots=True)
class Ground:
    """The ground's state on days: each array has shape (places, days).

    Attributes
    ----------
    top_c, deep_c
        Temperatures of the upper and lower layer [°C].
    snow_mm
        Snow on the ground [mm of water].
    """

    top_c: FloatArray
    deep_c: FloatArray
    snow_mm: FloatArray


def bare_ground(air_c: FloatArray) -> Ground:
    """Return ground without snow at the temperature of the air, one value a place."""
    top_c = air_c[:, None] + _SUN_C
    return Ground(top_c, top_c.copy(), np.zeros_like(top_c))


def ground_under(
    start: Ground,
    air_c: FloatArray,
    rain_mm: FloatArray,
    ordinals: IntArray,
    warmest_day: FloatArray,
) -> Ground:
    """Return the ground's state at the end of each day of weather.

    Parameters
    ----------
    start
        State before the first day; its last day counts.
    air_c, rain_mm
        Daily mean air temperature [°C] and precipitation [mm], shape (places, days).
    ordinals
        The days, same shape.
    warmest_day
        Day of the year of the warmest normal, one value a place.
    """
    crest = warmest_day[:, None] - _SUN_CREST_BEFORE_WARMEST
    sun_c = _SUN_C + _SUN_WAVE_C * np.cos(2 * np.pi * (ordinals - crest) / YEAR_DAYS)
    surface_c = air_c + sun_c - _WET_C * (rain_mm >= 1.0)
    snowfall_mm = np.where(air_c < _SNOWS_BELOW_C, rain_mm, 0.0)
    melt_mm = _MELT * np.maximum(0.0, air_c)
    top, deep, snow = start.top_c[:, -1], start.deep_c[:, -1], start.snow_mm[:, -1]
    out = Ground(*(np.empty(air_c.shape) for _ in range(3)))
    lowest, highest = _FREEZING_C
    for day in range(air_c.shape[1]):
        snow = snow + snowfall_mm[:, day] - melt_mm[:, day]
        snow = np.minimum(_MOST_SNOW_MM, np.maximum(0.0, snow))
        pull = _TO_SURFACE / (1 + _SNOW_INSULATES * snow) * (surface_c[:, day] - top)
        pull = pull + _TO_DEEP * (deep - top)
        is_freezing = (top > lowest) & (top < highest)
        top = top + np.where(is_freezing, _FREEZING_SHARE, 1.0) * pull
        deep = deep + _DEEP_FOLLOWS * (top - deep)
        out.top_c[:, day], out.deep_c[:, day], out.snow_mm[:, day] = top, deep, snow
    return out
