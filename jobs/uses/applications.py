"""Confirming what was put down, and the water that carried it in."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from typing import Any, Final, TypeAlias

from jobs.agronomy.amounts import Amount, LabelLimitExceeded, amount_for, check_amount, rate_of
from jobs.agronomy.ledger import TooManyApplications, TooSoon, UseUnknown, check_times
from jobs.agronomy.products import Product
from jobs.agronomy.rates import Rate, WeightAgainstVolume
from jobs.agronomy.season import State, Target
from jobs.agronomy.series import DailySeries
from jobs.agronomy.strengths import StrengthUnknown
from jobs.allowed import check_label, entries_of
from jobs.labels import product_of_snapshot, snapshot
from jobs.local_days import local, season_day
from jobs.record_details import RecordDetails
from jobs.rounds import belongs_to
from jobs.season_facts import NextHalf, Sight, next_half, plan_of, round_of
from jobs.seasons import look
from jobs.turf_limits import room
from jobs.watering_in import WATER_IN_WITHIN_DAYS, is_enough, makes_barrier, water_on
from jobs.weather_of_day import water_terms
from storage import applications, journal, products, yards
from storage.applications import ApplicationRecord, ZoneShare
from storage.database import Work
from storage.products import ProductRecord
from storage.yards import YardRecord, ZoneRecord

#: A second application on one zone within this time is asked about: two people, one spreader.
_ASKED_ABOUT_WITHIN: Final = timedelta(days=14)
#: So is a half so much before the plan has it: the label's year is soon used up.
_EARLY_BY: Final = timedelta(days=14)


#: Target of what others put down against something else: it counts by the label, for no round.
OTHER_TARGET: Final = "other"


class AlreadyApplied(ValueError):
    """Raised when zones had an application so lately that a slip is likelier than a plan."""

    def __init__(self, zones: tuple[str, ...], on: date, record_id: int) -> None:
        super().__init__(f"{', '.join(zones)} on {on.isoformat()}")
        self.zones = zones
        self.on = on
        self.record_id = record_id


@dataclass(frozen=True, slots=True)
class Confirm:
    """What a person says was put down.

    Attributes
    ----------
    zones
        The zones that got it.
    applied_at
        When (aware).
    amount
        How much in all, where it was said; it is shared out by area.
    said
        Their words.
    is_sure
        True where a second application so soon after the first is meant.
    target
        The weeds it is for, where that was said.
    by_whom
        Who put it down, if not somebody of the chat (a service, a landlord).
    product
        What they put down, as `jobs.labels.snapshot` keeps it; None for the yard's own product.
    is_product_unknown
        True where others put down nobody knows what.
    """

    zones: Sequence[ZoneRecord]
    applied_at: datetime
    amount: Amount | None
    said: str
    is_sure: bool = False
    target: Target | None = None
    by_whom: str | None = None
    product: dict[str, Any] | None = None
    is_product_unknown: bool = False


#: What the label may have against an application beside its maxima.
Doubt: TypeAlias = TooSoon | TooManyApplications | UseUnknown


@dataclass(frozen=True, slots=True)
class Confirmed:
    """What came of it.

    Attributes
    ----------
    asked
        What the label rate asks for these zones, or None without a product.
    amount
        What was said to be put down, or what was asked.
    achieved
        The rate that comes to, where an amount was said.
    over
        The label's maximum that it exceeds, all products counted, if it does: it is down already,
        so it is recorded.
    doubt
        What else the label has against it: too soon after another, too often, or nobody knows how
        much of it is down already.
    target, year
        The round it counts for.
    is_of_a_round
        Whether it counts for a round at all: what acts on leaves alone does not.
    open_zones
        Names of zones still to do in this round.
    state
        The season's state after it.
    water_in_by
        Last day for watering in.
    next_half
        The next half by the plan, if there is one to come.
    journal_id
        For taking it back.
    """

    application_id: int
    zones: tuple[str, ...]
    area_m2: float
    applied_on: date
    asked: Amount | None
    amount: Amount | None
    achieved: Rate | None
    planned: Rate | None
    over: LabelLimitExceeded | None
    doubt: Doubt | None
    is_of_a_round: bool
    open_zones: tuple[str, ...]
    state: str
    water_in_by: date
    next_half: NextHalf | None
    journal_id: int
    target: str
    year: int


def confirm(
    work: Work,
    yard: YardRecord,
    command: Confirm,
    *,
    person_id: int,
    now: datetime,
    sight: Sight | None = None,
    details: RecordDetails | None = None,
) -> Confirmed:
    """Record an application and move the season.

    Parameters
    ----------
    sight
        What can be seen of the yard, for how long the barrier holds.
    details
        The record's other fields, such as the weather at that hour.

    Raises
    ------
    AlreadyApplied
        If a zone had one lately, or its next half is not due for long, and the command is not sure.
    WeightAgainstVolume
        If the amount is a weight and the product goes by volume, or the other way round.
    """
    # Two people may report the same work at once.
    yards.hold(work, yard.id)
    applied_on = local(command.applied_at, yard.timezone).date()
    today = local(now, yard.timezone).date()
    target, year = belongs_to(work, yard, applied_on, command.target)
    if not command.is_sure:
        _stop_if_applied_lately(work, yard, command.zones, applied_on, target)
    record, kept = None, command.product
    if kept is None and yard.product_id is not None and not command.is_product_unknown:
        record = products.product(work, yard.product_id)
        kept = snapshot(record)
    product = None if kept is None else product_of_snapshot(kept)
    area_m2 = sum(zone.treated_m2 for zone in command.zones)
    asked = None if product is None or product.rate is None else amount_for(area_m2, product.rate)
    achieved, over = _achieved(command.amount, area_m2, product)
    doubt = None
    if product is not None:
        with_earlier, doubt = _by_label(work, yard, command, achieved or product.rate, product)
        over = over or with_earlier

    is_of_a_round = _is_of_a_round(product, command)
    application_id = applications.add(
        work,
        yard_id=yard.id,
        target=target if is_of_a_round else OTHER_TARGET,
        year=year,
        applied_at=command.applied_at.astimezone(UTC),
        applied_on=applied_on,
        person_id=person_id,
        product_id=None if record is None else record.id,
        product=kept,
        said=command.said,
        shares=[_share(zone, area_m2, product, command.amount) for zone in command.zones],
        now=now,
        by_whom=command.by_whom,
        details=None if details is None else details.to_json(),
    )
    ours = None if command.by_whom is not None else record
    _take_from_shelf(work, ours, command.amount or asked)
    course = None if sight is None else sight.course
    every = look(work, yard, {}, None, now, person_id=person_id, course=course)
    moved = next((each for each in every if each.target == target), every[0])
    yards.change(work, yard.id, next_check_at=now)
    journal_id = journal.note(
        work,
        yard.id,
        "application.add",
        application_id,
        hangs_on=[("zone", zone.id) for zone in command.zones],
        names=[zone.name for zone in command.zones],
        on=applied_on.isoformat(),
    )
    return Confirmed(
        application_id=application_id,
        zones=tuple(zone.name for zone in command.zones),
        area_m2=area_m2,
        applied_on=applied_on,
        asked=asked,
        amount=command.amount or asked,
        achieved=achieved,
        planned=None if product is None else product.rate,
        over=over,
        doubt=doubt,
        is_of_a_round=is_of_a_round,
        open_zones=()
        if moved.state == State.APPLIED or not is_of_a_round
        else open_zones(work, yard, target, today),
        state=moved.state,
        water_in_by=water_in_by(work, yard, applied_on),
        next_half=next_half(work, yard, target, now, course) if is_of_a_round else None,
        journal_id=journal_id,
        target=target,
        year=year,
    )


@dataclass(frozen=True, slots=True)
class Watered:
    """What a reported watering came to: depth had since the application, and depth wanted [mm]."""

    added_mm: float
    had_mm: float
    wanted_mm: float
    is_watered_in: bool
    journal_id: int


class NothingToWaterIn(LookupError):
    """Raised when no application is waiting for water."""


class WateredBefore(ValueError):
    """Raised for water of a day before everything that waits for it went down."""

    def __init__(self, applied_on: date) -> None:
        super().__init__(f"put down {applied_on}")
        self.applied_on = applied_on


def record_watering(
    work: Work,
    yard: YardRecord,
    depth_mm: float | None,
    known: DailySeries | None,
    *,
    on: date,
    person_id: int,
    now: datetime,
) -> Watered:
    """Record a reported watering; without a depth the person's word is taken for all of it.

    Raises
    ------
    NothingToWaterIn
        If no application waits for water.
    WateredBefore
        If the day is before everything that waits.
    """
    today = local(now, yard.timezone).date()
    waiting = waiting_for_water(work, yard, today)
    if not waiting:
        raise NothingToWaterIn(yard.name)
    below = [done for done in waiting if done.applied_on <= on]
    if not below:
        raise WateredBefore(waiting[0].applied_on)
    first = below[0]
    wanted_mm = water_terms(work, yard).depth_mm
    had_mm = {each.id: water_on(work, yard, known, each) for each in below}
    missing_mm = max(0.0, wanted_mm - had_mm[first.id])
    added_mm = missing_mm if depth_mm is None else depth_mm
    watering_id = applications.add_watering(
        work,
        yard_id=yard.id,
        watered_on=on,
        depth_mm=added_mm,
        person_id=person_id,
        now=now,
    )
    done = []
    for application in below:
        if is_enough(had_mm[application.id] + added_mm, wanted_mm):
            applications.set_watered_in(work, application.id, on)
            done.append(application.id)
    journal_id = journal.note(
        work,
        yard.id,
        "watering.add",
        watering_id,
        hangs_on=[("application", application.id) for application in below],
        on=on.isoformat(),
    )
    return Watered(
        added_mm=added_mm,
        had_mm=had_mm[first.id] + added_mm,
        wanted_mm=wanted_mm,
        is_watered_in=first.id in done,
        journal_id=journal_id,
    )


def waiting_for_water(work: Work, yard: YardRecord, today: date) -> list[ApplicationRecord]:
    """Return applications of the last two weeks that have not had their water, oldest first."""
    since = today - timedelta(days=2 * WATER_IN_WITHIN_DAYS)
    return [
        done
        for done in applications.of_yard(work, yard.id, since=since)
        if done.watered_in_on is None and makes_barrier(done)
    ]


def water_in_by(work: Work, yard: YardRecord, applied_on: date) -> date:
    """Return the last day for watering in what was put down on a day."""
    return applied_on + timedelta(days=water_terms(work, yard).within_days)


def open_zones(work: Work, yard: YardRecord, target: Target, today: date) -> tuple[str, ...]:
    """Return names of the zones still to have a target's next round, without those stopped."""
    ids = round_of(work, yard, target, season_day(today, yard.lat)).zones
    still = [zone for zone in yards.zones(work, yard.id) if zone.id in ids]
    return tuple(zone.name for zone in room(work, yard, still, today).zones)


