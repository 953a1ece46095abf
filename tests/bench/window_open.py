"""The words of the season, spoken by the outlook alone, against modelled first emergence.

One look a day from 1 January, the climate fitted on earlier years, without a weather forecast and
with an emulated one (`tests.bench.scoring`). What is known on day D is told on D + 1, and days
count from there. Beside each share stands its lower 10 % bound, by a bootstrap over stations. No
constant is fitted to a station; the lead alone, chosen anew without each station in turn, says how
much choosing it has flattered. Other rules stand beside the one that is used: without its guards of
warm and cold ground, the median alone, and the same loss counted over the members in place of a
normal spread. None is better by more than the noise.

The real machine says the same on the same day (`tests.bench.replay_table`), at a hundredth of its
speed.

Run from the repository: ``python -m tests.bench.window_open``.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from functools import cache

import numpy as np

from jobs.agronomy.climatology import Climate, fit_climate
from jobs.agronomy.emergence import emergence
from jobs.agronomy.outlook import Outlook, make_outlook
from jobs.agronomy.place import spring_picture
from jobs.agronomy.readout import DateQuantiles
from jobs.agronomy.series import DailySeries
from jobs.agronomy.soil import degree_days, fill_short_gaps, first_at_or_above, trailing_mean
from jobs.agronomy.timing import FALSE_START_DAYS, HEADS_UP_DAYS, LATE_COST, days_to_go_by
from jobs.agronomy.units import f_from_c
from jobs.sources.recorded import Station
from tests.bench.scoring import emulated_forecast, lower_bound
from tests.bench.soil_from_air import stations

LEAD_DAYS = 21
LEADS = range(16, 27)
EARLIER_YEARS = 5
LAST_YEAR = 2023
IN_TIME = (10, 35)
BASE_C, WANTED_DEGREE_DAYS = 12.0, 42.0

#: Climates that latitude does not tell, from a map.
BY_HAND = {
    "mountain": ("CO_Dinosaur_2_E", "CO_Montrose_11_ENE", "WY_Lander_11_SSE"),
    "dry": (
        "ND_Medora_7_E",
        "NE_Whitman_5_ENE",
        "OR_Riley_10_WSW",
        "SD_Buffalo_13_ESE",
        "SD_Pierre_24_S",
    ),
    "coast": ("NH_Durham_2_N", "NH_Durham_2_SSW", "PA_Avondale_2_N"),
}


@dataclass(frozen=True, slots=True)
class DayQuantiles:
    """In how many days something happens (negative: ago); None: not within the horizon."""

    p10: int | None
    p50: int | None
    p90: int | None


def in_days(when: DateQuantiles, today: date) -> DayQuantiles:
    """Return dates as days counted from ``today``."""
    return DayQuantiles(
        *(None if on is None else (on - today).days for on in (when.p10, when.p50, when.p90))
    )


@dataclass(frozen=True, slots=True)
class Look:
    """What is said on a day: median days to emergence, the soil, and the days a lead is held to.

    ``unguarded`` are those days without the guards of warm and cold ground; ``members_speak``: the
    loss over the members says that the word is due; up to ``fifth`` it has come with one chance in
    five; ``spread`` is half of p10 to p90.
    """

    told_on: date
    median: int | None
    to_go_by: int | None
    soil_5day_c: float
    unguarded: int | None = None
    members_speak: bool = False
    fifth: int | None = None
    spread: float = 0.0


@dataclass(frozen=True, slots=True)
class StationYear:
    station: str
    year: int
    emerged_on: date
    looks: tuple[Look, ...]
    climate: str = ""

    def first(self, is_it: Callable[[Look], bool]) -> Look | None:
        return next((look for look in self.looks if is_it(look)), None)

    def days_ahead(self, lead_days: int = LEAD_DAYS) -> int:
        """Days from the word to emergence; -1 where none came."""
        told = self.first(lambda look: is_at_most(look.to_go_by, lead_days))
        return -1 if told is None else (self.emerged_on - told.told_on).days


def emerged_on(series: DailySeries, year: int) -> date | None:
    """Day 42 degree-days over 12 °C from 1 March are reached, where the spring is measured."""
    start = date(year, 3, 1)
    soil_c = fill_short_gaps(series.on(start, date(year, 7, 31)).soil5_c)
    if np.isnan(soil_c[:100]).sum() > 3:
        return None
    there = int(
        first_at_or_above(degree_days(np.nan_to_num(soil_c), BASE_C).cumsum(), WANTED_DEGREE_DAYS)
    )
    return None if there < 0 else start + timedelta(days=there)


@cache
def station_years(
    *, with_forecast: bool = False, names: frozenset[str] | None = None, first_year: int = 0
) -> tuple[StationYear, ...]:
    """Play every station-year with enough earlier years up to its emergence."""
    out = []
    for station in stations():
        if names is not None and station.name not in names:
            continue
        first = max(first_year, station.series.first_day.year + EARLIER_YEARS)
        for year in range(first, LAST_YEAR + 1):
            climate = fit_climate(station.series.until(date(year - 1, 12, 31)))
            emerged = emerged_on(station.series, year)
            if len(climate.years) < EARLIER_YEARS or emerged is None:
                continue
            days = (emerged - date(year, 1, 1)).days + 1
            looks = tuple(
                _look(station, climate, date(year, 1, 1) + timedelta(days=ahead), with_forecast)
                for ahead in range(days)
            )
            kind = climate_of(station, climate.mean_c)
            out.append(StationYear(station.name, year, emerged, looks, kind))
    return tuple(out)


def _look(station: Station, climate: Climate, issued: date, with_forecast: bool) -> Look:
    forecast = None
    if with_forecast:
        forecast = emulated_forecast(station.name, station.series, issued).soil5_c
    outlook = make_outlook(climate, station.series, issued, forecast_soil5_c=forecast)
    told_on = issued + timedelta(days=1)
    when = emergence(outlook)
    days = in_days(when, told_on)
    soil_c = float(trailing_mean(outlook.known_c[-5:])[-1])
    spread = {"p10_days": days.p10, "p90_days": days.p90}
    return Look(
        told_on,
        days.p50,
        days_to_go_by(days.p50, soil_c, **spread),
        soil_c,
        days_to_go_by(days.p50, None, **spread),
        days.p50 is not None and members_speak(outlook, told_on),
        None if when.p20 is None else (when.p20 - told_on).days,
        _half_spread(days),
    )


def _half_spread(days: DayQuantiles) -> float:
    """Return half of p10 to p90, or the half that is in sight."""
    ends = [end for end in (days.p10, days.p90) if end is not None]
    if days.p50 is None or not ends:
        return 0.0
    return sum(abs(end - days.p50) for end in ends) / len(ends)


def members_speak(outlook: Outlook, told_on: date) -> bool:
    """Whether waiting a day costs more than speaking, counted over the members.

    Late from 11 days left, early over 28, a day late twice a day early: the loss of `timing`.
    """
    start = date(outlook.spring_year, 3, 1)
    known_c = outlook.known_c[max(0, (start - outlook.known_first_day).days) :]
    so_far = float(degree_days(known_c, BASE_C).sum())
    if so_far >= WANTED_DEGREE_DAYS:
        return True
    skip = max(0, (start - outlook.first_day).days)
    reached = degree_days(outlook.paths_c[:, skip:], BASE_C).cumsum(axis=1)
    there = first_at_or_above(reached, WANTED_DEGREE_DAYS - so_far)
    days = there + skip + (outlook.first_day - told_on).days
    days = np.where(there < 0, outlook.paths_c.shape[1], days)
    return LATE_COST * float(np.mean(days <= 11)) >= float(np.mean(days > 28))


def climate_of(station: Station, mean_c: np.ndarray) -> str:
    """Sort a station by climate: by its mean year, by hand from a map, and by its latitude."""
    if spring_picture(mean_c).kind in ("mild", "none"):
        return "warm south"
    for kind, names in BY_HAND.items():
        if station.name in names:
            return kind
    return "north" if station.lat >= 43.0 else "transition"


def is_at_most(days: int | None, most: int) -> bool:
    return days is not None and days <= most


def is_in_time(days: int) -> bool:
    return IN_TIME[0] <= days <= IN_TIME[1]


def share_in_time(played: Sequence[StationYear], lead_days: int = LEAD_DAYS) -> tuple[float, float]:
    """Return the share told in time, and its lower 10 % bound."""
    hits = [is_in_time(one.days_ahead(lead_days)) for one in played]
    return float(np.mean(hits)), lower_bound([one.station for one in played], hits)


def left_out(played: Sequence[StationYear]) -> float:
    """Return the share in time where each station goes by the lead that is best on the others."""
    names = np.array([one.station for one in played])
    hits = np.array([[is_in_time(one.days_ahead(lead)) for lead in LEADS] for one in played])
    found = []
    for name in np.unique(names):
        best = int(np.argmax(hits[names != name].mean(axis=0)))
        found.append(hits[names == name][:, best])
    return float(np.concatenate(found).mean())


def rows_of(played: Sequence[StationYear], label: str) -> list[tuple[str, str]]:
    """Return the figures of some played years."""
    ahead = np.array([one.days_ahead() for one in played])
    pings = [one.first(lambda look: is_at_most(look.to_go_by, LEAD_DAYS)) for one in played]
    low, high = np.percentile([f_from_c(p.soil_5day_c) for p in pings if p], [5, 95])
    mean, bound = share_in_time(played)
    others: dict[str, Callable[[Look], bool]] = {
        "without the guards of warm and cold ground": lambda look: is_at_most(
            look.unguarded, LEAD_DAYS
        ),
        f"the median alone at {LEAD_DAYS - 1} days": lambda look: is_at_most(
            look.median, LEAD_DAYS - 1
        ),
        "the loss over the members": lambda look: look.members_speak,
    }
    lead_up, false_starts = [], 0
    for one, opened in zip(played, pings, strict=True):
        warmed = one.first(lambda look: is_at_most(look.to_go_by, HEADS_UP_DAYS))
        if opened is None or warmed is None:
            continue
        lead_up.append((opened.told_on - warmed.told_on).days)
        after = [look.to_go_by for look in one.looks if look.told_on > opened.told_on]
        limit = LEAD_DAYS + FALSE_START_DAYS
        false_starts += any(days is None or days > limit for days in after)
    days = np.array(lead_up)
    return [
        (
            f"window-open ping 10-35 days before emergence, {label} ({len(played)} years)",
            f"{mean:.3f} (lower bound {bound:.3f})",
        ),
        ("the same, the lead chosen without each station in turn", f"{left_out(played):.3f}"),
        *((f"the same, {name}", _other(played, rule)) for name, rule in others.items()),
        (f"emergence up to the day of one chance in five, {label}", _fifth(played)),
        (f"too early / too late, {label}", f"{(ahead > 35).sum()} / {(ahead < 10).sum()} years"),
        (f"ping under 7 days before, {label}", f"{int((ahead < 7).sum())} years"),
        (f"soil at the ping, 5th-95th percentile, {label}", f"{low:.1f}-{high:.1f} °F"),
        (
            f'"soil warming" 5-28 days before the ping, {label}',
            f"{np.sum((days >= 5) & (days <= 28)) / len(played):.3f}",
        ),
        (f"window opened more than once, {label}", f"{false_starts / len(played):.3f} of years"),
    ]


def _other(played: Sequence[StationYear], rule: Callable[[Look], bool]) -> str:
    told = [one.first(rule) for one in played]
    ahead = np.array(
        [
            -1 if look is None else (one.emerged_on - look.told_on).days
            for one, look in zip(played, told, strict=True)
        ]
    )
    hits = [is_in_time(int(days)) for days in ahead]
    bound = lower_bound([one.station for one in played], hits)
    return f"{np.mean(hits):.3f} (lower bound {bound:.3f}), under 7 days {(ahead < 7).sum()}"


def _fifth(played: Sequence[StationYear]) -> str:
    """Return how often emergence came before, and up to, the day of one chance in five."""
    left = [
        ((one.emerged_on - look.told_on).days, look.fifth)
        for one in played
        for look in one.looks
        if look.fifth is not None and is_at_most(look.median, 28)
    ]
    before = np.mean([days < fifth for days, fifth in left])
    up_to = np.mean([days <= fifth for days, fifth in left])
    return f"{before:.2f} before it, {up_to:.2f} with it (median up to 28 days)"


def climate_rows(played: Sequence[StationYear], label: str) -> list[tuple[str, str]]:
    """Return the share in time by climate."""
    found = []
    for kind in sorted({one.climate for one in played}):
        mine = [one for one in played if one.climate == kind]
        ahead = np.array([one.days_ahead() for one in mine])
        mean, bound = share_in_time(mine)
        places = len({one.station for one in mine})
        found.append(
            (
                f"10-35 days, {label}, {kind} ({places} stations, {len(mine)} years)",
                f"{mean:.3f} (lower bound {bound:.3f}), days {ahead.min()}-{ahead.max()}",
            )
        )
    return found


def rows() -> list[tuple[str, str]]:
    found = []
    for with_forecast, label in ((False, "no forecast"), (True, "emulated forecast")):
        played = station_years(with_forecast=with_forecast)
        found += rows_of(played, label) + climate_rows(played, label)
    return found


if __name__ == "__main__":
    for figure, measured in rows():
        print(f"{figure}: {measured}")
