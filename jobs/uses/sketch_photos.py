"""Keeping a person's own photo of a yard."""

from __future__ import annotations

from datetime import datetime

from storage import journal, photos
from storage.database import Work
from storage.yards import YardRecord


def keep_photo(work: Work, yard: YardRecord, path: str, *, person_id: int, now: datetime) -> int:
    """Keep a photo with a yard; return the journal's entry, for taking it back."""
    photo_id = photos.add(work, yard_id=yard.id, path=path, person_id=person_id, now=now)
    return journal.note(work, yard.id, "photo.add", photo_id)
