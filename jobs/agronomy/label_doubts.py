"""What of a label is missing, or does not go together, before any amount of it is told.

Form against rate, maxima against what is remembered, beside the rate itself (`slips`). Doubts are
reckoned from the product as it is kept: confirming one settles the question, not the doubt.
"""

from __future__ import annotations

from typing import Final, Literal, TypeAlias

from jobs.agronomy.ingredients import combinations, ingredients
from jobs.agronomy.labelled_product import Product, total_ai_kg_ha
from jobs.agronomy.maxima import LabelMaximum
from jobs.agronomy.rates import Rate
from jobs.agronomy.slips import ACRE_IN_THOUSANDS, Slip, SlipKind, as_per_acre, find_slips
from jobs.agronomy.strengths import StrengthUnknown
from jobs.agronomy.units import to_si

#: No granule stays under so little, and no sprayed powder comes near so much. The gap between is
#: wide; common practice, no source.
LEAST_GRANULE_KG_HA: Final = to_si(0.5, "lb/1000 sq ft")
MOST_POWDER_KG_HA: Final = to_si(1.0, "lb/1000 sq ft")

#: No granule holds more of an ingredient by weight: the trade's go up to some 10 %. Our choice.
MOST_GRANULE_PERCENT: Final = 25.0

#: A maximum is doubted beyond so many times what is remembered: those figures are from memory, and
#: labels differ. With a little room for rounding. Our choice.
FAR_OVER: Final = 2.1

#: What is missing: how strong it is, or its strength in the terms of its rate.
Lack: TypeAlias = Literal["strength", "strength_by_volume", "strength_by_weight"]


class FactsMissing(LookupError):
    """Raised instead of an amount where a label's facts are not all known.

    Attributes
    ----------
    lack
        What is missing.
    ingredient
        Of which ingredient.
    """

    def __init__(self, lack: Lack, ingredient: str) -> None:
        super().__init__(f"{lack} of {ingredient}")
        self.lack: Lack = lack
        self.ingredient = ingredient


def need_facts(product: Product) -> None:
    """Pass a product whose strengths are known in the terms of its rate.

    Raises
    ------
    FactsMissing
        If one is not: an amount could be held against nothing.
    """
    assert product.rate is not None
    for part in product.ingredients:
        if part.strength is None:
            raise FactsMissing("strength", part.name)
        if part.strength.is_liquid == product.rate.is_weight:
            by: Lack = "strength_by_weight" if product.rate.is_weight else "strength_by_volume"
            raise FactsMissing(by, part.name)


def has_facts(product: Product) -> bool:
    """Tell whether an amount of a product may be told: its rate and its strengths are known."""
    if product.rate is None:
        return False
    try:
        need_facts(product)
    except FactsMissing:
        return False
    return True


def doubts(product: Product) -> tuple[Slip, ...]:
    """Return all that is doubtful about a product as its label is told: rate, form, maxima."""
    if product.rate is None:
        return ()
    rate = find_slips(product, product.rate)
    return (*rate, *_form_doubts(product, product.rate), *_maximum_doubts(product))


def key_of(slip: Slip) -> str:
    """Return what tells one doubt from others, so that an answer counts for it alone."""
    return f"{slip.kind} {slip.ingredient} {slip.asked.value:.6g} {slip.asked.unit}"


def _form_doubts(product: Product, rate: Rate) -> tuple[Slip, ...]:
    name = "+".join(product.ingredient_names)
    if not rate.is_weight:
        if product.form == "granule":
            return (Slip("volume_for_weight", name, rate),)
        return ()
    strongest = max(
        (part.strength.fraction or 0.0 for part in product.ingredients if part.strength),
        default=0.0,
    )
    is_strong = strongest * 100 > MOST_GRANULE_PERCENT
    if product.form == "granule" and (is_strong or rate.rate_si < LEAST_GRANULE_KG_HA):
        return (Slip("granule_or_spray", name, rate),)
    if product.form == "spray" and rate.rate_si > MOST_POWDER_KG_HA:
        return (Slip("spray_or_granule", name, rate),)
    return ()


def _maximum_doubts(product: Product) -> tuple[Slip, ...]:
    found = (_maximum_doubt(product, maximum) for maximum in product.maxima)
    return tuple(doubt for doubt in found if doubt is not None)


def _maximum_doubt(product: Product, maximum: LabelMaximum) -> Slip | None:
    """Return what is doubtful about one maximum: far more than any that is remembered."""
    name = "+".join(product.ingredient_names)
    asked = maximum.rate
    most = _most_remembered(product, maximum)
    if most is None:
        return None
    try:
        ai = asked.rate_si if maximum.of == "ai" else total_ai_kg_ha(asked, product)
    except StrengthUnknown:
        return None
    if ai <= most * FAR_OVER:
        return None
    high = Rate(asked.value * most / ai, asked.unit)
    kind: SlipKind = "maximum_above"
    suggestion = None
    if asked.unit.endswith("/1000 sq ft") and ai / ACRE_IN_THOUSANDS <= most * FAR_OVER:
        kind, suggestion = "maximum_per_acre_as_per_1000", as_per_acre(asked)
    return Slip(kind, name, asked, None, high, suggestion, "M", "yearly maxima from memory")


def _most_remembered(product: Product, maximum: LabelMaximum) -> float | None:
    """Return the most of the ingredient [kg/ha] that is remembered for the maximum's period.

    A maximum of one application is held against the published range, any other against a year's.
    """
    names = frozenset(product.ingredient_names)
    for mixture in combinations():
        if mixture.ingredients == names:
            rates = [row.high_kg_ha for row in mixture.rates]
            totals = [row.max_kg_ha for row in mixture.yearly_maxima]
            break
    else:
        if len(names) != 1:
            return None
        item = ingredients().get(next(iter(names)))
        if item is None:
            return None
        rates = [row.high_kg_ha for row in item.rates]
        totals = [row.max_kg_ha for row in item.yearly_maxima]
    if maximum.period == "application":
        return max(rates, default=None)
    return max(totals, default=None)
