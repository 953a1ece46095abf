"""Entering a product as its label states it, and choosing it for a yard."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from jobs.agronomy.amounts import check_rate
from jobs.agronomy.maxima import LabelMaximum
from jobs.agronomy.products import Form, Product
from jobs.agronomy.rates import Rate
from jobs.agronomy.strengths import ActiveIngredient
from jobs.labels import ingredient_rows, maximum_rows
from storage import journal, products, yards
from storage.database import Work
from storage.products import ProductRecord
from storage.yards import YardRecord


@dataclass(frozen=True, slots=True)
class Enter:
    """A product somebody read off a label; `rate` is the label's rate for this turf."""

    said: str
    form: Form
    ingredients: tuple[ActiveIngredient, ...]
    rate: Rate
    maxima: tuple[LabelMaximum, ...]

    def as_product(self) -> Product:
        """Return the product agronomy reckons with."""
        return Product(self.ingredients, self.form, self.rate, self.maxima)


def enter(
    work: Work, yard: YardRecord, command: Enter, *, person_id: int, now: datetime
) -> ProductRecord:
    """Keep a product and choose it for a yard.

    Raises
    ------
    LabelLimitExceeded
        If the rate stands above one of the label's own maxima.
    """
    check_rate(command.rate, command.as_product())
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
        now=now,
    )
    journal.note(
        work,
        at=now,
        chat_id=yard.chat_id,
        person_id=person_id,
        yard_id=yard.id,
        action="product.choose",
        subject_id=record.id,
        before={"product_id": yard.product_id},
        after={"product_id": record.id, "said": command.said},
    )
    yards.change(work, yard.id, product_id=record.id)
    return record
