"""A product being entered, as it is kept between turns: what was said of it so far."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import asdict, dataclass, fields
from typing import Any, Final

from bot.hearing.readers.label_words import LabelFacts, read_label_facts
from bot.hearing.readers.product_clauses import said_more
from bot.hearing.readers.product_read import ProductRead
from jobs.agronomy.rates import Rate

#: Kept among what is settled: the label gives no maximum.
NO_MAXIMUM: Final = "no maximum"


@dataclass(frozen=True)
class Draft:
    """What has been gathered of a product.

    Attributes
    ----------
    said, words
        The label as understood, and the person's own words for the record.
    label
        Words of the rest of the label: packs, intervals; kept with the product.
    form
        ``granule`` or ``spray``, where that was answered.
    sure
        Doubts that were answered by "my label says so", by their keys.
    is_certified
        Whether the person said to be a certified applicator.
    awaits
        What was asked: ``all`` ``rate`` ``maximum`` ``period`` ``form`` ``sure`` ``certified``
        ``ingredient`` ``strength`` ``coverage``.
    maximum
        A maximum that lacks its unit or area, with a gap where they go: ``max 6.4 … per year``.
    near
        A word that may be a misspelt ingredient.
    rates
        The range of rates the label gives: ``2.3|3.4|lb/1000 sq ft``.
    zones
        Names of the zones it was said to be for, where that is not all of them.
    yards
        Numbers of other yards that get it as well.
    """

    said: str = ""
    words: str = ""
    label: str = ""
    form: str | None = None
    sure: tuple[str, ...] = ()
    is_certified: bool = False
    awaits: str = ""
    maximum: str = ""
    near: str = ""
    rates: str = ""
    zones: tuple[str, ...] = ()
    yards: tuple[int, ...] = ()

    @property
    def rate_range(self) -> tuple[Rate, Rate] | None:
        """The lowest and the highest rate the label gives, where it gives a range."""
        low, _, rest = self.rates.partition("|")
        high, _, unit = rest.partition("|")
        return (Rate(float(low), unit), Rate(float(high), unit)) if unit else None

    def to_json(self) -> dict[str, Any]:
        """Return it as plain values."""
        return {**asdict(self), **{name: list(getattr(self, name)) for name in _LISTS}}

    @classmethod
    def from_json(cls, row: Mapping[str, Any]) -> Draft:
        """Return the draft of plain values; values of another version are left out."""
        known = {each.name for each in fields(cls)}
        kept = {name: value for name, value in row.items() if name in known}
        lists = {name: tuple(kept.get(name, ())) for name in _LISTS}
        return cls(**{**kept, **lists})


_LISTS: Final = ("sure", "zones", "yards")


@dataclass(frozen=True)
class ProductSaid:
    """A product as far as it was said: the draft, and what it is read as."""

    draft: Draft
    read: ProductRead

    @property
    def facts(self) -> LabelFacts:
        """The rest of the label, as said."""
        return read_label_facts(self.draft.label)

    @property
    def unread(self) -> list[str]:
        """Words that say more than that a label is being read off, and were not understood."""
        return said_more(self.read.leftovers)
