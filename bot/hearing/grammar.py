"""What a grammar knows for certain: places, invitations, lists of sizes, labels read out."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from typing import Final, Literal

from bot.hearing.clause_readings import Reader
from bot.hearing.concepts import concepts_of
from bot.hearing.forms import sprayer_forms, spreader_forms
from bot.hearing.forms.gap_forms import ran_out_said
from bot.hearing.forms.grass_forms import each_grass
from bot.hearing.forms.manner_forms import edge_said
from bot.hearing.forms.record_fields import FieldsSaid
from bot.hearing.forms.yard_forms import WhereSaid, called
from bot.hearing.heard import ActHeard, Scene, Slots
from bot.hearing.heard_values import Span
from bot.hearing.measuring_asked import is_only_asked
from bot.hearing.names_heard import is_part_of_lot, name_alone, part_of_lot
from bot.hearing.normal import Normal, with_points
from bot.hearing.phrases import phrases
from bot.hearing.readers import label_words, measurements, product_lines, quantities, wish_words
from bot.hearing.readers.places import read_place
from bot.hearing.readers.reading import Unread
from bot.hearing.readers.sizes import Doubt, Item, ZoneRead, ZonesRead, changed, read_zones
from bot.hearing.readers.spoken import with_figures
from bot.hearing.readers.stock_words import read_stock_words
from bot.hearing.readers.whose_place import name_of_place
from bot.hearing.readers.zone_names import find_names
from bot.hearing.slots import fill, is_denied, plain_name
from bot.hearing.stretches import Stretch, stretch
from bot.hearing.words import LANGUAGES, bare, finder
from jobs.agronomy.ingredients import ingredients


def read(reader: Reader) -> ActHeard | None:
    """Return the act of a text that is a place, a code, sizes or a label; None for any other."""
    form, spans = reader.normal, reader.spans
    kinds = [span.kind for span in spans]
    said = form.traced.said.strip()
    words = len(re.findall(r"[a-z]+", _unvalued(form, spans)))
    is_question = "?" in said
    is_lone = kinds in (["zip"], ["town"]) and words <= 2
    # A number of five digits may be a licence's.
    is_place = "place" in kinds or (is_lone and "licence" not in concepts_of(form.text))
    if is_place and not is_question:
        return _of("give_place", reader)
    if "code" in kinds and words <= 12 and not is_question:
        return _of("join", reader)
    is_size = reader.whole().act == "measure" or _are_areas(spans)
    sizes = sizes_asked_for(reader) if is_size else None
    if sizes is not None:
        return sizes
    is_list = bool({"size", "area"} & set(kinds)) and "zone" in kinds
    if (
        is_list
        and not is_only_asked(said)
        and not ({"rate", "amount", "product", "minutes"} & set(kinds))
        and words <= 6
        and not _DEED.search(form.text)
    ):
        return _of("measure", reader)
    is_label = {"rate", "product"} <= set(kinds) and not is_question and words <= 8
    return _of("enter_product", reader) if is_label else None


def sizes_asked_for(reader: Reader) -> ActHeard | None:
    """Return sizes in any words where they are asked for: all that the text gives is read."""
    kinds = {span.kind for span in reader.spans}
    is_open = reader.scene.asked == "measure" and not kinds - _OF_SIZES
    is_open = is_open and (bool(kinds & {*_SIZES, "length"}) or _are_areas(reader.spans))
    if not is_open or is_only_asked(reader.normal.traced.said):
        return None
    found = _of("measure", reader)
    read = found.slots.read
    is_read = isinstance(read, ZonesRead) and not any(isinstance(e, Unread) for e in read.items)
    return found if is_read else None


def _are_areas(spans: Sequence[Span]) -> bool:
    """Tell whether zones and bare numbers are all there is, none as small as a reading's."""
    numbers = [str(span.value) for span in spans if span.kind == "number"]
    is_list = {span.kind for span in spans} == {"zone", "number"}
    return is_list and all(len(number.split(".")[0]) > _FIGURES_OF_READING for number in numbers)


