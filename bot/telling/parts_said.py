"""Parts of zones that were named: from what was heard to what the use case takes."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from bot.dialogue import sizes_waiting
from bot.dialogue.named_here import names_of
from bot.dialogue.talk import Talk
from bot.hearing.heard import Slots
from bot.hearing.readers.zone_parts import PartSaid
from bot.saying.values import Names
from bot.turn import Reply
from jobs.uses.parts import Part
from storage.yards import YardRecord, ZoneRecord

#: Parts of a whole by the words of the slot.
SHARES: Final = {"half": 0.5, "1/2": 0.5, "1/3": 1 / 3, "2/3": 2 / 3, "1/4": 0.25, "3/4": 0.75}


def parts_said(
    talk: Talk, yard: YardRecord, zones: Sequence[ZoneRecord], slots: Slots
) -> dict[int, Part] | Reply:
    """Return the part of each zone that got it, by zone id; or what to ask.

    Parameters
    ----------
    zones
        The zones that the report is about: named, or still to do.
    """
    found: dict[int, Part] = {}
    # Where no zone is treated a part is of none: that is said when the report is kept.
    for said in slots.parts if zones else ():
        zone = zone_of(zones, said)
        if zone is None:
            return which_part(talk, yard, zones)
        if said.is_open or zone.id in found:
            return talk.reply("applying.part_how_much", zone=zone.name)
        found[zone.id] = _part(zone, said)
    return found


def which_part(talk: Talk, yard: YardRecord, zones: Sequence[ZoneRecord]) -> Reply:
    """Ask of which zone a part is."""
    names = names_of(zones)
    return talk.reply("applying.part_which", names=names, name=zones[0].name, yard=yard.name)


def zone_of(zones: Sequence[ZoneRecord], said: PartSaid) -> ZoneRecord | None:
    """Return the zone that a part is of; None where it may be any of several."""
    if said.zone is None:
        return zones[0] if len(zones) == 1 else None
    return next((zone for zone in zones if zone.name == said.zone), None)


def share_got(zone: ZoneRecord, said: PartSaid) -> float | None:
    """Return the share of a zone that got it (0-1), where that was said."""
    share = said.share
    if said.area_m2 is not None:
        share = said.area_m2 / zone.treated_m2
    if share is None:
        return None
    return 1 - share if said.is_left else share


def _part(zone: ZoneRecord, said: PartSaid) -> Part:
    if said.is_left:
        return Part(area_m2=(share_got(zone, said) or 0.0) * zone.treated_m2)
    return Part(said.share, said.area_m2, said.is_rest)


def no_such(talk: Talk, yard: YardRecord, said: Sequence[str]) -> Reply:
    """Ask which zone is meant by words for ground that none of them has, or several have."""
    names = Names(list(sizes_waiting.areas(talk, yard)))
    return talk.reply(
        "zones.stranger", said=", ".join(said), yard=yard.name, names=names, new=said[0]
    )
