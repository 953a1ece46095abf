"""Entries of exported calendars as they were last given out."""

from __future__ import annotations

from datetime import datetime
from typing import Any

from sqlalchemy import select

from storage import models
from storage.database import Work


def numbered(
    work: Work, yard_id: int, uid: str, content: dict[str, Any], now: datetime
) -> tuple[int, datetime]:
    """Return an entry's sequence number and when it last changed; a change counts it up."""
    row = work.scalar(
        select(models.CalendarEntry).where(
            models.CalendarEntry.yard_id == yard_id, models.CalendarEntry.uid == uid
        )
    )
    if row is None:
        row = models.CalendarEntry(
            yard_id=yard_id, uid=uid, sequence=0, content=content, changed_at=now
        )
        work.add(row)
    elif row.content != content:
        row.sequence += 1
        row.content = content
        row.changed_at = now
    work.flush()
    return row.sequence, row.changed_at


def given_out(work: Work, yard_id: int) -> dict[str, dict[str, Any]]:
    """Return the content of every entry of a yard that was ever given out, by UID."""
    rows = work.scalars(
        select(models.CalendarEntry)
        .where(models.CalendarEntry.yard_id == yard_id)
        .order_by(models.CalendarEntry.id)
    )
    return {row.uid: row.content for row in rows}
