"""Confirmed applications, what each zone got, and reported watering."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date, datetime
from typing import Any

from sqlalchemy import select

from storage import held, models
from storage.database import Work
from storage.plain import plain


@dataclass(frozen=True, slots=True)
class ZoneShare:
    """What one zone got; amounts in kg or L, None where nobody said.

    `area_m2` of the zone's `of_m2` got it. `beside` are applications known to lie on other square
    feet of the same ground; `watered_in_on` is when enough water had come there.
    """

    zone_id: int
    ground_id: int
    zone_name: str
    area_m2: float
    of_m2: float
    asked_si: float | None
    amount_si: float | None
    amount_unit: str | None
    is_amount_said: bool
    beside: Sequence[int] = ()
    watered_in_on: date | None = None

    @property
    def share(self) -> float:
        """How much of the zone got it (0-1)."""
        return self.area_m2 / self.of_m2 if self.of_m2 else 1.0


@dataclass(frozen=True, slots=True)
class ApplicationRecord:
    """A confirmed application; `applied_on` is the yard's local day."""

    id: int
    yard_id: int
    target: str
    year: int
    applied_at: datetime
    applied_on: date
    recorded_at: datetime
    person_id: int
    product_id: int | None
    product: dict[str, Any] | None
    said: str
    undone_at: datetime | None
    shares: tuple[ZoneShare, ...] = ()
    by_whom: str | None = None
    details: dict[str, Any] = field(default_factory=dict)

    @property
    def watered_in_on(self) -> date | None:
        """The day by which every zone of it had had its water; None: not yet."""
        days = [share.watered_in_on for share in self.shares]
        known = [day for day in days if day is not None]
        return max(known) if known and len(known) == len(days) else None


@dataclass(frozen=True, slots=True)
class WateringRecord:
    """A reported watering: the ground that got it (None: all of the yard), the day and the depth.

    `after_id` is the newest application on record when it was told of.
    """

    id: int
    watered_on: date
    depth_mm: float
    grounds: list[Any] | None
    after_id: int


def add(
    work: Work,
    *,
    yard_id: int,
    target: str,
    year: int,
    applied_at: datetime,
    applied_on: date,
    person_id: int,
    product_id: int | None,
    product: dict[str, Any] | None,
    said: str,
    shares: Sequence[ZoneShare],
    now: datetime,
    by_whom: str | None = None,
    details: dict[str, Any] | None = None,
) -> int:
    """Keep an application with its zones; return its id."""
    row = models.Application(
        yard_id=yard_id,
        target=target,
        year=year,
        applied_at=applied_at,
        applied_on=applied_on,
        recorded_at=now,
        person_id=person_id,
        product_id=product_id,
        product=product,
        said=said,
        undone_at=None,
        undone_by=None,
        by_whom=by_whom,
        details=details or {},
    )
    work.add(row)
    work.flush()
    for share in shares:
        work.add(
            models.ApplicationZone(
                application_id=row.id,
                zone_id=share.zone_id,
                ground_id=share.ground_id,
                area_m2=share.area_m2,
                of_m2=share.of_m2,
                beside=list(share.beside),
                watered_in_on=share.watered_in_on,
                asked_si=share.asked_si,
                amount_si=share.amount_si,
                amount_unit=share.amount_unit,
                is_amount_said=share.is_amount_said,
            )
        )
    work.flush()
    return row.id


def of_yard(work: Work, yard_id: int, *, since: date | None = None) -> list[ApplicationRecord]:
    """Return a yard's applications that stand (not undone), oldest first."""
    shares: dict[int, list[models.ApplicationZone]] = {}
    for share in held.of_yard(work, models.ApplicationZone, yard_id):
        shares.setdefault(share.application_id, []).append(share)
    rows = [
        row
        for row in held.of_yard(work, models.Application, yard_id)
        if row.undone_at is None and (since is None or row.applied_on >= since)
    ]
    rows.sort(key=lambda row: (row.applied_on, row.id))
    return [_record(row, shares.get(row.id, [])) for row in rows]


def strike(work: Work, application_id: int, *, person_id: int, now: datetime) -> None:
    """Strike out an application that another says better; it stays on record."""
    row = work.get_one(models.Application, application_id)
    row.undone_at = now
    row.undone_by = person_id
    work.flush()


