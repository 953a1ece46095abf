"""What a yard's label still allows, from the applications on record."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta

from jobs.agronomy.amounts import LabelLimitExceeded, counted_si
from jobs.agronomy.ledger import (
    Allowance,
    Entry,
    TooManyApplications,
    TooSoon,
    UseUnknown,
    allowances,
    check_times,
    most_allowed,
)
from jobs.agronomy.products import Product
from jobs.agronomy.rates import Rate, WeightAgainstVolume
from jobs.agronomy.strengths import StrengthUnknown
from jobs.agronomy.units import from_si
from jobs.labels import product_of_snapshot
from storage import applications
from storage.database import Work
from storage.yards import YardRecord

_M2_PER_HA = 10_000.0
#: An unknown product is spoken of for the longest period that labels count over.
_REMEMBERED = timedelta(days=365)
#: Room for floating point where a rate just fills what is left.
_ROUNDING = 1e-9


def entries_of(work: Work, yard: YardRecord) -> tuple[Entry, ...]:
    """Return every application of a yard as the ledger counts them."""
    found = []
    for done in applications.of_yard(work, yard.id):
        if done.product is None:
            continue
        product = product_of_snapshot(done.product)
        per = "L/ha" if product.rate is not None and not product.rate.is_weight else "kg/ha"
        for share in done.shares:
            rate = None
            if share.amount_si and product.rate is not None:
                rate = Rate(share.amount_si / share.area_m2 * _M2_PER_HA, per)
            found.append(Entry(share.zone_name.casefold(), done.applied_on, product, rate))
    return tuple(found)


def unknown_products(work: Work, yard: YardRecord, on: date) -> dict[str, date]:
    """Return the newest day in the year before on which nobody knows what went onto a zone.

    By the zone's name in lower case. It counts for no maximum, and may well count.
    """
    since = on - _REMEMBERED
    return {
        share.zone_name.casefold(): done.applied_on
        for done in applications.of_yard(work, yard.id, since=since)
        if done.product is None
        for share in done.shares
    }


def label_allowances(
    entries: Sequence[Entry], zone: str, product: Product, on: date
) -> tuple[Allowance, ...]:
    """Return what each maximum of the label itself still allows on a zone and day."""
    found = allowances(entries, zone.casefold(), product, on)
    return tuple(item for item in found if item.basis == "label")


def check_label(
    entries: Sequence[Entry], zone: str, product: Product, rate: Rate, on: date
) -> Rate | None:
    """Return the most the label still allows on a zone (None: it names no limit), or stop a rate.

    Raises
    ------
    LabelLimitExceeded
        If the rate comes on top of what is down already to more than the label's maximum.
    UseUnknown
        If something that counts went down without anybody knowing how much.
    """
    found = label_allowances(entries, zone, product, on)
    for item in found:
        if item.unknown:
            raise UseUnknown(item.unknown)
        asked = from_si(counted_si(rate, product, item.maximum), item.unit)
        if asked + item.used > item.limit * (1 + _ROUNDING):
            raise LabelLimitExceeded(
                asked, item.limit, item.unit, item.period, item.of, used=item.used
            )
    return most_allowed(found, product, rate.unit)


def is_round_left(
    entries: Sequence[Entry], zones: Sequence[str], product: Product, on: date
) -> bool:
    """Tell whether the label leaves a whole round, at the product's rate, on any of the zones.

    Where nobody knows what is down already it may.
    """
    if product.rate is None:
        return True
    for zone in zones:
        try:
            check_label(entries, zone, product, product.rate, on)
        except LabelLimitExceeded:
            continue
        except (UseUnknown, StrengthUnknown, WeightAgainstVolume):
            pass
        try:
            check_times(entries, zone.casefold(), product, on)
        except (TooSoon, TooManyApplications):
            continue
        return True
    return not zones
