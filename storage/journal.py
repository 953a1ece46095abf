"""Who changed what, when and why; the newest entries can be taken back."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import ColumnElement, select

from storage import models
from storage.database import Work
from storage.plain import plain, plain_or_none


@dataclass(frozen=True, slots=True)
class JournalEntry:
    """One change; `before` holds what undo needs, `after` what was written."""

    id: int
    at: datetime
    chat_id: int
    person_id: int
    yard_id: int | None
    action: str
    subject_id: int | None
    why: str
    before: dict[str, Any]
    after: dict[str, Any]
    undone_at: datetime | None


def note(
    work: Work,
    *,
    at: datetime,
    chat_id: int,
    person_id: int,
    yard_id: int | None,
    action: str,
    subject_id: int | None = None,
    why: str = "",
    before: dict[str, Any] | None = None,
    after: dict[str, Any] | None = None,
) -> int:
    """Note a change; return the entry's id."""
    row = models.Journal(
        at=at,
        chat_id=chat_id,
        person_id=person_id,
        yard_id=yard_id,
        action=action,
        subject_id=subject_id,
        why=why,
        before=before or {},
        after=after or {},
        undone_at=None,
        undone_by=None,
    )
    work.add(row)
    work.flush()
    return row.id


def newest(work: Work, chat_id: int) -> JournalEntry | None:
    """Return a chat's newest change that has not been taken back."""
    return _newest(work, models.Journal.chat_id == chat_id)


def newest_of_yard(work: Work, yard_id: int) -> JournalEntry | None:
    """Return the newest change of a yard that has not been taken back."""
    return _newest(work, models.Journal.yard_id == yard_id)


def _newest(work: Work, where: ColumnElement[bool]) -> JournalEntry | None:
    return plain_or_none(
        work.scalar(
            select(models.Journal)
            .where(where, models.Journal.undone_at.is_(None))
            .order_by(models.Journal.id.desc())
            .limit(1)
        ),
        JournalEntry,
    )


def entry(work: Work, entry_id: int) -> JournalEntry | None:
    """Return an entry by its id."""
    return plain_or_none(work.get(models.Journal, entry_id), JournalEntry)


def mark_undone(work: Work, entry_id: int, *, person_id: int, now: datetime) -> None:
    """Mark a change as taken back."""
    row = work.get_one(models.Journal, entry_id)
    row.undone_at = now
    row.undone_by = person_id
    work.flush()


def of_yard(work: Work, yard_id: int) -> list[JournalEntry]:
    """Return a yard's changes, oldest first."""
    rows = work.scalars(
        select(models.Journal).where(models.Journal.yard_id == yard_id).order_by(models.Journal.id)
    )
    return [plain(row, JournalEntry) for row in rows]
