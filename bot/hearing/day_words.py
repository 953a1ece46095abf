"""Days and hours in a normal form: ``last night``, ``monday``, ``hace 3 days``, ``at 7``.

A weekday alone is the last one of something done and the next one of something to come: which of
the two is known only with the act, so a day is found first and placed afterwards.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date, datetime, time, timedelta
from functools import cache
from typing import Final

from bot.hearing import vague_days, words
from bot.hearing.expressions import expression
from bot.hearing.phrases import kind
from bot.hearing.readers import dates
from bot.hearing.readers.dates import WhenRead
from bot.hearing.readers.reading import Unread
from bot.hearing.readers.taken import Taken
from bot.hearing.readers.times import MONTHS, PARTS_OF_DAY, WEEKDAYS

_FAR: Final = {
    "day before yesterday": -2,
    "yesterday": -1,
    "last night": -1,
    "today": 0,
    "tonight": 0,
    "tomorrow": 1,
    "day after tomorrow": 2,
    "next week": 7,
    "last week": -7,
    "this week": 3,
}


@dataclass(frozen=True)
class DaySaid:
    """A day as it was said, with where it stands in the normal form."""

    start: int
    end: int
    kind: str
    day: str
    which: str = ""
    count: float = 0.0
    month: int = 0
    year: int = 0


def find_days(text: str, language: str) -> list[DaySaid]:
    """Return the days named in a normal form, in order."""
    taken = Taken(text)
    found = [each for each in _candidates(text, language) if taken.take(each.start, each.end)]
    return sorted(found, key=lambda each: each.start)


def find_hours(text: str) -> list[tuple[int, int, str, int]]:
    """Return hours and parts of the day: start, end, ``clock`` or a part's name, minutes."""
    found: list[tuple[int, int, str, int]] = []
    taken = Taken(text)
    for match in _CLOCK.finditer(text):
        at = _clock(match)
        if at is not None:
            taken.take(*match.span())
            found.append((match.start(), match.end(), "clock", at))
    for match in words.finder("parts_of_day", "values").finditer(text):
        if taken.take(*match.span()):
            part = words.canon("parts_of_day", "values")[" ".join(match.group().split())]
            found.append((match.start(), match.end(), part, PARTS_OF_DAY[part] * 60))
    return sorted(found)


