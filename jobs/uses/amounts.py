"""How much of the chosen product each zone of a yard takes, and what the label still allows."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime

from jobs.agronomy.amounts import AmountPlan, ZoneArea, amounts
from jobs.agronomy.products import Product
from jobs.agronomy.rates import Rate
from jobs.agronomy.season import Target, rounds_done
from jobs.allowed import check_label, entries_of
from jobs.labels import product_of
from jobs.local_days import local, season_day
from jobs.seasons import plan_of, season_facts
from storage import products, yards
from storage.database import Work
from storage.products import ProductRecord
from storage.yards import YardRecord


class NothingMeasured(LookupError):
    """Raised when a yard has no zones that are treated."""


class NoProduct(LookupError):
    """Raised when no product is chosen for a yard."""


@dataclass(frozen=True, slots=True)
class YardAmounts:
    """What a round takes: the plan by zone and the product it is for.

    `round_number` of `rounds` is the round that comes next; `most` is the highest rate the label
    still allows on every zone, or None where it names no limit.
    """

    plan: AmountPlan
    product: Product
    record: ProductRecord
    most: Rate | None
    round_number: int
    rounds: int


def for_yard(work: Work, yard: YardRecord, now: datetime) -> YardAmounts:
    """Return the amounts of a yard's next round.

    Raises
    ------
    NothingMeasured, NoProduct
        If there is nothing to reckon with yet.
    LabelLimitExceeded
        If the rate, with what is down already, comes to more than one of the label's maxima.
    """
    zones = [zone for zone in yards.zones(work, yard.id) if zone.is_treated]
    if not zones:
        raise NothingMeasured(yard.name)
    if yard.product_id is None:
        raise NoProduct(yard.name)
    record = products.product(work, yard.product_id)
    product = product_of(record)
    assert product.rate is not None
    plan = amounts([ZoneArea(zone.name, zone.area_m2) for zone in zones], product.rate, product)
    entries, on = entries_of(work, yard), local(now, yard.timezone).date()
    left = [check_label(entries, zone.name, product, product.rate, on) for zone in zones]
    most = min((rate for rate in left if rate), key=lambda rate: rate.rate_si, default=None)
    rounds = plan_of(work, yard, Target.SUMMER_ANNUALS).rounds
    done = rounds_done(season_facts(work, yard, None, Target.SUMMER_ANNUALS, _today(yard, now)))
    return YardAmounts(plan, product, record, most, min(done + 1, rounds), rounds)


def _today(yard: YardRecord, now: datetime) -> date:
    return season_day(local(now, yard.timezone).date(), yard.lat)
