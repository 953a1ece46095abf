"""What a bag weighs and covers: ``16 lb bag covers 5,000 sq ft`` is 3.2 lb per 1,000 sq ft."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from functools import partial
from typing import Final

from bot.hearing.phrases import Said, phrases
from bot.hearing.readers.lexing import figures, known_value
from bot.hearing.readers.units_said import unit_of
from jobs.agronomy import units
from jobs.agronomy.rates import Rate

_says: Final = partial(phrases, "labels")
_MASSES: Final = ("lb", "kg", "oz", "g")
_AREAS: Final = ("sq_ft", "m2", "acre", "ha")
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
    for name in ("together", "for_area", "bag_for_area"):
        said = _says(name).first(text)
        area, weight = (None, None) if said is None else (_area(said), _weight(said))
        if said is not None and area is not None and weight is not None:
            return Coverage(*weight, *area), _without(said)
    alone = _says("area_alone").first(text)
    area = None if alone is None else _area(alone)
    if alone is None or area is None:
        return None, text
    pack, rest = find_pack_weight(_without(alone))
    if pack is None or pack.weight is None:
        return Coverage(area=area[0], of=area[1]), rest
    return Coverage(pack.weight, pack.unit, *area), rest


def find_pack_weight(text: str) -> tuple[Coverage | None, str]:
    """Return what a text says a bag weighs, without what it covers, and the text without it."""
    said = _says("weight_alone").first(text)
    weight = None if said is None else _weight(said)
    if said is None or weight is None:
        return None, text
    return Coverage(*weight), _without(said)


def _without(said: Said) -> str:
    return re.sub(r"(?:\s*,){2,}", ",", f"{said.before.rstrip()}, {said.after.lstrip()}").strip(
        " ,"
    )


def _weight(said: Said) -> tuple[float, str] | None:
    value, unit = known_value(said["weight"]), unit_of(said["unit"], _MASSES)
    return (value, unit) if value and unit else None


def _area(said: Said) -> tuple[float, str] | None:
    # What covers so many metres covers so many square ones.
    of = unit_of(said["of"], _AREAS) or ("m²" if unit_of(said["of"], ("m",)) else None)
    is_one = said["area"].lower() in ("a", "an")
    value = 1.0 if is_one else known_value(said["area"])
    if not value or (is_one and of not in ("acre", "ha")):
        return None
    if of is None:
        return (value, "sq ft") if value >= _LEAST_BARE else None
    return (value, of) if units.to_si(value, of) >= _LEAST_M2 else None
