"""Products between their stored rows and the values agronomy reckons with."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, get_args

from jobs.agronomy.ingredient_facts import LEAF_KINDS
from jobs.agronomy.ingredients import ingredients
from jobs.agronomy.labelled_product import Form, Pack, Product
from jobs.agronomy.maxima import Basis, LabelMaximum, Period
from jobs.agronomy.rates import Rate
from jobs.agronomy.strengths import ActiveIngredient, Strength
from storage.applications import ApplicationRecord
from storage.products import ProductRecord


def product_of(record: ProductRecord) -> Product:
    """Return the product of a stored row, in the label's own numbers."""
    return product_of_snapshot(snapshot(record))


def product_of_snapshot(row: dict[str, Any]) -> Product:
    """Return the product of what `snapshot` kept."""
    return Product(
        ingredients=tuple(_ingredient(part) for part in row["ingredients"]),
        form=_form(row["form"]),
        rate=None if row["rate_value"] is None else Rate(row["rate_value"], row["rate_unit"]),
        maxima=(*(_maximum(each) for each in row["maxima"]), *_highest(row.get("rates"))),
        **_rest_of_label(row),
    )


def put_down(done: ApplicationRecord) -> Product | None:
    """Return what an application put down, by its label as it was then; None where nobody said."""
    return None if done.product is None else product_of_snapshot(done.product)


def rates_of(rates: Sequence[Any] | None) -> tuple[Rate, Rate] | None:
    """Return the lowest and the highest rate a label gives, of their stored row."""
    if not rates:
        return None
    low, high, unit = rates
    return Rate(low, unit), Rate(high, unit)


def _highest(rates: Sequence[Any] | None) -> tuple[LabelMaximum, ...]:
    """Return the highest rate of a range as the maximum it is of a single application."""
    found = rates_of(rates)
    return () if found is None else (LabelMaximum(found[1], "product", "application"),)


def _rest_of_label(row: dict[str, Any]) -> dict[str, Any]:
    """Return what only later snapshots hold."""
    analysis = row.get("analysis")
    table = ingredients()
    names = [part["name"] for part in row["ingredients"]]
    is_leafy = [name in table and table[name].kind in LEAF_KINDS for name in names]
    period: Period = row.get("applications_period") or "unsaid"
    return {
        "max_applications": row.get("max_applications"),
        "applications_period": period,
        "smallest_interval_days": row.get("smallest_interval_days"),
        "seeding_interval_days": row.get("seeding_interval_days"),
        "is_residential_allowed": row.get("is_residential_allowed"),
        "turf_age_days": row.get("turf_age_days"),
        "nitrogen_fraction": None if not analysis else float(analysis.split("-")[0]) / 100,
        "has_foliar": any(is_leafy),
        "makes_barrier": not all(is_leafy),
        "packs": tuple(Pack(each["size_si"], each["price"]) for each in row.get("packs") or ()),
    }


def ingredient_rows(ingredients: Sequence[ActiveIngredient]) -> list[dict[str, Any]]:
    """Return active ingredients as primitives."""
    return [
        {
            "name": part.name,
            "strength": None if part.strength is None else part.strength.value,
            "unit": None if part.strength is None else part.strength.unit,
        }
        for part in ingredients
    ]


def maximum_rows(maxima: Sequence[LabelMaximum]) -> list[dict[str, Any]]:
    """Return maxima as primitives."""
    return [
        {
            "value": maximum.rate.value,
            "unit": maximum.rate.unit,
            "of": maximum.of,
            "period": maximum.period,
            "ingredient": maximum.ingredient,
        }
        for maximum in maxima
    ]


def snapshot(record: ProductRecord) -> dict[str, Any]:
    """Return a product as it stands, to be kept beside an application."""
    return {
        "said": record.said,
        "form": record.form,
        "ingredients": record.ingredients,
        "rate_value": record.rate_value,
        "rate_unit": record.rate_unit,
        "maxima": record.maxima,
        "rates": record.rates,
        "max_applications": record.max_applications,
        "applications_period": record.applications_period,
        "smallest_interval_days": record.smallest_interval_days,
        "seeding_interval_days": record.seeding_interval_days,
        "is_residential_allowed": record.is_residential_allowed,
        "turf_age_days": record.turf_age_days,
        "analysis": record.analysis,
        "packs": record.packs,
    }


def _ingredient(row: dict[str, Any]) -> ActiveIngredient:
    is_known = row["strength"] is not None
    return ActiveIngredient(
        row["name"], Strength(row["strength"], row["unit"]) if is_known else None
    )


def _maximum(row: dict[str, Any]) -> LabelMaximum:
    period: Period = row["period"]
    of: Basis = row["of"]
    assert period in get_args(Period)
    assert of in get_args(Basis)
    return LabelMaximum(Rate(row["value"], row["unit"]), of, period, row["ingredient"])


def _form(text: str) -> Form:
    return "granule" if text == "granule" else "spray"
