"""Records filled in: many fields in one message, one field for a season, the machine's own figures.

What people are asked for is what the published rules of the states name, as far as they were read
(see `jobs.record_details`); 7 CFR 110.3, rescinded, was the federal list for restricted products.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Final

from jobs.agronomy.rates import Rate
from jobs.agronomy.units import from_si
from jobs.local_days import local
from jobs.record_details import SAID_FIELDS, RecordDetails
from jobs.standing import standing_of
from jobs.uses import calibrating, recording
from jobs.uses.recording import record_of
from jobs.yard_changes import settle
from storage import chats, journal, machines
from storage.applications import ApplicationRecord
from storage.database import Work
from storage.yards import YardRecord

#: Fields that are the yard's own, and hold for all its records.
OF_THE_YARD: Final = ("customer", "address")
#: What only people know of a record and is asked for, once a season; the licence and the product's
#: number are asked for beside them.
ASKED: Final = ("wind_from", "equipment", "reentry")


@dataclass(frozen=True, slots=True)
class Filled:
    """What was set in a record, by name, and what it was before where that is known."""

    record_id: int
    before: Mapping[str, str]


def fill(work: Work, yard: YardRecord, record_id: int, fields: Mapping[str, str]) -> Filled:
    """Set many fields of a record at once; each keeps what it was.

    Raises
    ------
    NoSuchRecord
        If there is none.
    """
    record = record_of(work, yard, record_id)
    own = {name: value for name, value in fields.items() if name in OF_THE_YARD}
    if own:
        settle(work, yard, own)
    if "registration" in fields:
        recording.register(work, yard, fields["registration"])
    said = {name: value for name, value in fields.items() if name in SAID_FIELDS}
    details = RecordDetails.from_json(record.details)
    before = {name: was for name in said if (was := getattr(details, name)) is not None}
    recording.set_said(work, yard, record, said)
    return Filled(record_id, before)


def fill_all(
    work: Work, mine: Sequence[YardRecord], fields: Mapping[str, str], *, now: datetime
) -> int:
    """Set fields in every record of this year that lacks them; return in how many."""
    said = {name: value for name, value in fields.items() if name in SAID_FIELDS}
    count = 0
    for yard in mine:
        for done in _of_this_year(work, yard, now):
            details = RecordDetails.from_json(done.details)
            new = {name: value for name, value in said.items() if getattr(details, name) is None}
            recording.set_said(work, yard, done, new)
            count += bool(new)
    return count


def missing(work: Work, mine: Sequence[YardRecord], now: datetime) -> tuple[str, ...]:
    """Return what records of this year lack and only people know, in a fixed order."""
    found = set[str]()
    for yard in mine:
        done = _of_this_year(work, yard, now)
        if not done:
            continue
        found |= set(recording.missing(work, yard))
        if yard.owner == "pay" and yard.customer is None:
            found.add("customer")
        for each in done:
            details = RecordDetails.from_json(each.details)
            found |= {name for name in ASKED if getattr(details, name) is None}
            if details.posted is None and standing_of(work, yard).chat_wishes.posts_signs:
                found.add("posted")
    every = ("registration", "licence", "customer", *ASKED, "posted")
    return tuple(name for name in every if name in found)


def with_machine(
    work: Work, yard: YardRecord, details: RecordDetails, area_m2: float
) -> RecordDetails:
    """Return details with what calibration knows of the machine that puts the product down.

    Its setting and rate from the newest weighed try, the carrier from volume and area. What
    somebody said stays.
    """
    if yard.product_id is None:
        return details
    product = standing_of(work, yard).label
    is_spray = product.form == "spray"
    kind = calibrating.SPRAYER if is_spray else calibrating.SPREADER
    machine = machines.machine(work, yard.chat_id, kind)
    if machine is None:
        return details
    equipment, calibration, carrier = [kind], None, None
    if is_spray and machine.tank_l is not None:
        equipment.append(f"{from_si(machine.tank_l, 'gal'):.3g} gal tank")
    if is_spray and machine.spray_l_ha is not None and area_m2 > 0:
        gpa = from_si(machine.spray_l_ha, "gal/acre")
        litres = machine.spray_l_ha * area_m2 / 10_000
        calibration = f"{gpa:.3g} gal/acre"
        carrier = f"{from_si(litres, 'gal'):.3g} gal water ({gpa:.3g} gal/acre)"
    tries = machines.tries(work, machine.id, calibrating.product_key(product))
    if tries:
        newest = tries[-1]
        if newest.setting is not None:
            equipment.append(f"setting {newest.setting:g}")
        rate = Rate(newest.rate_value, newest.rate_unit)
        day = local(newest.at, yard.timezone).date().isoformat()
        calibration = f"{rate.value:.3g} {rate.unit} on {day}"
    return replace(
        details,
        equipment=details.equipment or ", ".join(equipment),
        calibration=details.calibration or calibration,
        carrier=details.carrier or carrier or ("none, dry" if not is_spray else None),
    )


def works_under(
    work: Work, yard: YardRecord, person_id: int, name: str, licence: str | None
) -> None:
    """Keep under whom somebody without a licence of their own works."""
    chats.change_person(work, person_id, works_under=name, under_licence=licence)
    journal.note(work, yard.id, "person.licence", person_id, number=licence or name)


def _of_this_year(work: Work, yard: YardRecord, now: datetime) -> list[ApplicationRecord]:
    year = local(now, yard.timezone).year
    return [
        each
        for each in standing_of(work, yard).done
        if each.applied_on.year == year and each.by_whom is None
    ]
