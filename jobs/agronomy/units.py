"""Units of the trade, reduced to SI once.

`pint` knows the units and the arithmetic between them; this module fixes the legal definitions we
stand on and hands out plain float factors, so that hot paths carry floats with units in their
names. The international foot (0.3048 m), the avoirdupois pound (0.45359237 kg) and the US gallon
(231 in³) are exact by definition (NIST Handbook 44, Appendix C). The acre is 43,560 square
*international* feet: pint's own acre stands on the survey foot, four millionths larger.
"""

from __future__ import annotations

from functools import cache
from typing import Final, Literal

import pint

Dimension = Literal["length", "area", "mass", "volume", "mass_rate", "volume_rate"]

_DEFINITIONS: Final = (
    "acre = 43560 * foot ** 2",
    "thousand_square_feet = 1000 * foot ** 2",
    "hundred_square_metres = 100 * metre ** 2",
)

#: SI unit each dimension is kept in. Rates: kg/ha and L/ha.
SI_UNIT: Final[dict[str, str]] = {
    "length": "m",
    "area": "m**2",
    "mass": "kg",
    "volume": "liter",
    "mass_rate": "kg/hectare",
    "volume_rate": "liter/hectare",
}

#: What we write for a unit -> (dimension, pint expression). The written form is what is stored
#: beside the SI value and shown back to the person, so that it can be checked against the label.
UNITS: Final[dict[str, tuple[Dimension, str]]] = {
    "in": ("length", "inch"),
    "ft": ("length", "foot"),
    "yd": ("length", "yard"),
    "cm": ("length", "cm"),
    "m": ("length", "m"),
    "sq ft": ("area", "foot**2"),
    "sq yd": ("area", "yard**2"),
    "acre": ("area", "acre"),
    "m²": ("area", "m**2"),
    "ha": ("area", "hectare"),
    "lb": ("mass", "pound"),
    "oz": ("mass", "ounce"),
    "g": ("mass", "gram"),
    "kg": ("mass", "kg"),
    "gal": ("volume", "gallon"),
    "qt": ("volume", "quart"),
    "pt": ("volume", "pint"),
    "fl oz": ("volume", "fluid_ounce"),
    "mL": ("volume", "milliliter"),
    "L": ("volume", "liter"),
}

_PER: Final[dict[str, str]] = {
    "1000 sq ft": "thousand_square_feet",
    "acre": "acre",
    "ha": "hectare",
    "m²": "m**2",
    "100 m²": "hundred_square_metres",
    "sq ft": "foot**2",
}

#: One mile an hour [m/s]: 1609.344 m in 3600 s (exact definitions).
M_S_PER_MPH: Final = 0.44704


class UnknownUnit(ValueError):
    """Raised for a unit that is not one of ours, or not of the dimension asked for."""


@cache
def registry() -> pint.UnitRegistry[float]:
    """Return the one pint registry, with the acre on the international foot."""
    ureg: pint.UnitRegistry[float] = pint.UnitRegistry(on_redefinition="ignore")
    for line in _DEFINITIONS:
        ureg.define(line)
    return ureg


@cache
def dimension_of(unit: str) -> Dimension:
    """Return the dimension of a written unit, such as ``lb`` or ``fl oz/1000 sq ft``.

    Raises
    ------
    UnknownUnit
        If the unit is not one we write.
    """
    return _expression(unit)[0]


@cache
def si_factor(unit: str) -> float:
    """Return how many SI units (see `SI_UNIT`) one of the written unit is.

    Raises
    ------
    UnknownUnit
        If the unit is not one we write.
    """
    dimension, expression = _expression(unit)
    return float(registry().Quantity(1.0, expression).to(SI_UNIT[dimension]).magnitude)


def to_si(value: float, unit: str) -> float:
    """Convert ``value`` in a written unit to the SI unit of its dimension."""
    return value * si_factor(unit)


def from_si(value: float, unit: str) -> float:
    """Convert an SI value to a written unit of the same dimension."""
    return value / si_factor(unit)


def rate_unit(amount_unit: str, per: str) -> str:
    """Return the written rate unit for an amount unit and an area, such as ``lb/1000 sq ft``.

    Raises
    ------
    UnknownUnit
        If the amount is neither mass nor volume, or the area is not one rates are given per.
    """
    unit = f"{amount_unit}/{per}"
    _expression(unit)
    return unit


def amount_unit_of(rate: str) -> str:
    """Return the unit a product is weighed or measured out in, from its written rate unit."""
    return rate.split("/", 1)[0]


def _expression(unit: str) -> tuple[Dimension, str]:
    if unit in UNITS:
        return UNITS[unit]
    amount, slash, per = unit.partition("/")
    if slash and per in _PER and amount in UNITS:
        dimension, expression = UNITS[amount]
        if dimension == "mass":
            return "mass_rate", f"{expression}/{_PER[per]}"
        if dimension == "volume":
            return "volume_rate", f"{expression}/{_PER[per]}"
    raise UnknownUnit(unit)


def c_from_f(temperature_f: float) -> float:
    """Convert an absolute temperature from °F to °C (not a difference)."""
    return (temperature_f - 32.0) / 1.8


def f_from_c(temperature_c: float) -> float:
    """Convert an absolute temperature from °C to °F (not a difference: see `f_from_c_step`)."""
    return temperature_c * 1.8 + 32.0


def f_from_c_step(difference_c: float) -> float:
    """Convert a temperature difference from °C to °F."""
    return difference_c * 1.8
