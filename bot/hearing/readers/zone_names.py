"""Zones by the names people give them."""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import lru_cache
from typing import Final

_EVERYTHING: Final = re.compile(
    r"\b(all(\s+(the\s+)?(zones?|of\s+it))?|everything|everywhere|whole\s+(yard|lawn)|the\s+lot)\b",
    re.IGNORECASE,
)
_JOINTS: Final = re.compile(
    r"\b(and|on|to|the|in|at|for|of|it|zones?|yard|lawn|also|plus|both|was|is)\b|[,;&+.:]",
    re.IGNORECASE,
)

#: Words of many names, which stand for none alone: "remove yard" is not about the front yard.
GENERIC: Final = frozenset(
    {"yard", "lawn", "grass", "turf", "area", "zone", "house", "place", "the", "and", "our", "with"}
    | {"zacate", "pasto", "cesped", "césped", "grama", "yarda", "patio", "zona", "parte", "casa"}
)


#: "Everything but the back": what stands behind it, and is none of it.
BUT: Final = re.compile(
    r"\b(?:but(?:\s+not)?|except(?:\s+for)?|other\s+than|apart\s+from|besides|minus|without|menos"
    r"|excepto|salvo|sin)\s+(?P<but>.+)$",
    re.IGNORECASE | re.DOTALL,
)
_EVERYTHING_AT: Final = re.compile(
    rf"{_EVERYTHING.pattern}|\btod[oa]s?(?:\s+l[oa]s?)?\b", re.IGNORECASE
)
_SMALL: Final = re.compile(
    r"[\s,&]*(?:(?:and|or|the|my|our|for|y|el|la|zone)\b\s*)*", re.IGNORECASE
)

#: "The front but not the back": what stands behind it is denied.
_NOT: Final = re.compile(r"[\s,]*\b(?:but\s+)?(?:not|no)\s+(?:yet\s+)?", re.IGNORECASE)


def all_but(names: Sequence[str], text: str) -> tuple[str, ...] | None:
    """Return the zones that ``everything but the back`` means; None for other texts."""
    every = _EVERYTHING_AT.search(text)
    but = None if every is None else BUT.search(text, every.end())
    if but is None:
        return None
    left, _ = _leading(names, but["but"])
    return tuple(name for name in names if name not in left) if left else None


def without_denied(names: Sequence[str], text: str) -> str:
    """Return a text without the zones it denies: ``the front but not the back``."""
    for match in _NOT.finditer(text):
        found, end = _leading(names, text[match.end() :])
        if found:
            return f"{text[: match.start()]} {text[match.end() + end :]}"
    return text


def _leading(names: Sequence[str], text: str) -> tuple[set[str], int]:
    """Return the zones that a text begins with, and where they end."""
    spelled = {word: min(owners) for word, owners in lone_words(names).items() if len(owners) == 1}
    spelled |= {name.casefold(): name for name in names}
    small, found, at, end = text.casefold(), set[str](), 0, 0
    while True:
        before = _SMALL.match(small, at)
        at = before.end() if before is not None else at
        here = [said for said in spelled if re.match(rf"{re.escape(said)}(?!\w)", small[at:])]
        if not here:
            return found, end
        longest = max(here, key=len)
        found.add(spelled[longest])
        at = end = at + len(longest)


def find_names(names: Sequence[str], text: str) -> tuple[tuple[str, ...], bool, str]:
    """Return the zones a text names, in their order, whether it means all, and the words left.

    A whole name counts; so does a word that only one zone's name holds.
    """
    others = all_but(names, text)
    if others is not None:
        left = _JOINTS.sub(" ", BUT.sub(" ", _EVERYTHING_AT.sub(" ", text)))
        return others, False, " ".join(left.split())
    rest = f" {text} "
    found: set[str] = set()
    is_all = _EVERYTHING.search(rest) is not None
    rest = _EVERYTHING.sub(" ", rest)
    for name in sorted(names, key=len, reverse=True):
        pattern = _whole(name)
        if pattern.search(rest):
            found.add(name)
            rest = pattern.sub(" ", rest)
    for word, owners in lone_words(names).items():
        pattern = _whole(word)
        if len(owners) == 1 and pattern.search(rest):
            found |= owners
            rest = pattern.sub(" ", rest)
    rest = " ".join(_JOINTS.sub(" ", rest).split())
    return tuple(name for name in names if name in found), is_all, rest


@lru_cache(maxsize=512)
def _whole(words: str) -> re.Pattern[str]:
    return re.compile(rf"(?<!\w){re.escape(words)}(?!\w)", re.IGNORECASE)


def lone_words(names: Sequence[str]) -> dict[str, set[str]]:
    """Return each word of the zones' names with the names that hold it."""
    owners: dict[str, set[str]] = {}
    for name in names:
        for word in name.casefold().split():
            if len(word) > 2 and not word.isdigit() and word not in GENERIC:
                owners.setdefault(word, set()).add(name)
    return owners
