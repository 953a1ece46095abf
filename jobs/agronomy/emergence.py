"""The emergence clock: when weeds come up, by degree-days and by thresholds of soil and air.

The clock that decides is smooth crabgrass on soil at 5 cm: degree-days over 12 °C from 1 March, 42
for the first visible seedlings (Fidanza, Dernoeden & Zhang 1996, Crop Sci. 36:990-996). They
counted at 2.5 cm; at 5 cm the daily mean runs some 0.5 °C cooler in spring (from memory), about
three days late, which is the wrong side: lean early. Every constant stands in ``weeds.toml`` with
its source and certainty.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from functools import cache
from typing import Any, Final, Literal

import numpy as np

from jobs.agronomy import tables
from jobs.agronomy.climatology import Climate
from jobs.agronomy.outlook import Outlook
from jobs.agronomy.readout import (
    DateQuantiles,
    DayQuantiles,
    crossing,
    degree_days_reach,
    in_days,
)
from jobs.agronomy.series import DailySeries
from jobs.agronomy.soil import (
    cooling_degree_days,
    degree_days_max_min,
    first_at_or_above,
)
from jobs.agronomy.units import c_from_f

MonthDay = tuple[int, int]
Rule = Literal["degree_days", "soil_rising", "soil_falling"]
Spring = Literal["clear", "short", "mild", "none"]

#: The weed the clock of the season runs by.
LEADING_WEED: Final = "smooth_crabgrass"

#: Above this mean soil temperature on 1 March the count has to start before it [°C].
_MILD_MARCH_C: Final = 10.0

#: A soil that never falls below this in the mean year has no spring to wait for: 50 °F [°C].
_NO_WINTER_C: Final = 10.0

#: A soil still below this three weeks before emergence leaves little time: 46 °F [°C].
_COLD_AT_ACTION_C: Final = 7.8


@dataclass(frozen=True, slots=True)
class Stage:
    """A stage of emergence: reached at ``at`` (degree-days [°C d], or soil temperature [°C])."""

    name: str
    at: float


@dataclass(frozen=True, slots=True)
class Weed:
    """How one weed's emergence is told.

    ``base_c`` and ``count_from`` are None for rules on soil temperature.
    """

    name: str
    rule: Rule
    base_c: float | None
    count_from: MonthDay | None
    stages: tuple[Stage, ...]
    source: str
    certainty: str


@dataclass(frozen=True, slots=True)
class StageDates:
    """When one stage of one weed is reached."""

    weed: str
    stage: str
    when: DateQuantiles


@dataclass(frozen=True, slots=True)
class AirCheck:
    """What a rule on air temperature says by a day.

    Attributes
    ----------
    name
        Of the rule in the table.
    says
        What the rule speaks of: ``"emergence"`` or the time to ``"apply"``.
    sum_f
        Degree-days so far [°F d]; missing days were bridged.
    low_f, high_f
        The band in which the thing happens [°F d].
    low_on, high_on
        Days on which the ends of the band were reached, or None.
    missing_days
        Days of the count without air data.
    source, certainty
        Of the constants.
    """

    name: str
    says: str
    sum_f: float
    low_f: float
    high_f: float
    low_on: date | None
    high_on: date | None
    missing_days: int
    source: str
    certainty: str


@dataclass(frozen=True, slots=True)
class CoolingCheck:
    """Cooling degree-days of late summer by a day [°C d], and when the band's ends were reached."""

    sum_c: float
    low_c: float
    high_c: float
    low_on: date | None
    high_on: date | None
    missing_days: int


@cache
def weeds() -> dict[str, Weed]:
    """Return every weed of the table by name. Treat as read-only: it is shared."""
    table = tables.load("weeds")
    return {
        name: _weed(name, row)
        for season in ("summer", "winter")
        for name, row in table[season].items()
    }


def emergence(
    outlook: Outlook,
    weed: str = LEADING_WEED,
    stage: str | None = None,
    *,
    count_from: MonthDay | None = None,
) -> DateQuantiles:
    """Return when a weed reaches a stage.

    Parameters
    ----------
    outlook
        The outlook.
    weed
        Name in the table.
    stage
        Name of the stage; default: the first one of the weed (``"heads_up"`` for annual
        bluegrass).
    count_from
        Month and day degree-days are counted from; default: the weed's own (1 March). See
        `count_start` for mild winters.

    Raises
    ------
    KeyError
        If there is no such weed or stage.
    """
    row = weeds()[weed]
    by_name = {s.name: s for s in row.stages}
    wanted = row.stages[0] if stage is None else by_name[stage]
    if row.base_c is None:
        return crossing(outlook, wanted.at, "rising" if row.rule == "soil_rising" else "falling")
    start = count_from or row.count_from or (3, 1)
    return degree_days_reach(outlook, row.base_c, wanted.at, date(outlook.spring_year, *start))


