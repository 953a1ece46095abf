"""Times of day as people write them: ``5 pm``, ``17:00``, ``noon``, ``at 8``."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import time
from typing import Final

from bot.hearing.readers.reading import Unread

#: A time of day that nothing else could be; "at 8" needs its "at".
TIME: Final = (
    r"(?:\b\d{1,2}(?::\d{2}|\.\d{2}(?=\s*[ap]\.?m))?\s*[ap]\.?\s?m\b\.?|\b\d{1,2}:\d{2}(?::\d{2})?\b"
    r"|\b(?:at\s+)?(?:noon|midday|midnight)\b|\bat\s+\d{1,2}(?:\s*o'?clock)?\b(?![\d./:%-]))"
)
_CLOCK: Final = re.compile(
    r"(\d{1,2})(?:[:.](\d{2}))?(?::\d{2})?\s*(?:([ap])\.?\s?m\b)?", re.IGNORECASE
)


def read_time(text: str) -> time | Unread:
    """Return the time of day in a text that holds one.

    "at 8" is the morning; a bare hour from 1 to 6 is asked about.
    """
    said = text.strip()
    if re.search(r"noon|midday", said, re.IGNORECASE):
        return time(12)
    if re.search("midnight", said, re.IGNORECASE):
        return Unread(said, "reading.midnight", "11:30 pm")
    match = _CLOCK.search(said)
    if match is None:
        return Unread(said, "reading.time", "5 pm")
    hour, minute, half = int(match[1]), int(match[2] or 0), (match[3] or "").lower()
    if minute > 59 or hour > 23 or (half and not 1 <= hour <= 12):
        return Unread(said, "reading.time", "5 pm")
    if half:
        return time(hour % 12 + (12 if half == "p" else 0), minute)
    if match[2] is None and 1 <= hour <= 6:
        return Unread(said, "reading.time_half", f"{hour} pm")
    return time(hour, minute)


@dataclass(frozen=True)
class PartOfDay:
    """A part of the day that people name instead of a time, and the hour we put for it."""

    pattern: str
    hour: int


PARTS_OF_DAY: Final = (
    PartOfDay(r"\b(?:in\s+the\s+|this\s+)?morning\b", 9),
    PartOfDay(r"\b(?:in\s+the\s+|this\s+)?afternoon\b", 15),
    PartOfDay(r"\b(?:in\s+the\s+|this\s+)?evening\b", 19),
)
