"""What the facts of an alert say, for whoever words it: alone, in a digest, or of late summer."""

from __future__ import annotations

from bot.saying.printed_amounts import Quantity
from jobs.agronomy.season import Kind
from jobs.messenger import Letter


def is_shelf_enough(letter: Letter) -> bool:
    """Tell whether a call to buy finds enough on the shelf already."""
    if letter.kind != Kind.SOIL_WARMING or letter.facts.get("is_closed_again"):
        return False
    return bool((letter.facts.get("needed") or {}).get("is_shelf_enough"))


def shelf_text(letter: Letter) -> Quantity | str:
    """Return what stands on the shelf; "" where nothing of it is known."""
    needed = letter.facts.get("needed") or {}
    if needed.get("shelf_si") is None:
        return ""
    return Quantity(needed["shelf_si"], needed["unit"])
