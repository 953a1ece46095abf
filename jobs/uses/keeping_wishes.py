"""Keeping what people wish about their days, their sprinkler, and when they are written to."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta
from typing import Any, Final

from jobs.agronomy.season import Kind, State, Target
from jobs.agronomy.units import c_from_f
from jobs.judged import Judged
from jobs.local_days import local, season_day
from jobs.manners import first_awake
from jobs.rounds import LATE_SUMMER_FROM
from jobs.standing import standing_of
from jobs.uses.bounds import NotAllowed
from jobs.weather_of_day import act_by_of
from jobs.yard_changes import settle
from storage import alerts, journal, wishes, yards
from storage.database import Work
from storage.wishes import ChatWishes, YardWishes
from storage.yards import YardRecord

#: "Until it is warmer" means the top of the trade's band (Michigan State Ext. 2020), or so much
#: more than now where the soil is there already [°C].
WARMER_C: Final = c_from_f(55.0)
_WARMER_BY_C: Final = 2.0
#: Longest snooze: more is for "not this season".
LONGEST_SNOOZE: Final = timedelta(days=60)
CAPS: Final = range(1, 21)
YARDS_A_DAY: Final = range(1, 101)

#: What may be asked for again later.
_CALLS: Final = (
    Kind.SOIL_WARMING,
    Kind.WINDOW_OPEN,
    Kind.ACT_NOW,
    Kind.SECOND_HALF_DUE,
    Kind.BARRIER_FADING,
)


class NoProductForLabel(LookupError):
    """Raised for label terms before a product is chosen."""


def change_yard(work: Work, yard: YardRecord, changes: Mapping[str, Any]) -> YardWishes:
    """Change named wishes of a yard."""
    after = _wished(work, yard, changes)
    journal.note(work, yard.id, "wishes.yard", yard.id, name=yard.name)
    return after


def _wished(work: Work, yard: YardRecord, changes: Mapping[str, Any]) -> YardWishes:
    after = replace(standing_of(work, yard).wishes, **changes)
    wishes.keep_yard(work, after)
    return after


def change_watering(work: Work, yard: YardRecord, changes: Mapping[str, Any]) -> None:
    """Change how, on which days and whether at all a yard may be watered."""
    settle(work, yard, changes)


def change_label(work: Work, yard: YardRecord, terms: Mapping[str, Any] | None) -> dict[str, Any]:
    """Add to what the label of the yard's product says on the day; None takes all of it back.

    Raises
    ------
    NoProductForLabel
        If no product is chosen.
    """
    if yard.product_id is None:
        raise NoProductForLabel(yard.name)
    held = standing_of(work, yard).wishes
    kept = held.label_terms if held.label_product_id == yard.product_id else {}
    new = {} if terms is None else {**kept, **terms}
    changes = {"label_terms": new, "label_product_id": yard.product_id}
    change_yard(work, yard, changes)
    return new


def change_chat(
    work: Work, yard: YardRecord, chat_id: int, changes: Mapping[str, Any], *, now: datetime
) -> ChatWishes:
    """Change when and how often a chat is written to.

    Raises
    ------
    NotAllowed
        If a number is outside its range.
    """
    for name, allowed in (("daily_cap", CAPS), ("yards_a_day", YARDS_A_DAY)):
        value = changes.get(name)
        if value is not None and value not in allowed:
            raise NotAllowed(allowed)
    after = replace(wishes.of_chat(work, chat_id), **changes)
    wishes.keep_chat(work, after)
    journal.note(work, yard.id, "wishes.chat", chat_id)
    if "wake_at" in changes:
        # The morning's look comes in time for the hour asked for.
        for each in yards.of_chat(work, chat_id) or [yard]:
            yards.change(work, each.id, next_check_at=now)
    return after


@dataclass(frozen=True, slots=True)
class Snoozed:
    """Until when, or until how warm, a yard's alerts are put off.

    Attributes
    ----------
    until, until_c
        One of them is set: the instant, or the soil's 5-day mean [°C].
    act_by
        Last day that is early enough, or None.
    is_too_long
        Whether the snooze ends after that day.
    """

    until: datetime | None
    until_c: float | None
    act_by: date | None
    is_too_long: bool


def snooze(
    work: Work,
    yard: YardRecord,
    span: timedelta | None,
    until_c: float | None,
    *,
    chat_id: int,
    now: datetime,
) -> Snoozed:
    """Put a yard's alerts off for a span, or until the soil is so warm (neither: until warmer).

    They are put off for the chat that asks alone; all others hear them as ever. What was called for
    last is said again there then, if it is still true.

    Raises
    ------
    NotAllowed
        If the span is longer than `LONGEST_SNOOZE`.
    """
    until = None
    if span is not None:
        if not timedelta(0) < span <= LONGEST_SNOOZE:
            raise NotAllowed(range(1, LONGEST_SNOOZE.days + 1))
        until = now + span
        until_c = None
    elif until_c is None:
        season = standing_of(work, yard).season(Target.SUMMER_ANNUALS)
        outlook = None if season is None else season.outlook
        soil_c = None if outlook is None else Judged.from_json(outlook).soil_5day_c
        until_c = WARMER_C if soil_c is None else max(WARMER_C, soil_c + _WARMER_BY_C)
    wishes.put_off(work, yard.id, chat_id, wishes.Snooze(until, until_c))
    journal.note(work, yard.id, "wishes.snooze", yard.id, name=yard.name)
    _ask_again(work, yard, chat_id, until or now + timedelta(days=1), now)
    act_by = act_by_of(standing_of(work, yard), now)
    ends_on = None if until is None else local(until, yard.timezone).date()
    is_too_long = act_by is not None and ends_on is not None and ends_on > act_by
    return Snoozed(until, until_c, act_by, is_too_long)


def mute(
    work: Work, yard: YardRecord, target: Target | None = None, *, person_id: int, now: datetime
) -> Target:
    """Say no more about a target this year, by default the one last spoken of; return it."""
    year = _year(yard, now)
    target = target or _spoken_of(work, yard, now)
    if wishes.mute(work, yard.id, target, year, person_id=person_id, now=now):
        journal.note(work, yard.id, "wishes.mute", yard.id, name=yard.name)
    return target


def unmute(work: Work, yard: YardRecord, *, now: datetime) -> State:
    """Speak of all targets again this year; return where the one that was muted stands."""
    year = _year(yard, now)
    standing = standing_of(work, yard)
    muted = [each for each in Target if standing.is_muted(each, year)]
    for target in muted:
        wishes.unmute(work, yard.id, target, year)
    if muted:
        journal.note(work, yard.id, "wishes.unmute", yard.id, name=yard.name)
    season = standing_of(work, yard).season(muted[-1] if muted else _spoken_of(work, yard, now))
    return State.WAITING if season is None else State(season.state)


def _spoken_of(work: Work, yard: YardRecord, now: datetime) -> Target:
    """Return the target of this year's newest call; by the calendar where there was none."""
    last = alerts.newest_told(work, yard.id, [str(kind) for kind in _CALLS])
    if last is not None and last.year == _year(yard, now):
        return Target(last.target)
    today = season_day(local(now, yard.timezone).date(), yard.lat)
    is_late = yard.has_late_summer_round and (today.month, today.day) >= LATE_SUMMER_FROM
    return Target.WINTER_ANNUALS if is_late else Target.SUMMER_ANNUALS


def _ask_again(work: Work, yard: YardRecord, chat_id: int, at: datetime, now: datetime) -> None:
    calls = [str(kind) for kind in _CALLS]
    last = alerts.newest_told(work, yard.id, calls, chat_id)
    if last is None and not alerts.is_waiting(work, yard.id, calls, chat_id):
        # Who came to share the yard after the call has not heard it yet, and is to hear it then.
        last = alerts.newest_told(work, yard.id, calls)
    if last is None:
        return
    due_at = first_awake(at, yard.timezone, wishes.of_chat(work, chat_id))
    alerts.add(
        work,
        chat_id=chat_id,
        yard_id=yard.id,
        target=last.target,
        year=last.year,
        kind=last.kind,
        episode_key=f"{last.episode_key}:again:{due_at.isoformat()}:chat{chat_id}",
        facts=last.facts,
        due_at=due_at,
        now=now,
    )


def _year(yard: YardRecord, now: datetime) -> int:
    return season_day(local(now, yard.timezone).date(), yard.lat).year
