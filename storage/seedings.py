"""Zones that were seeded, or are to be."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime
from typing import Any

from storage import held, models
from storage.database import Work
from storage.plain import plain


@dataclass(frozen=True, slots=True)
class SeedingRecord:
    """A seeding of one zone: planned, or done (`is_done`).

    `is_before_round` says that the zone is left out of an autumn round that would collide with it;
    `label_days` is the wait from application to seed on the person's own label. `mown_on` are the
    days of its mowings (ISO dates), None where they were counted without their days.
    """

    id: int
    yard_id: int
    zone_name: str
    ground_id: int
    species: str | None
    method: str
    seed_on: date
    is_done: bool
    is_before_round: bool
    label_days: int | None
    mowings: int
    mown_on: list[Any] | None
    said: str
    undone_at: datetime | None


def add(
    work: Work,
    *,
    yard_id: int,
    ground_id: int,
    species: str | None,
    method: str,
    seed_on: date,
    is_done: bool,
    label_days: int | None,
    said: str,
    person_id: int,
    now: datetime,
    is_before_round: bool = False,
) -> int:
    """Keep a seeding; return its id."""
    row = models.Seeding(
        yard_id=yard_id,
        ground_id=ground_id,
        species=species,
        method=method,
        seed_on=seed_on,
        is_done=is_done,
        is_before_round=is_before_round,
        label_days=label_days,
        mowings=0,
        mown_on=None,
        said=said,
        created_at=now,
        person_id=person_id,
        undone_at=None,
    )
    work.add(row)
    work.flush()
    return row.id


def of_yard(work: Work, yard_id: int) -> list[SeedingRecord]:
    """Return a yard's seedings that stand, oldest first."""
    rows = [r for r in held.of_yard(work, models.Seeding, yard_id) if r.undone_at is None]
    return [plain(row, SeedingRecord) for row in sorted(rows, key=lambda row: row.seed_on)]


def set_before_round(work: Work, seeding_id: int, *, is_before_round: bool) -> None:
    """Note whether a seeding goes before a colliding round."""
    work.get_one(models.Seeding, seeding_id).is_before_round = is_before_round
    work.flush()


def set_mowings(work: Work, seeding_id: int, mowings: int, mown_on: list[Any] | None) -> None:
    """Note how often the new turf has been mown, and on which days (ISO dates)."""
    row = work.get_one(models.Seeding, seeding_id)
    row.mowings, row.mown_on = mowings, mown_on
    work.flush()


def drop(work: Work, seeding_id: int, now: datetime) -> None:
    """Mark a seeding as given up."""
    work.get_one(models.Seeding, seeding_id).undone_at = now
    work.flush()