#: Figures of a soil temperature, a rate or a wind.
_FIGURES_OF_READING: Final = 2
#: What a text of sizes alone holds.
_OF_SIZES: Final = frozenset({"size", "area", "length", "number", "zone", "part", "all", "rest"})


#: Who reads what is told of a machine, whichever it is.
_MACHINES: Final = (sprayer_forms, spreader_forms)
_FIGURE: Final = re.compile(r"\d*\.?\d+")
#: What was done, missed or tried on some square feet is no size of a zone.
_DEED: Final = re.compile(
    r"\b(?:miss(?:ed)?|gaps?|skip(?:ped|s)?|spots?|spot[\s-]?(?:treat|spray)\w*|test(?:ed)?|trial|weigh(?:ed)?"
    r"|ran|left|did|done|treated|sprayed|spread|applied|covered|untreated|nothing|patch(?:es)?)\b"
)


#: So many square feet in a report of a gap are the gap, but with these words.
_COVERED: Final = re.compile(r"\b(?:only|just|covered|got|after|did)\b(?!\s+nothing)")


def filled(act: str, clause: Stretch, scene: Scene) -> Slots:
    """Return the slots of an act in a clause, with what the act's own reader made of it."""
    slots = fill(act, clause, scene)
    if act == "measure":
        return _measured(slots, clause, scene)
    if act == "enter_product":
        # A bare figure says nothing of water on a label; what it is, is asked.
        bare = [str(span.value) for span in clause.of("depth", "number")]
        alone = float(bare[0]) if len(bare) == 1 and _FIGURE.fullmatch(bare[0]) else None
        return replace(slots, read=_label(clause), depth_m=None, number=alone)
    if act == "report_gap":
        is_done = _COVERED.search(clause.text) is not None
        parts = tuple(
            replace(each, is_left=each.is_left or (each.area_m2 is not None and not is_done))
            for each in slots.parts
        )
        return replace(slots, parts=parts, read=ran_out_said(clause.text))
    if act in ("give_place", "add_yard"):
        place = _place(clause)
        if isinstance(place, Unread):
            return replace(slots, unread=place)
        name = name_of_place(clause.said) or name_of_place(clause.normal.traced.said)
        return replace(slots, read=place, name=slots.name or name)
    if act == "set_quiet" and slots.read is None:
        return replace(slots, read=edge_said(clause.said))
    if act == "set_grass" and slots.read is None:
        each = each_grass(clause, scene)
        return slots if each is None else replace(slots, read=each, zones=(), grass=None)
    if act == "set_spreader" and slots.read is None:
        read = (each.read_set(clause.text, scene, is_sure=True) for each in _MACHINES)
        return next((replace(slots, read=each.read) for each in read if each), slots)
    if act == "set_stock" and slots.read is None:
        return replace(slots, read=read_stock_words(clause.said, slots.amount))
    if act == "join":
        code = next((span.value for span in clause.of("code")), None)
        return replace(slots, read=code)
    if act == "change_record" and slots.amount is None and slots.read is None:
        # "It was windy, like 12 mph" is a field of the record.
        speeds = clause.of("speed")
        fields = (("wind", str(speeds[0].value)),) if len(speeds) == 1 else ()
        return replace(slots, read=FieldsSaid(None, False, fields)) if fields else slots
    if act == "name_yard" and slots.name is None:
        return replace(slots, name=called(clause.said))
    if act == "report_soil":
        unit: Literal["F", "C"] = "F" if scene.units == "us" else "C"
        found = measurements.read_temperature_reading(clause.text, unit)
        if isinstance(found, measurements.TemperatureRead):
            slots = replace(slots, soil_c=found.temperature_c)
        return replace(slots, read=found)
    if act == "set_days":
        return replace(slots, read=wish_words.read_free_hours(_english(clause)))
    return slots


def _of(act: str, reader: Reader) -> ActHeard:
    clause = stretch(reader.normal, reader.spans)
    return ActHeard(act, filled(act, clause, reader.scene), clause.said, "grammar", 1.0)


def _unvalued(form: Normal, spans: Sequence[Span]) -> str:
    text = list(form.text)
    for span in spans:
        text[span.start : span.end] = " " * (span.end - span.start)
    return "".join(text)


