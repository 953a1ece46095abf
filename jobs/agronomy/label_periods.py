"""The spans a label's maximum counts over."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, timedelta
from typing import Final

from jobs.agronomy.maxima import Period

#: Month a season of use begins: an August to July season keeps an autumn round together with the
#: spring it protects. Labels leave "season" open; our inference, beside the calendar year.
SEASON_MONTH: Final = 8


def windows(period: Period, on: date, days: Iterable[date]) -> tuple[tuple[date, date], ...]:
    """Return every span (first and last day) that a maximum of the period counts over.

    One for an application or a calendar year. A season is read as the calendar year and as August
    to July, whichever holds more. Twelve months are every such span with the day in it that begins
    on an application or on the day itself; "unsaid" is read as that too, for no other period's span
    holds more.
    """
    if period == "application":
        return ((on, on),)
    year = (date(on.year, 1, 1), date(on.year, 12, 31))
    if period == "calendar_year":
        return (year,)
    if period == "season":
        start = date(on.year if on.month >= SEASON_MONTH else on.year - 1, SEASON_MONTH, 1)
        return (year, (start, _year_later(start) - timedelta(days=1)))
    starts = sorted({day for day in days if day <= on < _year_later(day)} | {on})
    return tuple((start, _year_later(start) - timedelta(days=1)) for start in starts)


def _year_later(day: date) -> date:
    if (day.month, day.day) == (2, 29):
        return date(day.year + 1, 3, 1)
    return day.replace(year=day.year + 1)
