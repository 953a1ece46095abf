"""Zones and yards by the names that were heard, and the names of zones in one phrase."""

from __future__ import annotations

from collections.abc import Sequence

from bot.dialogue.talk import Talk
from bot.hearing.forms.yard_forms import find_yards
from bot.hearing.heard import Slots
from bot.hearing.readers.yard_names import base_of
from bot.saying.catalogue import shown
from bot.saying.values import Area, Names
from jobs.uses import zones as uses
from storage.yards import YardRecord, ZoneRecord


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


def free_zone_name(talk: Talk, yard: YardRecord, taken: Sequence[str] = ()) -> str:
    """Return a name for a zone nobody named, in the language spoken: ``zone 1``."""
    return uses.free_name(
        talk.work, yard, taken, lambda number: talk.say("zones.default_name", number=number)
    )


def find_yard(mine: Sequence[YardRecord], name: str) -> list[YardRecord]:
    """Return the yards a name means: by the whole name, a number, or the beginning of a word."""
    places = find_yards([each.name for each in mine], name)
    return [mine[place] for place in places]


def named_like(mine: Sequence[YardRecord], name: str) -> list[YardRecord]:
    """Return the yards that a name may mean: that of its own, and others called so and more."""
    exact = [yard for yard in mine if yard.name == name]
    alike = [yard for yard in mine if yard.name != name and base_of(yard.name) == name]
    return exact + alike or find_yard(mine, name)
