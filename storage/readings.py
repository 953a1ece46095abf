"""Readings of the yard's own soil thermometer."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime

from sqlalchemy import bindparam, select

from storage import models
from storage.database import Work
from storage.plain import plain


@dataclass(frozen=True, slots=True)
class ReadingRecord:
    """A reading as it was said: what the thermometer showed [°C], how deep [m], and when.

    `ground_id` is None for the yard as a whole; `has_hour` says whether the hour was given or is
    that of the message.
    """

    id: int
    yard_id: int
    zone_name: str | None
    ground_id: int | None
    read_at: datetime
    read_on: date
    measured_c: float
    depth_m: float
    has_hour: bool


# The query of every look is built once: building it costs as much as running it.
_OF_YARD = (
    select(models.Reading)
    .where(models.Reading.yard_id == bindparam("yard_id"), models.Reading.undone_at.is_(None))
    .order_by(models.Reading.read_at, models.Reading.id)
)


def add(
    work: Work,
    *,
    yard_id: int,
    ground_id: int | None,
    read_at: datetime,
    read_on: date,
    measured_c: float,
    depth_m: float,
    has_hour: bool,
    said: str,
    person_id: int,
    now: datetime,
) -> int:
    """Keep a reading; return its id."""
    row = models.Reading(
        yard_id=yard_id,
        ground_id=ground_id,
        read_at=read_at,
        read_on=read_on,
        measured_c=measured_c,
        depth_m=depth_m,
        has_hour=has_hour,
        said=said,
        recorded_at=now,
        person_id=person_id,
        undone_at=None,
    )
    work.add(row)
    work.flush()
    return row.id


def of_yard(work: Work, yard_id: int) -> list[ReadingRecord]:
    """Return a yard's readings that stand, oldest first."""
    return [plain(row, ReadingRecord) for row in work.scalars(_OF_YARD, {"yard_id": yard_id})]
