"""The length of a person's pace: ``my pace is 30 in``, ``10 paces = 25 ft``."""

from __future__ import annotations

import re
from typing import Final

from bot.hearing.readers import lexing
from bot.hearing.readers.lexing import (
    NUMBER,
    WORD_NUMBER,
    UnreadNumber,
    number_value,
    word_number_value,
)
from bot.hearing.readers.reading import Unread
from bot.hearing.readers.terms import LENGTH, NoSense, length_unit
from jobs.agronomy import units

#: A grown person's step is some 0.6 to 0.9 m; beyond this a figure is asked about (from memory).
SHORTEST_M: Final = 0.35
LONGEST_M: Final = 1.3
EXAMPLE: Final = "my pace is 30 in, or 10 paces are 25 ft"

_COUNT: Final = rf"(?P<count>{NUMBER}|{WORD_NUMBER}|an?)?"
_LENGTH: Final = (
    rf"(?P<first>{NUMBER})\s*(?P<unit>{LENGTH})?"
    rf"(?:\s*(?P<second>{NUMBER})\s*(?:\"|in(?:ch(?:es)?)?\b\.?))?"
)
_IS: Final = (
    r"\s*(?:(?:is|are|was|measures?|makes?|come\s+to|for|in|=|:)\s*)?(?:about|roughly|~)?\s*"
)
_PACE: Final = re.compile(
    rf"^\s*(?:(?:my|our|one|each)\s+)*{_COUNT}\s*(?:paces?|steps?)(?:\s+(?:length|long))?{_IS}"
    rf"{_LENGTH}(?:\s*(?:long|each|a\s+pace|per\s+pace))?\s*[.!]?\s*$",
    re.IGNORECASE,
)


def read_pace(text: str) -> float | Unread | None:
    """Read the length of a pace in metres; None where the text is about something else.

    A figure without a unit, or one that no grown person walks, is asked about.
    """
    said = text.strip()
    match = _PACE.match(lexing.plain(text).text)
    if match is None:
        return None
    if match["unit"] is None:
        return Unread(said, "reading.pace_unit", EXAMPLE)
    try:
        total_m = units.to_si(number_value(match["first"]), length_unit(match["unit"]))
        if match["second"] is not None:
            if length_unit(match["unit"]) != "ft" or number_value(match["second"]) >= 12.0:
                return Unread(said, "reading.pace_unit", EXAMPLE)
            total_m += units.to_si(number_value(match["second"]), "in")
        count = _count(match["count"])
    except (UnreadNumber, NoSense, units.UnknownUnit):
        return Unread(said, "reading.pace_unit", EXAMPLE)
    if count <= 0.0 or not SHORTEST_M <= total_m / count <= LONGEST_M:
        return Unread(said, "reading.pace_range", EXAMPLE)
    return total_m / count


def _count(written: str | None) -> float:
    if written is None or written.lower() in {"a", "an"}:
        return 1.0
    if re.fullmatch(WORD_NUMBER, written, re.IGNORECASE):
        return float(word_number_value(written))
    return number_value(written)
