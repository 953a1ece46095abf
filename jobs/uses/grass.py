"""What a zone is: its grass, how often it is treated, what acts on it; and a yard's habits."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime
from typing import Any, Final, Literal

from jobs.standing import standing_of
from storage import journal, yards
from storage.database import Work
from storage.yards import YardRecord, ZoneRecord

Part = Literal["every", "ask", "never"]
Note = Literal["slope", "clay", "hot_strip", "shade", "water"]
Lock = Literal["seed", "sod", "rest"]


#: Why a zone is left out that rests for a year.
REST: Final = "rest"


@dataclass(frozen=True, slots=True)
class Change:
    """What is said of zones; what is None stays as it is.

    Attributes
    ----------
    grass
        A species' key, ``unknown``, or ``other``.
    part
        Treated in every round, asked each time, or never.
    buffer_m
        Length and width of the strip along water that stays untreated [m].
    add_notes, drop_notes
        Notes that hold from now on, or no longer.
    lock
        New seed or sod, or a year's rest; ``unlock`` ends it.
    on
        The day of seeding or laying, or the first day of rest.
    """

    grass: str | None = None
    part: Part | None = None
    buffer_m: tuple[float, float] | None = None
    add_notes: frozenset[Note] = frozenset()
    drop_notes: frozenset[Note] = frozenset()
    lock: Lock | None = None
    unlock: bool = False
    on: date | None = None


class BufferTooLarge(ValueError):
    """Raised when a buffer covers all of its zone."""

    def __init__(self, zone: ZoneRecord, buffer_m2: float) -> None:
        super().__init__(f"{buffer_m2:g} of {zone.area_m2:g}")
        self.zone = zone
        self.buffer_m2 = buffer_m2


def change(
    work: Work, yard: YardRecord, zones: Sequence[ZoneRecord], what: Change, *, now: datetime
) -> list[ZoneRecord]:
    """Change what is known of zones; return them as they are now.

    Raises
    ------
    BufferTooLarge
        If a buffer leaves nothing to treat; nothing is changed then.
    """
    wanted = {zone.id: _values(zone, what) for zone in zones}
    for zone in zones:
        yards.change_zones(work, [zone.id], **wanted[zone.id])
    journal.note(work, yard.id, "zones.change", names=[zone.name for zone in zones])
    yards.change(work, yard.id, next_check_at=now)
    ids = set(wanted)
    return [zone for zone in standing_of(work, yard).zones if zone.id in ids]


def end_of_rest(work: Work, zones: Sequence[ZoneRecord]) -> None:
    """Take zones in again that rested for the year that is over."""
    for zone in zones:
        if zone.locked_why == REST:
            yards.change_zones(work, [zone.id], **_values(zone, Change(unlock=True)))


def _values(zone: ZoneRecord, what: Change) -> dict[str, Any]:
    values: dict[str, Any] = {}
    if what.grass is not None:
        values["grass"] = what.grass
    if what.part is not None:
        values["part"] = what.part
    notes = (set(zone.notes) | what.add_notes) - what.drop_notes
    if what.buffer_m is not None:
        length_m, width_m = what.buffer_m
        if length_m * width_m >= zone.area_m2:
            raise BufferTooLarge(zone, length_m * width_m)
        values |= {"buffer_length_m": length_m, "buffer_width_m": width_m}
        notes.add("water")
    elif "water" in what.drop_notes:
        values |= {"buffer_length_m": None, "buffer_width_m": None}
    values["notes"] = sorted(notes)
    if what.lock is not None:
        values |= {"locked_why": what.lock, "locked_on": what.on}
    elif what.unlock or (what.part == "every" and zone.locked_why == REST):
        values |= {"locked_why": None, "locked_on": None}
    part = values.get("part", zone.part)
    values["is_treated"] = part == "every" and values.get("locked_why", zone.locked_why) is None
    return values
