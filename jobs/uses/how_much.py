"""How much of the chosen product each zone of a yard takes, and what the label still allows."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from typing import Final

from jobs.agronomy.allowance import Allowance
from jobs.agronomy.amounts import (
    AmountPlan,
    LabelLimitExceeded,
    ZoneAmount,
    ZoneArea,
    amounts,
    check_rate,
)
from jobs.agronomy.history import History
from jobs.agronomy.label_doubts import FactsMissing, need_facts
from jobs.agronomy.labelled_product import Product
from jobs.agronomy.ledger import UseUnknown, check_label, label_allowances
from jobs.agronomy.rates import Rate
from jobs.agronomy.season import State, Target
from jobs.local_days import season_day
from jobs.rounds import begun, planned_for
from jobs.season_facts import plan_of, round_of
from jobs.seeded import given_to_seed
from jobs.standing import Standing, standing_of
from jobs.turf_limits import GrassCaution, LeftOut, judge
from storage.database import Work
from storage.products import ProductRecord
from storage.yards import YardRecord, ZoneRecord


class NothingMeasured(LookupError):
    """Raised when a yard has no zones that are treated."""


class NoProduct(LookupError):
    """Raised when no product is chosen for a yard."""


class AllLeftOut(LookupError):
    """Raised when every zone of a round is left out.

    Attributes
    ----------
    left_out
        The zones and why.
    """

    def __init__(self, left_out: tuple[LeftOut, ...]) -> None:
        super().__init__(", ".join(item.zone for item in left_out))
        self.left_out = left_out


#: Why a yard has no amounts just now.
NO_AMOUNTS: Final = (
    NothingMeasured,
    NoProduct,
    AllLeftOut,
    FactsMissing,
    LabelLimitExceeded,
    UseUnknown,
)


@dataclass(frozen=True, slots=True)
class YardAmounts:
    """What a round takes: the plan by zone and the product it is for.

    `round_number` of `rounds` is the round that comes next; `most` is the highest rate the label
    still allows on every zone, or None where it names no limit. `zones` are those in the plan;
    `asked_each_time` stand beside it and in no total. `down` have had this round already, and for
    `late` it is too late; of zones that have had a part of it the plan is for the rest.
    `is_finished` tells that all rounds of the season are down: what more would take is no call.
    """

    plan: AmountPlan
    product: Product
    record: ProductRecord
    most: Rate | None
    round_number: int
    rounds: int
    zones: tuple[ZoneRecord, ...] = ()
    left_out: tuple[LeftOut, ...] = ()
    cautions: tuple[GrassCaution, ...] = ()
    asked_each_time: tuple[ZoneAmount, ...] = ()
    stopped: tuple[StoppedZone, ...] = ()
    given_to_seed: tuple[str, ...] = ()
    tightest: TightestAllowance | None = None
    down: tuple[str, ...] = ()
    late: tuple[str, ...] = ()
    target: Target = Target.SUMMER_ANNUALS
    is_finished: bool = False


@dataclass(frozen=True, slots=True)
class StoppedZone:
    """A zone that another round would bring over the label's maximum, or may."""

    zone: str
    why: LabelLimitExceeded | UseUnknown


@dataclass(frozen=True, slots=True)
class TightestAllowance:
    """The label's maximum that leaves least, where something of it is used."""

    zone: str
    allowance: Allowance


def for_yard(work: Work, yard: YardRecord, on: date) -> YardAmounts:
    """Return the amounts of a yard's next round, put down on a local day.

    Of a zone that has had a part of the round, what the rest takes.

    Raises
    ------
    NothingMeasured, NoProduct
        If there is nothing to reckon with yet.
    FactsMissing
        If the strength is not known in the terms of the rate.
    AllLeftOut
        If no zone may be treated.
    LabelLimitExceeded, UseUnknown
        If on every zone the rate, with what is down already, comes to more than one of the label's
        maxima, or nobody knows how much is down.
    """
    return amounts_of(standing_of(work, yard), on)


