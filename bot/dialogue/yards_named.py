"""Yards by the names that were said of them."""

from __future__ import annotations

from collections.abc import Sequence

from bot.hearing.forms.yard_forms import find_yards
from bot.hearing.readers.yard_names import base_of
from storage.yards import YardRecord


def find(mine: Sequence[YardRecord], name: str) -> list[YardRecord]:
    """Return the yards a name means: by the whole name, a number, or the beginning of a word."""
    places = find_yards([each.name for each in mine], name)
    return [mine[place] for place in places]


def named_like(mine: Sequence[YardRecord], name: str) -> list[YardRecord]:
    """Return the yards that a name may mean: that of its own, and others called so and more."""
    exact = [yard for yard in mine if yard.name == name]
    alike = [yard for yard in mine if yard.name != name and base_of(yard.name) == name]
    return exact + alike or find(mine, name)
