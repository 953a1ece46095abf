"""What a chat is told at one sending: what is true now, at a welcome hour, in one message.

An alert waits in the outbox as it was written. When its time comes it is held against what is true:
what is no longer so is withdrawn (the newer alert speaks instead), what is muted falls silent, what
is put off or comes at an unwelcome hour waits, and what is left of several yards goes together.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import asdict, dataclass, field
from datetime import date, datetime, timedelta
from typing import Any, Final

from jobs import still_time
from jobs.agronomy.season import Kind, State, Target
from jobs.agronomy.series import DailySeries
from jobs.data_trouble import record_of, trouble_of
from jobs.judged import Judged
from jobs.local_days import LOOK_AT, local, next_look_at
from jobs.manners import day_begins, first_awake, next_day
from jobs.packed_cells import held as held_cell
from jobs.sources.base import Cell
from jobs.standing import standing_of
from jobs.telling import about_zones
from jobs.watering_in import is_hardly_missing, water_on
from jobs.weather_of_day import advise, rain_ahead_mm, run_of, washout
from jobs.year_round import is_word_so
from storage import alerts, chats, crews, wishes, yards
from storage.alerts import AlertRecord
from storage.database import Work
from storage.seasons import SeasonRecord
from storage.wishes import ChatWishes, Snooze
from storage.yards import YardRecord

#: An alert that has waited longer than this is told with today's figures.
_REFRESHED_AFTER: Final = timedelta(hours=12)

#: How long each kind is worth telling late.
_WORTH_TELLING_FOR: Final[Mapping[str, timedelta]] = {
    Kind.WINDOW_MISSED: timedelta(days=14),
    Kind.WATERED_IN: timedelta(days=7),
    Kind.SEASON_OVER: timedelta(days=30),
    Kind.DATA_STALE: timedelta(days=7),
}
#: The states in which a call is true.
_TRUE_IN: Final[Mapping[str, State]] = {
    Kind.SOIL_WARMING: State.WAITING,
    Kind.WINDOW_OPEN: State.WINDOW_OPEN,
    Kind.ACT_NOW: State.WINDOW_OPEN,
    Kind.SECOND_HALF_DUE: State.RETREAT_DUE,
    Kind.BARRIER_FADING: State.RETREAT_DUE,
}
#: Of these, waiting together, only the last is worth telling.
_STEPS: Final = (Kind.SOIL_WARMING, Kind.WINDOW_OPEN, Kind.ACT_NOW, Kind.WINDOW_MISSED)
#: Water on what is down already matters to those who want to hear no more, too.
_NEVER_MUTED: Final = frozenset({Kind.WATER_IN, Kind.WATERED_IN})
_WITH_DAYS: Final = frozenset(
    {Kind.WINDOW_OPEN, Kind.ACT_NOW, Kind.SECOND_HALF_DUE, Kind.BARRIER_FADING}
)
#: What is true by the newest look at soil and rain.
_BY_THE_LOOK: Final = frozenset({*_TRUE_IN, Kind.WATER_IN})
#: Whoever has so many yards gets one message a morning, but for what is urgent.
MANY_YARDS: Final = 5
_URGENT: Final = frozenset({Kind.ACT_NOW, Kind.WATER_IN})
#: Of many yards, what needs nothing done goes with the next message that does; what says to buy
#: waits so long for the other towns of a round. Neither makes a message of its own till then.
_RIDES_FOR: Final[Mapping[str, timedelta]] = {
    Kind.WATERED_IN: _WORTH_TELLING_FOR[Kind.WATERED_IN],
    Kind.SOIL_WARMING: timedelta(days=3),
}
#: A snooze until it is warmer ends this close to emergence, warm or not [days].
_NO_SNOOZE_DAYS: Final = 12


@dataclass(frozen=True, slots=True)
class Manners:
    """How people are written to: with regard to their wishes, and with the week ahead.

    Attributes
    ----------
    source
        The source whose weather they are told.
    """

    source: str


@dataclass(frozen=True, slots=True)
class SortedOut:
    """What becomes of a chat's due alerts at one sending.

    Attributes
    ----------
    message
        What goes into its next message, longest due first; nothing where none may go now.
    withdrawn
        Ids of what is no longer true, or no longer wanted.
    put_off
        Until when others wait, by id.
    """

    message: tuple[AlertRecord, ...] = ()
    withdrawn: tuple[int, ...] = ()
    put_off: Mapping[int, datetime] = field(default_factory=dict)


def sort_out(
    work: Work,
    chat_id: int,
    due: Sequence[AlertRecord],
    told_at: Sequence[datetime],
    now: datetime,
    manners: Manners,
) -> SortedOut:
    """Sort out what is due for a chat, which was told at these instants; nothing is changed.

    What may have arrived and is told once more goes in a message of its own, outside the day's
    number of messages: it was counted when it first left.
    """
    if chats.chat(work, chat_id).stopped_at is not None:
        return SortedOut(withdrawn=tuple(alert.id for alert in due))
    said = wishes.of_chat(work, chat_id)
    withdrawn, put_off, kept = [], {}, []
    for alert in due:
        yard = yards.yard(work, alert.yard_id)
        if yard is None:
            kept.append(alert)
        elif (
            (alert.repeat_until is not None and alert.repeat_until < now)
            or _is_strangers(work, alert, yard)
            or _is_idle(work, alert, yard, due, now, manners)
        ):
            withdrawn.append(alert.id)
        else:
            at = _welcome_at(work, alert, yard, said, now)
            if at > now:
                put_off[alert.id] = at
            else:
                kept.append(alert)
    fresh = [alert for alert in kept if alert.repeat_until is None]
    if fresh:
        mine = yards.of_chat(work, chat_id) or [
            yard for yard, _ in crews.shared_with(work, chat_id)
        ]
        timezone = mine[0].timezone if mine else "UTC"
        today_from = day_begins(now, timezone)
        told_today = sum(at >= today_from for at in told_at)
        later = next_day(now, timezone, said)
        calm = fresh if told_today >= said.daily_cap else []
        if 0 < told_today < said.daily_cap and len(mine) >= MANY_YARDS:
            calm = [alert for alert in fresh if alert.kind not in _URGENT]
        if len(mine) >= MANY_YARDS and all(_may_ride_along(alert, now) for alert in fresh):
            calm = fresh
        put_off.update({alert.id: later for alert in calm})
        fresh = [alert for alert in fresh if alert not in calm]
    message = fresh or [alert for alert in kept if alert.repeat_until is not None]
    is_of_several = len({alert.yard_id for alert in message}) > 1
    told = message if is_of_several else message[:1]
    return SortedOut(tuple(told), tuple(withdrawn), put_off)


def _may_ride_along(alert: AlertRecord, now: datetime) -> bool:
    """Tell whether an alert of many yards may wait for another message to go with."""
    is_good_news = not alert.facts.get("is_closed_again")
    rides_for = _RIDES_FOR.get(alert.kind)
    return rides_for is not None and is_good_news and now - alert.created_at < rides_for


def facts_for(
    work: Work, alert: AlertRecord, yard: YardRecord, now: datetime, manners: Manners
) -> dict[str, Any]:
    """Return an alert's facts with what is true at sending: figures, week ahead, trouble."""
    facts, standing = dict(alert.facts), standing_of(work, yard)
    today = local(now, yard.timezone).date()
    if now - alert.created_at > _REFRESHED_AFTER:
        season = standing.season(Target(alert.target))
        if season is not None and season.outlook is not None and "p50" in facts:
            facts.update(season.outlook)
            facts["today"] = today.isoformat()
    facts["trouble"] = trouble_of(work, yard, manners.source, now).to_json()
    if alert.kind in _TRUE_IN and "word" not in facts:
        # Some of it may have been put down while the alert waited for the morning.
        facts.update(about_zones(work, standing, Target(alert.target), alert.kind, today))
    if alert.kind in _WITH_DAYS:
        advice = advise(work, yard, manners.source, now)
        if advice is not None:
            facts["days"] = advice.to_json()
        # What its owner says their state asks for holds for everybody who works there.
        said = standing.chat_wishes
        if said.posts_signs or said.notice_hours is not None:
            facts["posting"] = {"signs": said.posts_signs, "hours": said.notice_hours}
    if alert.kind == Kind.WATER_IN:
        facts.update(of_watering(work, yard, facts, now, manners.source))
    return facts


