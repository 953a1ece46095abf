"""Readings of the yard's own soil thermometer."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime

from storage import held, models
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
    rows = [r for r in held.of_yard(work, models.Reading, yard_id) if r.undone_at is None]
    return [plain(row, ReadingRecord) for row in sorted(rows, key=lambda row: row.read_at)]
