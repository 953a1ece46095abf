"""Units as people write them, by the languages' words for them."""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import Final

from bot.hearing.phrases import which

#: How we write the units whose names are no plain word.
WRITTEN: Final = {
    "sq_ft": "sq ft",
    "sq_yd": "sq yd",
    "m2": "m²",
    "fl_oz": "fl oz",
    "dry_oz": "oz",
    "ml": "mL",
    "l": "L",
}
LENGTHS: Final = ("ft", "in", "yd", "cm", "m", "pace")
AREAS: Final = ("sq_ft", "sq_yd", "m2", "acre", "ha")
AMOUNTS: Final = ("lb", "kg", "g", "dry_oz", "oz", "fl_oz", "ml", "l", "gal", "qt", "pt")


def unit_of(written: str, names: Iterable[str]) -> str | None:
    """Return our writing of a unit, of those named; None where it is none of them."""
    name = which("values", names, " ".join(re.sub(r"[()-]", " ", written).split()))
    return None if name is None else WRITTEN.get(name, name)
