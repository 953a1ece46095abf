"""One maximum on one zone and day: what counts toward it, and what it still allows."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from typing import Literal, TypeAlias

from jobs.agronomy.amounts import counted_si
from jobs.agronomy.history import Entry, History, Line
from jobs.agronomy.label_periods import windows
from jobs.agronomy.labelled_product import Product, ai_kg_ha
from jobs.agronomy.maxima import Basis, LabelMaximum, Period
from jobs.agronomy.rates import Rate, WeightAgainstVolume
from jobs.agronomy.strengths import StrengthUnknown
from jobs.agronomy.units import from_si

#: How much counts in a span: what nobody knows the amount of weighs most.
_Weight: TypeAlias = tuple[bool, float]


@dataclass(frozen=True, slots=True)
class Counted:
    """One earlier application and what it counts, in the allowance's unit; None: not known."""

    entry: Entry
    counts: float | None


@dataclass(frozen=True, slots=True)
class Allowance:
    """The arithmetic of one maximum on one zone and day; all numbers in ``unit``.

    Attributes
    ----------
    of, ingredient, period
        What the maximum counts (see `LabelMaximum`).
    basis
        ``label``, or ``reference``: remembered, used only where the label's is not known.
    limit, used, left
        ``limit - used = left``, never below zero.
    first, last
        The days counted, both inclusive.
    counted
        The applications counted, oldest first.
    maximum
        The maximum itself.
    """

    of: Basis
    ingredient: str | None
    period: Period
    basis: Literal["label", "reference"]
    unit: str
    limit: float
    used: float
    left: float
    first: date
    last: date
    counted: tuple[Counted, ...]
    maximum: LabelMaximum
    source: str = "label"

    @property
    def unknown(self) -> tuple[Entry, ...]:
        """Applications that count without our knowing how much."""
        return tuple(item.entry for item in self.counted if item.counts is None)


def worst(
    history: History,
    product: Product,
    maximum: LabelMaximum,
    on: date,
    basis: Literal["label", "reference"],
    source: str,
) -> Allowance:
    """Return the allowance of those square feet on which most is down."""
    each = [_allowance(line, product, maximum, on, basis, source) for line in history.lines]
    return max(each, key=lambda item: (bool(item.unknown), item.used))


def _allowance(
    line: Line,
    product: Product,
    maximum: LabelMaximum,
    on: date,
    basis: Literal["label", "reference"],
    source: str,
) -> Allowance:
    unit = maximum.rate.unit

    def counting(entries: Iterable[Entry]) -> tuple[Counted, ...]:
        return tuple(
            Counted(entry, None if counts is None else from_si(counts, unit))
            for entry in entries
            if (counts := _counts(entry, product, maximum)) != 0.0
        )

    whole = counting(line.whole)
    parts = [[counting(each) for each in group] for group in line.parts]
    days = [item.entry.day for item in whole]
    days += [item.entry.day for group in parts for each in group for item in each]
    # The span that holds most; one with an amount not known before any other.
    best: tuple[_Weight, tuple[date, date], tuple[Counted, ...]] | None = None
    for first, last in windows(maximum.period, on, days):
        inside = _inside(whole, first, last)
        for group in parts:
            inside += max((_inside(each, first, last) for each in group), key=_weight)
        weight = _weight(inside)
        if best is None or weight > best[0]:
            best = (weight, (first, last), inside)
    assert best is not None
    (_, used), (first, last), inside = best
    limit = maximum.rate.value
    return Allowance(
        maximum.of,
        maximum.ingredient,
        maximum.period,
        basis,
        unit,
        limit,
        used,
        max(0.0, limit - used),
        first,
        last,
        tuple(sorted(inside, key=lambda item: item.entry.day)),
        maximum,
        source,
    )


def _inside(counted: tuple[Counted, ...], first: date, last: date) -> tuple[Counted, ...]:
    return tuple(item for item in counted if first <= item.entry.day <= last)


def _weight(counted: tuple[Counted, ...]) -> _Weight:
    return any(item.counts is None for item in counted), sum(item.counts or 0.0 for item in counted)


def _counts(entry: Entry, product: Product, maximum: LabelMaximum) -> float | None:
    """Return what an earlier application counts [kg/ha or L/ha]; 0 nothing, None not known."""
    counted_names = (
        {maximum.ingredient} if maximum.ingredient is not None else set(product.ingredient_names)
    )
    if not entry.product.ingredients:
        return None
    if counted_names.isdisjoint(entry.product.ingredient_names) and entry.product != product:
        return 0.0
    if entry.rate is None:
        return None
    try:
        if maximum.of == "ai":
            return sum(
                ai_kg_ha(entry.rate, part)
                for part in entry.product.ingredients
                if part.name in counted_names
            )
        return _as_product(entry, entry.rate, product, maximum)
    except (StrengthUnknown, WeightAgainstVolume):
        return None


def _as_product(entry: Entry, rate: Rate, product: Product, maximum: LabelMaximum) -> float:
    """Return an earlier application as an amount of *this* product, by the ingredient it shares."""
    if entry.product.ingredients == product.ingredients:
        return counted_si(rate, product, maximum)
    theirs = {part.name: part for part in entry.product.ingredients}
    return max(
        ai_kg_ha(rate, theirs[mine.name]) / mine.share_for(maximum.rate.unit)
        for mine in product.ingredients
        if mine.name in theirs
    )
