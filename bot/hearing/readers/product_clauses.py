"""Which quantities of a product line are maxima, and over what: by the words beside them."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial
from typing import Final

from bot.hearing.phrases import phrases
from bot.hearing.readers.product_parts import Part
from jobs.agronomy.maxima import Period

_says: Final = partial(phrases, "labels")


def said_more(words: Sequence[str]) -> list[str]:
    """Return the words that say more than that a label is being read off."""
    said = " ".join(words).replace(":", " ").split()
    return [word for word in said if not _says("reading_off").whole(word)]


def is_filler(word: str) -> bool:
    """Tell whether a word says nothing by itself."""
    return _says("filler").whole(word.rstrip(".")) is not None


def is_maximum(parts: list[Part], place: int) -> tuple[bool, Period | None]:
    """Tell whether a word of maximum belongs to this quantity, and the period before it."""
    before = _step(parts, place, -1)
    said = None if before is None else parts[before]
    if before is not None and said is not None and said.kind in ("PERIOD", "MAX"):
        other = neighbour(parts, before, -1, "MAX" if said.kind == "PERIOD" else "PERIOD")
        if said.kind == "PERIOD" and other is not None:
            return True, said.period
        if said.kind == "MAX":
            further = _step(parts, before, -1)
            is_own = further is None or neighbour(parts, further, -1, "quantity") is None
            return True, said.period or (other.period if other and is_own else None)
    after = _step(parts, place, +1)
    if after is not None and parts[after].kind == "PERIOD":
        after = _step(parts, after, +1)
    if after is not None and parts[after].kind == "MAX":
        period = neighbour(parts, after, +1, "PERIOD")
        following = _step(parts, after, +1)
        if following is not None and period is not None:
            following = _step(parts, following, +1)
        # "3.2 lb per 1000 max 6.4 a year": the word belongs to the figure behind it.
        if following is None or parts[following].kind not in {"quantity", "amount"}:
            return True, None if period is None else period.period
    return False, None


def _step(parts: list[Part], place: int, way: int) -> int | None:
    """Return the place of the next part that says something, within the clause."""
    place += way
    while 0 <= place < len(parts):
        part = parts[place]
        if part.kind == "COMMA":
            return None
        if not (part.kind == "WORD" and is_filler(part.text)):
            return place
        place += way
    return None


def neighbour(parts: list[Part], place: int, way: int, kind: str) -> Part | None:
    """Return the next part that says something, `way` being +1 or -1, where it is of a kind."""
    found = _step(parts, place, way)
    return parts[found] if found is not None and parts[found].kind == kind else None
