"""What the label still allows on a zone, all products counted over the label's own period.

A maximum of active ingredient counts every product that carries it: feed with herbicide, spray,
what a service put down. A maximum of product also counts other products with the same ingredient,
as the amount of this product that would carry as much. All of it is shown as data.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Literal

from jobs.agronomy.amounts import ROUNDING, LabelLimitExceeded, counted_si
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
class Entry:
    """One application on one zone. No rate: known to have happened, not how much."""

    zone: str
    day: date
    product: Product
    rate: Rate | None


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
    entries: Iterable[Entry],
    zone: str,
    product: Product,
    on: date,
    *,
    species: str | None = None,
) -> tuple[Allowance, ...]:
    """Return what each maximum still allows of a product on a zone and day.

    Parameters
    ----------
    entries
        All applications known, of any zone and product, in any order; later ones count too where
        their period takes in the day (news may come late).
    zone, product, on
        Where, what and when.
    species
        The zone's turf; None when not known: then the least remembered maximum governs.
    """
    here = sorted((entry for entry in entries if entry.zone == zone), key=lambda e: e.day)
    found = [_allowance(here, product, maximum, on, "label", "label") for maximum in product.maxima]
    for maximum, source in _remembered(product, species):
        found.append(_allowance(here, product, maximum, on, "reference", source))
    return tuple(found)


def check_application(
    entries: Iterable[Entry],
    zone: str,
    product: Product,
    rate: Rate,
    on: date,
    *,
    species: str | None = None,
) -> tuple[Allowance, ...]:
    """Return the allowances before an application, or stop it.

    Raises
    ------
    LabelLimitExceeded
        If the rate and what counts already exceed a maximum.
    TooSoon
        If the label's smallest interval has not passed.
    TooManyApplications
        If the label's number of applications is used up.
    UseUnknown
        If an earlier application counts whose amount is not known.
    WeightAgainstVolume, StrengthUnknown
        If something cannot be compared.
    """
    known = tuple(entries)
    found = allowances(known, zone, product, on, species=species)
    for item in found:
        try:
            asked = from_si(counted_si(rate, product, item.maximum), item.unit)
        except StrengthUnknown:
            if item.basis == "reference":
                continue  # a remembered figure cannot be held against an unknown strength
            raise
        if item.unknown:
            raise UseUnknown(item.unknown)
        if asked + item.used > item.limit * (1 + ROUNDING):
            raise LabelLimitExceeded(
                asked, item.limit, item.unit, item.period, item.of, used=item.used
            )
    check_times(known, zone, product, on)
    return found


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


def _allowance(
    here: list[Entry],
    product: Product,
    maximum: LabelMaximum,
    on: date,
    basis: Literal["label", "reference"],
    source: str,
) -> Allowance:
    unit = maximum.rate.unit
    counting = [
        Counted(entry, None if counts is None else from_si(counts, unit))
        for entry in here
        if (counts := _counts(entry, product, maximum)) != 0.0
    ]
    spans = windows(maximum.period, on, (item.entry.day for item in counting))
    # The span that holds most; one with an amount not known before any other.
    best: tuple[tuple[bool, float], tuple[date, date], tuple[Counted, ...]] | None = None
    for first, last in spans:
        inside = tuple(item for item in counting if first <= item.entry.day <= last)
        weight = (
            any(item.counts is None for item in inside),
            sum(item.counts or 0.0 for item in inside),
        )
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
        inside,
        maximum,
        source,
    )


def _counts(entry: Entry, product: Product, maximum: LabelMaximum) -> float | None:
    """Return what an earlier application counts [kg/ha or L/ha]; 0 nothing, None not known."""
    counted_names = (
        {maximum.ingredient} if maximum.ingredient is not None else set(product.ingredient_names)
    )
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
        row = table[name].yearly_maximum(species) if name in table else None
        if row is not None:
            found.append((_as_maximum(row, name), row.source))
    return found


def _as_maximum(row: YearlyMaximum, name: str | None) -> LabelMaximum:
    rate = Rate(from_si(row.max_kg_ha, "lb/acre"), "lb/acre")
    return LabelMaximum(rate, "ai", "calendar_year", name)


def check_times(entries: Iterable[Entry], zone: str, product: Product, on: date) -> None:
    """Pass a day by the label's number of applications and its smallest interval, or stop it.

    Raises
    ------
    TooSoon, TooManyApplications
        If it comes too soon after another, or there are none left.
    """
    names = set(product.ingredient_names)
    days = sorted(
        {
            entry.day
            for entry in entries
            if entry.zone == zone
            and (entry.product == product or names & set(entry.product.ingredient_names))
        }
    )
    if product.smallest_interval_days is not None:
        gap = timedelta(days=product.smallest_interval_days)
        near: date | None = None
        allowed_from = on
        for day in days:
            # More of the same day is no second application, but the next one waits for it too.
            is_counted = day != on or near is not None
            if is_counted and allowed_from - gap < day < allowed_from + gap:
                near, allowed_from = day, day + gap
        if near is not None:
            raise TooSoon(near, allowed_from)
    if product.max_applications is not None:
        most = max(
            sum(first <= day <= last and day != on for day in days)
            for first, last in windows(product.applications_period, on, days)
        )
        if most >= product.max_applications:
            raise TooManyApplications(most, product.max_applications, product.applications_period)
