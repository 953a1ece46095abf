"""What a zone's own turf and state forbid: harmed grass, new seed, remembered yearly maxima.

The label comes first (`jobs.agronomy.ledger`); nothing here lets a dose pass, it only leaves zones
out.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Final, Literal

from jobs.agronomy.allowance import Allowance
from jobs.agronomy.amounts import Amount, LabelLimitExceeded, amount_for, counted_si
from jobs.agronomy.history import History
from jobs.agronomy.ingredients import ingredients, stops
from jobs.agronomy.label_doubts import has_facts
from jobs.agronomy.label_times import TooManyApplications, TooSoon, check_times
from jobs.agronomy.labelled_product import Product
from jobs.agronomy.ledger import UseUnknown, allowances, check_label
from jobs.agronomy.rates import Rate, WeightAgainstVolume
from jobs.agronomy.seeding import may_go_on_at_seeding
from jobs.agronomy.strengths import StrengthUnknown
from jobs.agronomy.units import from_si
from jobs.rounds import history_left, left_m2
from jobs.standing import Standing
from storage.yards import ZoneRecord

#: A person said they do not know the grass; the strictest limits govern then.
UNKNOWN: Final = "unknown"
#: A grass that is none of those an ingredient is known to harm.
NONE_OF_THEM: Final = "other"

#: An ingredient that harms so many species is not put on a lawn nobody has named the grass of;
#: fewer are asked about beside the amounts. Our choice: a whole season's grasses, or half of them.
_HARMS_MANY: Final = 4
_ROUNDING: Final = 1e-9

Why = Literal[
    "locked",
    "too_soon",
    "too_many",
    "harms_turf",
    "may_harm_unknown_turf",
    "not_residential",
    "remembered_maximum",
]


@dataclass(frozen=True, slots=True)
class LeftOut:
    """A zone that gets nothing, and why.

    Attributes
    ----------
    zone, why, grass
        The zone's name, the reason, and its grass (see `ZoneRecord`).
    ingredient
        The ingredient concerned, if one is.
    harmed
        Species it harms, by key.
    limit, used, unit
        The remembered maximum, what is used of it, and their unit.
    source, certainty
        Of the figure.
    allowed_from
        The first day the label allows another application.
    """

    zone: str
    why: Why
    grass: str | None = None
    ingredient: str = ""
    harmed: tuple[str, ...] = ()
    limit: float = 0.0
    used: float = 0.0
    unit: str = ""
    source: str = ""
    certainty: str = "M"
    allowed_from: date | None = None


@dataclass(frozen=True, slots=True)
class GrassCaution:
    """A zone whose grass nobody named, under an ingredient that harms some grass."""

    zone: str
    ingredient: str
    harmed: tuple[str, ...]


def judge(
    zone: ZoneRecord, product: Product, history: History, on: date
) -> tuple[LeftOut | None, GrassCaution | None]:
    """Return why a zone is left out (None: it is not), and what to ask beside its amount.

    An ingredient for certified applicators is stopped when the product is entered.
    """
    if zone.locked_why is not None and not _may_meet_seed(zone, product):
        return LeftOut(zone.name, "locked", zone.grass, source=zone.locked_why), None
    try:
        check_times(history, product, on)
    except TooSoon as soon:
        return LeftOut(zone.name, "too_soon", zone.grass, allowed_from=soon.allowed_from), None
    except TooManyApplications as many:
        return LeftOut(zone.name, "too_many", zone.grass, limit=many.limit, used=many.used), None
    caution = None
    for name in product.ingredient_names:
        item = ingredients().get(name)
        if item is None:
            continue
        species = None if zone.grass in (None, UNKNOWN) else zone.grass
        harmed = tuple(sorted(set().union(*(harm.species for harm in item.harms))))
        for stop in stops(
            item,
            species,
            is_certified=True,
            label_allows_residential=product.is_residential_allowed,
        ):
            if stop.reason == "may_harm_unknown_turf":
                if zone.grass is None and len(harmed) < _HARMS_MANY:
                    caution = GrassCaution(zone.name, name, harmed)
                    continue
            elif stop.reason == "certified_only":
                continue
            return (
                LeftOut(
                    zone.name,
                    stop.reason,
                    zone.grass,
                    name,
                    harmed,
                    source=stop.source,
                    certainty=stop.certainty,
                ),
                None,
            )
    over = _over_remembered(zone, product, history, on)
    return over, None if over is not None else caution


def _may_meet_seed(zone: ZoneRecord, product: Product) -> bool:
    """Tell whether everything in a product may go on with the seed of a zone."""
    return (
        zone.locked_why == "seed"
        and zone.grass is not None
        and all(may_go_on_at_seeding(name, zone.grass) for name in product.ingredient_names)
    )


def _over_remembered(
    zone: ZoneRecord, product: Product, history: History, on: date
) -> LeftOut | None:
    """Return the remembered yearly maximum that another round would pass, if there is one.

    For a turf nobody named only the label counts; "I don't know" makes the strictest govern.
    """
    if zone.grass is None or product.rate is None:
        return None
    species = None if zone.grass == UNKNOWN else zone.grass
    for item in allowances(history, product, on, species=species):
        asked = _asked(item, product, product.rate)
        if asked is not None and asked + item.used > item.limit * (1 + _ROUNDING):
            return LeftOut(
                zone.name,
                "remembered_maximum",
                zone.grass,
                "+".join(product.ingredient_names),
                limit=item.limit,
                used=item.used,
                unit=item.unit,
                source=item.source,
            )
    return None


def _asked(item: Allowance, product: Product, rate: Rate) -> float | None:
    """Return what the rate counts against a remembered maximum; None where it cannot be told."""
    if item.basis != "reference":
        return None
    try:
        return from_si(counted_si(rate, product, item.maximum), item.unit)
    except (StrengthUnknown, WeightAgainstVolume):
        return None


def fit(standing: Standing, zones: Sequence[ZoneRecord], on: date) -> list[ZoneRecord]:
    """Return the zones that the chosen product may go onto; all of them where none is chosen."""
    product = standing.product
    if product is None:
        return list(zones)
    return [
        zone
        for zone in zones
        if judge(zone, product, history_left(standing, zone, on), on)[0] is None
    ]


def round_day(standing: Standing, today: date) -> date:
    """Return from when a round may go down: today, or the end of the label's interval."""
    product = standing.product
    if product is None:
        return today
    zones = [zone for zone in standing.zones if zone.part != "never"]
    out = [judge(zone, product, history_left(standing, zone, today), today)[0] for zone in zones]
    waits = [
        each.allowed_from for each in out if each is not None and each.allowed_from is not None
    ]
    return max(waits) if waits and None not in out else today


