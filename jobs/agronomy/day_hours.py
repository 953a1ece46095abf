"""The forecast by the hour, and what stands against each hour."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta, tzinfo
from typing import Final, Literal

import numpy as np
from numpy.typing import NDArray

from jobs.agronomy.day_rules import DayRules
from jobs.agronomy.series import FloatArray
from jobs.agronomy.sun import daylight

HourKey = Literal[
    "dark",
    "not_your_hours",
    "no_forecast",
    "rain",
    "wet_leaves",
    "dry_leaves",
    "cold",
    "hot",
    "calm",
    "windy",
]

#: Wind at 2 m over wind at 10 m above short grass (FAO-56, Allen et al. 1998, eq. 47).
WIND_2M_SHARE: Final = 0.748
#: Less rain than 0.01 in, the least that is reported, wets nothing [mm].
MEASURABLE_MM: Final = 0.254


@dataclass(frozen=True, slots=True, eq=False)
class Hours:
    """Hourly forecast of one place; NaN where missing. The past days' hours may stand in front.

    Attributes
    ----------
    first_hour
        Start of the first hour, aware.
    air_c, rain_mm, wind_m_s, humidity_pct
        Air temperature [°C], rain in the hour [mm], mean wind at 10 m [m/s], relative humidity [%].
    """

    first_hour: datetime
    air_c: FloatArray
    rain_mm: FloatArray
    wind_m_s: FloatArray
    humidity_pct: FloatArray


@dataclass(frozen=True, slots=True)
class Yard:
    """What of the yard matters for the day.

    Attributes
    ----------
    lat, lon
        [degrees].
    zone
        Its time zone.
    can_irrigate
        Whether it can be watered at all.
    is_watering_banned
        Whether a ban is on: then only rain counts.
    watering_weekdays
        Weekdays watering is allowed on (Monday 0), or None for every day.
    free_hours
        The person's free hours by weekday, as (from, to); None for any. A weekday left out is not
        free.
    """

    lat: float
    lon: float
    zone: tzinfo
    can_irrigate: bool = True
    is_watering_banned: bool = False
    watering_weekdays: frozenset[int] | None = None
    free_hours: Mapping[int, tuple[time, time]] | None = None


class Sight:
    """The forecast as arrays, with the checks of every hour made once."""

    def __init__(self, hours: Hours, yard: Yard, rules: DayRules, now: datetime) -> None:
        self.yard, self.rules = yard, rules
        self.count = len(hours.air_c)
        first = hours.first_hour.astimezone(UTC)
        self.starts = [first + timedelta(hours=i) for i in range(self.count)]
        local = [start.astimezone(yard.zone) for start in self.starts]
        self.days = np.array([at.toordinal() for at in local], dtype=int)
        self.wind = WIND_2M_SHARE * hours.wind_m_s
        self.air, self.humidity = hours.air_c, hours.humidity_pct
        self.rain = np.nan_to_num(hours.rain_mm)
        self.is_ahead = np.array([start >= now for start in self.starts], dtype=bool)
        self.before = window_sum(self.rain, -rules.wet_hours_after_rain)
        self.after = window_sum(self.rain, rules.dry_hours_after)
        is_known = ~np.isnan(hours.air_c + hours.wind_m_s + hours.rain_mm)
        is_wet = (np.nan_to_num(self.humidity) >= rules.wet_humidity_pct) | (
            self.before + self.rain >= MEASURABLE_MM
        )
        never = np.zeros(self.count, dtype=bool)
        self.stops: dict[HourKey, NDArray[np.bool_]] = {
            "dark": ~self._is_light(),
            "not_your_hours": ~np.array([_is_free(at, yard) for at in local], dtype=bool),
            "no_forecast": ~is_known,
            "rain": self.rain + self.after >= MEASURABLE_MM,
            "wet_leaves": is_wet if rules.leaves == "dry" else never,
            "dry_leaves": ~is_wet if rules.leaves == "wet" else never,
            "cold": self.air < rules.air_low_c,
            "hot": self.air > rules.air_high_c,
            "calm": self.wind < rules.wind_low_m_s,
            "windy": self.wind > rules.wind_high_m_s,
        }

    def _is_light(self) -> NDArray[np.bool_]:
        out = np.zeros(self.count, dtype=bool)
        for ordinal in np.unique(self.days):
            light = daylight(date.fromordinal(int(ordinal)), self.yard.lat, self.yard.lon)
            if light is not None:
                for i in np.flatnonzero(self.days == ordinal):
                    end = self.starts[i] + timedelta(hours=1)
                    out[i] = light[0] <= self.starts[i] and end <= light[1]
        return out

    def best_run(self, at: NDArray[np.int64], overlooked: HourKey | None) -> int | None:
        """Start of the best unbroken run of fit hours among those of a day, or None."""
        length = self.rules.hours_needed
        fit = np.ones(self.count, dtype=bool)
        for key, stop in self.stops.items():
            if key != overlooked:
                fit &= ~stop
        starts = [i for i in at if i + length <= at[-1] + 1 and fit[i : i + length].all()]
        if not starts:
            return None
        return int(min(starts, key=lambda i: (self.wind_loss(int(i)), i)))

    def wind_loss(self, start: int) -> float:
        """0 at the quiet end of what is allowed, 1 at the windy end."""
        mean = float(np.nanmean(self.wind[start : start + self.rules.hours_needed]))
        low, high = self.rules.wind_low_m_s, self.rules.wind_high_m_s
        return float(np.clip((mean - low) / (high - low), 0, 1)) if high > low else 0.0


def _is_free(at: datetime, yard: Yard) -> bool:
    """Whether the hour that begins at a local time lies in the person's free hours."""
    if yard.free_hours is None:
        return True
    span = yard.free_hours.get(at.weekday())
    if span is None:
        return False
    end = at.hour * 60 + at.minute + 60
    until = span[1].hour * 60 + span[1].minute
    return span[0] <= at.time() and end <= (until or 24 * 60)


def window_sum(values: FloatArray, hours: int) -> FloatArray:
    """Sum of the next ``hours`` hours after each, or of the hours before it if negative."""
    out = np.zeros(len(values))
    for step in range(1, abs(hours) + 1):
        if hours > 0:
            out[:-step] += values[step:]
        else:
            out[step:] += values[:-step]
    return out
