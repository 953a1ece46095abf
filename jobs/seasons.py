"""One look at one yard: facts together, season moved, alerts written, all in one unit of work."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta
from typing import Any, Final

import numpy as np

from jobs import cells
from jobs.agronomy.amounts import amount_for
from jobs.agronomy.season import (
    PLANS,
    Confirmed,
    Facts,
    Kind,
    Plan,
    Season,
    State,
    Target,
    retreat_due_on,
    rounds_done,
    step,
)
from jobs.agronomy.series import DailySeries
from jobs.agronomy.timing import days_to_go_by, pace_of
from jobs.allowed import entries_of, is_any_left
from jobs.barriers import Course, ZoneBarrier, ends_on, zone_barriers
from jobs.labels import product_of, product_of_snapshot
from jobs.local_days import calendar_day, local, season_day
from jobs.manners import first_awake
from jobs.outlooks import CellOutlook, Judged, Outlooks, judge
from jobs.rounds import is_dormant_half, rounds_of, targets_of
from jobs.seeded import given_to_seed
from jobs.sources.base import Cell, newest_known_day
from jobs.sources.timezones import standard_offset
from jobs.turf_limits import room
from jobs.weather_of_day import water_terms
from jobs.yard_soil import of_yard, with_turns
from jobs.year_round import Word, late_summer_facts, words_of
from storage import alerts, applications, crews, products, readings, seasons, wishes, yards
from storage.applications import ApplicationRecord
from storage.database import Work
from storage.seasons import SeasonRecord
from storage.yards import YardRecord, ZoneRecord

#: Days within which the barrier is watered in (Univ. of Arkansas Extension 2009); how much, and the
#: label's own terms, in `jobs.weather_of_day.water_terms`.
WATER_IN_WITHIN_DAYS: Final = 7

#: Data older than this is said to be stale where a decision hangs on it [days].
_STALE_AFTER_DAYS: Final = 3
_DECISION_NEAR_DAYS: Final = 45


@dataclass(frozen=True, slots=True)
class Moved:
    """What one look changed for one target: for those who write histories."""

    target: str
    state: str
    is_state_changed: bool
    alerts: tuple[str, ...]
    why: str
    judged: Judged | None


def plan_of(work: Work, yard: YardRecord, target: Target) -> Plan:
    """Return a yard's plan for a target: the target's own, with the yard's settings and product.

    The product moves the lead only where nobody has set it.
    """
    plan = PLANS[target]
    if target is not Target.SUMMER_ANNUALS:
        return plan
    pace = pace_of(_ingredients(work, yard))
    lead_days = yard.lead_days
    if lead_days == plan.lead_days:
        lead_days += pace.lead_shift_days
    # The other thresholds keep their distance from the lead.
    longer = lead_days - plan.lead_days
    return replace(
        plan,
        lead_days=lead_days,
        heads_up_days=plan.heads_up_days + longer,
        act_now_days=min(plan.act_now_days, lead_days),
        grace_days=pace.grace_days,
        split_days=max(yard.split_days, _label_interval_days(work, yard)),
        rounds=yard.rounds,
    )


def _label_interval_days(work: Work, yard: YardRecord) -> int:
    """Return the least days between applications by the chosen product's label, 0 if not known."""
    if yard.product_id is None:
        return 0
    return products.product(work, yard.product_id).smallest_interval_days or 0


def _ingredients(work: Work, yard: YardRecord) -> tuple[str, ...]:
    if yard.product_id is None:
        return ()
    return tuple(row["name"] for row in products.product(work, yard.product_id).ingredients)


