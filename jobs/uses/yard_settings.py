"""Registering yards and changing what is settled about them."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any, Final

from jobs.agronomy.season import PLANS, Target
from jobs.sources.timezones import zone_at, zone_named
from jobs.uses.bounds import LONGEST_NAME, NotAllowed, check_place, check_yards
from jobs.uses.crew_changes import share_new
from jobs.yard_changes import as_it_is, settle
from storage import journal, yards
from storage.database import Work
from storage.yards import YardRecord

#: Leads a yard may be set to [days]: shorter leaves no time to water in, longer spends the barrier.
LEADS_DAYS: Final = range(10, 71)
#: Intervals between halves a yard may be set to [days].
SPLITS_DAYS: Final = range(28, 85)


class NoSuchZone(ValueError):
    """Raised for a time zone nobody knows."""


@dataclass(frozen=True, slots=True)
class Register:
    """A place somebody wants looked after."""

    chat_id: int
    person_id: int
    lat: float
    lon: float
    name: str
    town: str | None = None


def register(work: Work, command: Register, now: datetime) -> YardRecord:
    """Register a yard with the plan of its target; it is looked at for the first time at once.

    Raises
    ------
    OutOfBounds
        If the chat has many yards, or the person has named many places within a day.
    """
    check_yards(work, command.chat_id)
    check_place(work, command.chat_id, command.person_id, command.lat, command.lon, now)
    plan = PLANS[Target.SUMMER_ANNUALS]
    yard = yards.add(
        work,
        chat_id=command.chat_id,
        person_id=command.person_id,
        name=command.name[:LONGEST_NAME],
        lat=command.lat,
        lon=command.lon,
        timezone=zone_at(command.lat, command.lon),
        lead_days=plan.lead_days,
        split_days=plan.split_days,
        rounds=plan.rounds,
        is_asked_what_came=True,
        now=now,
        town=command.town,
    )
    journal.note(work, yard.id, "yard.add", yard.id, name=yard.name)
    share_new(work, yard, now=now)
    return yard


def rename(work: Work, yard: YardRecord, name: str) -> YardRecord:
    """Give a yard another name; one that another yard has is told apart by customer or town."""
    taken = {
        each.name.casefold() for each in yards.of_chat(work, yard.chat_id) if each.id != yard.id
    }
    free = free_name(taken, name, (yard.customer, yard.town, yard.address))
    return settle(work, yard, {"name": free})


def free_name(taken: Collection[str], name: str, told_apart_by: Sequence[str | None]) -> str:
    """Return a name that no yard has yet: the one wanted, else with its customer or town.

    `taken` holds the names there are, in small letters.
    """
    wanted = [name, *(f"{name} ({each})" for each in told_apart_by if each)]
    counted = (f"{name[: LONGEST_NAME - 4]} {number}" for number in range(2, 1000))
    every = [each[:LONGEST_NAME].strip() for each in (*wanted, *counted)]
    return next(each for each in every if each.casefold() not in taken)


def correct_timezone(work: Work, yard: YardRecord, zone: str) -> YardRecord:
    """Put a yard into another time zone, by its IANA name or the name of its city.

    Raises
    ------
    NoSuchZone
        If nobody knows the zone.
    """
    name = zone_named(zone)
    if name is None:
        raise NoSuchZone(zone)
    return settle(work, yard, {"timezone": name})


def move(
    work: Work,
    yard: YardRecord,
    lat: float,
    lon: float,
    *,
    person_id: int,
    now: datetime,
    town: str | None = None,
) -> YardRecord:
    """Put a yard at another place, in a town where that is known; its season is judged anew.

    Raises
    ------
    OutOfBounds
        If the person has named many places within a day.
    """
    check_place(work, yard.chat_id, person_id, lat, lon, now)
    values: dict[str, Any] = {
        "lat": round(lat, 4),
        "lon": round(lon, 4),
        "timezone": zone_at(lat, lon),
        "town": town,
    }
    yards.change(work, yard.id, **values, next_check_at=now)
    journal.note(work, yard.id, "yard.move", yard.id, name=yard.name)
    return as_it_is(work, yard)


def set_lead(work: Work, yard: YardRecord, days: int) -> YardRecord:
    """Set how many days before first emergence the window opens.

    Raises
    ------
    NotAllowed
        If the lead is outside `LEADS_DAYS`.
    """
    if days not in LEADS_DAYS:
        raise NotAllowed(LEADS_DAYS)
    values: dict[str, str | int | float] = {"lead_days": days, "is_lead_set": True}
    return settle(work, yard, values)


def set_rounds(work: Work, yard: YardRecord, rounds: int) -> YardRecord:
    """Set whether the spring is done in one application or in two halves.

    Raises
    ------
    NotAllowed
        If it is neither 1 nor 2.
    """
    if rounds not in (1, 2):
        raise NotAllowed(range(1, 3))
    return settle(work, yard, {"rounds": rounds})
