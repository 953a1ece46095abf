"""Keeping the measured zones of a yard."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime

from storage import journal, yards
from storage.database import Work
from storage.yards import NewZone, YardRecord, ZoneRecord


def keep(
    work: Work, yard: YardRecord, new: Sequence[NewZone], *, person_id: int, now: datetime
) -> list[ZoneRecord]:
    """Keep zones, each in place of the one of the same name; return all zones of the yard."""
    yards.keep_zones(work, yard.id, new, person_id=person_id, now=now)
    kept = yards.zones(work, yard.id)
    journal.note(work, yard.id, "zones.keep", names=[zone.name for zone in new])
    yards.change(work, yard.id, next_check_at=now)
    return kept


def remove(
    work: Work, yard: YardRecord, zones: Sequence[ZoneRecord], *, person_id: int, now: datetime
) -> None:
    """Take zones out of a yard; what was applied to them stays on record."""
    ids = [zone.id for zone in zones]
    yards.remove_zones(work, ids, now)
    journal.note(work, yard.id, "zones.remove", names=[zone.name for zone in zones])
    yards.change(work, yard.id, next_check_at=now)


def free_name(work: Work, yard: YardRecord, taken: Sequence[str]) -> str:
    """Return a name for a zone nobody named: ``zone 1``, ``zone 2``, ..."""
    used = {zone.name.casefold() for zone in yards.zones(work, yard.id)}
    used |= {name.casefold() for name in taken}
    number = 1
    while f"zone {number}" in used:
        number += 1
    return f"zone {number}"
