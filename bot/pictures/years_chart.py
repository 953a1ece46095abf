"""Years side by side: when the window opened, what was put down, and when weeds were seen.

One lane a year over the same months. Shapes tell the three apart without colour, and none lies on
another: above the line a bracket where the window opened and a cross for the first weeds, on it
solid squares for applications. Each has its date, above or below.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from datetime import date, timedelta
from typing import Final

from bot.pictures.page import (
    GREY,
    INK,
    LARGE,
    LEADING,
    MARGIN,
    SMALL,
    WIDTH,
    Box,
    Page,
    drawable,
    width_of,
    wrapped,
)
from bot.saying.catalogue import say, shown
from bot.saying.values import Month, Names, ShortDay
from bot.saying.voice import language_now

#: From a day of a lane to its place across the page.
_Scale = Callable[[float], float]

_YEAR_WIDTH: Final = 130
#: Height of a line of dates, and how far the marks reach from a lane's line [px].
_LINE: Final = SMALL * LEADING
_REACH: Final = 64
_MARK: Final = 15.0
#: Months in a lane, and its days.
_MONTHS: Final = 16
_DAYS: Final = 488


@dataclass(frozen=True, slots=True)
class YearLane:
    """One season: days counted from the first day of its lane; None where there is none."""

    year: int
    opened: int | None
    applied: tuple[int, ...]
    first_seen: int | None


@dataclass(frozen=True, slots=True)
class YearsChart:
    """What the picture shows: a title, and a lane a year, oldest first.

    Lanes begin in the year before their own, so that a half put down in autumn has its place:
    with September, or with March south of the equator (`first_month`).
    """

    title: str
    lanes: tuple[YearLane, ...]
    first_month: int = 9
    is_invented: bool = False
    lang: str = field(default_factory=language_now)


def describe_years(chart: YearsChart) -> str:
    """Return the picture as one line of text."""
    parts = []
    for lane in chart.lanes:
        applied = Names([_day(chart, lane, number) for number in lane.applied])
        key = "pictures.years.text" if lane.applied else "pictures.years.text_none"
        parts.append(say(key, year=lane.year, applied=applied))
        for mark, number in (("opened", lane.opened), ("seen", lane.first_seen)):
            if number is not None:
                parts.append(say(f"pictures.years.text_{mark}", day=_day(chart, lane, number)))
    return " ".join(parts)


def years_page(chart: YearsChart) -> Page:
    """Return the drawn page, for saving or for looking at its parts."""
    page = Page()
    top = _head(page, chart)
    left, right = MARGIN + _YEAR_WIDTH, WIDTH - MARGIN
    first, last = _span(chart)

    def x(number: float) -> float:
        return left + (number - first) / (last - first) * (right - left)

    ends = top
    placed = []
    for lane in chart.lanes:
        dates = _dates(chart, lane, x, (left, right))
        above, below = (max((row + 1 for _, _, row in each), default=0) for each in dates)
        middle = ends + 10 + max(1, above) * _LINE + _REACH
        ends = middle + _MARK + 24 + max(1, below) * _LINE
        placed.append((lane, middle, ends, dates))
    box = Box(left, top, right, ends)
    _months(page, chart, x, box, (first, last))
    for lane, middle, foot, dates in placed:
        _lane(page, lane, x, middle, box)
        page.line([MARGIN, right], [foot] * 2, color="#c0c0c0", lw=1.5)
        for sign, each in zip((-1, 1), dates, strict=True):
            edge = middle - _REACH - 6 - _LINE if sign < 0 else middle + _MARK + 6
            for at, words, row in each:
                page.text(at, edge + sign * row * _LINE, words, align="center", has_halo=True)
    bottom = ends
    page.set_height(_key(page, chart, bottom + 70) + MARGIN * 0.7)
    return page


def _head(page: Page, chart: YearsChart) -> float:
    top = float(MARGIN)
    if chart.is_invented:
        strip = Box(MARGIN, top, WIDTH - MARGIN, top + SMALL * 1.7)
        page.box(strip, facecolor=INK)
        words = say("pictures.invented")
        page.text(MARGIN + 20, top + 6, words, is_bold=True, colour="#ffffff")
        top = strip.bottom + 18
    title = drawable(chart.title, say("pictures.years.title"))
    lines = wrapped(title, WIDTH - 2 * MARGIN, LARGE, is_bold=True, most_lines=3)
    return page.text(MARGIN, top, lines, size=LARGE, is_bold=True).bottom + 24


def _span(chart: YearsChart) -> tuple[int, int]:
    """Return the first and last day shown: whole months around all that happened."""
    found = [
        number
        for lane in chart.lanes
        for number in (lane.opened, lane.first_seen, *lane.applied)
        if number is not None
    ]
    first = max(0, min(found, default=60) - 30)
    last = min(_DAYS, max(found, default=200) + 30)
    return first, max(last, first + 120)


def _months(page: Page, chart: YearsChart, x: _Scale, box: Box, span: tuple[int, int]) -> None:
    for number in range(_MONTHS):
        month = (chart.first_month - 1 + number) % 12 + 1
        begins, ends = _begin(chart, number), _begin(chart, number + 1)
        if span[0] <= begins <= span[1]:
            page.line([x(begins)] * 2, [box.top, box.bottom], color="#c0c0c0", lw=1.5)
        middle = (max(begins, span[0]) + min(ends, span[1])) / 2
        name = shown(Month(month))
        room = x(min(ends, span[1])) - x(max(begins, span[0]))
        if ends > span[0] and begins < span[1] and room > width_of(name) + 8:
            page.text(x(middle), box.bottom + 10, name, align="center", colour=GREY)
    page.line([box.left, box.right], [box.bottom] * 2)


#: A date where it is written: its middle, its words, and how many lines from its lane.
_Date = tuple[float, str, int]


def _dates(
    chart: YearsChart, lane: YearLane, x: _Scale, ends: tuple[float, float]
) -> tuple[list[_Date], list[_Date]]:
    """Return the dates above a lane and below it, moved away a line where two would meet."""
    above = [number for number in (lane.opened, lane.first_seen) if number is not None]
    return _apart(chart, lane, above, x, ends), _apart(chart, lane, lane.applied, x, ends)


def _apart(
    chart: YearsChart, lane: YearLane, numbers: Sequence[int], x: _Scale, ends: tuple[float, float]
) -> list[_Date]:
    taken: list[float] = []
    found = []
    for number in sorted(numbers):
        words = shown(_day(chart, lane, number))
        half = width_of(words) / 2 + 6
        at = min(max(x(number), ends[0] + half), ends[1] - half)
        row = next((n for n, right in enumerate(taken) if at - half > right), len(taken))
        taken[row : row + 1] = [at + half]
        found.append((at, words, row))
    return found


def _lane(page: Page, lane: YearLane, x: _Scale, middle: float, box: Box) -> None:
    page.text(MARGIN, middle - SMALL * 0.7, str(lane.year), is_bold=True)
    page.line([box.left, box.right], [middle] * 2, color=GREY, lw=1.5)
    if lane.opened is not None:
        at = x(lane.opened)
        top, foot = middle - _REACH, middle - _MARK - 8
        page.line([at + 14, at, at, at + 14], [top, top, foot, foot], lw=5)
    for number in lane.applied:
        at = x(number)
        page.box(Box(at - _MARK, middle - _MARK, at + _MARK, middle + _MARK), facecolor=INK)
    if lane.first_seen is not None:
        at, up = x(lane.first_seen), middle - _MARK - 24
        for slope in (-1, 1):
            page.line([at - 16, at + 16], [up - 16 * slope, up + 16 * slope], lw=6)


def _key(page: Page, chart: YearsChart, top: float) -> float:
    for mark in ("opened", "applied", "seen"):
        middle, at = top + SMALL * 0.65, MARGIN + 20.0
        if mark == "opened":
            page.line([at + 10, at, at, at + 10], [top, top, top + 40, top + 40], lw=5)
        elif mark == "applied":
            page.box(Box(at - _MARK, middle - _MARK, at + _MARK, middle + _MARK), facecolor=INK)
        else:
            for slope in (-1, 1):
                page.line([at - 16, at + 16], [middle - 16 * slope, middle + 16 * slope], lw=6)
        words = wrapped(say(f"pictures.years.{mark}"), WIDTH - 2 * MARGIN - 60)
        top = page.text(MARGIN + 60, top, words).bottom + 12
    return top


def lane_begins(year: int, first_month: int) -> date:
    """Return the first day of a year's lane."""
    return date(year - 1, first_month, 1)


def _day(chart: YearsChart, lane: YearLane, number: int) -> ShortDay:
    day = lane_begins(lane.year, chart.first_month) + timedelta(days=number)
    return ShortDay(day)


def _begin(chart: YearsChart, number: int) -> int:
    """Return the day on which a lane's month begins, in a year without 29 February."""
    years, month = divmod(chart.first_month - 1 + number, 12)
    return (date(2022 + years, month + 1, 1) - lane_begins(2023, chart.first_month)).days
