"""Rates as a label states them, beside their SI value.

The person checks our words against the label in the hand, so the number and the unit are kept as
given; kg/ha or L/ha is derived, never the other way round. Weight and volume never mix: a rate
has the one or the other.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from jobs.agronomy import units


class WeightAgainstVolume(ValueError):
    """Raised where a weight and a volume would have to be compared: ask, never convert."""

    def __init__(self, unit: str, other: str) -> None:
        super().__init__(f"{unit} and {other} are a weight and a volume")
        self.unit = unit
        self.other = other


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
        return self.rate_si if self.is_weight else None

    @property
    def rate_si(self) -> float:
        """The rate in kg/ha or L/ha, whichever it is."""
        return units.to_si(self.value, self.unit)

    def amount_for(self, area_m2: float) -> float:
        """Return the amount in kg or L (see `is_weight`) for an area in m²."""
        return self.rate_si * area_m2 / 10_000.0


def rewritten(rate: Rate, unit: str) -> Rate:
    """Return the same rate written in another unit of its kind.

    Raises
    ------
    WeightAgainstVolume
        If the one goes by weight and the other by volume.
    UnknownUnit
        If the unit is not one of a rate.
    """
    if units.dimension_of(unit) != units.dimension_of(rate.unit):
        raise WeightAgainstVolume(rate.unit, unit)
    return Rate(units.from_si(rate.rate_si, unit), unit)
