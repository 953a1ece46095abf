"""When work on a yard began and ended: as said, or as it is ticked off."""

from __future__ import annotations

from datetime import datetime, time, timedelta
from typing import Final

from bot.dialogue.talk import Talk
from bot.saying.values import Clock
from jobs.local_days import local
from jobs.record_details import RecordDetails
from storage.applications import ApplicationRecord
from storage.shown import newest_shown
from storage.yards import YardRecord

#: What is tapped as done began no longer ago.
A_TICK: Final = timedelta(hours=4)
_TURNS_SEEN: Final = 12


def begun(talk: Talk, yard: YardRecord) -> datetime:
    """Return since when a yard that is ticked off can have been under work.

    That is when who ticks it last wrote or tapped here that day: mostly the tick before, or the
    day's list. It is said with the tick, and another hour can be told.
    """
    turns, _ = newest_shown(talk.work, talk.chat.id, _TURNS_SEEN)
    now = local(talk.now, yard.timezone)
    own = [local(turn.at, yard.timezone) for turn in turns if turn.person_id == talk.person.id]
    since = max((at for at in own if at.date() == now.date()), default=now)
    return since if now - since <= A_TICK else now


def ticked(talk: Talk, yard: YardRecord) -> list[str]:
    """Say from when to when a yard that was just ticked off is on record, and how to change it."""
    done = max(talk.standing(yard).done, key=lambda each: each.id)
    if local(done.applied_at, yard.timezone).strftime("%H:%M") == _ended(done):
        return []
    return [*lines(talk, yard, done.id), talk.say("applying.hours_how", number=done.id)]


def lines(talk: Talk, yard: YardRecord, record_id: int) -> list[str]:
    """Say when an application began and ended, where that is more than just now."""
    done = next(each for each in talk.standing(yard).done if each.id == record_id)
    ended = _ended(done)
    at = local(done.applied_at, yard.timezone)
    acts = () if talk.heard is None else talk.heard.acts
    if ended is not None and ended != f"{at:%H:%M}":
        return [talk.say("applying.hours", begun=Clock(at), ended=Clock(time.fromisoformat(ended)))]
    is_said = any(act.slots.on is not None and act.slots.on.has_time for act in acts)
    return [talk.say("applying.hour", begun=Clock(at))] if is_said else []


def _ended(done: ApplicationRecord) -> str | None:
    return RecordDetails.from_json(done.details).ended
