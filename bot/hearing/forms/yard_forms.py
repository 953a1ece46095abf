"""Yards in short: ``yards``, ``yard smith``, ``switch to yard 2``, ``new yard in Lincoln, NE``."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from functools import partial
from typing import Final

from bot.hearing import words
from bot.hearing.forms.form import Form, hearing, saying, tidied
from bot.hearing.guards import is_asked
from bot.hearing.heard import Scene, Slots
from bot.hearing.normal import normal
from bot.hearing.phrases import Said, phrases
from bot.hearing.readers.places import read_place
from bot.hearing.readers.reading import Unread
from bot.hearing.readers.whose_place import without_name
from bot.hearing.readers.yard_lists import TemplateAsked, YardListSaid, find_line, find_list

_says: Final = partial(phrases, "yard")
#: Acts that a question for a name leaves room for.
_WAYS_OUT: Final = ("cancel", "undo", "help")
_LONGEST_NAME: Final = 60
#: Letters of a number of days, with its sign.
_LONGEST_NUMBER: Final = 5
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
    number = _number(said)
    if number is not None:
        return [number - 1] if 0 < number <= len(names) else []
    said = _cut(said, "before", "behind")
    if len(said) < _FEWEST_LETTERS:
        return []
    pattern = re.compile(rf"(?<!\w){re.escape(said)}")
    return [place for place, name in enumerate(bare) if pattern.search(name)]


def read_turn(text: str, scene: Scene) -> Slots | None:
    """Read ``switch to yard 2``; None where no yard is meant."""
    said = tidied(text, " .!?")
    by_word = _says("yard").whole(said)
    found = by_word or _says("turn").whole(said)
    if found is None or not scene.yards:
        return None
    places = find_yards(scene.yards, found["name"])
    if places:
        one = scene.yards[places[0]] if len(places) == 1 else None
        return Slots(name=found["name"], yard=one)
    whole = said if by_word else found["name"]
    # "show soil" and "yard 60x40" are other business; "yard 7" can be nothing else.
    is_number = _says("yard").whole(whole) and _number(_bare(whole)) is not None
    return Slots(name=whole) if is_number else None


def read_many(text: str, scene: Scene) -> Slots | None:
    """Read a pasted list of yards, or ``new yard Birch St 12, Wahoo NE, front 60x40``.

    Whoever has a yard gives the next one without saying so: a name, a place and sizes.
    """
    grid = find_list(text)
    if grid is not None:
        return Slots(read=YardListSaid(grid))
    more = _says("one_more").at_start(text.strip())
    said = text if more is None else more.after
    line = find_line(said)
    if line is None and more is not None and (at := _says("in_place").first(said)) is not None:
        # "The fourth is the office in 76712, front 40x30".
        line = find_line(f"{at.before}, {at.after}")
    if line is None or (more is None and not _begins_with_a_name(line[0][0], scene)):
        return None
    return Slots(read=YardListSaid(line, is_one=True))


def _begins_with_a_name(said: str, scene: Scene) -> bool:
    """Tell whether words can be the name of one more yard: of no zone, here or anywhere."""
    named = {each.casefold() for each in scene.zones}
    is_zone = (
        said.casefold() in named or words.finder("zones").fullmatch(words.bare(said)) is not None
    )
    return bool(scene.yards) and not is_zone


def read_new(text: str, _scene: Scene) -> Slots | None:
    """Read ``new yard in Lincoln, NE``, ``new yard: 38.9, -96.5``; None for other texts."""
    said = text.strip()
    found_at = _says("new_at").whole(said)
    found = found_at or _says("new").whole(said)
    if found is None:
        return None
    where, name = without_name(found["where"])
    place = read_place(where)
    if isinstance(place, Unread):
        return Slots(unread=place)
    if place is not None:
        return Slots(read=place, name=name)
    return Slots(read=WhereSaid(where, is_new=True), name=name) if found_at else None


def read_called(found: Said, scene: Scene) -> Slots | None:
    """Read ``se llama Las Palmas``; None for other texts."""
    is_name = scene.yards and len(found["name"]) < _LONGEST_NAME
    return Slots(name=found["name"]) if is_name else None


def called(text: str) -> str | None:
    """Return the name that a text gives, as in ``se llama Las Palmas``; None for others."""
    found = _says("called").whole(tidied(text)) or _says("call_it").whole(tidied(text))
    return None if found is None else found["name"].strip(" .!\"'") or None


def read_name(text: str, scene: Scene) -> Slots | None:
    """Read ``call it Birch St 12``, or the bare name where one was asked; None for other texts."""
    found = _says("call_it").whole(tidied(text, ""))
    if found is not None:
        return Slots(name=found["name"].strip(" .!\"'")) if scene.yards else None
    is_asked = scene.pending is not None and "name" in scene.pending.expects
    return Slots(name=text.strip(" .!\"'")) if is_asked and _is_name(text, scene) else None


def read_timezone(text: str, scene: Scene) -> Slots | None:
    """Read ``time zone Denver``, or the bare zone where that was asked; None for other texts."""
    found = _says("timezone").whole(text.strip(" .!"))
    if found is not None:
        return Slots(read=TimezoneSaid(found["zone"]))
    is_asked = _asks(scene, "timezone")
    return Slots(read=TimezoneSaid(text.strip(" .!"))) if is_asked and _is_zone(text) else None


def read_lead(text: str, scene: Scene) -> Slots | None:
    """Read ``lead 21 days``, or the bare number where that was asked; None for other texts."""
    said = text.strip(" .!")
    weeks = _says("lead_weeks").whole(said)
    found = weeks or _says("lead").whole(said)
    is_meant = _asks(scene, "days") or _says("surely_lead").at_start(said)
    if found is None or not is_meant or len(found["n"]) > _LONGEST_NUMBER:
        return None
    return Slots(read=LeadSaid(int(found["n"]) * (7 if weeks else 1)))


def _asks(scene: Scene, what: str) -> bool:
    """Tell whether something of the plan's settings is asked for."""
    pending = scene.pending
    return pending is not None and pending.kind == "set_timing" and what in pending.expects


