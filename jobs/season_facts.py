"""What a yard's season is judged by: its plan, its facts, and what can be seen of its soil."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta

from jobs import packed_cells
from jobs.agronomy.late_summer import autumn_date
from jobs.agronomy.ledger import is_round_left
from jobs.agronomy.season import (
    PLANS,
    Confirmed,
    Facts,
    Kind,
    Plan,
    RoundNow,
    State,
    Target,
    programme_now,
    retreat_due_on,
    round_now,
)
from jobs.agronomy.series import DailySeries
from jobs.agronomy.timing import days_to_go_by, pace_of
from jobs.agronomy.whats_next import Next, Stage, whats_next
from jobs.barriers import Course, ZoneBarrier, ends_on, zone_barriers
from jobs.judged import Judged
from jobs.local_days import calendar_day, local, season_day
from jobs.outlooks import CellOutlook, Outlooks, judge
from jobs.rounds import is_dormant_half, planned_for, targets_of
from jobs.seeded import given_to_seed
from jobs.sources.base import Cell, newest_known_day
from jobs.sources.timezones import standard_offset
from jobs.standing import Standing, standing_of
from jobs.yard_soil import exposures_of, of_yard, with_turns, zone_outlooks
from storage.database import Work
from storage.yards import YardRecord


def plan_of(standing: Standing, target: Target) -> Plan:
    """Return a yard's plan for a target: the target's own, with the yard's settings and product.

    The product moves the lead only where nobody has set it.
    """
    plan = PLANS[target]
    if target is not Target.SUMMER_ANNUALS:
        return plan
    yard, product = standing.yard, standing.product
    label_days = None if product is None else product.smallest_interval_days
    pace = pace_of(() if product is None else product.ingredient_names)
    lead_days = yard.lead_days
    if not yard.is_lead_set:
        lead_days += pace.lead_shift_days
    # The other thresholds keep their distance from the lead.
    longer = lead_days - plan.lead_days
    return replace(
        plan,
        lead_days=lead_days,
        heads_up_days=plan.heads_up_days + longer,
        act_now_days=min(plan.act_now_days, lead_days),
        grace_days=pace.grace_days,
        split_days=max(yard.split_days, label_days or 0),
        rounds=yard.rounds,
    )


def season_facts(
    standing: Standing,
    judged: Judged | None,
    target: Target,
    today: date,
    course: Course | None = None,
) -> Facts:
    """Return the facts of a target on a northern day, from a yard as it stands and is judged.

    Without the soil's `course` nothing is said of how long the barrier holds.
    """
    yard = standing.yard
    to_seed = given_to_seed(standing, target, today.year, today)
    zones = frozenset(zone.id for zone in standing.programme if zone.id not in to_seed)
    done_this_season = standing.of_season(target, today.year)
    confirmed = _confirmed(standing, target, today.year)

    def days_to(event: date | None) -> int | None:
        # From the middle of the year on an outlook speaks of the next spring.
        if judged is None or event is None or season_day(event, yard.lat).year != today.year:
            return None
        days = (season_day(event, yard.lat) - today).days
        p10, p90 = (_apart(judged.p50, end, days) for end in (judged.p10, judged.p90))
        # Warm ground brings spring's weeds nearer; late summer's come as it cools.
        soil_c = judged.soil_5day_c if target is Target.SUMMER_ANNUALS else None
        return days_to_go_by(days, soil_c, p10_days=p10, p90_days=p90)

    is_allowed = not confirmed or is_more_allowed(standing, today)
    barrier_ends_on = None
    if course is not None and confirmed:
        treated = [zone for zone in standing.zones if zone.id in zones]
        found = ends_on(zone_barriers(standing, treated, course, target, today.year))
        barrier_ends_on = None if found is None else season_day(found, yard.lat)
    splits_from = None
    if any(is_dormant_half(done.applied_on, done.year, yard.lat) for done in done_this_season):
        splits_from = _window_opens(standing, judged, target, today)
    warned_on = None if judged is None else judged.warned_on
    is_dated_window, is_dated_last_call = _is_dated(yard, target, today)
    return Facts(
        days_to_go=None if judged is None else days_to(judged.p50),
        days_to_first=None if judged is None else days_to(judged.first_p50),
        zones=zones,
        confirmed=confirmed,
        is_retreat_allowed=is_allowed,
        barrier_ends_on=barrier_ends_on,
        splits_from=splits_from,
        is_heads_up_due=warned_on is not None and season_day(warned_on, yard.lat) <= today,
        is_window_due=is_dated_window,
        is_last_call_due=is_dated_last_call,
    )


def _is_dated(yard: YardRecord, target: Target, today: date) -> tuple[bool, bool]:
    """Tell whether a published date of the region opens the window, and calls for the last time."""
    region = autumn_date(yard.lat, yard.lon)
    if target is not Target.WINTER_ANNUALS or not region.is_published:
        return False, False
    last = date(today.year, *region.last)
    is_last_call = region.last_call_on(today.year) <= today <= last
    return region.opens_on(today.year) <= today, is_last_call


def _apart(middle: date | None, end: date | None, days: int) -> int | None:
    """Return the days to an end of the range that lies about a middle so many days off."""
    return None if middle is None or end is None else days + (end - middle).days


def of_zones_left(standing: Standing, judged: Judged, target: Target, today: date) -> Judged:
    """Return the figures of the zones still without a first round on a local day."""
    if not judged.turns:
        return judged
    year = season_day(today, standing.yard.lat).year
    left = [
        zone.name for zone in standing.programme if not standing.progress(zone, target, year).had
    ]
    return judged.of_zones_left(left, today, plan_of(standing, target).grace_days)


def round_of(standing: Standing, target: Target, today: date) -> RoundNow:
    """Return the round that a target's programme comes to next, on a northern day."""
    facts = season_facts(standing, None, target, today)
    record = standing.season(target)
    told = () if record is None or record.year != today.year else record.told
    now = round_now(facts, told)
    if record is None or record.outlook is None or record.year != today.year:
        return now
    # What is late while others are not waits for nobody, and nobody for it.
    names = Judged.from_json(record.outlook).late
    late = {zone.id for zone in standing.zones if zone.name in names} & now.zones
    return replace(now, zones=(now.zones - late) or now.zones, late=now.late | late)


