"""Seed: when it may go in, what it collides with, what was sown, and how often it was mown."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from jobs.agronomy.ingredients import ingredients
from jobs.agronomy.late_summer import autumn_date
from jobs.agronomy.season import State, Target
from jobs.agronomy.seeding import (
    MOWINGS_BEFORE,
    SeedingAnswer,
    Treated,
    collides,
    may_go_on_at_seeding,
)
from jobs.judged import Judged
from jobs.local_days import calendar_day, local, season_day
from jobs.rounds import DORMANT_ABOUT, targets_of
from jobs.season_facts import plan_of
from jobs.seeded import seeding_of, treated_by
from jobs.standing import Standing, standing_of
from storage import journal, seedings, yards
from storage.database import Work
from storage.seedings import SeedingRecord
from storage.yards import YardRecord, ZoneRecord

#: What a zone's lock says while new seed grows in.
_SEED = "seed"


class NoSuchSeeding(LookupError):
    """Raised for a seeding that is not there any more."""


@dataclass(frozen=True, slots=True)
class Wish:
    """What somebody wants to know or do: which zones, which seed, how and when.

    Attributes
    ----------
    zones
        The zones.
    species
        Key of the species; None where neither the person nor the zone says.
    method
        ``broadcast`` or ``slit``.
    on
        The day asked about; None for "when".
    label_days
        The wait from application to seed that the person's label gives.
    said
        Their words.
    """

    zones: Sequence[ZoneRecord]
    species: str | None
    method: str
    on: date | None
    label_days: int | None
    said: str

    def species_of(self, zone: ZoneRecord) -> str | None:
        """Return the seed for a zone: what was said, else the zone's own grass."""
        return self.species or (zone.grass if zone.grass not in ("unknown", "other") else None)


@dataclass(frozen=True, slots=True)
class Collision:
    """A planned round and a seeding that get into each other's way; `planned_on` is rough."""

    target: Target
    planned_on: date


@dataclass(frozen=True, slots=True)
class ZoneAnswer:
    """Whether and when one zone may be seeded, and the planned rounds that collide with it.

    Where something unknown went down in the year before (`unknown_on`) nobody can say: it is not
    allowed.
    """

    zone: str
    species: str | None
    answer: SeedingAnswer
    allows: bool
    unknown_on: date | None
    collisions: tuple[Collision, ...]


def ask(work: Work, yard: YardRecord, wish: Wish, now: datetime) -> list[ZoneAnswer]:
    """Return the answer for each zone of a wish, on its day or today."""
    today = local(now, yard.timezone).date()
    standing = standing_of(work, yard)
    planned = _planned(standing, today)
    found = []
    for zone in wish.zones:
        species = wish.species_of(zone)
        answer = seeding_of(standing.history(zone), species, wish.method, wish.label_days)
        on = wish.on or max(today, answer.earliest or today)
        clashes = tuple(
            Collision(target, day)
            for target, day in planned
            if any(
                collides(each, on, species or "", "slit" if wish.method == "slit" else "broadcast")
                for each in _treated(standing, day, wish.label_days)
            )
        )
        unknown_on = standing.unknown_on(zone, today)
        allows = answer.allows(on) and unknown_on is None
        found.append(ZoneAnswer(zone.name, species, answer, allows, unknown_on, clashes))
    return found


def plan(work: Work, yard: YardRecord, wish: Wish, *, person_id: int, now: datetime) -> list[int]:
    """Plan to seed zones on a day; return the seedings."""
    assert wish.on is not None
    return _keep(work, yard, wish, wish.on, is_done=False, person_id=person_id, now=now)


def sown(work: Work, yard: YardRecord, wish: Wish, *, person_id: int, now: datetime) -> None:
    """Record that zones were seeded: they are left out of rounds until grown in."""
    on = wish.on or local(now, yard.timezone).date()
    _keep(work, yard, wish, on, is_done=True, person_id=person_id, now=now)


def decide(
    work: Work, yard: YardRecord, seeding_ids: Sequence[int], *, is_seed_first: bool, now: datetime
) -> None:
    """Decide between a planned seeding and the round it collides with.

    Seed first leaves the zones out of that round; the round first drops the plan to seed.

    Raises
    ------
    NoSuchSeeding
        If one of them is not planned any more.
    """
    for seeding_id in seeding_ids:
        if all(each.id != seeding_id for each in standing_of(work, yard).seedings):
            raise NoSuchSeeding(str(seeding_id))
        if is_seed_first:
            seedings.set_before_round(work, seeding_id, is_before_round=True)
        else:
            seedings.drop(work, seeding_id, now)
    yards.change(work, yard.id, next_check_at=now)
    journal.note(
        work, yard.id, "seeding.decide", hangs_on=[("seeding", each) for each in seeding_ids]
    )


