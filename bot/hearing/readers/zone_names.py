"""Zones by the names people give them."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Final

_EVERYTHING: Final = re.compile(
    r"\b(all(\s+(the\s+)?(zones?|of\s+it))?|everything|everywhere|whole\s+(yard|lawn)|the\s+lot)\b",
    re.IGNORECASE,
)
_JOINTS: Final = re.compile(
    r"\b(and|on|to|the|in|at|for|of|it|zones?|yard|lawn|also|plus|both|was|is)\b|[,;&+.:]",
    re.IGNORECASE,
)


def find_names(names: Sequence[str], text: str) -> tuple[tuple[str, ...], bool, str]:
    """Return the zones a text names, in their order, whether it means all, and the words left.

    A whole name counts; so does a word that only one zone's name holds.
    """
    rest = f" {text} "
    found: set[str] = set()
    is_all = _EVERYTHING.search(rest) is not None
    rest = _EVERYTHING.sub(" ", rest)
    for name in sorted(names, key=len, reverse=True):
        pattern = re.compile(rf"(?<!\w){re.escape(name)}(?!\w)", re.IGNORECASE)
        if pattern.search(rest):
            found.add(name)
            rest = pattern.sub(" ", rest)
    for word, owners in _lone_words(names).items():
        pattern = re.compile(rf"(?<!\w){re.escape(word)}(?!\w)", re.IGNORECASE)
        if len(owners) == 1 and pattern.search(rest):
            found |= owners
            rest = pattern.sub(" ", rest)
    rest = " ".join(_JOINTS.sub(" ", rest).split())
    return tuple(name for name in names if name in found), is_all, rest


def _lone_words(names: Sequence[str]) -> dict[str, set[str]]:
    owners: dict[str, set[str]] = {}
    for name in names:
        for word in name.casefold().split():
            if len(word) > 2 and not word.isdigit():
                owners.setdefault(word, set()).add(name)
    return owners
