"""Rates and limits as a label states them, beside their SI value.

The person checks our words against the label in the hand, so the number and the unit are kept as
given; kg/ha or L/ha is derived, never the other way round. Weight and volume never mix: a rate
has the one or the other.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from jobs.agronomy import units

#: The stretch of time a label's maximum holds for; ``application`` is one single treatment.
Period = Literal["application", "year", "season", "12 months"]


class MixedUnits(ValueError):
    """Raised where a weight meets a volume."""


@dataclass(frozen=True)
class Rate:
    """An amount per area, as written.

    Parameters
    ----------
    value : float
        The number, above zero.
    unit : str
        A written rate unit of `jobs.agronomy.units`, such as ``lb/1000 sq ft`` or ``L/ha``.

    Raises
    ------
    UnknownUnit
        If the unit is no rate unit of ours.
    ValueError
        If the value is not above zero.
    """

    value: float
    unit: str

    def __post_init__(self) -> None:
        if units.dimension_of(self.unit) not in {"mass_rate", "volume_rate"}:
            raise units.UnknownUnit(self.unit)
        if not (math.isfinite(self.value) and self.value > 0.0):
            raise ValueError(f"a rate must be above zero: {self.value} {self.unit}")

    @property
    def is_weight(self) -> bool:
        """Whether it is weighed (else measured by volume)."""
        return units.dimension_of(self.unit) == "mass_rate"

    @property
    def amount_unit(self) -> str:
        """Unit the product is weighed or measured out in, such as ``lb``."""
        return units.amount_unit_of(self.unit)

    @property
    def rate_kg_ha(self) -> float | None:
        """The rate in kg/ha, or None where it is a volume."""
        return units.to_si(self.value, self.unit) if self.is_weight else None

    @property
    def rate_l_ha(self) -> float | None:
        """The rate in L/ha, or None where it is a weight."""
        return None if self.is_weight else units.to_si(self.value, self.unit)

    @property
    def rate_si(self) -> float:
        """The rate in kg/ha or L/ha, whichever it is."""
        return units.to_si(self.value, self.unit)

    def amount_for(self, area_m2: float) -> float:
        """Return the amount in kg or L (see `is_weight`) for an area in m²."""
        return self.rate_si * area_m2 / 1e4

    def share_of(self, other: Rate) -> float:
        """Return this rate over another.

        Raises
        ------
        MixedUnits
            If one is a weight and the other a volume.
        """
        if self.is_weight != other.is_weight:
            raise MixedUnits(f"{self.unit} against {other.unit}")
        return self.rate_si / other.rate_si


@dataclass(frozen=True)
class Strength:
    """How much active ingredient a product holds, as the label states it.

    Parameters
    ----------
    value : float
        The number, above zero.
    unit : str
        ``%`` by weight, or ``lb/gal`` or ``g/L`` for a liquid.
    """

    value: float
    unit: Literal["%", "lb/gal", "g/L"]

    def __post_init__(self) -> None:
        is_possible = math.isfinite(self.value) and self.value > 0.0
        if not is_possible or (self.unit == "%" and self.value > 100.0):
            raise ValueError(f"no strength: {self.value} {self.unit}")

    @property
    def is_liquid(self) -> bool:
        """Whether it is stated per volume, so that the product is measured by volume."""
        return self.unit != "%"

    @property
    def fraction(self) -> float | None:
        """Share of active ingredient by weight, or None where it is stated per volume."""
        return None if self.is_liquid else self.value / 100.0

    @property
    def kg_per_l(self) -> float | None:
        """Active ingredient in kg per litre of product, or None where it is stated by weight."""
        if self.unit == "lb/gal":
            return self.value * units.si_factor("lb") / units.si_factor("gal")
        return self.value / 1000.0 if self.unit == "g/L" else None


@dataclass(frozen=True)
class Limit:
    """A maximum that a label states.

    Attributes
    ----------
    rate : Rate
        How much per area.
    period : str or None
        What it holds for; None where it was not said.
    is_of_ingredient : bool
        Whether it counts active ingredient rather than product.
    """

    rate: Rate
    period: Period | None
    is_of_ingredient: bool = False
