"""What to buy: packs for a round or the year, for one yard or all with the same product."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime
from typing import Literal

from jobs.agronomy.amounts import amount_for, counted_si
from jobs.agronomy.history import History
from jobs.agronomy.label_times import TooManyApplications, TooSoon, check_times
from jobs.agronomy.labelled_product import Pack, Product
from jobs.agronomy.ledger import label_allowances
from jobs.agronomy.purchase import Goal, NoPrice, Purchase, purchase
from jobs.agronomy.rates import Rate, WeightAgainstVolume
from jobs.agronomy.season import Target
from jobs.agronomy.strengths import StrengthUnknown
from jobs.agronomy.units import from_si, to_si
from jobs.labels import product_of
from jobs.local_days import local, season_day
from jobs.rounds import history_left, left_m2
from jobs.season_facts import plan_of, round_of
from jobs.seeded import given_to_seed
from jobs.standing import standing_of
from jobs.turf_limits import fit, round_day
from storage import products
from storage.database import Work
from storage.products import ProductRecord
from storage.yards import YardRecord

Span = Literal["round", "year"]
_ROUNDING = 1e-9


class NoProduct(LookupError):
    """Raised when no product is chosen for the yard."""


class NothingToBuy(LookupError):
    """Raised when no zone takes anything, or the label leaves nothing."""


@dataclass(frozen=True, slots=True)
class YardNeed:
    """What one yard takes.

    Attributes
    ----------
    yard
        The yard.
    round_si, year_si
        For the next round, and for all that are left of the year [kg or L]; zones for which the
        label leaves none are left out.
    rounds_left
        The most rounds a zone has left this year.
    short
        Zones for which the label leaves fewer than planned, by how many it leaves.
    """

    yard: YardRecord
    round_si: float
    year_si: float
    rounds_left: int
    short: tuple[tuple[int, tuple[str, ...]], ...]

    def amount_si(self, span: Span) -> float:
        """Return what it takes for a span [kg or L]."""
        return self.round_si if span == "round" else self.year_si


@dataclass(frozen=True, slots=True)
class Plan:
    """What to buy.

    Attributes
    ----------
    product, record
        The product.
    needs
        What each yard takes.
    span
        One round, or what is left of the year.
    need_si, shelf_si
        All of it, and what is in hand [kg or L].
    best
        The packs to buy; None while no pack is known.
    goal
        What counted first; least left over where a price is missing.
    others
        Each other pack size bought alone.
    next_si
        What the rounds after this one take, beyond what is left over [kg or L].
    """

    product: Product
    record: ProductRecord
    needs: tuple[YardNeed, ...]
    span: Span
    need_si: float
    shelf_si: float
    best: Purchase | None
    goal: Goal
    others: tuple[Purchase, ...]
    next_si: float


@dataclass(frozen=True, slots=True)
class Offer:
    """The cheapest pack of one product, and what it costs per treated 1,000 sq ft [cents]."""

    record: ProductRecord
    row: dict[str, object]
    cents: float


def plan(
    work: Work,
    yard: YardRecord,
    span: Span,
    goal: Goal,
    *,
    beside: Sequence[YardRecord] = (),
    now: datetime,
) -> Plan:
    """Return what to buy for a yard, and for those `beside` it that use the same product.

    Raises
    ------
    NoProduct, NothingToBuy
        If there is nothing to reckon with.
    """
    if yard.product_id is None:
        raise NoProduct(yard.name)
    record = standing_of(work, yard).chosen
    product = product_of(record)
    others = [each for each in beside if each.id != yard.id and _is_same(work, each, record)]
    chosen = sorted([yard, *others], key=lambda each: each.id)
    needs = tuple(_need(work, each, now) for each in chosen)
    need_si = math.fsum(need.amount_si(span) for need in needs)
    if not need_si > 0:
        raise NothingToBuy(yard.name)
    shelf_si = record.shelf_si or 0.0
    offers = product.packs
    best: Purchase | None = None
    alone: tuple[Purchase, ...] = ()
    if offers:
        best, goal = _best(need_si, offers, shelf_si, goal)
        alone = _others(need_si, offers, shelf_si, best)
    year_si = math.fsum(need.year_si for need in needs)
    left_si = best.left_over_si if best is not None else max(0.0, shelf_si - need_si)
    return Plan(
        product,
        record,
        needs,
        span,
        need_si,
        shelf_si,
        best,
        goal,
        alone,
        max(0.0, year_si - need_si - left_si),
    )


def compare(work: Work, chat_id: int) -> list[Offer]:
    """Return a chat's products with prices, the cheapest per treated 1,000 sq ft first."""
    seen: set[str] = set()
    found = []
    for record in products.of_chat(work, chat_id):
        key = f"{record.ingredients} {record.form} {record.rate_si:.9g}"
        if key in seen:
            continue
        seen.add(key)
        per_1000_si = record.rate_si * to_si(1000.0, "sq ft") / 10_000.0
        priced = [row for row in record.packs if row["price"] is not None]
        offers = [Offer(record, row, row["price"] / row["size_si"] * per_1000_si) for row in priced]
        if offers:
            found.append(min(offers, key=lambda offer: offer.cents))
    return sorted(found, key=lambda offer: offer.cents)


