"""Entering a product as its label states it, and choosing it for a yard."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime, timedelta
from typing import Any, Final

from jobs.agronomy.amounts import amount_for, check_rate
from jobs.agronomy.label_doubts import doubts, has_facts
from jobs.agronomy.labelled_product import Form, Product
from jobs.agronomy.maxima import LabelMaximum
from jobs.agronomy.rates import Rate
from jobs.agronomy.slips import Slip
from jobs.agronomy.strengths import ActiveIngredient
from jobs.labels import ingredient_rows, maximum_rows, product_of, snapshot
from jobs.local_days import local
from jobs.standing import standing_of
from jobs.yard_look import look
from storage import applications, journal, products, yards
from storage.applications import ApplicationRecord
from storage.database import Work
from storage.products import ProductRecord
from storage.yards import YardRecord


@dataclass(frozen=True, slots=True)
class Enter:
    """A product somebody read off a label; `rate` is the label's rate for this turf.

    `rates` is the range the label gives, where it does: lowest, highest, unit.
    """

    said: str
    form: Form
    ingredients: tuple[ActiveIngredient, ...]
    rate: Rate
    maxima: tuple[LabelMaximum, ...]
    rates: tuple[float, float, str] | None = None

    def as_product(self) -> Product:
        """Return the product agronomy reckons with."""
        return Product(self.ingredients, self.form, self.rate, self.maxima)


def enter(
    work: Work, yard: YardRecord, command: Enter, *, person_id: int, now: datetime
) -> ProductRecord:
    """Keep a product and choose it for a yard; what the yard has already is not kept again.

    Raises
    ------
    LabelLimitExceeded
        If the rate stands above one of the label's own maxima.
    """
    check_rate(command.rate, command.as_product())
    if yard.product_id is not None:
        chosen = standing_of(work, yard).chosen
        if _is_same_label(chosen, command):
            return chosen
    known = next(
        (each for each in products.of_chat(work, yard.chat_id) if _is_same_label(each, command)),
        None,
    )
    if known is not None:
        # One bag for several yards is one product: its shelf and the rest of its label are shared.
        _complete_records(work, yard, known)
        choose(work, yard, known, now=now)
        return known
    record = products.add(
        work,
        chat_id=yard.chat_id,
        person_id=person_id,
        said=command.said,
        form=command.form,
        ingredients=ingredient_rows(command.ingredients),
        rate_value=command.rate.value,
        rate_unit=command.rate.unit,
        rate_si=command.rate.rate_si,
        maxima=maximum_rows(command.maxima),
        rates=None if command.rates is None else list(command.rates),
        now=now,
    )
    record = _with_rest_of_label(work, yard, record)
    _complete_records(work, yard, record)
    choose(work, yard, record, now=now)
    return record


def choose(work: Work, yard: YardRecord, record: ProductRecord, *, now: datetime) -> None:
    """Choose a product that is kept already for a yard."""
    journal.note(
        work,
        yard.id,
        "product.choose",
        record.id,
        hangs_on=[("product", record.id)],
        product=record.said,
    )
    yards.change(work, yard.id, product_id=record.id, next_check_at=now)


def unknown_before(work: Work, yard: YardRecord, today: date) -> list[ApplicationRecord]:
    """Return what this yard's people put down of late while no product was known for it."""
    return [
        done
        for done in standing_of(work, yard).done
        if done.product is None
        and done.by_whom is None
        and timedelta(0) <= today - done.applied_on <= _OF_LATE
    ]


