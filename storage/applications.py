"""Confirmed applications, what each zone got, and reported watering."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date, datetime
from typing import Any

from sqlalchemy import and_, bindparam, func, or_, select

from storage import models
from storage.database import Work
from storage.plain import plain


@dataclass(frozen=True, slots=True)
class ZoneShare:
    """What one zone got; amounts in kg or L, None where nobody said."""

    zone_id: int
    zone_name: str
    area_m2: float
    asked_si: float | None
    amount_si: float | None
    amount_unit: str | None
    is_amount_said: bool


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
    watered_in_on: date | None
    undone_at: datetime | None
    shares: tuple[ZoneShare, ...] = ()
    by_whom: str | None = None
    details: dict[str, Any] = field(default_factory=dict)


# Queries of every look are built once: building one costs as much as running it.
_OF_YARD = (
    select(models.Application)
    .where(
        models.Application.yard_id == bindparam("yard_id"), models.Application.undone_at.is_(None)
    )
    .order_by(models.Application.applied_on, models.Application.id)
)
_OF_YARD_SINCE = _OF_YARD.where(models.Application.applied_on >= bindparam("since"))


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
        watered_in_on=None,
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
                zone_name=share.zone_name,
                area_m2=share.area_m2,
                asked_si=share.asked_si,
                amount_si=share.amount_si,
                amount_unit=share.amount_unit,
                is_amount_said=share.is_amount_said,
            )
        )
    work.flush()
    return row.id


def application(work: Work, application_id: int) -> ApplicationRecord:
    """Return an application by its id, whether it stands or was taken back."""
    return _with_shares(work, [work.get_one(models.Application, application_id)])[0]


def of_yard(work: Work, yard_id: int, *, since: date | None = None) -> list[ApplicationRecord]:
    """Return a yard's applications that stand (not undone), oldest first."""
    query = _OF_YARD if since is None else _OF_YARD_SINCE
    return _with_shares(work, list(work.scalars(query, {"yard_id": yard_id, "since": since})))


def set_details(work: Work, application_id: int, details: dict[str, Any]) -> None:
    """Keep the record's other fields in place of those before."""
    work.get_one(models.Application, application_id).details = details
    work.flush()


def move(
    work: Work,
    application_id: int,
    *,
    applied_at: datetime,
    applied_on: date,
    year: int,
    watered_in_on: date | None,
) -> None:
    """Put an application on another day, with the day by which enough water had come after it."""
    row = work.get_one(models.Application, application_id)
    row.applied_at, row.applied_on, row.year = applied_at, applied_on, year
    row.watered_in_on = watered_in_on
    work.flush()


def set_amounts(
    work: Work, application_id: int, amounts: Mapping[int, tuple[float | None, str | None, bool]]
) -> None:
    """Set what zones got in an application: by zone the amount [kg or L], its unit, if said."""
    shares = work.scalars(
        select(models.ApplicationZone).where(
            models.ApplicationZone.application_id == application_id
        )
    )
    for share in shares:
        if share.zone_id in amounts:
            share.amount_si, share.amount_unit, share.is_amount_said = amounts[share.zone_id]
    work.flush()


def set_watered_in(work: Work, application_id: int, on: date | None) -> None:
    """Note the day on which enough water had come, or that it has not yet."""
    work.get_one(models.Application, application_id).watered_in_on = on
    work.flush()


def add_watering(
    work: Work, *, yard_id: int, watered_on: date, depth_mm: float, person_id: int, now: datetime
) -> int:
    """Keep a reported watering; return its id."""
    row = models.Watering(
        yard_id=yard_id,
        watered_on=watered_on,
        depth_mm=depth_mm,
        recorded_at=now,
        person_id=person_id,
        undone_at=None,
    )
    work.add(row)
    work.flush()
    return row.id


def watered_mm(work: Work, yard_id: int, since: date, after: int | None = None) -> float:
    """Return the depth people reported since a day [mm].

    Parameters
    ----------
    since
        The first day.
    after
        An application: of the first day's waterings those count that were told of after it. None:
        all do.
    """
    is_after = models.Watering.watered_on >= since
    if after is not None:
        told = models.JournalChange
        applied = select(func.max(told.id)).where(
            told.yard_id == yard_id, told.action == "application.add", told.subject_id == after
        )
        later = select(told.subject_id).where(
            told.yard_id == yard_id,
            told.action == "watering.add",
            told.id > func.coalesce(applied.scalar_subquery(), 0),
        )
        is_after = or_(
            models.Watering.watered_on > since,
            and_(models.Watering.watered_on == since, models.Watering.id.in_(later)),
        )
    total = work.scalar(
        select(func.sum(models.Watering.depth_mm)).where(
            models.Watering.yard_id == yard_id, is_after, models.Watering.undone_at.is_(None)
        )
    )
    return float(total or 0.0)


def waterings(work: Work, yard_id: int, since: date) -> list[tuple[date, float]]:
    """Return the waterings people reported since a day, as (day, depth in mm), oldest first."""
    rows = work.execute(
        select(models.Watering.watered_on, models.Watering.depth_mm)
        .where(
            models.Watering.yard_id == yard_id,
            models.Watering.watered_on >= since,
            models.Watering.undone_at.is_(None),
        )
        .order_by(models.Watering.watered_on, models.Watering.id)
    )
    return [(row.watered_on, row.depth_mm) for row in rows]


def _with_shares(work: Work, found: list[models.Application]) -> list[ApplicationRecord]:
    shares: dict[int, list[ZoneShare]] = {row.id: [] for row in found}
    if found:
        for share in work.scalars(
            select(models.ApplicationZone)
            .where(models.ApplicationZone.application_id.in_(shares))
            .order_by(models.ApplicationZone.id)
        ):
            shares[share.application_id].append(plain(share, ZoneShare))
    return [_record(row, tuple(shares[row.id])) for row in found]


def _record(row: models.Application, shares: tuple[ZoneShare, ...]) -> ApplicationRecord:
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
        watered_in_on=row.watered_in_on,
        undone_at=row.undone_at,
        shares=shares,
        by_whom=row.by_whom,
        details=row.details,
    )