@dataclass(frozen=True, slots=True)
class NextHalf:
    """When the next half is due by the plan, in local days, and whether the label leaves it.

    `zones` are the names of those it is still due on, where others have had it; else empty.
    """

    on: date
    is_allowed: bool
    zones: tuple[str, ...] = ()


def next_half(
    standing: Standing, target: Target, now: datetime, course: Course | None = None
) -> NextHalf | None:
    """Return a yard's next half, or None if none is to come, as once the season is over."""
    yard, plan = standing.yard, plan_of(standing, target)
    day = season_day(local(now, yard.timezone).date(), yard.lat)
    if (day.month, day.day) >= plan.season_ends:
        return None
    record = standing.season(target)
    judged = None
    if record is not None and record.outlook is not None:
        judged = Judged.from_json(record.outlook)
    facts = season_facts(standing, judged, target, day, course)
    told = () if record is None or record.year != day.year else record.told
    due = retreat_due_on(programme_now(facts, told), plan)
    if due is None:
        return None
    is_allowed = is_more_allowed(standing, max(due, day))
    still = round_now(facts, told).zones
    begun = any(zone.id in facts.zones - still for zone in standing.zones)
    names = [zone.name for zone in standing.zones if begun and zone.id in still]
    return NextHalf(calendar_day(due, yard.lat), is_allowed, tuple(names))


def whats_next_of(
    standing: Standing,
    target: Target,
    now: datetime,
    course: Course | None = None,
    judged: Judged | None = None,
) -> Next:
    """Return what a target of a yard comes to next: what everything that is said of it stands on.

    The soil's `course` tells the next half by the end of the barrier, where that comes first.
    `judged` are its figures just now; those of the newest look, where none are given.
    """
    yard, record = standing.yard, standing.season(target)
    today = local(now, yard.timezone).date()
    day = season_day(today, yard.lat)
    if record is None or record.year != day.year or record.outlook is None:
        return Next(Stage.FAR)
    judged, plan = judged or Judged.from_json(record.outlook), plan_of(standing, target)
    half = next_half(standing, target, now, course)
    found = whats_next(
        State(record.state),
        today,
        event_on=judged.p50,
        deadline_on=judged.deadline_on,
        one_in=judged.one_in,
        lead_days=plan.lead_days,
        grace_days=plan.grace_days,
        is_missed=Kind.WINDOW_MISSED in record.told,
        is_round_left=is_more_allowed(standing, day),
        half_on=half.on if half is not None and half.is_allowed else None,
    )
    is_half = found.stage in (Stage.DOWN, Stage.HALF_DUE)
    return replace(found, zones=half.zones) if half is not None and is_half else found