def stages(
    outlook: Outlook, weed: str = LEADING_WEED, *, count_from: MonthDay | None = None
) -> tuple[StageDates, ...]:
    """Return when a weed reaches each of its stages, in order."""
    return tuple(
        StageDates(weed, stage.name, emergence(outlook, weed, stage.name, count_from=count_from))
        for stage in weeds()[weed].stages
    )


def days_to_emergence(
    outlook: Outlook,
    today: date,
    weed: str = LEADING_WEED,
    *,
    count_from: MonthDay | None = None,
) -> DayQuantiles:
    """Return in how many days from ``today`` the first seedlings are due.

    Negative when past, None beyond the end of the season.
    """
    return in_days(emergence(outlook, weed, count_from=count_from), today)


def count_start(climate: Climate) -> MonthDay:
    """Return from which month and day degree-days are to be counted.

    1 March, as in the back-tests, where the mean soil is still below 10 °C then. Where it is
    warmer, seeds have been counting before: from the coldest day of the mean year on (not before
    1 January). An inference, no source.
    """
    if climate.mean_c[60] < _MILD_MARCH_C:
        return (3, 1)
    coldest = int(np.argmin(climate.mean_c[:60]))
    day = date(2000, 1, 1) + timedelta(days=coldest)
    return (day.month, day.day)


def spring_of(climate: Climate) -> Spring:
    """Return what kind of spring a place has.

    ``"none"``: the mean soil never falls below 50 °F, so that no rise can be waited for: regional
    date and scouting. ``"mild"``: the count starts before March (`count_start`). ``"short"``: three
    weeks before mean emergence the soil is below 46 °F, so that the heads-up is the real alert.
    ``"clear"``: the rest. The limits are inferences, no source.
    """
    if climate.mean_c.min() >= _NO_WINTER_C:
        return "none"
    if count_start(climate) != (3, 1):
        return "mild"
    weed = weeds()[LEADING_WEED]
    warmth = np.maximum(climate.mean_c[60:213] - (weed.base_c or 0.0), 0.0).cumsum()
    there = int(first_at_or_above(warmth, weed.stages[0].at))
    if there < 0:
        return "short"
    return "short" if climate.mean_c[60 + there - 21] < _COLD_AT_ACTION_C else "clear"


def air_checks(recent: DailySeries, today: date) -> tuple[AirCheck, ...]:
    """Return what the rules on air temperature say by ``today``, for the year of ``today``.

    They are cross-checks only: counted from 1 January they are passed in midwinter where winters
    are mild. Missing days are bridged by a straight line and counted.
    """
    found = []
    for name, row in tables.load("weeds")["air"].items():
        start = date(today.year, *row["count_from"])
        window = recent.until(today).on(start, max(start, today))
        middle = (window.tmax_c + window.tmin_c) / 2
        bridged, missing = _bridged(middle)
        sums = 1.8 * degree_days_max_min(bridged, bridged, c_from_f(row["base_f"])).cumsum()
        found.append(
            AirCheck(
                name=name,
                says=row["says"],
                sum_f=float(sums[-1]),
                low_f=row["low_f"],
                high_f=row["high_f"],
                low_on=_day_of(sums, row["low_f"], start),
                high_on=_day_of(sums, row["high_f"], start),
                missing_days=missing,
                source=row["source"],
                certainty=row["certainty"],
            )
        )
    return tuple(found)


def cooling_check(recent: DailySeries, today: date) -> CoolingCheck:
    """Return the cooling degree-days of annual bluegrass by ``today``, from 21 June of its year."""
    row = tables.load("weeds")["cooling"]["annual_bluegrass"]
    start = date(today.year, *row["count_from"])
    window = recent.until(today).on(start, max(start, today))
    bridged, missing = _bridged(window.tmean_c)
    sums = cooling_degree_days(bridged, row["base_c"]).cumsum()
    return CoolingCheck(
        sum_c=float(sums[-1]),
        low_c=row["low_c"],
        high_c=row["high_c"],
        low_on=_day_of(sums, row["low_c"], start),
        high_on=_day_of(sums, row["high_c"], start),
        missing_days=missing,
    )


def _weed(name: str, row: dict[str, Any]) -> Weed:
    stages_ = tuple(
        Stage(s["name"], s["degree_days"] if "degree_days" in s else c_from_f(s["soil_f"]))
        for s in row["stages"]
    )
    start = row.get("count_from")
    return Weed(
        name=name,
        rule=row["rule"],
        base_c=row.get("base_c"),
        count_from=None if start is None else (start[0], start[1]),
        stages=stages_,
        source=row["source"],
        certainty=row["certainty"],
    )


def _bridged(values: np.ndarray[Any, np.dtype[np.float64]]) -> tuple[Any, int]:
    known = np.flatnonzero(~np.isnan(values))
    missing = len(values) - len(known)
    if not len(known):
        return np.full(len(values), -np.inf), missing
    return np.interp(np.arange(len(values)), known, values[known]), missing


def _day_of(sums: Any, wanted: float, start: date) -> date | None:
    there = int(first_at_or_above(sums, wanted))
    return None if there < 0 else start + timedelta(days=there)
