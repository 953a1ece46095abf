"""Wishes in words: free days and hours, watering days, quiet hours, what the label says."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import partial
from typing import Any, Final, Literal

from bot.hearing.phrases import phrases, which
from bot.hearing.readers.measurements import read_depth, read_duration
from bot.hearing.readers.reading import Unread
from bot.hearing.readers.times import half_of, read_time_of_day, weekday_number
from jobs.agronomy.units import M_S_PER_MPH

_says: Final = partial(phrases, "wishes")
#: What people mean by parts of the day [minutes after midnight]. Settings.
_PARTS: Final = {
    "morning": (6 * 60, 12 * 60),
    "forenoon": (6 * 60, 12 * 60),
    "afternoon": (12 * 60, 18 * 60),
    "evening": (17 * 60, 21 * 60),
}
_WHOLE_DAY: Final = (0, 24 * 60)
_GROUPS: Final = {"weekend": (5, 6), "weekdays": range(5), "every_day": range(7)}
_WIND: Final = {"mph": M_S_PER_MPH, "m_s": 1.0, "km_h": 1 / 3.6}

Span = tuple[int, int]


def read_weekdays(text: str) -> frozenset[int]:
    """Return the weekdays named in a text (Monday 0): single ones, spans, weekends, weekdays."""
    found: set[int] = set()
    for said in _says("days").every(text):
        start, end = (weekday_number(said[name]) for name in ("first", "last"))
        found |= {(start + step) % 7 for step in range((end - start) % 7 + 1)}
    found |= {weekday_number(said["day"]) for said in _says("day").every(text)}
    for name, days in _GROUPS.items():
        if _says(name).first(text):
            found |= {*days}
    return frozenset(found)


def read_free_hours(text: str) -> dict[int, Span] | Literal["any"] | None:
    """Return free hours by weekday, from ``Saturday and Sunday mornings``, ``weekdays after 5 pm``.

    ``"any"`` where all times are free; None where the text names neither days nor hours.
    """
    said = text.strip(" .!")
    if _says("any_time").whole(said):
        return "any"
    found: dict[int, Span] = {}
    # "weekdays after 5 pm and Saturday mornings": a part with days of its own has its own hours.
    for part in _parts(said):
        days = read_weekdays(part)
        span = _hours(part)
        if not days and span is None:
            return None
        for day in days or frozenset(range(7)):
            found[day] = span or _WHOLE_DAY
    return found or None


def _parts(said: str) -> list[str]:
    """Split where hours end and another day begins."""
    joined: list[str] = []
    for part in re.split(r"\s*[,;]\s*", _says("joint").without(said, ",").strip(" ,;")):
        last = joined[-1] if joined else ""
        # "saturday and sunday mornings" is one part: days without hours join the next.
        is_open = _hours(last) is None or (_hours(part) is None and half_of(last[-5:]) is None)
        if last and (is_open or not _says("begins").at_start(part)):
            joined[-1] = f"{last}, {part}"
        else:
            joined.append(part)
    return joined


def _hours(part: str) -> Span | None:
    for name, span in _PARTS.items():
        if phrases("times", name).first(part):
            return span
    between = phrases("times", "between").first(part)
    if between is not None and between.before[-1:] not in tuple("-/.,:"):
        first, last = _pair(between["first"], between["last"])
        return None if first is None or last is None else (first, last or 24 * 60)
    after, before = (phrases("times", name).first(part) for name in ("after", "before"))
    one = after or before
    at = None if one is None else read_time_of_day(one["at"])
    if at is None:
        return None
    return (0, at) if after is None else (at, 24 * 60)


def _pair(first: str, last: str) -> tuple[int | None, int | None]:
    """Read two times; a half of the day said once goes for both where that makes sense."""
    start, end = read_time_of_day(first), read_time_of_day(last)
    half = half_of(last)
    both = read_time_of_day(f"{first} {half}") if half and half_of(first) is None else None
    if both is not None and end is not None and both < end:
        start = both
    return start, end


@dataclass(frozen=True)
class QuietHours:
    """Quiet hours [minutes after midnight]; equal ends mean none."""

    quiet_from: int
    quiet_until: int


def read_quiet_hours(text: str) -> QuietHours | None:
    """Read ``quiet 21 to 7``, ``quiet hours 9 pm to 6:30 am`` or ``no quiet hours``."""
    said = text.strip(" .!")
    if _says("no_quiet").whole(said):
        return QuietHours(0, 0)
    hours = _says("quiet").whole(said)
    if hours is None:
        return None
    first, last = read_time_of_day(hours["first"]), read_time_of_day(hours["last"])
    if first is None or last is None:
        return None
    # "quiet 9 to 7" is the evening's nine.
    if hours["first"].strip().isdigit() and 6 * 60 <= first <= 11 * 60:
        first += 12 * 60
    return QuietHours(first, last)


def read_cans(text: str) -> tuple[list[float], float] | None:
    """Return depths [m] and minutes of ``0.2, 0.3 and 0.25 in in 20 min``; None if unreadable."""
    said = _says("cans").whole(text.strip(" .!"))
    span = None if said is None else read_duration(said["span"])
    if said is None or span is None or isinstance(span, Unread):
        return None
    listed = re.split(r"\s*[,;+]\s*", _says("joint").without(said["depths"], ","))
    pieces = [piece for piece in listed if piece]
    unit = _says("depth").at_end(pieces[-1]) if pieces else None
    depths = []
    for piece in pieces:
        is_bare = unit is not None and not re.search(r"[^\W\d]|\"", piece)
        depth = read_depth(f"{piece} {unit['unit']}" if is_bare and unit else piece)
        if isinstance(depth, Unread):
            return None
        depths.append(depth)
    return depths, span.total_seconds() / 60


def read_label_terms(text: str) -> dict[str, Any] | None:
    """Return what a label says on the day, by the names of `DayRules`; None where nothing is read.

    ``water in 0.25 in within 24 hours``, ``wind 8 mph``, ``wet leaves``, ``no rain for 6 hours``.
    """
    said = text.strip(" .!")
    terms: dict[str, Any] = {}
    water = _says("water").first(said)
    if water is not None:
        depth = read_depth(water["depth"])
        if isinstance(depth, Unread):
            return None
        terms["water_in_mm"] = depth * 1000
    wind = _says("wind").first(said)
    if wind is not None:
        unit = which("wishes", _WIND, wind["unit"]) or "km_h"
        terms["wind_high_m_s"] = float(wind["value"]) * _WIND[unit]
    leaves = next((each for each in ("wet", "dry", "any") if _says(each).first(said)), None)
    if leaves is not None:
        terms["leaves"] = leaves
    for name, term in (("within", "water_in_hours"), ("rainfast", "dry_hours_after")):
        stretch = _says(name).first(said)
        span = None if stretch is None else read_duration(stretch["span"])
        if isinstance(span, Unread):
            return None
        if span is not None:
            terms[term] = max(1, round(span.total_seconds() / 3600))
    return terms or None