def late_summer_of(standing: Standing, now: datetime, course: Course | None = None) -> Next | None:
    """Return what the late-summer round comes to next, in its time; None in any other."""
    today = local(now, standing.yard.timezone).date()
    if planned_for(standing, today)[0] is not Target.WINTER_ANNUALS:
        return None
    return whats_next_of(standing, Target.WINTER_ANNUALS, now, course)


@dataclass(frozen=True, slots=True, eq=False)
class Sight:
    """What can be seen of a yard: figures by target, its cell, the soil's course."""

    judged: dict[Target, Judged]
    cell: CellOutlook
    course: Course

    @property
    def known(self) -> DailySeries:
        """The cell's known days."""
        return self.cell.held.known


def sight_of(work: Work, yard: YardRecord, cell: CellOutlook) -> Sight:
    """Return what a cell shows of a yard, shifted by the yard's own thermometer."""
    standing = standing_of(work, yard)
    every, zones = standing.readings, standing.zones
    if not every and not exposures_of(zones):
        return sight_of_cell(cell, yard)
    soil = of_yard(cell, yard, every).outlook
    judged = {target: judge(soil, target) for target in targets_of(yard)}
    spring = judged.get(Target.SUMMER_ANNUALS)
    if spring is not None:
        judged[Target.SUMMER_ANNUALS] = with_turns(cell, yard, every, zones, spring)
    return Sight(judged, cell, Course(soil, zone_outlooks(cell, yard, every, zones)))


def sight_of_cell(cell: CellOutlook, yard: YardRecord) -> Sight:
    """Return what a cell shows of every yard without a soil of its own, reckoned once for all."""
    judged = {target: judge(cell, target) for target in targets_of(yard)}
    return Sight(judged, cell, Course(cell))


def sight_now(
    work: Work, yard: YardRecord, source: str, outlooks: Outlooks, now: datetime
) -> Sight | None:
    """Return what can be seen of a yard at ``now``; None while nothing is held for its place."""
    held = packed_cells.held(work, source, Cell.at(yard.lat, yard.lon))
    if held is None:
        return None
    issued = newest_known_day(now, standard_offset(yard.timezone))
    return sight_of(work, yard, outlooks.of(held, issued))


def barriers_of(
    standing: Standing, target: Target, course: Course, today: date
) -> list[ZoneBarrier]:
    """Return the barriers of a yard's programme zones on a northern day, once it was treated."""
    if not standing.of_season(target, today.year):
        return []
    return zone_barriers(standing, standing.programme, course, target, today.year)


def _window_opens(standing: Standing, judged: Judged | None, target: Target, today: date) -> date:
    """Return the northern day on which this spring's window opens, the year's end if not known."""
    if judged is not None and judged.p50 is not None:
        opens = season_day(judged.p50, standing.yard.lat)
        if opens.year == today.year:
            return opens - timedelta(days=plan_of(standing, target).lead_days)
    return date(today.year, 12, 31)


def is_more_allowed(standing: Standing, today: date) -> bool:
    """Tell whether the chosen product's label leaves another whole round on a northern day."""
    if standing.product is None:
        return True
    histories = [standing.history(zone) for zone in standing.programme]
    return is_round_left(histories, standing.product, calendar_day(today, standing.yard.lat))


def _confirmed(standing: Standing, target: Target, year: int) -> tuple[Confirmed, ...]:
    """Return which zones had a whole round, and when; parts count with the last of them."""
    had: dict[date, set[int]] = {}
    several: list[Confirmed] = []
    for zone in standing.zones:
        for day in standing.progress(zone, target, year).had:
            if zone.id in had.setdefault(day, set()):
                several.append(Confirmed(season_day(day, standing.yard.lat), frozenset({zone.id})))
            had[day].add(zone.id)
    days = [Confirmed(season_day(day, standing.yard.lat), frozenset(had[day])) for day in had]
    return tuple(sorted([*days, *several], key=lambda each: each.on))
