"""When each weed comes up this year, by the soil, and what the rules on air temperature say."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta
from typing import Final

from jobs import packed_cells
from jobs.agronomy.cross_checks import air_checks
from jobs.agronomy.emergence import emergence
from jobs.agronomy.readout import DateQuantiles
from jobs.local_days import calendar_day, local, season_day
from jobs.outlooks import Outlooks
from jobs.sources.base import Cell, newest_known_day
from jobs.sources.timezones import standard_offset
from jobs.standing import standing_of
from jobs.yard_soil import of_yard
from storage.database import Work
from storage.yards import YardRecord

#: Goosegrass comes at 60-65 °F, usually 2-6 weeks after crabgrass (T. R. Murphy, Univ. of Georgia
#: lecture notes): a first warm spell alone does not bring it.
_LATER_WEED: Final = "goosegrass"
_AFTER_CRABGRASS: Final = timedelta(weeks=2)

#: The stages people are told of, by weed: early and late end of each.
_STAGES: Final = (
    ("smooth_crabgrass", "first"),
    ("smooth_crabgrass", "major"),
    ("foxtails", "tenth"),
    ("goosegrass", "first"),
)


@dataclass(frozen=True, slots=True)
class WeedDate:
    """When a stage of a weed is reached: early, middle and late (four chances in five)."""

    weed: str
    stage: str
    p10: date | None
    p50: date | None
    p90: date | None


@dataclass(frozen=True, slots=True)
class AirRule:
    """A rule on air temperature by today, in °F degree-days; `reached_on`: its lower end."""

    name: str
    sum_f: float
    low_f: float
    high_f: float
    reached_on: date | None


@dataclass(frozen=True, slots=True)
class EmergenceClock:
    """All of it, in local calendar days."""

    weeds: tuple[WeedDate, ...]
    air: tuple[AirRule, ...]


def clock(
    work: Work, yard: YardRecord, source: str, outlooks: Outlooks, now: datetime
) -> EmergenceClock | None:
    """Return the clock of a yard, or None while nothing is held for its place."""
    held = packed_cells.held(work, source, Cell.at(yard.lat, yard.lon))
    if held is None:
        return None
    grid = outlooks.of(held, newest_known_day(now, standard_offset(yard.timezone)))
    cell = of_yard(grid, yard, standing_of(work, yard).readings).outlook
    today = season_day(local(now, yard.timezone).date(), yard.lat)

    def back(day: date | None) -> date | None:
        return None if day is None else calendar_day(day, yard.lat)

    first = emergence(cell.outlook, count_from=cell.count_from)
    found = []
    for weed, stage in _STAGES:
        if weed == _LATER_WEED:
            when = _later(emergence(cell.outlook, weed, stage), first)
        else:
            when = emergence(cell.outlook, weed, stage, count_from=cell.count_from)
        found.append(WeedDate(weed, stage, back(when.p10), back(when.p50), back(when.p90)))
    rules = tuple(
        AirRule(check.name, check.sum_f, check.low_f, check.high_f, back(check.low_on))
        for check in air_checks(cell.known, today)
    )
    return EmergenceClock(tuple(found), rules)


def _later(when: DateQuantiles, first: DateQuantiles) -> DateQuantiles:
    """Return dates that are at least `_AFTER_CRABGRASS` after those of first crabgrass."""

    def later(day: date | None, before: date | None) -> date | None:
        return None if day is None or before is None else max(day, before + _AFTER_CRABGRASS)

    return replace(
        when,
        p10=later(when.p10, first.p10),
        p50=later(when.p50, first.p50),
        p90=later(when.p90, first.p90),
    )
