"""What a product line comes to, as far as it was understood."""

from __future__ import annotations

import re
from dataclasses import dataclass

from bot.hearing.readers.coverage import Coverage
from bot.hearing.readers.product_kinds import Form
from bot.hearing.readers.reading import Unread
from jobs.agronomy.maxima import LabelMaximum, Period
from jobs.agronomy.rates import Rate
from jobs.agronomy.strengths import ActiveIngredient, Strength


@dataclass(frozen=True)
class PartMaximum:
    """A maximum that lacks its unit or area: its figure as written, ``6.4`` or ``5 lb``."""

    said: str
    period: Period | None

    @property
    def has_unit(self) -> bool:
        """Whether only the area is missing."""
        return re.search(r"[^\W\d_]", self.said) is not None


@dataclass(frozen=True)
class ProductRead:
    """A product, as far as it was understood.

    Attributes
    ----------
    said : str
        The line as written.
    ingredients : tuple of ActiveIngredient
        In the order named.
    form : str or None
        ``granule`` (spread dry) or ``spray`` (mixed with water); None where not said.
    is_liquid : bool or None
        Whether the product itself is a liquid; None where not said.
    rate : Rate or None
        The label rate; None where missing, a range, or in doubt.
    is_rate_of_ingredient : bool
        Whether the rate counts active ingredient.
    limits : tuple of LabelMaximum
        The label's maxima.
    questions : tuple of Unread
        What has to be asked before the product can be used.
    leftovers : tuple of str
        Words not understood.
    codes : tuple of (str, Strength)
        Trade codes and the strength each was read as, to be said back: ``65 WDG`` is 65 %.
    part_maximum : PartMaximum or None
        A maximum that still lacks its unit or area, and so is none of `limits`.
    coverage : Coverage or None
        What a bag of it covers, which may be where the rate was read from.
    strengths : tuple of Strength
        All strengths said, whether or not it is known of which ingredient.
    rate_range : tuple of Rate or None
        The lowest and the highest rate, where the label gives a range of product.
    """

    said: str
    ingredients: tuple[ActiveIngredient, ...]
    form: Form | None
    is_liquid: bool | None
    rate: Rate | None
    is_rate_of_ingredient: bool
    limits: tuple[LabelMaximum, ...]
    questions: tuple[Unread, ...]
    leftovers: tuple[str, ...]
    codes: tuple[tuple[str, Strength], ...] = ()
    part_maximum: PartMaximum | None = None
    coverage: Coverage | None = None
    strengths: tuple[Strength, ...] = ()
    rate_range: tuple[Rate, Rate] | None = None
