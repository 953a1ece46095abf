"""Names as they are shown: the first few of many, and a yard's on a button."""

from __future__ import annotations

from typing import Final

from bot.saying.catalogue import say
from bot.saying.values import Names

#: Yards named in one line; the rest is counted.
_NAMED: Final = 6


def first_named(names: list[str]) -> object:
    """Return the first few of many names, and how many more there are."""
    if len(names) <= _NAMED:
        return Names(names)
    more = len(names) - _NAMED
    return say("letters.digest_more", names=Names(names[:_NAMED]), count=more)


def short(name: str) -> str:
    """Return a yard's name cut to what a button shows."""
    return name if len(name) <= 20 else f"{name[:19]}…"


def capital(text: str) -> str:
    """Return words that begin with a capital letter, as a sentence or a button does."""
    return text[:1].upper() + text[1:]
