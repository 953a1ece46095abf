"""Rates and amounts as labels and people write them: ``3.2 lb per 1000 sq ft``, ``7 lb 11 oz``.

Weight and fluid ounces are never mixed: "oz" is read as a weight and marked (`is_bare_ounce`),
so that whoever knows the product is a liquid can ask which is meant.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import partial
from typing import Final

from lark import Token, Tree
from lark.exceptions import UnexpectedInput

from bot.hearing.phrases import kind, phrases
from bot.hearing.readers import lexing
from bot.hearing.readers.lexing import NUMBER, UnreadNumber, figures, number_value
from bot.hearing.readers.reading import Unread
from bot.hearing.readers.spoken import spoken
from bot.hearing.readers.units_said import AMOUNTS, unit_of
from jobs.agronomy import units
from jobs.agronomy.rates import Rate

_says: Final = partial(phrases, "labels")
EXAMPLE_RATE: Final = "3.2 lb per 1000 sq ft"
EXAMPLE_AMOUNT: Final = "7 lb 11 oz"


@dataclass(frozen=True)
class RateRead:
    """A rate, as read.

    Attributes
    ----------
    rate : Rate
        Value and unit as written.
    said : str
        The words it was read from.
    is_of_ingredient : bool
        Whether it counts active ingredient rather than product.
    is_bare_ounce : bool
        Whether "oz" stood there without "fl": taken as a weight, to be asked for a liquid.
    """

    rate: Rate
    said: str
    is_of_ingredient: bool = False
    is_bare_ounce: bool = False


@dataclass(frozen=True)
class Amount:
    """An amount in a written unit of mass or volume."""

    value: float
    unit: str
    is_bare_ounce: bool = False

    @property
    def is_weight(self) -> bool:
        """Whether it is a weight (else a volume)."""
        return units.dimension_of(self.unit) == "mass"

    @property
    def amount_si(self) -> float:
        """The amount in kg or L."""
        return units.to_si(self.value, self.unit)


class NoQuantity(ValueError):
    """Raised inside reading for figures that are no one quantity; `reason` as in reading.ftl."""

    def __init__(self, reason: str, example: str = EXAMPLE_RATE, **facts: str) -> None:
        self.reason = reason
        self.example = example
        self.facts = tuple(facts.items())
        super().__init__(reason)

    def unread(self, said: str) -> Unread:
        """Return it as a question about what was said."""
        return Unread(said, f"reading.{self.reason}", self.example, self.facts)


def read_rate(text: str) -> RateRead | Unread:
    """Read a rate such as ``0.74 fl oz per 1000`` or ``150 kg/ha``."""
    typed = tidy(text)
    named = _says("rate").at_start(typed)
    typed = typed if named is None else named.after.lstrip()
    try:
        refuse_decimal_comma(typed)
        tree = lexing.parser("products", "rate").parse(typed)
        return quantity(next(tree.find_data("quantity")), text.strip())
    except NoQuantity as why:
        return why.unread(text.strip())
    except UnreadNumber:
        return NoQuantity("number_rate").unread(text.strip())
    except UnexpectedInput:
        return NoQuantity(_why_no_rate(typed)).unread(text.strip())


def read_amount(text: str) -> Amount | Unread:
    """Read an amount such as ``3.2 lb``, ``7 lb 11 oz`` or ``250 mL``."""
    typed = tidy(text)
    try:
        refuse_decimal_comma(typed)
        tree = lexing.parser("products", "whole_amount").parse(typed)
        return _amount(next(tree.find_data("amount")))
    except NoQuantity as why:
        return Unread(text.strip(), f"reading.{why.reason}", EXAMPLE_AMOUNT, why.facts)
    except (UnreadNumber, UnexpectedInput):
        reason = "amount_needs_unit" if re.fullmatch(rf"\s*{NUMBER}\s*", typed) else "amount"
        return Unread(text.strip(), f"reading.{reason}", EXAMPLE_AMOUNT)


def tidy(text: str) -> str:
    """Return the text in plain characters and English words, wordy numbers in figures."""
    typed = spoken(lexing.plain(text).text.strip().rstrip(".!"))
    typed = _says("between").without(typed, lambda said: f"{said['low']} to {said['high']}")
    typed = _says("low_high").without(
        typed, lambda said: f"{said['low']} to {said['high']} {said['of']}"
    )
    one = _says("one").at_start(typed)
    return typed if one is None else f"1 {one['unit']}{one.after}"


def refuse_decimal_comma(typed: str) -> None:
    """Refuse a comma between digits that groups no thousands: 3,2 may be 3.2 or two numbers."""
    if re.search(r"\d,(?=\d)(?!\d{3}(?!\d))", typed):
        raise NoQuantity("decimal_comma_rate")


def quantity(tree: Tree[Token], said: str) -> RateRead:
    """Return the rate of a ``quantity`` in the grammar.

    Raises
    ------
    NoQuantity
        If it is a range, zero, or per something that can be taken two ways.
    """
    amount = _amount(tree)
    per = next(tree.find_data("per")).children[0]
    assert isinstance(per, Token)
    if per.type == "PER_M":
        raise NoQuantity("per_m")
    if per.type == "PER_OTHER":
        found = re.search(NUMBER, per, re.IGNORECASE)
        feet = number_value(found.group()) if found else 0.0
        if feet <= 0.0:
            raise NoQuantity("rate_zero")
        rate = Rate(amount.value * 1000.0 / feet, units.rate_unit(amount.unit, "1000 sq ft"))
    else:
        rate = Rate(amount.value, units.rate_unit(amount.unit, _area_of(per)))
    is_ingredient = any(isinstance(child, Token) and child.type == "AI" for child in tree.children)
    return RateRead(rate, said, is_ingredient, amount.is_bare_ounce)


def amount_unit(written: str) -> str:
    """Return our writing of a unit of mass or volume."""
    unit = unit_of(_says("product").without(written), AMOUNTS)
    if unit is None:
        raise NoQuantity("amount")
    return unit


def _amount(tree: Tree[Token]) -> Amount:
    first = tree.children[0]
    assert isinstance(first, Tree)
    if first.data == "compound":
        return _compound(first.children[0])
    numbers = [token for token in first.children if isinstance(token, Token)]
    if len(numbers) > 1:
        low, high = numbers[0], numbers[-1]
        raise NoQuantity(
            "rate_range", low=str(low), high=str(high), unit=_unit_of(tree), is_bare=_is_bare(tree)
        )
    unit = next(tree.find_data("amount_unit")).children[0]
    assert isinstance(unit, Token)
    is_bare_ounce = unit.type == "OUNCE"
    return _positive(Amount(number_value(numbers[0]), amount_unit(unit), is_bare_ounce))


def _unit_of(tree: Tree[Token]) -> str:
    """Return the unit of a range of rates of product; empty where it is of something else."""
    per = next(tree.find_data("per"), None)
    unit = next(tree.find_data("amount_unit"), None)
    is_ingredient = any(isinstance(child, Token) and child.type == "AI" for child in tree.children)
    if per is None or unit is None or is_ingredient:
        return ""
    area, amount = per.children[0], unit.children[0]
    assert isinstance(area, Token)
    assert isinstance(amount, Token)
    if area.type in ("PER_M", "PER_OTHER"):
        return ""
    return units.rate_unit(amount_unit(amount), _area_of(area))


def _is_bare(tree: Tree[Token]) -> str:
    """Return "yes" for ounces that may be weighed or measured."""
    unit = next(tree.find_data("amount_unit"), None)
    token = None if unit is None else unit.children[0]
    return "yes" if isinstance(token, Token) and token.type == "OUNCE" else ""


def _compound(written: Token | Tree[Token]) -> Amount:
    """Return pounds and ounces in pounds, gallons and fluid ounces in gallons."""
    assert isinstance(written, Token)
    unit, parts = ("lb", 16.0) if written.type == "LB_OZ" else ("gal", 128.0)
    whole, ounces = (number_value(part) for part in re.findall(NUMBER, written, re.IGNORECASE))
    if ounces >= parts:
        raise NoQuantity("ounces", number=figures(ounces), unit=unit, most=figures(parts))
    return _positive(Amount(whole + ounces / parts, unit))


def _positive(amount: Amount) -> Amount:
    if amount.value <= 0.0:
        raise NoQuantity("rate_zero")
    return amount


#: What a rate is per, by its words; the first that fits.
_PER: Final = {
    "per_1000": "1000 sq ft",
    "per_100_m2": "100 m²",
    "per_ha": "ha",
    "per_m2": "m²",
    "per_ft": "sq ft",
}


def _area_of(per: str) -> str:
    """Return our writing of the area a rate is per."""
    return next((area for name, area in _PER.items() if _says(name).first(per)), "acre")


def _why_no_rate(typed: str) -> str:
    if not re.search(r"\d", typed):
        return "rate"
    if re.match(r"\s*-\s*[\d.]", typed):
        return "rate_zero"
    if _says("per_metres").first(typed):
        return "per_area"
    if re.search(rf"{NUMBER}\s*(?:/|\b{kind('per')})", typed, re.IGNORECASE):
        return "rate_needs_unit"
    return "rate_needs_area" if _says("without_area").at_end(typed) else "rate"
