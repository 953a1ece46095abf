"""Numbers and quantities as people read them on a phone, weigh them and measure them out.

Amounts are rounded to what a scale or a measuring cup of that range shows, and finer where that
would be more than 0.1 % off. An amount that must not pass the label's maximum is rounded down where
rounding up would.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from decimal import ROUND_FLOOR, Decimal
from typing import Final, TypeAlias

from bot.saying.rounding import rounded
from jobs.agronomy import units


@dataclass(frozen=True)
class Printed:
    """An amount as printed: the text, and exactly what the text says, in kg or L."""

    text: str
    amount_si: float


def say_amount(amount_si: float, like: str, at_most: float | None = None) -> str:
    """Return an amount one can weigh or measure out: ``7 lb 10.9 oz``, ``0.735 fl oz``.

    Parameters
    ----------
    amount_si : float
        The amount in kg, or in L for a volume.
    like : str
        The unit the label's rate is in (``lb``, ``oz``, ``g``, ``fl oz``, ...): says whether it is
        a weight or a volume, and in which family of units to answer.
    at_most : float, optional
        Largest amount (kg or L) that may be printed; rounding goes down where it would pass it.
    """
    return print_amount(amount_si, like, at_most).text


def print_amount(amount_si: float, like: str, at_most: float | None = None) -> Printed:
    """Return an amount as printed (see `say_amount`), with the value that the text states.

    Sum the printed values where a total has to agree with the lines above it.
    """
    base, ladder = _LADDERS[_FAMILY[like]]
    value = Decimal(repr(amount_si / units.si_factor(base)))
    step = next(step for below, step in ladder if below is None or value < below)
    near = _close(amount_si, base, step, at_most)
    return Printed(_text(near, _FAMILY[like]), float(near) * units.si_factor(base))


def say_decimal(amount_si: float, unit: str, at_most: float | None = None) -> str:
    """Return an amount as one decimal number for a scale that shows it: ``7.68 lb``.

    Two decimals, and more where 0.1 % needs them; never above `at_most` (kg or L).
    """
    near = _close(amount_si, unit, Decimal("0.01"), at_most)
    return f"{near:,f} {unit}"


#: How far a printed amount may be off, as a share of it; half as far where it is cut down.
_CLOSE: Final = Decimal("0.001")

#: Floating-point noise let pass, so that 5 lb at a maximum of 5 lb is printed as 5 lb.
_NOISE: Final = 1e-12

_FAMILY: Final = {
    "lb": "us weight",
    "oz": "us weight",
    "g": "metric weight",
    "kg": "metric weight",
    "fl oz": "us volume",
    "pt": "us volume",
    "qt": "us volume",
    "gal": "us volume",
    "mL": "metric volume",
    "L": "metric volume",
}
_Ladder: TypeAlias = tuple[tuple[Decimal | None, Decimal], ...]


def _ladder(*rungs: tuple[str | None, str]) -> _Ladder:
    return tuple(
        (None if below is None else Decimal(below), Decimal(step)) for below, step in rungs
    )


#: Family -> the unit rounded in, and (below this many, round to this step, or finer).
_METRIC: Final = _ladder(
    ("1", "0.001"), ("100", "0.01"), ("1000", "0.1"), ("10000", "1"), (None, "10")
)
_LADDERS: Final[dict[str, tuple[str, _Ladder]]] = {
    "us weight": ("oz", _ladder(("1", "0.001"), ("16", "0.01"), ("1600", "0.1"), (None, "1"))),
    "us volume": ("fl oz", _ladder(("1", "0.001"), ("16", "0.01"), ("1280", "0.1"), (None, "1"))),
    "metric weight": ("g", _METRIC),
    "metric volume": ("mL", _METRIC),
}


def _close(amount_si: float, unit: str, step: Decimal, at_most: float | None) -> Decimal:
    """Return an amount in a unit, rounded to a step or as much finer as closeness asks for."""
    factor = units.si_factor(unit)
    most = math.inf if at_most is None else at_most * (1.0 + _NOISE)
    value = Decimal(repr(min(amount_si, most) / factor))
    while True:
        near = rounded(value, step)
        close = _CLOSE
        if float(near) * factor > most:
            near, close = rounded(value, step, ROUND_FLOOR), _CLOSE / 2
        if abs(near - value) <= value * close:
            return near
        step /= 10


def _text(value: Decimal, family: str) -> str:
    if family == "us weight":
        return _in_two(value, "oz", "lb", 16)
    if family == "us volume":
        return _in_two(value, "fl oz", "gal", 128)
    small, large = ("g", "kg") if family == "metric weight" else ("mL", "L")
    if value < 1000:
        return f"{_plain(value)} {small}"
    return f"{_plain(value / 1000)} {large}"


def _in_two(value: Decimal, small: str, large: str, parts: int) -> str:
    whole, rest = divmod(value, parts)
    if not whole:
        return f"{_plain(rest)} {small}"
    return f"{whole:,} {large} {_plain(rest)} {small}" if rest else f"{whole:,} {large}"


def _plain(value: Decimal) -> str:
    text = f"{value:,f}"
    return text.rstrip("0").rstrip(".") if "." in text else text
