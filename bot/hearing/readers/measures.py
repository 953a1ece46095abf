"""Figures with units in free text: ``used 4.2 lb over 8 x 150 ft at setting 5``.

For calibration, where people write measurements in any order. What a figure means follows from its
unit, never from its place; two lengths joined by "x" or "by" share a unit.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Final, Literal, TypeAlias

from bot.hearing.expressions import expression
from bot.hearing.phrases import Phrases, kind
from bot.hearing.readers.lexing import NUMBER, known_value, plain
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


def _per(name: str, time: str) -> str:
    return kind(name) + kind(time)


def _si(unit: str) -> float:
    return units.si_factor(unit)


_Unit = tuple[str, Kind, str, float]
#: What a unit measures, our writing and its SI factor, by the kind of its words.
_SIMPLE: Final[tuple[_Unit, ...]] = (
    ("mph", "speed", "mph", 1609.344 / 3600),
    ("km_h", "speed", "km/h", 1 / 3.6),
    ("sq_ft", "area", "sq ft", _si("sq ft")),
    ("m2", "area", "m²", 1.0),
    ("acre", "area", "acre", _si("acre")),
    ("fl_oz", "volume", "fl oz", _si("fl oz")),
    ("lb", "mass", "lb", _si("lb")),
    ("kg", "mass", "kg", 1.0),
    ("g", "mass", "g", 0.001),
    ("oz", "mass", "oz", _si("oz")),
    ("gal", "volume", "gal", _si("gal")),
    ("qt", "volume", "qt", _si("qt")),
    ("pt", "volume", "pt", _si("pt")),
    ("ml", "volume", "mL", 0.001),
    ("l", "volume", "L", 1.0),
    ("s", "time", "s", 1.0),
    ("min", "time", "min", 60.0),
    ("percent", "percent", "%", 1.0),
    ("ft", "length", "ft", _si("ft")),
    ("in", "length", "in", _si("in")),
    ("yd", "length", "yd", _si("yd")),
    ("cm", "length", "cm", 0.01),
    ("mm", "length", "mm", 0.001),
    ("m", "length", "m", 1.0),
)
#: By patterns, longest meanings first.
_UNITS: Final[tuple[_Unit, ...]] = (
    (
        f"(?:{_per('fl_oz', 'per_minute')}|{_per('oz', 'per_minute')})",
        "flow",
        "fl oz/min",
        _si("fl oz") / 60,
    ),
    (rf"(?:gpm\b|{_per('gal', 'per_minute')})", "flow", "gal/min", _si("gal") / 60),
    (rf"(?:lpm\b|{_per('l', 'per_minute')})", "flow", "L/min", 1 / 60),
    (_per("ml", "per_minute"), "flow", "mL/min", 0.001 / 60),
    (_per("in", "per_hour"), "depth_rate", "in/h", _si("in") * 1000),
    (_per("mm", "per_hour"), "depth_rate", "mm/h", 1.0),
    (_per("ft", "per_minute"), "speed", "ft/min", _si("ft") / 60),
    *((kind(name), of, unit, factor) for name, of, unit, factor in _SIMPLE),
)
#: All of them at once: the first that fits is the group's number.
_UNIT: Final = expression("|".join(f"({pattern})" for pattern, *_ in _UNITS), re.IGNORECASE)
_NUMBER: Final = re.compile(rf"(?<![\w.,/])(?P<number>{NUMBER})\s*-?\s*", re.IGNORECASE)
_BY_WEIGHT: Final = expression(rf"\s*\(?{kind('by_weight')}", re.IGNORECASE)
_BY: Final = expression(rf"^\s*(?:\*|{kind('by')})\s*$", re.IGNORECASE)
_BEHIND: Final = expression(rf"[\s:=#]*(?:{kind('to_figure')})?\s*", re.IGNORECASE)
_COMPOUND: Final = expression(rf"^\s*(?:,|{kind('and')})?\s*$", re.IGNORECASE)


def read_figures(text: str) -> list[Figure]:
    """Return the figures of a text in order; figures that are no plain number are left out."""
    return list(_figures(plain(text).text))


@lru_cache(maxsize=16)
def _figures(typed: str) -> tuple[Figure, ...]:
    """Return the figures of a plain text: every form asks for those of the same one."""
    found: list[Figure] = []
    at = 0
    while (match := _NUMBER.search(typed, at)) is not None:
        value = known_value(match["number"])
        if value is not None:
            found.append(_with_unit(typed, match, value))
        at = match.end("number") if value is None else found[-1].end
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
            joined[-1] = _with_unit_of(figure, before)
            joined.append(figure)
        elif _COMPOUND.match(between) and (before.unit, figure.unit) in {
            ("lb", "oz"),
            ("ft", "in"),
        }:
            joined[-1] = replace(before, value=before.value + figure.value, end=figure.end)
        elif _BY.match(between) and figure.kind == "bare" and before.kind == "length":
            joined.append(_with_unit_of(before, figure))
        else:
            joined.append(figure)
    return joined


def _with_unit_of(length: Figure, bare: Figure) -> Figure:
    factor = _si(length.unit) if length.unit in units.UNITS else 0.001
    return replace(bare, kind="length", value=bare.value * factor, unit=length.unit)
