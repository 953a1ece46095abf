"""Zones: measured, renamed, split, merged and taken out; the ground keeps its record.

What was put down stays with the ground it lies on (`jobs.agronomy.ground`).
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from itertools import count
from typing import Any, Final

from jobs.agronomy.ground import ALL_OF_IT
from jobs.agronomy.shape_store import to_json
from jobs.agronomy.shapes import GivenArea
from jobs.standing import standing_of
from jobs.uses.bounds import check_zones
from jobs.uses.same_ground import could_be, ground_left
from storage import grounds, journal, yards
from storage.database import Work
from storage.yards import NewZone, YardRecord, ZoneRecord

#: A zone measured larger than this may have taken in ground that was another's.
_GROWN: Final = 1.02


class NameTaken(ValueError):
    """Raised for a name that another zone of the yard has."""


class PartsDiffer(ValueError):
    """Raised where the parts of a zone come to more or less than the zone [m²]."""

    def __init__(self, parts_m2: float, zone_m2: float) -> None:
        super().__init__(f"{parts_m2:g} m² of {zone_m2:g}")
        self.parts_m2 = parts_m2
        self.zone_m2 = zone_m2


@dataclass(frozen=True, slots=True)
class ZonePart:
    """A part that a zone is split into; without an area it is what the others leave."""

    name: str
    area_m2: float | None = None


def keep(
    work: Work, yard: YardRecord, new: Sequence[NewZone], *, person_id: int, now: datetime
) -> list[ZoneRecord]:
    """Keep zones, each in place of the one of the same name; return all zones of the yard.

    A new zone, or one that grew, may lie where another was put down on: see
    `jobs.uses.same_ground.questions`.

    Raises
    ------
    OutOfBounds
        If there would be too many, or a name is too long.
    """
    check_zones(work, yard, [zone.name for zone in new])
    before = {zone.ground_id: zone for zone in standing_of(work, yard).zones}
    yards.keep_zones(work, yard.id, new, person_id=person_id, now=now)
    names = {zone.name.casefold() for zone in new}
    added = [zone for zone in standing_of(work, yard).zones if zone.name.casefold() in names]
    _lay_on_ground(work, yard, added, before, now)
    _note(work, yard, "zones.keep", added, now)
    return list(standing_of(work, yard).zones)


def rename(
    work: Work, yard: YardRecord, zone: ZoneRecord, name: str, *, now: datetime
) -> ZoneRecord:
    """Call a zone by another name; all that is on record of it goes with it.

    Raises
    ------
    NameTaken
        If another zone has the name.
    OutOfBounds
        If it is too long.
    """
    check_zones(work, yard, [name], [zone.name])
    _check_name(work, yard, name, [zone])
    grounds.name_ground(work, zone.ground_id, name)
    renamed = next(each for each in standing_of(work, yard).zones if each.id == zone.id)
    _note(work, yard, "zones.rename", [zone, renamed], now)
    return renamed


def split(
    work: Work,
    yard: YardRecord,
    zone: ZoneRecord,
    parts: Sequence[ZonePart],
    *,
    person_id: int,
    now: datetime,
) -> list[ZoneRecord]:
    """Split a zone into parts; each has all that was put down on the zone, for its own area.

    Raises
    ------
    NameTaken
        If two parts have one name, or another zone has it.
    PartsDiffer
        If the parts come to more than the zone, or leave some of it out.
    OutOfBounds
        If there would be too many zones, or a name is too long.
    """
    areas_m2 = _part_areas(zone, parts)
    check_zones(work, yard, [part.name for part in parts], [zone.name])
    for part in parts:
        _check_name(work, yard, part.name, [zone], [each.name for each in parts])
    yards.remove_zones(work, [zone.id], now)
    made = []
    for part, area_m2 in zip(parts, areas_m2, strict=True):
        ground_id = grounds.add_ground(work, yard.id, part.name)
        grounds.add_origin(work, ground_id, zone.ground_id, "split", area_m2)
        new = _by_area(part.name, area_m2, ground_id, zone)
        made.append(yards.add_zone(work, new, zone, person_id=person_id, now=now))
    _note(work, yard, "zones.split", [zone, *made], now)
    return made


def merge(
    work: Work,
    yard: YardRecord,
    zones: Sequence[ZoneRecord],
    name: str,
    *,
    person_id: int,
    now: datetime,
) -> ZoneRecord:
    """Make one zone of several; each square foot keeps its own record, and the strictest governs.

    Where the zones differ in turf, nobody knows it any more; where one is locked or left alone, all
    of it is.

    Raises
    ------
    NameTaken
        If another zone has the name.
    OutOfBounds
        If it is too long.
    """
    check_zones(work, yard, [name], [zone.name for zone in zones])
    _check_name(work, yard, name, zones)
    yards.remove_zones(work, [zone.id for zone in zones], now)
    ground_id = grounds.add_ground(work, yard.id, name)
    for zone in zones:
        grounds.add_origin(work, ground_id, zone.ground_id, "merge", zone.area_m2)
    largest = max(zones, key=lambda each: each.area_m2)
    area_m2 = math.fsum(zone.area_m2 for zone in zones)
    new = _by_area(name, area_m2, ground_id, largest)
    made = yards.add_zone(work, new, largest, person_id=person_id, now=now)
    yards.change_zones(work, [made.id], **_strictest(zones))
    made = next(each for each in standing_of(work, yard).zones if each.id == made.id)
    _note(work, yard, "zones.merge", [*zones, made], now)
    return made


def remove(
    work: Work, yard: YardRecord, zones: Sequence[ZoneRecord], *, now: datetime
) -> tuple[str, ...]:
    """Take zones out of a yard; return the names of those with a record, which is kept."""
    standing = standing_of(work, yard)
    yards.remove_zones(work, [zone.id for zone in zones], now)
    _note(work, yard, "zones.remove", zones, now)
    return tuple(
        zone.name for zone in zones if any(standing.covered(zone, each) for each in standing.done)
    )


def free_name(
    work: Work, yard: YardRecord, taken: Sequence[str], called: Callable[[int], str]
) -> str:
    """Return a name for a zone nobody named, of the first free number: ``zone 1``."""
    used = {zone.name.casefold() for zone in standing_of(work, yard).zones}
    used |= {name.casefold() for name in taken}
    return next(name for number in count(1) if (name := called(number)).casefold() not in used)


def _lay_on_ground(
    work: Work,
    yard: YardRecord,
    added: Sequence[ZoneRecord],
    before: dict[int, ZoneRecord],
    now: datetime,
) -> None:
    """Note which ground with a record new zones may lie on, and zones that grew may reach over."""
    for zone in added:
        was = before.get(zone.ground_id)
        more_m2 = zone.area_m2 - (0.0 if was is None else was.area_m2)
        if was is not None and zone.area_m2 <= _GROWN * was.area_m2:
            continue
        left = [e for e in ground_left(work, yard, now) if e.ground_id != zone.ground_id]
        near = could_be(left, zone.name, more_m2)
        ground_id = zone.ground_id
        if near and was is not None:
            ground_id = grounds.add_ground(work, yard.id, zone.name)
            grounds.add_origin(work, ground_id, was.ground_id, "merge", was.area_m2)
            yards.put_on_ground(work, zone.id, ground_id)
        for each in near:
            grounds.add_origin(work, ground_id, each.ground_id, "maybe", more_m2)


def _part_areas(zone: ZoneRecord, parts: Sequence[ZonePart]) -> list[float]:
    given = [part.area_m2 for part in parts if part.area_m2 is not None]
    total_m2, open_parts = math.fsum(given), len(parts) - len(given)
    left_m2 = zone.area_m2 - total_m2
    is_short = not open_parts and total_m2 < ALL_OF_IT * zone.area_m2
    is_over = total_m2 > zone.area_m2 / ALL_OF_IT or (open_parts and left_m2 <= 0)
    if is_short or is_over or len(parts) < 2 or any(area <= 0 for area in given):
        raise PartsDiffer(total_m2, zone.area_m2)
    # What is said to come to the whole does, whatever a tape is off by.
    factor = 1.0 if open_parts else zone.area_m2 / total_m2
    return [
        left_m2 / open_parts if part.area_m2 is None else part.area_m2 * factor for part in parts
    ]


def _check_name(
    work: Work,
    yard: YardRecord,
    name: str,
    instead_of: Sequence[ZoneRecord],
    among: Sequence[str] = (),
) -> None:
    ids = {zone.id for zone in instead_of}
    taken = [zone.name.casefold() for zone in standing_of(work, yard).zones if zone.id not in ids]
    if name.casefold() in taken or [each.casefold() for each in among].count(name.casefold()) > 1:
        raise NameTaken(name)


def _by_area(name: str, area_m2: float, ground_id: int, like: ZoneRecord) -> NewZone:
    shape = to_json(GivenArea(area_m2))
    # Nobody wrote this size: it is shown in the units of whoever asks.
    return NewZone(name, "", "", shape, area_m2, like.is_treated, ground_id)


def _strictest(zones: Sequence[ZoneRecord]) -> dict[str, Any]:
    """Return what holds for several zones together."""
    parts = {zone.part for zone in zones}
    locked = [zone for zone in zones if zone.locked_why is not None]
    newest = max(locked, key=lambda each: each.locked_on or date.min, default=None)
    buffer_m2 = math.fsum(zone.buffer_m2 for zone in zones)
    turf = {zone.grass for zone in zones}
    return {
        "grass": turf.pop() if len(turf) == 1 else "unknown",
        "part": "never" if "never" in parts else ("ask" if "ask" in parts else "every"),
        "is_treated": all(zone.is_treated for zone in zones),
        "locked_why": None if newest is None else newest.locked_why,
        "locked_on": None if newest is None else newest.locked_on,
        "buffer_length_m": buffer_m2 or None,
        "buffer_width_m": 1.0 if buffer_m2 else None,
        "notes": list(dict.fromkeys(note for zone in zones for note in zone.notes)),
    }


def _note(
    work: Work, yard: YardRecord, action: str, zones: Sequence[ZoneRecord], now: datetime
) -> int:
    yards.change(work, yard.id, next_check_at=now)
    return journal.note(
        work, yard.id, action, names=list(dict.fromkeys(zone.name for zone in zones))
    )
