"""Hours out of days: an invented forecast by the hour that agrees with its daily values."""

from __future__ import annotations

from datetime import UTC, datetime, time, timedelta

import numpy as np

from jobs.agronomy.series import DailySeries, FloatArray
from jobs.sources.base import HourlyForecast

#: Local standard hours at which a day is coldest and warmest.
_COLDEST_HOUR = 5
_WARMEST_HOUR = 15
#: Hours a day's rain is spread over.
_RAIN_HOURS = 6
#: Dew point lies about this far under the day's lowest temperature on dry days [°C].
_DRY_AIR_C = 2.0


def hours_of(
    days: DailySeries, wind_m_s: FloatArray, rain_begins: FloatArray, utc_offset: timedelta
) -> HourlyForecast:
    """Return hourly values of whole local standard days.

    Parameters
    ----------
    days
        Daily extremes and rain, without gaps.
    wind_m_s
        Mean wind of each day.
    rain_begins
        A number from 0 to 1 a day that says how late its rain begins.
    utc_offset
        Local standard time; a part of an hour in it is rounded away (`HourlyForecast` counts whole
        UTC hours).
    """
    hour = np.arange(24)
    air_c = _air_by_hour(days)
    # Breezy afternoons, calm nights; the factors average to one.
    diurnal = 1 + 0.35 * np.cos(2 * np.pi * (hour - _WARMEST_HOUR) / 24)
    begins = np.floor(rain_begins * (24 - _RAIN_HOURS + 1))[:, None]
    is_raining = (hour >= begins) & (hour < begins + _RAIN_HOURS)
    rain_mm = days.rain_mm[:, None] / _RAIN_HOURS * is_raining
    dew_c = (days.tmin_c - np.where(days.rain_mm > 0.2, 0.0, _DRY_AIR_C))[:, None]
    humidity = 100 * _vapour_pressure(dew_c) / _vapour_pressure(air_c)
    first = datetime.combine(days.first_day, time(), tzinfo=UTC) - utc_offset
    return HourlyForecast(
        first_hour=(first + timedelta(minutes=30)).replace(minute=0, second=0, microsecond=0),
        air_c=_flat(air_c),
        rain_mm=_flat(rain_mm, 3),
        wind_m_s=_flat(wind_m_s[:, None] * diurnal),
        humidity_pct=_flat(np.clip(humidity, 10.0, 100.0)),
    )


def _air_by_hour(days: DailySeries) -> FloatArray:
    """Join the daily extremes by half waves, without a jump at midnight."""
    count = len(days)
    at = np.arange(count)[:, None] * 24 + np.array([_COLDEST_HOUR, _WARMEST_HOUR])
    turns = np.concatenate([[_WARMEST_HOUR - 24], at.ravel(), [count * 24 + _COLDEST_HOUR]])
    extremes = np.stack([days.tmin_c, days.tmax_c], axis=1).ravel()
    extremes = np.concatenate([[days.tmax_c[0]], extremes, [days.tmin_c[-1]]])
    hours = np.arange(count * 24)
    before = np.searchsorted(turns, hours, side="right") - 1
    way = (hours - turns[before]) / (turns[before + 1] - turns[before])
    rise = extremes[before + 1] - extremes[before]
    by_hour: FloatArray = extremes[before] + rise * (1 - np.cos(np.pi * way)) / 2
    return by_hour.reshape(count, 24)


def _vapour_pressure(air_c: FloatArray) -> FloatArray:
    """Return saturation vapour pressure [hPa], Magnus form (Alduchov and Eskridge 1996)."""
    return 6.1094 * np.exp(17.625 * air_c / (243.04 + air_c))


def _flat(values: FloatArray, digits: int = 1) -> tuple[float, ...]:
    return tuple((np.round(values, digits) + 0.0).ravel().tolist())
