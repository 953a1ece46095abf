"""Buying in short: ``buy``, ``buy all for the year``, ``compare``."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Final

from bot.hearing.forms.form import Form
from bot.hearing.heard import Scene, Slots

_BUY: Final = re.compile(
    r"^(?:what\s+(?:do|should|shall)\s+i\s+)?(?:buy|buying|purchase|shopping(?:\s+list)?"
    r"|how\s+many\s+bags(?:\s+do\s+i\s+need)?)\b(?P<rest>.*)$",
    re.IGNORECASE,
)
_COMPARE: Final = re.compile(r"^(?:compare(?:\s+products?)?|which\s+is\s+cheaper)\b", re.IGNORECASE)
_SEASON: Final = re.compile(
    r"(?:/?buy\s+)?(?:the\s+|my\s+)?(?:(?:season(?:'s)?\s+)?shopping\s+list|(?:for\s+)?(?:the\s+)?(?:whole\s+)?season"
    r"|everything)|(?:la\s+)?lista\s+de\s+compras",
    re.IGNORECASE,
)
_ALL: Final = re.compile(r"\ball\b")


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


def read_buy(text: str, _scene: Scene) -> Slots | None:
    """Read a wish to buy or compare; None for other texts."""
    if _COMPARE.match(text.strip()):
        return Slots(read=BuySaid(is_comparison=True))
    if _SEASON.fullmatch(" ".join(text.split()).strip(" ?.!")):
        return Slots(read=BuySaid(is_list=True))
    match = _BUY.match(text.strip().rstrip("?.!"))
    return None if match is None else Slots(read=buy_said(match["rest"]))


def buy_said(rest: str) -> BuySaid:
    """Return what the words behind ``buy`` say."""
    said = rest.casefold()
    return BuySaid(
        is_for_year="year" in said,
        is_for_all=_ALL.search(said) is not None,
        is_least_left="left" in said,
        is_comparison="compare" in said,
    )


FORMS: Final = (Form("ask_buy", read_buy),)