def tell_back(work: Work, yard: YardRecord, now: datetime) -> None:
    """Tell every chat that was told that data is old, that it is fresh again; each outage once."""
    today = local(now, yard.timezone).date()
    for told in alerts.newest_stale_by_chat(work, yard.id):
        season = standing_of(work, yard).season(Target(told.target))
        known, was = _known_until(season), told.facts.get("known_until")
        if told.facts.get("is_back") or known is None or was is None:
            continue
        if known <= date.fromisoformat(was) or (today - known).days > 2:
            continue
        assert season is not None
        alerts.add(
            work,
            chat_id=told.chat_id,
            yard_id=yard.id,
            target=told.target,
            year=told.year,
            kind=Kind.DATA_STALE,
            episode_key=f"{told.episode_key}:back",
            facts={
                **told.facts,
                **(season.outlook or {}),
                "today": today.isoformat(),
                "is_back": True,
            },
            due_at=first_awake(now, yard.timezone, wishes.of_chat(work, told.chat_id)),
            now=now,
        )


def _is_strangers(work: Work, alert: AlertRecord, yard: YardRecord) -> bool:
    """Tell whether an alert waits for a chat that no longer has a share in the yard."""
    if alert.chat_id == yard.chat_id:
        return False
    return all(member.chat_id != alert.chat_id for member in standing_of(work, yard).members)


