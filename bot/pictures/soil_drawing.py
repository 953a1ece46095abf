"""How the soil chart is drawn.

Everything can be told apart without colour: the measured line is thick and solid, past years are
hatched, the outlook is filled with a dashed middle, the trade's band has dash-dotted edges; each
is named where it is drawn. What to do stands above in words.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta
from typing import Final

import numpy as np

from bot.pictures.lettering import Curve, Label, place_labels
from bot.pictures.page import (
    GREY,
    INK,
    LARGE,
    LEADING,
    MARGIN,
    PAPER,
    SMALL,
    WIDTH,
    Box,
    Page,
    drawable,
    width_of,
    wrapped,
)
from bot.pictures.soil_chart import SoilChart, as_float
from bot.saying.catalogue import shown
from bot.saying.values import Month

#: Height of the plot itself [px].
_PLOT: Final = 780
_SCALE: Final = 108

#: A name inside the trade's band may cover this much of the lines, or goes elsewhere.
_COVERED: Final = 40.0

_MEASURED: Final = "#08306b"
_OUTER: Final = "#f2d3a8"
_INNER: Final = "#d99a4e"
_MIDDLE: Final = "#5c3206"
_HATCH: Final = "#8c8c8c"
_BAND: Final = "#3d1a6b"


def soil_chart_page(chart: SoilChart) -> Page:
    """Return the drawn page, for saving or for looking at its parts."""
    page = Page(1400)
    top = _head(page, chart)
    plot = _Plot(chart, Box(MARGIN + _SCALE, top, WIDTH - MARGIN, top + _PLOT))
    lanes_end = _lanes(page, chart, plot)
    months_end = _months(page, chart, plot, lanes_end)
    _grid(page, chart, plot)
    _curves(page, chart, plot)
    _labels(page, chart, plot)
    page.set_height(_notes(page, chart, months_end + 22) + MARGIN * 0.7)
    return page


class _Plot:
    """Where days and degrees lie on the page, and the values as arrays."""

    def __init__(self, chart: SoilChart, box: Box) -> None:
        self.box = box
        self.first_day = chart.first_day
        self.days = chart.days
        rows = [chart.this_year, chart.past_mean, chart.past_low, chart.past_high, *chart.fan]
        self.this_year, self.mean, self.low, self.high, *fan = (
            np.array([as_float(value) for value in row]) for row in rows
        )
        self.fan = np.array(fan)
        self.step = 10.0 if chart.unit == "°F" else 5.0
        values = np.concatenate([self.this_year, self.low, self.high, self.fan[0], self.fan[-1]])
        values = np.append(values[np.isfinite(values)], chart.band)
        self.least = np.floor((values.min() - self.step * 0.1) / self.step) * self.step
        self.most = np.ceil((values.max() + self.step * 0.1) / self.step) * self.step
        self.xs = self.x_of_number(np.arange(chart.days))

    def x_of_number(self, number: np.ndarray) -> np.ndarray:
        share = np.asarray(number, dtype=float) / max(1, self.days - 1)
        return np.asarray(self.box.left + share * self.box.width)

    def x(self, day: date) -> float:
        number = float((day - self.first_day).days)
        return float(np.clip(self.x_of_number(np.array(number)), self.box.left, self.box.right))

    def y(self, degrees: np.ndarray | float) -> np.ndarray:
        share = (np.asarray(degrees) - self.least) / (self.most - self.least)
        return np.asarray(self.box.bottom - share * self.box.height)


def _head(page: Page, chart: SoilChart) -> float:
    y = MARGIN * 0.8
    room = WIDTH - 2 * MARGIN
    if chart.badge:
        lines = wrapped(drawable(chart.badge), room - 40, SMALL, is_bold=True)
        strip = Box(MARGIN, y, WIDTH - MARGIN, y + len(lines) * SMALL * LEADING + 20)
        page.box(strip, facecolor=INK, zorder=5)
        page.text(MARGIN + 20, y + 10, lines, is_bold=True, colour=PAPER)
        y = strip.bottom + 18
    title = wrapped(drawable(chart.title), room, SMALL, most_lines=2)
    y = page.text(MARGIN, y, title, colour=GREY).bottom + 6
    headline = wrapped(drawable(chart.headline), room, LARGE, is_bold=True, most_lines=3)
    y = page.text(MARGIN, y, headline, size=LARGE, is_bold=True).bottom
    return y + 16 + SMALL * LEADING + 20  # today's label stands above the plot


def _grid(page: Page, chart: SoilChart, plot: _Plot) -> None:
    box = plot.box
    for degrees in np.arange(plot.least, plot.most + 0.1, plot.step):
        y = float(plot.y(degrees))
        page.line([box.left, box.right], [y, y], color="#c4c4c4", lw=1.2, zorder=1)
        is_top = degrees > plot.most - 0.1
        words = f"{degrees:.0f}" + (f" {chart.unit}" if is_top else "")
        page.text(box.left - 12, y - SMALL * 0.62, words, align="right", colour=GREY)
    page.line([box.left, box.right], [box.bottom, box.bottom], lw=2.5, zorder=6)
    low, high = (float(plot.y(edge)) for edge in chart.band)
    page.box(Box(box.left, high, box.right, low), facecolor="#e9e2f3", zorder=0.5)
    for y in (low, high):
        page.line(
            [box.left, box.right], [y, y], color=_BAND, lw=2.4, ls=(0, (8, 3, 2, 3)), zorder=4
        )
    x = plot.x(chart.today)
    label = drawable(chart.today_label)
    half = width_of(label, SMALL, is_bold=True) / 2
    centre = min(max(x, MARGIN + half), WIDTH - MARGIN - half)
    top = box.top - SMALL * LEADING - 20
    page.text(centre, top, label, is_bold=True, align="center")
    page.line([x, x], [box.top - 14, box.bottom], lw=3.0, zorder=5)


def _curves(page: Page, chart: SoilChart, plot: _Plot) -> None:
    xs = plot.xs
    fill = page.axes.fill_between
    fill(
        xs, plot.y(plot.low), plot.y(plot.high), facecolor="none", edgecolor=_HATCH, hatch="//",
        lw=0.0, zorder=1.5,
    )  # fmt: skip
    for edge in (plot.low, plot.high):
        page.line(xs, plot.y(edge), color=_HATCH, lw=1.6, zorder=1.6)
    page.line(xs, plot.y(plot.mean), color=GREY, lw=3.2, ls=(0, (1.2, 1.4)), zorder=3.2)
    levels = [plot.y(_eased(row)) for row in plot.fan]
    fill(xs, levels[0], levels[4], facecolor=_OUTER, lw=0.0, zorder=2, alpha=0.93)
    fill(xs, levels[1], levels[3], facecolor=_INNER, lw=0.0, zorder=2.1)
    for edge in (levels[0], levels[4]):
        page.line(xs, edge, color=_MIDDLE, lw=1.6, zorder=2.2)
    page.line(xs, levels[2], color=_MIDDLE, lw=4.5, ls=(0, (3.2, 1.6)), zorder=6)
    page.line(xs, plot.y(plot.this_year), color=PAPER, lw=10.0, zorder=6.5)
    page.line(xs, plot.y(plot.this_year), color=_MEASURED, lw=6.5, zorder=7)


def _eased(row: np.ndarray) -> np.ndarray:
    """Smooth a line of the fan over five days for the eye; few past years make it jagged."""
    known = np.flatnonzero(np.isfinite(row))
    out = row.copy()
    for number in known[1:]:
        half = min(2, number - known[0], known[-1] - number)
        out[number] = row[number - half : number + half + 1].mean()
    return out


def _lanes(page: Page, chart: SoilChart, plot: _Plot) -> float:
    """Draw the spans under the plot; return where the last one ends."""
    y = plot.box.bottom + 16
    for span in chart.spans:
        if span.last < chart.first_day or span.first > chart.last_day:
            continue
        left, right = plot.x(span.first), plot.x(span.last)
        right = max(right, left + 14)
        label = drawable(span.label)
        lines = wrapped(label, plot.box.width + _SCALE, SMALL, is_bold=True)
        half = max(width_of(words, SMALL, is_bold=True) for words in lines) / 2
        centre = min(max((left + right) / 2, MARGIN + half), WIDTH - MARGIN - half)
        bar = Box(left, y, right, y + 30)
        style = (0, (2, 2))
        if span.middle is None:
            page.box(bar, facecolor="#b9d3ea", edgecolor=INK, lw=2.5, hatch="xx", zorder=4)
        else:
            middle = plot.x(span.middle)
            page.line([left, right], [y + 15, y + 15], lw=4, zorder=4)
            for edge in (left, right):
                page.line([edge, edge], [y + 4, y + 26], lw=4, zorder=4)
            page.line(
                [middle], [y + 15], marker="D", ms=22, mfc=PAPER, mec=INK, mew=4, zorder=5, lw=0
            )
        for edge in (left, right) if span.middle is None else ():
            if plot.box.left < edge < plot.box.right:
                page.line([edge, edge], [plot.box.top, y], lw=2, ls=style, color=GREY, zorder=3)
        written = page.text(
            centre, bar.bottom + 2, lines, is_bold=True, align="center", has_halo=True
        )
        y = written.bottom + 12
    return y


def _months(page: Page, chart: SoilChart, plot: _Plot, lanes_end: float) -> float:
    """Draw a line for each first of a month down to its name; return where the names end."""
    box = plot.box
    base = lanes_end + 2
    page.line([box.left, box.right], [base, base], lw=1.5, color=GREY, zorder=1)
    starts = [
        day
        for day in (chart.first_day + timedelta(days=i) for i in range(chart.days))
        if day.day == 1
    ]
    edges = [box.left, *(plot.x(day) for day in starts), box.right]
    months = [chart.first_day, *starts]
    for x in edges[1:-1]:
        page.line([x, x], [box.top, base + 12], color="#c4c4c4", lw=1.2, zorder=1)
    for day, left, right in zip(months, edges, edges[1:], strict=False):
        name = shown(Month(day.month))
        if right - left >= width_of(name) + 8:
            page.text((left + right) / 2, base + 8, name, align="center", colour=GREY)
    return base + 8 + SMALL * LEADING


def _labels(page: Page, chart: SoilChart, plot: _Plot) -> None:
    xs = plot.xs
    curves = {
        "this_year": Curve(xs, plot.y(plot.this_year), 3.0),
        "past": Curve(xs, plot.y(plot.mean), 1.0),
        "low": Curve(xs, plot.y(plot.low), 0.4),
        "high": Curve(xs, plot.y(plot.high), 0.4),
        "fan": Curve(xs, plot.y(plot.fan[2]), 2.0),
        "fan_low": Curve(xs, plot.y(plot.fan[0]), 1.0),
        "fan_high": Curve(xs, plot.y(plot.fan[4]), 1.0),
    }
    obstacles: list[Curve] = list(curves.values())
    span_ys = np.linspace(plot.box.top, plot.box.bottom, 120)
    obstacles.append(Curve(np.full(120, plot.x(chart.today)), span_ys, 3.0))
    for span in chart.spans:
        if span.middle is None:
            obstacles += [
                Curve(np.full(120, plot.x(edge)), span_ys, 1.0) for edge in (span.first, span.last)
            ]
    line = np.linspace(plot.box.left, plot.box.right, 200)
    low, high = (float(plot.y(edge)) for edge in chart.band)
    band_label = Label(
        (drawable(chart.band_label),), Curve(line, np.full(200, (low + high) / 2), 0.0), _BAND, True
    )
    room = max(band_label.size[1] / 2 + 12, (low - high) / 2)
    inside = Box(plot.box.left, (low + high) / 2 - room, plot.box.right, (low + high) / 2 + room)
    band_placed = place_labels([band_label], list(curves.values()), inside)
    if band_placed[0] is None or band_placed[0].covered > _COVERED:
        band_placed = place_labels([band_label], obstacles, plot.box)
    obstacles += [Curve(line, np.full(200, y), 1.0) for y in (low, high)]
    # The larger ones first: a small one finds its place between them.
    wanted = [
        (chart.fan_label, curves["fan"], _MIDDLE, True),
        (chart.past_label, _before_fan(curves["past"], curves["fan"]), GREY, True),
        (chart.this_year_label, curves["this_year"], _MEASURED, True),
    ]
    labels = [
        Label(_lines(words), curve, colour, is_bold)
        for words, curve, colour, is_bold in wanted
        if words and np.isfinite(curve.ys).any()
    ]
    taken = [placed.box for placed in band_placed if placed is not None]
    found = [*band_placed, *place_labels(labels, obstacles, plot.box, taken)]
    for label, placed in zip([band_label, *labels], found, strict=True):
        if placed is None:
            continue
        page.text(
            placed.box.left,
            placed.box.top,
            label.lines,
            is_bold=label.is_bold,
            colour=label.colour,
            has_halo=True,
            order=9,
        )
        if placed.leader is not None:
            (x0, y0), (x1, y1) = placed.leader
            page.line([x0, x1], [y0, y1], color=PAPER, lw=6, zorder=7.9)
            page.line([x0, x1], [y0, y1], color=label.colour, lw=2.5, zorder=8)
            page.line([x1], [y1], marker="o", ms=11, mfc=label.colour, mec=PAPER, mew=2, zorder=8)


def _before_fan(past: Curve, fan: Curve) -> Curve:
    """Return the part of the past years' line that the outlook does not lie over."""
    alone = np.where(np.isfinite(fan.ys), np.nan, past.ys)
    return Curve(past.xs, alone, past.weight) if np.isfinite(alone).sum() > 10 else past


def _lines(words: str) -> tuple[str, ...]:
    return tuple(drawable(line) for line in words.split("\n"))


def _notes(page: Page, chart: SoilChart, y: float) -> float:
    for words in filter(None, (drawable(chart.legend), drawable(" ".join(chart.notes)))):
        lines: Sequence[str] = wrapped(words, WIDTH - 2 * MARGIN, SMALL, most_lines=5)
        y = page.text(MARGIN, y, lines, colour=GREY).bottom + 8
    return y
