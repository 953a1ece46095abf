"""Parts of zones: half of the back, a patch, a missed stripe, as far as it went, the rest."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from jobs.agronomy.amounts import M2_PER_HA, Amount
from jobs.agronomy.ground import ALL_OF_IT
from jobs.agronomy.history import History
from jobs.agronomy.labelled_product import Product
from jobs.agronomy.rates import WeightAgainstVolume
from jobs.agronomy.season import Target
from jobs.agronomy.units import dimension_of
from jobs.standing import Progress, Standing
from storage.yards import ZoneRecord


class PartTooLarge(ValueError):
    """Raised when a part of a zone is said to be more than the zone [m²]."""

    def __init__(self, zone: str, area_m2: float, of_m2: float) -> None:
        super().__init__(f"{area_m2:g} m² of {zone}, which has {of_m2:g}")
        self.zone = zone
        self.area_m2 = area_m2
        self.of_m2 = of_m2


class PartUnknown(ValueError):
    """Raised when nobody can tell how far it went: no amount was said, or no rate is known."""

    def __init__(self, zone: str) -> None:
        super().__init__(f"how much of {zone}?")
        self.zone = zone


@dataclass(frozen=True, slots=True)
class Part:
    """The part of a zone that got it.

    Attributes
    ----------
    share
        How much of the zone (0-1), where it was said so.
    area_m2
        How much of it [m²], where it was said so.
    is_rest
        Whether it is what the round begun there had left out; all of that, but for a share, an
        area, or as far as it went.
    is_as_far
        As far as it went before the hopper ran out: by the amount, at the label's rate.
    """

    share: float | None = None
    area_m2: float | None = None
    is_rest: bool = False
    is_as_far: bool = False


#: All of a zone, whatever it had of the round already.
WHOLE: Final = Part(share=1.0)


@dataclass(frozen=True, slots=True)
class Piece:
    """A zone of a report: the area that got it [m²], what of the round was there before."""

    zone: ZoneRecord
    area_m2: float
    begun: Progress
    is_rest: bool

    @property
    def beside(self) -> tuple[int, ...]:
        """The applications it is known to lie beside."""
        return self.begun.records if self.is_rest else ()


def pieces_of(
    standing: Standing,
    zones: Sequence[ZoneRecord],
    parts: Mapping[int, Part],
    amount: Amount | None,
    product: Product | None,
    target: Target,
    year: int,
) -> list[Piece]:
    """Return how much of each zone got it.

    Raises
    ------
    PartTooLarge, PartUnknown
        If it cannot be.
    """
    pieces = []
    for zone in zones:
        begun = standing.progress(zone, target, year)
        part = parts.get(zone.id)
        if part is None:
            part = Part(is_rest=True) if begun.records else WHOLE
        is_rest = part.is_rest and bool(begun.records)
        of_m2 = standing.left_m2(zone, begun) if is_rest else zone.treated_m2
        area_m2 = of_m2
        if part.area_m2 is not None:
            area_m2 = part.area_m2
        elif part.share is not None:
            area_m2 = part.share * of_m2
        elif part.is_as_far:
            area_m2 = _as_far(zones, parts, amount, zone, product, of_m2)
        if not 0 < area_m2 <= of_m2 / ALL_OF_IT:
            raise PartTooLarge(zone.name, area_m2, of_m2)
        pieces.append(Piece(zone, min(area_m2, of_m2), begun, is_rest))
    return pieces


def _as_far(
    zones: Sequence[ZoneRecord],
    parts: Mapping[int, Part],
    amount: Amount | None,
    zone: ZoneRecord,
    product: Product | None,
    of_m2: float,
) -> float:
    """Return how far an amount went on a zone at the label's rate [m²], all others being done."""
    rate = None if product is None else product.rate
    others = [each for each in zones if each.id != zone.id]
    if amount is None or rate is None or any(each.id in parts for each in others):
        raise PartUnknown(zone.name)
    if dimension_of(rate.unit) != f"{amount.dimension}_rate":
        raise WeightAgainstVolume(amount.unit, rate.unit)
    went_m2 = amount.si / rate.rate_si * M2_PER_HA
    return min(of_m2, went_m2 - math.fsum(each.treated_m2 for each in others))


def met_before(standing: Standing, piece: Piece) -> History:
    """Return what may have met the square feet of a piece before."""
    if piece.is_rest:
        return standing.left(piece.zone, piece.begun)
    return standing.history(piece.zone)
