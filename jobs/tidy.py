"""Forgetting what is kept for a while only: turns, alerts, and texts that were not understood."""

from __future__ import annotations

from datetime import UTC, datetime, time, timedelta
from typing import Final

from jobs.uses import giving_up
from jobs.uses.giving_up import Erased
from storage import chats, oldest, outbox, unread
from storage.database import Database

#: Platforms redeliver within a day; a year and more answers a button of last season kindly.
KEPT_FOR: Final = timedelta(days=400)
#: Alerts go as answers do: nothing looks back farther than a season and the one before. So many
#: leave in one unit of work, as people who write meanwhile wait for it.
_ALERTS_AT_ONCE: Final = 500
#: Texts not understood are for mending the next season's words.
UNREAD_KEPT_FOR: Final = timedelta(days=180)
#: Who cannot be reached for so long is gone: all that is kept of them is deleted.
SILENT_KEPT_FOR: Final = timedelta(days=365)
#: Turns are forgotten in batches of a day, so that tidying is rare and short.
_AT_ONCE: Final = timedelta(days=1)


def next_due_at(db: Database) -> datetime | None:
    """Return when the oldest thing has been kept long enough, or None where there is none."""
    with db.reading() as work:
        found = oldest.kept(work)
    due = [at + KEPT_FOR + _AT_ONCE for at in (found.turn_at, found.ended_at) if at is not None]
    if found.unread_on is not None:
        due.append(datetime.combine(found.unread_on, time(), UTC) + UNREAD_KEPT_FOR + _AT_ONCE)
    if found.silent_at is not None:
        due.append(found.silent_at + SILENT_KEPT_FOR + _AT_ONCE)
    return min(due, default=None)


def tidy(db: Database, now: datetime) -> int:
    """Forget what was kept long enough; return how many. What turns changed stays on record."""
    with db.writing() as work:
        gone = chats.forget_turns(work, now - KEPT_FOR)
        gone += unread.forget(work, (now - UNREAD_KEPT_FOR).astimezone(UTC).date())
    alerts = _ALERTS_AT_ONCE
    while alerts == _ALERTS_AT_ONCE:
        with db.writing() as work:
            alerts = outbox.forget(work, now - KEPT_FOR, _ALERTS_AT_ONCE)
        gone += alerts
    return gone


def forget_the_gone(db: Database, now: datetime) -> list[tuple[int, Erased]]:
    """Delete everybody who has not been reachable for a year; return whose files are left to go."""
    with db.reading() as work:
        gone = chats.silent_since(work, now - SILENT_KEPT_FOR)
    erased = []
    for chat_id, person_id in gone:
        with db.writing() as work:
            erased.append((chat_id, giving_up.erase(work, chat_id, person_id, now)))
    return erased
