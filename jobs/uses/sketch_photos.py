"""Keeping a person's own photo of a yard or a label."""

from __future__ import annotations

from datetime import datetime

from storage import journal, photos
from storage.database import Work
from storage.yards import YardRecord


def keep_photo(
    work: Work,
    yard: YardRecord,
    path: str,
    *,
    person_id: int,
    now: datetime,
    is_of_label: bool = False,
) -> None:
    """Keep a photo with a yard.

    One of a label goes to the product that is read off it, once that is kept.
    """
    photo_id = photos.add(
        work, yard_id=yard.id, path=path, person_id=person_id, now=now, is_of_label=is_of_label
    )
    journal.note(work, yard.id, "photo.add", photo_id)
