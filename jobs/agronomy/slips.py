"""Slips of writing a rate down: caught by the published range, shown with both numbers.

Reference ranges ask, they never pass a dose: the label's numbers win once the person confirms
them, and the label's maximum still stops (see `jobs.agronomy.amounts.check_rate`).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal, TypeAlias

from jobs.agronomy.ingredient_facts import RateRange, Use
from jobs.agronomy.ingredients import combinations, ingredients
from jobs.agronomy.labelled_product import Product, total_ai_kg_ha
from jobs.agronomy.rates import Rate
from jobs.agronomy.strengths import ActiveIngredient, StrengthUnknown
from jobs.agronomy.units import amount_unit_of, from_si, to_si

#: What a per-acre rate is over when read as per 1,000 sq ft: 43,560 / 1,000, exact.
ACRE_IN_THOUSANDS: Final = 43.56

#: Kept either side of a published range before asking: labels round their rates. Our choice.
LEEWAY: Final = 0.05

#: Most product anyone spreads on turf in one go [kg/ha]: 10 lb per 1,000 sq ft. Common practice.
MOST_PRODUCT_KG_HA: Final = to_si(10.0, "lb/1000 sq ft")

#: Most of a liquid concentrate [L/ha]: 12 fl oz per 1,000 sq ft, over any in our table. Our choice.
MOST_PRODUCT_L_HA: Final = to_si(12.0, "fl oz/1000 sq ft")

SlipKind: TypeAlias = Literal[
    "above_range",
    "below_range",
    "per_acre_as_per_1000",
    "per_1000_as_per_acre",
    "weight_for_volume",
    "volume_for_weight",
    "too_much_of_anything",
    "granule_or_spray",
    "spray_or_granule",
    "maximum_above",
    "maximum_per_acre_as_per_1000",
]


@dataclass(frozen=True, slots=True)
class Slip:
    """One thing to ask about before a rate is taken.

    Attributes
    ----------
    kind
        What looks wrong.
    ingredient
        Key of the ingredient concerned, or of several joined by ``+``.
    asked
        The rate as given.
    low, high
        The published range, as rates of *this product* in the unit asked; None where there is none
        or it cannot be compared.
    suggestion
        What was probably meant, to be offered, never taken silently.
    certainty, source
        Of the published range.
    """

    kind: SlipKind
    ingredient: str
    asked: Rate
    low: Rate | None = None
    high: Rate | None = None
    suggestion: Rate | None = None
    certainty: str = "P"
    source: str = ""


def find_slips(product: Product, rate: Rate, use: Use = "established") -> tuple[Slip, ...]:
    """Return what to ask about a rate; nothing when it looks right or cannot be judged.

    Parameters
    ----------
    product
        The product with its strengths, as far as known.
    rate
        The rate of product as given.
    use
        Whether it goes onto established turf or at seeding.
    """
    mixed_up = _weight_and_volume(product, rate)
    if mixed_up:
        return mixed_up
    ranges = _ranges(product, use)
    found: list[Slip] = []
    for name, parts, usual in ranges:
        slip = _against_range(name, parts, usual, rate)
        if slip is not None:
            found.append(slip)
    if len(ranges) > 1 and _do_together(ranges, rate):
        found = [slip for slip in found if slip.kind != "below_range"]
    return tuple(found) or _too_much(product, rate)


def as_per_acre(rate: Rate) -> Rate:
    """Return a rate given per 1,000 sq ft with the same number per acre instead."""
    return Rate(rate.value, f"{amount_unit_of(rate.unit)}/acre")


def as_per_1000(rate: Rate) -> Rate:
    """Return a rate given per acre with the same number per 1,000 sq ft instead."""
    return Rate(rate.value, f"{amount_unit_of(rate.unit)}/1000 sq ft")


def _weight_and_volume(product: Product, rate: Rate) -> tuple[Slip, ...]:
    """Ounces by weight where the label counts fluid ounces, or the other way round."""
    for part in product.ingredients:
        if part.strength is not None and part.strength.is_liquid == rate.is_weight:
            kind: SlipKind = "weight_for_volume" if rate.is_weight else "volume_for_weight"
            return (Slip(kind, part.name, rate),)
    return ()


def _ranges(
    product: Product, use: Use
) -> list[tuple[str, tuple[ActiveIngredient, ...], RateRange]]:
    """Return the published ranges that apply: of mixtures first, of the rest one by one."""
    left = {part.name: part for part in product.ingredients}
    found: list[tuple[str, tuple[ActiveIngredient, ...], RateRange]] = []
    for mixture in combinations():
        if mixture.ingredients <= left.keys():
            parts = tuple(left.pop(name) for name in sorted(mixture.ingredients))
            name = "+".join(part.name for part in parts)
            found += [(name, parts, row) for row in mixture.rates if row.use == use]
    for name, part in left.items():
        item = ingredients().get(name)
        usual = item.rate_range(use, product.form) if item is not None else None
        if usual is not None:
            found.append((name, (part,), usual))
    return found


def _against_range(
    name: str, parts: tuple[ActiveIngredient, ...], usual: RateRange, rate: Rate
) -> Slip | None:
    part = Product(parts, "granule")
    try:
        ai = total_ai_kg_ha(rate, part)
    except StrengthUnknown:
        return None
    if _is_within(ai, usual):
        return None
    # The range as rates of this product in the unit asked, so that both numbers compare.
    low, high = (
        Rate(rate.value * end / ai, rate.unit) for end in (usual.low_kg_ha, usual.high_kg_ha)
    )
    kind: SlipKind = "above_range" if ai > usual.high_kg_ha else "below_range"
    suggestion = None
    if rate.unit.endswith("/1000 sq ft") and _is_within(ai / ACRE_IN_THOUSANDS, usual):
        kind, suggestion = "per_acre_as_per_1000", as_per_acre(rate)
    elif rate.unit.endswith("/acre") and _is_within(ai * ACRE_IN_THOUSANDS, usual):
        kind, suggestion = "per_1000_as_per_acre", as_per_1000(rate)
    return Slip(kind, name, rate, low, high, suggestion, usual.certainty, usual.source)


def _do_together(
    ranges: list[tuple[str, tuple[ActiveIngredient, ...], RateRange]], rate: Rate
) -> bool:
    """Tell whether ingredients of a mixture, each below its own range, make one rate together.

    Their shares of the low ends add up to one or more. Our choice: mixtures hold less of each.
    """
    try:
        shares = [
            total_ai_kg_ha(rate, Product(parts, "granule")) / usual.low_kg_ha
            for _, parts, usual in ranges
        ]
    except StrengthUnknown:
        return False
    return sum(shares) >= 1 - LEEWAY


def _is_within(ai_kg_ha: float, usual: RateRange) -> bool:
    return usual.low_kg_ha * (1 - LEEWAY) <= ai_kg_ha <= usual.high_kg_ha * (1 + LEEWAY)


def _too_much(product: Product, rate: Rate) -> tuple[Slip, ...]:
    """More than anyone puts down of anything, for products whose strength is not known."""
    most = MOST_PRODUCT_KG_HA if rate.is_weight else MOST_PRODUCT_L_HA
    if rate.rate_si <= most:
        return ()
    name = "+".join(product.ingredient_names)
    high = Rate(from_si(most, rate.unit), rate.unit)
    per_acre = as_per_acre(rate) if rate.unit.endswith("/1000 sq ft") else None
    if per_acre is not None and per_acre.rate_si <= most:
        return (Slip("per_acre_as_per_1000", name, rate, None, high, per_acre),)
    return (Slip("too_much_of_anything", name, rate, None, high),)
