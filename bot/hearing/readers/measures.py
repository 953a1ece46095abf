"""Figures with units in free text: ``used 4.2 lb over 8 x 150 ft at setting 5``.

For calibration, where people write measurements in any order. What a figure means follows from its
unit, never from its place; two lengths joined by "x" or "by" share a unit.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache
from typing import Final, Literal, TypeAlias

from bot.hearing.phrases import Phrases
from bot.hearing.readers.lexing import NUMBER, UnreadNumber, number_value, plain
from jobs.agronomy import units

Kind: TypeAlias = Literal[
    "mass", "volume", "length", "area", "time", "speed", "flow", "depth_rate", "percent", "bare"
]

#: A figure without a unit, where an area is meant, is square feet from here on.
LEAST_BARE_SQ_FT: Final = 300.0


@dataclass(frozen=True)
class Figure:
    """A number with its unit.

    Attributes
    ----------
    kind
        What it measures; ``bare`` without a unit.
    value
        In SI: kg, L, m, m², s, m/s, L/s, mm/h; per cent and bare numbers as written.
    unit
        Our writing of the unit, where there is one.
    start, end
        Where it stands in the text.
    is_bare_ounce
        Whether "oz" stood there without "fl" or "by weight".
    """

    kind: Kind
    value: float
    unit: str
    start: int
    end: int
    is_bare_ounce: bool = False


#: Patterns, longest meanings first: (pattern of the unit, kind, our writing, SI factor).
_MINUTE: Final = r"\s*(?:/|per|a)\s*(?:min(?:ute)?)\b\.?"
_HOUR: Final = r"\s*(?:/|per|an)\s*(?:h(?:r|our)?)\b\.?"


def _si(unit: str) -> float:
    return units.si_factor(unit)


_UNITS: Final[tuple[tuple[str, Kind, str, float], ...]] = (
    (r"(?:fl\.?\s*)?(?:oz|ounces?)" + _MINUTE, "flow", "fl oz/min", _si("fl oz") / 60),
    (r"(?:gpm\b|gal(?:lons?)?" + _MINUTE + ")", "flow", "gal/min", _si("gal") / 60),
    (r"(?:lpm\b|(?:l|lit(?:er|re)s?)" + _MINUTE + ")", "flow", "L/min", 1 / 60),
    (r"ml" + _MINUTE, "flow", "mL/min", 0.001 / 60),
    (r"(?:in(?:ch(?:es)?)?|\")" + _HOUR, "depth_rate", "in/h", _si("in") * 1000),
    (r"mm" + _HOUR, "depth_rate", "mm/h", 1.0),
    (r"(?:mph\b|miles?" + _HOUR + ")", "speed", "mph", 1609.344 / 3600),
    (r"(?:km/h\b|kph\b|kmh\b)", "speed", "km/h", 1 / 3.6),
    (r"(?:ft|feet)" + _MINUTE, "speed", "ft/min", _si("ft") / 60),
    (
        r"(?:sq\.?|square)\s*(?:ft|feet|foot)\b\.?|sqft\b|ft\s?(?:\^?2|²)",
        "area",
        "sq ft",
        _si("sq ft"),
    ),
    (r"(?:sq\.?|square)\s*(?:m|met(?:er|re)s?)\b\.?|sqm\b|m\s?(?:\^?2\b|²)", "area", "m²", 1.0),
    (r"acres?\b", "area", "acre", _si("acre")),
    (r"fl(?:uid)?\.?\s*(?:oz|ounces?)\b\.?|floz\b", "volume", "fl oz", _si("fl oz")),
    (r"(?:lbs?|pounds?)\b\.?", "mass", "lb", _si("lb")),
    (r"(?:kgs?|kilos?|kilograms?)\b\.?", "mass", "kg", 1.0),
    (r"(?:g|grams?)\b\.?", "mass", "g", 0.001),
    (r"(?:oz|ounces?)\b\.?", "mass", "oz", _si("oz")),
    (r"(?:gal(?:lons?|s)?)\b\.?", "volume", "gal", _si("gal")),
    (r"(?:quarts?|qts?)\b\.?", "volume", "qt", _si("qt")),
    (r"(?:pints?|pts?)\b\.?", "volume", "pt", _si("pt")),
    (r"(?:ml|millilit(?:er|re)s?)\b\.?", "volume", "mL", 0.001),
    (r"(?:l|lit(?:er|re)s?)\b\.?", "volume", "L", 1.0),
    (r"(?:seconds?|secs?|s)\b\.?", "time", "s", 1.0),
    (r"(?:minutes?|mins?)\b\.?", "time", "min", 60.0),
    (r"(?:%|per\s?cent\b|percent\b)", "percent", "%", 1.0),
    (r"(?:'|(?:feet|foot|ft)\b\.?)", "length", "ft", _si("ft")),
    (r"(?:\"|(?:inch(?:es)?|in)\b\.?)", "length", "in", _si("in")),
    (r"(?:yards?|yds?)\b\.?", "length", "yd", _si("yd")),
    (r"cm\b", "length", "cm", 0.01),
    (r"mm\b", "length", "mm", 0.001),
    (r"(?:met(?:er|re)s?|m)\b", "length", "m", 1.0),
)
#: All of them at once: the first that fits is the group's number.
_UNIT: Final = re.compile("|".join(f"({pattern})" for pattern, *_ in _UNITS), re.IGNORECASE)
_NUMBER: Final = re.compile(rf"(?<![\w.,/])(?P<number>{NUMBER})\s*-?\s*", re.IGNORECASE)
_BY_WEIGHT: Final = re.compile(r"\s*\(?(?:by\s+)?(?:weight|wt|dry)", re.IGNORECASE)
_BY: Final = re.compile(r"^\s*(?:x|\*|by)\s*$", re.IGNORECASE)
_BEHIND: Final = re.compile(r"[\s:=#]*(?:is|was|of|at|about|wide|number|no\.?)?\s*", re.IGNORECASE)
_COMPOUND: Final = re.compile(r"^\s*(?:,|and)?\s*$", re.IGNORECASE)


def read_figures(text: str) -> list[Figure]:
    """Return the figures of a text in order; figures that are no plain number are left out."""
    return list(_figures(plain(text).text))


@lru_cache(maxsize=16)
def _figures(typed: str) -> tuple[Figure, ...]:
    """Return the figures of a plain text: every form asks for those of the same one."""
    found: list[Figure] = []
    at = 0
    while (match := _NUMBER.search(typed, at)) is not None:
        try:
            value = number_value(match["number"])
        except UnreadNumber:
            at = match.end("number")
            continue
        figure = _with_unit(typed, match, value)
        found.append(figure)
        at = figure.end
    return tuple(_joined(typed, found))


def of_kind(figures: list[Figure], *kinds: Kind) -> list[Figure]:
    """Return the figures of given kinds, in order."""
    return [figure for figure in figures if figure.kind in kinds]


def near(
    text: str, figures: list[Figure], word: Phrases, *, is_before: bool = False
) -> Figure | None:
    """Return the figure said with a word: right behind it, or right before it.

    ``setting 5`` has it behind, ``2 ft apart`` before (`is_before`); the other side counts too
    where the usual one has none.
    """
    typed = plain(text).text
    for said in word.every(typed):
        behind = next((f for f in figures if f.start >= said.end), None)
        if behind is not None and not _BEHIND.fullmatch(typed[said.end : behind.start]):
            behind = None
        before = next((f for f in reversed(figures) if f.end <= said.start), None)
        if before is not None and typed[before.end : said.start].strip(" -"):
            before = None
        found = (before or behind) if is_before else (behind or before)
        if found is not None:
            return found
    return None


def _with_unit(typed: str, match: re.Match[str], value: float) -> Figure:
    found = _UNIT.match(typed, match.end())
    if found is None:
        return Figure("bare", value, "", match.start("number"), match.end("number"))
    assert found.lastindex is not None
    _, kind, unit, factor = _UNITS[found.lastindex - 1]
    is_bare = unit == "oz" and _BY_WEIGHT.match(typed, found.end()) is None
    start = match.start("number")
    return Figure(kind, value * factor, unit, start, found.end(), is_bare_ounce=is_bare)


def _joined(typed: str, found: list[Figure]) -> list[Figure]:
    """Give "8 x 150 ft" one unit, and make one figure of "4 lb 3 oz" and "8 ft 6 in"."""
    joined: list[Figure] = []
    for figure in found:
        before = joined[-1] if joined else None
        if before is None:
            joined.append(figure)
            continue
        between = typed[before.end : figure.start]
        if _BY.match(between) and before.kind == "bare" and figure.kind == "length":
            factor = _si(figure.unit) if figure.unit in units.UNITS else 0.001
            joined[-1] = Figure(
                "length", before.value * factor, figure.unit, before.start, before.end
            )
            joined.append(figure)
        elif _COMPOUND.match(between) and (before.unit, figure.unit) in {
            ("lb", "oz"),
            ("ft", "in"),
        }:
            joined[-1] = Figure(
                before.kind, before.value + figure.value, before.unit, before.start, figure.end
            )
        elif _BY.match(between) and figure.kind == "bare" and before.kind == "length":
            factor = _si(before.unit) if before.unit in units.UNITS else 0.001
            joined.append(
                Figure("length", figure.value * factor, before.unit, figure.start, figure.end)
            )
        else:
            joined.append(figure)
    return joined
