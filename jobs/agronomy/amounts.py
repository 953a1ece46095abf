"""How much product each zone takes, and nothing over the label's maximum."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final, Literal

from jobs.agronomy.labelled_product import Product, total_ai_kg_ha
from jobs.agronomy.maxima import Basis, LabelMaximum, Period
from jobs.agronomy.rates import Rate, WeightAgainstVolume
from jobs.agronomy.units import UNITS, UnknownUnit, dimension_of, from_si

M2_PER_HA: Final = 10_000.0

#: Room for floating point when a rate stands exactly at its maximum; far below what can be weighed.
ROUNDING: Final = 1e-9


class LabelLimitExceeded(ValueError):
    """Raised instead of a dose above the label's maximum.

    Attributes
    ----------
    asked, limit
        The two numbers, both in ``unit``.
    unit
        A written unit, such as ``lb/1000 sq ft``.
    period
        What the label counts the maximum over.
    of
        ``product`` or ``ai`` (active ingredient).
    used
        What was put down before within the period, in ``unit``; part of neither number.
    """

    def __init__(
        self,
        asked: float,
        limit: float,
        unit: str,
        period: Period,
        of: Basis = "product",
        used: float = 0.0,
    ) -> None:
        super().__init__(f"{asked:g} {unit} asked, {limit:g} allowed ({of}, {period})")
        self.asked = asked
        self.limit = limit
        self.unit = unit
        self.period: Period = period
        self.of: Basis = of
        self.used = used


@dataclass(frozen=True, slots=True)
class ZoneArea:
    """A zone's turf, the strip of it along water that stays untreated, and what is down [m²]."""

    name: str
    area_m2: float
    buffer_m2: float = 0.0
    down_m2: float = 0.0

    def __post_init__(self) -> None:
        if not math.isfinite(self.area_m2) or self.area_m2 < 0:
            raise ValueError(f"{self.name}: an area is a number of at least zero")
        if not 0 <= self.buffer_m2 <= self.area_m2:
            raise ValueError(f"{self.name}: the buffer is part of the zone")

    @property
    def treated_m2(self) -> float:
        """The area that gets product [m²]."""
        return max(0.0, self.area_m2 - self.buffer_m2 - self.down_m2)


@dataclass(frozen=True, slots=True)
class Amount:
    """An amount of product: kg or L, and the unit the person weighs or measures it in."""

    si: float
    unit: str

    def __post_init__(self) -> None:
        if self.unit not in UNITS or dimension_of(self.unit) not in ("mass", "volume"):
            raise UnknownUnit(self.unit)

    @property
    def value(self) -> float:
        """The amount in its own unit."""
        return from_si(self.si, self.unit)

    @property
    def dimension(self) -> Literal["mass", "volume"]:
        """Whether it is weighed or measured out."""
        return "mass" if dimension_of(self.unit) == "mass" else "volume"

    def in_unit(self, unit: str) -> Amount:
        """Return the same amount in another unit of its kind.

        Raises
        ------
        WeightAgainstVolume
            If one is a weight and the other a volume.
        """
        if dimension_of(unit) != self.dimension:
            raise WeightAgainstVolume(self.unit, unit)
        return Amount(self.si, unit)

    def times(self, factor: float) -> Amount:
        """Return the amount times a factor."""
        return Amount(self.si * factor, self.unit)


@dataclass(frozen=True, slots=True)
class ZoneAmount:
    """What one zone takes."""

    zone: ZoneArea
    amount: Amount


@dataclass(frozen=True, slots=True)
class AmountPlan:
    """What each zone takes, and the total of all."""

    rate: Rate
    zones: tuple[ZoneAmount, ...]
    total: Amount
    total_m2: float


def amount_for(area_m2: float, rate: Rate) -> Amount:
    """Return what an area [m²] takes at a rate."""
    return Amount(rate.rate_si * area_m2 / M2_PER_HA, rate.amount_unit)


def amounts(zones: Iterable[ZoneArea], rate: Rate, product: Product | None = None) -> AmountPlan:
    """Return each zone's amount and the total, checked against the label where one is known.

    Raises
    ------
    LabelLimitExceeded
        If the rate stands above one of the product's maxima.
    """
    if product is not None:
        check_rate(rate, product)
    each = tuple(ZoneAmount(zone, amount_for(zone.treated_m2, rate)) for zone in zones)
    total_m2 = math.fsum(item.zone.treated_m2 for item in each)
    total = Amount(math.fsum(item.amount.si for item in each), rate.amount_unit)
    return AmountPlan(rate, each, total, total_m2)


def two_directions(amount: Amount) -> tuple[Amount, Amount]:
    """Return what each of two crossing passes takes: half of the *round's* amount.

    A split over the season halves by date before this; these are the passes of one round
    (method: University of Massachusetts fact sheet on rotary spreaders, published).
    """
    return amount.times(0.5), amount.times(0.5)


def rate_of(amount: Amount, area_m2: float, unit: str) -> Rate:
    """Return the rate an amount over an area comes to, written in ``unit``.

    Raises
    ------
    WeightAgainstVolume
        If the amount is a weight and the unit one by volume, or the other way round.
    """
    if dimension_of(unit) != f"{amount.dimension}_rate":
        raise WeightAgainstVolume(amount.unit, unit)
    if not area_m2 > 0:
        raise ValueError("a rate needs an area above zero")
    return Rate(from_si(amount.si * M2_PER_HA / area_m2, unit), unit)


def check_rate(rate: Rate, product: Product) -> None:
    """Pass a single application's rate, or stop it.

    Every maximum binds a single application whatever its period: what may go down in a year may
    not be exceeded in a day. What earlier applications used is counted in `jobs.agronomy.ledger`.

    Raises
    ------
    LabelLimitExceeded
        If the rate is above a maximum.
    WeightAgainstVolume
        If the label's maximum goes by volume and the rate by weight, or the other way round.
    StrengthUnknown
        If a maximum of active ingredient cannot be compared for want of the strength.
    """
    for maximum in product.maxima:
        asked = counted_si(rate, product, maximum)
        if asked > maximum.rate.rate_si * (1 + ROUNDING):
            limit, unit = maximum.rate.value, maximum.rate.unit
            raise LabelLimitExceeded(from_si(asked, unit), limit, unit, maximum.period, maximum.of)


def check_amount(amount: Amount, area_m2: float, product: Product) -> Rate:
    """Return the rate an amount comes to over an area, or stop it as `check_rate` does."""
    per = "kg/ha" if amount.dimension == "mass" else "L/ha"
    unit = product.rate.unit if product.rate is not None else per
    rate = rate_of(amount, area_m2, unit)
    check_rate(rate, product)
    return rate


def counted_si(rate: Rate, product: Product, maximum: LabelMaximum) -> float:
    """Return what a rate counts against a maximum, in the maximum's own SI unit.

    Raises
    ------
    WeightAgainstVolume, StrengthUnknown
        If the two cannot be compared.
    """
    if maximum.of == "ai":
        return total_ai_kg_ha(rate, product, maximum.ingredient)
    if rate.is_weight != maximum.rate.is_weight:
        raise WeightAgainstVolume(rate.unit, maximum.rate.unit)
    return rate.rate_si
