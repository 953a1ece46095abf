"""Units of the trade, reduced to SI once.

Plain float factors, so that hot paths carry floats with units in their names. The international
foot (0.3048 m), the avoirdupois pound (0.45359237 kg) and the US gallon (231 in³) are exact by
definition (NIST Handbook 44, Appendix C). The acre is 43,560 square *international* feet, four
millionths less than that on the survey foot. Tests hold them against pint.
"""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from typing import Final, Literal

Dimension = Literal["length", "area", "mass", "volume", "mass_rate", "volume_rate"]

_FT: Final = Fraction("0.3048")
_LB: Final = Fraction("0.45359237")
_GAL_L: Final = 231 * (_FT / 12) ** 3 * 1000
_ACRE: Final = 43_560 * _FT**2
_HA: Final = Fraction(10_000)

#: What we write for a unit -> its dimension, and how many of the SI unit it is kept in (m, m², kg,
#: L; rates in kg/ha and L/ha). The written form is what is stored beside the SI value and shown
#: back to the person, so that it can be checked against the label.
UNITS: Final[dict[str, tuple[Dimension, Fraction]]] = {
    "in": ("length", _FT / 12),
    "ft": ("length", _FT),
    "yd": ("length", 3 * _FT),
    "cm": ("length", Fraction(1, 100)),
    "m": ("length", Fraction(1)),
    "sq ft": ("area", _FT**2),
    "sq yd": ("area", 9 * _FT**2),
    "acre": ("area", _ACRE),
    "m²": ("area", Fraction(1)),
    "ha": ("area", _HA),
    "lb": ("mass", _LB),
    "oz": ("mass", _LB / 16),
    "g": ("mass", Fraction(1, 1000)),
    "kg": ("mass", Fraction(1)),
    "gal": ("volume", _GAL_L),
    "qt": ("volume", _GAL_L / 4),
    "pt": ("volume", _GAL_L / 8),
    "fl oz": ("volume", _GAL_L / 128),
    "mL": ("volume", Fraction(1, 1000)),
    "L": ("volume", Fraction(1)),
}

#: Areas rates are given per [m²].
_PER: Final[dict[str, Fraction]] = {
    "1000 sq ft": 1000 * _FT**2,
    "acre": _ACRE,
    "ha": _HA,
    "m²": Fraction(1),
    "100 m²": Fraction(100),
    "sq ft": _FT**2,
}

#: One mile an hour [m/s]: 1609.344 m in 3600 s (exact definitions).
M_S_PER_MPH: Final = 0.44704


class UnknownUnit(ValueError):
    """Raised for a unit that is not one of ours, or not of the dimension asked for."""


@cache
def dimension_of(unit: str) -> Dimension:
    """Return the dimension of a written unit, such as ``lb`` or ``fl oz/1000 sq ft``.

    Raises
    ------
    UnknownUnit
        If the unit is not one we write.
    """
    return _known(unit)[0]


@cache
def si_factor(unit: str) -> float:
    """Return how many SI units (see `UNITS`) one of the written unit is.

    Raises
    ------
    UnknownUnit
        If the unit is not one we write.
    """
    return float(_known(unit)[1])


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
    _known(unit)
    return unit


def amount_unit_of(rate: str) -> str:
    """Return the unit a product is weighed or measured out in, from its written rate unit."""
    return rate.split("/", 1)[0]


def _known(unit: str) -> tuple[Dimension, Fraction]:
    if unit in UNITS:
        return UNITS[unit]
    amount, slash, per = unit.partition("/")
    if slash and per in _PER and amount in UNITS:
        dimension, factor = UNITS[amount]
        if dimension == "mass":
            return "mass_rate", factor / _PER[per] * _HA
        if dimension == "volume":
            return "volume_rate", factor / _PER[per] * _HA
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
