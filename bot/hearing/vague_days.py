"""Days said in the rough: ``last week``, ``a couple weeks ago``, ``earlier this month``.

What was put down is on record by its day: how soon it is watered in, when the next one is due and
when to seed count from it. So the days it may have been are told apart, to be asked between.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta
from functools import partial
from typing import Final

from bot.hearing.phrases import phrases

_DAY: Final = timedelta(days=1)
_WEEK: Final = 7
_says: Final = partial(phrases, "sentences")
#: "A couple of", "a few": so many at least and at most.
_FEW: Final = {"couple": (2.0, 3.0), "few": (2.0, 5.0)}
_MONTH_THIRDS: Final = {"early": (1, 10), "mid": (11, 20), "late": (21, 31)}


def find_rough(text: str) -> Iterator[tuple[int, int, str, int]]:
    """Return what is said of a day beside the lists of words: where, its kind, day of the month."""
    for name in ("this_month", "lately"):
        for said in _says(name).every(text):
            yield said.start, said.end, name, 0
    for said in _says("of_month").every(text):
        number = int(said["day"])
        if 1 <= number <= 31:
            yield said.start, said.end, "about_the" if said["about"] else "on_the", number


def day_of_month(number: int, today: date, *, is_past: bool = True) -> date | None:
    """Return the last day of that number up to today, or the next one."""
    days = (today - _DAY * n if is_past else today + _DAY * n for n in range(70))
    return next((day for day in days if day.day == number), None)


def count_of(words: str) -> float:
    """Return a number for "a few", to reckon with where nothing hangs on it."""
    return 2.0 if _few(words) is not None else float(words)


def likely(kind: str, said: str, count: float, month: int, today: date) -> tuple[date, ...]:
    """Return the days that may be meant of something done, oldest first; empty where it is one."""
    first, last = _between(kind, said, count, month, today)
    if first is None or last is None:
        return ()
    last = min(last, today)
    days = tuple(first + _DAY * n for n in range((last - first).days + 1))
    return days if len(days) > 1 else ()


def _between(
    kind: str, said: str, count: float, month: int, today: date
) -> tuple[date | None, date | None]:
    monday = today - _DAY * today.weekday()
    match kind:
        case "near" if said == "last week":
            return monday - _DAY * _WEEK, monday - _DAY
        case "near" if said == "this week":
            return monday, today
        case "weekend":
            saturday = today - _DAY * ((today.weekday() - 5) % _WEEK)
            is_running = "last" in said and today - saturday <= _DAY
            saturday -= _DAY * (_WEEK if is_running else 0)
            return saturday, saturday + _DAY
        case "ago":
            return _ago(said, count, today)
        case "month":
            return _of_month(said, month, today)
        case "this_month":
            first, last = _third(said) or (1, today.day)
            return today.replace(day=first), today.replace(day=min(last, today.day))
        case "lately":
            return today - _DAY * 10, today - _DAY
        case "about_the":
            day = day_of_month(round(count), today)
            return (None, None) if day is None else (day - _DAY * 2, day + _DAY * 2)
    return None, None


def _ago(said: str, count: float, today: date) -> tuple[date | None, date | None]:
    few = _few(said)
    unit = 7 if _says("weeks").first(said) else 30 if _says("months").first(said) else 1
    if few is None and unit < 30:
        return None, None
    low, high = few or (count / unit, count / unit)
    if unit == 1:
        return today - _DAY * round(high), today - _DAY * round(low)
    # Weeks are off by a few days, months by a week.
    slack = 2 if unit == 7 else 7
    high = min(high, low + 1) if unit == 7 else high
    return today - _DAY * round(high * unit - slack), today - _DAY * round(low * unit - slack)


def _few(words: str) -> tuple[float, float] | None:
    return next((span for name, span in _FEW.items() if _says(name).first(words)), None)


def _of_month(said: str, month: int, today: date) -> tuple[date | None, date | None]:
    year = today.year if (month, 1) <= (today.month, today.day) else today.year - 1
    first, last = _third(said) or (1, 31)
    end = (date(year, month, 28) + _DAY * 4).replace(day=1) - _DAY
    return date(year, month, first), end.replace(day=min(last, end.day))


def _third(said: str) -> tuple[int, int] | None:
    return next((days for name, days in _MONTH_THIRDS.items() if _says(name).first(said)), None)
