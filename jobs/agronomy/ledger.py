"""What the label still allows on a piece of ground, all products counted over the label's period.

A maximum of active ingredient counts every product that carries it: feed with herbicide, spray,
what a service put down. A maximum of product also counts other products with the same ingredient,
as the amount of this product that would carry as much. All of it is shown as data.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date

from jobs.agronomy.allowance import Allowance, worst
from jobs.agronomy.amounts import ROUNDING, LabelLimitExceeded, counted_si
from jobs.agronomy.history import Entry, History
from jobs.agronomy.ingredient_facts import YearlyMaximum
from jobs.agronomy.ingredients import combinations, ingredients
from jobs.agronomy.label_times import TooManyApplications, TooSoon, check_times
from jobs.agronomy.labelled_product import Product
from jobs.agronomy.maxima import LabelMaximum
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
        found += (worst(history, product, maximum, on, "reference", source),)
    return found


def label_allowances(history: History, product: Product, on: date) -> tuple[Allowance, ...]:
    """Return what each maximum of the label itself still allows."""
    return tuple(
        worst(history, product, maximum, on, "label", "label") for maximum in product.maxima
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