def season_facts(
    work: Work,
    yard: YardRecord,
    judged: Judged | None,
    target: Target,
    today: date,
    course: Course | None = None,
) -> Facts:
    """Return the facts of a target on a northern day, from what is stored and judged.

    Without the soil's `course` nothing is said of how long the barrier holds.
    """
    kept = yards.zones(work, yard.id)
    to_seed = given_to_seed(work, yard, target, today.year)
    zones = frozenset(
        zone.id for zone in kept if zone.is_treated and zone.name.casefold() not in to_seed
    )
    done_this_season = [
        done
        for done in applications.of_yard(work, yard.id)
        if done.target == target and done.year == today.year
    ]
    confirmed = tuple(
        Confirmed(season_day(done.applied_on, yard.lat), _current(kept, done))
        for done in done_this_season
    )
    days_to_go = None
    if judged is not None and judged.p50 is not None:
        event = season_day(judged.p50, yard.lat)
        # From the middle of the year on an outlook speaks of the next spring.
        if event.year == today.year:
            days_to_go = (event - today).days
            if target is Target.SUMMER_ANNUALS:
                days_to_go = days_to_go_by(days_to_go, judged.soil_5day_c)
    is_allowed = not confirmed or _is_more_allowed(work, yard, kept, today)
    barrier_ends_on = None
    if course is not None and confirmed:
        treated = [zone for zone in kept if zone.id in zones]
        found = ends_on(zone_barriers(work, yard, treated, course, target, today.year))
        barrier_ends_on = None if found is None else season_day(found, yard.lat)
    splits_from = None
    if any(is_dormant_half(done.applied_on, done.year, yard.lat) for done in done_this_season):
        splits_from = _window_opens(work, yard, judged, target, today)
    warned_on = None if judged is None else judged.warned_on
    return Facts(
        days_to_go=days_to_go,
        zones=zones,
        confirmed=confirmed,
        is_retreat_allowed=is_allowed,
        barrier_ends_on=barrier_ends_on,
        splits_from=splits_from,
        is_heads_up_due=warned_on is not None and season_day(warned_on, yard.lat) <= today,
    )


def _window_opens(
    work: Work, yard: YardRecord, judged: Judged | None, target: Target, today: date
) -> date:
    """Return the northern day on which this spring's window opens, the year's end if not known."""
    if judged is not None and judged.p50 is not None:
        opens = season_day(judged.p50, yard.lat)
        if opens.year == today.year:
            return opens - timedelta(days=plan_of(work, yard, target).lead_days)
    return date(today.year, 12, 31)


@dataclass(frozen=True, slots=True, eq=False)
class Sight:
    """What can be seen of a yard: figures by target, the cell's known days, the soil's course."""

    judged: dict[Target, Judged]
    known: DailySeries
    course: Course


def sight_of(work: Work, yard: YardRecord, cell: CellOutlook) -> Sight:
    """Return what a cell shows of a yard, shifted by the yard's own thermometer."""
    every = readings.of_yard(work, yard.id)
    soil = of_yard(cell, yard, every).outlook
    judged = {target: judge(soil, target) for target in targets_of(yard)}
    spring = judged.get(Target.SUMMER_ANNUALS)
    if spring is not None:
        zones = yards.zones(work, yard.id)
        judged[Target.SUMMER_ANNUALS] = with_turns(cell, yard, every, zones, spring)
    return Sight(judged, cell.held.known, Course(soil))


def sight_now(
    work: Work, yard: YardRecord, source: str, outlooks: Outlooks, now: datetime
) -> Sight | None:
    """Return what can be seen of a yard at ``now``; None while nothing is held for its place."""
    held = cells.held(work, source, Cell.at(yard.lat, yard.lon))
    if held is None:
        return None
    issued = newest_known_day(now, standard_offset(yard.timezone))
    return sight_of(work, yard, outlooks.of(held, issued))


def barriers_of(
    work: Work, yard: YardRecord, target: Target, course: Course, today: date
) -> list[ZoneBarrier]:
    """Return the barriers of a yard's programme zones on a northern day, once it was treated."""
    if not rounds_of(work, yard.id, target, today.year):
        return []
    zones = [zone for zone in yards.zones(work, yard.id) if zone.is_treated]
    return zone_barriers(work, yard, zones, course, target, today.year)


