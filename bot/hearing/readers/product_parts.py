"""The parts of a product line: ingredients, strengths, quantities, periods, forms, trade codes."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from functools import partial
from typing import Final

from lark import Token, Tree

from bot.hearing.phrases import phrases
from bot.hearing.readers.lexing import UnreadNumber, number_value
from bot.hearing.readers.quantities import NoQuantity, RateRead, quantity
from bot.hearing.readers.units_said import unit_of
from jobs.agronomy.maxima import Period
from jobs.agronomy.strengths import Strength


@dataclass
class Part:
    """A token or phrase of the line: `kind` and what it holds; `form` where a code says it."""

    kind: str
    text: str
    rate: RateRead | None = None
    fault: NoQuantity | None = None
    strength: Strength | None = None
    period: Period | None = None
    ingredient: str | None = None
    form: str | None = None


_says: Final = partial(phrases, "labels")
#: Stands before the place of an ingredient in the list of those known; a private character, which
#: nobody types (`lexing.plain` blanks it).
_MARK: Final = "\ue000"


def marked_text(typed: str, ingredients: Sequence[str]) -> str:
    """Put a sign in place of each known ingredient, longest names first."""
    for name in sorted(ingredients, key=len, reverse=True):
        place = list(ingredients).index(name)
        pattern = rf"(?<![\w{_MARK}-]){re.escape(name)}(?![\w-])"
        typed = re.sub(pattern, f" {_MARK}{place} ", typed, flags=re.IGNORECASE)
    return typed


def part_of(node: Tree[Token] | Token, marked: str, ingredients: Sequence[str]) -> Part:
    """Return what one item of the grammar holds.

    Parameters
    ----------
    node : Tree or Token
        The item.
    marked : str
        The text that was parsed (see `marked_text`).
    ingredients : sequence of str
        The names known.
    """
    if isinstance(node, Token):
        if node.type == "INGREDIENT":
            return Part("INGREDIENT", str(node), ingredient=ingredients[int(node[1:])])
        if node.type == "FORM_CODE":
            return Part("FORM", "granule")
        has_period = node.type == "PERIOD" or _says("a_period").first(node) is not None
        period = _period(node) if has_period else None
        return Part(node.type, str(node), period=period)
    tokens = list(node.scan_values(lambda value: isinstance(value, Token)))
    text = marked[tokens[0].start_pos : tokens[-1].end_pos].strip()
    if node.data == "code":
        return _code(text)
    if node.data == "strength":
        try:
            return Part("strength", text, strength=_strength(tokens))
        except (ValueError, UnreadNumber):
            return Part("fault", text, fault=NoQuantity("strength_number", "prodiamine 0.38%"))
    if node.data == "quantity":
        try:
            return Part("quantity", text, rate=quantity(node, text))
        except NoQuantity as why:
            return Part("quantity", text, fault=why)
    return Part("amount", text)


#: Trade codes behind a number (common practice in US turf): what the number counts, the least and
#: most it can be, and the form. Outside that the same letters count something else (400 SC is g/L).
_CODES: Final = (
    (r"WDG|WG|DF|WSP|WSB|WP", "%", 5.0, 95.0, "water-dispersible"),
    (r"G", "%", 0.05, 25.0, "granule"),
    (r"EC|SC|EW|CS|FL|F|L", "lb/gal", 0.5, 10.0, "liquid"),
)


def _code(text: str) -> Part:
    """Read a strength and form in one, such as 65 WDG."""
    match = re.fullmatch(r"(.*?[\dk])\s*([A-Z]{1,3})", text, re.IGNORECASE)
    assert match is not None
    value = number_value(match[1])
    for letters, unit, least, most, form in _CODES:
        if re.fullmatch(letters, match[2], re.IGNORECASE):
            if not least <= value <= most:
                break
            strength = Strength(value, "%" if unit == "%" else "lb/gal")
            return Part("code", text, strength=strength, form=form)
    return Part("fault", text, fault=NoQuantity("strength_code", "prodiamine 65 %"))


def _strength(tokens: Sequence[Token]) -> Strength:
    value = number_value(tokens[0])
    if tokens[1].type == "TO":
        raise UnreadNumber(str(tokens[2]))
    if tokens[1].type == "PERCENT":
        return Strength(value, "%")
    unit, per = unit_of(tokens[1], ("lb", "g")), tokens[-1].type
    if (unit, per) == ("lb", "PER_GAL"):
        return Strength(value, "lb/gal")
    if (unit, per) == ("g", "PER_L"):
        return Strength(value, "g/L")
    raise UnreadNumber(str(tokens[1]))


def _period(text: str) -> Period:
    found = (period for name, period in _PERIODS.items() if _says(name).first(text))
    return next(found, "application")


_PERIODS: Final[dict[str, Period]] = {
    "of_12_months": "12_months",
    "of_season": "season",
    "of_year": "calendar_year",
}
