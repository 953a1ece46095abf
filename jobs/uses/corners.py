"""Zones walked corner by corner, and the length of a person's pace."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from jobs.agronomy.shape_store import to_json
from jobs.agronomy.shapes import Corners
from jobs.agronomy.walked import (
    TAPE_BELOW_M2,
    Place,
    area_error_m2,
    distance_m,
    geodesic_area_m2,
    metres_from,
)
from storage import chats, journal
from storage.chats import PersonRecord
from storage.database import Work
from storage.yards import NewZone, YardRecord

#: A corner further from its yard's point than this is somewhere else [m].
FARTHEST_M: Final = 2000.0


class TooFar(ValueError):
    """Raised for a corner that lies far from its yard."""

    def __init__(self, metres: float) -> None:
        super().__init__(f"{metres:.0f} m away")
        self.metres = metres


@dataclass(frozen=True, slots=True)
class Walked:
    """A walked zone: what to keep, its likely error [m²], and whether a tape would do better."""

    zone: NewZone
    error_m2: float
    is_tape_better: bool


def step_m(yard: YardRecord, places: Sequence[Place], place: Place) -> float | None:
    """Return how far a corner lies from the one before [m]; None for the first.

    Raises
    ------
    TooFar
        If it lies far from the yard.
    """
    away = distance_m((yard.lat, yard.lon), place)
    if away > FARTHEST_M:
        raise TooFar(away)
    return distance_m(places[-1], place) if places else None


def close(yard: YardRecord, name: str, places: Sequence[Place], said: str, echo: str) -> Walked:
    """Return the zone that corners in order enclose.

    Raises
    ------
    ImpossibleShape
        If there are fewer than three, they cross or they enclose nothing.
    """
    points_m = metres_from((yard.lat, yard.lon), places)
    shape = Corners(points_m)
    area_m2 = geodesic_area_m2(places)
    zone = NewZone(name, said, echo, to_json(shape), area_m2)
    return Walked(zone, area_error_m2(points_m), area_m2 < TAPE_BELOW_M2)


def set_pace(work: Work, yard: YardRecord, person: PersonRecord, pace_m: float) -> PersonRecord:
    """Keep the length of a person's pace."""
    journal.note(work, yard.id, "person.pace", person.id)
    return chats.change_person(work, person.id, pace_m=pace_m)