def _measured(slots: Slots, clause: Stretch, scene: Scene) -> Slots:
    """Return the sizes of zones: as written where that reads, else name by name."""
    unit = scene.length_unit
    language = clause.normal.language
    # The sizes' own grammar knows the number words of English.
    said = with_points(clause.said, language)
    said = said if language == "en" else with_figures(said, language)
    found = read_zones(said, unit, scene.pace_m)
    by_name = _pairs(clause, scene)
    paired = read_zones(by_name, unit, scene.pace_m)
    names = {zone.casefold() for zone in (*scene.zones, *slots.zones)}
    # "No wait the strip is 6 by 55" is about the strip: its own name, where each size has one.
    are_kept = all((zone.name or "").casefold() in names for zone in paired.zones)
    is_strange = any(
        _is_sentence(zone.name, names, are_others_kept=are_kept) for zone in found.zones
    )
    # Name by name only where no figure is lost or lent to another zone: a dash, a third side, a
    # piece taken off are the sizes' own grammar.
    is_whole = _figures(by_name) == _figures(clause.text)
    # What its shape or its units have against a size, its name does not mend.
    is_unread = any(
        isinstance(each, Unread) and _OF_WORDS.fullmatch(each.reason) for each in found.questions
    )
    if (is_whole and is_unread and len(paired.zones) > len(found.items) - 1) or (
        is_whole and is_strange and _areas(paired) == _areas(found)
    ):
        found = paired
    one = found.items[0] if len(found.items) == 1 and not scene.zones else None
    if isinstance(one, Doubt) and one.reason == "reading.total":
        # "5000 sq ft total" of ground that has no parts is that ground.
        found = ZonesRead((one.zone,))
    found = _named_plainly(
        ZonesRead(tuple(_as_kept(item, scene.zones) for item in found.items)), scene.zones
    )
    named = [zone.name for zone in found.zones if zone.name]
    kept = slots.zones or tuple(
        next((zone for zone in scene.zones if zone.casefold() == name.casefold()), name)
        for name in named
    )
    area = found.zones[0].area_m2 if len(found.zones) == 1 else slots.area_m2
    others = phrases("place", "another")
    is_others = slots.yard is None and others.at_start(clause.text) is not None
    is_theirs = is_others and not any(others.at_start(bare(zone)) for zone in scene.zones)
    of = "another" if is_theirs and scene.zones else slots.of
    return replace(slots, zones=kept, area_m2=area, read=found, of=of)


_OF_WORDS: Final = re.compile(r"reading\.(?:unclear|wordy|no_size|names_share_size|number)")


def _as_kept(item: Item, kept: Sequence[str]) -> Item:
    """Return a size with the name its zone is kept by: "front yard" is the front."""
    if isinstance(item, Unread):
        return item
    if isinstance(item, Doubt) and item.reason == "reading.hard_surface":
        on, _, _ = find_names(kept, item.on or "")
        return replace(item, on=on[0] if len(on) == 1 else _kept_name(item.on or "", kept) or None)
    return changed(item, name=_kept_name(_name_of(item), kept) or None)


def _kept_name(name: str, kept: Sequence[str]) -> str:
    if any(each.casefold() == name.casefold() for each in kept):
        return name
    said = _without_is(name_alone(name))
    part = _part(name) or _part(said)
    same = [each for each in kept if part and _part(each) == part]
    is_alone = bool(part) or name[:1].islower()
    return same[0] if len(same) == 1 else said if is_alone else name


def _named_plainly(read: ZonesRead, kept: Sequence[str]) -> ZonesRead:
    """Return sizes whose names are told without how big the zone is: "a small front".

    Where two parts differ in just that, such as a big and a small side, it is their name.
    """
    said = [(zone.name or "").casefold() for zone in read.zones]
    plain = [_without_how_big(name) for name in said]
    known = {name.casefold() for name in kept}
    alone = {
        name: short
        for name, short in zip(said, plain, strict=True)
        if name not in known and plain.count(short) == 1 and finder("zones").fullmatch(bare(short))
    }
    items = (
        item
        if isinstance(item, Unread)
        else changed(item, name=alone.get(_name_of(item).casefold(), _name_of(item)) or None)
        for item in read.items
    )
    return ZonesRead(tuple(items))


