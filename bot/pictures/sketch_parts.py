"""What sketches are made of: ground, cut-outs, the north arrow and the scale bar."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, Final

from bot.hearing.readers.lexing import figures
from bot.pictures.outlines import Outline
from bot.pictures.page import INK, LEADING, MARGIN, PAPER, SMALL, Page
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


_TURF: Final = "#dcebd0"
_HARD: Final = "#f4f4f4"
_LINE: Final = 3.5

#: Longest scale bar [px].
_LONGEST_BAR: Final = 380.0


def draw_outline(page: Page, found: Outline, to_page: ToPage, *, is_treated: bool = True) -> None:
    """Draw a zone: its ground filled, what is cut out or not treated hatched."""
    dashes: Any = (0, (4, 2)) if found.is_area_only else "solid"
    for cut in found.cutouts:
        _draw(
            page, cut, to_page, facecolor=_HARD, edgecolor="#595959", hatch="//", lw=2.0, zorder=2
        )
    style = (
        {"facecolor": _TURF} if is_treated else {"facecolor": _HARD, "hatch": "..", "zorder": 1.9}
    )
    _draw(page, found.ground, to_page, edgecolor=INK, lw=_LINE, ls=dashes, **{"zorder": 3, **style})


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
