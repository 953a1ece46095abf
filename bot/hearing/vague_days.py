"""Days said in the rough: ``last week``, ``a couple weeks ago``, ``earlier this month``.

What was put down is on record by its day: how soon it is watered in, when the next one is due and
when to seed count from it. So the days it may have been are told apart, to be asked between.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from datetime import date, timedelta
from typing import Final

_DAY: Final = timedelta(days=1)
_WEEK: Final = 7
#: "A few", "a couple of": so many at least and at most.
_FEW: Final = (
    (re.compile(r"couple|par\b"), (2.0, 3.0)),
    (re.compile(r"few|several|un[oa]s|vari[oa]s|algun[oa]s"), (2.0, 5.0)),
)
#: Words for few, as they stand in front of a unit.
FEW_WORDS: Final = (
    r"a few|few|several|(?:a )?couple(?: of)?|(?:un )?par de|un[oa]s(?: cuant[oa]s| poc[oa]s)?"
    r"|vari[oa]s|algun[oa]s"
)
_MONTH_THIRDS: Final = (
    (re.compile(r"\b(?:early|beginning|start|principios|inicios|comienzos)\b"), (1, 10)),
    (re.compile(r"\b(?:mid|middle|mediados)\b"), (11, 20)),
    (re.compile(r"\b(?:late|end|fines|finales)\b"), (21, 31)),
)
_THIS_MONTH: Final = re.compile(
    r"\b(?:(?:early|earlier|late|mid)(?:\s+in)?\s+(?:this|the)\s+month"
    r"|(?:at\s+)?(?:the\s+)?(?:beginning|start|middle)\s+of\s+(?:the|this)\s+month"
    r"|a\s+(?:principios|mediados|inicios)\s+(?:de|del)\s+(?:este\s+)?mes)\b"
)
_LATELY: Final = re.compile(
    r"\b(?:the\s+other\s+day|recently|a\s+while\s+(?:ago|back)|not\s+long\s+ago|el\s+otro\s+dia"
    r"|hace\s+poco(?:s\s+dias)?|hace\s+(?:un\s+rato|tiempo|un\s+tiempo)|recientemente)\b"
)
_OF_MONTH: Final = re.compile(
    r"\b(?:(?P<about>around|about|roughly)|on)\s+the\s+(?P<day>\d{1,2})(?:st|nd|rd|th)\b"
    r"(?!\s*(?:of|zone|yard|house|time|hole|pass|application|round|half|week|lawn)\b)"
    r"|(?P<como>como|cerca\s+del?|alrededor\s+del?)?\s*\b(?:el\s+)?dia\s+(?P<dia>\d{1,2})\b"
    r"(?!\s*(?:de|x)\b)"
)


def find_rough(text: str) -> Iterator[tuple[int, int, str, int]]:
    """Return what is said of a day beside the lists of words: where, its kind, day of the month."""
    for match in _THIS_MONTH.finditer(text):
        yield *match.span(), "this_month", 0
    for match in _LATELY.finditer(text):
        yield *match.span(), "lately", 0
    for match in _OF_MONTH.finditer(text):
        kind = "about_the" if match["about"] or match["como"] else "on_the"
        number = int(match["day"] or match["dia"])
        if 1 <= number <= 31:
            yield *match.span(), kind, number


def day_of_month(number: int, today: date) -> date | None:
    """Return the last day of that number up to today."""
    day = today
    for _ in range(70):
        if day.day == number:
            return day
        day -= _DAY
    return None


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
    unit = 7 if re.search(r"week|semana", said) else 30 if re.search(r"month|mes", said) else 1
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
    return next((span for pattern, span in _FEW if pattern.search(words)), None)


def _of_month(said: str, month: int, today: date) -> tuple[date | None, date | None]:
    year = today.year if (month, 1) <= (today.month, today.day) else today.year - 1
    first, last = _third(said) or (1, 31)
    end = (date(year, month, 28) + _DAY * 4).replace(day=1) - _DAY
    return date(year, month, first), end.replace(day=min(last, end.day))


def _third(said: str) -> tuple[int, int] | None:
    return next((days for pattern, days in _MONTH_THIRDS if pattern.search(said)), None)