def amounts_of(standing: Standing, on: date) -> YardAmounts:
    """Return what `for_yard` does, of a yard as it stands."""
    yard, record, product = standing.yard, standing.record, standing.product
    kept = [zone for zone in standing.zones if zone.part != "never"]
    if not kept:
        raise NothingMeasured(yard.name)
    if record is None or product is None:
        raise NoProduct(yard.name)
    assert product.rate is not None
    need_facts(product)
    check_rate(product.rate, product)
    today = season_day(on, yard.lat)
    progress = {zone.id: begun(standing, zone, on) for zone in kept}
    history = {zone.id: standing.left(zone, progress[zone.id]) for zone in kept}
    judged = {zone.id: judge(zone, product, history[zone.id], on) for zone in kept}
    fit = [zone for zone in kept if judged[zone.id][0] is None]
    left_out = tuple(out for out, _ in judged.values() if out is not None)
    if not fit:
        raise AllLeftOut(left_out)
    target, year = planned_for(standing, on)
    to_seed = given_to_seed(standing, target, year, today)
    day = date(year, 1, 1) if year > today.year else today
    programme = [z for z in fit if z.part == "every" and z.id not in to_seed]
    round_now = round_of(standing, target, day)
    zones = [zone for zone in programme if zone.id in round_now.zones] or programme
    late = [zone.name for zone in programme if zone.id in round_now.late and zone not in zones]
    stopped = _stopped(history, zones, product, on)
    zones = [z for z in zones if z.name not in {each.zone for each in stopped}]
    if stopped and not zones:
        raise stopped[0].why
    areas = {zone.id: _area(zone, standing.left_m2(zone, progress[zone.id])) for zone in fit}
    plan = amounts([areas[zone.id] for zone in zones], product.rate, product)
    each_time = amounts([areas[z.id] for z in fit if z.part == "ask"], product.rate, product)
    left = [check_label(history[zone.id], product, product.rate, on) for zone in zones]
    most = min((rate for rate in left if rate), key=lambda rate: rate.rate_si, default=None)
    rounds, season = plan_of(standing, target).rounds, standing.season(target)
    is_called = season is not None and season.state in (State.WINDOW_OPEN, State.RETREAT_DUE)
    is_begun = any(each.records for each in progress.values())
    return YardAmounts(
        plan,
        product,
        record,
        most,
        min(round_now.done + 1, rounds),
        rounds,
        target=target,
        zones=tuple(zones),
        left_out=left_out,
        cautions=tuple(caution for _, caution in judged.values() if caution is not None),
        asked_each_time=each_time.zones,
        stopped=stopped,
        given_to_seed=tuple(z.name for z in fit if z.id in to_seed),
        tightest=_tightest(history, zones, product, on),
        down=tuple(z.name for z in programme if z.id not in round_now.zones | round_now.late),
        late=tuple(late),
        is_finished=round_now.done >= rounds and not is_called and not is_begun,
    )


def _stopped(
    history: Mapping[int, History], zones: list[ZoneRecord], product: Product, on: date
) -> tuple[StoppedZone, ...]:
    assert product.rate is not None
    found = []
    for zone in zones:
        try:
            check_label(history[zone.id], product, product.rate, on)
        except (LabelLimitExceeded, UseUnknown) as why:
            found.append(StoppedZone(zone.name, why))
    return tuple(found)


def _tightest(
    history: Mapping[int, History], zones: list[ZoneRecord], product: Product, on: date
) -> TightestAllowance | None:
    found = [
        TightestAllowance(zone.name, each)
        for zone in zones
        for each in label_allowances(history[zone.id], product, on)
        if each.used > 0
    ]
    return min(found, key=lambda item: item.allowance.left / item.allowance.limit, default=None)


def _area(zone: ZoneRecord, left_m2: float) -> ZoneArea:
    return ZoneArea(zone.name, zone.area_m2, zone.buffer_m2, zone.treated_m2 - left_m2)
