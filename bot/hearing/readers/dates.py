"""Days and moments as people write them: ``yesterday 5 pm``, ``last Tuesday``, ``Apr 3 at 8``."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from functools import partial
from typing import Final

from bot.hearing.phrases import Said, phrases, which
from bot.hearing.readers import lexing
from bot.hearing.readers.reading import Unread
from bot.hearing.readers.times import (
    PARTS_OF_DAY,
    month_number,
    read_time,
    time_of_day,
    weekday_number,
)

_says: Final = partial(phrases, "dates")
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
    typed = lexing.plain(text).text
    spans: list[tuple[int, int]] = []
    found = next((each for read in _DAYS if (each := read(typed, now_local)) is not None), None)
    day = None if found is None else found[0]
    if isinstance(day, Unread):
        return day
    if found is not None:
        spans.append(found[1])
        start, end = found[1]
        typed = typed[:start] + " " * (end - start) + typed[end:]
    if isinstance(day, datetime):
        return _when(day, True, now_local, text, spans)
    clock = time_of_day().search(typed)
    if clock is not None:
        at = read_time(clock.group())
        if isinstance(at, Unread):
            return at
        spans.append(clock.span())
        return _when(_at(day or now_local.date(), at, now_local), True, now_local, text, spans)
    for part, hour in PARTS_OF_DAY.items():
        said = phrases("times", f"this_{part}").first(typed)
        said = said or (phrases("times", f"in_{part}").first(typed) if day is not None else None)
        if said is not None:
            spans.append((said.start, said.end))
            moment = _at(day or now_local.date(), time(hour), now_local)
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
_ISO: Final = re.compile(
    r"(?<!\w)(?P<year>\d{4})-(?P<month>\d{1,2})-(?P<day>\d{1,2})(?!\d)"
    r"(?:[T ](?P<hour>\d{1,2}):(?P<minute>\d{2})(?::\d{2})?)?"
)
_NUMERIC: Final = re.compile(
    r"(?<![\d./-])(?P<first>\d{1,2})(?P<mark>[/.-])(?P<second>\d{1,2})"
    r"(?:(?P=mark)(?P<year>\d{4}|\d{2})|(?<!\.\d)(?<!\.\d\d)\b|(?P=mark)\b)(?![\d/]|\.\d)"
)
#: Days back from now, by the names of their words.
_NEAR: Final = {"day_before_yesterday": 2, "yesterday": 1, "today": 0, "tomorrow": -1}
_SPANS: Final = {"min": timedelta(minutes=1), "h": timedelta(hours=1)}

#: A day or moment read, and where it stands.
_Read = tuple["date | datetime | Unread", tuple[int, int]]


def _with_on(typed: str, match: re.Match[str]) -> tuple[int, int]:
    """Return where a date in figures stands, with the word before it."""
    on = _says("on").at_end(typed[: match.start()])
    return match.start() if on is None else on.start, match.end()


def _iso(typed: str, now: datetime) -> _Read | None:
    match = _ISO.search(typed)
    if match is None:
        return None
    span = _with_on(typed, match)
    try:
        day = date(int(match["year"]), int(match["month"]), int(match["day"]))
        if match["hour"] is None:
            return day, span
        return _at(day, time(int(match["hour"]), int(match["minute"])), now), span
    except ValueError:
        return _asked(match.group(), "no_such_day"), span


def _named(typed: str, now: datetime) -> _Read | None:
    said = _says("named").first(typed)
    if said is None:
        return None
    weekday = weekday_number(said["weekday"]) if said["weekday"] else None
    month, day = month_number(said["month"]), int(said["day"])
    found = _in_year(said.it, now, month, day, said["year"], weekday)
    return found, (said.start, said.end)


def _numeric(typed: str, now: datetime) -> _Read | None:
    found = (
        match
        for match in _NUMERIC.finditer(typed)
        if not _says("counted").at_start(typed[match.end() :].lstrip())
    )
    match = next(found, None)
    if match is None:
        return None
    first, second, year = int(match["first"]), int(match["second"]), match["year"]
    span = _with_on(typed, match)
    if first <= 12 and second <= 12 and first != second:
        return _asked(typed[slice(*span)], "day_or_month"), span
    month, day = (second, first) if first > 12 else (first, second)
    full = f"20{year}" if year and len(year) == 2 else year
    return _in_year(typed[slice(*span)], now, month, day, full), span


def _in_year(
    said: str, now: datetime, month: int, day: int, year: str, weekday: int | None = None
) -> date | Unread:
    """Return the day, in the last year it was or will be soon; a weekday said picks the year."""
    today = now.date()
    years = [int(year)] if year else [today.year + 1, today.year, today.year - 1]
    years += [] if year else [today.year - number for number in range(2, 5)]  # for 29 February
    days = [found for candidate in years if (found := _date(candidate, month, day)) is not None]
    if weekday is not None and days:
        days = [found for found in days if found.weekday() == weekday]
        return days[0] if days else _asked(said, "which_weekday")
    for found in days:
        if year or found <= today + _AHEAD:
            return found
    return _asked(said, "no_such_day")


def _date(year: int, month: int, day: int) -> date | None:
    try:
        return date(year, month, day)
    except ValueError:
        return None


def _ago(typed: str, now: datetime) -> _Read | None:
    said = _says("ago").first(typed)
    if said is None:
        return None
    number, span = said["number"].lower(), (said.start, said.end)
    count = int(number) if number.isdigit() else 1
    if re.fullmatch(lexing.WORD_NUMBER, number):
        count = lexing.word_number_value(number)
    unit = which("values", (*_SPANS, "week"), said["unit"])
    if unit in _SPANS:
        return now - count * _SPANS[unit], span
    return now.date() - timedelta(days=count * (7 if unit == "week" else 1)), span


def _near(typed: str, now: datetime) -> _Read | None:
    found = [
        (said, name) for name in (*_NEAR, "now", "night") if (said := _says(name).first(typed))
    ]
    if not found:
        return None
    said, name = min(found, key=lambda each: each[0].start)
    span = (said.start, said.end)
    if name == "now":
        return now, span
    if name == "night":
        return _asked(said.it, "night"), span
    return now.date() - timedelta(days=_NEAR[name]), span


def _weekday(typed: str, now: datetime) -> _Read | None:
    for said in _says("weekday").every(typed):
        if len(said["weekday"]) > 3 or _is_day(said.after):
            return _of_week(said, now), (said.start, said.end)
    return None


def _is_day(after: str) -> bool:
    """Tell whether a weekday in short is one, by what stands behind it."""
    rest = after.lstrip(" ")
    return not rest or rest[0] in ",.0123456789" or _says("goes_on").at_start(rest) is not None


def _of_week(said: Said, now: datetime) -> date | Unread:
    back = (now.weekday() - weekday_number(said["weekday"])) % 7
    meant = which("dates", ("last", "this", "next"), said["which"])
    if meant == "next":
        return now.date() + timedelta(days=7 - back if back else 7)
    if back == 0 and meant == "last":
        return now.date() - timedelta(days=7)
    if (meant == "this") == bool(back):
        return _asked(said.it, "which_weekday")
    return now.date() - timedelta(days=back)


_Reader = Callable[[str, datetime], "_Read | None"]
_DAYS: Final[tuple[_Reader, ...]] = (_iso, _named, _numeric, _ago, _near, _weekday)


def _at(day: date, at: time, now: datetime) -> datetime:
    return datetime.combine(day, at, tzinfo=now.tzinfo)


def _when(
    at: datetime, has_time: bool, now: datetime, text: str, spans: list[tuple[int, int]]
) -> WhenRead:
    traced = lexing.plain(text)
    said = " ".join(traced.original(*span).strip() for span in sorted(spans))
    return WhenRead(at, has_time, at > now, said, traced.beside(sorted(spans)))


def _asked(said: str, reason: str) -> Unread:
    return Unread(said.strip(), f"reading.{reason}", _EXAMPLE)
