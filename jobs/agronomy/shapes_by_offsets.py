"""Irregular lawns measured off a line or a point: offsets, modified offsets, average radius.

Methods: extension practice; check values computed by hand from the formulas.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from jobs.agronomy.shape_rules import ImpossibleShape, not_negative, positive


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
        positive(self.spacing_m)
        if len(self.offsets_m) < 2:
            raise ImpossibleShape("too_few", given=len(self.offsets_m), needed=2)
        not_negative(self.offsets_m)
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
        positive(self.length_m, self.width_m, self.spacing_m)
        not_negative(self.left_m + self.right_m)
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
        positive(*self.radii_m)

    @property
    def area_m2(self) -> float:
        """Area in m²."""
        count = len(self.radii_m)
        if self.rule == "rms":
            return math.pi * sum(radius**2 for radius in self.radii_m) / count
        return math.pi * (sum(self.radii_m) / count) ** 2
