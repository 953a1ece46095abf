"""Lawns walked with a phone: ground on the ellipsoid, metres from the yard's point, likely error.

Places come as latitude and longitude in degrees (WGS 84).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import cache
from typing import Any, Final

from jobs.agronomy.shapes_walked import Points

Place = tuple[float, float]

#: How far off a phone is under open sky [m]: a radius of 4.9 m (van Diggelen & Enge 2015, ION GNSS,
#: as quoted by the US government's GPS pages; from memory). Taken as one standard deviation along
#: each axis of a radius that holds two fixes in three: 4.9 / 1.51.
PHONE_M: Final = 4.9
PHONE_SIGMA_M: Final = PHONE_M / 1.51

#: Below this the walk's error is too large a part, and a tape is better [m²]: 2,000 sq ft.
TAPE_BELOW_M2: Final = 2000.0 * 0.3048**2


def geodesic_area_m2(places: Sequence[Place]) -> float:
    """Return the area enclosed by corners in order [m²], on the WGS 84 ellipsoid."""
    lats = [lat for lat, _ in places]
    lons = [lon for _, lon in places]
    area, _ = _geod().polygon_area_perimeter(lons, lats)
    return abs(float(area))


def metres_from(origin: Place, places: Sequence[Place]) -> Points:
    """Return places in metres east and north of a point, each by its geodesic from there."""
    points = []
    for lat, lon in places:
        azimuth, _, metres = _geod().inv(origin[1], origin[0], lon, lat)
        angle = math.radians(azimuth)
        points.append((metres * math.sin(angle), metres * math.cos(angle)))
    return tuple(points)


def distance_m(one: Place, other: Place) -> float:
    """Return the geodesic distance between two places [m]."""
    _, _, metres = _geod().inv(one[1], one[0], other[1], other[0])
    return float(metres)


def area_error_m2(points_m: Points, sigma_m: float = PHONE_SIGMA_M) -> float:
    """Return one standard deviation of the area when each corner is off by itself [m²].

    The shoelace formula's first-order propagation: a corner moves the area by half the line between
    its neighbours, so var A = sigma² / 4 * sum |p(i+1) - p(i-1)|². Fixes of one walk share part of
    their error, so this is rather too wide than too narrow.
    """
    count = len(points_m)
    lines = 0.0
    for i in range(count):
        before, after = points_m[i - 1], points_m[(i + 1) % count]
        lines += (after[0] - before[0]) ** 2 + (after[1] - before[1]) ** 2
    return sigma_m / 2.0 * math.sqrt(lines)


@cache
def _geod() -> Any:
    from pyproj import Geod  # slow to load, seldom needed

    return Geod(ellps="WGS84")
