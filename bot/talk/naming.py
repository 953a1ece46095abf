"""Zones by the names that were heard."""

from __future__ import annotations

import re
from collections.abc import Sequence

from bot.hearing.heard import Slots
from storage.yards import ZoneRecord


def zones_said(zones: Sequence[ZoneRecord], slots: Slots) -> list[ZoneRecord]:
    """Return the zones that were named, in their order; none where none was.

    Everything is all that is ever treated; a zone left alone has to be named.
    """
    named = set(slots.zones)
    return [
        zone for zone in zones if zone.name in named or (slots.all_zones and zone.part != "never")
    ]


def names_of(zones: Sequence[ZoneRecord]) -> str:
    """Return zones' names in one phrase."""
    return ", ".join(zone.name for zone in zones)


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


def _lone_words(zones: Sequence[ZoneRecord]) -> dict[str, set[int]]:
    owners: dict[str, set[int]] = {}
    for zone in zones:
        for word in zone.name.casefold().split():
            if len(word) > 2 and not word.isdigit():
                owners.setdefault(word, set()).add(zone.id)
    return owners
