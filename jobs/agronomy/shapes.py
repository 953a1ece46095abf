"""Shapes people can measure with a tape, and the ground they cover.

Every shape is a frozen dataclass in metres with an ``area_m2``; one that cannot exist is refused
when it is made (`ImpossibleShape`), so that no area ever comes from nonsense. Methods and check
values: section 4.3 of the project's agronomy notes (extension practice: split an irregular lawn
into simple shapes, subtract house, drive and beds).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final, Literal, TypeAlias

Points: TypeAlias = tuple[tuple[float, float], ...]

#: Largest closing error of a traverse, as a share of its length, that is still adjusted away
#: rather than refused. Common practice for pacing and a hand compass, no source.
LARGEST_CLOSING_SHARE: Final = 0.05


class ImpossibleShape(ValueError):
    """Raised for a shape that cannot exist.

    Attributes
    ----------
    reason : str
        Which rule it breaks: ``not_positive``, ``sides_do_not_close``, ``hole_larger``,
        ``part_of_circle``, ``simpson_needs_even_strips``, ``too_few``, ``offsets_do_not_cover``,
        ``does_not_close``, ``crosses_itself``, ``empty``.
    numbers : dict of str to float
        The figures that break it, in metres, square metres or plain counts.
    """

    def __init__(self, reason: str, **numbers: float) -> None:
        self.reason = reason
        self.numbers = numbers
        super().__init__(f"{reason} {numbers}")


@dataclass(frozen=True)
class GivenArea:
    """An area taken as stated."""

    given_m2: float

    def __post_init__(self) -> None:
        _positive(self.given_m2)

    @property
    def area_m2(self) -> float:
        """Area in m²."""
        return self.given_m2


@dataclass(frozen=True)
class Rectangle:
    """Length by width."""

    length_m: float
    width_m: float

    def __post_init__(self) -> None:
        _positive(self.length_m, self.width_m)

    @property
    def area_m2(self) -> float:
        """Area in m²."""
        return self.length_m * self.width_m


@dataclass(frozen=True)
class Strip:
    """A strip of even width along a path; `length_m` is measured along its middle."""

    length_m: float
    width_m: float

    def __post_init__(self) -> None:
        _positive(self.length_m, self.width_m)

    @property
    def area_m2(self) -> float:
        """Area in m²."""
        return self.length_m * self.width_m


@dataclass(frozen=True)
class Square:
    """All sides alike."""

    side_m: float

    def __post_init__(self) -> None:
        _positive(self.side_m)

    @property
    def area_m2(self) -> float:
        """Area in m²."""
        return self.side_m**2


@dataclass(frozen=True)
class Triangle:
    """Base, and height square to it."""

    base_m: float
    height_m: float

    def __post_init__(self) -> None:
        _positive(self.base_m, self.height_m)

    @property
    def area_m2(self) -> float:
        """Area in m²."""
        return self.base_m * self.height_m / 2.0


@dataclass(frozen=True)
class TriangleOfSides:
    """Three sides; the longest must be shorter than the other two together."""

    a_m: float
    b_m: float
    c_m: float

    def __post_init__(self) -> None:
        _positive(self.a_m, self.b_m, self.c_m)
        short, middle, longest = sorted((self.a_m, self.b_m, self.c_m))
        if longest >= short + middle:
            raise ImpossibleShape("sides_do_not_close", longest_m=longest, others_m=short + middle)

    @property
    def area_m2(self) -> float:
        """Area in m² by Heron's formula, in Kahan's order of operations (no cancellation)."""
        c, b, a = sorted((self.a_m, self.b_m, self.c_m))
        product = (a + (b + c)) * (c - (a - b)) * (c + (a - b)) * (a + (b - c))
        return math.sqrt(product) / 4.0


@dataclass(frozen=True)
class Circle:
    """A full circle."""

    radius_m: float

    def __post_init__(self) -> None:
        _positive(self.radius_m)

    @property
    def area_m2(self) -> float:
        """Area in m²."""
        return math.pi * self.radius_m**2


@dataclass(frozen=True)
class PartCircle:
    """A slice of a circle from its centre: 0.5 is a half circle, 0.25 a quarter."""

    radius_m: float
    fraction: float

    def __post_init__(self) -> None:
        _positive(self.radius_m, self.fraction)
        if self.fraction > 1.0:
            raise ImpossibleShape("part_of_circle", fraction=self.fraction)

    @property
    def area_m2(self) -> float:
        """Area in m²."""
        return math.pi * self.radius_m**2 * self.fraction


@dataclass(frozen=True)
class Ellipse:
    """An oval: full length and full width, crossing at right angles in the middle."""

    length_m: float
    width_m: float

    def __post_init__(self) -> None:
        _positive(self.length_m, self.width_m)

    @property
    def area_m2(self) -> float:
        """Area in m², exactly pi/4 of the rectangle around it (some sheets say 0.8)."""
        return math.pi / 4.0 * self.length_m * self.width_m


@dataclass(frozen=True)
class Trapezoid:
    """Two parallel sides and the distance between them."""

    side_a_m: float
    side_b_m: float
    height_m: float

    def __post_init__(self) -> None:
        _positive(self.side_a_m, self.side_b_m, self.height_m)

    @property
    def area_m2(self) -> float:
        """Area in m²."""
        return (self.side_a_m + self.side_b_m) / 2.0 * self.height_m


@dataclass(frozen=True)
class Offsets:
    """Widths taken square to a baseline at equal spacing, both ends included (0 where it tapers).

    `rule` says how the widths are joined: straight lines (``trapezoid``), or parabolas through
    three at a time (``simpson``; needs an even number of strips).
    """

    spacing_m: float
    offsets_m: tuple[float, ...]
    rule: Literal["trapezoid", "simpson"] = "trapezoid"

    def __post_init__(self) -> None:
        _positive(self.spacing_m)
        if len(self.offsets_m) < 2:
            raise ImpossibleShape("too_few", given=len(self.offsets_m), needed=2)
        _not_negative(self.offsets_m)
        if not any(self.offsets_m):
            raise ImpossibleShape("empty")
        if self.rule == "simpson" and len(self.offsets_m) % 2 == 0:
            raise ImpossibleShape("simpson_needs_even_strips", strips=len(self.offsets_m) - 1)

    @property
    def area_m2(self) -> float:
        """Area in m²."""
        first, *inner, last = self.offsets_m
        if self.rule == "simpson":
            weighted = first + 4.0 * sum(inner[0::2]) + 2.0 * sum(inner[1::2]) + last
            return self.spacing_m / 3.0 * weighted
        return self.spacing_m * (first / 2.0 + sum(inner) + last / 2.0)


@dataclass(frozen=True)
class ModifiedOffsets:
    """A rectangle around the lawn, less what lies outside it along the two long sides.

    Gaps between rectangle and lawn are taken in the middle of strips `spacing_m` wide.
    """

    length_m: float
    width_m: float
    spacing_m: float
    left_m: tuple[float, ...]
    right_m: tuple[float, ...]

    def __post_init__(self) -> None:
        _positive(self.length_m, self.width_m, self.spacing_m)
        _not_negative(self.left_m + self.right_m)
        for gaps in (self.left_m, self.right_m):
            covered = len(gaps) * self.spacing_m
            if abs(covered - self.length_m) > self.spacing_m / 2.0:
                raise ImpossibleShape(
                    "offsets_do_not_cover", covered_m=covered, length_m=self.length_m
                )
        for left, right in zip(self.left_m, self.right_m, strict=False):
            if left + right > self.width_m:
                raise ImpossibleShape("hole_larger", hole=left + right, whole=self.width_m)
        if self.area_m2 <= 0.0:
            raise ImpossibleShape("empty")

    @property
    def area_m2(self) -> float:
        """Area in m²."""
        outside = self.spacing_m * (sum(self.left_m) + sum(self.right_m))
        return self.length_m * self.width_m - outside


@dataclass(frozen=True)
class AverageRadius:
    """Radii from one point inside to the edge, at equal angles all round.

    ``mean`` is the handbook's pi times the mean radius squared; ``rms`` takes the mean of the
    squares, which is nearer the truth and never smaller.
    """

    radii_m: tuple[float, ...]
    rule: Literal["mean", "rms"] = "mean"

    def __post_init__(self) -> None:
        if len(self.radii_m) < 3:
            raise ImpossibleShape("too_few", given=len(self.radii_m), needed=3)
        _positive(*self.radii_m)

    @property
    def area_m2(self) -> float:
        """Area in m²."""
        count = len(self.radii_m)
        if self.rule == "rms":
            return math.pi * sum(radius**2 for radius in self.radii_m) / count
        return math.pi * (sum(self.radii_m) / count) ** 2


@dataclass(frozen=True)
class Corners:
    """Corner points in order, in metres east and north of any one point; closed by itself."""

    points_m: Points

    def __post_init__(self) -> None:
        if len(self.points_m) < 3:
            raise ImpossibleShape("too_few", given=len(self.points_m), needed=3)
        if crossing := _crossing_sides(self.points_m):
            raise ImpossibleShape("crosses_itself", side=crossing[0], other_side=crossing[1])
        if self.area_m2 <= 0.0:
            raise ImpossibleShape("empty")

    @property
    def area_m2(self) -> float:
        """Area in m² by the shoelace formula."""
        return _shoelace(self.points_m)


@dataclass(frozen=True)
class Traverse:
    """Sides walked in order, each with its bearing in degrees clockwise from north.

    The gap left at the end is spread over the sides in proportion to their lengths (compass rule,
    N. Bowditch); one over `LARGEST_CLOSING_SHARE` of the way walked is refused.
    """

    sides_m: tuple[float, ...]
    bearings_deg: tuple[float, ...]

    def __post_init__(self) -> None:
        if len(self.sides_m) != len(self.bearings_deg):
            raise ImpossibleShape("too_few", given=len(self.bearings_deg), needed=len(self.sides_m))
        if len(self.sides_m) < 3:
            raise ImpossibleShape("too_few", given=len(self.sides_m), needed=3)
        _positive(*self.sides_m)
        if self.closing_error_m > LARGEST_CLOSING_SHARE * self.length_m:
            raise ImpossibleShape(
                "does_not_close", gap_m=self.closing_error_m, length_m=self.length_m
            )
        Corners(self.corners_m)

    @property
    def length_m(self) -> float:
        """Length of the way walked."""
        return sum(self.sides_m)

    @property
    def closing_error_m(self) -> float:
        """Distance between the start and where the last side ends."""
        return math.hypot(*self._gap_m)

    @property
    def corners_m(self) -> Points:
        """Corners (east, north) after adjustment, starting at the origin."""
        gap_east, gap_north = self._gap_m
        east = north = 0.0
        corners = []
        for side, (step_east, step_north) in zip(self.sides_m, self._steps_m, strict=True):
            corners.append((east, north))
            share = side / self.length_m
            east += step_east - gap_east * share
            north += step_north - gap_north * share
        return tuple(corners)

    @property
    def area_m2(self) -> float:
        """Area in m² of the adjusted figure."""
        return _shoelace(self.corners_m)

    @property
    def _steps_m(self) -> Points:
        angles = [math.radians(bearing) for bearing in self.bearings_deg]
        return tuple(
            (side * math.sin(angle), side * math.cos(angle))
            for side, angle in zip(self.sides_m, angles, strict=True)
        )

    @property
    def _gap_m(self) -> tuple[float, float]:
        steps = self._steps_m
        return sum(east for east, _ in steps), sum(north for _, north in steps)


@dataclass(frozen=True)
class Sum:
    """Pieces laid side by side, such as the two arms of an L."""

    parts: tuple[Shape, ...]

    def __post_init__(self) -> None:
        if not self.parts:
            raise ImpossibleShape("empty")

    @property
    def area_m2(self) -> float:
        """Area in m²."""
        return sum(part.area_m2 for part in self.parts)


@dataclass(frozen=True)
class Difference:
    """A lawn with pieces taken out: house, drive, beds."""

    whole: Shape
    holes: tuple[Shape, ...]

    def __post_init__(self) -> None:
        holes_m2 = sum(hole.area_m2 for hole in self.holes)
        if holes_m2 >= self.whole.area_m2:
            raise ImpossibleShape("hole_larger", hole=holes_m2, whole=self.whole.area_m2)

    @property
    def area_m2(self) -> float:
        """Area in m²."""
        return self.whole.area_m2 - sum(hole.area_m2 for hole in self.holes)


Shape: TypeAlias = (
    GivenArea
    | Rectangle
    | Strip
    | Square
    | Triangle
    | TriangleOfSides
    | Circle
    | PartCircle
    | Ellipse
    | Trapezoid
    | Offsets
    | ModifiedOffsets
    | AverageRadius
    | Corners
    | Traverse
    | Sum
    | Difference
)


def _positive(*values: float) -> None:
    for value in values:
        if not (math.isfinite(value) and value > 0.0):
            raise ImpossibleShape("not_positive", value=value)


def _not_negative(values: Sequence[float]) -> None:
    for value in values:
        if not (math.isfinite(value) and value >= 0.0):
            raise ImpossibleShape("not_positive", value=value)


def _shoelace(points: Points) -> float:
    # Taken from the first corner, so that figures far from the origin lose no digits.
    east0, north0 = points[0]
    local = [(east - east0, north - north0) for east, north in points]
    twice = sum(
        x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in zip(local, local[1:] + local[:1], strict=True)
    )
    return abs(twice) / 2.0


def _crossing_sides(points: Points) -> tuple[int, int] | None:
    """Return the numbers (from 1) of two sides that cross or touch away from a shared corner."""
    count = len(points)
    sides = [(points[i], points[(i + 1) % count]) for i in range(count)]
    for i in range(count):
        for j in range(i + 2, count):
            if (j + 1) % count == i:
                continue
            if _do_meet(*sides[i], *sides[j]):
                return i + 1, j + 1
    return None


Point: TypeAlias = tuple[float, float]


def _do_meet(a: Point, b: Point, c: Point, d: Point) -> bool:
    turns = (_turn(a, b, c), _turn(a, b, d), _turn(c, d, a), _turn(c, d, b))
    if turns[0] * turns[1] < 0 and turns[2] * turns[3] < 0:
        return True
    ends = ((turns[0], a, b, c), (turns[1], a, b, d), (turns[2], c, d, a), (turns[3], c, d, b))
    return any(turn == 0.0 and _is_within(p, q, r) for turn, p, q, r in ends)


def _turn(a: Point, b: Point, c: Point) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def _is_within(a: Point, b: Point, c: Point) -> bool:
    return min(a[0], b[0]) <= c[0] <= max(a[0], b[0]) and min(a[1], b[1]) <= c[1] <= max(a[1], b[1])
