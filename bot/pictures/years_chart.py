"""Years side by side: when the window opened, what was put down, and when weeds were seen.

One lane a year over the same months. Shapes tell the three apart without colour: a bracket where
the window opened, solid squares for applications with their dates, a cross for the first weeds.
"""

from __future__ import annotations

from collections.abc import Callable
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

_LANE: Final = 172
_YEAR_WIDTH: Final = 120
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
        parts.append(
            say(
                "pictures.years.text",
                year=lane.year,
                applied=applied or say("pictures.years.none"),
            )
        )
    return " ".join(parts)


def years_page(chart: YearsChart) -> Page:
    """Return the drawn page, for saving or for looking at its parts."""
    page = Page()
    top = _head(page, chart)
    left, right = MARGIN + _YEAR_WIDTH, WIDTH - MARGIN
    first, last = _span(chart)

    def x(number: float) -> float:
        return left + (number - first) / (last - first) * (right - left)

    bottom = top + _LANE * len(chart.lanes)
    _months(page, chart, x, Box(left, top, right, bottom), (first, last))
    for place, lane in enumerate(chart.lanes):
        _lane(page, chart, lane, x, top + place * _LANE, Box(left, top, right, bottom))
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


def _lane(page: Page, chart: YearsChart, lane: YearLane, x: _Scale, top: float, box: Box) -> None:
    middle = top + _LANE * 0.36
    page.text(MARGIN, middle - SMALL * 0.7, str(lane.year), is_bold=True)
    page.line([box.left, box.right], [middle] * 2, color=GREY, lw=1.5)
    if lane.opened is not None:
        at = x(lane.opened)
        page.line(
            [at + 14, at, at, at + 14], [middle - 30, middle - 30, middle + 30, middle + 30], lw=5
        )
    for number in lane.applied:
        at = x(number)
        page.box(Box(at - _MARK, middle - _MARK, at + _MARK, middle + _MARK), facecolor=INK)
    if lane.first_seen is not None:
        at = x(lane.first_seen)
        for slope in (-1, 1):
            page.line([at - 18, at + 18], [middle - 18 * slope, middle + 18 * slope], lw=6)
    taken: list[Box] = []
    for number in lane.applied:
        words = shown(_day(chart, lane, number))
        half = width_of(words) / 2
        at = min(max(x(number), box.left + half), box.right - half)
        label = Box(at - half, middle + 34, at + half, middle + 34 + SMALL * LEADING)
        if any(label.meets(other) for other in taken):
            label = Box(label.left, label.top + SMALL * LEADING, label.right, label.bottom + 40)
        taken.append(label)
        page.text(at, label.top, words, align="center", has_halo=True)


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
