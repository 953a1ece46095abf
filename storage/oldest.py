"""How old the oldest is of what is kept for a while only."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime
from typing import Final

from sqlalchemy import select

from storage.chats import LONGEST_SILENT_AT, OLDEST_TURN_AT
from storage.database import Work
from storage.outbox import OLDEST_ENDED_AT
from storage.unread import OLDEST_ON


@dataclass(frozen=True, slots=True)
class Oldest:
    """The oldest turn, ended alert and text not understood, and the longest silence; None: none."""

    turn_at: datetime | None
    ended_at: datetime | None
    unread_on: date | None
    silent_at: datetime | None


_OLDEST: Final = select(
    OLDEST_TURN_AT.scalar_subquery(),
    OLDEST_ENDED_AT.scalar_subquery(),
    OLDEST_ON.scalar_subquery(),
    LONGEST_SILENT_AT.scalar_subquery(),
)


def kept(work: Work) -> Oldest:
    """Return the oldest of each."""
    return Oldest(*work.connection().execute(_OLDEST).one())