@dataclass(frozen=True, slots=True)
class Room:
    """Zones on which the label leaves room for another round at the chosen product's rate.

    `most` is the highest rate it allows on every one of them; None where it names no limit.
    """

    zones: tuple[ZoneRecord, ...]
    most: Rate | None


def room(standing: Standing, zones: Sequence[ZoneRecord], on: date) -> Room:
    """Return which zones may get another round; all of them where no product is chosen.

    A zone of which nobody knows how much is down has no room.
    """
    product = standing.product
    if product is None:
        return Room(tuple(zones), None)
    kept, limits = [], []
    for zone in fit(standing, zones, on):
        assert product.rate is not None
        try:
            limits.append(check_label(history_left(standing, zone, on), product, product.rate, on))
        except (LabelLimitExceeded, UseUnknown, StrengthUnknown, WeightAgainstVolume):
            continue
        kept.append(zone)
    known = [limit for limit in limits if limit is not None]
    return Room(tuple(kept), min(known, key=lambda rate: rate.rate_si, default=None))


def round_amount(
    standing: Standing, zones: Sequence[ZoneRecord], on: date
) -> tuple[Amount, float | None] | None:
    """Return what a round takes on those zones that may get it, and the most allowed [kg or L].

    Of a zone that has had a part of it, the rest. None before a product is chosen and its strength
    is known, or where no zone may get it.
    """
    if standing.product is None or not has_facts(standing.product):
        return None
    allowed = room(standing, zones, on)
    if not allowed.zones:
        return None
    rate = standing.product.rate
    assert rate is not None
    area_m2 = sum(left_m2(standing, zone, on) for zone in allowed.zones)
    amount = amount_for(area_m2, rate)
    most_si = None if allowed.most is None else amount_for(area_m2, allowed.most).si
    return amount, most_si
