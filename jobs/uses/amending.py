"""Putting the amount of an application on record right, and how much ground it covered."""

from __future__ import annotations

import math
from dataclasses import dataclass
from datetime import datetime

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
    journal.note(
        work,
        yard.id,
        "record.area",
        record.id,
        hangs_on=[("application", record.id)],
        field="area",
        was=f"{share.area_m2:.1f} m²",
        now=f"{left_m2:.1f} m²",
    )
    look(work, yard, {}, None, now, person_id=person_id, course=sight.course if sight else None)
    yards.change(work, yard.id, next_check_at=now)


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
    journal.note(
        work,
        yard.id,
        "record.amount",
        record.id,
        hangs_on=[("application", record.id)],
        field="amount",
        was=None if before is None else f"{before.value:.4g} {before.unit}",
        now=f"{amount.value:.4g} {amount.unit}",
    )
    look(work, yard, {}, None, now, person_id=person_id, course=sight.course if sight else None)
    yards.change(work, yard.id, next_check_at=now)
    return Amended(before, amount, achieved, product.rate, is_over)
