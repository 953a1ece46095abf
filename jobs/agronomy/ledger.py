"""What the label still allows on a piece of ground, all products counted over the label's period.

A maximum of active ingredient counts every product that carries it: feed with herbicide, spray,
what a service put down. A maximum of product also counts other products with the same ingredient,
as the amount of this product that would carry as much. All of it is shown as data.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Literal

from jobs.agronomy.amounts import ROUNDING, LabelLimitExceeded, counted_si
from jobs.agronomy.history import Entry, History, Line
from jobs.agronomy.ingredients import YearlyMaximum, combinations, ingredients
from jobs.agronomy.label_periods import windows
from jobs.agronomy.maxima import Basis, LabelMaximum, Period
from jobs.agronomy.products import Product, ai_kg_ha
from jobs.agronomy.rates import Rate, WeightAgainstVolume
from jobs.agronomy.strengths import StrengthUnknown
from jobs.agronomy.units import from_si


class UseUnknown(ValueError):
    """Raised when an earlier application counts but how much it was is not known: ask.

    Attributes
    ----------
    entries
        The applications to ask about.
    """

    def __init__(self, entries: tuple[Entry, ...]) -> None:
        super().__init__(f"{len(entries)} earlier applications without an amount")
        self.entries = entries


class TooSoon(ValueError):
    """Raised when the label's smallest interval between applications has not passed.

    Attributes
    ----------
    last, allowed_from
        Day of the last application that is too near, and the first day from which none is.
    """

    def __init__(self, last: date, allowed_from: date) -> None:
        super().__init__(f"last put down {last}, not again before {allowed_from}")
        self.last = last
        self.allowed_from = allowed_from


class TooManyApplications(ValueError):
    """Raised when the label's number of applications is used up.

    Attributes
    ----------
    used, limit, period
        Applications counted, the most allowed, and what the label counts them over.
    """

    def __init__(self, used: int, limit: int, period: Period) -> None:
        super().__init__(f"{used} of {limit} applications used ({period})")
        self.used = used
        self.limit = limit
        self.period: Period = period


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


def allowances(
    history: History, product: Product, on: date, *, species: str | None = None
) -> tuple[Allowance, ...]:
    """Return what each maximum still allows of a product on a day, where most is down.

    Parameters
    ----------
    history
        What may have met the ground; applications after the day count too where their period takes
        it in (news may come late).
    product, on
        What and when.
    species
        The zone's turf; None when not known: then the least remembered maximum governs.
    """
    found = label_allowances(history, product, on)
    for maximum, source in _remembered(product, species):
        found += (_worst(history, product, maximum, on, "reference", source),)
    return found


def label_allowances(history: History, product: Product, on: date) -> tuple[Allowance, ...]:
    """Return what each maximum of the label itself still allows."""
    return tuple(
        _worst(history, product, maximum, on, "label", "label") for maximum in product.maxima
    )


def check_label(history: History, product: Product, rate: Rate, on: date) -> Rate | None:
    """Return the most the label's maxima still allow (None: it names none), or stop a rate.

    Raises
    ------
    LabelLimitExceeded
        If the rate comes on top of what is down already to more than a maximum.
    UseUnknown
        If something that counts went down without anybody knowing how much.
    WeightAgainstVolume, StrengthUnknown
        If something cannot be compared.
    """
    found = label_allowances(history, product, on)
    for item in found:
        if item.unknown:
            raise UseUnknown(item.unknown)
        asked = from_si(counted_si(rate, product, item.maximum), item.unit)
        if asked + item.used > item.limit * (1 + ROUNDING):
            raise LabelLimitExceeded(
                asked, item.limit, item.unit, item.period, item.of, used=item.used
            )
    return most_allowed(found, product, rate.unit)


def most_allowed(found: Iterable[Allowance], product: Product, unit: str) -> Rate | None:
    """Return the highest rate of product every allowance leaves room for, in ``unit``.

    None where nothing limits it, or nothing is left (see `Allowance.left`).

    Raises
    ------
    WeightAgainstVolume, StrengthUnknown
        If a maximum cannot be turned into a rate of that unit.
    """
    one = Rate(1.0, unit)
    rates = [
        item.left / from_si(counted_si(one, product, item.maximum), item.unit) for item in found
    ]
    return Rate(min(rates), unit) if rates and min(rates) > 0 else None


# --- one maximum ----------------------------------------------------------------------------------


_Weight = tuple[bool, float]


def _worst(
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


def _remembered(product: Product, species: str | None) -> list[tuple[LabelMaximum, str]]:
    """Return remembered yearly maxima, for ingredients the label gives no total for."""
    totals = [m for m in product.maxima if m.period != "application"]
    if any(m.ingredient is None for m in totals):
        return []
    covered = {m.ingredient for m in totals}
    names = [name for name in product.ingredient_names if name not in covered]
    table = ingredients()
    found: list[tuple[LabelMaximum, str]] = []
    for mixture in combinations():
        if mixture.ingredients == set(names):
            rows = [min(mixture.yearly_maxima, key=lambda row: row.max_kg_ha)]
            return [(_as_maximum(row, None), row.source) for row in rows]
    for name in names:
        row = table[name].yearly_maximum(species, product.form) if name in table else None
        if row is not None:
            found.append((_as_maximum(row, name), row.source))
    return found


def _as_maximum(row: YearlyMaximum, name: str | None) -> LabelMaximum:
    rate = Rate(from_si(row.max_kg_ha, "lb/acre"), "lb/acre")
    return LabelMaximum(rate, "ai", "calendar_year", name)


def check_times(history: History, product: Product, on: date) -> None:
    """Pass a day by the label's number of applications and its smallest interval, or stop it.

    Raises
    ------
    TooSoon, TooManyApplications
        If it comes too soon after another, or there are none left.
    """
    if product.smallest_interval_days is not None:
        gap = timedelta(days=product.smallest_interval_days)
        near: date | None = None
        allowed_from = on
        for day in sorted(_days(history.entries, product)):
            # More of the same day is no second application, but the next one waits for it too.
            is_counted = day != on or near is not None
            if is_counted and allowed_from - gap < day < allowed_from + gap:
                near, allowed_from = day, day + gap
        if near is not None:
            raise TooSoon(near, allowed_from)
    if product.max_applications is not None:
        most = max(_times(line, product, on) for line in history.lines)
        if most >= product.max_applications:
            raise TooManyApplications(most, product.max_applications, product.applications_period)


def _days(entries: Iterable[Entry], product: Product) -> set[date]:
    names = set(product.ingredient_names)
    return {
        entry.day
        for entry in entries
        if entry.product == product or names & set(entry.product.ingredient_names)
    }


def _times(line: Line, product: Product, on: date) -> int:
    """Return how many applications one square foot may have had in a period with a day in it."""
    whole = _days(line.whole, product)
    parts = [[_days(each, product) - whole for each in group] for group in line.parts]
    every = _days(line.entries, product)

    def inside(days: set[date], first: date, last: date) -> int:
        return sum(first <= day <= last and day != on for day in days)

    return max(
        inside(whole, first, last)
        + sum(max(inside(each, first, last) for each in group) for group in parts)
        for first, last in windows(product.applications_period, on, every)
    )


def is_round_left(histories: Sequence[History], product: Product, on: date) -> bool:
    """Tell whether the label leaves a whole round, at the product's rate, on any of some ground.

    Where nobody knows what is down already it may.
    """
    if product.rate is None:
        return True
    for history in histories:
        try:
            check_label(history, product, product.rate, on)
        except LabelLimitExceeded:
            continue
        except (UseUnknown, StrengthUnknown, WeightAgainstVolume):
            pass
        try:
            check_times(history, product, on)
        except (TooSoon, TooManyApplications):
            continue
        return True
    return not histories
