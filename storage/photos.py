"""People's own photos of their yards and of labels."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import ColumnElement, select

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


def add(
    work: Work, *, yard_id: int, path: str, person_id: int, now: datetime, is_of_label: bool = False
) -> int:
    """Keep a photo with a yard; return its id."""
    row = models.YardPhoto(
        yard_id=yard_id,
        path=path,
        added_at=now,
        person_id=person_id,
        undone_at=None,
        is_of_label=is_of_label,
        product_id=None,
    )
    work.add(row)
    work.flush()
    return row.id


def newest(work: Work, yard_id: int) -> PhotoRecord | None:
    """Return a yard's newest photo, or None; those of labels are none of the yard."""
    return _newest(
        work, models.YardPhoto.yard_id == yard_id, models.YardPhoto.is_of_label.is_(False)
    )


def give_to_product(work: Work, yard_id: int, product_id: int) -> None:
    """Keep the photos of a label with the product that was read off it."""
    photo = models.YardPhoto
    waiting = select(photo).where(
        photo.yard_id == yard_id,
        photo.is_of_label,
        photo.product_id.is_(None),
        photo.undone_at.is_(None),
    )
    for row in work.scalars(waiting):
        row.product_id = product_id


def of_product(work: Work, product_id: int) -> PhotoRecord | None:
    """Return the newest photo of a product's label, or None."""
    return _newest(work, models.YardPhoto.product_id == product_id)


def _newest(work: Work, *which: ColumnElement[bool]) -> PhotoRecord | None:
    row = work.scalar(
        select(models.YardPhoto)
        .where(*which, models.YardPhoto.undone_at.is_(None))
        .order_by(models.YardPhoto.id.desc())
        .limit(1)
    )
    return plain_or_none(row, PhotoRecord)
