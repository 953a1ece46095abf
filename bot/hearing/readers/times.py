"""Times of day as people write them: ``5 pm``, ``17:00``, ``noon``, "from 9:15 to 9:50"."""

from __future__ import annotations

import re
from datetime import time
from functools import cache, partial
from typing import Final

from bot.hearing.phrases import Said, kind, phrases, which
from bot.hearing.readers.reading import Unread

_says: Final = partial(phrases, "times")
_FIGURES: Final = re.compile(r"(\d{1,2})(?:[:.](\d{2}))?(?::\d{2})?\s*")
_GOES_ON: Final = re.compile(r"[.:]\d")
_NOON: Final = 12 * 60
#: Parts of the day that people name instead of a time, and the hour we put for each.
PARTS_OF_DAY: Final = {"morning": 9, "afternoon": 15, "evening": 19}
WEEKDAYS: Final = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
MONTHS: Final = (
    *("january", "february", "march", "april", "may", "june"),
    *("july", "august", "september", "october", "november", "december"),
)


def weekday_number(name: str) -> int:
    """Return the number of a weekday by its name in any of our languages, Monday being 0."""
    return WEEKDAYS.index(which("times", WEEKDAYS, name.strip(" .")) or name)


def month_number(name: str) -> int:
    """Return the number of a month by its name in any of our languages."""
    return MONTHS.index(which("times", MONTHS, name.strip(" .")) or name) + 1


@cache
def time_of_day() -> re.Pattern[str]:
    """Return a pattern of a time of day that nothing else could be."""
    half, at = kind("half_of_day"), kind("at")
    return re.compile(
        rf"(?:\b{at}\s+)?(?:\b\d{{1,2}}(?::\d{{2}}|\.\d{{2}}(?=\s*{half}))?\s*{half}"
        rf"|\b\d{{1,2}}:\d{{2}}(?::\d{{2}})?\b|\b{kind('named_time')}\b"
        rf"|\b{at}\s+\d{{1,2}}(?:\s*{kind('oclock')})?\b(?![\d./:%-]))",
        re.IGNORECASE,
    )


def read_time(text: str) -> time | Unread:
    """Return the time of day in a text that holds one.

    "at 8" is the morning; a bare hour from 1 to 6 is asked about.
    """
    said = text.strip()
    if _says("noon").first(said):
        return time(12)
    if _says("midnight").first(said):
        return Unread(said, "reading.midnight", "11:30 pm")
    figures = _FIGURES.search(said)
    minutes = None if figures is None else _minutes(said[figures.start() :])
    if figures is None or minutes is None or minutes >= 24 * 60:
        return Unread(said, "reading.time", "5 pm")
    is_bare = figures[2] is None and half_of(said) is None
    if is_bare and 1 <= minutes // 60 <= 6:
        return Unread(said, "reading.time_half", f"{minutes // 60} pm")
    return time(minutes // 60, minutes % 60)


def read_time_of_day(text: str) -> int | None:
    """Return minutes after midnight of ``9 pm``, ``21``, ``6:30`` or ``noon``; None otherwise."""
    said = text.strip().removeprefix("las ")
    if _says("noon").whole(said):
        return _NOON
    if _says("midnight").whole(said):
        return 0
    figures = _FIGURES.match(said)
    rest = "" if figures is None else said[figures.end() :]
    is_time = figures is not None and "." not in figures[0]
    if not is_time or (rest and which("times", ("am", "pm"), rest) is None):
        return None
    minutes = _minutes(said)
    return None if minutes is None else minutes % (24 * 60)


def _minutes(said: str) -> int | None:
    """Return minutes after midnight of figures with or without a half of the day."""
    figures = _FIGURES.match(said)
    assert figures is not None
    hour, minute, half = int(figures[1]), int(figures[2] or 0), half_of(said)
    if minute > 59 or hour > 24 or (half is not None and not 1 <= hour <= 12):
        return None
    return (hour if half is None else hour % 12 + (12 if half == "pm" else 0)) * 60 + minute


def half_of(said: str) -> str | None:
    """Return ``am`` or ``pm`` where a text says it."""
    return next((half for half in ("am", "pm") if _says(half).first(said)), None)


def ended_in(text: str, begun: int) -> int | None:
    """Return when work ended that began then, in minutes after midnight; None where unsaid."""
    said = _of_range(text) or _says("ended").first(text)
    ended = None if said is None else read_time_of_day(said["ended"])
    if said is None or ended is None:
        return None
    if ended < begun and half_of(said["ended"]) is None and ended + _NOON >= begun:
        return ended + _NOON
    return ended if ended >= begun else None


def with_begin_alone(text: str) -> str:
    """Return a text with the hour at which work began, without that at which it ended."""
    said = _of_range(text)
    if said is not None:
        begun = _with_half(said["begun"].strip(), said["ended"])
        return f"{said.before.rstrip()} at {begun} {said.after.lstrip()}".strip()
    if _says("ended").first(text) is None or _says("begun").first(text) is None:
        return text
    alone = re.sub(r"[\s,]*(?=$|,)", "", _says("ended").without(text, ""))
    return _says("begun").without(alone, lambda begun: f"at {begun['begun']}")


def _of_range(text: str) -> Said | None:
    """Return a range of hours: figures alone, such as "3 to 4", may be anything."""
    for said in _says("range").every(text):
        is_apart = not _GOES_ON.match(said.after) and said.before[-1:] not in (".", ":")
        if is_apart and (":" in said["begun"] + said["ended"] or half_of(said["ended"])):
            return said
    return None


def _with_half(begun: str, ended: str) -> str:
    """Return a begin with the am or pm of the end, where it can only be that."""
    half = half_of(ended)
    if half is None or half_of(begun):
        return begun
    alike = read_time_of_day(f"{begun} {half}")
    end = read_time_of_day(ended)
    is_alike = alike is not None and end is not None and alike <= end
    return f"{begun} {half if is_alike else 'am'}"
