"""Products as their labels state them."""

from __future__ import annotations

from dataclasses import dataclass
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
    "period"}`` rows, the label's own numbers.
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


def of_chat(work: Work, chat_id: int) -> list[ProductRecord]:
    """Return a chat's products, newest first."""
    rows = work.scalars(
        select(models.Product)
        .where(models.Product.chat_id == chat_id, models.Product.archived_at.is_(None))
        .order_by(models.Product.id.desc())
    )
    return [plain(row, ProductRecord) for row in rows]