def look(
    work: Work,
    yard: YardRecord,
    judged: dict[Target, Judged],
    known: DailySeries | None,
    now: datetime,
    *,
    person_id: int | None = None,
    keeps_quiet_hours: bool = True,
    course: Course | None = None,
) -> list[Moved]:
    """Move a yard's seasons to what is true at ``now``; write states and alerts together.

    Parameters
    ----------
    work
        The open unit of work.
    yard
        The yard.
    judged
        Figures by target; a target without any is judged by its newest stored ones.
    known
        The cell's known days (calendar days), for the rain; None where none are at hand.
    now
        The instant.
    person_id
        Who caused the look, if a person did.
    keeps_quiet_hours
        False where alerts are wanted at once, whatever the hour.
    course
        The soil's course, for how long the barrier holds; None: nothing is said of it.
    """
    today = local(now, yard.timezone).date()
    moved = [
        _look_at_target(work, yard, target, judged.get(target), today, now, person_id, course)
        for target in targets_of(yard)
    ]
    due_at = now
    if keeps_quiet_hours:
        due_at = first_awake(now, yard.timezone, wishes.of_chat(work, yard.chat_id))
    for change in moved:
        for kind in change.alerts:
            _tell(work, yard, change, Kind(kind), today, now, due_at)
    if person_id is None:
        # Somebody who has just spoken is answered; what the rain did is told in the morning.
        for kind, done, facts in _look_at_watering(work, yard, known, today):
            change = next((each for each in moved if each.target == done.target), moved[0])
            _tell(work, yard, change, kind, today, now, due_at, about=done, more=facts)
        for change in moved:
            for word in _words(work, yard, change, course, today):
                _tell(work, yard, change, word.kind, today, now, due_at, word=word)
        _look_at_age(work, yard, moved, today, now, due_at)
    return moved


def _look_at_target(
    work: Work,
    yard: YardRecord,
    target: Target,
    judged: Judged | None,
    today: date,
    now: datetime,
    person_id: int | None,
    course: Course | None,
) -> Moved:
    day = season_day(today, yard.lat)
    record = seasons.season(work, yard.id, target) or seasons.begin(
        work, yard.id, target, year=day.year, state=State.WAITING, since=day
    )
    if judged is None and record.outlook is not None:
        judged = Judged.from_json(record.outlook)
    facts = season_facts(work, yard, judged, target, day, course)
    plan = plan_of(work, yard, target)

    before = _season(record)
    season = before
    told: list[Kind] = []
    whys: list[str] = []
    # A look may cross two arrows at once, say when two rounds are confirmed together.
    for _ in range(len(State)):
        result = step(season, facts, plan, day)
        told.extend(result.alerts)
        if result.why:
            whys.append(result.why)
        is_settled = result.season.state is season.state
        season = result.season
        if is_settled:
            break
    outlook = record.outlook if judged is None else judged.to_json()
    if season != before or outlook != record.outlook:
        seasons.save(work, _record(record, season, outlook))
    if season.state is not before.state:
        seasons.note_event(
            work,
            yard_id=yard.id,
            target=target,
            year=season.year,
            at=now,
            state_before=before.state,
            state_after=season.state,
            why=", ".join(whys),
            person_id=person_id,
            facts=outlook or {},
        )
        _withdraw_untrue(work, yard, target, season.state)
    return Moved(
        target=target,
        state=season.state,
        is_state_changed=season.state is not before.state,
        alerts=tuple(str(kind) for kind in told),
        why=", ".join(whys),
        judged=judged,
    )


def _look_at_watering(
    work: Work, yard: YardRecord, known: DailySeries | None, today: date
) -> list[tuple[Kind, ApplicationRecord, dict[str, Any]]]:
    """Note what has been watered in; return at most one thing to tell of each kind.

    Zones done on neighbouring days wait for the same rain: the newest that is done, and the oldest
    that is not, speak for the others.
    """
    since = today - timedelta(days=2 * WATER_IN_WITHIN_DAYS)
    done_with: dict[Kind, tuple[Kind, ApplicationRecord, dict[str, Any]]] = {}
    waiting = [
        done
        for done in applications.of_yard(work, yard.id, since=since)
        if done.watered_in_on is None
    ]
    if not waiting:
        return []
    wanted = water_terms(work, yard)
    for done in waiting:
        had_mm = water_since(work, yard, known, done.applied_on)
        facts = {"had_mm": had_mm, "wanted_mm": wanted.depth_mm}
        if had_mm >= wanted.depth_mm:
            applications.set_watered_in(work, done.id, today)
            done_with[Kind.WATERED_IN] = (Kind.WATERED_IN, done, facts)
        elif _is_label_alone(done):
            continue
        elif today > done.applied_on and Kind.WATER_IN not in done_with:
            by = done.applied_on + timedelta(days=wanted.within_days)
            done_with[Kind.WATER_IN] = (Kind.WATER_IN, done, {**facts, "by": by.isoformat()})
    return list(done_with.values())


def _is_label_alone(done: ApplicationRecord) -> bool:
    """Tell whether a leaf herbicide in the bag leaves watering to the label's order."""
    return done.product is not None and product_of_snapshot(done.product).has_foliar_broadleaf


