"""Lawns walked round: corner points, and a traverse of sides and bearings."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final, TypeAlias

from jobs.agronomy.shape_rules import ImpossibleShape, positive

Point: TypeAlias = tuple[float, float]
Points: TypeAlias = tuple[Point, ...]

#: Largest closing error of a traverse, as a share of its length, that is still adjusted away
#: rather than refused. Common practice for pacing and a hand compass, no source.
LARGEST_CLOSING_SHARE: Final = 0.05


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
        positive(*self.sides_m)
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
