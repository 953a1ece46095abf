"""How often and how soon again the label lets a product go down on a piece of ground."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, timedelta

from jobs.agronomy.history import Entry, History, Line
from jobs.agronomy.label_periods import windows
from jobs.agronomy.labelled_product import Product
from jobs.agronomy.maxima import Period


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
