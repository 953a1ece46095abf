"""A product as its label states it, and the arithmetic between product and active ingredient."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, TypeAlias

from jobs.agronomy.rates import Rate
from jobs.agronomy.units import dimension_of, from_si, to_si

#: How the product goes onto the turf. A granule is spread, everything else is sprayed.
Form: TypeAlias = Literal["granule", "spray"]

#: The span a label counts its maximum over. "unsaid" is read as the strictest of them.
Period: TypeAlias = Literal["application", "calendar_year", "season", "12_months", "unsaid"]

Basis: TypeAlias = Literal["product", "ai"]


class WeightAgainstVolume(ValueError):
    """Raised where a weight and a volume would have to be compared: ask, never convert."""

    def __init__(self, unit: str, other: str) -> None:
        super().__init__(f"{unit} and {other} are a weight and a volume")
        self.unit = unit
        self.other = other


class StrengthUnknown(ValueError):
    """Raised when the label's strength is needed in another form than the one we were told.

    A weight rate needs the fraction by weight, a volume rate the weight in a volume.
    """

    def __init__(self, ingredient: str, unit: str) -> None:
        super().__init__(f"strength of {ingredient} does not go with a rate in {unit}")
        self.ingredient = ingredient
        self.unit = unit


@dataclass(frozen=True, slots=True)
class Strength:
    """How much of one active ingredient a product holds.

    Attributes
    ----------
    ingredient
        Its key in the table of ingredients, such as ``prodiamine``.
    fraction
        Weight of ingredient in weight of product (0.65 for 65 %), if the label gives it.
    kg_per_l
        Weight of ingredient in a volume of product [kg/L], if the label gives it.
    """

    ingredient: str
    fraction: float | None = None
    kg_per_l: float | None = None

    def __post_init__(self) -> None:
        if self.fraction is not None and not 0 < self.fraction <= 1:
            raise ValueError(f"a fraction by weight lies above 0 and up to 1, not {self.fraction}")
        if self.kg_per_l is not None and not 0 < self.kg_per_l < 3:
            raise ValueError(f"no liquid holds {self.kg_per_l} kg of ingredient in a litre")

    @classmethod
    def of_percent(cls, ingredient: str, percent: float) -> Strength:
        """Return a strength by weight, from the percentage on the label."""
        return cls(ingredient, fraction=percent / 100.0)

    @classmethod
    def of_lb_per_gal(cls, ingredient: str, lb_per_gal: float) -> Strength:
        """Return the strength of a liquid, from the pounds per US gallon on the label."""
        return cls(ingredient, kg_per_l=to_si(lb_per_gal, "lb") / to_si(1.0, "gal"))

    @property
    def lb_per_gal(self) -> float | None:
        """Pounds of ingredient in a US gallon, as labels write it."""
        if self.kg_per_l is None:
            return None
        return from_si(self.kg_per_l * to_si(1.0, "gal"), "lb")

    def for_dimension(self, dimension: str, unit: str) -> float:
        """Return kg of ingredient in one kg or one L of product.

        Raises
        ------
        StrengthUnknown
            If the label's strength was not given for that.
        """
        share = self.fraction if dimension.startswith("mass") else self.kg_per_l
        if share is None:
            raise StrengthUnknown(self.ingredient, unit)
        return share


@dataclass(frozen=True, slots=True)
class LabelMaximum:
    """One maximum of the label: so much, of product or of active ingredient, over a period.

    Exactly one of ``rate_kg_ha`` and ``rate_l_ha`` is given; an active ingredient goes by weight.

    Attributes
    ----------
    rate_kg_ha, rate_l_ha
        The maximum [kg/ha or L/ha].
    of
        Whether it counts the product or the active ingredient.
    period
        What it is counted over. "unsaid" is read as the strictest.
    ingredient
        Which ingredient, for a product with several. None: all of them together.
    unit
        The unit the label writes it in, for showing it back.
    """

    rate_kg_ha: float | None = None
    rate_l_ha: float | None = None
    of: Basis = "product"
    period: Period = "unsaid"
    ingredient: str | None = None
    unit: str | None = None

    def __post_init__(self) -> None:
        if (self.rate_kg_ha is None) == (self.rate_l_ha is None):
            raise ValueError("a maximum goes by weight or by volume, one of them")
        if self.of == "ai" and self.rate_kg_ha is None:
            raise ValueError("a maximum of active ingredient goes by weight")
        if not 0 < self.si < float("inf"):
            raise ValueError(f"a maximum is above zero, not {self.si}")
        if self.unit is not None and dimension_of(self.unit) != self.dimension:
            raise ValueError(f"the maximum is not written in {self.unit}")

    @classmethod
    def of_rate(
        cls,
        rate: Rate,
        *,
        of: Basis = "product",
        period: Period = "unsaid",
        ingredient: str | None = None,
    ) -> LabelMaximum:
        """Return the maximum the label writes as ``rate``."""
        return cls(rate.rate_kg_ha, rate.rate_l_ha, of, period, ingredient, rate.unit)

    @property
    def si(self) -> float:
        """The maximum in kg/ha or L/ha."""
        if self.rate_kg_ha is not None:
            return self.rate_kg_ha
        assert self.rate_l_ha is not None
        return self.rate_l_ha

    @property
    def dimension(self) -> Literal["mass_rate", "volume_rate"]:
        """Whether it goes by weight or by volume."""
        return "mass_rate" if self.rate_kg_ha is not None else "volume_rate"

    @property
    def written_unit(self) -> str:
        """The unit the label writes it in, else the SI unit."""
        return self.unit or ("kg/ha" if self.rate_kg_ha is not None else "L/ha")


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
    has_foliar_broadleaf
        Whether it also carries a broadleaf herbicide taken up by leaves.
    packs
        Pack sizes and prices.
    """

    ingredients: tuple[Strength, ...]
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
    has_foliar_broadleaf: bool = False
    packs: tuple[Pack, ...] = ()

    def __post_init__(self) -> None:
        names = [strength.ingredient for strength in self.ingredients]
        if len(set(names)) != len(names):
            raise ValueError("an ingredient is named once")

    @property
    def ingredient_names(self) -> tuple[str, ...]:
        """Keys of the active ingredients."""
        return tuple(strength.ingredient for strength in self.ingredients)


