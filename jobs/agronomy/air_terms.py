"""The terms from which soil is estimated from air: memories of warmth, sun, frost and snow."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from jobs.agronomy.memory import days_since_known, faded_mean
from jobs.agronomy.series import DailySeries, FloatArray
from jobs.agronomy.sun import extraterrestrial_radiation

#: Days without air temperature after which there is no estimate.
LONGEST_GAP_DAYS: Final = 5

#: Memories of the moving averages of air temperature and of its daily range [days].
_AIR_MEMORIES: Final = (1, 2, 4, 8, 15, 30, 60)
_RANGE_MEMORIES: Final = (2, 15)
#: Snow falls whole below, and not at all above, these daily means [°C]. Common practice, no source.
_SNOW_C: Final = (-1.0, 2.0)
#: Melt per degree and day [mm water] above `_MELT_FROM_C`: middle of the usual 1.6-6 mm of
#: degree-day factors (Hock 2003, J. Hydrol. 282:104-115; from memory).
_MELT_MM: Final = 3.0
_MELT_FROM_C: Final = 0.5
#: Water in the snow at which cover counts for 63 % [mm]; chosen by us, results hardly move with it.
_COVER_MM: Final = 10.0
#: Elevation [m] for which radiation stands when none is given.
_USUAL_ELEVATION_M: Final = 300.0
#: Days over which the gain of radiation tells spring from autumn.
_SUN_RISE_DAYS: Final = 60


def air_terms(
    tmean_c: ArrayLike,
    tmin_c: ArrayLike,
    tmax_c: ArrayLike,
    rain_mm: ArrayLike,
    first_day: date,
    latitude: ArrayLike,
    elevation: ArrayLike | None = None,
) -> dict[str, FloatArray]:
    """Return every term by name, each of shape (..., days); parameters as `air.soil_from_air`.

    ``air_N``
        Moving average of the daily mean air temperature with a memory of N days [°C].
    ``frost_N``
        The same where below zero, else 0: freezing water holds the ground near zero.
    ``sun``, ``sun_rise``, ``sun_air``
        Extraterrestrial radiation [MJ/m²/day], its gain over 60 days, its product with ``air_8``.
    ``range_N``, ``clear_N``
        Moving average of the root of the daily range [°C^0.5], and its product with ``sun``:
        radiation at the ground by the form of Hargreaves & Samani 1985 (FAO-56, eq. 50).
    ``cover``, ``cover_air_N``
        How far snow covers the ground (0-1), and its product with ``air_N``.
    """
    columns = (np.asarray(c, dtype=float) for c in (tmean_c, tmin_c, tmax_c, rain_mm))
    mean, low, high, rain = np.broadcast_arrays(*columns)
    air = np.where(np.isnan(mean), (low + high) / 2, mean)
    root_range = np.sqrt(np.maximum(high - low, 0))

    terms = {f"air_{m}": v for m, v in _moving(air, _AIR_MEMORIES).items()}
    for memory in (8, 30):
        terms[f"frost_{memory}"] = np.minimum(terms[f"air_{memory}"], 0)

    sun, sun_rise = _sun(first_day, air.shape[-1], latitude, elevation)
    terms["sun"] = np.broadcast_to(sun, air.shape)
    terms["sun_rise"] = np.broadcast_to(sun_rise, air.shape)
    terms["sun_air"] = sun * terms["air_8"]
    for memory, values in _moving(root_range, _RANGE_MEMORIES).items():
        # A place that reports no extremes gets the range of an ordinary day, 10 °C.
        known = np.nan_to_num(values, nan=np.sqrt(10.0))
        terms[f"range_{memory}"] = known
        terms[f"clear_{memory}"] = sun * known

    terms["cover"] = 1 - np.exp(-_snow_mm(air, np.nan_to_num(rain)) / _COVER_MM)
    for memory in (2, 8, 30):
        terms[f"cover_air_{memory}"] = terms["cover"] * terms[f"air_{memory}"]
    return terms


def series_terms(
    series: DailySeries, latitude: float, elevation: float | None = None
) -> dict[str, FloatArray]:
    """Return the terms of a daily series, each of shape (days,)."""
    return air_terms(
        series.tmean_c,
        series.tmin_c,
        series.tmax_c,
        series.rain_mm,
        series.first_day,
        latitude,
        elevation,
    )


def stacked(terms: dict[str, FloatArray], names: Sequence[str]) -> FloatArray:
    """Return the named terms side by side, shape (..., days, names)."""
    return np.stack([terms[name] for name in names], axis=-1)


def _sun(
    first_day: date, days: int, latitude: ArrayLike, elevation: ArrayLike | None
) -> tuple[FloatArray, FloatArray]:
    """Return radiation and its gain over 60 days, scaled for elevation by FAO-56 eq. 37."""
    numbers = np.arange(days) + first_day.timetuple().tm_yday
    now = extraterrestrial_radiation(numbers, latitude)
    gain = now - extraterrestrial_radiation(numbers - _SUN_RISE_DAYS, latitude)
    if elevation is None:
        return now, gain
    height = np.asarray(elevation, dtype=float)[..., None]
    scale = (0.75 + 2e-5 * height) / (0.75 + 2e-5 * _USUAL_ELEVATION_M)
    return scale * now, scale * gain


def _moving(values: FloatArray, memories: Sequence[int]) -> dict[int, FloatArray]:
    """Return fading averages of the known values by memory [days]; NaN in long gaps."""
    is_lost = days_since_known(values) > LONGEST_GAP_DAYS
    return {m: np.where(is_lost, np.nan, faded_mean(values, m)) for m in memories}


def _snow_mm(air_c: FloatArray, rain_mm: FloatArray) -> FloatArray:
    """Return water lying as snow at the end of each day [mm], by degree-days.

    What lies is yesterday's plus the day's gain, never below zero: the sum of gains above its
    lowest point so far.
    """
    cold, warm = _SNOW_C
    falls = rain_mm * np.clip((warm - air_c) / (warm - cold), 0, 1)
    melts = _MELT_MM * np.maximum(air_c - _MELT_FROM_C, 0)
    course = np.cumsum(np.nan_to_num(falls - melts), axis=-1)
    return np.asarray(course - np.minimum(np.minimum.accumulate(course, axis=-1), 0))