def _stop_if_applied_lately(
    work: Work,
    yard: YardRecord,
    zones: Sequence[ZoneRecord],
    applied_on: date,
    target: Target,
) -> None:
    within = max(
        _ASKED_ABOUT_WITHIN, timedelta(days=plan_of(work, yard, target).split_days) - _EARLY_BY
    )
    names = {zone.name.casefold() for zone in zones}
    for done in reversed(applications.of_yard(work, yard.id)):
        again = [share.zone_name for share in done.shares if share.zone_name.casefold() in names]
        of_round = within if done.target == target else _ASKED_ABOUT_WITHIN
        if again and abs(applied_on - done.applied_on) < of_round:
            raise AlreadyApplied(tuple(again), done.applied_on, done.id)


def _achieved(
    amount: Amount | None, area_m2: float, product: Product | None
) -> tuple[Rate | None, LabelLimitExceeded | None]:
    if amount is None or product is None or product.rate is None:
        return None, None
    try:
        return check_amount(amount, area_m2, product), None
    except LabelLimitExceeded as over:
        return rate_of(amount, area_m2, product.rate.unit), over


def _by_label(
    work: Work, yard: YardRecord, command: Confirm, rate: Rate | None, product: Product
) -> tuple[LabelLimitExceeded | None, Doubt | None]:
    """Return the maximum that what is down already and this come to more than, and a doubt.

    It is down: whatever is found is no reason to leave it off the record.
    """
    on = local(command.applied_at, yard.timezone).date()
    entries = entries_of(work, yard)
    over: LabelLimitExceeded | None = None
    doubt: Doubt | None = None
    for zone in command.zones:
        try:
            if rate is not None:
                check_label(entries, zone.name, product, rate, on)
        except LabelLimitExceeded as found:
            over = over or found
        except UseUnknown as unknown:
            doubt = doubt or unknown
        except (StrengthUnknown, WeightAgainstVolume):
            pass
        try:
            check_times(entries, zone.name.casefold(), product, on)
        except (TooSoon, TooManyApplications) as found:
            doubt = doubt or found
    return over, doubt


def _take_from_shelf(work: Work, record: ProductRecord | None, amount: Amount | None) -> None:
    """Take what was put down off the shelf."""
    if record is not None and record.shelf_si is not None and amount is not None:
        products.set_shelf(work, record.id, max(0.0, record.shelf_si - amount.si))


def _is_of_a_round(product: Product | None, command: Confirm) -> bool:
    """Tell whether it is part of the yard's programme: a leaf herbicide alone is none."""
    if product is None:
        return command.by_whom is None
    return product.makes_barrier


def _share(
    zone: ZoneRecord, total_m2: float, product: Product | None, amount: Amount | None
) -> ZoneShare:
    rate = None if product is None else product.rate
    asked = None if rate is None else amount_for(zone.treated_m2, rate)
    given = asked if amount is None else amount.times(zone.treated_m2 / total_m2)
    return ZoneShare(
        zone_id=zone.id,
        zone_name=zone.name,
        area_m2=zone.treated_m2,
        asked_si=None if asked is None else asked.si,
        amount_si=None if given is None else given.si,
        amount_unit=None if given is None else given.unit,
        is_amount_said=amount is not None,
    )
