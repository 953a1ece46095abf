"""Spreaders and sprayers of a chat, and the weighed tries of products in them."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import select

from storage import held, models
from storage.database import Work
from storage.plain import plain, plain_or_none


@dataclass(frozen=True, slots=True)
class MachineRecord:
    """A machine: ``spreader`` or ``sprayer``; swath [m], tank [L] and spray volume [L/ha]."""

    id: int
    chat_id: int
    kind: str
    swath_m: float | None
    tank_l: float | None
    spray_l_ha: float | None


@dataclass(frozen=True, slots=True)
class TryRecord:
    """One weighed try: the dial (None where not said) and the rate it gave, as written."""

    id: int
    machine_id: int
    product: str
    setting: float | None
    rate_value: float
    rate_unit: str
    said: str
    at: datetime


def machine(work: Work, chat_id: int, kind: str) -> MachineRecord | None:
    """Return a chat's machine of a kind, or None before anything is known of it."""
    return plain_or_none(_row(work, chat_id, kind), MachineRecord)


def keep(work: Work, chat_id: int, kind: str, *, now: datetime, **values: Any) -> MachineRecord:
    """Set named columns of a chat's machine, made now if it is new."""
    row = _row(work, chat_id, kind)
    if row is None:
        row = models.Machine(chat_id=chat_id, kind=kind, changed_at=now)
        work.add(row)
    for name, value in values.items():
        if not hasattr(models.Machine, name):
            raise AttributeError(name)
        setattr(row, name, value)
    row.changed_at = now
    work.flush()
    return plain(row, MachineRecord)


def add_try(
    work: Work,
    *,
    machine_id: int,
    product: str,
    setting: float | None,
    rate_value: float,
    rate_unit: str,
    said: str,
    person_id: int,
    now: datetime,
) -> int:
    """Keep a weighed try; return its id."""
    row = models.MachineTry(
        machine_id=machine_id,
        product=product,
        setting=setting,
        rate_value=rate_value,
        rate_unit=rate_unit,
        said=said,
        at=now,
        person_id=person_id,
        undone_at=None,
    )
    work.add(row)
    work.flush()
    return row.id


def tries(work: Work, machine_id: int, product: str) -> list[TryRecord]:
    """Return the tries of a product in a machine that stand, oldest first."""
    rows = work.scalars(
        select(models.MachineTry)
        .where(
            models.MachineTry.machine_id == machine_id,
            models.MachineTry.product == product,
            models.MachineTry.undone_at.is_(None),
        )
        .order_by(models.MachineTry.id)
    )
    return [plain(row, TryRecord) for row in rows]


def _row(work: Work, chat_id: int, kind: str) -> models.Machine | None:
    machines = held.of_chat(work, models.Machine, chat_id)
    return next((each for each in machines if each.kind == kind), None)