def _is_idle(
    work: Work,
    alert: AlertRecord,
    yard: YardRecord,
    due: Sequence[AlertRecord],
    now: datetime,
    manners: Manners,
) -> bool:
    """Tell whether an alert is muted, no longer true, or said better by another that waits."""
    standing = standing_of(work, yard)
    if alert.kind not in _NEVER_MUTED and standing.is_muted(alert.target, alert.year):
        return True
    worth_for = _WORTH_TELLING_FOR.get(alert.kind)
    if worth_for is not None and now - alert.created_at > worth_for:
        return True
    if "word" in alert.facts:
        if alert.facts.get("is_still_time"):
            return not still_time.is_so(standing, alert.year)
        return not is_word_so(standing, alert.year, alert.facts)
    if alert.kind in _STEPS:
        newer = _STEPS[_STEPS.index(Kind(alert.kind)) + 1 :]
        beside = [(each.yard_id, each.target, each.kind) for each in due]
        if any((alert.yard_id, alert.target, kind) in beside for kind in newer):
            return True
    if alert.kind in _TRUE_IN:
        season = standing.season(Target(alert.target))
        if season is not None:
            is_so = season.year == alert.year and season.state == _TRUE_IN[Kind(alert.kind)]
            return not is_so or (
                alert.kind == Kind.SOIL_WARMING
                and (Kind.WINDOW_MISSED in season.told or _is_of_no_call(work, alert))
            )
    if alert.kind in (Kind.WATER_IN, Kind.WATERED_IN):
        return not _is_watering_so(work, alert, yard, now, manners)
    if alert.kind == Kind.DATA_STALE and not alert.facts.get("is_back"):
        record = record_of(work, manners.source, Cell.at(yard.lat, yard.lon))
        was = alert.facts.get("known_until")
        last = None if record is None else record.last_known_day
        return was is not None and last is not None and last > date.fromisoformat(was) + _A_DAY
    return False


def _is_of_no_call(work: Work, alert: AlertRecord) -> bool:
    """Tell whether an alert says that a window closed again of which nobody was told."""
    if not alert.facts.get("is_closed_again"):
        return False
    calls = [Kind.WINDOW_OPEN, Kind.ACT_NOW]
    called = alerts.newest_told(work, alert.yard_id, calls, alert.chat_id)
    return called is None or (called.target, called.year) != (alert.target, alert.year)


_A_DAY: Final = timedelta(days=1)