def name_unknown(work: Work, yard: YardRecord, *, person_id: int, now: datetime) -> list[str]:
    """Say that what went down with no product known was the chosen one, at its label's rate.

    Returns
    -------
    The zones' names; none where there is nothing of the kind.
    """
    found = unknown_before(work, yard, local(now, yard.timezone).date())
    record = standing_of(work, yard).record
    if not found or record is None:
        return []
    product = product_of(record)
    rate = product.rate if has_facts(product) else None
    for done in found:
        applications.set_product(work, done.id, record.id, snapshot(record))
        if rate is None:
            continue
        for share in done.shares:
            asked = amount_for(share.area_m2, rate)
            applications.set_area(work, done.id, share.zone_id, share.area_m2, asked.si)
            if not share.is_amount_said:
                said = {share.zone_id: (asked.si, asked.unit, False)}
                applications.set_amounts(work, done.id, said)
                products.take_off_shelf(work, record.id, asked.si)
    names = list(dict.fromkeys(share.zone_name for done in found for share in done.shares))
    look(work, yard, {}, None, now, person_id=person_id)
    journal.note(work, yard.id, "record.product", found[-1].id, number=found[-1].id)
    return names


#: What went down longer ago is hardly what a bag entered now was for. Our choice.
_OF_LATE: Final = timedelta(days=90)


def has(work: Work, yard: YardRecord, command: Enter) -> bool:
    """Tell whether a product is the one chosen for a yard."""
    chosen = standing_of(work, yard).record
    return chosen is not None and _is_same_label(chosen, command)


def others_in_use(work: Work, yard: YardRecord) -> list[ProductRecord]:
    """Return products that other yards of the chat use and this one does not, newest first."""
    used = {each.product_id for each in yards.of_chat(work, yard.chat_id)} - {yard.product_id}
    return [each for each in products.of_chat(work, yard.chat_id) if each.id in used]


def doubts_of(record: ProductRecord) -> tuple[Slip, ...]:
    """Return what is doubtful about a kept product; confirming it does not make it go away."""
    return doubts(product_of(record))


def doubts_about(command: Enter) -> tuple[Slip, ...]:
    """Return what is doubtful about a product before it is kept."""
    return doubts(command.as_product())


def _is_same_label(record: ProductRecord, command: Enter) -> bool:
    return (
        record.form == command.form
        and record.rate_value == command.rate.value
        and record.rate_unit == command.rate.unit
        and record.ingredients == ingredient_rows(command.ingredients)
        and record.maxima == maximum_rows(command.maxima)
        and (None if record.rates is None else tuple(record.rates)) == command.rates
    )


#: What a label says beyond rate and maxima; it stays when the same product is written again.
_REST_OF_LABEL: Final = (
    "max_applications",
    "applications_period",
    "smallest_interval_days",
    "seeding_interval_days",
    "is_residential_allowed",
    "turf_age_days",
    "analysis",
    "packs",
    "shelf_si",
    "level_cup_kg",
)


def _with_rest_of_label(work: Work, yard: YardRecord, record: ProductRecord) -> ProductRecord:
    if yard.product_id is None:
        return record
    before = standing_of(work, yard).chosen
    is_same_kind = (
        Rate(before.rate_value, before.rate_unit).is_weight
        == Rate(record.rate_value, record.rate_unit).is_weight
    )
    is_same = before.form == record.form and is_same_kind
    if not is_same or not _is_completed(before.ingredients, record.ingredients):
        return record
    return products.change(
        work, record.id, **{name: getattr(before, name) for name in _REST_OF_LABEL}
    )


def _complete_records(work: Work, yard: YardRecord, record: ProductRecord) -> None:
    """Let what went down while nobody knew how strong it was be of the product that now tells."""
    standing = standing_of(work, yard)
    before = standing.record
    if before is None or all(part["strength"] is not None for part in before.ingredients):
        return
    if before.form == record.form and _is_completed(before.ingredients, record.ingredients):
        for done in standing.done:
            if done.product_id == before.id:
                applications.set_product(work, done.id, record.id, snapshot(record))


def _is_completed(before: list[Any], after: list[Any]) -> bool:
    """Tell whether ingredients are the same, strengths that were not known before apart."""
    return len(before) == len(after) and all(
        was["name"] == now["name"] and (was["strength"] is None or was == now)
        for was, now in zip(before, after, strict=True)
    )
