"""A yard of its own for zones that get another product: a product belongs to a yard."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import asdict
from datetime import datetime
from typing import Final

from jobs.standing import standing_of
from jobs.uses.bounds import LONGEST_NAME, check_yards
from jobs.uses.yard_settings import free_name
from jobs.yard_changes import as_it_is
from jobs.yard_look import look
from storage import crews, grounds, journal, moving_ground, yards
from storage.database import Work
from storage.yards import YardRecord, ZoneRecord


class Mingled(ValueError):
    """Raised where what was put down on a zone may also lie on ground that stays behind."""


def name_of(work: Work, yard: YardRecord, zones: Sequence[ZoneRecord]) -> str:
    """Return what the yard of some zones would be called: ``Home back``."""
    taken = {each.name.casefold() for each in yards.of_chat(work, yard.chat_id)}
    wanted = f"{yard.name} {' '.join(zone.name for zone in zones)}"[:LONGEST_NAME].strip()
    return free_name(taken, wanted, (yard.customer, yard.town))


def set_apart(
    work: Work, yard: YardRecord, zones: Sequence[ZoneRecord], *, person_id: int, now: datetime
) -> YardRecord:
    """Make zones a yard of their own in the same place, shared with the same people.

    It has the settings of the yard they were in, the product among them, and the records of their
    ground come along, so that every label maximum counts on.

    Raises
    ------
    Mingled
        If records of theirs may lie on ground that stays behind: zones that were one before.
    OutOfBounds
        If the chat has many yards.
    """
    check_yards(work, yard.chat_id)
    ground_ids, members = _grounds_of(work, yard, zones), standing_of(work, yard).members
    name = name_of(work, yard, zones)
    new = yards.add(
        work,
        chat_id=yard.chat_id,
        person_id=person_id,
        name=name,
        lat=yard.lat,
        lon=yard.lon,
        timezone=yard.timezone,
        lead_days=yard.lead_days,
        split_days=yard.split_days,
        rounds=yard.rounds,
        now=now,
        town=yard.town,
    )
    kept = asdict(yard)
    yards.change(work, new.id, **{each: kept[each] for each in _KEPT})
    for number in (yard.id, new.id):
        names = [zone.name for zone in zones]
        journal.note(work, number, "yard.apart", new.id, names=names, name=name)
    moving_ground.move(work, ground_ids, yard_id=yard.id, to_id=new.id, now=now)
    for member in members:
        crews.join(
            work,
            new.id,
            chat_id=member.chat_id,
            person_id=member.person_id,
            role=member.role,
            invited_by=person_id,
            now=now,
            is_of_all=member.is_of_all,
        )
    for each in (as_it_is(work, yard), as_it_is(work, new)):
        look(work, each, {}, None, now, person_id=person_id)
        yards.change(work, each.id, next_check_at=now)
    return as_it_is(work, new)


#: What the yard it was part of hands on besides its place and its rounds.
_KEPT: Final = (
    "product_id",
    "owner",
    "water_how",
    "water_days",
    "is_water_banned",
    "others_treat",
    "screening",
    "has_late_summer_round",
    "has_dormant_half",
    "is_asked_what_came",
    "is_lead_set",
    "customer",
    "address",
)


def _grounds_of(work: Work, yard: YardRecord, zones: Sequence[ZoneRecord]) -> frozenset[int]:
    """Return the ground of zones, with what it came of or became for a while."""
    standing = standing_of(work, yard)
    every = grounds.ground_names(work, yard.id)
    own = {zone.id for zone in zones}

    def under(meant: Iterable[ZoneRecord]) -> set[int]:
        lineage = standing.lineage
        return {
            number
            for zone in meant
            for number in every
            if lineage.comes_of(zone.ground_id, {number}) or number in lineage.later(zone.ground_id)
        }

    theirs, others = under(zones), under(z for z in standing.zones if z.id not in own)
    recorded = {share.ground_id for done in standing.done for share in done.shares}
    if theirs & others & recorded:
        raise Mingled(yard.name)
    return frozenset(theirs - others)
