"""What the soil of a yard does now, what it did in past years, and when the window comes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from typing import Final, Literal

from jobs import packed_cells
from jobs.agronomy.cross_checks import air_checks
from jobs.agronomy.past_band import past_band
from jobs.agronomy.place import RegionalDate, SpringPicture, regional_date, spring_picture
from jobs.agronomy.readout import chance_holds, crossing
from jobs.agronomy.season import Target
from jobs.agronomy.source_step import source_step
from jobs.agronomy.units import c_from_f
from jobs.agronomy.whats_next import Next, window_opens
from jobs.judged import Judged
from jobs.local_days import calendar_day, local, season_day
from jobs.outlooks import CellOutlook, Outlooks, judge
from jobs.packed_cells import HeldCell
from jobs.season_facts import late_summer_of, of_zones_left, plan_of, sight_of, whats_next_of
from jobs.sources.base import Cell, newest_known_day
from jobs.sources.timezones import standard_offset
from jobs.standing import standing_of
from jobs.yard_soil import YardSoil, as_reading, disagreement_c, of_yard
from storage.database import Work
from storage.readings import ReadingRecord
from storage.yards import YardRecord

#: The trade's band for having a pre-emergent down (Michigan State Ext. 2020; PNW Weed Handbook).
BAND_C: Final = (c_from_f(50.0), c_from_f(55.0))

_WARM_SPELL_DAYS: Final = 7
#: Rules that lie closer together than this do not disagree [days].
_AIR_DISAGREES_DAYS: Final = 7


@dataclass(frozen=True, slots=True)
class OwnThermometer:
    """The yard's readings beside the grid: the grid's 5-day mean, and the newest reading.

    `reading_c` is the newest reading's daily mean at 2 in [°C], of the day `read_on`. Where both
    disagree for sure, `apart_c` is how much warmer the readings have the ground, and `moves_days`
    how many days later they put the event (negative: earlier).
    """

    grid_5day_c: float | None
    reading_c: float
    read_on: date
    count: int
    apart_c: float | None = None
    moves_days: int = 0


@dataclass(frozen=True, slots=True)
class SoilReport:
    """Figures about one yard's soil, in local calendar days and °C.

    Attributes
    ----------
    judged
        Now, trend and event.
    past_mean_c, past_low_c, past_high_c
        Past years' 5-day mean for the same day, and the range of four years in five; None where
        there are no earlier years and no regional curve.
    basis
        What the past years stand on: ``own``, ``own and regional`` or ``regional``.
    upcoming
        What comes next, and until when.
    window_opens, window_closes
        When the window is expected to open, and the day by which the barrier must be in place.
    opens_early, opens_late
        The range of the opening (four chances in five).
    band_low_on, band_high_on
        When the 5-day mean is expected to reach 50 °F and 55 °F, median.
    chance_spell_holds
        Where the 5-day mean is above 50 °F before its time: the chance that it stays so for a week.
    spring
        What kind of spring the place has.
    regional
        The published date of its region, or None.
    own
        The yard's own thermometer, where it has been read.
    source_step_c
        How much warmer the source's soil stands against its air than in past years, where that is
        beyond chance; None also where its soil is itself estimated from air.
    air_rule_since
        Where a rule on air temperature has had crabgrass begin while the soil still has it a week
        off or more: since when.
    stands_in
        What stands in for past years of the place while they are still to be fetched: a region's
        usual year, or the years of a place close by.
    """

    judged: Judged
    upcoming: Next
    late_summer: Next | None
    past_mean_c: float | None
    past_low_c: float | None
    past_high_c: float | None
    past_years: int
    basis: str
    window_opens: date | None
    window_closes: date | None
    opens_early: date | None
    opens_late: date | None
    band_low_on: date | None
    band_high_on: date | None
    chance_spell_holds: float | None
    spring: SpringPicture
    regional: RegionalDate | None
    own: OwnThermometer | None
    air_rule_since: date | None
    place: str
    trouble_since: datetime | None
    source_step_c: float | None = None
    stands_in: Literal["region", "near"] | None = None


def report(
    work: Work, yard: YardRecord, source: str, outlooks: Outlooks, now: datetime
) -> SoilReport | None:
    """Return the report of a yard, or None while nothing is held for its place."""
    held = packed_cells.held(work, source, Cell.at(yard.lat, yard.lon))
    if held is None:
        return None
    issued = newest_known_day(now, standard_offset(yard.timezone))
    grid = outlooks.of(held, issued)
    standing = standing_of(work, yard)
    every = standing.readings
    soil = of_yard(grid, yard, every)
    cell = soil.outlook
    today = local(now, yard.timezone).date()
    sight = sight_of(work, yard, grid)
    judged = of_zones_left(
        standing, sight.judged[Target.SUMMER_ANNUALS], Target.SUMMER_ANNUALS, today
    )

    def back(day: date | None) -> date | None:
        return None if day is None else calendar_day(day, yard.lat)

    known = judged.known_until or issued
    known_on = season_day(known, yard.lat)
    band = cell.once(("band", known_on, 1), lambda: past_band(cell.climate, known_on, 1))
    lead_days = plan_of(standing, Target.SUMMER_ANNUALS).lead_days
    early, late = (
        None if day is None else day - timedelta(days=lead_days) for day in (judged.p10, judged.p90)
    )
    middle = judged.p50 and window_opens(judged.p50, judged.deadline_on, lead_days)
    return SoilReport(
        judged=judged,
        upcoming=whats_next_of(standing, Target.SUMMER_ANNUALS, now, sight.course, judged),
        late_summer=late_summer_of(standing, now, sight.course),
        past_mean_c=float(band.mean_c[0]),
        past_low_c=float(band.p10_c[0]),
        past_high_c=float(band.p90_c[0]),
        past_years=band.years,
        basis=str(cell.climate.basis),
        window_opens=middle,
        window_closes=judged.deadline_on,
        opens_early=early,
        opens_late=late,
        band_low_on=back(crossing(cell.outlook, BAND_C[0]).p50),
        band_high_on=back(crossing(cell.outlook, BAND_C[1]).p50),
        chance_spell_holds=_warm_spell(cell, judged, float(band.mean_c[0]), middle, today),
        spring=_spring(cell),
        regional=regional_date(yard.lat, yard.lon),
        own=_own(yard, every, grid, soil),
        air_rule_since=_air_rule_since(cell, judged, season_day(today, yard.lat)),
        place=held.record.place,
        trouble_since=held.record.trouble_since,
        source_step_c=_source_step_c(grid),
        stands_in=_stands_in(held),
    )


def _spring(cell: CellOutlook) -> SpringPicture:
    return cell.once("what spring", lambda: spring_picture(cell.climate.mean_c))


def _stands_in(held: HeldCell) -> Literal["region", "near"] | None:
    if held.record.recent_since is None:
        return None
    return "region" if held.lent is None else "near"


def _warm_spell(
    cell: CellOutlook, judged: Judged, usual_c: float, opens: date | None, today: date
) -> float | None:
    """Return the chance that a spell before its time holds; None where it is none."""
    if judged.soil_5day_c is None or opens is None or usual_c >= BAND_C[0]:
        return None
    if judged.soil_5day_c < BAND_C[0] or today >= opens:
        return None
    return chance_holds(cell.outlook, BAND_C[0], _WARM_SPELL_DAYS)


def _own(
    yard: YardRecord, every: Sequence[ReadingRecord], grid: CellOutlook, soil: YardSoil
) -> OwnThermometer | None:
    if not every:
        return None
    newest = every[-1]
    alone, blend = (judge(each, Target.SUMMER_ANNUALS) for each in (grid, soil.outlook))
    moves = timedelta(0)
    if alone.p50 is not None and blend.p50 is not None:
        moves = blend.p50 - alone.p50
    return OwnThermometer(
        grid_5day_c=alone.soil_5day_c,
        reading_c=as_reading(newest, yard, grid.known).mean_c,
        read_on=newest.read_on,
        count=len(every),
        apart_c=disagreement_c(grid, soil),
        moves_days=moves.days,
    )


def _source_step_c(grid: CellOutlook) -> float | None:
    if grid.held.record.soil_is_modelled:
        return None
    step = grid.once(
        "source step", lambda: source_step(grid.known, grid.outlook.issued, abs(grid.lat))
    )
    return step.step_c if step is not None and step.is_sure else None


def _air_rule_since(cell: CellOutlook, judged: Judged, today: date) -> date | None:
    if judged.p50 is None or _spring(cell).kind not in ("clear", "short"):
        return None
    if (season_day(judged.p50, cell.lat) - today).days < _AIR_DISAGREES_DAYS:
        return None
    if season_day(judged.p50, cell.lat).year != today.year:
        return None
    checks = cell.once(("air", today), lambda: air_checks(cell.known, today))
    reached = [check.low_on for check in checks]
    first = min((day for day in reached if day is not None), default=None)
    return None if first is None else calendar_day(first, cell.lat)
