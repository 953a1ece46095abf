"""Texts that were not understood, of chats that agreed: nobody's own, and for a while only."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Final

from sqlalchemy import delete, func, select

from storage import models
from storage.database import Work, changed_rows


@dataclass(frozen=True, slots=True)
class UnreadRecord:
    """A text that was not understood: how often, when last, in which language and moment."""

    said: str
    language: str
    moment: str
    times: int
    last_on: date


def add(work: Work, *, on: date, language: str, moment: str, said: str) -> None:
    """Keep a text."""
    work.add(models.UnreadText(said_on=on, language=language, moment=moment, said=said))
    work.flush()


def newest(work: Work, limit: int) -> list[UnreadRecord]:
    """Return texts with how often each was said, the most frequent and newest first."""
    text = models.UnreadText
    times, last_on = func.count(text.id).label("times"), func.max(text.said_on).label("last_on")
    rows = work.execute(
        select(text.said, text.language, text.moment, times, last_on)
        .group_by(text.said, text.language, text.moment)
        .order_by(times.desc(), last_on.desc(), text.said)
        .limit(limit)
    )
    return [UnreadRecord(*row) for row in rows]


#: The day of the oldest text still kept.
OLDEST_ON: Final = select(func.min(models.UnreadText.said_on))


def forget(work: Work, before: date) -> int:
    """Forget texts of before a day; return how many."""
    return changed_rows(work, delete(models.UnreadText).where(models.UnreadText.said_on < before))
