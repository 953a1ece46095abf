"""Rounding of figures that people read."""

from __future__ import annotations

from decimal import ROUND_HALF_EVEN, Decimal


def rounded(value: float | Decimal, step: Decimal, how: str = ROUND_HALF_EVEN) -> Decimal:
    """Return the multiple of a step nearest to a value; `how` is a rounding of `decimal`."""
    exact = value if isinstance(value, Decimal) else Decimal(repr(float(value)))
    return (exact / step).quantize(Decimal(1), rounding=how) * step


def plain(value: Decimal) -> Decimal:
    """Return a value without trailing zeros after the point."""
    text = f"{value:f}"
    return Decimal(text.rstrip("0").rstrip(".")) if "." in text else value