def _need(work: Work, yard: YardRecord, now: datetime) -> YardNeed:
    standing = standing_of(work, yard)
    product = standing.product
    assert product is not None
    assert product.rate is not None
    on = round_day(standing, local(now, yard.timezone).date())
    history = {zone.id: history_left(standing, zone, on) for zone in standing.programme}
    target = Target.SUMMER_ANNUALS
    day = season_day(on, yard.lat)
    to_seed = given_to_seed(standing, target, day.year, day)
    zones = [
        zone
        for zone in fit(standing, standing.programme, on)
        if zone.id not in to_seed
        # What nobody knows the use of gets nothing until somebody says.
        and not any(each.unknown for each in label_allowances(history[zone.id], product, on))
    ]
    now_due = round_of(standing, target, day)
    planned = max(0, plan_of(standing, target).rounds - now_due.done)
    zones = [zone for zone in zones if zone.id not in now_due.late]
    # Zones that have had this round already take one less.
    wanted = {zone.name: max(0, planned - (zone.id not in now_due.zones)) for zone in zones}
    rounds = {z.name: _rounds_allowed(history[z.id], product, on, wanted[z.name]) for z in zones}
    is_next = {zone.name: zone.id in now_due.zones and rounds[zone.name] > 0 for zone in zones}
    each_si = {zone.name: amount_for(zone.treated_m2, product.rate).si for zone in zones}
    next_si = {z.name: amount_for(left_m2(standing, z, on), product.rate).si for z in zones}
    short = {name: count for name, count in rounds.items() if count < wanted[name]}
    return YardNeed(
        yard,
        round_si=math.fsum(si for name, si in next_si.items() if is_next[name]),
        year_si=math.fsum(
            si * rounds[name] - (si - next_si[name] if is_next[name] else 0.0)
            for name, si in each_si.items()
        ),
        rounds_left=max(rounds.values(), default=0),
        short=tuple(
            (count, tuple(name for name in short if short[name] == count))
            for count in sorted(set(short.values()))
        ),
    )


def _rounds_allowed(history: History, product: Product, on: date, planned: int) -> int:
    """Return how many of the planned rounds the label leaves room for on a zone."""
    assert product.rate is not None
    most = float(planned)
    for item in label_allowances(history, product, on):
        try:
            asked = from_si(counted_si(product.rate, product, item.maximum), item.unit)
        except (StrengthUnknown, WeightAgainstVolume):
            continue
        if item.period == "application":
            most = min(most, planned if asked <= item.limit * (1 + _ROUNDING) else 0)
        else:
            most = min(most, math.floor(item.left / asked + _ROUNDING))
    if product.max_applications is not None:
        most = min(most, product.max_applications)
    try:
        check_times(history, product, on)
    except TooManyApplications:
        return 0
    except TooSoon:
        pass  # bought now, put down when the label allows it
    return int(most)


def _is_same(work: Work, yard: YardRecord, record: ProductRecord) -> bool:
    if yard.product_id is None:
        return False
    theirs = standing_of(work, yard).chosen
    is_weight = Rate(theirs.rate_value, theirs.rate_unit).is_weight
    return (
        theirs.ingredients == record.ingredients
        and theirs.form == record.form
        and is_weight == Rate(record.rate_value, record.rate_unit).is_weight
    )


def _best(
    need_si: float, offers: tuple[Pack, ...], shelf_si: float, goal: Goal
) -> tuple[Purchase, Goal]:
    try:
        return purchase(need_si, offers, shelf_si, goal), goal
    except NoPrice:
        return purchase(need_si, offers, shelf_si, "least_left_over"), "least_left_over"


def _others(
    need_si: float, offers: tuple[Pack, ...], shelf_si: float, best: Purchase
) -> tuple[Purchase, ...]:
    """Return each pack size bought alone, but for what is best already."""
    bought = {(item.offer.size_si, item.count) for item in best.packs}
    found = []
    for offer in offers:
        alone = purchase(need_si, [replace(offer)], shelf_si, "least_left_over")
        if {(item.offer.size_si, item.count) for item in alone.packs} != bought and alone.packs:
            found.append(alone)
    return tuple(found)
