"""How much active ingredient a product holds, in the label's own number and unit."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final, Literal, TypeAlias

from jobs.agronomy.units import dimension_of, si_factor

StrengthUnit: TypeAlias = Literal["%", "lb/gal", "g/L"]

#: kg of ingredient in a litre that no liquid reaches: pure ingredients weigh some 1.1 to 1.6 kg/L.
_NO_LIQUID_KG_PER_L: Final = 3.0


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
    """A strength as the label writes it.

    Parameters
    ----------
    value : float
        The number, above zero; up to 100 for a percentage.
    unit : str
        ``%`` by weight, or ``lb/gal`` or ``g/L`` for a liquid.
    """

    value: float
    unit: StrengthUnit

    def __post_init__(self) -> None:
        if not (math.isfinite(self.value) and self.value > 0.0):
            raise ValueError(f"no strength: {self.value} {self.unit}")
        if self.fraction is not None and self.fraction > 1.0:
            raise ValueError(f"a fraction by weight goes up to 100 %, not {self.value}")
        if self.kg_per_l is not None and self.kg_per_l >= _NO_LIQUID_KG_PER_L:
            raise ValueError(f"no liquid holds {self.value} {self.unit}")

    @property
    def is_liquid(self) -> bool:
        """Whether it is stated per volume, so that the product is measured by volume."""
        return self.unit != "%"

    @property
    def fraction(self) -> float | None:
        """Weight of ingredient in weight of product, or None where it is stated per volume."""
        return None if self.is_liquid else self.value / 100.0

    @property
    def kg_per_l(self) -> float | None:
        """Active ingredient in kg per litre of product, or None where it is stated by weight."""
        if self.unit == "lb/gal":
            return self.value * si_factor("lb") / si_factor("gal")
        return self.value / 1000.0 if self.unit == "g/L" else None


@dataclass(frozen=True, slots=True)
class ActiveIngredient:
    """An active ingredient of a product.

    Attributes
    ----------
    name
        Its key in the table of ingredients, such as ``prodiamine``.
    strength
        How much of it the product holds; None where the label's figure was not given.
    """

    name: str
    strength: Strength | None = None

    @classmethod
    def of_percent(cls, name: str, percent: float) -> ActiveIngredient:
        """Return an ingredient with the percentage by weight on the label."""
        return cls(name, Strength(percent, "%"))

    def share_for(self, unit: str) -> float:
        """Return kg of ingredient in one kg or one L of product, whichever a rate unit counts.

        Raises
        ------
        StrengthUnknown
            If the label's strength was not given for that.
        """
        share = None
        if self.strength is not None:
            is_weight = dimension_of(unit).startswith("mass")
            share = self.strength.fraction if is_weight else self.strength.kg_per_l
        if share is None:
            raise StrengthUnknown(self.name, unit)
        return share
