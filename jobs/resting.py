"""When a yard is looked at again: tomorrow while anything may change, else once something may next.

A yard in October rests: nothing of its season can move before the new year, or long before its
weeds are near. Its weather is fetched all the same (`jobs.weather_in`), and whoever asks about it
wakes it (`is_resting`).
"""

from __future__ import annotations

import logging
from collections.abc import Iterator, Sequence
from datetime import date, datetime, timedelta
from typing import Final

from jobs.agronomy.late_summer import autumn_date
from jobs.agronomy.season import Kind, State, Target
from jobs.barriers import Course
from jobs.digests import tell_back
from jobs.judged import Judged
from jobs.local_days import DATA_KNOWN_MIN, begins, calendar_day, local, next_look_at, season_day
from jobs.outlooks import Outlooks
from jobs.rounds import DORMANT_UNTIL, PLANNED_DORMANT_FROM, targets_of
from jobs.season_facts import Sight, plan_of, sight_now
from jobs.seeded import seeding_of
from jobs.standing import Standing, standing_of
from jobs.telling import Moved
from jobs.watering_in import may_want_water
from jobs.yard_look import look
from jobs.year_round import ASKED_ON, OFFERED_IN
from storage import alerts, yards
from storage.database import Work
from storage.yards import YardRecord

log = logging.getLogger(__name__)

#: No yard goes longer without a look [days]: figures of what is far off move a little, too.
LONGEST_DAYS: Final = 14
#: Daily looks begin so long before the first day on which figures can move a season [days]: figures
#: of a fortnight ago are farther off than those of today by less (inference).
_AHEAD_DAYS: Final = 21


def look_and_plan(
    work: Work,
    yard: YardRecord,
    sight: Sight | None,
    now: datetime,
    *,
    again_at: datetime | None = None,
    keeps_quiet_hours: bool = True,
) -> list[Moved]:
    """Make a yard's look, and set when it is looked at next; return what moved.

    Parameters
    ----------
    sight
        What can be seen of it; None while nothing is held for its place.
    again_at
        When to look again at the latest, such as where its source is in trouble.
    """
    course, known = None if sight is None else sight.course, None
    if sight is not None and may_want_water(
        standing_of(work, yard), local(now, yard.timezone).date()
    ):
        # Every day of a cell is more than a look wants otherwise.
        known = sight.known
    moved = look(
        work,
        yard,
        {} if sight is None else sight.judged,
        known,
        now,
        keeps_quiet_hours=keeps_quiet_hours,
        course=course,
    )
    if keeps_quiet_hours:
        tell_back(work, yard, now)
    next_at = next_look(
        standing_of(work, yard), moved, course, now, is_any_open=alerts.is_any_open(work, yard.id)
    )
    yards.looked_at(work, yard, next_at if again_at is None else min(next_at, again_at))
    return moved


def next_look(
    standing: Standing,
    moved: Sequence[Moved],
    course: Course | None,
    now: datetime,
    *,
    is_any_open: bool,
) -> datetime:
    """Return when a yard just looked at is looked at next.

    Parameters
    ----------
    is_any_open
        Whether an alert of it waits, or somebody was told of old data and not of new.
    """
    timezone, wake_at = standing.yard.timezone, standing.chat_wishes.wake_at
    on = _next_look_on(standing, moved, course, now, is_any_open=is_any_open)
    is_soon = on <= local(now, timezone).date() + timedelta(days=1)
    after = now if is_soon else begins(on, timezone)
    # An hour before the day's data waits for them: what is told might be otherwise after.
    mornings = [None, None if wake_at is None else max(wake_at, DATA_KNOWN_MIN)]
    return min(next_look_at(after, timezone, at) for at in dict.fromkeys(mornings))


def is_resting(work: Work, yard: YardRecord, now: datetime) -> bool:
    """Tell whether a yard is not looked at on the coming morning, or was not on the last one."""
    coming = next_look_at(now, yard.timezone)
    if yard.next_check_at != coming:
        return yard.next_check_at > coming
    # It rests until tomorrow, or was looked at today: its figures tell.
    known = local(coming, yard.timezone).date() - timedelta(days=2)
    seasons = standing_of(work, yard).seasons.values()
    until = [each.outlook["known_until"] for each in seasons if each.outlook is not None]
    return any(each is not None and each < known.isoformat() for each in until)


