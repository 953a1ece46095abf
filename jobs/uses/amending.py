"""Putting the amount of an application on record right, and how much ground it covered."""

from __future__ import annotations

import math
from collections.abc import Collection
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Any

from jobs.agronomy.amounts import Amount, LabelLimitExceeded, check_amount, rate_of
from jobs.agronomy.ground import ALL_OF_IT
from jobs.agronomy.rates import Rate
from jobs.labels import put_down
from jobs.season_facts import Sight
from jobs.yard_look import look
from storage import applications, journal, products, yards
from storage.applications import ApplicationRecord, ZoneShare
from storage.database import Work
from storage.yards import YardRecord


class NoProductOnRecord(ValueError):
    """Raised where nobody knows what was put down: an amount of it would count for nothing."""


@dataclass(frozen=True, slots=True)
class Amended:
    """An amount put right: as it was (None: not known) and is, its rate, and the rate planned."""

    before: Amount | None
    after: Amount
    achieved: Rate
    planned: Rate
    is_over: bool


def can_leave_out(share: ZoneShare, area_m2: float) -> bool:
    """Tell whether so much of a zone's share [m²] can be left out of its record, and matters."""
    left_m2 = share.area_m2 - area_m2
    return 0 < left_m2 < ALL_OF_IT * share.area_m2


def leave_out(
    work: Work,
    yard: YardRecord,
    record: ApplicationRecord,
    zone_id: int,
    area_m2: float,
    *,
    sight: Sight | None,
    person_id: int,
    now: datetime,
) -> None:
    """Leave a part of a zone that got nothing out of a record.

    It is still to do then; the rest had what was on record, on less ground.

    Raises
    ------
    LookupError
        If the record holds no such zone, or not so much of it.
    """
    yards.hold(work, yard.id)
    share = next((each for each in record.shares if each.zone_id == zone_id), None)
    if share is None or not can_leave_out(share, area_m2):
        raise LookupError(f"{area_m2:g} m² of zone {zone_id} in {record.id}")
    left_m2 = share.area_m2 - area_m2
    asked_si = None if share.asked_si is None else share.asked_si * left_m2 / share.area_m2
    applications.set_area(work, record.id, zone_id, left_m2, asked_si)
    was, is_now = f"{share.area_m2:.1f} m²", f"{left_m2:.1f} m²"
    _note(work, yard, record, "area", was, is_now)
    _look(work, yard, sight, person_id, now)


def take_out(
    work: Work,
    yard: YardRecord,
    record: ApplicationRecord,
    zone_ids: Collection[int],
    *,
    sight: Sight | None,
    person_id: int,
    now: datetime,
) -> Amended | None:
    """Take whole zones out of a record: nothing went down there, and they are still to do.

    What was planned for them is on the shelf again. An amount that was said went on the others,
    and is returned with its rate there.

    Raises
    ------
    LookupError
        If the record holds none of them, or no other.
    """
    yards.hold(work, yard.id)
    out = [share for share in record.shares if share.zone_id in zone_ids]
    kept = tuple(share for share in record.shares if share not in out)
    if not out or not kept:
        raise LookupError(f"zones {zone_ids} in {record.id}")
    for share in out:
        applications.set_area(work, record.id, share.zone_id, 0.0, 0.0)
    was, is_now = (", ".join(e.zone_name for e in each) for each in (record.shares, kept))
    names = [share.zone_name for share in out]
    _note(work, yard, record, "zones", was, is_now, names=names)
    if record.product_id is not None and record.by_whom is None:
        planned_si = math.fsum(share.amount_si or 0.0 for share in out)
        products.take_off_shelf(work, record.product_id, -planned_si)
    said_si = math.fsum(each.amount_si or 0.0 for each in record.shares if each.is_amount_said)
    unit = kept[0].amount_unit
    if said_si and unit is not None:
        left, amount = replace(record, shares=kept), Amount(said_si, unit)
        return set_amount(work, yard, left, amount, sight=sight, person_id=person_id, now=now)
    _look(work, yard, sight, person_id, now)
    return None


def set_amount(
    work: Work,
    yard: YardRecord,
    record: ApplicationRecord,
    amount: Amount,
    *,
    sight: Sight | None,
    person_id: int,
    now: datetime,
) -> Amended:
    """Put the amount of an application right, over its zones by area; the shelf follows.

    Raises
    ------
    NoProductOnRecord
        If the record names no product.
    WeightAgainstVolume
        If the amount is a weight and the product goes by volume, or the other way round.
    """
    yards.hold(work, yard.id)
    product = put_down(record)
    if product is None or product.rate is None:
        raise NoProductOnRecord(str(record.id))
    area_m2 = math.fsum(share.area_m2 for share in record.shares)
    try:
        achieved, is_over = check_amount(amount, area_m2, product), False
    except LabelLimitExceeded:
        achieved, is_over = rate_of(amount, area_m2, product.rate.unit), True
    known = [share.amount_si for share in record.shares if share.amount_si is not None]
    unit = record.shares[0].amount_unit
    before = Amount(math.fsum(known), unit) if known and unit is not None else None
    each = {share.zone_id: amount.times(share.area_m2 / area_m2) for share in record.shares}
    applications.set_amounts(
        work, record.id, {zone_id: (part.si, part.unit, True) for zone_id, part in each.items()}
    )
    if record.product_id is not None and record.by_whom is None:
        more_si = amount.si - (0.0 if before is None else before.si)
        products.take_off_shelf(work, record.product_id, more_si)
    was = None if before is None else f"{before.value:.4g} {before.unit}"
    _note(work, yard, record, "amount", was, f"{amount.value:.4g} {amount.unit}")
    _look(work, yard, sight, person_id, now)
    return Amended(before, amount, achieved, product.rate, is_over)


def _note(
    work: Work,
    yard: YardRecord,
    record: ApplicationRecord,
    field: str,
    was: str | None,
    is_now: str,
    **figures: Any,
) -> None:
    on = [("application", record.id)]
    figures |= {"field": field, "was": was, "now": is_now}
    journal.note(work, yard.id, f"record.{field}", record.id, hangs_on=on, **figures)


def _look(work: Work, yard: YardRecord, sight: Sight | None, person_id: int, now: datetime) -> None:
    course = None if sight is None else sight.course
    look(work, yard, {}, None, now, person_id=person_id, course=course)
    yards.change(work, yard.id, next_check_at=now)
