"""Zones renamed, split and merged: ``rename front to north``, ``merge side and front``."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final, TypeAlias

from bot.hearing.forms.form import Form
from bot.hearing.heard import Scene, Slots
from bot.hearing.readers.sizes import read_zones
from bot.hearing.readers.zone_names import find_names
from bot.hearing.readers.zone_parts import fraction_of

_BEFORE: Final = (
    r"^(?:(?:please|can\s+you|could\s+you|i\s+want\s+to|i'd\s+like\s+to|let'?s|por\s+favor)\s+)*"
)
_SMALL: Final = r"(?:(?:the|my|our|zone|zones|lawn|el|la|los|las|mi|zona)\s+)*"
_TO: Final = r"\s+(?:to|as|into|a|por|como)\s+(?P<name>.+)$"
_CHANGE: Final = r"(?:change|cambia)\s+(?:the|el)\s+(?:name|nombre)\s+(?:of|de|del)"
_IS: Final = r"(?:is|should\s+be|will\s+be|se)\s+(?:now\s+)?(?:called|named|renamed|llama)"
_RENAME: Final = (
    rf"{_BEFORE}(?:rename|renombra)\s+{_SMALL}(?P<zone>.+?){_TO}",
    rf"{_BEFORE}{_CHANGE}\s+{_SMALL}(?P<zone>.+?){_TO}",
    rf"{_BEFORE}change\s+{_SMALL}(?P<zone>.+?)'?s?\s+name{_TO}",
    rf"^{_SMALL}(?P<zone>.+?)\s+{_IS}\s+(?P<name>.+)$",
)
#: "Call front north": the name of the zone ends where the new one begins.
_CALL: Final = re.compile(rf"{_BEFORE}(?:call|name|llama)\s+{_SMALL}(?P<both>.+)$", re.IGNORECASE)
_AFTER_NAME: Final = re.compile(
    r"[\s,]*(?:\b(?:now|instead|from\s+now\s+on|please|ahora|por\s+favor)\b|[.!])+$", re.IGNORECASE
)
_SPLIT: Final = re.compile(
    rf"{_BEFORE}(?:split|divide|cut|break|part|divide|parte)\s+(?:up\s+)?{_SMALL}(?P<zone>.+?)\s+"
    r"(?:up\s+)?(?P<how>(?:in|into|en|as|down)\b.*)$"
    rf"|{_BEFORE}(?:split|divide)\s+{_SMALL}(?P<zone2>[^:]+):\s*(?P<how2>.+)$"
    rf"|^{_SMALL}(?P<zone3>.+?)\s+(?:is|should\s+be|are)\s+(?:now\s+|really\s+)?(?:two|three|2|3)"
    r"\s+(?:zones|parts)\s*[:,]\s*(?P<how3>.+)$",
    re.IGNORECASE,
)
#: "In two halves, left and right": the names of parts of one size.
_NAMED_HALVES: Final = re.compile(
    r"^(?:in|into|en)\s+(?:(?:two|2|dos)\s+)?(?:equal\s+)?(?:halves|mitades|equal\s+parts)\s*[:,]?\s*"
    r"(?:called\s+|named\s+)?(?P<names>\S.*)$"
    r"|^(?:in|into)\s+(?:an?\s+|the\s+)?(?P<first>\S.*)\s+(?:half|halves)$",
    re.IGNORECASE,
)
_HALVES: Final = re.compile(
    r"^(?:in|into|en)\s+(?:(?:two|2|dos)\s+)?(?:equal\s+)?(?:half|halves|mitades|equal\s+parts)$"
    r"|^down\s+the\s+middle$",
    re.IGNORECASE,
)
_NO_SIZES: Final = re.compile(
    r"^(?:in|into|en)\s+(?:two|three|2|3|dos|tres)(?:\s+(?:parts|pieces|zones|partes|zonas))?$",
    re.IGNORECASE,
)
_LEFT_OVER: Final = re.compile(
    r"^(?:(?P<name>.+?)[\s:,]+)?(?:(?:is|gets|for|as)\s+)?(?:the\s+rest|what(?:'s|\s+is)\s+left|el\s+resto)$"
    r"|^(?:the\s+rest|el\s+resto)\s+(?:is|as|called|como)\s+(?P<after>.+)$",
    re.IGNORECASE,
)
_MERGE: Final = re.compile(
    rf"{_BEFORE}(?:(?:merge|combine|join|unite|junta|une|combina)\s+(?P<these>.+)"
    r"|(?:put|make|take)\s+(?P<put>.+?)\s+(?:together|one(?:\s+zone)?|a\s+single\s+zone|as\s+one(?:\s+zone)?)"
    r"(?:[\s,]+(?P<more>(?:into|as|called|named|and\s+call\s+(?:it|them)).+))?"
    r"|(?P<are>.+?)\s+(?:are|is)\s+(?:now\s+)?(?:one(?:\s+zone)?|the\s+same\s+zone)(?:\s+now)?"
    r"(?:[\s,]+(?P<called>(?:called|named).+))?)$",
    re.IGNORECASE,
)
_NEW_NAME: Final = re.compile(
    r"[\s,]*\b(?:into(?:\s+one)?(?:\s+zone)?|as|called|named|and\s+call\s+(?:it|them)|to|en|como)\b"
    r"(?:\s+(?:zone|called|named))*\s*(?P<name>.*)$",
    re.IGNORECASE,
)
_AND: Final = re.compile(r"\s*(?:,|;|\band\b|&|\+|\by\b)\s*", re.IGNORECASE)
#: Words that a sentence holds, and a name does not.
_NO_NAME: Final = re.compile(
    r"\b(?:no|not|what|how|when|why|is|are|was|were|i|we|it|should|can|do|does|did|done|half|together"
    r"|yard|applied|ft|feet|lb|lbs|sq|acres?)\b|[?%\d]{3,}|\?",
    re.IGNORECASE,
)
_LONGEST_NAME: Final = 4
#: Words for all of a yard, or for another thing that has a name.
_A_YARD: Final = re.compile(
    r"\b(?:yard|lawn|place|property|house|home|it|this|that|me|product|bag|chat|group|applications?|dose|rate|amount|total|bill|season|work|jardín|casa"
    r"|patio|lo|la)\b",
    re.IGNORECASE,
)
#: Words beside the zones that are merged.
_BESIDE: Final = frozenset({"together", "with", "zone", "zones", "y", "e", "con", "zonas"})


@dataclass(frozen=True)
class RenameSaid:
    """A zone that is to be called otherwise."""

    zone: str
    name: str


@dataclass(frozen=True)
class PieceSaid:
    """A part a zone is split into: its name, its size in our writing [m²] or its share of it."""

    name: str | None = None
    area_m2: float | None = None
    share: float | None = None


@dataclass(frozen=True)
class SplitSaid:
    """A zone that is to be split; without sizes it is asked how large the parts are."""

    zone: str
    pieces: tuple[PieceSaid, ...] = ()


@dataclass(frozen=True)
class MergeSaid:
    """Zones that are to be one; `name` is None where none was said."""

    zones: tuple[str, ...]
    name: str | None = None


GroundSaid: TypeAlias = RenameSaid | SplitSaid | MergeSaid


#: What is renamed, split or merged is said in fewer letters.
_LONGEST: Final = 300


def read_rename(text: str, scene: Scene) -> Slots | None:
    """Read ``rename front to north``, ``call the front north``; None for other texts."""
    if len(text) > _LONGEST:
        return None
    said = _AFTER_NAME.sub("", text.strip())
    for pattern in _RENAME:
        match = re.match(pattern, said, re.IGNORECASE)
        if match is not None:
            zone, name = _one(scene, match["zone"]), _name(match["name"])
            if zone is not None and name is not None:
                return Slots(zones=(zone,), read=RenameSaid(zone, name))
            strange = (
                None
                if name is None or "rename" not in said.casefold()
                else _stranger(scene, match["zone"])
            )
            if name is not None and strange is not None:
                return Slots(strangers=(strange,), read=RenameSaid(strange, name))
    match = _CALL.match(said)
    return None if match is None else _called(match["both"], scene)


def _stranger(scene: Scene, said: str) -> str | None:
    """Return words that seem to be for ground, and are for no zone and no yard there is."""
    words = said.strip(" \"'").casefold()
    named, is_all, _ = find_names(scene.zones, words)
    is_yard = any(words in yard.casefold() for yard in scene.yards) or _A_YARD.search(words)
    is_long = len(words.split()) > _LONGEST_NAME
    is_ground = scene.zones and words and not (named or is_all or is_yard or is_long)
    return words if is_ground else None


def _called(both: str, scene: Scene) -> Slots | None:
    for zone in sorted(scene.zones, key=len, reverse=True):
        pattern = rf"{re.escape(zone)}(?:\s+lawn|\s+zone)?\s+(?P<name>.+)$"
        inside = re.match(pattern, both, re.IGNORECASE)
        name = None if inside is None else _name(inside["name"])
        if name is not None:
            return Slots(zones=(zone,), read=RenameSaid(zone, name))
    return None


def read_split(text: str, scene: Scene) -> Slots | None:
    """Read ``split the back into play area 20x30 and the rest``; None for other texts."""
    if len(text) > _LONGEST:
        return None
    match = _SPLIT.match(text.strip(" .!"))
    if match is None or "?" in text:
        return None
    zone = _one(scene, match["zone"] or match["zone2"] or match["zone3"])
    if zone is None:
        strange = None if match["zone3"] else _stranger(scene, match["zone"] or match["zone2"])
        # Cakes are cut too: only what can be nothing else is about ground.
        is_split = strange is not None and re.search(r"\b(?:split|divide)\b", text, re.IGNORECASE)
        return (
            Slots(strangers=(strange,), read=SplitSaid(strange)) if strange and is_split else None
        )
    how = (match["how"] or f"into {match['how2'] or match['how3']}").strip()
    if _HALVES.match(how):
        return _slots(zone, (PieceSaid(share=0.5), PieceSaid(share=0.5)))
    named = _NAMED_HALVES.match(how)
    if named is not None:
        these = re.sub(r"\bhalf\b", " ", named["names"] or named["first"], flags=re.IGNORECASE)
        names = [_name(each) for each in _AND.split(these) if each.strip()]
        is_fit = len(names) > 1 and None not in names
        return _slots(zone, [PieceSaid(n, share=1 / len(names)) for n in names]) if is_fit else None
    if _NO_SIZES.match(how):
        return _slots(zone, ())
    pieces = _pieces(re.sub(r"^\w+\s+", "", how), scene)
    return None if pieces is None else _slots(zone, pieces)


def read_merge(text: str, scene: Scene) -> Slots | None:
    """Read ``merge side and front into sunny``; None for other texts."""
    if len(text) > _LONGEST:
        return None
    match = _MERGE.match(_AFTER_NAME.sub("", text.strip()))
    if match is None or "?" in text:
        return None
    said = " ".join(match[part] for part in ("these", "put", "are") if match[part])
    said = f"{said} {match['more'] or match['called'] or ''}".strip()
    new = _NEW_NAME.search(said)
    zones, is_all, rest = find_names(scene.zones, said if new is None else said[: new.start()])
    if is_all:
        zones = scene.zones
    name = None if new is None or not new["name"].strip() else new["name"].strip()
    into = None if name is None else _one(scene, name)
    if into is not None:
        zones, name = tuple(z for z in scene.zones if z in (*zones, into)), into
    elif name is not None:
        name = _name(name)
        if name is None:
            return None
    strange = [each for part in _AND.split(rest) if (each := _stranger(scene, part))]
    if match["these"] and strange and not _BESIDE.issuperset(rest.casefold().split()):
        return Slots(zones=zones, strangers=tuple(strange), read=MergeSaid(zones, name))
    if len(zones) < 2 or not _BESIDE.issuperset(rest.casefold().split()):
        return None
    return Slots(zones=zones, read=MergeSaid(zones, name))


def _slots(zone: str, pieces: Sequence[PieceSaid]) -> Slots:
    return Slots(zones=(zone,), read=SplitSaid(zone, tuple(pieces)))


def _one(scene: Scene, said: str) -> str | None:
    """Return the one zone that words name and nothing beside."""
    named, _, rest = find_names(scene.zones, said.strip(" \"'"))
    return named[0] if len(named) == 1 and not rest else None


def _name(said: str) -> str | None:
    """Return a name without what stands around it; None for what is none."""
    name = _AFTER_NAME.sub("", said.strip()).strip(" \"'“”‘’.,!")
    name = re.sub(r"^(?:the|just|an?|el|la)\s+", "", name, flags=re.IGNORECASE)
    if not name or len(name.split()) > _LONGEST_NAME or _NO_NAME.search(name):
        return None
    return name


def _pieces(said: str, scene: Scene) -> tuple[PieceSaid, ...] | None:
    found = [_piece(each, scene) for each in _AND.split(said) if each.strip()]
    if len(found) < 2 or any(each is None for each in found):
        return None
    return tuple(each for each in found if each is not None)


def _piece(said: str, scene: Scene) -> PieceSaid | None:
    """Read ``play area 20x30``, ``a third upper``, ``the rest``, ``lower``."""
    left = _LEFT_OVER.match(said.strip())
    if left is not None:
        name = left["name"] or left["after"]
        return PieceSaid(None if name is None else _name(name))
    if re.search(r"\d\s*(?:x|by|\*|sq|ft|m|acre|yd)", said, re.IGNORECASE):
        read = read_zones(said, scene.length_unit, scene.pace_m)
        if len(read.zones) != 1 or read.questions:
            return None
        zone = read.zones[0]
        return PieceSaid(zone.name, zone.area_m2)
    share = fraction_of(said)
    if share is not None:
        words = re.sub(
            r"\b(?:an?|one|two|three|half|thirds?|quarters?|of\s+it|is)\b|[\d/%]+", " ", said
        )
        return PieceSaid(_name(words), share=share)
    name = _name(said)
    return None if name is None else PieceSaid(name)


FORMS: Final = (
    Form("measure", read_rename, is_sure=True),
    Form("measure", read_split, is_sure=True),
    Form("measure", read_merge, is_sure=True),
)
