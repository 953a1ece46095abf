"""From shapes measured in words to outlines that can be drawn.

The one place where a `Shape` becomes geometry. An outline always covers exactly the shape's area:
what a tape cannot tell (where the pieces of a sum lie, where a house stands in its lawn, which way
a triangle leans) is chosen plainly, and curves are drawn with many corners and then scaled to the
area. shapely is imported only when something is drawn.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any, Final

import numpy as np

from jobs.agronomy import shapes
from jobs.agronomy.shapes import Shape

#: Corners of a full circle.
_ROUND: Final = 128

#: Points between two measured ones on a curved edge.
_BETWEEN: Final = 16

#: Places tried along and across a lawn for something whose place nobody gave.
_TRIES: Final = 16

#: How far geometry may stray from the area before another way is taken, relative.
_CLOSE: Final = 1e-7


@dataclass(frozen=True, slots=True, eq=False)
class Outline:
    """A shape as geometry, in metres, y upwards.

    Attributes
    ----------
    ground
        What is treated: a shapely polygon or multipolygon, cut-outs taken out.
    cutouts
        The pieces taken out, each a polygon or multipolygon.
    is_placed
        True where the coordinates are east and north of the yard's point.
    is_north_up
        True where the way it lies is known, though perhaps not the place.
    is_area_only
        True where nothing but an area was given: drawn as a square of that area.
    are_cutouts_placed
        False where the place of a cut-out (or, where it fits nowhere, its form) was chosen here.
    buffer
        The band along water that is left untreated, a part of the ground; None without one.
    """

    ground: Any
    cutouts: tuple[Any, ...] = ()
    is_placed: bool = False
    is_north_up: bool = False
    is_area_only: bool = False
    are_cutouts_placed: bool = True
    buffer: Any = None


def outline(shape: Shape) -> Outline:
    """Return the outline of a shape; its ground covers ``shape.area_m2``."""
    match shape:
        case shapes.Sum():
            return _sum(shape)
        case shapes.Difference():
            return _difference(shape)
        case shapes.Corners():
            return Outline(_polygon(shape.points_m), is_placed=True, is_north_up=True)
        case shapes.Traverse():
            return Outline(_polygon(shape.corners_m), is_north_up=True)
        case shapes.GivenArea():
            side = math.sqrt(shape.given_m2)
            return Outline(_rectangle(side, side), is_area_only=True)
        case _:
            return Outline(_simple(shape))


def _simple(shape: Shape) -> Any:
    match shape:
        case shapes.Rectangle() | shapes.Strip():
            return _rectangle(shape.length_m, shape.width_m)
        case shapes.Square():
            return _rectangle(shape.side_m, shape.side_m)
        case shapes.Triangle():
            return _polygon([(0, 0), (shape.base_m, 0), (shape.base_m / 2, shape.height_m)])
        case shapes.TriangleOfSides():
            return _triangle(shape)
        case shapes.Circle():
            return _to_area(_sector(shape.radius_m, 1.0), shape.area_m2)
        case shapes.PartCircle():
            return _to_area(_sector(shape.radius_m, shape.fraction), shape.area_m2)
        case shapes.Ellipse():
            return _to_area(_ellipse(shape.length_m, shape.width_m), shape.area_m2)
        case shapes.Trapezoid():
            return _trapezoid(shape)
        case shapes.Offsets():
            return _offsets(shape)
        case shapes.ModifiedOffsets():
            return _modified_offsets(shape)
        case shapes.AverageRadius():
            return _radii(shape)
        case _:
            raise TypeError(f"{type(shape).__name__} has no outline")


def _polygon(points: Any) -> Any:
    from shapely.geometry import Polygon

    return Polygon(points)


def _rectangle(length: float, width: float) -> Any:
    return _polygon([(0, 0), (length, 0), (length, width), (0, width)])


def _triangle(shape: shapes.TriangleOfSides) -> Any:
    short, middle, longest = sorted((shape.a_m, shape.b_m, shape.c_m))
    foot = (middle**2 + longest**2 - short**2) / (2 * longest)
    return _polygon([(0, 0), (longest, 0), (foot, 2 * shape.area_m2 / longest)])


def _sector(radius: float, fraction: float) -> Any:
    turn = 2 * math.pi * fraction
    steps = max(8, math.ceil(_ROUND * fraction))
    angles = np.linspace(0.0, turn, steps + 1)
    rim = np.column_stack([radius * np.cos(angles), radius * np.sin(angles)])
    return _polygon(rim[:-1] if fraction == 1.0 else np.vstack([[0.0, 0.0], rim]))


def _ellipse(length: float, width: float) -> Any:
    angles = np.linspace(0.0, 2 * math.pi, _ROUND, endpoint=False)
    return _polygon(np.column_stack([length / 2 * np.cos(angles), width / 2 * np.sin(angles)]))


def _trapezoid(shape: shapes.Trapezoid) -> Any:
    lean = (shape.side_a_m - shape.side_b_m) / 2
    corners = [(0.0, 0.0), (shape.side_a_m, 0.0)]
    corners += [(lean + shape.side_b_m, shape.height_m), (lean, shape.height_m)]
    return _polygon(corners)


def _offsets(shape: shapes.Offsets) -> Any:
    widths = np.array(shape.offsets_m)
    xs = shape.spacing_m * np.arange(len(widths))
    if shape.rule == "trapezoid":
        return _between(xs, np.zeros(len(xs)), widths, shape.area_m2)
    # A parabola through each three widths, which is what the rule integrates.
    fine = [np.array([0.0])]
    tops = [widths[:1]]
    for i in range(0, len(widths) - 2, 2):
        t = np.linspace(0.0, 2.0, 2 * _BETWEEN + 1)[1:]
        a, b, c = widths[i : i + 3]
        tops.append(a + (b - a) * t + (c - 2 * b + a) / 2 * t * (t - 1))
        fine.append(xs[i] + shape.spacing_m * t)
    top = np.maximum(np.concatenate(tops), 0.0)
    return _between(np.concatenate(fine), np.zeros(len(top)), top, shape.area_m2)


def _modified_offsets(shape: shapes.ModifiedOffsets) -> Any:
    def gaps_at(gaps: tuple[float, ...], xs: np.ndarray) -> np.ndarray:
        middles = (np.arange(len(gaps)) + 0.5) * shape.length_m / len(gaps)
        return np.asarray(np.interp(xs, middles, gaps))

    xs = np.linspace(0.0, shape.length_m, _BETWEEN * max(len(shape.left_m), len(shape.right_m)) + 1)
    low = gaps_at(shape.right_m, xs)
    high = np.maximum(shape.width_m - gaps_at(shape.left_m, xs), low)
    return _between(xs, low, high, shape.area_m2)


def _between(xs: np.ndarray, low: np.ndarray, high: np.ndarray, area_m2: float) -> Any:
    """Return the ground between two edges, its widths scaled to the area."""
    from shapely import unary_union

    width = high - low
    middle = (low + high) / 2 if low.any() else width / 2
    strips = np.diff(xs) * (width[1:] + width[:-1]) / 2
    half = width / 2 * (area_m2 / strips.sum())
    if not low.any():
        middle = half
    pieces = [
        _polygon(
            [
                (xs[i], middle[i] - half[i]),
                (xs[i + 1], middle[i + 1] - half[i + 1]),
                (xs[i + 1], middle[i + 1] + half[i + 1]),
                (xs[i], middle[i] + half[i]),
            ]
        )
        for i in range(len(strips))
        if strips[i] > 0.0
    ]
    return unary_union(pieces)


def _radii(shape: shapes.AverageRadius) -> Any:
    count = len(shape.radii_m)
    turns = np.arange(count + 1) / count
    fine = np.linspace(0.0, 1.0, count * _BETWEEN, endpoint=False)
    radius = np.interp(fine, turns, [*shape.radii_m, shape.radii_m[0]])
    angle = math.pi / 2 - 2 * math.pi * fine  # the first one upwards, then clockwise
    rim = np.column_stack([radius * np.cos(angle), radius * np.sin(angle)])
    return _to_area(_polygon(rim), shape.area_m2)


def _to_area(ground: Any, area_m2: float) -> Any:
    from shapely import affinity

    by = math.sqrt(area_m2 / ground.area)
    return affinity.scale(ground, by, by, origin=(0.0, 0.0))


def _sum(shape: shapes.Sum) -> Outline:
    from shapely import affinity, unary_union

    parts = [outline(part) for part in shape.parts]
    cutouts = tuple(cut for part in parts for cut in part.cutouts)
    are_placed = all(part.is_placed for part in parts)
    are_cutouts_placed = all(part.are_cutouts_placed for part in parts)
    if are_placed:
        ground = unary_union([part.ground for part in parts])
        if _is_close(ground.area, shape.area_m2):
            return Outline(
                ground,
                cutouts,
                is_placed=True,
                is_north_up=True,
                are_cutouts_placed=are_cutouts_placed,
            )
    # Side by side in the order they were said, their feet on one line.
    x = 0.0
    grounds, cuts = [], []
    for part in parts:
        whole = unary_union([part.ground, *part.cutouts])
        left, bottom, right, _ = whole.bounds
        grounds.append(affinity.translate(part.ground, x - left, -bottom))
        cuts += [affinity.translate(cut, x - left, -bottom) for cut in part.cutouts]
        x += right - left
    return Outline(
        unary_union(grounds),
        tuple(cuts),
        is_area_only=all(part.is_area_only for part in parts),
        are_cutouts_placed=are_cutouts_placed,
    )


def _difference(shape: shapes.Difference) -> Outline:
    whole = outline(shape.whole)
    ground = whole.ground
    cutouts: list[Any] = []
    are_placed = True
    holes = sorted((outline(hole) for hole in shape.holes), key=lambda h: -h.ground.area)
    for hole in holes:
        cut = hole.ground
        is_placed = whole.is_placed and hole.is_placed and _takes_all(ground, cut)
        if not is_placed:
            cut = _placed_inside(ground, cut)
        remaining = ground.difference(cut)
        if not _is_close(remaining.area, ground.area - hole.ground.area):
            # Slivers can fold over themselves when moved; a straight cut cannot.
            cut, is_placed = _slab(ground, hole.ground.area), False
            remaining = ground.difference(cut)
        are_placed = are_placed and is_placed
        cutouts.append(cut)
        ground = remaining
    return Outline(
        ground,
        (*whole.cutouts, *cutouts),
        is_placed=whole.is_placed,
        is_north_up=whole.is_north_up,
        is_area_only=whole.is_area_only,
        are_cutouts_placed=whole.are_cutouts_placed and are_placed,
    )


def _takes_all(ground: Any, cut: Any) -> bool:
    return _is_close(ground.intersection(cut).area, cut.area)


def _placed_inside(ground: Any, cut: Any) -> Any:
    """Return a cut-out moved to where it fits, nearest to the middle; else a slab of its area."""
    from shapely import affinity

    left, bottom, right, top = ground.bounds
    centre = ground.centroid
    steps = (np.arange(_TRIES) + 0.5) / _TRIES
    inside = ground.representative_point()
    spots = [(centre.x, centre.y), (inside.x, inside.y)]
    spots += [
        (left + a * (right - left), bottom + b * (top - bottom)) for a in steps for b in steps
    ]
    spots.sort(key=lambda spot: math.hypot(spot[0] - centre.x, spot[1] - centre.y))
    for angle in (0, 90):
        turned = affinity.rotate(cut, angle, origin="center")
        box = turned.bounds
        middle = (box[0] + box[2]) / 2, (box[1] + box[3]) / 2
        for x, y in spots:
            moved = affinity.translate(turned, x - middle[0], y - middle[1])
            if ground.contains(moved):
                return moved
    return _slab(ground, cut.area)


def _slab(ground: Any, area_m2: float) -> Any:
    """Cut a slab of an area off the right side: a straight cut, found by halving."""
    from scipy.optimize import brentq
    from shapely.geometry import box

    left, bottom, right, top = ground.bounds

    def part(x: float) -> Any:
        return ground.intersection(box(x, bottom, right, top))

    x = brentq(lambda at: part(at).area - area_m2, left, right, xtol=1e-13 * (1 + abs(right)))
    return part(x)


def _is_close(one: float, other: float) -> bool:
    return abs(one - other) <= _CLOSE * max(one, other)