def wake(work: Work, yard: YardRecord, source: str, outlooks: Outlooks, now: datetime) -> None:
    """Look at a yard that rests, and on the coming morning: somebody asks about it."""
    if not is_resting(work, yard, now):
        return
    try:
        sight = sight_now(work, yard, source, outlooks, now)
    except Exception:
        # It is said at the next look; whoever asks for something else is answered.
        log.exception("yard %s could not be reckoned", yard.id)
        return
    look_and_plan(work, yard, sight, now, again_at=next_look_at(now, yard.timezone))


def _next_look_on(
    standing: Standing,
    moved: Sequence[Moved],
    course: Course | None,
    now: datetime,
    *,
    is_any_open: bool,
) -> date:
    yard = standing.yard
    today = local(now, yard.timezone).date()
    tomorrow, latest = today + timedelta(days=1), today + timedelta(days=LONGEST_DAYS)
    if course is None or is_any_open or _is_astir(standing, moved, course, today):
        return tomorrow
    days = [latest, *_word_days(standing, today)]
    days += [_moves_from(standing, each, today) or tomorrow for each in moved]
    return max(tomorrow, min(days))


def _is_astir(standing: Standing, moved: Sequence[Moved], course: Course, today: date) -> bool:
    """Tell whether something is under way: a round, its water, a barrier, or a word that waits."""
    lat = standing.yard.lat
    year = season_day(today, lat).year
    return (
        any(each.state is not State.WAITING or each.alerts for each in moved)
        or may_want_water(standing, today)
        or any(
            today <= calendar_day(course.sprouting_ends(target, year), lat)
            for target in targets_of(standing.yard)
            if standing.of_season(target, year)
        )
    )


def _moves_from(standing: Standing, moved: Moved, today: date) -> date | None:
    """Return the first local day on which a target that waits may move; None: any day."""
    yard, target, judged = standing.yard, Target(moved.target), moved.judged
    record, plan, day = (
        standing.season(target),
        plan_of(standing, target),
        season_day(today, yard.lat),
    )
    ends = date(day.year, *plan.season_ends)
    if day >= ends:
        return calendar_day(date(day.year + 1, 1, 1), yard.lat)
    if record is None or judged is None:
        return None
    if record.year == day.year and Kind.WINDOW_MISSED in record.told:
        return calendar_day(ends, yard.lat)
    found = [
        calendar_day(each, yard.lat) - timedelta(days=_AHEAD_DAYS)
        for each in _signs(yard, target, judged, day)
    ]
    event = judged.p10 or judged.p50
    if event is None:
        return None
    first = max(plan.heads_up_days, plan.lead_days) + _AHEAD_DAYS
    return min([*found, event - timedelta(days=first)])


def _signs(yard: YardRecord, target: Target, judged: Judged, day: date) -> Iterator[date]:
    """Return the northern days of other signs than the days to go, which late summer has."""
    if target is Target.WINTER_ANNUALS:
        yield autumn_date(yard.lat, yard.lon).opens_on(day.year)
        if judged.warned_on is not None:
            yield season_day(judged.warned_on, yard.lat)


def _word_days(standing: Standing, today: date) -> Iterator[date]:
    """Return the days from which something else of the year may be told, as far as they come."""
    yard = standing.yard
    day = season_day(today, yard.lat)
    northern = []
    if yard.has_dormant_half and (day.month, day.day) <= DORMANT_UNTIL:
        northern.append(max(day, date(day.year, *PLANNED_DORMANT_FROM)))
    if yard.is_asked_what_came:
        asked = (*ASKED_ON, (OFFERED_IN, 1))
        northern += [each for at in asked if (each := date(day.year, *at)) > day]
    yield from (calendar_day(each, yard.lat) for each in northern)
    for seeding in standing.seedings:
        history = standing.records.on(seeding.ground_id)
        answer = seeding_of(history, seeding.species, seeding.method, seeding.label_days)
        if not seeding.is_done and answer.earliest is not None and answer.earliest > today:
            yield answer.earliest
