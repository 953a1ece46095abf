"""Products as their labels state them."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import datetime
from typing import Any

from sqlalchemy import select

from storage import models
from storage.database import Work
from storage.plain import plain


@dataclass(frozen=True, slots=True)
class ProductRecord:
    """A product; `rate_value` in `rate_unit` as written, `rate_si` in kg/ha or L/ha.

    `ingredients` holds ``{"name", "strength", "unit"}`` and `maxima` ``{"value", "unit", "of",
    "period"}`` rows, the label's own numbers; `packs` holds ``{"size_si", "unit", "price"}`` rows,
    the price in the smallest money unit or None. `rates` is the range the label gives, as written:
    lowest, highest, unit. `analysis` is a fertiliser's, such as ``20-0-5``;
    `shelf_si` what is in hand [kg or L].
    """

    id: int
    chat_id: int
    said: str
    form: str
    ingredients: list[Any]
    rate_value: float
    rate_unit: str
    rate_si: float
    maxima: list[Any]
    max_applications: int | None = None
    applications_period: str | None = None
    smallest_interval_days: int | None = None
    seeding_interval_days: int | None = None
    is_residential_allowed: bool | None = None
    turf_age_days: int | None = None
    analysis: str | None = None
    packs: list[Any] = field(default_factory=list)
    shelf_si: float | None = None
    level_cup_kg: float | None = None
    rates: list[Any] | None = None


def add(
    work: Work,
    *,
    chat_id: int,
    person_id: int,
    said: str,
    form: str,
    ingredients: list[Any],
    rate_value: float,
    rate_unit: str,
    rate_si: float,
    maxima: list[Any],
    now: datetime,
    rates: list[Any] | None = None,
) -> ProductRecord:
    """Keep a product."""
    row = models.Product(
        chat_id=chat_id,
        said=said,
        form=form,
        ingredients=ingredients,
        rate_value=rate_value,
        rate_unit=rate_unit,
        rate_si=rate_si,
        maxima=maxima,
        rates=rates,
        created_at=now,
        created_by=person_id,
        archived_at=None,
    )
    work.add(row)
    work.flush()
    return plain(row, ProductRecord)


def product(work: Work, product_id: int) -> ProductRecord:
    """Return a product by its id."""
    return plain(work.get_one(models.Product, product_id), ProductRecord)


def change(work: Work, product_id: int, **values: Any) -> ProductRecord:
    """Set named columns of a product."""
    row = work.get_one(models.Product, product_id)
    for name, value in values.items():
        if not hasattr(models.Product, name):
            raise AttributeError(name)
        setattr(row, name, value)
    work.flush()
    return plain(row, ProductRecord)


def of_chat(work: Work, chat_id: int) -> list[ProductRecord]:
    """Return a chat's products, newest first."""
    rows = work.scalars(
        select(models.Product)
        .where(models.Product.chat_id == chat_id, models.Product.archived_at.is_(None))
        .order_by(models.Product.id.desc())
    )
    return [plain(row, ProductRecord) for row in rows]


def registration(work: Work, product_id: int) -> str | None:
    """Return the number a product is registered under, as its label gives it."""
    return work.get_one(models.Product, product_id).registration


def set_registration(work: Work, product_id: int, number: str | None) -> None:
    """Keep the number a product is registered under."""
    work.get_one(models.Product, product_id).registration = number
    work.flush()


def take_off_shelf(work: Work, product_id: int, taken_si: float) -> None:
    """Take off what is in hand of a product [kg or L], if anybody told of it; less puts back."""
    row = work.get_one(models.Product, product_id)
    if row.shelf_si is not None:
        row.shelf_si = max(0.0, row.shelf_si - taken_si)
        work.flush()
