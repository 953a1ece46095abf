"""Confirming what was put down, and the water that carried it in."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import asdict, replace
from datetime import UTC, date, datetime
from typing import Any, Final

from jobs.agronomy.amounts import Amount, amount_for
from jobs.agronomy.ground import ALL_OF_IT
from jobs.agronomy.label_doubts import has_facts
from jobs.agronomy.labelled_product import Product
from jobs.agronomy.season import State, Target
from jobs.labels import product_of_snapshot, snapshot
from jobs.local_days import local, season_day
from jobs.record_details import RecordDetails
from jobs.rounds import belongs_to, planned_for
from jobs.season_facts import Sight, next_half, round_of
from jobs.standing import Standing, standing_of
from jobs.turf_limits import room
from jobs.uses import held_to_label
from jobs.uses.parts import WHOLE, Part, PartTooLarge, PartUnknown, Piece, pieces_of
from jobs.uses.reported import Confirm, Confirmed, PartDown
from jobs.uses.second_pass import FIRST, SecondPass, complete, to_come
from jobs.uses.strange import Report, ask_if_strange
from jobs.uses.water_reports import water_in_by
from jobs.yard_look import look
from storage import applications, journal, products, yards
from storage.applications import ZoneShare
from storage.database import Work
from storage.products import ProductRecord
from storage.yards import YardRecord, ZoneRecord

__all__ = ["WHOLE", "Confirm", "Confirmed", "Part", "PartTooLarge", "PartUnknown", "confirm"]

#: Target of what others put down against something else: it counts by the label, for no round.
OTHER_TARGET: Final = "other"
#: What is left of a zone.
_REST: Final = Part(is_rest=True)


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
    Strange
        If something about it is so unusual that a slip is likelier, and the command is not sure.
    PartTooLarge, PartUnknown
        If a part is more than the zone, or nobody can tell how far it went.
    WeightAgainstVolume
        If the amount is a weight and the product goes by volume, or the other way round.
    """
    # Two people may report the same work at once.
    yards.hold(work, yard.id)
    before = standing_of(work, yard)
    applied_on = local(command.applied_at, yard.timezone).date()
    today = local(now, yard.timezone).date()
    target, year = belongs_to(before, applied_on, command.target, is_report=True)
    record, kept = _what(before, command)
    replaced = _unknown_before(before, command, applied_on)
    if replaced is not None:
        applications.strike(work, replaced, person_id=person_id, now=now)
        before = standing_of(work, yard)
    product = None if kept is None else product_of_snapshot(kept)
    taken_for = None
    if kept is not None and product is not None and command.by_whom is not None:
        taken_for = held_to_label.taken_for(product, before.product, command.amount)
        kept = kept if taken_for is None else {**kept, "assumed": asdict(taken_for)}
    pieces = pieces_of(before, command.zones, command.parts, command.amount, product, target, year)
    area_m2 = math.fsum(piece.area_m2 for piece in pieces)
    asked = _planned(product, area_m2)
    seconds = _seconds(before, command, target, year)
    amount, added = _shared_out(command.amount, asked, seconds)
    achieved, over = held_to_label.achieved(amount, area_m2, product)
    if not command.is_sure:
        report = Report(pieces, applied_on, today, target, year, product, achieved)
        ask_if_strange(before, report)
    doubt = None
    if product is not None:
        rate = achieved or (product.rate if amount or asked else None)
        with_earlier, doubt = held_to_label.by_label(before, pieces, rate, product, applied_on)
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
        shares=[_share(piece, area_m2, product, amount) for piece in pieces],
        now=now,
        by_whom=command.by_whom,
        details=_details(command, details),
    )
    ours = None if command.by_whom is not None else record
    _take_from_shelf(work, ours, amount or asked)
    for second, more in zip(seconds, added, strict=True):
        complete(work, yard, second, more, sight=sight, person_id=person_id, now=now)
    course = None if sight is None else sight.course
    every = look(work, yard, {}, None, now, person_id=person_id, course=course)
    moved = next((each for each in every if each.target == target), every[0])
    yards.change(work, yard.id, next_check_at=now)
    after = standing_of(work, yard)
    journal.note(
        work,
        yard.id,
        "application.add",
        application_id,
        hangs_on=[("zone", zone.id) for zone in command.zones],
        names=[zone.name for zone in command.zones],
        on=applied_on.isoformat(),
    )
    is_over = year < planned_for(after, today)[1]
    is_done = moved.state == State.APPLIED or is_over or not is_of_a_round
    return Confirmed(
        application_id=application_id,
        zones=tuple(zone.name for zone in command.zones),
        area_m2=area_m2,
        applied_on=applied_on,
        asked=asked,
        amount=amount or asked,
        achieved=achieved,
        planned=None if product is None else product.rate,
        over=over,
        doubt=doubt,
        is_of_a_round=is_of_a_round,
        open_zones=() if is_done else open_zones(after, target, today),
        state=moved.state,
        water_in_by=water_in_by(work, yard, applied_on),
        next_half=next_half(after, target, now, course) if is_of_a_round else None,
        target=target,
        year=year,
        assumed=taken_for,
        seconds=tuple(each.share.zone_name for each in seconds),
        parts=tuple(
            PartDown(p.zone.name, p.area_m2, _still_m2(after, p.zone, target, year))
            for p in pieces
            if p.begun.records or p.area_m2 < ALL_OF_IT * p.zone.treated_m2
        ),
    )


