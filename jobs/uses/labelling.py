"""The rest of a product's label: how often, how far apart, seeding, home lawns, packs, stock."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from jobs.agronomy.rates import WeightAgainstVolume
from jobs.agronomy.units import dimension_of, to_si
from jobs.standing import standing_of
from storage import journal, products
from storage.database import Work
from storage.products import ProductRecord
from storage.yards import YardRecord


class NoProduct(LookupError):
    """Raised when no product is chosen that a label could belong to."""


@dataclass(frozen=True, slots=True)
class PackSaid:
    """A pack as said: size and unit, price in the smallest money unit or None, its sign."""

    value: float
    unit: str
    price: int | None
    currency: str = ""


@dataclass(frozen=True, slots=True)
class Stock:
    """What is in hand: so much, or so much more (`is_added`)."""

    value: float
    unit: str
    is_added: bool = False


def keep(
    work: Work,
    yard: YardRecord,
    values: dict[str, Any],
    *,
    packs: Sequence[PackSaid] = (),
    stock: Stock | None = None,
) -> ProductRecord:
    """Keep facts of the chosen product's label; return it as it is then.

    Packs of a size said again are replaced.

    Raises
    ------
    NoProduct
        If no product is chosen.
    WeightAgainstVolume
        If a pack or the stock is a weight and the product goes by volume, or the other way round.
    """
    if yard.product_id is None:
        raise NoProduct(yard.name)
    record = standing_of(work, yard).chosen
    after = dict(values)
    if packs:
        rows = {round(row["size_si"], 9): row for row in record.packs}
        for pack in packs:
            row = _pack(record, pack)
            was = rows.get(round(row["size_si"], 9))
            if row["price"] is None and was is not None:
                row["price"] = was["price"]
            rows[round(row["size_si"], 9)] = row
        after["packs"] = [rows[size] for size in sorted(rows)]
    if stock is not None:
        amount_si = _si(record, stock.value, stock.unit)
        after["shelf_si"] = amount_si + ((record.shelf_si or 0.0) if stock.is_added else 0.0)
    journal.note(work, yard.id, "product.change", record.id, product=record.said)
    return products.change(work, record.id, **after)


def _pack(record: ProductRecord, pack: PackSaid) -> dict[str, Any]:
    size_si = _si(record, pack.value, pack.unit)
    return {
        "size_si": size_si,
        "unit": pack.unit,
        "value": pack.value,
        "price": pack.price,
        "currency": pack.currency,
    }


def _si(record: ProductRecord, value: float, unit: str) -> float:
    rate_unit = record.rate_unit.split("/")[0]
    if dimension_of(unit) != dimension_of(rate_unit):
        raise WeightAgainstVolume(unit, rate_unit)
    return to_si(value, unit)
