"""Shapes people can measure with a tape, and the ground they cover.

Every shape is a frozen dataclass in metres with an ``area_m2``; one that cannot exist is refused
when it is made (`ImpossibleShape`), so that no area ever comes from nonsense. Methods are
extension practice: split an irregular lawn into simple shapes, subtract house, drive and beds.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TypeAlias

from jobs.agronomy.shape_rules import ImpossibleShape, positive
from jobs.agronomy.shapes_by_offsets import AverageRadius, ModifiedOffsets, Offsets
from jobs.agronomy.shapes_walked import LARGEST_CLOSING_SHARE, Corners, Points, Traverse

__all__ = [
    "LARGEST_CLOSING_SHARE",
    "AverageRadius",
    "Circle",
    "Corners",
    "Difference",
    "Ellipse",
    "GivenArea",
    "ImpossibleShape",
    "ModifiedOffsets",
    "Offsets",
    "PartCircle",
    "Points",
    "Rectangle",
    "Shape",
    "Square",
    "Strip",
    "Sum",
    "Trapezoid",
    "Traverse",
    "Triangle",
    "TriangleOfSides",
]


@dataclass(frozen=True)
class GivenArea:
    """An area taken as stated."""

    given_m2: float

    def __post_init__(self) -> None:
        positive(self.given_m2)

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
        positive(self.length_m, self.width_m)

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
        positive(self.length_m, self.width_m)

    @property
    def area_m2(self) -> float:
        """Area in m²."""
        return self.length_m * self.width_m


@dataclass(frozen=True)
class Square:
    """All sides alike."""

    side_m: float

    def __post_init__(self) -> None:
        positive(self.side_m)

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
        positive(self.base_m, self.height_m)

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
        positive(self.a_m, self.b_m, self.c_m)
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
        positive(self.radius_m)

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
        positive(self.radius_m, self.fraction)
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
        positive(self.length_m, self.width_m)

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
        positive(self.side_a_m, self.side_b_m, self.height_m)

    @property
    def area_m2(self) -> float:
        """Area in m²."""
        return (self.side_a_m + self.side_b_m) / 2.0 * self.height_m


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
