"""Days and moments as people write them: ``yesterday 5 pm``, ``last Tuesday``, ``Apr 3 at 8``."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from typing import Final

from bot.hearing.readers import lexing
from bot.hearing.readers.reading import Unread
from bot.hearing.readers.times import PARTS_OF_DAY, TIME, read_time

#: How far ahead a day without a year may lie before it is taken for last year's.
_AHEAD: Final = timedelta(days=60)


@dataclass(frozen=True)
class WhenRead:
    """A moment.

    Attributes
    ----------
    at : datetime
        In the time zone of the now it was read against; noon (or now, if earlier) where no time
        was said.
    has_time : bool
        Whether a time of day was said; false for a part of the day too.
    is_future : bool
        Whether it lies after now: an application cannot.
    said : str
        The words it was read from.
    rest : str
        The other words of the text.
    days : tuple of date
        The days that may be meant, where they are several: ``last week``.
    """

    at: datetime
    has_time: bool
    is_future: bool
    said: str
    rest: str = ""
    days: tuple[date, ...] = ()


def read_when(text: str, now_local: datetime) -> WhenRead | Unread | None:
    """Read a text that is a moment and nothing else; None where it is not.

    `now_local` is the present, with the time zone of the yard.
    """
    found = find_when(text, now_local)
    if isinstance(found, WhenRead) and re.search(r"\w", found.rest):
        return None
    return found


def find_when(text: str, now_local: datetime) -> WhenRead | Unread | None:
    """Find a moment inside a longer text, such as "applied the strip yesterday 5 pm".

    `WhenRead.rest` keeps the other words. None where the text names no moment.
    """
    traced = lexing.plain(text)
    typed = traced.text
    spans: list[tuple[int, int]] = []
    day: date | None = None
    for pattern, read_day in _DAYS:
        match = pattern.search(typed)
        if match is None:
            continue
        found = read_day(match, now_local)
        if isinstance(found, Unread):
            return found
        if isinstance(found, datetime):
            return _when(found, True, now_local, text, [match.span()])
        day = found
        spans.append(match.span())
        typed = _blank(typed, match.span())
        break
    clock = re.search(rf"(?:\bat\s+)?{TIME}", typed, re.IGNORECASE)
    if clock is not None:
        at = read_time(clock.group())
        if isinstance(at, Unread):
            return at
        spans.append(clock.span())
        return _when(_at(day or now_local.date(), at, now_local), True, now_local, text, spans)
    for part in PARTS_OF_DAY:
        match = re.search(part.pattern, typed, re.IGNORECASE)
        if match is not None and (day is not None or "this" in match.group().lower()):
            spans.append(match.span())
            moment = _at(day or now_local.date(), time(part.hour), now_local)
            if moment > now_local and moment.date() == now_local.date():
                moment = now_local
            return _when(moment, False, now_local, text, spans)
    if day is None:
        return None
    moment = _at(day, time(12), now_local)
    if day == now_local.date():
        moment = min(moment, now_local)
    return _when(moment, False, now_local, text, spans)


_EXAMPLE: Final = "3 April 5 pm, or yesterday 5 pm"
_MONTHS: Final = [
    "jan",
    "feb",
    "mar",
    "apr",
    "may",
    "jun",
    "jul",
    "aug",
    "sep",
    "oct",
    "nov",
    "dec",
]
_WEEKDAYS: Final = ["mon", "tue", "wed", "thu", "fri", "sat", "sun"]
_MONTH: Final = (
    r"(?P<month>jan(?:uary)?|feb(?:ruary)?|mar(?:ch)?|apr(?:il)?|may|june?|july?|aug(?:ust)?"
    r"|sept?(?:ember)?|oct(?:ober)?|nov(?:ember)?|dec(?:ember)?)\b\.?"
)
_DAY: Final = r"(?P<day>\d{1,2})(?:st|nd|rd|th)?\b(?!:)"
_YEAR: Final = r"(?:,?\s+(?P<year>\d{4})\b)?"
#: "Fri 3 Apr", as we write days ourselves.
_NAMED_WEEKDAY: Final = (
    r"(?:\b(?P<weekday>mon(?:day)?|tue(?:s(?:day)?)?|wed(?:nesday)?|thu(?:rs(?:day)?)?|fri(?:day)?"
    r"|sat(?:urday)?|sun(?:day)?)\b\.?,?\s+)?"
)

_Reader = Callable[[re.Match[str], datetime], "date | datetime | Unread"]


def _iso(match: re.Match[str], now: datetime) -> date | datetime | Unread:
    try:
        day = date(int(match["year"]), int(match["month"]), int(match["day"]))
        if match["hour"] is None:
            return day
        return _at(day, time(int(match["hour"]), int(match["minute"])), now)
    except ValueError:
        return _asked(match, "no_such_day")


def _named(match: re.Match[str], now: datetime) -> date | Unread:
    month = _MONTHS.index(match["month"].lower()[:3]) + 1
    weekday = None if match["weekday"] is None else _weekday_number(match["weekday"])
    return _in_year(match, now, month, int(match["day"]), match["year"], weekday)


def _numeric(match: re.Match[str], now: datetime) -> date | Unread:
    first, second, year = int(match["first"]), int(match["second"]), match["year"]
    if first <= 12 and second <= 12 and first != second:
        return _asked(match, "day_or_month")
    month, day = (second, first) if first > 12 else (first, second)
    full = f"20{year}" if year and len(year) == 2 else year
    return _in_year(match, now, month, day, full)


def _in_year(
    match: re.Match[str],
    now: datetime,
    month: int,
    day: int,
    year: str | None,
    weekday: int | None = None,
) -> date | Unread:
    """Return the day, in the last year it was or will be soon; a weekday said picks the year."""
    today = now.date()
    years = [int(year)] if year else [today.year + 1, today.year, today.year - 1]
    years += [] if year else [today.year - number for number in range(2, 5)]  # for 29 February
    days = [found for candidate in years if (found := _date(candidate, month, day)) is not None]
    if weekday is not None and days:
        days = [found for found in days if found.weekday() == weekday]
        return days[0] if days else _asked(match, "which_weekday")
    for found in days:
        if year or found <= today + _AHEAD:
            return found
    return _asked(match, "no_such_day")


def _date(year: int, month: int, day: int) -> date | None:
    try:
        return date(year, month, day)
    except ValueError:
        return None


def _ago(match: re.Match[str], now: datetime) -> date | datetime:
    number = 1 if match["number"].lower() in {"a", "an", "one"} else _count(match["number"])
    unit = match["unit"].lower()
    if unit.startswith("h"):
        return now - timedelta(hours=number)
    if unit.startswith("m"):
        return now - timedelta(minutes=number)
    return now.date() - timedelta(days=number * (7 if unit.startswith("w") else 1))


def _count(text: str) -> int:
    return int(text) if text.isdigit() else lexing.word_number_value(text)


def _near(match: re.Match[str], now: datetime) -> date | datetime | Unread:
    word = match.group().lower()
    if "now" in word:
        return now
    if "before" in word:
        return now.date() - timedelta(days=2)
    if "yesterday" in word:
        return now.date() - timedelta(days=1)
    if "tomorrow" in word:
        return now.date() + timedelta(days=1)
    if "night" in word:
        return _asked(match, "night")
    return now.date()


def _weekday(match: re.Match[str], now: datetime) -> date | Unread:
    wanted = _weekday_number(match["weekday"])
    back = (now.weekday() - wanted) % 7
    which = (match["which"] or "").lower().split(" ")[0]
    if which == "next":
        return now.date() + timedelta(days=7 - back if back else 7)
    if back == 0 and which != "this":
        if which in {"last", "past"}:
            return now.date() - timedelta(days=7)
        return _asked(match, "which_weekday")
    if which == "this" and back:
        return _asked(match, "which_weekday")
    return now.date() - timedelta(days=back)


def _weekday_number(name: str) -> int:
    return _WEEKDAYS.index(name.lower()[:3])


def _pattern(text: str) -> re.Pattern[str]:
    return re.compile(text, re.IGNORECASE)


_DAYS: Final[tuple[tuple[re.Pattern[str], _Reader], ...]] = (
    (
        _pattern(
            r"(?:\bon\s+)?\b(?P<year>\d{4})-(?P<month>\d{1,2})-(?P<day>\d{1,2})(?!\d)"
            r"(?:[T ](?P<hour>\d{1,2}):(?P<minute>\d{2})(?::\d{2})?)?"
        ),
        _iso,
    ),
    (
        _pattern(rf"(?:\bon\s+)?{_NAMED_WEEKDAY}(?:\bthe\s+)?\b{_DAY}(?:\s+of)?\s+{_MONTH}{_YEAR}"),
        _named,
    ),
    (_pattern(rf"(?:\bon\s+)?{_NAMED_WEEKDAY}\b{_MONTH}\s+(?:the\s+)?{_DAY}{_YEAR}"), _named),
    (
        _pattern(
            r"(?:\bon\s+)?(?<![\d./-])(?P<first>\d{1,2})(?P<mark>[/.-])(?P<second>\d{1,2})"
            r"(?:(?P=mark)(?P<year>\d{4}|\d{2})|(?<!\.\d)(?<!\.\d\d)\b|(?P=mark)\b)"
            r"(?![\d/]|\.\d|\s*(?:of\b|lb|oz|fl|kg|g\b|ml|l\b|in\b|mm|cm|ft|sq|acre|%|x\b|c\b|f\b|°))"
        ),
        _numeric,
    ),
    (
        _pattern(
            rf"\b(?P<number>an?|\d{{1,3}}|{lexing.WORD_NUMBER})\s+"
            r"(?P<unit>minutes?|mins?|hours?|hrs?|days?|weeks?)\s+(?:ago|back)\b"
        ),
        _ago,
    ),
    (
        _pattern(
            r"\b(?:the\s+)?day\s+before\s+yesterday\b|\b(?:earlier\s+)?(?:today|yesterday)\b"
            r"|\btomorrow\b|\b(?:just|right)\s+now\b|\bnow\b|\btonight\b|\blast\s+night\b"
        ),
        _near,
    ),
    (
        _pattern(
            r"\b(?:on\s+)?(?:(?P<which>last|past|this|next)\s+)?"
            r"(?P<weekday>monday|tuesday|wednesday|thursday|friday|saturday|sunday"
            r"|tues|thurs|(?:mon|tue|wed|thu|fri|sat|sun)(?=\.?\s*(?:$|,|at\b|\d|morning|afternoon)))\b\.?"
        ),
        _weekday,
    ),
)


def _at(day: date, at: time, now: datetime) -> datetime:
    return datetime.combine(day, at, tzinfo=now.tzinfo)


def _blank(text: str, span: tuple[int, int]) -> str:
    return text[: span[0]] + " " * (span[1] - span[0]) + text[span[1] :]


def _when(
    at: datetime, has_time: bool, now: datetime, text: str, spans: list[tuple[int, int]]
) -> WhenRead:
    traced = lexing.plain(text)
    said = " ".join(traced.original(*span).strip() for span in sorted(spans))
    rest = text
    kept: list[str] = []
    end = 0
    for start, stop in sorted(spans):
        kept.append(traced.original(end, start))
        end = stop
    kept.append(traced.original(end))
    rest = re.sub(r"\s+", " ", " ".join(kept)).strip(" ,.;")
    return WhenRead(at, has_time, at > now, said, rest)


def _asked(match: re.Match[str], reason: str) -> Unread:
    return Unread(match.group().strip(), f"reading.{reason}", _EXAMPLE)
