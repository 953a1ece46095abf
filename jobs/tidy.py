"""Forgetting what is kept only against redelivery: answered turns, once they are old."""

from __future__ import annotations

from datetime import datetime, timedelta
from typing import Final

from storage import chats
from storage.database import Database

#: Platforms redeliver within a day; a year and more answers a button of last season kindly.
KEPT_FOR: Final = timedelta(days=400)
#: Turns are forgotten in batches of a day, so that tidying is rare and short.
_AT_ONCE: Final = timedelta(days=1)


def next_due_at(db: Database) -> datetime | None:
    """Return when the oldest turn has been kept long enough, or None where there is none."""
    with db.reading() as work:
        oldest = chats.oldest_turn_at(work)
    return None if oldest is None else oldest + KEPT_FOR + _AT_ONCE


def forget_old_turns(db: Database, now: datetime) -> int:
    """Forget turns kept long enough; return how many. What they changed stays on record."""
    with db.writing() as work:
        return chats.forget_turns(work, now - KEPT_FOR)
