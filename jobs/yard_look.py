"""One look at one yard: facts together, season moved, alerts written, all in one unit of work."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date, datetime
from typing import Any, Final

from jobs import still_time
from jobs.agronomy.season import Kind, Season, State, Target, step
from jobs.agronomy.series import DailySeries
from jobs.barriers import Course
from jobs.judged import Judged
from jobs.local_days import local, season_day
from jobs.manners import first_awake
from jobs.rounds import targets_of
from jobs.season_facts import barriers_of, is_more_allowed, of_zones_left, plan_of, season_facts
from jobs.standing import Standing, standing_of, stands_anew
from jobs.telling import Moved, tell, withdraw_untrue
from jobs.uses.grass import end_of_rest
from jobs.watering_in import look_at_watering
from jobs.year_round import Word, words_of
from storage import seasons
from storage.database import Work
from storage.seasons import SeasonRecord
from storage.yards import YardRecord

#: Data older than this is said to be stale where a decision hangs on it [days].
_STALE_AFTER_DAYS: Final = 3
_DECISION_NEAR_DAYS: Final = 45


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
    standing, moved = standing_of(work, yard), []
    for target in targets_of(yard):
        found = judged.get(target)
        change, record = _look_at_target(
            work, standing, target, found, today, now, person_id, course
        )
        moved.append(change)
        standing = replace(standing, seasons={**standing.seasons, record.target: record})
    stands_anew(work, standing)
    due_at = now
    if keeps_quiet_hours:
        due_at = first_awake(now, yard.timezone, standing.chat_wishes)
    for change in moved:
        for kind in change.alerts:
            tell(work, standing, change, Kind(kind), today, now, due_at)
    if person_id is None:
        # Somebody who has just spoken is answered; what the rain did is told in the morning.
        for kind, done, facts in look_at_watering(work, standing, known, today):
            change = next((each for each in moved if each.target == done.target), moved[0])
            tell(work, standing, change, kind, today, now, due_at, about=done, more=facts)
        for change in moved:
            for word in words_due(standing, change, course, today):
                tell(work, standing, change, word.kind, today, now, due_at, word=word)
        for change in moved:
            if (age_days := age_days_told(change, today)) is not None:
                old, more = Kind.DATA_STALE, {"age_days": age_days}
                tell(work, standing, change, old, today, now, due_at, more=more)
    return moved


def begin_seasons(work: Work, looked_at: Sequence[YardRecord], now: datetime) -> None:
    """Begin the seasons that yards about to be looked at have not begun yet."""
    wanted = [
        (yard.id, target, season_day(local(now, yard.timezone).date(), yard.lat))
        for yard in looked_at
        for target in targets_of(yard)
    ]
    seasons.begin_missing(work, wanted, state=State.WAITING)


def _look_at_target(
    work: Work,
    standing: Standing,
    target: Target,
    judged: Judged | None,
    today: date,
    now: datetime,
    person_id: int | None,
    course: Course | None,
) -> tuple[Moved, SeasonRecord]:
    yard = standing.yard
    day = season_day(today, yard.lat)
    record = standing.season(target) or seasons.begin(
        work, yard.id, target, year=day.year, state=State.WAITING, since=day
    )
    before, (season, moved) = season_of(record), moved_to(standing, record, judged, today, course)
    judged = moved.judged
    outlook = record.outlook if judged is None else judged.to_json()
    if season != before or outlook != record.outlook:
        record = seasons.save(work, record_of(record, season, outlook))
    if season.state is not before.state:
        seasons.note_event(
            work,
            yard_id=yard.id,
            target=target,
            year=season.year,
            at=now,
            state_before=before.state,
            state_after=season.state,
            why=moved.why,
            person_id=person_id,
            facts=outlook or {},
        )
        withdraw_untrue(work, yard, target, season.state)
    if season.year != before.year:
        end_of_rest(work, standing.zones)
    return moved, record


def moved_to(
    standing: Standing,
    record: SeasonRecord,
    judged: Judged | None,
    today: date,
    course: Course | None,
) -> tuple[Season, Moved]:
    """Return what a local day makes of a season, and what that changes; nothing is written."""
    target = Target(record.target)
    day = season_day(today, standing.yard.lat)
    if judged is None and record.outlook is not None:
        judged = Judged.from_json(record.outlook)
    if judged is not None:
        judged = of_zones_left(standing, judged, target, today)
    facts = season_facts(standing, judged, target, day, course)
    plan = plan_of(standing, target)
    before = season = season_of(record)
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
    moved = Moved(
        target=target,
        state=season.state,
        is_state_changed=season.state is not before.state,
        alerts=tuple(str(kind) for kind in told),
        why=", ".join(whys),
        judged=judged,
    )
    return season, moved


def age_days_told(change: Moved, today: date) -> int | None:
    """Return the age [days] of data that is old while a decision hangs on it; else None."""
    judged = change.judged
    if judged is None or judged.known_until is None or judged.p50 is None:
        return None
    age = (today - judged.known_until).days - 1
    is_near = 0 <= (judged.p50 - today).days <= _DECISION_NEAR_DAYS
    is_wanted = is_near and change.state in (State.WAITING, State.WINDOW_OPEN)
    return age if age >= _STALE_AFTER_DAYS and is_wanted else None


def words_due(standing: Standing, change: Moved, course: Course | None, today: date) -> list[Word]:
    """Return what else of the year is to be told on a local day; what was told is among it."""
    target, day = Target(change.target), season_day(today, standing.yard.lat)
    is_treated = change.state in (State.APPLIED, State.RETREAT_DUE)
    leaves_more = not is_treated or is_more_allowed(standing, day)
    barriers = []
    if course is not None and not leaves_more:
        barriers = barriers_of(standing, target, course, day)
    found = words_of(
        standing,
        target,
        today,
        soil_5day_c=None if change.judged is None else change.judged.soil_5day_c,
        barriers=barriers,
        is_more_allowed=leaves_more,
    )
    late = still_time.words(standing, target, today, change.judged, course)
    return found + (late if late and is_more_allowed(standing, day) else [])


def season_of(record: SeasonRecord) -> Season:
    """Return a season as its rules have it."""
    return Season(record.year, State(record.state), record.since, frozenset(record.told))


def record_of(record: SeasonRecord, season: Season, outlook: dict[str, Any] | None) -> SeasonRecord:
    """Return a season's record as a look leaves it."""
    return replace(
        record,
        year=season.year,
        state=str(season.state),
        since=season.since,
        told=sorted(season.told),
        outlook=outlook,
    )
