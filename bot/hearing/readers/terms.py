"""One piece of a list of zones, from text to terms: sizes with their signs and words."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from functools import partial
from typing import Final

from lark import Token, Tree
from lark.exceptions import UnexpectedInput

from bot.hearing.expressions import expression
from bot.hearing.phrases import kind, phrases
from bot.hearing.readers import lexing
from bot.hearing.readers.lexing import NUMBER, Traced, UnreadNumber, figures, number_value
from bot.hearing.readers.units_said import AREAS, LENGTHS, unit_of
from jobs.agronomy import units

_says: Final = partial(phrases, "sizes")
EXAMPLE: Final = "front 60 x 40 ft"

#: A written unit of length, behind a number.
LENGTH: Final = rf"(?:{kind('length_unit')})"
#: Stands for a survey lifted out of the text (see `surveys`); two characters, so that both its
#: ends can be traced back. Nobody types them: `lexing.plain` blanks private characters.
SURVEY_MARK: Final = "\ue001\ue001"


class NoSense(ValueError):
    """Raised for a piece that has no one meaning; `reason` is part of a key in reading.ftl."""

    def __init__(self, reason: str, example: str = EXAMPLE, **facts: str) -> None:
        self.reason = reason
        self.example = example
        self.facts = tuple(facts.items())
        super().__init__(reason)


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
    spacing: Measure | None = None
    survey: str | None = None
    baseline: Measure | None = None

    @property
    def words(self) -> str:
        """The words on both sides of the size."""
        return f"{self.lead} {self.trail}".strip()

    @property
    def is_lone(self) -> bool:
        """Whether it is a single number without any unit."""
        return len(self.measures) == 1 and not (self.area_unit or self.measures[0].unit)


def read_terms(piece: Traced) -> list[Term]:
    """Return the terms of one piece.

    Raises
    ------
    NoSense
        If it does not follow the grammar, or walks into a known trap.
    """
    text = _without_brackets(piece)
    _refuse_known_traps(text.text)
    try:
        tree = lexing.parser("sizes").parse(text.text)
    except UnexpectedInput:
        raise NoSense(_why_unparsed(text.text)) from None
    try:
        return _terms(tree, text)
    except UnreadNumber as number:
        raise NoSense("number", number=str(number)) from None


def _without_brackets(piece: Traced) -> Traced:
    """Drop brackets where they change nothing; those that would turn signs are asked about."""
    if _TURNING_BRACKETS.search(piece.text):
        raise NoSense("brackets", "front 60 x 40 ft minus 30 x 20 ft minus 10 x 10 ft")
    return piece.sub(_BRACKETS, " ").strip()


_BRACKETS: Final = re.compile(r"[()\[\]]")
_X: Final = rf"(?:\*|{kind('by')})"
_TURNING_BRACKETS: Final = expression(
    rf"(?:-|\b{kind('minus')}|x|\*)\s*\([^)]*\d[^)]*(?:-|\+|{kind('minus')}|{kind('plus')})",
    re.IGNORECASE,
)
_DOT_THOUSANDS: Final = expression(
    rf"(?<![.\d,])[1-9]\d{{0,2}}\.\d{{3}}(?!\d|\s*(?:{kind('acre')}|{kind('ha')}))", re.IGNORECASE
)
_ODD_FIGURES: Final = (
    expression(r"\d+[oOlIi](?![^\W\d_])|(?<![^\W_])[oOlIi]\d+"),  # 4O for 40, l2 for 12
    expression(r"\d+(?:\.\d+)?(?:e[+-]?\d+|\^\d+(?!\s*\w))", re.IGNORECASE),
)
_SQUARED: Final = expression(
    rf"(?<![x*\d])\s*{NUMBER}\s*(?:{LENGTH})?\.?\s*\b{kind('square')}\.?\s*$", re.IGNORECASE
)
_TWO_SIDES: Final = expression(rf"{NUMBER}\s*\S*\s*{_X}\s*{NUMBER}", re.IGNORECASE)
_FIGURES: Final = expression(rf"\d|{SURVEY_MARK}")
_RANGE: Final = expression(rf"\d\s*[-–]\s*\d+[^/\d]*{_X}|\b{kind('to')}\b\s*\d", re.IGNORECASE)
_A_SIZE: Final = expression(rf"{NUMBER}[^\d]{{0,10}}?{_X}\s*{NUMBER}", re.IGNORECASE)


def _refuse_known_traps(text: str) -> None:
    if _DOT_THOUSANDS.search(text):
        raise NoSense("dot_thousands", "front 1,200 m²")
    for pattern in _ODD_FIGURES:
        odd = pattern.search(text)
        if odd is not None:
            raise NoSense("number", number=odd.group())
    if _says("numbered_fraction").first(text):
        raise NoSense("numbered_fraction", "zone 1: 1/2 acre")
    if _SQUARED.search(text) and not _TWO_SIDES.search(text):
        raise NoSense("square_side", "front 60 x 60 ft, or front 60 sq ft")


def _why_unparsed(text: str) -> str:
    if not _FIGURES.search(text):
        return "no_size"
    if _RANGE.search(text):
        return "range"
    return "two_sizes" if len(_A_SIZE.findall(text)) > 1 else "unclear"


def length_unit(written: str) -> str:
    """Return our writing of a unit of length.

    Raises
    ------
    NoSense
        If it is none.
    """
    return _unit(written, LENGTHS)


def _unit(written: str, names: Sequence[str]) -> str:
    unit = unit_of(_says("an").without(written, "") if names is AREAS else written, names)
    if unit is None:
        raise NoSense("unclear")
    return unit


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
    area_unit = survey = spacing = baseline = None
    for child in node.children:
        assert isinstance(child, Tree)
        if child.data == "size":
            for part in child.children:
                if isinstance(part, Tree) and part.data == "spacing":
                    spacing = _measure(part)
                elif isinstance(part, Tree) and part.data == "baseline":
                    baseline = _measure(part)
                elif isinstance(part, Tree):
                    measures.append(_measure(part))
                elif part.type == "AREA_UNIT":
                    area_unit = _unit(part, AREAS)
                elif part.type == "SURVEY":
                    survey = text.original(part.start_pos or 0, part.end_pos)
        else:
            tokens = list(child.scan_values(lambda value: isinstance(value, Token)))
            words = text.original(tokens[0].start_pos or 0, tokens[-1].end_pos)
            lead, trail = (words, trail) if child.data == "lead" else (lead, words)
    return Term(sign, lead, trail, tuple(measures), area_unit, spacing, survey, baseline)


def _measure(signed: Tree[Token]) -> Measure:
    is_negative = isinstance(signed.children[0], Token)
    measure = signed.children[-1]
    assert isinstance(measure, Tree)
    number, *unit = measure.children
    assert isinstance(number, Token)
    if number.type == "FEET_INCHES":
        feet, inches = re.findall(NUMBER, number, re.IGNORECASE)
        inches = re.sub(r"^0(?=\d)", "", inches)  # 6'06"
        if number_value(inches) >= 12:
            raise NoSense("inches", "60 ft 6 in x 40 ft", number=inches)
        return Measure(number_value(feet), "ft", str(number), is_negative, number_value(inches))
    own = _unit(str(unit[0]), LENGTHS) if unit else None
    text = str(unit[0]).lower() if unit else ""
    return Measure(number_value(number), own, text, is_negative)
