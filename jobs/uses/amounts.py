"""How much of the chosen product each zone of a yard takes, and what the label still allows."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime

from jobs.agronomy.amounts import AmountPlan, ZoneAmount, ZoneArea, amounts, check_rate
from jobs.agronomy.products import Product
from jobs.agronomy.rates import Rate
from jobs.agronomy.season import Target, rounds_done
from jobs.allowed import check_label, entries_of
from jobs.labels import product_of
from jobs.local_days import local, season_day
from jobs.seasons import plan_of, season_facts
from jobs.turf_limits import GrassCaution, LeftOut, judge
from storage import products, yards
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


@dataclass(frozen=True, slots=True)
class YardAmounts:
    """What a round takes: the plan by zone and the product it is for.

    `round_number` of `rounds` is the round that comes next; `most` is the highest rate the label
    still allows on every zone, or None where it names no limit. `zones` are those in the plan;
    `asked_each_time` stand beside it and in no total.
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


def for_yard(work: Work, yard: YardRecord, now: datetime) -> YardAmounts:
    """Return the amounts of a yard's next round.

    Raises
    ------
    NothingMeasured, NoProduct
        If there is nothing to reckon with yet.
    AllLeftOut
        If no zone may be treated.
    LabelLimitExceeded
        If the rate, with what is down already, comes to more than one of the label's maxima.
    """
    kept = yards.zones(work, yard.id)
    if not any(zone.part != "never" for zone in kept):
        raise NothingMeasured(yard.name)
    if yard.product_id is None:
        raise NoProduct(yard.name)
    record = products.product(work, yard.product_id)
    product = product_of(record)
    assert product.rate is not None
    check_rate(product.rate, product)
    entries, on = entries_of(work, yard), local(now, yard.timezone).date()
    judged = {zone.id: judge(zone, product, entries, on) for zone in kept if zone.part != "never"}
    fit = [zone for zone in kept if zone.id in judged and judged[zone.id][0] is None]
    left_out = tuple(out for out, _ in judged.values() if out is not None)
    zones = [zone for zone in fit if zone.part == "every"]
    if not fit:
        raise AllLeftOut(left_out)
    plan = amounts(_areas(zones), product.rate, product)
    each_time = amounts(_areas([z for z in fit if z.part == "ask"]), product.rate, product)
    left = [check_label(entries, zone.name, product, product.rate, on) for zone in zones]
    most = min((rate for rate in left if rate), key=lambda rate: rate.rate_si, default=None)
    rounds = plan_of(work, yard, Target.SUMMER_ANNUALS).rounds
    done = rounds_done(season_facts(work, yard, None, Target.SUMMER_ANNUALS, _today(yard, now)))
    return YardAmounts(
        plan,
        product,
        record,
        most,
        min(done + 1, rounds),
        rounds,
        zones=tuple(zones),
        left_out=left_out,
        cautions=tuple(caution for _, caution in judged.values() if caution is not None),
        asked_each_time=each_time.zones,
    )


def _areas(zones: list[ZoneRecord]) -> list[ZoneArea]:
    return [ZoneArea(zone.name, zone.area_m2, zone.buffer_m2) for zone in zones]


def _today(yard: YardRecord, now: datetime) -> date:
    return season_day(local(now, yard.timezone).date(), yard.lat)
