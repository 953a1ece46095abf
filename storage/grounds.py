"""Pieces of ground: what they are called, and what they came of."""

from __future__ import annotations

from dataclasses import dataclass

from storage import held, models
from storage.database import Work
from storage.plain import plain


@dataclass(frozen=True, slots=True)
class OriginRecord:
    """Ground and other ground it came of; `kind` as in `jobs.agronomy.ground`."""

    id: int
    ground_id: int
    from_id: int
    kind: str
    area_m2: float


def origins(work: Work, yard_id: int) -> list[OriginRecord]:
    """Return what a yard's ground came of, oldest first."""
    rows = held.of_yard(work, models.GroundOrigin, yard_id)
    return [plain(row, OriginRecord) for row in rows]


def add_ground(work: Work, yard_id: int, name: str) -> int:
    """Add a piece of ground; return its id."""
    row = models.Ground(yard_id=yard_id, name=name)
    work.add(row)
    work.flush()
    return row.id


def name_ground(work: Work, ground_id: int, name: str) -> None:
    """Call a piece of ground by another name, with all that happened on it."""
    work.get_one(models.Ground, ground_id).name = name
    work.flush()


def ground_names(work: Work, yard_id: int) -> dict[int, str]:
    """Return what a yard's ground is called, or was when it was taken out."""
    return {row.id: row.name for row in held.of_yard(work, models.Ground, yard_id)}


def add_origin(work: Work, ground_id: int, from_id: int, kind: str, area_m2: float) -> None:
    """Note that ground came of other ground, or may have."""
    row = models.GroundOrigin(ground_id=ground_id, from_id=from_id, kind=kind, area_m2=area_m2)
    work.add(row)
    work.flush()


def settle_origin(work: Work, origin_id: int, kind: str) -> None:
    """Note what somebody said of ground that may be other ground."""
    work.get_one(models.GroundOrigin, origin_id).kind = kind
    work.flush()
