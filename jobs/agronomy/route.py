"""The driving order of a day's yards: the nearest next, then made shorter where two legs cross.

A day holds a handful of stops, so that the order is found by trying: nearest neighbour, then 2-opt
(Croes 1958, from memory) until no turned-round stretch shortens the way. Distances are great
circles; roads are longer, in towns by about a third (common practice, no source), in much the same
order.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from math import asin, cos, radians, sin, sqrt
from typing import Final, TypeAlias

#: Latitude and longitude [degrees].
Point: TypeAlias = tuple[float, float]

#: No crew does more in a day; trying all turns of a longer way would take too long.
_MOST_TURNED: Final = 16

#: Mean radius of the earth (IUGG) [m].
_EARTH_M: Final = 6_371_008.8
#: A way that is shorter by less is the same one [m].
_ALIKE_M: Final = 1.0


def distance_m(a: Point, b: Point) -> float:
    """Return the great-circle distance of two points [m] (haversine)."""
    lat_a, lat_b = radians(a[0]), radians(b[0])
    north, east = (lat_b - lat_a) / 2, radians(b[1] - a[1]) / 2
    return 2 * _EARTH_M * asin(sqrt(sin(north) ** 2 + cos(lat_a) * cos(lat_b) * sin(east) ** 2))


def length_m(points: Sequence[Point], start: Point | None = None) -> float:
    """Return how long the way over points is in their order, from a start if there is one [m]."""
    way = [*([] if start is None else [start]), *points]
    return sum(distance_m(a, b) for a, b in pairwise(way))


def driving_order(points: Sequence[Point], start: Point | None = None) -> list[int]:
    """Return the places of points in a driving order.

    Without a start the first point is where one begins. Where one ends is left open.
    """
    if not points:
        return []
    left = list(range(len(points)))
    order = [left.pop(0)] if start is None else []
    at = points[order[0]] if start is None else start
    while left:
        nearest = min(left, key=lambda place: (distance_m(at, points[place]), place))
        left.remove(nearest)
        order.append(nearest)
        at = points[nearest]
    return _uncrossed(points, order, start)


def _uncrossed(points: Sequence[Point], order: list[int], start: Point | None) -> list[int]:
    """Turn stretches of the way round as long as that shortens it; of a long way none."""
    if len(order) > _MOST_TURNED:
        return order
    first = 1 if start is None else 0
    length = length_m([points[place] for place in order], start)
    is_shorter = True
    while is_shorter:
        is_shorter = False
        for i in range(first, len(order) - 1):
            for j in range(i + 1, len(order)):
                turned = [*order[:i], *reversed(order[i : j + 1]), *order[j + 1 :]]
                new = length_m([points[place] for place in turned], start)
                if new < length - _ALIKE_M:
                    order, length, is_shorter = turned, new, True
    return order
