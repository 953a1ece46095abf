"""The words of the season, spoken by the outlook alone, against modelled first emergence.

One look a day from 1 January, the climate fitted on earlier years, no weather forecast. What is
known on day D is told on D + 1, and days count from there.

Run from the repository: ``python -m tests.bench.window_open``.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date, timedelta
from functools import cache

import numpy as np

from jobs.agronomy.climatology import fit_climate
from jobs.agronomy.emergence import days_to_emergence
from jobs.agronomy.outlook import make_outlook
from jobs.agronomy.series import DailySeries
from jobs.agronomy.soil import degree_days, fill_short_gaps, first_at_or_above, trailing_mean
from jobs.agronomy.timing import FALSE_START_DAYS, HEADS_UP_DAYS, days_to_go_by
from jobs.agronomy.units import f_from_c
from tests.bench.soil_from_air import stations

LEAD_DAYS = 21
EARLIER_YEARS = 5
LAST_YEAR = 2023


@dataclass(frozen=True, slots=True)
class Look:
    """What is said on a day: median days to emergence, the soil, and the days a lead is held to."""

    told_on: date
    median: int | None
    to_go_by: int | None
    soil_5day_c: float


@dataclass(frozen=True, slots=True)
class StationYear:
    station: str
    year: int
    emerged_on: date
    looks: tuple[Look, ...]

    def first(self, is_it: Callable[[Look], bool]) -> Look | None:
        return next((look for look in self.looks if is_it(look)), None)


def emerged_on(series: DailySeries, year: int) -> date | None:
    """Day 42 degree-days over 12 °C from 1 March are reached, where the spring is measured."""
    start = date(year, 3, 1)
    soil_c = fill_short_gaps(series.on(start, date(year, 7, 31)).soil5_c)
    if np.isnan(soil_c[:100]).sum() > 3:
        return None
    there = int(first_at_or_above(degree_days(np.nan_to_num(soil_c), 12.0).cumsum(), 42.0))
    return None if there < 0 else start + timedelta(days=there)


@cache
def station_years() -> tuple[StationYear, ...]:
    """Play every station-year with enough earlier years up to its emergence."""
    out = []
    for station in stations():
        for year in range(station.series.first_day.year + EARLIER_YEARS, LAST_YEAR + 1):
            climate = fit_climate(station.series.until(date(year - 1, 12, 31)))
            emerged = emerged_on(station.series, year)
            if len(climate.years) < EARLIER_YEARS or emerged is None:
                continue
            looks = []
            for ahead in range((emerged - date(year, 1, 1)).days + 1):
                issued = date(year, 1, 1) + timedelta(days=ahead)
                outlook = make_outlook(climate, station.series, issued)
                told_on = issued + timedelta(days=1)
                days = days_to_emergence(outlook, told_on)
                soil_c = float(trailing_mean(outlook.known_c[-5:])[-1])
                to_go_by = days_to_go_by(days.p50, soil_c, p10_days=days.p10, p90_days=days.p90)
                looks.append(Look(told_on, days.p50, to_go_by, soil_c))
            out.append(StationYear(station.name, year, emerged, tuple(looks)))
    return tuple(out)


def is_at_most(days: int | None, most: int) -> bool:
    return days is not None and days <= most


def rows() -> list[tuple[str, str]]:
    played = station_years()
    found = []
    for label, opens in (
        ("median alone", lambda look: is_at_most(look.median, LEAD_DAYS)),
        ("as spoken", lambda look: is_at_most(look.to_go_by, LEAD_DAYS)),
    ):
        pings = [(one, one.first(opens)) for one in played]
        ahead = np.array(
            [(one.emerged_on - p.told_on).days if p else -1 for one, p in pings], dtype=float
        )
        soil_f = [f_from_c(p.soil_5day_c) for _, p in pings if p]
        low, high = np.percentile(soil_f, [5, 95])
        found += [
            (
                f"window-open ping 10-35 days before emergence, {label} ({len(played)} years)",
                f"{np.mean((ahead >= 10) & (ahead <= 35)):.3f}",
            ),
            (f"ping under 7 days before, {label}", f"{int((ahead < 7).sum())} years"),
            (f"soil at the ping, 5th-95th percentile, {label}", f"{low:.1f}-{high:.1f} °F"),
        ]
    lead_up, false_starts = [], 0
    for one in played:
        opened = one.first(lambda look: is_at_most(look.to_go_by, LEAD_DAYS))
        warmed = one.first(lambda look: is_at_most(look.to_go_by, HEADS_UP_DAYS))
        if opened is None or warmed is None:
            continue
        lead_up.append((opened.told_on - warmed.told_on).days)
        after = [look.to_go_by for look in one.looks if look.told_on > opened.told_on]
        limit = LEAD_DAYS + FALSE_START_DAYS
        false_starts += any(days is None or days > limit for days in after)
    days = np.array(lead_up)
    return [
        *found,
        (
            '"soil warming" 5-28 days before the ping',
            f"{np.sum((days >= 5) & (days <= 28)) / len(played):.3f}",
        ),
        ("window opened more than once", f"{false_starts / len(played):.3f} of years"),
    ]


if __name__ == "__main__":
    for figure, measured in rows():
        print(f"{figure}: {measured}")
