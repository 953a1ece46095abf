"""What one piece of a list of zones means: its units, its signs, its shape."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from functools import partial
from typing import Final

from bot.hearing.expressions import expression
from bot.hearing.phrases import phrases
from bot.hearing.readers import lexing, shape_words, surveys
from bot.hearing.readers.lexing import Traced, UnreadNumber, figures
from bot.hearing.readers.reading import Note
from bot.hearing.readers.size_prose import pattern_of
from bot.hearing.readers.terms import NoSense, Term, read_terms
from jobs.agronomy import units
from jobs.agronomy.shapes import (
    Difference,
    GivenArea,
    ImpossibleShape,
    Offsets,
    Rectangle,
    Shape,
    Sum,
)

_says: Final = partial(phrases, "sizes")


@dataclass(frozen=True)
class Sense:
    """A piece understood.

    `words` are all words around the figures, `doubt` a reason to ask all the same, `longest_m`
    the longest dimension in it, `notes` what to tell about the way it was reckoned, `thing` what
    stands on the ground of that name and has this size: "the back has a 10 by 14 shed".
    """

    name: str | None
    words: str
    shape: Shape
    echo: str
    is_negative: bool
    doubt: str | None
    longest_m: float
    notes: tuple[Note, ...] = ()
    thing: str = ""


@dataclass(frozen=True)
class _Sized:
    """One term: its shape, how we write it, its longest dimension, what to tell."""

    shape: Shape
    echo: str
    longest_m: float = 0.0
    notes: tuple[Note, ...] = ()


def read(piece: Traced, default_unit: str, pace_m: float | None) -> Sense:
    """Return the meaning of one piece.

    Raises
    ------
    NoSense
        If it has none, or more than one.
    """
    try:
        terms = read_terms(piece)
    except NoSense as why:
        example = shape_words.example_of(piece.text)
        if why.reason != "unclear" or example is None:
            raise
        raise NoSense("shape", example) from None
    try:
        return _sense(terms, default_unit, pace_m)
    except UnreadNumber as number:
        raise NoSense("number", number=str(number)) from None
    except ImpossibleShape as why:
        facts = {name: _fact(name, value, default_unit) for name, value in why.numbers.items()}
        raise NoSense(f"shape_{why.reason}", **facts) from None


def _fact(name: str, value: float, unit: str) -> str:
    """Return a figure of an impossible shape as the person measures: metres in their unit."""
    if not name.endswith("_m"):
        return figures(round(value, 2))
    own = unit if unit in _AREA_OF else "ft"
    return f"{figures(round(units.from_si(value, own), 1))} {own}"


def _sense(terms: list[Term], default_unit: str, pace_m: float | None) -> Sense:
    base = terms[0]
    _refuse_odd_terms(terms)
    shared_area = next((term.area_unit for term in terms if term.area_unit), None)
    if shared_area is None and len(terms) == 1:
        shared_area = _AREA_OF.get(default_unit)
    inherited = default_unit
    adds: list[Shape] = []
    holes: list[Shape] = []
    echoes: list[str] = []
    parts: list[_Sized] = []
    for place, term in enumerate(terms):
        sized = _sized(term, inherited, shared_area, pace_m, is_only=len(terms) == 1)
        is_added = term.sign in {"+", "plus"}
        (adds if is_added else holes).append(sized.shape)
        parts.append(sized)
        if place == 0:
            inherited = _unit_of_piece(base, default_unit)
            echoes.append(sized.echo)
        else:
            label = name_in(shape_words.without(term.words)) or ""
            sign = "plus" if is_added else "minus"
            echoes.append(f"{sign} {label} {sized.echo}".replace("  ", " "))
    return Sense(
        name=name_in(shape_words.name_of(base.words)),
        words=shape_words.without(" ".join(term.words for term in terms)),
        shape=_compose(adds, holes),
        echo=" ".join(echoes),
        is_negative=any(_is_negative(term) for term in terms),
        doubt=_doubt(terms),
        longest_m=max(part.longest_m for part in parts),
        notes=tuple(note for part in parts for note in part.notes),
        thing=thing_in(base.lead, base.trail) if len(terms) == 1 else "",
    )


def thing_in(ahead: str, behind: str = "") -> str:
    """Return what stands on a lawn and is none, where the words around a size say such a thing."""
    found = pattern_of("thing_behind").match(behind) if ahead else None
    for name in ("thing_ahead", "thing_first"):
        found = found or pattern_of(name).search(ahead)
    return "" if found is None else found["thing"]


def _sized(
    term: Term, inherited: str, shared_area: str | None, pace_m: float | None, *, is_only: bool
) -> _Sized:
    """Return the shape of one term and how we write it."""
    if term.survey is not None:
        found = surveys.read(term.survey, inherited, pace_m)
        return _Sized(found.shape, found.echo, found.longest_m, found.notes)
    kind = shape_words.kind_of(term, is_only=is_only)
    if kind is not None:
        shape, echo = shape_words.shape_of(kind, term, inherited, pace_m)
        notes = (Note(f"reading.note_{shape.rule}"),) if isinstance(shape, Offsets) else ()
        return _Sized(shape, echo, notes=notes)
    if term.spacing is not None:
        raise NoSense("unclear")
    if len(term.measures) > 2:
        raise NoSense("three_dimensions")
    if len(term.measures) == 2:
        by_unit = _dimension_units(term, inherited)
        pairs = list(zip(term.measures, by_unit, strict=True))
        length_m, width_m = (measure.in_m(unit, pace_m) for measure, unit in pairs)
        echo = " x ".join(measure.echo(unit) for measure, unit in pairs)
        return _Sized(Rectangle(length_m, width_m), echo, max(length_m, width_m))
    value = term.measures[0]
    if term.is_lone:
        if shared_area is None:
            raise NoSense("lone_number", "front 60 x 40 ft, or front 2,400 sq ft")
        return _area(value.value, shared_area)
    if term.area_unit is None:
        unit = _AREA_OF.get(value.unit or "", "")
        if value.value >= _LEAST_AREA.get(unit, math.inf):
            # "2500 feet" of a lawn are hardly its length: it is asked whether they are square.
            return _area(value.value, unit)
        raise NoSense("lone_length", "front 60 x 40 ft, or front 2,400 sq ft")
    if value.unit:
        raise NoSense("unclear")
    return _area(value.value, term.area_unit)


#: No lawn of ours is so long: a length from here on is probably an area. Our choice.
_LEAST_AREA: Final = {"sq ft": 400.0, "m²": 60.0}


def _is_negative(term: Term) -> bool:
    lead = lexing.plain(term.lead).text
    is_after_dash = bool(re.search(r"^\s*-|[:=]\s*-\s*$", lead))
    return is_after_dash or any(measure.is_negative for measure in term.measures)


#: The unit of length that belongs to an area's, for pieces taken off it.
_LENGTH_OF: Final = {"sq ft": "ft", "sq yd": "yd", "m²": "m", "acre": "ft", "ha": "m"}
_AREA_OF: Final = {"ft": "sq ft", "in": "sq ft", "yd": "sq yd", "m": "m²", "cm": "m²"}


def _doubt(terms: list[Term]) -> str | None:
    """Return why to ask although the figures have a meaning, or None."""
    base, is_only = terms[0], len(terms) == 1
    if any(map(shape_words.has_open_ends, terms)):
        return "offset_ends"
    if base.survey is not None or shape_words.kind_of(base) is not None:
        return None
    is_length = len(base.measures) == 1 and base.area_unit is None and not base.is_lone
    if (base.is_lone or is_length) and is_only:
        return "lone_area"
    last = base.measures[-1]
    if (
        last.text == "yard"
        and last.value != 1
        and base.measures[0].unit is None
        and not base.area_unit
    ):
        return "yard_or_yards"
    return None


def _refuse_odd_terms(terms: list[Term]) -> None:
    for term in terms:
        words = f"{term.lead} {term.trail}"
        if _says("sign").first(words):
            raise NoSense("sign_without_size", "front 60 x 40 ft minus house 30 x 20 ft")
        if re.search(r"(?:^|\s)[x*](?:\s|$)", words, re.IGNORECASE):
            raise NoSense("unclear")
        if len(words.split()) > 12:
            raise NoSense("wordy")
        may_be_zero = shape_words.kind_of(term) == "offsets"
        if not may_be_zero and any(m.value == 0 and not m.inches for m in term.measures):
            raise NoSense("zero")
        if len(term.measures) == 2 and term.area_unit in {"acre", "ha"}:
            raise NoSense("acre_dimensions", "back 0.25 acre")
        lead = re.sub(r"[\s\d'\"-]+", " ", term.lead).strip()
        is_other_zone = bool(lead) and _says("taken_off").first(lead) is None
        if term.sign == "-" and (is_other_zone or (term.lead and term.trail)):
            raise NoSense("dash", "front 60 x 40 ft, back 30 x 20 ft")
    if len(terms) > 1 and terms[0].is_lone and terms[1].sign == "-":
        raise NoSense("range", "front 2,400 sq ft")


def _dimension_units(term: Term, inherited: str) -> list[str]:
    """Return the unit of each dimension: its own, else the next one's, else the one before's."""
    if term.area_unit is not None:
        inherited = _LENGTH_OF[term.area_unit]
    own = [measure.unit for measure in term.measures]
    first, last = own
    if first is None and last is None:
        if not inherited:
            sides = " x ".join(figures(measure.value) for measure in term.measures)
            raise NoSense("which_unit", f"{sides} m, or {sides} ft")
        return [inherited, inherited]
    if last is None:
        assert first is not None
        # "6 in x 40": forty inches, or forty feet? Nobody can tell.
        if first in {"in", "cm"} and not term.measures[0].inches:
            raise NoSense("which_unit", f"{figures(term.measures[0].value)} {first} x 40 ft")
        return [first, first]
    return [first or last, last]


def _unit_of_piece(base: Term, default_unit: str) -> str:
    """Return the unit that later terms inherit; empty where the first has two."""
    if base.area_unit is not None:
        return _LENGTH_OF[base.area_unit]
    own = {measure.unit for measure in base.measures if measure.unit}
    if len(own) > 1:
        return ""
    return own.pop() if own else default_unit


def _area(value: float, unit: str) -> _Sized:
    return _Sized(GivenArea(units.to_si(value, unit)), f"{figures(value)} {unit}")


def _compose(adds: list[Shape], holes: list[Shape]) -> Shape:
    whole = adds[0] if len(adds) == 1 else Sum(tuple(adds))
    if not holes:
        return whole
    try:
        return Difference(whole, tuple(holes))
    except ImpossibleShape:
        raise NoSense("hole_larger", "front 60 x 40 ft minus house 30 x 20 ft") from None


#: A sentence before the name: it ends behind a word, not behind a letter or two ("st. mary").
_SENTENCE: Final = expression(r"^.*[^\W\d_]{3}[.!?]\s+(?=\w)")
_MARKS: Final = " \t\n:=~,&\"'–—-"


def name_in(words: str) -> str | None:
    """Return a name without the small words and marks around it; None where none is left."""
    name = _SENTENCE.sub("", re.sub(r"\s+", " ", words)).strip()
    there = _says("there_is").first(name)
    name = name if there is None else there.after.strip() or there.before
    part = _says("part_is").first(name)
    name = name if part is None else f"{part.before}{part['part']}"
    verb = next((each for each in _says("verb").every(name) if each.before.endswith(" ")), None)
    name = _bare(name if verb is None else verb.before)
    grass = _says("is_grass").whole(name)
    one = _says("one_of").at_end(name)
    if grass is not None:
        name = grass["part"]
    elif one is not None:
        name = f"{one.before}{one['part']}"
    return None if not name or _says("no_name").whole(name) else name


def _bare(name: str) -> str:
    """Return a name without small words at its ends."""
    before = None
    while name != before:
        before = name = re.sub(r"\s*[:=]\s*", " ", name.strip(_MARKS))
        lead = _says("lead").at_start(name)
        if lead is not None and (lead.after[:1] in tuple(_MARKS) and lead.after):
            name = lead.after.strip(_MARKS)
        trail = _says("trail").at_end(name)
        if trail is not None and trail.before.endswith(" "):
            name = name if _says("more").at_end(trail.before) else trail.before.strip(_MARKS)
    return "" if _says("lone").whole(name) else name
