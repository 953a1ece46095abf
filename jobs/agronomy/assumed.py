"""What somebody else's treatment is taken to have put down where nobody knows how much.

First the rate of the label in the person's own hand, where it has the same ingredient; else the
highest published or remembered rate of a single treatment. It is always said, and what the person
finds out takes its place. An ingredient that neither knows is not guessed at.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from jobs.agronomy.ingredients import ingredients
from jobs.agronomy.labelled_product import Product, ai_kg_ha
from jobs.agronomy.rates import Rate
from jobs.agronomy.strengths import ActiveIngredient, StrengthUnknown


@dataclass(frozen=True, slots=True)
class Assumed:
    """Active ingredient taken to be down [kg/ha], by ingredient, and from where the figure is."""

    kg_ha: Mapping[str, float]
    basis: Literal["own_label", "table"]

    @property
    def total_kg_ha(self) -> float:
        """All of them together [kg/ha]."""
        return sum(self.kg_ha.values())

    def as_product(self, theirs: Product) -> tuple[Product, Rate]:
        """Return a product of nothing but the ingredients, and its rate, for the ledger."""
        parts = tuple(
            ActiveIngredient.of_percent(name, 100.0 * (kg_ha / self.total_kg_ha))
            for name, kg_ha in self.kg_ha.items()
        )
        return Product(parts, theirs.form), Rate(self.total_kg_ha, "kg/ha")


def assumed(theirs: Product, own: Product | None) -> Assumed | None:
    """Return what somebody else's product is taken to have put down; None where nothing tells."""
    of_label = _of_own_label(theirs, own)
    if of_label is not None:
        return Assumed(of_label, "own_label")
    table, found = ingredients(), {}
    for name in theirs.ingredient_names:
        ranges = table[name].rates if name in table else ()
        highest = max((each.high_kg_ha for each in ranges if each.use == "established"), default=0)
        if not highest:
            return None
        found[name] = highest
    return Assumed(found, "table") if found else None


def _of_own_label(theirs: Product, own: Product | None) -> dict[str, float] | None:
    if own is None or own.rate is None:
        return None
    mine = {part.name: part for part in own.ingredients}
    try:
        return {name: ai_kg_ha(own.rate, mine[name]) for name in theirs.ingredient_names}
    except (KeyError, StrengthUnknown):
        return None
