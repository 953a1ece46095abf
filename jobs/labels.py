"""Products between their stored rows and the values agronomy reckons with."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, get_args

from jobs.agronomy.products import Basis, Form, LabelMaximum, Period, Product, Strength
from jobs.agronomy.rates import Rate
from storage.products import ProductRecord


def product_of(record: ProductRecord) -> Product:
    """Return the product of a stored row."""
    return product_of_snapshot(snapshot(record))


def product_of_snapshot(row: dict[str, Any]) -> Product:
    """Return the product of what `snapshot` kept."""
    return Product(
        ingredients=tuple(_strength(part) for part in row["ingredients"]),
        form=_form(row["form"]),
        rate=Rate(row["rate_value"], row["rate_unit"]),
        maxima=tuple(WrittenMaximum.from_json(each).as_maximum() for each in row["maxima"]),
    )


def ingredient_rows(ingredients: tuple[Strength, ...]) -> list[dict[str, Any]]:
    """Return strengths as primitives."""
    return [
        {"name": part.ingredient, "fraction": part.fraction, "kg_per_l": part.kg_per_l}
        for part in ingredients
    ]


@dataclass(frozen=True, slots=True)
class WrittenMaximum:
    """A maximum in the label's own number and unit, so that it can be checked against the label."""

    rate: Rate
    of: Basis
    period: Period
    ingredient: str | None = None

    def to_json(self) -> dict[str, Any]:
        """Return primitives for storage."""
        return {
            "value": self.rate.value,
            "unit": self.rate.unit,
            "of": self.of,
            "period": self.period,
            "ingredient": self.ingredient,
        }

    @classmethod
    def from_json(cls, row: dict[str, Any]) -> WrittenMaximum:
        """Return what `to_json` wrote."""
        period: Period = row["period"]
        of: Basis = row["of"]
        assert period in get_args(Period)
        assert of in get_args(Basis)
        return cls(Rate(row["value"], row["unit"]), of, period, row["ingredient"])

    def as_maximum(self) -> LabelMaximum:
        """Return the maximum agronomy reckons with."""
        return LabelMaximum.of_rate(
            self.rate, of=self.of, period=self.period, ingredient=self.ingredient
        )


def snapshot(record: ProductRecord) -> dict[str, Any]:
    """Return a product as it stands, to be kept beside an application."""
    return {
        "said": record.said,
        "form": record.form,
        "ingredients": record.ingredients,
        "rate_value": record.rate_value,
        "rate_unit": record.rate_unit,
        "maxima": record.maxima,
    }


def _strength(row: dict[str, Any]) -> Strength:
    return Strength(row["name"], row["fraction"], row["kg_per_l"])


def _form(text: str) -> Form:
    return "granule" if text == "granule" else "spray"
