"""Weeds people saw, or looked for in vain: the only ground truth there is."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime

from storage import held, models
from storage.database import Work
from storage.plain import plain


@dataclass(frozen=True, slots=True)
class SightingRecord:
    """What somebody saw; without a zone it holds for the whole yard."""

    id: int
    yard_id: int
    zone_name: str | None
    ground_id: int | None
    weed: str
    is_seen: bool
    seen_on: date
    said: str
    undone_at: datetime | None


def add(
    work: Work,
    *,
    yard_id: int,
    ground_id: int | None,
    weed: str,
    is_seen: bool,
    seen_on: date,
    said: str,
    person_id: int,
    now: datetime,
) -> int:
    """Keep a sighting; return its id."""
    row = models.Sighting(
        yard_id=yard_id,
        ground_id=ground_id,
        weed=weed,
        is_seen=is_seen,
        seen_on=seen_on,
        said=said,
        recorded_at=now,
        person_id=person_id,
        undone_at=None,
    )
    work.add(row)
    work.flush()
    return row.id


def of_yard(work: Work, yard_id: int) -> list[SightingRecord]:
    """Return a yard's sightings that stand, oldest first."""
    rows = [r for r in held.of_yard(work, models.Sighting, yard_id) if r.undone_at is None]
    return [plain(row, SightingRecord) for row in sorted(rows, key=lambda row: row.seen_on)]
