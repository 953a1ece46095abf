"""Zones in short: taken out (``remove strip``), or measured in units that nobody knows."""

from __future__ import annotations

from functools import partial
from typing import Final

from bot.hearing import words
from bot.hearing.forms.form import Form
from bot.hearing.forms.where_when import FEW_WORDS
from bot.hearing.forms.yard_forms import find_yards
from bot.hearing.heard import Scene, Slots
from bot.hearing.measuring_asked import is_about_units
from bot.hearing.names_heard import Names
from bot.hearing.normal import language_of
from bot.hearing.phrases import phrases
from bot.hearing.readers.reading import Unread
from bot.hearing.readers.zone_names import but_of, find_names
from bot.hearing.taken_out import taken_out

_says: Final = partial(phrases, "zone")
#: Figures of the least area that is said without its unit.
_FEWEST_FIGURES: Final = 3
#: A longer text asks another thing in some unit.
_MOST_WORDS: Final = 10


def read_removal(text: str, scene: Scene) -> Slots | None:
    """Read which zones to take out; None for other texts."""
    said = text.strip(" .!")
    zone = _says("remove_zone").whole(said)
    within = _says("remove_within").whole(said)
    found = zone or within or _says("remove").whole(said)
    is_within = within is not None and not find_names(scene.zones, within["what"])[0]
    if found is None or is_within or not scene.zones:
        return None
    # "Take out the front, the city does it": what is said behind a zone says why.
    head, _, why = found["what"].partition(",")
    is_reason = find_names(scene.zones, head)[0] and not find_names(scene.zones, why)[0]
    what = head if is_reason else found["what"]
    named, is_all, rest = find_names(scene.zones, what)
    says_yard = _says("no_zone").first(what) or find_yards(scene.yards, what)
    is_yard = not named and zone is None and says_yard
    is_more = len(rest.split()) > FEW_WORDS or (is_all and rest)
    if is_yard or is_more or _says("no_zone").first(rest):
        return None
    bare = words.bare(said)
    names = Names(scene.zones).find(bare, language_of(bare, scene.language))
    if not is_all and but_of(bare) is None and names:
        zones, strangers = taken_out(bare, [each for each in names if each[0] == "zone"])
        return Slots(zones=zones, strangers=strangers)
    strangers = (rest,) if rest and not named else ()
    return Slots(zones=named, all_zones=is_all and not named, strangers=strangers)


def read_sure_removal(text: str, scene: Scene) -> Slots | None:
    """Read a removal that names a zone there is, or all zones by that word."""
    found = read_removal(text, scene)
    is_all = _says("zones").first(text) is not None
    return found if found is not None and (found.zones or is_all) else None


def read_unknown_unit(text: str, scene: Scene) -> Slots | None:
    """Read ``front 4 rods by 3 rods`` as a size in a unit that has to be asked back."""
    said = text.strip(" .!")
    found = _says("unknown").first(said)
    if found is None or "?" in text:
        return None
    is_two = _says("by").at_start(found.after.replace("*", "x")) is not None
    name = _says("sized").without(found.before).strip(" :=")
    is_zone = name.casefold() in {zone.casefold() for zone in scene.zones}
    if not is_two and not is_zone:
        return None
    unread = Unread(said, "reading.unknown_unit", "front 60 x 40 ft", (("unit", found["unit"]),))
    return Slots(unread=unread)


def read_bare_area(text: str, scene: Scene) -> Slots | None:
    """Read ``2770`` where sizes are asked: an area, of which the unit is asked back."""
    pending, said = scene.pending, text.strip(" .!")
    found = _says("bare_area").whole(said)
    if found is None or pending is None or "size" not in pending.expects or scene.zones:
        return None
    if sum(letter.isdigit() for letter in found["n"]) < _FEWEST_FIGURES:
        return None
    unit = "m²" if scene.units == "metric" else "sq ft"
    return Slots(unread=Unread(said, "reading.area_unit", f"{found['n']} {unit}"))


def read_units_asked(text: str, _scene: Scene) -> Slots | None:
    """Read ``metric or feet?``; None for other texts."""
    is_short = len(text.split()) <= _MOST_WORDS
    return Slots(about="units") if is_short and is_about_units(text) else None


FORMS: Final = (
    Form("help", read_units_asked),
    Form("measure", read_bare_area, is_sure=True),
    Form("remove_zone", read_sure_removal, is_sure=True),
    Form("remove_zone", read_removal),
    Form("measure", read_unknown_unit, is_sure=True),
)
