"""Wishes in words: free days and hours, watering days, times of day, what the label says."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Any, Final, Literal

from bot.hearing.readers.measurements import read_depth, read_duration
from bot.hearing.readers.reading import Unread
from jobs.agronomy.units import M_S_PER_MPH

_DAYS: Final = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
_DAY: Final = r"(?:mon|tue|wed|thu|fri|sat|sun)[a-z]*"
_TIME: Final = r"(?:\d{1,2}(?::\d{2})?\s*(?:[ap]\.?m\b\.?)?|noon|midday|midnight)"
_SPAN: Final = re.compile(
    rf"(?:from\s+|between\s+)?(?P<first>{_TIME})\s*(?:to|until|till|-|–|and)\s*(?P<last>{_TIME})",
    re.IGNORECASE,
)
_AFTER: Final = re.compile(rf"\b(?:after|from)\s+(?P<at>{_TIME})", re.IGNORECASE)
_BEFORE: Final = re.compile(rf"\b(?:before|until|till)\s+(?P<at>{_TIME})", re.IGNORECASE)

#: What people mean by parts of the day [minutes after midnight]. Settings.
_PARTS: Final = {
    "morning": (6 * 60, 12 * 60),
    "forenoon": (6 * 60, 12 * 60),
    "afternoon": (12 * 60, 18 * 60),
    "evening": (17 * 60, 21 * 60),
}
_WHOLE_DAY: Final = (0, 24 * 60)

Span = tuple[int, int]


def read_time_of_day(text: str) -> int | None:
    """Return minutes after midnight of ``9 pm``, ``21``, ``6:30`` or ``noon``; None otherwise."""
    said = text.strip().casefold()
    if said in ("noon", "midday"):
        return 12 * 60
    if said == "midnight":
        return 0
    match = re.fullmatch(r"(\d{1,2})(?::(\d{2}))?\s*(?:([ap])\.?m\b\.?)?", said)
    if match is None:
        return None
    hour, minute, half = int(match[1]), int(match[2] or 0), match[3]
    if minute > 59 or hour > 24 or (half and not 1 <= hour <= 12):
        return None
    if half:
        hour = hour % 12 + (12 if half == "p" else 0)
    return (hour % 24) * 60 + minute


def read_weekdays(text: str) -> frozenset[int]:
    """Return the weekdays named in a text (Monday 0): single ones, spans, weekends, weekdays."""
    said = text.casefold()
    found: set[int] = set()
    for first, last in re.findall(rf"\b({_DAY})\s*(?:to|-|–|through)\s*({_DAY})\b", said):
        start, end = (_DAYS.index(name[:3]) for name in (first, last))
        found |= {(start + step) % 7 for step in range((end - start) % 7 + 1)}
    found |= {_DAYS.index(name[:3]) for name in re.findall(rf"\b{_DAY}\b", said)}
    if re.search(r"\bweekends?\b", said):
        found |= {5, 6}
    if re.search(r"\bweekdays?\b|\bworking\s+days\b", said):
        found |= {0, 1, 2, 3, 4}
    if re.search(r"\b(every|any|all)\s*days?\b|\bdaily\b", said):
        found |= set(range(7))
    return frozenset(found)


def read_free_hours(text: str) -> dict[int, Span] | Literal["any"] | None:
    """Return free hours by weekday, from ``Saturday and Sunday mornings``, ``weekdays after 5 pm``.

    ``"any"`` where all times are free; None where the text names neither days nor hours.
    """
    said = text.casefold().strip(" .!")
    if re.fullmatch(
        r"(?:at\s+)?(?:any\s*time|always|all\s+the\s+time|every\s*day|any\s+day)", said
    ):
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
    cut = re.split(
        rf"(?<=s)(?:\s*,\s*|\s+and\s+)(?={_DAY}\b.*\b(?:morning|afternoon|evening))"
        rf"|(?<=m)(?:\s*,\s*|\s+and\s+)(?={_DAY}\b|week)|\s*;\s*",
        said,
    )
    parts = [part for part in cut if part.strip()]
    # "saturday and sunday mornings" is one part: days without hours join the next.
    joined: list[str] = []
    for part in parts:
        if joined and _hours(joined[-1]) is None:
            joined[-1] = f"{joined[-1]} and {part}"
        else:
            joined.append(part)
    return joined


def _hours(part: str) -> Span | None:
    for name, span in _PARTS.items():
        if re.search(rf"\b{name}s?\b", part):
            return span
    between = _SPAN.search(part)
    if between is not None:
        first, last = _pair(between["first"], between["last"])
        return None if first is None or last is None else (first, last or 24 * 60)
    after, before = _AFTER.search(part), _BEFORE.search(part)
    if after is not None:
        at = read_time_of_day(after["at"])
        return None if at is None else (at, 24 * 60)
    if before is not None:
        at = read_time_of_day(before["at"])
        return None if at is None else (0, at)
    return None


def _pair(first: str, last: str) -> tuple[int | None, int | None]:
    """Read two times; a half of the day said once goes for both where that makes sense."""
    start, end = read_time_of_day(first), read_time_of_day(last)
    half = re.search(r"([ap])\.?m", last, re.IGNORECASE)
    if half is not None and not re.search(r"[ap]\.?m|noon|mid", first, re.IGNORECASE):
        both = read_time_of_day(f"{first.strip()} {half[1]}m")
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
    said = text.casefold().strip(" .!")
    if re.fullmatch(r"no\s+quiet(?:\s+(?:hours|time))?|never\s+quiet", said):
        return QuietHours(0, 0)
    match = re.fullmatch(rf"(?:be\s+)?quiet(?:\s+hours)?:?\s+{_SPAN.pattern}", said)
    if match is None:
        return None
    first, last = read_time_of_day(match["first"]), read_time_of_day(match["last"])
    if first is None or last is None:
        return None
    # "quiet 9 to 7" is the evening's nine.
    if not re.search(r"[ap]\.?m|:|noon|mid", match["first"]) and 6 * 60 <= first <= 11 * 60:
        first += 12 * 60
    return QuietHours(first, last)


def read_cans(text: str) -> tuple[list[float], float] | None:
    """Return depths [m] and minutes of ``0.2, 0.3 and 0.25 in in 20 min``; None if unreadable."""
    match = re.fullmatch(
        r"(?:gives?|made|caught|test)?:?\s*(?P<depths>.+?)\s+(?:in|per|after|over|an)\s+"
        r"(?P<span>(?:half\s+)?an?\s+hour|\d[\d.]*\s*\w+|hour)",
        text.strip(" .!"),
        re.IGNORECASE,
    )
    if match is None:
        return None
    span_said = re.sub(r"^hour$", "1 hour", match["span"], flags=re.IGNORECASE)
    span = read_duration(span_said)
    if isinstance(span, Unread):
        return None
    pieces = [piece for piece in re.split(r"\s*(?:,|;|\band\b|\+)\s*", match["depths"]) if piece]
    unit = re.search(r"(\"|in(?:ch(?:es)?)?|mm|cm)\s*$", pieces[-1], re.IGNORECASE)
    depths = []
    for piece in pieces:
        has_unit = re.search(r"[a-z\"]", piece, re.IGNORECASE) is not None
        depth = read_depth(piece if has_unit or unit is None else f"{piece} {unit[1]}")
        if isinstance(depth, Unread):
            return None
        depths.append(depth)
    return depths, span.total_seconds() / 60


def read_label_terms(text: str) -> dict[str, Any] | None:
    """Return what a label says on the day, by the names of `DayRules`; None where nothing is read.

    ``water in 0.25 in within 24 hours``, ``wind 8 mph``, ``wet leaves``, ``no rain for 6 hours``.
    """
    said = text.casefold().strip(" .!")
    terms: dict[str, Any] = {}
    water = re.search(
        r"\bwater(?:ed)?(?:\s+it)?(?:\s+in)?(?:\s+with)?\s+(?P<depth>[\d./]+\s*\S+)", said
    )
    if water is not None:
        depth = read_depth(water["depth"])
        if isinstance(depth, Unread):
            return None
        terms["water_in_mm"] = depth * 1000
    within = re.search(r"\bwithin\s+(?P<span>\d[\d.]*\s*\w+)", said)
    if within is not None:
        span = read_duration(within["span"])
        if isinstance(span, Unread):
            return None
        terms["water_in_hours"] = max(1, round(span.total_seconds() / 3600))
    wind = re.search(
        r"\bwind\b[^\d]{0,20}(?P<value>\d+(?:\.\d+)?)\s*(?P<unit>mph|m/s|km/?h|kph|miles)", said
    )
    if wind is not None:
        factor = {"mph": M_S_PER_MPH, "miles": M_S_PER_MPH, "m/s": 1.0}.get(wind["unit"], 1 / 3.6)
        terms["wind_high_m_s"] = float(wind["value"]) * factor
    leaves = re.search(r"\b(wet|dry|any)\s+(?:leaves|foliage|grass|turf|leaf)\b", said)
    if leaves is not None:
        terms["leaves"] = leaves[1]
    dry = re.search(
        r"\b(?:no\s+rain|dry|rainfast)\s+(?:for|in|within)?\s*(?P<span>\d[\d.]*\s*h\w*)", said
    )
    if dry is not None:
        span = read_duration(dry["span"])
        if isinstance(span, Unread):
            return None
        terms["dry_hours_after"] = max(1, round(span.total_seconds() / 3600))
    return terms or None
