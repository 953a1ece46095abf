"""What one piece of a list of zones means: its units, its signs, its shape."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Final

from lark import Token, Tree
from lark.exceptions import UnexpectedInput

from bot.language import lexing
from bot.language.lexing import NUMBER, Traced, UnreadNumber, figures, number_value
from jobs.agronomy import units
from jobs.agronomy.shapes import Difference, GivenArea, ImpossibleShape, Rectangle, Shape, Sum

_EXAMPLE: Final = "front 60 x 40 ft"


class NoSense(ValueError):
    """Raised for a piece that has no one meaning; `reason` is part of a key in reading.toml."""

    def __init__(self, reason: str, example: str = _EXAMPLE, **facts: str) -> None:
        self.reason = reason
        self.example = example
        self.facts = tuple(facts.items())
        super().__init__(reason)


@dataclass(frozen=True)
class Sense:
    """A piece understood.

    `words` are all words around the figures, `doubt` a reason to ask all the same, `longest_m`
    the longest dimension in it.
    """

    name: str | None
    words: str
    shape: Shape
    echo: str
    is_negative: bool
    doubt: str | None
    longest_m: float


@dataclass(frozen=True)
class Measure:
    """A length, or a bare number: `text` is how we write it."""

    value: float
    unit: str | None
    text: str
    is_negative: bool = False
    inches: float = 0.0

    def in_m(self, unit: str, pace_m: float | None) -> float:
        """Return it in metres, in `unit` where it has none of its own."""
        own = self.unit or unit
        if own == "pace":
            if pace_m is None:
                raise NoSense("pace_unknown", "my pace is 30 in")
            return self.value * pace_m
        return units.to_si(self.value, own) + units.to_si(self.inches, "in")

    def echo(self, unit: str) -> str:
        """Return it as we write it."""
        own = self.unit or unit
        if own == "pace":
            return f"{figures(self.value)} paces"
        feet = f"{figures(self.value)} {own}"
        return f"{feet} {figures(self.inches)} in" if self.inches else feet


@dataclass(frozen=True)
class Term:
    """A size with the words around it, and the sign it is taken with."""

    sign: str
    lead: str
    trail: str
    measures: tuple[Measure, ...]
    area_unit: str | None

    @property
    def is_lone(self) -> bool:
        """Whether it is a single number without any unit."""
        return len(self.measures) == 1 and not (self.area_unit or self.measures[0].unit)


def read(piece: Traced, default_unit: str, pace_m: float | None) -> Sense:
    """Return the meaning of one piece.

    Raises
    ------
    NoSense
        If it has none, or more than one.
    """
    text = _without_brackets(piece)
    _refuse_known_traps(text.text)
    try:
        tree = lexing.parser("sizes").parse(text.text)
    except UnexpectedInput:
        raise NoSense(_why_unparsed(text.text)) from None
    try:
        terms = _terms(tree, text)
    except UnreadNumber as number:
        raise NoSense("number", number=str(number)) from None
    return _sense(terms, default_unit, pace_m)


def _without_brackets(piece: Traced) -> Traced:
    """Drop brackets where they change nothing; those that would turn signs are asked about."""
    if re.search(
        r"(?:-|minus|less|without|x|\*)\s*\([^)]*\d[^)]*(?:-|\+|minus|plus)",
        piece.text,
        re.IGNORECASE,
    ):
        raise NoSense("brackets", "front 60 x 40 ft minus 30 x 20 ft minus 10 x 10 ft")
    return piece.sub(re.compile(r"[()\[\]]"), " ").strip()


def _refuse_known_traps(text: str) -> None:
    if re.search(r"(?<![.\d,])[1-9]\d{0,2}\.\d{3}\s*(?:sq|m2|m²|m\^2|ft|m\b)", text, re.IGNORECASE):
        raise NoSense("dot_thousands", "front 1,200 m²")
    if re.search(
        r"\b(?:zone|area|lawn|bed|part|plot|strip|section)\s+\d{1,2}\s+\d+/\d+", text, re.IGNORECASE
    ):
        raise NoSense("numbered_fraction", "zone 1: 1/2 acre")
    if re.search(
        rf"(?<![x*\d])\s*{NUMBER}\s*(?:feet|foot|ft|'|yards?|yds?|met(?:er|re)s?|m)?\.?\s*(?:squared?|sq)\.?\s*$",
        text,
        re.IGNORECASE,
    ) and not re.search(rf"{NUMBER}\s*\S*\s*(?:x|\*|by)\s*{NUMBER}", text, re.IGNORECASE):
        raise NoSense("square_side", "front 60 x 60 ft, or front 60 sq ft")


def _why_unparsed(text: str) -> str:
    if not re.search(r"\d", text):
        return "no_size"
    if re.search(r"\d\s*[-–]\s*\d+[^/\d]*(?:x|by|\*)|\bto\b\s*\d", text):
        return "range"
    size = rf"{NUMBER}[^\d]{{0,10}}?(?:x|\*|by)\s*{NUMBER}"
    if len(re.findall(size, text, re.IGNORECASE)) > 1:
        return "two_sizes"
    return "unclear"


_LENGTHS: Final = (
    (r"'|feet|foot|ft", "ft"),
    (r"\"|in|inch|inches", "in"),
    (r"yards?|yds?", "yd"),
    (r"m|met(?:er|re)s?", "m"),
    (r"cm|centimet(?:er|re)s?", "cm"),
    (r"paces?|steps?", "pace"),
)
_AREAS: Final = (
    (r"(?:sq|square)(?:feet|foot|ft)|sqft|sf|sf|ft\^?[2²]", "sq ft"),
    (r"(?:sq|square)(?:yards?|yds?)|yd\^?[2²]", "sq yd"),
    (r"(?:sq|square)(?:m|met(?:er|re)s?)|m\^?[2²]", "m²"),
    (r"(?:of)?(?:an?)?acres?|ac", "acre"),
    (r"ha|hectares?", "ha"),
)
#: The unit of length that belongs to an area's, for pieces taken off it.
_LENGTH_OF: Final = {"sq ft": "ft", "sq yd": "yd", "m²": "m", "acre": "ft", "ha": "m"}
_AREA_OF: Final = {"ft": "sq ft", "in": "sq ft", "yd": "sq yd", "m": "m²", "cm": "m²"}


def _unit(written: str, table: tuple[tuple[str, str], ...]) -> str:
    bare = re.sub(r"[\s.-]", "", written.lower())
    for pattern, unit in table:
        if re.fullmatch(pattern, bare):
            return unit
    raise NoSense("unclear")


def _terms(tree: Tree[Token], text: Traced) -> list[Term]:
    terms: list[Term] = []
    sign = "+"
    for node in tree.children:
        assert isinstance(node, Tree)
        if node.data == "op":
            written = str(node.children[0]).lower()
            sign = written if written in {"+", "-"} else ("plus" if written == "plus" else "minus")
        else:
            terms.append(_term(node, sign if terms else "+", text))
    return terms


def _term(node: Tree[Token], sign: str, text: Traced) -> Term:
    lead = trail = ""
    measures: list[Measure] = []
    area_unit = None
    for child in node.children:
        assert isinstance(child, Tree)
        if child.data == "size":
            for part in child.children:
                if isinstance(part, Tree):
                    measures.append(_measure(part))
                elif part.type == "AREA_UNIT":
                    area_unit = _unit(part, _AREAS)
        else:
            tokens = list(child.scan_values(lambda value: isinstance(value, Token)))
            words = text.original(tokens[0].start_pos or 0, tokens[-1].end_pos)
            lead, trail = (words, trail) if child.data == "lead" else (lead, words)
    return Term(sign, lead, trail, tuple(measures), area_unit)


def _measure(signed: Tree[Token]) -> Measure:
    is_negative = isinstance(signed.children[0], Token)
    measure = signed.children[-1]
    assert isinstance(measure, Tree)
    number, *unit = measure.children
    assert isinstance(number, Token)
    if number.type == "FEET_INCHES":
        feet, inches = re.findall(NUMBER, number, re.IGNORECASE)
        if number_value(inches) >= 12:
            raise NoSense("inches", "60 ft 6 in x 40 ft", number=inches)
        return Measure(number_value(feet), "ft", str(number), is_negative, number_value(inches))
    own = _unit(str(unit[0]), _LENGTHS) if unit else None
    text = str(unit[0]).lower() if unit else ""
    return Measure(number_value(number), own, text, is_negative)


def _sense(terms: list[Term], default_unit: str, pace_m: float | None) -> Sense:
    base = terms[0]
    _refuse_odd_terms(terms)
    shared_area = next((term.area_unit for term in terms if term.area_unit), None)
    is_lone_number = base.is_lone and len(terms) == 1
    adds: list[Shape] = []
    holes: list[Shape] = []
    echoes: list[str] = []
    longest = 0.0
    inherited = default_unit
    for place, term in enumerate(terms):
        if term.is_lone:
            if shared_area is None and not is_lone_number:
                raise NoSense("lone_number", "front 60 x 40 ft, or front 2,400 sq ft")
            term_area = shared_area or _AREA_OF[default_unit]
            shape, echo = _area(term.measures[0].value, term_area)
        elif len(term.measures) == 1:
            if term.area_unit is None:
                raise NoSense("lone_length", "front 60 x 40 ft, or front 2,400 sq ft")
            if term.measures[0].unit:
                raise NoSense("unclear")
            shape, echo = _area(term.measures[0].value, term.area_unit)
        else:
            by_unit = _dimension_units(term, inherited)
            sides = [m.in_m(u, pace_m) for m, u in zip(term.measures, by_unit, strict=True)]
            longest = max(longest, *sides)
            shape = Rectangle(*sides)
            echo = " x ".join(m.echo(u) for m, u in zip(term.measures, by_unit, strict=True))
        if place == 0:
            inherited = _unit_of_piece(base, default_unit)
            echoes.append(echo)
        else:
            is_added = term.sign in {"+", "plus"}
            label = _clean(f"{term.lead} {term.trail}") or ""
            echoes.append(f"{'plus' if is_added else 'minus'} {label} {echo}".replace("  ", " "))
        (adds if term.sign in {"+", "plus"} else holes).append(shape)
    return Sense(
        name=_clean(f"{base.lead} {base.trail}"),
        words=" ".join(f"{term.lead} {term.trail}" for term in terms),
        shape=_compose(adds, holes),
        echo=" ".join(echoes),
        is_negative=any(
            measure.is_negative or re.search(r"^\s*-|[:=]\s*-\s*$", lexing.plain(term.lead).text)
            for term in terms
            for measure in term.measures
        ),
        doubt=_doubt(base, is_lone_number),
        longest_m=longest,
    )


def _doubt(base: Term, is_lone_number: bool) -> str | None:
    if is_lone_number:
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
        if re.search(r"\b(?:minus|less|without|plus|excluding|except)\b", words, re.IGNORECASE):
            raise NoSense("sign_without_size", "front 60 x 40 ft minus house 30 x 20 ft")
        if len(words.split()) > 12:
            raise NoSense("wordy")
        if any(measure.value == 0 and not measure.inches for measure in term.measures):
            raise NoSense("zero")
        if len(term.measures) > 2:
            raise NoSense("three_dimensions")
        if len(term.measures) == 2 and term.area_unit in {"acre", "ha"}:
            raise NoSense("acre_dimensions", "back 0.25 acre")
        if term.sign == "-" and term.lead and term.trail:
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
            raise NoSense("which_unit", "12 m x 40 ft minus 3 x 4 m")
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


def _area(value: float, unit: str) -> tuple[Shape, str]:
    return GivenArea(units.to_si(value, unit)), f"{figures(value)} {unit}"


def _compose(adds: list[Shape], holes: list[Shape]) -> Shape:
    whole = adds[0] if len(adds) == 1 else Sum(tuple(adds))
    if not holes:
        return whole
    try:
        return Difference(whole, tuple(holes))
    except ImpossibleShape:
        raise NoSense("hole_larger", "front 60 x 40 ft minus house 30 x 20 ft") from None


_EDGE: Final = re.compile(
    r"^(?:(?:the|my|our|a|an|is|are|was|of|at|measures?|measuring|has|with)\s+|[\s:=~,\"'-]+)+"
    r"|(?:\s+(?:is|are|was|of|at|measures?|measuring|has|with|be|total size|size)|[\s:=~,\"'-]+)+$",
    re.IGNORECASE,
)


def _clean(words: str) -> str | None:
    """Return a name without the small words and marks around it."""
    name = re.sub(r"\s+", " ", words).strip()
    name = _EDGE.sub("", f"{name}").strip()
    name = re.sub(r"\s*[:=]\s*", " ", name)
    return name or None