def set_details(work: Work, application_id: int, details: dict[str, Any]) -> None:
    """Keep the record's other fields in place of those before."""
    work.get_one(models.Application, application_id).details = details
    work.flush()


def set_product(work: Work, application_id: int, product_id: int, product: dict[str, Any]) -> None:
    """Say of which product an application was, where more of its label is known by now."""
    row = work.get_one(models.Application, application_id)
    row.product_id, row.product = product_id, product
    work.flush()


def move(
    work: Work, application_id: int, *, applied_at: datetime, applied_on: date, year: int
) -> None:
    """Put an application on another day."""
    row = work.get_one(models.Application, application_id)
    row.applied_at, row.applied_on, row.year = applied_at, applied_on, year
    work.flush()


def set_amounts(
    work: Work, application_id: int, amounts: Mapping[int, tuple[float | None, str | None, bool]]
) -> None:
    """Set what zones got in an application: by zone the amount [kg or L], its unit, if said."""
    for share in _shares(work, application_id):
        if share.zone_id in amounts:
            share.amount_si, share.amount_unit, share.is_amount_said = amounts[share.zone_id]
    work.flush()


def set_area(
    work: Work, application_id: int, zone_id: int, area_m2: float, asked_si: float | None
) -> None:
    """Set how much of a zone an application covered [m²], and what that asked for [kg or L].

    Its amount follows where nobody said one.
    """
    for share in _shares(work, application_id):
        if share.zone_id == zone_id:
            share.area_m2, share.asked_si = area_m2, asked_si
            if not share.is_amount_said:
                share.amount_si = asked_si
    work.flush()


def set_watered_in(work: Work, application_id: int, days: Mapping[int, date | None]) -> None:
    """Note by zone the day on which enough water had come after it, or that it has not yet."""
    for share in _shares(work, application_id):
        if share.zone_id in days:
            share.watered_in_on = days[share.zone_id]
    work.flush()


def add_watering(
    work: Work,
    *,
    yard_id: int,
    watered_on: date,
    depth_mm: float,
    person_id: int,
    now: datetime,
    grounds: Sequence[int] | None = None,
) -> int:
    """Keep a reported watering of some ground (None: all of the yard); return its id."""
    down = held.of_yard(work, models.Application, yard_id)
    row = models.Watering(
        yard_id=yard_id,
        watered_on=watered_on,
        depth_mm=depth_mm,
        recorded_at=now,
        person_id=person_id,
        undone_at=None,
        grounds=None if grounds is None else list(grounds),
        after_id=max((each.id for each in down), default=0),
    )
    work.add(row)
    work.flush()
    return row.id


def waterings(work: Work, yard_id: int) -> list[WateringRecord]:
    """Return the waterings people reported that stand, oldest first."""
    rows = [row for row in held.of_yard(work, models.Watering, yard_id) if row.undone_at is None]
    return [plain(row, WateringRecord) for row in sorted(rows, key=lambda row: row.watered_on)]


def _shares(work: Work, application_id: int) -> Sequence[models.ApplicationZone]:
    row = work.get_one(models.Application, application_id)
    every = held.of_yard(work, models.ApplicationZone, row.yard_id)
    found = [share for share in every if share.application_id == application_id]
    if found:
        return found
    # What was taken back is not among what is held of a yard.
    query = select(models.ApplicationZone).where(
        models.ApplicationZone.application_id == application_id
    )
    return work.scalars(query.order_by(models.ApplicationZone.id)).all()


def _record(row: models.Application, shares: Sequence[models.ApplicationZone]) -> ApplicationRecord:
    return ApplicationRecord(
        id=row.id,
        yard_id=row.yard_id,
        target=row.target,
        year=row.year,
        applied_at=row.applied_at,
        applied_on=row.applied_on,
        recorded_at=row.recorded_at,
        person_id=row.person_id,
        product_id=row.product_id,
        product=row.product,
        said=row.said,
        undone_at=row.undone_at,
        # A zone that was taken out of a record has no ground in it.
        shares=tuple(plain(share, ZoneShare) for share in shares if share.area_m2),
        by_whom=row.by_whom,
        details=row.details,
    )