def placed(
    said: DaySaid | None, hour: tuple[str, int] | None, now: datetime, *, is_past: bool
) -> WhenRead | Unread | None:
    """Return the moment that a day and an hour mean; a weekday is the last one if `is_past`."""
    if said is None and (hour is None or hour[0] != "clock"):
        return None
    if said is not None and said.kind == "iso":
        return dates.read_when(said.day, now)
    day = now.date() if said is None else _day(said, now.date(), is_past=is_past)
    if isinstance(day, Unread):
        return day
    minutes, has_time = 12 * 60, False
    is_night = said is not None and said.day in ("last night", "tonight")
    if hour is not None:
        minutes, has_time = hour[1], hour[0] == "clock"
        # "At 6 tonight" is no morning.
        minutes += 12 * 60 if is_night and 5 * 60 <= minutes < 12 * 60 else 0
    elif is_night:
        minutes = 20 * 60
    at = datetime.combine(day, time(minutes // 60, minutes % 60), tzinfo=now.tzinfo)
    if is_past and at > now and day == now.date():
        at = now
    days: tuple[date, ...] = ()
    if is_past and said is not None:
        days = vague_days.likely(said.kind, said.day, said.count, said.month, now.date())
    return WhenRead(at, has_time, at > now, said.day if said else "", "", days)


def rough_in(text: str, language: str, now: datetime) -> WhenRead | None:
    """Return the first of something done that a text says in the rough, and its other words."""
    small = text.casefold()
    for said in find_days(small, language):
        when = placed(said, None, now, is_past=True)
        if isinstance(when, WhenRead) and when.days:
            rest = f"{text[: said.start]} {text[said.end :]}"
            return replace(when, said=text[said.start : said.end], rest=" ".join(rest.split()))
    return None


_ORDINAL: Final = r"(?:st|nd|rd|th|o)?"
_ISO: Final = re.compile(
    r"\b\d{4}-\d{1,2}-\d{1,2}\b|\b\d{1,2}/\d{1,2}(?:/\d{2,4})?\b(?!\s*(?:in|lb|oz|of)\b)"
)
_CLOCK: Final = expression(
    rf"\b(?:{kind('clock_ahead')}\s+)?"
    r"(?:(?P<hour>\d{1,2})(?::(?P<minute>\d{2}))?\s*(?P<half>[ap])\.?\s?m\b\.?"
    r"|(?P<hour2>\d{1,2}):(?P<minute2>\d{2})\b)"
    rf"|\b{kind('clock_at')}\s+(?P<hour3>\d{{1,2}})(?:\s*{kind('oclock')})?\b"
    rf"(?!\s*(?:[./%x:]\s*\d|{kind('no_clock')}))"
    rf"|\b(?:{kind('at')}\s+)?(?P<noon>{kind('noon')})\b"
)


def _clock(match: re.Match[str]) -> int | None:
    if match["noon"]:
        return 12 * 60
    hour = int(match["hour"] or match["hour2"] or match["hour3"])
    minute = int(match["minute"] or match["minute2"] or 0)
    half = match["half"]
    if hour > 23 or minute > 59 or (half and not 1 <= hour <= 12):
        return None
    if half:
        hour = hour % 12 + (12 if half == "p" else 0)
    elif match["hour2"] is None and 1 <= hour <= 5:
        hour += 12
    return hour * 60 + minute


@cache
def _months(language: str) -> re.Pattern[str]:
    names = "|".join(sorted(words.canon("months", "values"), key=len, reverse=True))
    the, of = kind("the"), kind("of")
    return re.compile(
        rf"\b(?:{the}\s+)?(?P<day>\d{{1,2}}){_ORDINAL}\s+(?:{of}\s+)?(?P<month>{names})\b"
        rf"(?:,?\s+(?:{of}\s+)?(?P<year>\d{{4}})\b)?"
        rf"|\b(?P<month2>{names})\.?\s+(?:{the}\s+)?(?P<day2>\d{{1,2}}){_ORDINAL}\b(?!\s*(?:x|ft|lb))"
        rf"(?:,?\s+(?P<year2>\d{{4}})\b)?|\b{kind('month_ahead')}\s+(?P<alone>{names})\b"
        # "Till May 10" is a day, whatever stands before it.
        rf"(?!\.?\s+(?:{the}\s+)?\d{{1,2}}{_ORDINAL}\b(?!\s*(?:x|ft|lb)))"
    )


#: Days in a unit, as it is said behind "a few" and "unas".
_UNITS: Final = {
    **dict.fromkeys(("days", "dias"), 1.0),
    **dict.fromkeys(("weeks", "semanas"), 7.0),
    **dict.fromkeys(("months", "meses"), 30.0),
    **dict.fromkeys(("years", "year", "anos", "ano"), 365.0),
}


@cache
def _ago(language: str) -> re.Pattern[str]:
    table = [words.table(each, "values")["ago"] for each in words.LANGUAGES]
    before = "|".join(word for each in table for word in words.listed(each["before"]))
    after = "|".join(word for each in table for word in words.listed(each["after"]))
    units = "|".join((*_UNITS, "h", "min"))
    span = rf"(?P<{{0}}>\d+(?:\.\d+)?|{kind('few_words')})\s+(?P<{{1}}>{units})"
    return re.compile(
        rf"\b(?:{before})\s+(?:{kind('about')}\s+)?{span.format('n1', 'u1')}\b"
        rf"|\b{span.format('n2', 'u2')}\s+(?:{after})\b"
    )


def _candidates(text: str, language: str) -> Iterator[DaySaid]:
    for match in _ISO.finditer(text):
        yield DaySaid(*match.span(), "iso", match.group())
    for match in _ago(language).finditer(text):
        count, unit = match["n1"] or match["n2"], match["u1"] or match["u2"]
        number = vague_days.count_of(count)
        factor = _UNITS.get(unit, 0.0)
        yield DaySaid(*match.span(), "ago", match.group(), count=number * factor)
    for match in _months(language).finditer(text):
        name = match["month"] or match["month2"] or match["alone"]
        month = MONTHS.index(words.canon("months", "values")[name]) + 1
        day = match["day"] or match["day2"] or 0
        year = int(match["year"] or match["year2"] or 0)
        kind = "date" if day else "month"
        yield DaySaid(*match.span(), kind, match.group(), count=float(day), month=month, year=year)
    for start, end, kind, number_of_day in vague_days.find_rough(text):
        yield DaySaid(start, end, kind, text[start:end], count=float(number_of_day))
    # The longest phrase first: the pattern's alternatives stand in that order.
    for match in words.finder("days", "values").finditer(text):
        meant = words.canon("days", "values")[" ".join(match.group().split())]
        kind = "weekend" if "weekend" in meant else "near"
        yield DaySaid(*match.span(), kind, meant)
    if language == "es":
        for match in _MANANA.finditer(text):
            yield DaySaid(*match.span(), "near", "tomorrow")
    for match in _weekday_pattern(language).finditer(text):
        name = _weekday_names()[match["name"]]
        which = match["before"] or match["behind"] or ""
        meant = words.canon("which", "values").get(" ".join(which.split()), "")
        yield DaySaid(*match.span(), "weekday", name, meant)


#: "la manana" is the morning, "manana" tomorrow.
_MANANA: Final = re.compile(r"(?<!la )(?<!esta )(?<!de la )\bmanana\b")


@cache
def _weekday_names() -> dict[str, str]:
    return {**words.canon("weekdays", "values"), **words.canon("weekdays_short", "values")}


@cache
def _weekday_pattern(language: str) -> re.Pattern[str]:
    names = dict(words.canon("weekdays", "values"))
    if language == "en":
        names |= words.canon("weekdays_short", "values")
    name = "|".join(sorted(names, key=len, reverse=True))
    which = "|".join(sorted(words.canon("which", "values"), key=len, reverse=True))
    return re.compile(
        rf"\b(?:{kind('on_weekday')}\s+)?(?:(?P<before>{which})\s+)?(?P<name>{name})\b\.?"
        rf"(?:\s+(?P<behind>{which})\b)?"
    )


def _day(said: DaySaid, today: date, *, is_past: bool) -> date | Unread:
    if said.kind == "near":
        return today + timedelta(days=_FAR[said.day])
    if said.kind == "ago":
        return today - timedelta(days=round(said.count))
    if said.kind == "weekend":
        ahead = (5 - today.weekday()) % 7
        return today + timedelta(days=ahead - 7 if is_past or "last" in said.day else ahead)
    if said.kind == "weekday":
        return _weekday(said, today, is_past=is_past)
    if said.kind == "lately":
        return today - timedelta(days=3)
    if said.kind in ("this_month", "on_the", "about_the"):
        number = round(said.count) or max(1, today.day // 2)
        # "Remind me on the 20th" is the next one.
        is_past = is_past or said.kind == "this_month"
        return vague_days.day_of_month(number, today, is_past=is_past) or today
    return _in_year(said, today, is_past=is_past)


def _weekday(said: DaySaid, today: date, *, is_past: bool) -> date:
    wanted = WEEKDAYS.index(said.day)
    back = (today.weekday() - wanted) % 7
    if said.which == "last" or (is_past and said.which != "next"):
        return today - timedelta(days=back or (7 if said.which == "last" else 0))
    return today + timedelta(days=(7 - back) if back or said.which == "next" else 0)


def _in_year(said: DaySaid, today: date, *, is_past: bool) -> date | Unread:
    number = int(said.count) or 15
    for year in [said.year] if said.year else [today.year, today.year - 1, today.year + 1]:
        try:
            day = date(year, said.month, number)
        except ValueError:
            return Unread(said.day, "reading.no_such_day", "3 April")
        if said.year or (day <= today) == is_past:
            return day
    return day