def _name_of(item: ZoneRead | Doubt) -> str:
    return (item.zone.name if isinstance(item, Doubt) else item.name) or ""


def _without_how_big(name: str) -> str:
    said = phrases("sizes", "how_big").at_start(name)
    return name if said is None else _without_how_big(said.after.lstrip())


def _without_is(name: str) -> str:
    """Return "front" of "front's 40 by 30"; what is somebody's stays so: "Smith's"."""
    alone = name.removesuffix("'s")
    return alone if finder("zones").fullmatch(bare(alone)) else name


def _part(name: str) -> str:
    """Return the part of a lot that a name is in our words; empty where it is none."""
    for language in LANGUAGES:
        part = part_of_lot(name, language)
        if is_part_of_lot(part):
            return part
    return ""


_SIZES: Final = ("size", "area")
#: Words of a zone's name; more are a sentence around it.
_LONGEST_NAME: Final = 3
#: Words that join those of a name: "la franja de la banqueta".
_LITTLE: Final = frozenset({"el", "la", "los", "las", "de", "del"})


def _is_sentence(name: str | None, known: set[str], *, are_others_kept: bool) -> bool:
    """Tell whether what was taken for a name is a piece of a sentence."""
    said = (name or "").casefold()
    is_about = are_others_kept and _ABOUT.search(said) is not None
    count = sum(word not in _LITTLE for word in said.split())
    return said not in known and (is_about or count > _LONGEST_NAME)


#: "wait the strip": something is said before the name.
_ABOUT: Final = re.compile(r"\w\s+(?:the|my|our)\s+\w+$|^(?:no\s+)?wait\b")


def _areas(read: ZonesRead) -> list[float]:
    return [round(zone.area_m2, 6) for zone in read.zones]


def _figures(text: str) -> list[str]:
    return sorted(re.findall(r"-?\d[\d.]*", text))


def _pairs(clause: Stretch, scene: Scene) -> str:
    """Return "front 60 x 40, back 50 x 30 ft" of the names and sizes in a clause.

    Empty where a size has no name of its own: it may belong to the one before, or be taken off it.
    """
    pieces: list[str] = []
    name = ""
    for span in clause.spans:
        if span.kind == "zone":
            name = span.names[0] if span.names else plain_name(clause, span, scene)
        elif span.kind in _SIZES:
            if not name:
                return ""
            pieces.append(f"{name} {span.value}")
            name = ""
    return ", ".join(pieces)


def _label(clause: Stretch) -> object:
    """Return a product as read from a label; its rate alone where only that was said."""
    names = [name for each in ingredients().values() for name in each.names]
    text = _english(clause)
    read_all = product_lines.read_product(text, names)
    if read_all.ingredients or read_all.rate is not None:
        return read_all
    rates = clause.of("rate")
    return (
        quantities.read_rate(str(rates[0].value)) if rates else label_words.read_label_facts(text)
    )


def _place(clause: Stretch) -> object:
    """Return latitude and longitude, a ZIP code, or a town as it was written."""
    for span in clause.of("place"):
        text = re.sub(r"\b(?:menos|minus|negative)\s+", "-", str(span.value))
        found = read_place(text)
        if found is not None:
            return found
    for span in clause.of("zip", "town"):
        return clause.normal.traced.original(span.start, span.end)
    return WhereSaid(clause.said) if clause.said else None


def _english(clause: Stretch) -> str:
    """Return a clause in the words that the grammars know: our units and names of days."""
    pieces: list[str] = []
    at = clause.start
    for span in clause.spans:
        pieces.append(clause.normal.text[at : span.start])
        day = getattr(span.value, "day", None)
        if span.kind == "day" and day:
            pieces.append(str(day))
        elif span.kind == "product":
            pieces.append("" if is_denied(clause, span) else str(span.value))
        else:
            pieces.append(clause.normal.text[span.start : span.end])
        at = span.end
    pieces.append(clause.normal.text[at : clause.end])
    return "".join(pieces)
