"""A product as its label states it, and the arithmetic between product and active ingredient."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, TypeAlias

from jobs.agronomy.maxima import LabelMaximum, Period
from jobs.agronomy.rates import Rate
from jobs.agronomy.strengths import ActiveIngredient, StrengthUnknown
from jobs.agronomy.units import from_si

#: How the product goes onto the turf. A granule is spread, everything else is sprayed.
Form: TypeAlias = Literal["granule", "spray"]


@dataclass(frozen=True, slots=True)
class Pack:
    """A pack on sale: kg or L in it, price in the smallest money unit, how many can be had."""

    size_si: float
    price: int | None = None
    available: int | None = None

    def __post_init__(self) -> None:
        if not 0 < self.size_si < float("inf"):
            raise ValueError("a pack holds something")
        if self.price is not None and self.price < 0:
            raise ValueError("a price is at least zero")


@dataclass(frozen=True, slots=True)
class Product:
    """A product in the user's hand. What the label says wins over every default of ours.

    Attributes
    ----------
    ingredients
        Active ingredients and their strengths.
    form
        Spread or sprayed.
    rate
        The label's rate for this turf [written unit], or the one chosen from its range.
    maxima
        The label's maxima; empty when the person gave none, which a reply must then say.
    max_applications, applications_period
        Most applications, and the period the label counts them over.
    smallest_interval_days
        Least days between two applications.
    seeding_interval_days
        Least days from application to seeding.
    is_residential_allowed
        Whether the label names residential lawns; None when not said.
    turf_age_days
        Least age of the turf.
    nitrogen_fraction
        Nitrogen by weight in a fertiliser that carries the ingredient.
    has_foliar
        Whether it carries a herbicide taken up by leaves, against broadleaf weeds or grasses.
    makes_barrier
        Whether anything in it stops seed; what acts on leaves alone leaves no barrier.
    packs
        Pack sizes and prices.
    """

    ingredients: tuple[ActiveIngredient, ...]
    form: Form
    rate: Rate | None = None
    maxima: tuple[LabelMaximum, ...] = ()
    max_applications: int | None = None
    applications_period: Period = "unsaid"
    smallest_interval_days: int | None = None
    seeding_interval_days: int | None = None
    is_residential_allowed: bool | None = None
    turf_age_days: int | None = None
    nitrogen_fraction: float | None = None
    has_foliar: bool = False
    makes_barrier: bool = True
    packs: tuple[Pack, ...] = ()

    def __post_init__(self) -> None:
        names = [part.name for part in self.ingredients]
        if len(set(names)) != len(names):
            raise ValueError("an ingredient is named once")

    @property
    def ingredient_names(self) -> tuple[str, ...]:
        """Keys of the active ingredients."""
        return tuple(part.name for part in self.ingredients)


def ai_kg_ha(rate: Rate, part: ActiveIngredient) -> float:
    """Return how much of an active ingredient [kg/ha] a rate of product puts down.

    Raises
    ------
    StrengthUnknown
        If a weight rate meets a strength by volume, or the other way round.
    """
    return rate.rate_si * part.share_for(rate.unit)


def total_ai_kg_ha(rate: Rate, product: Product, ingredient: str | None = None) -> float:
    """Return the active ingredient [kg/ha] of a product's rate: one named, else all together.

    Raises
    ------
    StrengthUnknown
        If a strength needed is not known in the rate's own terms, or the product lacks it.
    """
    parts = [part for part in product.ingredients if ingredient in (None, part.name)]
    if not parts:
        raise StrengthUnknown(ingredient or "the active ingredient", rate.unit)
    return sum(ai_kg_ha(rate, part) for part in parts)


def product_rate(ai_rate_kg_ha: float, part: ActiveIngredient, unit: str) -> Rate:
    """Return the rate of product, written in ``unit``, that puts down so much of an ingredient.

    Raises
    ------
    StrengthUnknown
        If the strength is not known by weight (for a weight unit) or by volume.
    UnknownUnit
        If the unit is not one of a rate.
    """
    return Rate(from_si(ai_rate_kg_ha / part.share_for(unit), unit), unit)
