"""Yards in short: ``yards``, ``yard smith``, ``switch to yard 2``, ``new yard in Lincoln, NE``."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from bot.hearing import words
from bot.hearing.forms.form import Form
from bot.hearing.heard import Scene, Slots
from bot.hearing.readers.places import read_place
from bot.hearing.readers.reading import Unread
from bot.hearing.readers.yard_lists import TemplateAsked, YardListSaid, find_line, find_list

_LIST: Final = re.compile(
    r"(?:(?:show|list|what\s+are|which)\s+)?(?:(?:me|all|of|my|the|our)\s+)*yards(?:\s+in\s+[^\d,]+(?:,?\s+\w\w)?)?",
    re.IGNORECASE,
)
_NAMED: Final = re.compile(
    r"(?P<how>yard|(?:switch|go|turn)\s+(?:back\s+)?to|switch|back\s+to|show(?:\s+me)?|open)\s+"
    r"(?P<name>.+)",
    re.IGNORECASE,
)
_NUMBER: Final = re.compile(r"(?:yard\s+)?(?:number\s+|no\.?\s*|#\s*)?(?P<number>\d{1,2})")
_NEW_YARD: Final = re.compile(
    r"(?P<new>(?:a\s+)?new\s+|another\s+)?(?:yard|lawn|place)\s*:?\s+"
    r"(?:is\s+)?(?:(?P<by>in|at|near)\s+)?(?P<where>.+)",
    re.IGNORECASE,
)
_ONE_MORE: Final = re.compile(
    r"\s*(?:add\s+)?(?:(?:a\s+)?(?:new|another)\s+(?:yard|lawn)|(?:otra|nueva)\s+propiedad)\s*:?\s+"
    r"|\s*(?:and\s+|then\s+|y\s+|luego\s+)?(?:the\s+|la\s+|el\s+)?"
    r"(?:first|second|third|fourth|fifth|sixth|\d(?:st|nd|rd|th)|next|last|another|primer[oa]?|segund[oa]"
    r"|tercer[oa]?|cuart[oa]|siguiente|[uú]ltim[oa])(?:\s+(?:one|yard|lawn|propiedad))?"
    r"\s*(?:\bis\b|\bes\b|:|,)\s*(?:the\s+)?",
    re.IGNORECASE,
)
_TEMPLATE: Final = re.compile(
    r"(?:yards?\s+)?template|(?:a\s+)?template\s+for\s+(?:my\s+)?yards|plantilla(?:\s+de\s+propiedades)?",
    re.IGNORECASE,
)
_TIMEZONE: Final = re.compile(r"time\s*zone\s*(?:is|:)?\s*(?P<zone>\S.*)", re.IGNORECASE)
_LEAD: Final = re.compile(
    r"(?:(?:lead|make\s+it|set\s+it\s+to|about|of|is)\s+)*(?P<days>-?\d{1,4})\s*(?P<unit>days?|weeks?)?"
    r"(?:\s+(?:before|ahead|early))?",
    re.IGNORECASE,
)
_CALL_IT: Final = re.compile(
    r"(?:please\s+|can\s+you\s+|could\s+you\s+)*(?:call|name|rename)\s+"
    r"(?:it|this(?:\s+(?:one|yard|lawn))?|the\s+yard|my\s+yard|yard(?:\s+\d+)?\s+(?=to\b))"
    r"(?:\s*(?:to|as))?\s+(?P<name>\S.*?)(?:\s+instead(?:\s+of\b.*)?)?",
    re.IGNORECASE,
)
#: Acts that a question for a name leaves room for.
_WAYS_OUT: Final = ("cancel", "undo", "help")
_REPORT: Final = re.compile(r"(?:i |we )?(?:applied|watered|put (?:it )?down|spread|sprayed)\b")
_LONGEST_NAME: Final = 60
#: Words that a name does not hold, and a sentence does.
_NO_NAME: Final = re.compile(
    r"\b(?:no|not|wait|remove|delete|drop|mean|instead|please|undo|what|how|when|why|is|are|was|i|we"
    r"|it|should|can|do|does|did)\b"
)
#: Sides of a zone are no name: "front 60x40".
_SIZE: Final = re.compile(r"\d\s*(?:ft|feet|m|'|metros|pies)?\s*(?:x|by|por)\s*\d")
#: Letters of a name by which a yard is found without the rest of it.
_FEWEST_LETTERS: Final = 3


@dataclass(frozen=True)
class WhereSaid:
    """Where a yard lies, in words: a town, a postal code, coordinates; `is_new` for one more."""

    words: str
    is_new: bool = False


@dataclass(frozen=True)
class TimezoneSaid:
    """A time zone, by its name or the name of its city."""

    zone: str


@dataclass(frozen=True)
class LeadSaid:
    """How many days before first emergence the window shall open."""

    days: int


def find_yards(names: Sequence[str], text: str) -> list[int]:
    """Return the places of the yards a text names.

    By the whole name, a number, or the beginning of a word.
    """
    said, bare = _bare(text), [_bare(name) for name in names]
    exact = [place for place, name in enumerate(bare) if name in (said, f"yard {said}")]
    if exact:
        return exact
    number = _NUMBER.fullmatch(said)
    if number is not None:
        place = int(number["number"])
        return [place - 1] if 0 < place <= len(names) else []
    said = re.sub(r"^yard\s+|\s+(?:yard|lawn)$", "", said)
    if len(said) < _FEWEST_LETTERS:
        return []
    pattern = re.compile(rf"(?<!\w){re.escape(said)}")
    return [place for place, name in enumerate(bare) if pattern.search(name)]


def read_list(text: str, _scene: Scene) -> Slots | None:
    """Read ``yards``; None for other texts."""
    return Slots() if _LIST.fullmatch(" ".join(text.split()).strip(" .!?")) else None


def read_turn(text: str, scene: Scene) -> Slots | None:
    """Read ``switch to yard 2``; None where no yard is meant."""
    said = " ".join(text.split()).strip(" .!?")
    match = _NAMED.fullmatch(said)
    if match is None or not scene.yards:
        return None
    places = find_yards(scene.yards, match["name"])
    if places:
        one = scene.yards[places[0]] if len(places) == 1 else None
        return Slots(name=match["name"], yard=one)
    whole = said if match["how"].casefold() == "yard" else match["name"]
    # "show soil" and "yard 60x40" are other business; "yard 7" can be nothing else.
    is_number = _NUMBER.fullmatch(_bare(whole)) is not None
    return Slots(name=whole) if is_number and whole.casefold().startswith("yard") else None


def read_many(text: str, scene: Scene) -> Slots | None:
    """Read a pasted list of yards, or ``new yard Birch St 12, Wahoo NE, front 60x40``.

    Whoever has a yard gives the next one without saying so: a name, a place and sizes.
    """
    grid = find_list(text)
    if grid is not None:
        return Slots(read=YardListSaid(grid))
    match = _ONE_MORE.match(text)
    line = find_line(text if match is None else text[match.end() :])
    if line is None or (match is None and not _begins_with_a_name(line[0][0], scene)):
        return None
    return Slots(read=YardListSaid(line, is_one=True))


def _begins_with_a_name(said: str, scene: Scene) -> bool:
    """Tell whether words can be the name of one more yard: of no zone, here or anywhere."""
    named = {each.casefold() for each in scene.zones}
    is_zone = (
        said.casefold() in named or words.finder("zones").fullmatch(words.bare(said)) is not None
    )
    return bool(scene.yards) and not is_zone


def read_template(text: str, _scene: Scene) -> Slots | None:
    """Read ``yards template``; None for other texts."""
    return Slots(read=TemplateAsked()) if _TEMPLATE.fullmatch(text.strip(" .!?")) else None


def read_new(text: str, _scene: Scene) -> Slots | None:
    """Read ``new yard in Lincoln, NE``, ``new yard: 38.9, -96.5``; None for other texts."""
    match = _NEW_YARD.fullmatch(text.strip())
    if match is None or not match["new"]:
        return None
    place = read_place(match["where"])
    if isinstance(place, Unread):
        return Slots(unread=place)
    if place is not None:
        return Slots(read=place)
    return Slots(read=WhereSaid(match["where"], is_new=True)) if match["by"] else None


def read_name(text: str, scene: Scene) -> Slots | None:
    """Read ``call it Birch St 12``, or the bare name where one was asked; None for other texts."""
    match = _CALL_IT.fullmatch(" ".join(text.split()))
    if match is not None:
        return Slots(name=match["name"].strip(" .!\"'")) if scene.yards else None
    is_asked = scene.pending is not None and "name" in scene.pending.expects
    return Slots(name=text.strip(" .!\"'")) if is_asked and _is_name(text) else None


def read_timezone(text: str, scene: Scene) -> Slots | None:
    """Read ``time zone Denver``, or the bare zone where that was asked; None for other texts."""
    match = _TIMEZONE.fullmatch(text.strip(" .!"))
    if match is not None:
        return Slots(read=TimezoneSaid(match["zone"]))
    is_asked = _asks(scene, "timezone")
    return Slots(read=TimezoneSaid(text.strip(" .!"))) if is_asked and _is_zone(text) else None


def read_lead(text: str, scene: Scene) -> Slots | None:
    """Read ``lead 21 days``, or the bare number where that was asked; None for other texts."""
    said = text.strip(" .!")
    match = _LEAD.fullmatch(said)
    is_asked = _asks(scene, "days")
    if match is None or not (is_asked or said.casefold().startswith("lead")):
        return None
    weeks = (match["unit"] or "").casefold().startswith("w")
    return Slots(read=LeadSaid(int(match["days"]) * (7 if weeks else 1)))


def _asks(scene: Scene, what: str) -> bool:
    """Tell whether something of the plan's settings is asked for."""
    pending = scene.pending
    return pending is not None and pending.kind == "set_timing" and what in pending.expects


def _is_name(text: str) -> bool:
    """Tell whether an answer can be a name: a way out, a report and a question are none."""
    said = " ".join(text.casefold().split()).strip(" .!")
    is_short = 0 < len(said) <= _LONGEST_NAME and "?" not in said
    is_way_out = words.canon("acts", "commands").get(said) in _WAYS_OUT
    is_sentence = _NO_NAME.search(said) is not None or _SIZE.search(said) is not None
    return is_short and not is_way_out and not is_sentence and _REPORT.match(said) is None


def _is_zone(text: str) -> bool:
    # Zones are named by continent and city, by city alone, or by their letters.
    return re.fullmatch(r"[A-Za-z_ /+-]{2,40}", text.strip(" .!")) is not None


def _bare(text: str) -> str:
    said = " ".join(text.casefold().split()).strip(" \"'“”.!?")
    return re.sub(r"^(?:the|my)\s+", "", said)


FORMS: Final = (
    Form("set_timing", read_lead),
    Form("set_timing", read_timezone),
    Form("list_yards", read_list),
    Form("name_yard", read_name),
    Form("add_yard", read_template),
    Form("add_yard", read_many, is_sure=True),
    Form("add_yard", read_new),
    Form("turn_to_yard", read_turn),
)