def water_since(work: Work, yard: YardRecord, known: DailySeries | None, day: date) -> float:
    """Return rain after a day, and watering reported since it [mm].

    Rain of the day itself is left out: a day's total does not say whether it fell before the
    product was down.
    """
    reported = applications.watered_mm(work, yard.id, day)
    if known is None:
        return reported
    rain = known.between(day + timedelta(days=1), known.last_day).rain_mm
    return reported + float(np.nansum(rain))


def _look_at_age(
    work: Work,
    yard: YardRecord,
    moved: Sequence[Moved],
    today: date,
    now: datetime,
    due_at: datetime,
) -> None:
    for change in moved:
        judged = change.judged
        if judged is None or judged.known_until is None or judged.p50 is None:
            continue
        age = (today - judged.known_until).days - 1
        is_near = 0 <= (judged.p50 - today).days <= _DECISION_NEAR_DAYS
        if (
            age >= _STALE_AFTER_DAYS
            and is_near
            and change.state in (State.WAITING, State.WINDOW_OPEN)
        ):
            _tell(work, yard, change, Kind.DATA_STALE, today, now, due_at, more={"age_days": age})


def _tell(
    work: Work,
    yard: YardRecord,
    change: Moved,
    kind: str,
    today: date,
    now: datetime,
    due_at: datetime,
    *,
    about: ApplicationRecord | None = None,
    more: dict[str, Any] | None = None,
    word: Word | None = None,
) -> None:
    target = Target(change.target)
    day = season_day(today, yard.lat)
    year = day.year if word is None else word.year
    key = f"{yard.id}:{target}:{year}:{kind}"
    facts = season_facts(work, yard, change.judged, target, day)
    if word is not None:
        key, more = f"{key}:{word.about}", {**word.facts, "word": word.about}
    elif about is not None:
        key = f"{key}:{about.id}"
    elif kind in (Kind.SECOND_HALF_DUE, Kind.BARRIER_FADING):
        key = f"{key}:{rounds_done(facts) + 1}"
    elif kind is Kind.DATA_STALE and change.judged is not None:
        key = f"{key}:{change.judged.known_until}"
    _to_outbox(
        work,
        yard,
        target=target,
        year=year,
        kind=kind,
        episode_key=key,
        facts={
            **({} if change.judged is None else change.judged.to_json()),
            **(more or {}),
            "today": today.isoformat(),
            "state": change.state,
            "why": change.why,
            "target": change.target,
            "open_zones": _open_zones(work, yard, facts, today),
            "application_id": None if about is None else about.id,
            "rounds_done": rounds_done(facts),
            "rounds": plan_of(work, yard, target).rounds,
            "needed": _needed(work, yard, today),
            **_capped_call(work, yard, kind, target, word, day),
            **(
                late_summer_facts(work, yard, day.year)
                if target is Target.WINTER_ANNUALS and kind == Kind.SOIL_WARMING
                else {}
            ),
        },
        due_at=due_at,
        now=now,
    )


def _to_outbox(work: Work, yard: YardRecord, *, episode_key: str, **alert: Any) -> None:
    """Put an alert into the outbox of the yard's chat, and of those with a share in its work."""
    alerts.add(work, chat_id=yard.chat_id, yard_id=yard.id, episode_key=episode_key, **alert)
    for member in crews.members(work, yard.id):
        if member.role != "see":
            key = f"{episode_key}:chat{member.chat_id}"
            alerts.add(work, chat_id=member.chat_id, yard_id=yard.id, episode_key=key, **alert)


def _words(
    work: Work, yard: YardRecord, change: Moved, course: Course | None, today: date
) -> list[Word]:
    target, day = Target(change.target), season_day(today, yard.lat)
    is_treated = change.state in (State.APPLIED, State.RETREAT_DUE)
    is_more_allowed = not is_treated or _is_more_allowed(
        work, yard, yards.zones(work, yard.id), day
    )
    barriers = []
    if course is not None and not is_more_allowed:
        barriers = barriers_of(work, yard, target, course, day)
    return words_of(
        work,
        yard,
        target,
        today,
        soil_5day_c=None if change.judged is None else change.judged.soil_5day_c,
        barriers=barriers,
        is_more_allowed=is_more_allowed,
    )


