"""A label's maxima, each in the label's own number and unit and over the label's own period."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, TypeAlias

from jobs.agronomy.rates import Rate

#: The span a label counts a maximum over; ``application`` is one single treatment. ``unsaid`` is
#: read as the strictest of them.
Period: TypeAlias = Literal["application", "calendar_year", "season", "12_months", "unsaid"]

#: What a maximum counts: the product, or its active ingredient.
Basis: TypeAlias = Literal["product", "ai"]


@dataclass(frozen=True, slots=True)
class LabelMaximum:
    """One maximum of the label: so much, of product or of active ingredient, over a period.

    Attributes
    ----------
    rate
        How much per area, as the label writes it; an active ingredient goes by weight.
    of
        Whether it counts the product or the active ingredient.
    period
        What it is counted over.
    ingredient
        Which ingredient, for a product with several. None: all of them together.
    """

    rate: Rate
    of: Basis = "product"
    period: Period = "unsaid"
    ingredient: str | None = None

    def __post_init__(self) -> None:
        if self.of == "ai" and not self.rate.is_weight:
            raise ValueError("a maximum of active ingredient goes by weight")