def si_of(rate: Rate) -> float:
    """Return a rate in kg/ha or L/ha, whichever its unit is of."""
    return to_si(rate.value, rate.unit)


def rewritten(rate: Rate, unit: str) -> Rate:
    """Return the same rate written in another unit of its kind.

    Raises
    ------
    WeightAgainstVolume
        If the one goes by weight and the other by volume.
    UnknownUnit
        If the unit is not one of a rate.
    """
    if dimension_of(unit) != dimension_of(rate.unit):
        raise WeightAgainstVolume(rate.unit, unit)
    return Rate(from_si(si_of(rate), unit), unit)


def ai_kg_ha(rate: Rate, strength: Strength) -> float:
    """Return the active ingredient [kg/ha] that a rate of product puts down.

    Raises
    ------
    StrengthUnknown
        If a weight rate meets a strength by volume, or the other way round.
    """
    return si_of(rate) * strength.for_dimension(dimension_of(rate.unit), rate.unit)


def total_ai_kg_ha(rate: Rate, product: Product, ingredient: str | None = None) -> float:
    """Return the active ingredient [kg/ha] of a product's rate: one named, else all together.

    Raises
    ------
    StrengthUnknown
        If a strength needed is not known in the rate's own terms, or the product lacks it.
    """
    strengths = [s for s in product.ingredients if ingredient in (None, s.ingredient)]
    if not strengths:
        raise StrengthUnknown(ingredient or "the active ingredient", rate.unit)
    return sum(ai_kg_ha(rate, strength) for strength in strengths)


def product_rate(ai_rate_kg_ha: float, strength: Strength, unit: str) -> Rate:
    """Return the rate of product, written in ``unit``, that puts down so much active ingredient.

    Raises
    ------
    StrengthUnknown
        If the strength is not known by weight (for a weight unit) or by volume.
    UnknownUnit
        If the unit is not one of a rate.
    """
    share = strength.for_dimension(dimension_of(unit), unit)
    return Rate(from_si(ai_rate_kg_ha / share, unit), unit)
