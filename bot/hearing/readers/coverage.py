"""What a bag weighs and covers: ``16 lb bag covers 5,000 sq ft`` is 3.2 lb per 1,000 sq ft."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from typing import Final

from bot.hearing.readers.lexing import NUMBER, UnreadNumber, figures, number_value
from jobs.agronomy import units
from jobs.agronomy.rates import Rate

_MASS: Final = r"(?P<unit>lbs?|pounds?|kgs?|kilos?|kilograms?|oz|ounces?|g|grams?)\b\.?"
_WEIGHT: Final = rf"(?<![\d.,])(?P<weight>{NUMBER})\s*-?\s*{_MASS}"
_PACK: Final = (
    r"(?:bags?|sacks?|packs?|pails?|boxes|box|containers?|tubs?|pouch(?:es)?|packets?|sachets?)"
)
_COVERS: Final = (
    r"(?:(?:will\s+|should\s+|can\s+)?(?:(?:cover|treat|feed)s?|do(?:es)?)|covering|coverage(?:\s+is)?"
    r"|(?:is\s+)?(?:good|enough|rated|made)\s+for)\s*:?"
)
_AREA_UNIT: Final = (
    r"(?:sq(?:uare)?\.?\s*(?:feet|foot|ft)\b\.?|sq\.?ft\b\.?|sf\b|ft\s?(?:\^?2|²)|feet\b|ft\b"
    r"|(?:m\s?(?:\^?2\b|²)|sq\.?\s*m(?:et(?:er|re)s?)?\b|sqm\b|square\s+met(?:er|re)s?\b)"
    r"|acres?\b|ha\b|hectares?\b)"
)
_AREA: Final = (
    r"(?:(?:up\s+to|about|around|some|roughly|an?\s+area\s+of)\s+)*"
    rf"(?P<area>{NUMBER}|an?)\s*(?P<of>{_AREA_UNIT})?(?![\d%])"
)
_JOINTS: Final = r"(?:[\s,;:.]+|it\b|which|that|and|one|the|each|a|says?|is)*"
_TOGETHER: Final = re.compile(
    rf"(?:\b{_PACK}\b[\s,:]*(?:of|is|has|with|weighs|holds)?\s*)?{_WEIGHT}(?:\s*-?\s*{_PACK}\b)?"
    rf"{_JOINTS}(?:{_PACK}\b)?\s*\b{_COVERS}\s+{_AREA}",
    re.IGNORECASE,
)
_FOR_AREA: Final = re.compile(
    rf"{_WEIGHT}(?:\s*-?\s*{_PACK})?\s*,?\s*(?:for|para)\s+{_AREA.replace('?(?!', '(?!')}",
    re.IGNORECASE,
)
#: Of a bag, feet go without saying: "40 lb bag for 12000".
_BAG_FOR_AREA: Final = re.compile(
    rf"{_WEIGHT}\s*-?\s*{_PACK}\s*,?\s*(?:for|para)\s+{_AREA}", re.IGNORECASE
)
_AREA_ALONE: Final = re.compile(
    rf"(?:\b(?:one|the|each|a|my)\s+)?(?:\b{_PACK}\s+|\bgranules\s+|\bit\s+)?\b{_COVERS}\s+{_AREA}",
    re.IGNORECASE,
)
_WEIGHT_ALONE: Final = re.compile(
    rf"\b{_PACK}\b[\s,:]*(?:of|is|has|with|weighs|holds|says)?\s*{_WEIGHT}"
    r"(?!\s*(?:/|per\b|an?\b|to\s+the\b|every\b|each\b|on\b|over\b|for\b|a\.?i\b))"
    rf"|{_WEIGHT.replace('?P<weight>', '?P<weight2>').replace('?P<unit>', '?P<unit2>')}"
    rf"\s*-?\s*(?:{_PACK})\b",
    re.IGNORECASE,
)
_UNITS: Final = (("lb", "lb"), ("pound", "lb"), ("k", "kg"), ("o", "oz"), ("g", "g"))
#: An area said without a unit is square feet from here on; a smaller figure counts something else.
_LEAST_BARE: Final = 500.0
#: A reckoned rate is written with so many figures, rounded down.
_FIGURES: Final = 4
#: Nothing covers less [m²], and nobody carries more [kg].
_LEAST_M2: Final = 1.0


@dataclass(frozen=True)
class Coverage:
    """What a pack holds and what it is for, as far as it was said.

    Attributes
    ----------
    weight, unit
        What it holds, in its written unit; None where only an area was said.
    area, of
        What it covers, and the unit: ``sq ft``, ``m²``, ``acre``, ``ha``; None where only a weight
        was said.
    """

    weight: float | None = None
    unit: str = "lb"
    area: float | None = None
    of: str = "sq ft"

    @property
    def rate(self) -> Rate | None:
        """The rate it comes to, rounded down so that it never passes what the bag says."""
        if self.weight is None or self.area is None:
            return None
        count, of = (1000.0, "sq ft") if self.of in ("sq ft", "acre") else (100.0, "m²")
        value = self.weight / units.from_si(units.to_si(self.area, self.of), of) * count
        step = 10.0 ** (math.floor(math.log10(value)) - _FIGURES + 1)
        down = math.floor(value / step * (1 + 1e-12)) * step
        return Rate(float(f"{down:.{_FIGURES}g}"), units.rate_unit(self.unit, f"{count:.0f} {of}"))

    @property
    def written(self) -> str:
        """It in our own writing, to be read again."""
        weight = "" if self.weight is None else f"{figures(self.weight)} {self.unit} "
        area = "" if self.area is None else f" covers {figures(self.area)} {self.of}"
        return f"{weight}bag{area}"


def find_coverage(text: str) -> tuple[Coverage | None, str]:
    """Return what a text says a pack holds and covers, and the text without it."""
    for pattern in (_TOGETHER, _FOR_AREA, _BAG_FOR_AREA):
        match = pattern.search(text)
        area = None if match is None else _area(match)
        weight = None if match is None else _weight(match["weight"], match["unit"])
        if match is not None and area is not None and weight is not None:
            return Coverage(*weight, *area), _without(text, match)
    weight, rest = None, text
    area_match = _AREA_ALONE.search(text)
    area = None if area_match is None else _area(area_match)
    if area_match is not None and area is not None:
        rest = _without(rest, area_match)
        match = _WEIGHT_ALONE.search(rest)
        if match is not None:
            weight = _weight(match["weight"] or match["weight2"], match["unit"] or match["unit2"])
            rest = rest if weight is None else _without(rest, match)
    if area is None:
        return None, text
    if weight is None:
        return Coverage(area=area[0], of=area[1]), rest
    return Coverage(*weight, *area), rest


def find_pack_weight(text: str) -> tuple[Coverage | None, str]:
    """Return what a text says a bag weighs, without what it covers, and the text without it."""
    match = _WEIGHT_ALONE.search(text)
    if match is None:
        return None, text
    weight = _weight(match["weight"] or match["weight2"], match["unit"] or match["unit2"])
    if weight is None:
        return None, text
    return Coverage(*weight), _without(text, match)


def _without(text: str, match: re.Match[str]) -> str:
    left = f"{text[: match.start()]}, {text[match.end() :]}"
    return re.sub(r"(?:\s*,){2,}", ",", left).strip(" ,")


def _weight(number: str, unit: str) -> tuple[float, str] | None:
    value = _value(number)
    if value is None:
        return None
    written = unit.lower()
    return value, next(ours for start, ours in _UNITS if written.startswith(start))


def _area(match: re.Match[str]) -> tuple[float, str] | None:
    said, unit = match["area"].lower(), re.sub(r"[\s.]", "", (match["of"] or "").lower())
    value = 1.0 if said in ("a", "an") else _value(said)
    if value is None or (said in ("a", "an") and not unit.startswith(("acre", "ha", "hect"))):
        return None
    if not unit or unit in ("feet", "ft"):
        return (value, "sq ft") if value >= _LEAST_BARE else None
    if unit.startswith("acre"):
        of = "acre"
    elif unit.startswith(("ha", "hect")):
        of = "ha"
    else:
        of = "m²" if re.match(r"m|sqm|squarem", unit) else "sq ft"
    return (value, of) if units.to_si(value, of) >= _LEAST_M2 else None


def _value(said: str) -> float | None:
    try:
        value = number_value(said)
    except UnreadNumber:
        return None
    return value if value > 0 else None
