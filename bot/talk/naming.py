"""Finding zones by the names people give them."""

from __future__ import annotations

import re
from collections.abc import Sequence

from storage.yards import ZoneRecord

_EVERYTHING = re.compile(
    r"\b(all(\s+(the\s+)?(zones?|of\s+it))?|everything|everywhere|whole\s+(yard|lawn)|the\s+lot)\b",
    re.IGNORECASE,
)
_JOINTS = re.compile(
    r"\b(and|on|to|the|in|at|for|of|it|zones?|also|plus|both|was|is)\b|[,;&+.:]", re.IGNORECASE
)


def find_zones(zones: Sequence[ZoneRecord], text: str) -> tuple[list[ZoneRecord], str]:
    """Return the zones a text names, in their order, and what of the text is left over.

    A whole name counts; so does a word that only one zone's name holds.
    """
    rest = f" {text} "
    found: set[int] = set()
    if _EVERYTHING.search(rest):
        # Everything is all that is ever treated; a zone left alone has to be named.
        found = {zone.id for zone in zones if zone.part != "never"}
        rest = _EVERYTHING.sub(" ", rest)
    for zone in sorted(zones, key=lambda each: -len(each.name)):
        pattern = re.compile(rf"(?<!\w){re.escape(zone.name)}(?!\w)", re.IGNORECASE)
        if pattern.search(rest):
            found.add(zone.id)
            rest = pattern.sub(" ", rest)
    for word, owners in _lone_words(zones).items():
        pattern = re.compile(rf"(?<!\w){re.escape(word)}(?!\w)", re.IGNORECASE)
        if len(owners) == 1 and pattern.search(rest):
            found |= owners
            rest = pattern.sub(" ", rest)
    rest = " ".join(_JOINTS.sub(" ", rest).split())
    return [zone for zone in zones if zone.id in found], rest


def says_everything(text: str) -> bool:
    """Tell whether a text means all zones by one word, rather than each by its name."""
    return _EVERYTHING.search(text) is not None


def names_of(zones: Sequence[ZoneRecord]) -> str:
    """Return zones' names in one phrase."""
    return ", ".join(zone.name for zone in zones)


def _lone_words(zones: Sequence[ZoneRecord]) -> dict[str, set[int]]:
    owners: dict[str, set[int]] = {}
    for zone in zones:
        for word in zone.name.casefold().split():
            if len(word) > 2 and not word.isdigit():
                owners.setdefault(word, set()).add(zone.id)
    return owners
