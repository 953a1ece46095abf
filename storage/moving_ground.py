"""Ground that goes from one yard to another, with all that is on record for it."""

from __future__ import annotations

from collections.abc import Collection
from datetime import datetime
from typing import Any, TypeVar

from storage import held, models
from storage.database import Work

Row = TypeVar("Row", bound=models.Base)


def move(
    work: Work, ground_ids: Collection[int], *, yard_id: int, to_id: int, now: datetime
) -> None:
    """Give ground to another yard, with its zones, records, seed, readings and sightings.

    An application that covered other ground too becomes two records, each with what its own zones
    got. What was said of the whole yard (water, readings, sightings, its season) holds at both.
    A zone is a new measurement of the same ground, on which later changes hang.
    """
    for ground in held.of_yard(work, models.Ground, yard_id):
        if ground.id in ground_ids:
            ground.yard_id = to_id
    for zone in held.of_yard(work, models.Zone, yard_id):
        if zone.removed_at is None and zone.ground_id in ground_ids:
            zone.removed_at = now
            work.add(_copy(zone, yard_id=to_id, removed_at=None, created_at=now))
    numbers = _move_records(work, ground_ids, yard_id, to_id)
    for watering in held.of_yard(work, models.Watering, yard_id):
        grounds = watering.grounds
        got = None if grounds is None else [each for each in grounds if each in ground_ids]
        if watering.undone_at is None and got != []:
            known = [new for old, new in numbers.items() if old <= watering.after_id]
            after_id = max(known, default=0)
            work.add(_copy(watering, yard_id=to_id, grounds=got, after_id=after_id))
    for seeding in held.of_yard(work, models.Seeding, yard_id):
        if seeding.ground_id in ground_ids:
            seeding.yard_id = to_id
    seen: tuple[models.Reading | models.Sighting, ...] = (
        *held.of_yard(work, models.Reading, yard_id),
        *held.of_yard(work, models.Sighting, yard_id),
    )
    for row in seen:
        if row.ground_id in ground_ids:
            row.yard_id = to_id
        elif row.ground_id is None and row.undone_at is None:
            work.add(_copy(row, yard_id=to_id))
    for table in (models.Season, models.Mute, models.YardWishes):
        for each in held.of_yard(work, table, yard_id):
            work.add(_copy(each, yard_id=to_id))
    work.flush()
    # Rows are held by the yard they belonged to.
    held.let_go(work)


def _move_records(
    work: Work, ground_ids: Collection[int], yard_id: int, to_id: int
) -> dict[int, int]:
    """Move what ground got to another yard's records; return their numbers by those before."""
    shares: dict[int, list[models.ApplicationZone]] = {}
    for share in held.of_yard(work, models.ApplicationZone, yard_id):
        shares.setdefault(share.application_id, []).append(share)
    numbers: dict[int, int] = {}
    moved: list[models.ApplicationZone] = []
    for record in held.of_yard(work, models.Application, yard_id):
        every = shares.get(record.id, [])
        theirs = [share for share in every if share.ground_id in ground_ids]
        if not theirs or record.undone_at is not None:
            continue
        moved += theirs
        number = record.id
        if len(theirs) == len(every):
            record.yard_id = to_id
        else:
            # How much water carried it was said of all of it.
            details = {name: said for name, said in record.details.items() if name != "carrier"}
            new = _copy(record, yard_id=to_id, details=details)
            work.add(new)
            work.flush()
            number = new.id
            for share in theirs:
                share.application_id = number
        numbers[record.id] = number
    for share in moved:
        share.beside = [numbers.get(each, each) for each in share.beside]
    return numbers


def _copy(row: Row, **values: Any) -> Row:
    """Return a new row like another, but for some columns."""
    table = models.table_of(type(row))
    own = {column.key: getattr(row, column.key) for column in table.columns if column.key != "id"}
    return type(row)(**{**own, **values})
