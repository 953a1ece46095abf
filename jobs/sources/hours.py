"""From hourly values in UTC to local standard days."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta

import numpy as np

from jobs.agronomy.series import DailySeries, FloatArray
from jobs.sources.base import HourlyForecast

#: A day with fewer hours than this has no mean, no extremes and no total.
FEWEST_HOURS = 20


@dataclass(frozen=True, slots=True)
class Hours:
    """Hourly values of one place without gaps in time; NaN where missing.

    Attributes
    ----------
    first_hour
        UTC, a whole hour.
    air_c, wind_m_s, humidity_pct, soil5_c
        At the hour.
    rain_mm
        In the hour that begins then.
    """

    first_hour: datetime
    air_c: FloatArray
    rain_mm: FloatArray
    wind_m_s: FloatArray
    humidity_pct: FloatArray
    soil5_c: FloatArray

    def by_day(self, utc_offset: timedelta) -> DailySeries:
        """Return local standard days; a day of fewer than `FEWEST_HOURS` values has none."""
        local = self.first_hour + utc_offset
        lead = local.hour
        days = -(-(lead + len(self.air_c)) // 24)
        soil, air, rain = (
            _by_day(values, lead, days) for values in (self.soil5_c, self.air_c, self.rain_mm)
        )
        return DailySeries(
            local.date(),
            soil5_c=_where_full(soil, np.nansum(soil, axis=1) / _least_one(soil)),
            tmean_c=_where_full(air, np.nansum(air, axis=1) / _least_one(air)),
            tmin_c=_where_full(air, np.fmin.reduce(air, axis=1)),
            tmax_c=_where_full(air, np.fmax.reduce(air, axis=1)),
            rain_mm=_where_full(rain, np.nansum(rain, axis=1)),
        )

    def forecast_from(self, first_day: date, utc_offset: timedelta) -> HourlyForecast:
        """Return the hours from a local standard day on."""
        start = datetime.combine(first_day, time(), tzinfo=UTC) - utc_offset
        skip = max(0, -((self.first_hour - start) // timedelta(hours=1)))

        def rest(values: FloatArray) -> tuple[float, ...]:
            return tuple(values[skip:].tolist())

        return HourlyForecast(
            first_hour=self.first_hour + timedelta(hours=skip),
            air_c=rest(self.air_c),
            rain_mm=rest(self.rain_mm),
            wind_m_s=rest(self.wind_m_s),
            humidity_pct=rest(self.humidity_pct),
        )


def newest_value_at(first_hour: datetime, values: FloatArray, now: datetime) -> datetime | None:
    """Return the hour of the newest known value that is not in the future, or None."""
    past = max(0, (now - first_hour) // timedelta(hours=1) + 1)
    known = np.flatnonzero(~np.isnan(values[:past]))
    return first_hour + timedelta(hours=int(known[-1])) if len(known) else None


def _by_day(values: FloatArray, lead: int, days: int) -> FloatArray:
    whole = np.full(days * 24, np.nan)
    whole[lead : lead + len(values)] = values
    by_day: FloatArray = whole.reshape(days, 24)
    return by_day


def _least_one(by_day: FloatArray) -> FloatArray:
    count: FloatArray = np.sum(~np.isnan(by_day), axis=1).astype(float)
    return np.maximum(1.0, count)


def _where_full(by_day: FloatArray, values: FloatArray) -> FloatArray:
    return np.where(np.sum(~np.isnan(by_day), axis=1) >= FEWEST_HOURS, values, np.nan)
