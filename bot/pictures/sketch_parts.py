"""What sketches are made of: ground, cut-outs, the north arrow and the scale bar."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any, Final, Literal, TypeAlias

from bot.hearing.readers.lexing import figures
from bot.pictures.outlines import Outline
from bot.pictures.page import INK, LEADING, MARGIN, PAPER, SMALL, Box, Page
from bot.saying.voice import UnitSystem
from jobs.agronomy import units


@dataclass(frozen=True, slots=True)
class ToPage:
    """From metres (y upwards) to the page: scale [px per m], and where the origin comes to lie."""

    scale: float
    x: float
    y: float

    def __call__(self, points: Any) -> list[tuple[float, float]]:
        """Return points on the page."""
        return [(self.x + px * self.scale, self.y - py * self.scale) for px, py in points]

    @property
    def matrix(self) -> tuple[float, float, float, float, float, float]:
        """The same, as shapely takes it."""
        return self.scale, 0.0, 0.0, -self.scale, self.x, self.y


#: How a zone is drawn: still to do, done, or left untreated.
Look: TypeAlias = Literal["open", "done", "left"]

_TURF: Final = "#dcebd0"
_DONE: Final = "#b3cf9d"
_HARD: Final = "#f4f4f4"
_LINE: Final = 3.5
#: A check mark is between so wide [px].
_LEAST_TICK: Final = 40.0
_MOST_TICK: Final = 110.0

#: Longest scale bar [px].
_LONGEST_BAR: Final = 380.0


def draw_outline(page: Page, found: Outline, to_page: ToPage, look: Look = "open") -> list[Box]:
    """Draw a zone: filled, what is cut out or left untreated hatched, what is done ticked.

    Returns where the tick is, which no words shall cover; nothing without one.
    """
    dashes: Any = (0, (4, 2)) if found.is_area_only else "solid"
    for cut in found.cutouts:
        _draw(
            page, cut, to_page, facecolor=_HARD, edgecolor="#595959", hatch="//", lw=2.0, zorder=2
        )
    style: dict[str, Any] = {"facecolor": _DONE if look == "done" else _TURF}
    if look == "left":
        style = {"facecolor": _HARD, "hatch": "..", "zorder": 1.9}
    _draw(page, found.ground, to_page, edgecolor=INK, lw=_LINE, ls=dashes, **{"zorder": 3, **style})
    if found.buffer is not None:
        _draw(page, found.buffer, to_page, facecolor=_HARD, hatch="..", lw=2.0, zorder=3.1)
    return [_tick(page, found.ground, to_page)] if look == "done" else []


def with_buffer(found: Outline, area_m2: float) -> Outline:
    """Return an outline with a band of so much area along its lower edge left untreated."""
    from shapely import box

    left, bottom, right, top = found.ground.bounds
    low, high = bottom, top
    for _ in range(24):
        middle = (low + high) / 2
        band = found.ground.intersection(box(left, bottom, right, middle))
        low, high = (middle, high) if band.area < area_m2 else (low, middle)
    return replace(found, buffer=found.ground.intersection(box(left, bottom, right, high)))


def _tick(page: Page, ground: Any, to_page: ToPage) -> Box:
    """Draw a check mark in the widest part of a ground, within it."""
    from shapely import maximum_inscribed_circle

    circle = maximum_inscribed_circle(ground)
    ((x, y),) = to_page([circle.coords[0]])
    size = max(_LEAST_TICK, min(_MOST_TICK, circle.length * to_page.scale * 0.8))
    xs = [x + size * across for across in (-0.5, -0.15, 0.5)]
    ys = [y + size * down for down in (0.0, 0.35, -0.4)]
    page.axes.plot(xs, ys, color=INK, lw=max(5.0, size / 9), zorder=4, solid_capstyle="round")
    return Box(xs[0], ys[2], xs[2], ys[1]).grown(8)


def _draw(page: Page, ground: Any, to_page: ToPage, **style: Any) -> None:
    from matplotlib.patches import PathPatch
    from matplotlib.path import Path

    for polygon in polygons(ground):
        rings = [polygon.exterior, *polygon.interiors]
        paths = [Path(to_page(ring.coords), closed=True) for ring in rings]
        page.axes.add_patch(
            PathPatch(Path.make_compound_path(*paths), **{"joinstyle": "miter", **style})
        )


def polygons(ground: Any) -> list[Any]:
    """Return the polygons of a geometry; stray lines and points are left out."""
    if ground.geom_type == "Polygon":
        return [] if ground.is_empty else [ground]
    return [part for each in getattr(ground, "geoms", ()) for part in polygons(each)]


def north_arrow(page: Page, x: float, y: float, words: str) -> float:
    """Draw an arrow pointing up at ``x``, from ``y`` down; return where it ends."""
    from matplotlib.patches import Polygon

    for side in (-1, 1):
        corners = [(x, y), (x + side * 24, y + 78), (x, y + 62)]
        page.axes.add_patch(
            Polygon(
                corners, closed=True, facecolor=INK if side < 0 else PAPER, edgecolor=INK, lw=2.5
            )
        )
    return page.text(x, y + 82, words, is_bold=True, align="center").bottom


def scale_bar(page: Page, y: float, scale: float, system: UnitSystem) -> float:
    """Draw a bar of a round length with its name; return where it ends."""
    unit = "ft" if system == "us" else "m"
    unit_px = units.si_factor(unit) * scale
    length = _round_below(_LONGEST_BAR / unit_px)
    wide = length * unit_px
    left, right = float(MARGIN), MARGIN + wide
    page.line([left, right], [y + 14, y + 14], lw=5)
    for x in (left, left + wide / 2, right):
        page.line([x, x], [y + 2, y + 26], lw=3.5)
    page.text(right + 18, y + 14 - SMALL * 0.66, f"{figures(length)} {unit}", is_bold=True)
    return y + 14 + SMALL * LEADING * 0.7


def _round_below(value: float) -> float:
    """Return the largest 1, 2 or 5 times a power of ten that is not above a value."""
    exponent = 0
    while value >= 10.0:
        value, exponent = value / 10.0, exponent + 1
    while value < 1.0:
        value, exponent = value * 10.0, exponent - 1
    step = 5 if value >= 5 else 2 if value >= 2 else 1
    return float(step * 10.0**exponent) if exponent >= 0 else step / 10.0**-exponent
