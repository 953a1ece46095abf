"""Buying in short: ``buy``, ``buy all for the year``, ``compare``."""

from __future__ import annotations

from dataclasses import dataclass
from functools import partial
from typing import Final

from bot.hearing.forms.form import Form, saying, tidied
from bot.hearing.heard import Scene, Slots
from bot.hearing.phrases import phrases

_says: Final = partial(phrases, "buy")


@dataclass(frozen=True)
class BuySaid:
    """What to buy for: the year rather than an application, all yards, least left over.

    `is_list` for one list over all yards and products of the season.
    """

    is_for_year: bool = False
    is_for_all: bool = False
    is_least_left: bool = False
    is_comparison: bool = False
    is_list: bool = False


def read_compared(text: str, _scene: Scene) -> Slots | None:
    """Read a wish to compare products; None for other texts."""
    is_one = _says("compare").at_start(tidied(text, " ?.!¿¡")) is not None
    return Slots(read=BuySaid(is_comparison=True)) if is_one else None


def read_buy(text: str, _scene: Scene) -> Slots | None:
    """Read a wish to buy; None for other texts."""
    found = _says("buy").whole(tidied(text, " ?.!¿¡"))
    if found is None:
        return None
    names = ("year", "all", "least_left", "compare")
    year, for_all, least, comparison = (_says(name).first(found["rest"]) for name in names)
    said_of = BuySaid(bool(year), bool(for_all), bool(least), bool(comparison))
    return Slots(read=said_of)


FORMS: Final = (
    saying("ask_buy", "buy.season", BuySaid(is_list=True)),
    Form("ask_buy", read_compared),
    Form("ask_buy", read_buy, is_sure=True),
)
