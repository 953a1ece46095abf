"""Zones by the names that were heard, and names as they are shown."""

from __future__ import annotations

from collections.abc import Sequence

from bot.hearing.heard import Slots
from bot.saying.catalogue import shown
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


def total_of(zones: Sequence[ZoneRecord]) -> str:
    """Return what zones come to in all."""
    return shown(Area(sum(zone.area_m2 for zone in zones)))
