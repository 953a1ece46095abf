"""Yards that a text names whole, and the text without them."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from functools import cache

#: What leads to a name, or from one to the next.
_LEADS = r"(?:\s*(?:[,;&]|\b(?:and|for|at|on|in|to|y|e|para|en|de)\b)\s*)*"


def base_of(name: str) -> str:
    """Return a name without what tells it apart: ``Walnut 66`` of ``Walnut 66 (Cobb)``."""
    return name.partition(" (")[0] if name.endswith(")") else name


def every_name(yards: Iterable[str]) -> set[str]:
    """Return names by which yards are called: their own, and what several of them share."""
    return {name for each in yards for name in (each, base_of(each))}


def spelled(name: str) -> str:
    """Return the pattern of a name: the brackets that tell it apart need not be written."""
    inside = re.escape(name).replace(r"\(", r"\(?").replace(r"\)", r"\)?")
    return inside.replace(r"\ ", r"[\s-]*").replace("'", "'?")


def taken_out(text: str, names: Sequence[str]) -> tuple[tuple[str, ...], str]:
    """Return the names that stand in a text whole, in their order, and the text without them."""
    found: list[tuple[int, str]] = []
    rest = text
    for name in sorted(names, key=len, reverse=True):
        match = _finder(name).search(rest)
        if match is not None:
            found.append((match.start("name"), name))
            rest = f"{rest[: match.start()]}{' ' * len(match.group())}{rest[match.end() :]}"
    return tuple(name for _, name in sorted(found)), " ".join(rest.split())


@cache
def _finder(name: str) -> re.Pattern[str]:
    return re.compile(rf"{_LEADS}(?<!\w)(?P<name>{spelled(name)})(?:'?s)?(?!\w)", re.IGNORECASE)
