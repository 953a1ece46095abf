"""What no shape may break, and the refusal that says which rule it was."""

from __future__ import annotations

import math
from collections.abc import Sequence


class ImpossibleShape(ValueError):
    """Raised for a shape that cannot exist.

    Attributes
    ----------
    reason : str
        Which rule it breaks: ``not_positive``, ``sides_do_not_close``, ``hole_larger``,
        ``part_of_circle``, ``simpson_needs_even_strips``, ``too_few``, ``offsets_do_not_cover``,
        ``does_not_close``, ``crosses_itself``, ``empty``.
    numbers : dict of str to float
        The figures that break it, in metres, square metres or plain counts.
    """

    def __init__(self, reason: str, **numbers: float) -> None:
        self.reason = reason
        self.numbers = numbers
        super().__init__(f"{reason} {numbers}")


def positive(*values: float) -> None:
    """Refuse lengths and areas that are not above zero.

    Raises
    ------
    ImpossibleShape
        With the reason ``not_positive``.
    """
    for value in values:
        if not (math.isfinite(value) and value > 0.0):
            raise ImpossibleShape("not_positive", value=value)


def not_negative(values: Sequence[float]) -> None:
    """Refuse widths and gaps below zero.

    Raises
    ------
    ImpossibleShape
        With the reason ``not_positive``.
    """
    for value in values:
        if not (math.isfinite(value) and value >= 0.0):
            raise ImpossibleShape("not_positive", value=value)