def _is_watering_so(
    work: Work, alert: AlertRecord, yard: YardRecord, now: datetime, manners: Manners
) -> bool:
    today = local(now, yard.timezone).date()
    done = standing_of(work, yard).application(alert.facts.get("application_id"))
    if done is None:
        return alert.facts.get("application_id") is None
    if alert.kind == Kind.WATERED_IN:
        return True
    by = alert.facts.get("by")
    told_until = timedelta(days=7 if alert.facts.get("stage") == "over" else 0)
    is_past = by is not None and today > date.fromisoformat(by) + told_until
    if done.watered_in_on is not None or is_past:
        return False
    # Rain or watering since it was written may leave too little to speak of.
    had_mm = water_on(work, yard, _known(work, yard, manners.source), done)
    return not is_hardly_missing(had_mm, float(alert.facts.get("wanted_mm", 0.0)))


def _known(work: Work, yard: YardRecord, source: str) -> DailySeries | None:
    held = held_cell(work, source, Cell.at(yard.lat, yard.lon))
    return None if held is None else held.known


def _welcome_at(
    work: Work, alert: AlertRecord, yard: YardRecord, said: ChatWishes, now: datetime
) -> datetime:
    """Return when an alert may go out: now, or later."""
    snooze = standing_of(work, yard).snooze(alert.chat_id)
    if alert.kind not in _NEVER_MUTED:
        if snooze.until is not None and snooze.until > now:
            return first_awake(snooze.until, yard.timezone, said)
        if alert.kind in _STEPS[:3] and _is_too_cold(work, yard, snooze, now):
            # After the next look, so that it is judged by that morning's soil.
            return first_awake(next_look_at(now, yard.timezone), yard.timezone, said)
    at = first_awake(now, yard.timezone, said)
    if alert.kind in _BY_THE_LOOK and _is_looked_at_soon(alert, yard, at):
        # What is told before the morning's look might be otherwise an hour later.
        at = max(at, first_awake(yard.next_check_at, yard.timezone, said))
    return at


def _is_looked_at_soon(alert: AlertRecord, yard: YardRecord, at: datetime) -> bool:
    """Tell whether an alert of an earlier day would go out before that morning's look."""
    here, look = local(at, yard.timezone), local(yard.next_check_at, yard.timezone)
    is_of_before = local(alert.created_at, yard.timezone).date() < here.date()
    is_morning = look.time() <= LOOK_AT
    return is_of_before and is_morning and at < yard.next_check_at and look.date() == here.date()


def _is_too_cold(work: Work, yard: YardRecord, snooze: Snooze, now: datetime) -> bool:
    if snooze.until_c is None:
        return False
    season = standing_of(work, yard).season(Target.SUMMER_ANNUALS)
    if season is None or season.outlook is None:
        return False
    judged = Judged.from_json(season.outlook)
    if judged.soil_5day_c is None or judged.soil_5day_c >= snooze.until_c:
        return False
    today = local(now, yard.timezone).date()
    return judged.p50 is not None and (judged.p50 - today).days > _NO_SNOOZE_DAYS


def of_watering(
    work: Work, yard: YardRecord, facts: Mapping[str, Any], now: datetime, source: str
) -> dict[str, Any]:
    """Return how to give what is missing, what rain is forecast, and whether it would wash off."""
    found: dict[str, Any] = {"is_banned": bool(yard.is_water_banned)}
    had_mm, standing = float(facts.get("had_mm", 0.0)), standing_of(work, yard)
    done = standing.application(facts.get("application_id"))
    if done is not None:
        # Watered since the alert was written, say while it waited for the morning.
        had_mm = water_on(work, yard, _known(work, yard, source), done)
        found["had_mm"] = had_mm
    missing = max(0.0, float(facts.get("wanted_mm", 0.0)) - had_mm)
    run = run_of(standing.wishes, missing)
    if run is not None:
        found["run"] = asdict(run)
    if "by" in facts:
        by = max(date.fromisoformat(facts["by"]), local(now, yard.timezone).date())
        found["rain_ahead_mm"] = rain_ahead_mm(work, yard, source, now, by)
    if done is not None:
        storm = washout(work, yard, source, done.applied_at, now)
        if storm is not None:
            begins = local(storm.from_, yard.timezone)
            found["washout"] = {"rain_mm": storm.rain_mm, "from": begins.isoformat()}
    return found


def _known_until(season: SeasonRecord | None) -> date | None:
    if season is None or season.outlook is None:
        return None
    return Judged.from_json(season.outlook).known_until
