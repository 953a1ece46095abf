"""A label in our own writing, such as the reader of products reads."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from bot.hearing.readers.lexing import figures
from jobs.agronomy.maxima import LabelMaximum, Period
from jobs.agronomy.rates import Rate
from jobs.agronomy.strengths import ActiveIngredient, Strength

#: A maximum's period as it is written back into the line, to be read again.
PERIOD_WORDS: Final[dict[Period, str]] = {
    "application": " per application",
    "calendar_year": " per year",
    "season": " per season",
    "12_months": " per 12 months",
    "unsaid": "",
}


def label_of(
    parts: Sequence[ActiveIngredient],
    form: str | None,
    rate: Rate | None,
    maxima: Sequence[LabelMaximum],
) -> str:
    """Return a product in our own writing, to be read again."""
    line = [
        part.name if part.strength is None else f"{part.name} {_written(part.strength)}"
        for part in parts
    ]
    if form is not None:
        line.append(form)
    if rate is not None:
        line.append(rate_line(rate, ""))
    return ", ".join([*line, *map(maximum_line, maxima)])


def rate_line(rate: Rate, of: str) -> str:
    """Return a rate; `of` follows the unit of its amount, such as " ai"."""
    amount, _, per = rate.unit.partition("/")
    return f"{figures(rate.value)} {amount}{of} per {per}"


def maximum_line(limit: LabelMaximum) -> str:
    """Return a maximum."""
    of = " ai" if limit.of == "ai" else ""
    return f"max {rate_line(limit.rate, of)}{PERIOD_WORDS[limit.period]}"


def _written(strength: Strength) -> str:
    return f"{figures(strength.value)}{'%' if strength.unit == '%' else ' ' + strength.unit}"
