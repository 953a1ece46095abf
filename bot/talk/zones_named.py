"""Zones by the names that were heard, and names as they are shown."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from bot.hearing.heard import Slots
from bot.saying.catalogue import say, shown
from bot.saying.values import Area, Names
from storage.yards import ZoneRecord


def zones_said(zones: Sequence[ZoneRecord], slots: Slots) -> list[ZoneRecord]:
    """Return the zones that were named, in their order; none where none was.

    Everything is all that is ever treated; a zone left alone has to be named.
    """
    named = set(slots.zones)
    return [
        zone for zone in zones if zone.name in named or (slots.all_zones and zone.part != "never")
    ]


def names_of(zones: Sequence[ZoneRecord]) -> Names:
    """Return zones' names in one phrase."""
    return Names([zone.name for zone in zones])


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


def total_of(zones: Sequence[ZoneRecord]) -> str:
    """Return what zones come to in all."""
    return shown(Area(sum(zone.area_m2 for zone in zones)))
