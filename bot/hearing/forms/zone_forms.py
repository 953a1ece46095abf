"""Zones in short: taken out (``remove strip``), or measured in units that nobody knows."""

from __future__ import annotations

import re
from typing import Final

from bot.hearing.forms.form import Form
from bot.hearing.forms.where_when import FEW_WORDS
from bot.hearing.forms.yard_forms import find_yards
from bot.hearing.heard import Scene, Slots
from bot.hearing.readers.lexing import NUMBER
from bot.hearing.readers.reading import Unread
from bot.hearing.readers.zone_names import find_names

_REMOVE: Final = re.compile(
    r"^(?:remove|delete|take out|drop)\s+(?P<zone>zone\s+)?(?P<what>.+)$", re.IGNORECASE
)
_ZONES: Final = re.compile(r"\b(?:zones?|everything)\b", re.IGNORECASE)
#: What is no zone: a whole yard, or everything that is kept.
_YARD: Final = re.compile(
    r"\b(?:yard|lawn|place|house|account|data|records?|me|last|that|this)\b", re.IGNORECASE
)
#: Units that nobody measures lawns in here, and what is no unit of length at all.
_UNKNOWN: Final = re.compile(
    rf"(?<![\w.]){NUMBER}\s*(?P<unit>rods?|chains?|perch(?:es)?|poles?|links?|furlongs?|fathoms?"
    r"|cubits?|mm|millimet(?:er|re)s?|miles?|km|kilomet(?:er|re)s?|bags?|sacks?|hands?|spans?"
    r"|car\s+lengths?)\b",
    re.IGNORECASE,
)
#: Three figures or more: smaller ones are numbers of zones, or sides.
_BARE_AREA: Final = re.compile(
    r"(?:(?:it'?s|its|about|around|maybe|like|roughly|son|unos|como)\s+)*(?P<number>\d[\d,]{2,8})",
    re.IGNORECASE,
)
_BY: Final = re.compile(r"\s*(?:x|\*|by|times)\s*[\d.]", re.IGNORECASE)
_SIZED: Final = re.compile(r"\b(?:the|my|is|are|about|measures|was)\b|[:=]", re.IGNORECASE)


def read_removal(text: str, scene: Scene) -> Slots | None:
    """Read which zones to take out; None for other texts."""
    match = _REMOVE.match(text.strip(" .!"))
    if match is None or not scene.zones:
        return None
    named, is_all, rest = find_names(scene.zones, match["what"])
    says_yard = _YARD.search(match["what"]) or find_yards(scene.yards, match["what"])
    is_yard = not named and match["zone"] is None and says_yard
    is_more = len(rest.split()) > FEW_WORDS or (is_all and rest)
    if is_yard or is_more or _YARD.search(rest):
        return None
    return Slots(zones=named, all_zones=is_all and not named, rest=rest)


def read_sure_removal(text: str, scene: Scene) -> Slots | None:
    """Read a removal that names a zone there is, or all zones by that word."""
    found = read_removal(text, scene)
    is_all = _ZONES.search(text) is not None
    return found if found is not None and (found.zones or is_all) else None


def read_unknown_unit(text: str, scene: Scene) -> Slots | None:
    """Read ``front 4 rods by 3 rods`` as a size in a unit that has to be asked back."""
    said = text.strip(" .!")
    match = _UNKNOWN.search(said)
    if match is None or "?" in text:
        return None
    is_two = _BY.match(said[match.end() :]) is not None
    name = _SIZED.sub("", said[: match.start()]).strip()
    is_zone = name.casefold() in {zone.casefold() for zone in scene.zones}
    if not is_two and not is_zone:
        return None
    unread = Unread(said, "reading.unknown_unit", "front 60 x 40 ft", (("unit", match["unit"]),))
    return Slots(unread=unread)


def read_bare_area(text: str, scene: Scene) -> Slots | None:
    """Read ``2770`` where sizes are asked: an area, of which the unit is asked back."""
    pending, said = scene.pending, text.strip(" .!")
    match = _BARE_AREA.fullmatch(said)
    if match is None or pending is None or "size" not in pending.expects or scene.zones:
        return None
    unit = "m²" if scene.units == "metric" else "sq ft"
    return Slots(unread=Unread(said, "reading.area_unit", f"{match['number']} {unit}"))


FORMS: Final = (
    Form("measure", read_bare_area, is_sure=True),
    Form("remove_zone", read_sure_removal, is_sure=True),
    Form("remove_zone", read_removal),
    Form("measure", read_unknown_unit, is_sure=True),
)
