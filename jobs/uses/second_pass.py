"""Second passes to come: where the first of two ran out early, what it gave is on record.

The rest of the round there is what the rate asks beyond that; once it is down, the record has all.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime
from typing import Final

from jobs.agronomy.amounts import Amount, LabelLimitExceeded, amount_for, rate_of
from jobs.agronomy.history import Records
from jobs.agronomy.labelled_product import Product
from jobs.agronomy.ledger import UseUnknown, check_label
from jobs.agronomy.rates import Rate
from jobs.agronomy.season import Target
from jobs.labels import product_of_snapshot
from jobs.record_details import RecordDetails
from jobs.season_facts import Sight
from jobs.standing import Standing
from jobs.uses.amending import set_amount
from storage import applications
from storage.applications import ApplicationRecord, ZoneShare
from storage.database import Work
from storage.yards import YardRecord, ZoneRecord

#: How a record says that it is the first of two crossing passes.
FIRST: Final = "first"


@dataclass(frozen=True, slots=True)
class SecondPass:
    """A part of a zone that had one pass of two.

    Attributes
    ----------
    has
        The rate that lies there.
    lacking
        What the whole round takes beyond that.
    """

    record: ApplicationRecord
    share: ZoneShare
    has: Rate
    lacking: Amount
    product: Product

    @property
    def whole(self) -> Amount:
        """What the part takes in all."""
        assert self.product.rate is not None
        return amount_for(self.share.area_m2, self.product.rate)


def to_come(
    standing: Standing, zones: Sequence[ZoneRecord], target: Target, year: int
) -> list[SecondPass]:
    """Return the second passes that zones lack in a season, oldest first."""
    grounds = {zone.ground_id for zone in zones}
    found = []
    for done in standing.of_season(target, year):
        if RecordDetails.from_json(done.details).in_pass != FIRST or done.product is None:
            continue
        product = product_of_snapshot(done.product)
        for share in done.shares:
            if share.ground_id not in grounds or share.amount_si is None or product.rate is None:
                continue
            has = Amount(share.amount_si, product.rate.amount_unit)
            lacking_si = amount_for(share.area_m2, product.rate).si - has.si
            if lacking_si > 0:
                rate = rate_of(has, share.area_m2, product.rate.unit)
                lacking = Amount(lacking_si, has.unit)
                found.append(SecondPass(done, share, rate, lacking, product))
    return found


def most_si(standing: Standing, second: SecondPass, on: date) -> float | None:
    """Return the most that the label leaves there beside the first pass [kg or L]; None: no limit.

    Raises
    ------
    LabelLimitExceeded, UseUnknown
        If it does not leave what is lacking, or nobody knows.
    """
    before = [each for each in standing.records.entries if each.record != second.record.id]
    history = Records(tuple(before), standing.lineage).on(second.share.ground_id)
    assert second.product.rate is not None
    most = check_label(history, second.product, second.product.rate, on)
    if most is None:
        return None
    return amount_for(second.share.area_m2, most).si - (second.share.amount_si or 0.0)


def may_follow(standing: Standing, second: SecondPass, on: date) -> bool:
    """Tell whether the label leaves what is lacking."""
    try:
        most_si(standing, second, on)
    except (LabelLimitExceeded, UseUnknown):
        return False
    return True


def complete(
    work: Work,
    yard: YardRecord,
    second: SecondPass,
    added: Amount,
    *,
    sight: Sight | None,
    person_id: int,
    now: datetime,
) -> None:
    """Put the second pass on the record of the first: what it added is down there, too."""
    record, whole = second.record, Amount((second.share.amount_si or 0.0) + added.si, added.unit)
    details = replace(RecordDetails.from_json(record.details), in_pass=None)
    applications.set_details(work, record.id, details.to_json())
    set_amount(work, yard, record, whole, sight=sight, person_id=person_id, now=now)
