"""A rate as the label states it: a number, its written unit, and what it is in SI."""

from __future__ import annotations

import math
from dataclasses import dataclass

from jobs.agronomy.units import UnknownUnit, amount_unit_of, dimension_of, from_si, to_si


@dataclass(frozen=True, slots=True)
class Rate:
    """An amount of product per area, kept as written so that it can be checked on the label.

    Attributes
    ----------
    value
        The number as written.
    unit
        The written unit, such as ``lb/1000 sq ft`` or ``fl oz/acre`` (see `jobs.agronomy.units`).

    Raises
    ------
    UnknownUnit
        If the unit is not that of a rate.
    ValueError
        If the value is negative or not finite.
    """

    value: float
    unit: str

    def __post_init__(self) -> None:
        if dimension_of(self.unit) not in ("mass_rate", "volume_rate"):
            raise UnknownUnit(self.unit)
        if not math.isfinite(self.value) or self.value < 0:
            raise ValueError(f"a rate is a number of at least zero, not {self.value}")

    @property
    def si(self) -> float:
        """The rate in kg/ha or L/ha, whichever its unit is of."""
        return to_si(self.value, self.unit)

    @property
    def rate_kg_ha(self) -> float | None:
        """The rate [kg/ha], or None for one by volume."""
        return self.si if dimension_of(self.unit) == "mass_rate" else None

    @property
    def rate_l_ha(self) -> float | None:
        """The rate [L/ha], or None for one by weight."""
        return self.si if dimension_of(self.unit) == "volume_rate" else None

    @property
    def amount_unit(self) -> str:
        """The unit the product is weighed or measured out in, such as ``lb``."""
        return amount_unit_of(self.unit)

    def in_unit(self, unit: str) -> Rate:
        """Return the same rate written in another unit of its kind.

        Raises
        ------
        UnknownUnit
            If the unit is unknown, or would turn a weight into a volume.
        """
        if dimension_of(unit) != dimension_of(self.unit):
            raise UnknownUnit(unit)
        return Rate(from_si(self.si, unit), unit)