@dataclass(frozen=True, slots=True)
class Mown:
    """New turf after a mowing: how often it has been mown, and whether it is grown in.

    `is_counted` is False for a second mowing of one day, and for one not after the day of seeding,
    `seed_on`.
    """

    zone: str
    mowings: int
    wanted: int
    is_grown_in: bool
    is_counted: bool
    seed_on: date


def mown(
    work: Work, yard: YardRecord, zones: Sequence[ZoneRecord], *, on: date, now: datetime
) -> list[Mown]:
    """Count a mowing of new seed on a day; the fourth makes the zone ready for ordinary rounds.

    A zone's mowings count once a day, from the day after seeding.
    """
    standing = standing_of(work, yard)
    names = {zone.name: zone for zone in zones}
    newest: dict[str, SeedingRecord] = {}
    for each in standing.seedings:
        for zone in zones:
            is_here = standing.lineage.comes_of(zone.ground_id, {each.ground_id})
            if each.is_done and is_here and zone.locked_why == _SEED:
                newest[zone.name] = each
    found: list[Mown] = []
    for name, each in newest.items():
        zone = names[name]
        days = each.mown_on or []
        if on <= each.seed_on or on.isoformat() in days:
            found.append(Mown(name, each.mowings, MOWINGS_BEFORE, False, False, each.seed_on))
            continue
        count = each.mowings + 1
        seedings.set_mowings(work, each.id, count, sorted([*days, on.isoformat()]))
        is_grown_in = count >= MOWINGS_BEFORE
        if is_grown_in:
            is_treated = zone.part == "every"
            yards.change_zones(
                work, [zone.id], locked_why=None, locked_on=None, is_treated=is_treated
            )
        found.append(Mown(name, count, MOWINGS_BEFORE, is_grown_in, True, each.seed_on))
    counted = [each.zone for each in found if each.is_counted]
    if counted:
        yards.change(work, yard.id, next_check_at=now)
        journal.note(work, yard.id, "seeding.mow", names=counted)
    return found


def at_seeding(species: str | None) -> list[str]:
    """Return the ingredients that may go on with the seed of a species."""
    if species is None:
        return []
    return [name for name in ingredients() if may_go_on_at_seeding(name, species)]


def _keep(
    work: Work,
    yard: YardRecord,
    wish: Wish,
    on: date,
    *,
    is_done: bool,
    person_id: int,
    now: datetime,
) -> list[int]:
    ids = []
    for zone in wish.zones:
        ids.append(
            seedings.add(
                work,
                yard_id=yard.id,
                ground_id=zone.ground_id,
                species=wish.species_of(zone),
                method=wish.method,
                seed_on=on,
                is_done=is_done,
                label_days=wish.label_days,
                said=wish.said,
                person_id=person_id,
                now=now,
            )
        )
        if is_done:
            yards.change_zones(work, [zone.id], locked_why=_SEED, locked_on=on, is_treated=False)
    yards.change(work, yard.id, next_check_at=now)
    journal.note(work, yard.id, "seeding.add", names=[zone.name for zone in wish.zones])
    return ids


def _planned(standing: Standing, today: date) -> list[tuple[Target, date]]:
    """Return rounds still to come, each on its rough day."""
    yard, found = standing.yard, []
    for target in targets_of(yard):
        record = standing.season(target)
        if record is None or State(record.state) in (State.APPLIED, State.RETREAT_DUE):
            continue
        event = None if record.outlook is None else Judged.from_json(record.outlook).p50
        if event is not None and event > today:
            lead = timedelta(days=plan_of(standing, target).lead_days)
            found.append((target, max(today, event - lead)))
        elif event is None and target is Target.WINTER_ANNUALS:
            # In spring the outlook does not reach so far: the region's date is all there is.
            year = season_day(today, yard.lat).year
            by = date(year, *autumn_date(abs(yard.lat), yard.lon).last)
            found.append((target, max(today, calendar_day(by, yard.lat))))
    if yard.has_dormant_half:
        northern = season_day(today, yard.lat)
        about = calendar_day(date(northern.year, *DORMANT_ABOUT), yard.lat)
        if about >= today:
            found.append((Target.SUMMER_ANNUALS, about))
    return found


def _treated(standing: Standing, day: date, label_days: int | None) -> list[Treated]:
    """Return what a planned round would put down, by the yard's product."""
    product = standing.product
    if product is None:
        return []
    return treated_by(product, product.rate, day, label_days)
