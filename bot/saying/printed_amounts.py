"""Amounts of product: exact, and as one weighs or measures them out; one number, one unit.

The unit is the person's: pounds and ounces or kilograms and grams, fluid ounces and gallons or
millilitres and litres, the small one below one of the large. What is weighed is rounded down to
what the scale shows, so that nobody puts down more than was reckoned; what is exact is rounded to
the nearest, and down where that would pass a maximum.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from decimal import ROUND_FLOOR, ROUND_HALF_EVEN, Decimal
from typing import Final, Self

from bot.saying.rounding import plain, rounded
from bot.saying.values import Form, Value, in_unit
from bot.saying.voice import UnitSystem
from jobs.agronomy import units
from jobs.agronomy.amounts import Amount


@dataclass(frozen=True, slots=True)
class Measure(Value):
    """A figure in the unit it is given in, whoever reads it: ``10 g``, ``0.1 lb``."""

    value: float
    unit: str

    def shown(self, form: Form) -> str:  # noqa: D102
        return in_unit(self.value, self.unit, form)


@dataclass(frozen=True, slots=True)
class Quantity(Value):
    """An exact amount [kg or L] of what is measured in a unit: ``7.68 lb``, ``0.735 fl oz``.

    `unit` is any of its kind and tells weight from volume. Nothing above `at_most_si` is printed.
    """

    amount_si: float
    unit: str
    at_most_si: float | None = None

    @classmethod
    def of(cls, amount: Amount, at_most_si: float | None = None) -> Self:
        """Return an amount as a value of a sentence."""
        return cls(amount.si, amount.unit, at_most_si)

    def printed(self, system: UnitSystem) -> tuple[Decimal, str]:
        """Return the number and the unit that are printed."""
        unit = self._unit(system)
        value = self._in(unit)
        for step in _FINER:
            near = rounded(value, step, ROUND_HALF_EVEN)
            if _si(near, unit) > self._most():
                near = rounded(value, step, ROUND_FLOOR)
            if abs(near - value) <= value * _CLOSE:
                return plain(near), unit
        return plain(near), unit

    def shown(self, form: Form) -> str:  # noqa: D102
        value, unit = self.printed(form.units)
        return in_unit(float(value), unit, form)

    def _unit(self, system: UnitSystem) -> str:
        small, large = _UNITS[system][units.dimension_of(self.unit)]
        return large if self._in(large) >= 1 else small

    def _in(self, unit: str) -> Decimal:
        return Decimal(repr(min(self.amount_si, self._most()) / units.si_factor(unit)))

    def _most(self) -> float:
        # Noise of floating point is let pass, so that 5 lb at a maximum of 5 lb is printed as such.
        return math.inf if self.at_most_si is None else self.at_most_si * (1.0 + _NOISE)


@dataclass(frozen=True, slots=True)
class ToWeigh(Quantity):
    """An amount to weigh or measure out: ``3.8 lb``, never more than was reckoned.

    Rounded down to what the person's scale shows, which `scale` gives as its step; where no scale
    is known, or it is too coarse for this, to the coarsest step that leaves off at most 2 %.
    """

    scale: Measure | None = None

    def printed(self, system: UnitSystem) -> tuple[Decimal, str]:
        """Return the number and the unit that are printed."""
        scale = self.scale
        if scale is not None and units.dimension_of(self.unit) == "mass":
            down = self._down(scale.unit, Decimal(f"{scale.value:.6g}"))
            if down >= self._in(scale.unit) * (1 - _TOO_COARSE):
                return plain(down), scale.unit
        unit = self._unit(system)
        for step in _FINER:
            down = self._down(unit, step)
            if down >= self._in(unit) * (1 - _LEFT_OFF):
                break
        return plain(down), unit

    def _down(self, unit: str, step: Decimal) -> Decimal:
        return rounded(self._in(unit) * (1 + Decimal(_NOISE)), step, ROUND_FLOOR)


#: Steps of what is printed, the coarse first.
_FINER: Final = tuple(Decimal(1).scaleb(-places) for places in range(9))
#: Shares: how far an exact amount may be off, how much of one to weigh may be left off, and how
#: much a scale may leave off before it is too coarse.
_CLOSE: Final = Decimal("0.001")
_LEFT_OFF: Final = Decimal("0.02")
_TOO_COARSE: Final = Decimal("0.05")
_NOISE: Final = 1e-12

#: By units and kind: the small unit and the large one.
_UNITS: Final[dict[str, dict[str, tuple[str, str]]]] = {
    "us": {"mass": ("oz", "lb"), "volume": ("fl oz", "gal")},
    "metric": {"mass": ("g", "kg"), "volume": ("mL", "L")},
}


def _si(value: Decimal, unit: str) -> float:
    return float(value) * units.si_factor(unit)