def _is_name(text: str, scene: Scene) -> bool:
    """Tell whether an answer can be a name: a way out, a report and a question are none."""
    said = " ".join(text.casefold().split()).strip(" .!")
    is_short = 0 < len(said) <= _LONGEST_NAME and not is_asked(normal(text, scene.language).text)
    is_way_out = words.canon("acts", "commands").get(said) in _WAYS_OUT
    is_sentence = any(_says(each).first(said) for each in ("no_name", "size", "more_at"))
    return is_short and not (is_way_out or is_sentence or _says("report").at_start(said))


def _is_zone(text: str) -> bool:
    # Zones are named by continent and city, by city alone, or by their letters.
    return re.fullmatch(r"[A-Za-z_ /+-]{2,40}", text.strip(" .!")) is not None


def _bare(text: str) -> str:
    return _cut(" ".join(text.casefold().split()).strip(" \"'“”.!?"), "article")


def _cut(said: str, before: str, behind: str | None = None) -> str:
    """Return words without some at their beginning, and at their end."""
    start = _says(before).at_start(said)
    said = said if start is None else start.after.strip()
    end = None if behind is None else _says(behind).at_end(said)
    return said if end is None else end.before.strip()


def _number(said: str) -> int | None:
    found = _says("number").whole(said)
    return int(found["number"]) if found and len(found["number"]) < _LONGEST_NUMBER - 2 else None


FORMS: Final = (
    Form("set_timing", read_lead),
    Form("set_timing", read_timezone),
    saying("list_yards", "yard.list"),
    hearing("name_yard", "yard.called", read_called, is_sure=True),
    Form("name_yard", read_name),
    saying("add_yard", "yard.template", TemplateAsked(), may_ask=True),
    Form("add_yard", read_many, is_sure=True),
    Form("add_yard", read_new),
    Form("turn_to_yard", read_turn),
)
