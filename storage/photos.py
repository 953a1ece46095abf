"""People's own photos of their yards."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import select

from storage import models
from storage.database import Work
from storage.plain import plain_or_none


@dataclass(frozen=True, slots=True)
class PhotoRecord:
    """A photo: where its file lies and when it came."""

    id: int
    yard_id: int
    path: str
    added_at: datetime


def add(work: Work, *, yard_id: int, path: str, person_id: int, now: datetime) -> int:
    """Keep a photo with a yard; return its id."""
    row = models.YardPhoto(
        yard_id=yard_id, path=path, added_at=now, person_id=person_id, undone_at=None
    )
    work.add(row)
    work.flush()
    return row.id


def newest(work: Work, yard_id: int) -> PhotoRecord | None:
    """Return a yard's newest photo, or None."""
    row = work.scalar(
        select(models.YardPhoto)
        .where(models.YardPhoto.yard_id == yard_id, models.YardPhoto.undone_at.is_(None))
        .order_by(models.YardPhoto.id.desc())
        .limit(1)
    )
    return plain_or_none(row, PhotoRecord)