def _capped_call(
    work: Work, yard: YardRecord, kind: str, target: Target, word: Word | None, day: date
) -> dict[str, Any]:
    """Return the facts of a call that the label leaves nothing for; nothing for any other."""
    if word is not None or kind not in (Kind.SOIL_WARMING, Kind.WINDOW_OPEN, Kind.ACT_NOW):
        return {}
    kept = yards.zones(work, yard.id)
    if _is_more_allowed(work, yard, kept, day):
        return {}
    return {"is_call_capped": True, "zones": [zone.name for zone in kept if zone.is_treated]}


def _needed(work: Work, yard: YardRecord, on: date) -> dict[str, Any] | None:
    """Return how much product a round of the yard takes on a day, and what the label allows of it.

    Only zones that may get it count; None before a product is chosen, or where none may.
    """
    if yard.product_id is None:
        return None
    treated = [zone for zone in yards.zones(work, yard.id) if zone.is_treated]
    allowed = room(work, yard, treated, on)
    if not allowed.zones:
        return None
    rate = product_of(products.product(work, yard.product_id)).rate
    assert rate is not None
    area_m2 = sum(zone.treated_m2 for zone in allowed.zones)
    amount = amount_for(area_m2, rate)
    most_si = None if allowed.most is None else amount_for(area_m2, allowed.most).si
    return {"si": amount.si, "unit": amount.unit, "most_si": most_si}


def _open_zones(work: Work, yard: YardRecord, facts: Facts, on: date) -> list[str]:
    """Return names of the zones still to do on a day, without those the label stops."""
    done = rounds_done(facts)
    had = {
        zone: sum(zone in confirmed.zones for confirmed in facts.confirmed) for zone in facts.zones
    }
    open_now = [
        zone for zone in yards.zones(work, yard.id) if zone.id in had and had[zone.id] <= done
    ]
    return [zone.name for zone in room(work, yard, open_now, on).zones or open_now]


def _withdraw_untrue(work: Work, yard: YardRecord, target: Target, state: State) -> None:
    """Withdraw what waits in the outbox and is no longer so."""
    calls = [Kind.SOIL_WARMING, Kind.WINDOW_OPEN, Kind.ACT_NOW]
    if state in (State.APPLIED, State.RETREAT_DUE):
        alerts.drop_waiting(work, yard.id, target, [str(kind) for kind in calls])
    if state is not State.RETREAT_DUE:
        again = [Kind.SECOND_HALF_DUE, Kind.BARRIER_FADING]
        alerts.drop_waiting(work, yard.id, target, [str(kind) for kind in again])


def _is_more_allowed(
    work: Work, yard: YardRecord, zones: Sequence[ZoneRecord], today: date
) -> bool:
    """Tell whether the chosen product's label leaves anything for another round."""
    if yard.product_id is None:
        return True
    product = product_of(products.product(work, yard.product_id))
    names = [zone.name for zone in zones if zone.is_treated]
    on = calendar_day(today, yard.lat)
    return is_any_left(entries_of(work, yard), names, product, on)


def _current(zones: Sequence[ZoneRecord], done: ApplicationRecord) -> frozenset[int]:
    """Return today's zones that got an application, by name where a zone was measured again."""
    now_by_name = {zone.name.casefold(): zone.id for zone in zones}
    return frozenset(
        now_by_name.get(share.zone_name.casefold(), share.zone_id) for share in done.shares
    )


def next_half_on(
    work: Work, yard: YardRecord, target: Target, now: datetime, course: Course | None = None
) -> date | None:
    """Return the local day on which the next half falls due, or None if none does."""
    day = season_day(local(now, yard.timezone).date(), yard.lat)
    record = seasons.season(work, yard.id, target)
    judged = None
    if record is not None and record.outlook is not None:
        judged = Judged.from_json(record.outlook)
    facts = season_facts(work, yard, judged, target, day, course)
    due = retreat_due_on(facts, plan_of(work, yard, target))
    return None if due is None else calendar_day(due, yard.lat)


def _season(record: SeasonRecord) -> Season:
    return Season(record.year, State(record.state), record.since, frozenset(record.told))


def _record(record: SeasonRecord, season: Season, outlook: dict[str, Any] | None) -> SeasonRecord:
    return replace(
        record,
        year=season.year,
        state=str(season.state),
        since=season.since,
        told=sorted(season.told),
        outlook=outlook,
    )