def _seconds(standing: Standing, command: Confirm, target: Target, year: int) -> list[SecondPass]:
    """Return the second passes that are down with a report: those of zones that are done."""
    if command.by_whom is not None or command.product is not None or command.is_first_pass:
        return []
    parts = [command.parts.get(zone.id, _REST) for zone in command.zones]
    done = [zone for zone, part in zip(command.zones, parts, strict=True) if part == _REST]
    return to_come(standing, done, target, year)


def _shared_out(
    said: Amount | None, asked: Amount | None, seconds: Sequence[SecondPass]
) -> tuple[Amount | None, list[Amount]]:
    """Share an amount out between what is new and second passes, each by what it takes."""
    lacking = [each.lacking for each in seconds]
    if said is None or asked is None or not seconds:
        return said, lacking
    total_si = asked.si + math.fsum(each.si for each in lacking)
    return (said.times(asked.si / total_si), [said.times(each.si / total_si) for each in lacking])


def _details(command: Confirm, details: RecordDetails | None) -> dict[str, Any] | None:
    if command.is_first_pass:
        details = replace(details or RecordDetails(), in_pass=FIRST)
    return None if details is None else details.to_json()


def _unknown_before(standing: Standing, command: Confirm, applied_on: date) -> int | None:
    """Return the record of something unknown that this report says more of, if there is one."""
    if command.by_whom is None or command.product is None:
        return None
    grounds = {zone.ground_id for zone in command.zones}
    for done in standing.done:
        is_same = done.applied_on == applied_on and done.by_whom is not None
        if is_same and done.product is None and grounds >= {s.ground_id for s in done.shares}:
            return done.id
    return None


def _still_m2(standing: Standing, zone: ZoneRecord, target: Target, year: int) -> float:
    begun = standing.progress(zone, target, year)
    return standing.left_m2(zone, begun) if begun.records else 0.0


def _what(
    standing: Standing, command: Confirm
) -> tuple[ProductRecord | None, dict[str, Any] | None]:
    """Return the yard's own product where that was put down, and what is kept of the product."""
    if command.product is not None or command.is_product_unknown or standing.record is None:
        return None, command.product
    return standing.record, snapshot(standing.record)


def open_zones(standing: Standing, target: Target, today: date) -> tuple[str, ...]:
    """Return names of the zones still to have a target's next round, without those stopped."""
    ids = round_of(standing, target, season_day(today, standing.yard.lat)).zones
    still = [zone for zone in standing.zones if zone.id in ids]
    return tuple(zone.name for zone in room(standing, still, today).zones)


def _planned(product: Product | None, area_m2: float) -> Amount | None:
    """Return what a label wants on an area; None where it cannot be told, and was not."""
    if product is None or product.rate is None or not has_facts(product):
        return None
    return amount_for(area_m2, product.rate)


def _take_from_shelf(work: Work, record: ProductRecord | None, amount: Amount | None) -> None:
    """Take what was put down off the shelf."""
    if record is not None and amount is not None:
        products.take_off_shelf(work, record.id, amount.si)


def _is_of_a_round(product: Product | None, command: Confirm) -> bool:
    """Tell whether it is part of the yard's programme: a leaf herbicide alone is none."""
    if product is None:
        return command.by_whom is None
    return product.makes_barrier


def _share(
    piece: Piece, total_m2: float, product: Product | None, amount: Amount | None
) -> ZoneShare:
    asked = _planned(product, piece.area_m2)
    given = asked if amount is None else amount.times(piece.area_m2 / total_m2)
    return ZoneShare(
        zone_id=piece.zone.id,
        ground_id=piece.zone.ground_id,
        zone_name=piece.zone.name,
        area_m2=piece.area_m2,
        of_m2=piece.zone.treated_m2,
        asked_si=None if asked is None else asked.si,
        amount_si=None if given is None else given.si,
        amount_unit=None if given is None else given.unit,
        is_amount_said=amount is not None,
        beside=piece.beside,
    )
