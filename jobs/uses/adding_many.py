"""Yards in bulk: a list is held against the yards there are, then added or changed in one go.

A yard of the list is one of ours where it has the same name, and neither its customer nor its town
says otherwise; so a list sent again changes what differs and doubles nothing.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any, Final, Literal, TypeVar

from jobs.standing import standing_of
from jobs.uses import entering_products as product_uses
from jobs.uses import grass as grasses
from jobs.uses import yard_settings as uses
from jobs.uses import zones as zone_uses
from jobs.uses.bounds import LONGEST_NAME
from jobs.uses.keeping_wishes import change_yard
from jobs.yard_changes import as_it_is, settle
from storage import wishes, yards
from storage.database import Work
from storage.products import ProductRecord
from storage.yards import NewZone, YardRecord, ZoneRecord

T = TypeVar("T")
#: What may hold at all yards once it was said of one.
What = Literal["grass", "water", "free"]

#: A size that differs by less is the same one, written in other figures (share of it).
_SAME_SIZE: Final = 0.005
#: A yard within this of where a list puts it by its town alone stays where it is [degrees].
_SAME_TOWN: Final = 0.3


@dataclass(frozen=True, slots=True)
class Wanted:
    """A yard as a list gives it.

    `is_rough` where the place is the middle of its town or postal area.
    """

    name: str
    lat: float
    lon: float
    is_rough: bool = False
    customer: str | None = None
    address: str | None = None
    town: str | None = None
    zones: tuple[NewZone, ...] = ()
    grass: str | None = None
    product: product_uses.Enter | None = None


@dataclass(frozen=True, slots=True)
class Planned:
    """What becomes of a yard of a list: added (`yard` None), changed, or left as it is."""

    wanted: Wanted
    yard: YardRecord | None
    name: str
    is_changed: bool = True


@dataclass(frozen=True, slots=True)
class Common:
    """What all yards of a chat have in common and a new one takes over; None where they differ."""

    product_id: int | None = None
    grass: str | None = None
    water_how: str | None = None
    water_days: str | None = None
    is_water_banned: bool | None = None
    owner: str | None = None
    rounds: int | None = None
    free_hours: tuple[tuple[str, tuple[int, int]], ...] | None = None


def plan(work: Work, mine: Sequence[YardRecord], wanted: Iterable[Wanted]) -> tuple[Planned, ...]:
    """Return what becomes of each yard of a list; nothing is changed."""
    every = list(wanted)
    names = Counter(each.name.casefold() for each in every)
    # Of several of one name none goes by the name alone: a record must not land at the wrong one.
    taken = {yard.name.casefold() for yard in mine} | {n for n, count in names.items() if count > 1}
    found: list[Planned] = []
    claimed: set[int] = set()
    for each in every:
        is_one_of_many = names[each.name.casefold()] > 1
        yard = next((y for y in mine if y.id not in claimed and _is_same(y, each)), None) or next(
            (y for y in mine if is_one_of_many and y.id not in claimed and _is_numbered(y, each)),
            None,
        )
        if yard is not None:
            claimed.add(yard.id)
            found.append(Planned(each, yard, yard.name, _differs(work, yard, each)))
            continue
        name = uses.free_name(taken, each.name, (each.customer, each.town, each.address))
        taken.add(name.casefold())
        found.append(Planned(each, None, name))
    return tuple(found)


def carry_out(
    work: Work, chat_id: int, planned: Iterable[Planned], *, person_id: int, now: datetime
) -> list[YardRecord]:
    """Add the yards that are new and change those that differ; return them, in order.

    A new yard takes over what the chat's yards have in common.

    Raises
    ------
    OutOfBounds
        If there would be too many yards, places or zones.
    """
    common = common_of(work, yards.of_chat(work, chat_id))
    done: list[YardRecord] = []
    for each in planned:
        if not each.is_changed:
            continue
        yard = each.yard
        if yard is None:
            wanted = each.wanted
            command = uses.Register(
                chat_id, person_id, wanted.lat, wanted.lon, each.name, wanted.town
            )
            yard = uses.register(work, command, now)
            yard = take_over(work, yard, common)
        done.append(_filled(work, yard, each.wanted, common, person_id=person_id, now=now))
    return done


def common_of(work: Work, mine: Sequence[YardRecord]) -> Common:
    """Return what yards have in common, as far as it was said of any."""
    if not mine:
        return Common()
    hours = [standing_of(work, yard).wishes.free_hours for yard in mine]
    grass = {zone.grass for yard in mine for zone in standing_of(work, yard).zones}
    return Common(
        product_id=_one({yard.product_id for yard in mine}),
        grass=_one(grass),
        water_how=_one({yard.water_how for yard in mine}),
        water_days=_one({yard.water_days for yard in mine}),
        is_water_banned=_one({yard.is_water_banned for yard in mine}),
        owner=_one({yard.owner for yard in mine}),
        rounds=_one({yard.rounds for yard in mine}),
        free_hours=_one({_frozen(each) for each in hours}),
    )


def take_over(work: Work, yard: YardRecord, common: Common) -> YardRecord:
    """Give a new yard what the others have in common."""
    values = {
        name: getattr(common, name)
        for name in ("product_id", "water_how", "water_days", "is_water_banned", "owner", "rounds")
        if getattr(common, name) is not None
    }
    if values:
        yards.change(work, yard.id, **values)
    if common.free_hours is not None:
        hours = {day: list(span) for day, span in common.free_hours}
        wishes.keep_yard(work, wishes.YardWishes(yard.id, free_hours=hours))
    return as_it_is(work, yard)


def use_product(
    work: Work, others: Iterable[YardRecord], record: ProductRecord, *, now: datetime
) -> int:
    """Choose a yard's product for others as well; return for how many."""
    count = 0
    for each in others:
        product_uses.choose(work, each, record, now=now)
        count += 1
    return count


def lacking(work: Work, yard: YardRecord, what: What) -> list[YardRecord]:
    """Return the other yards of the chat to which what was said of this one does not apply yet."""
    others = [each for each in yards.of_chat(work, yard.chat_id) if each.id != yard.id]
    match what:
        case "grass":
            grass = _one({zone.grass for zone in standing_of(work, yard).zones})
            return [each for each in others if grass is not None and _unnamed(work, each)]
        case "water":
            kept = _watering(yard)
            return [each for each in others if _watering(each) != kept]
        case "free":
            hours = standing_of(work, yard).wishes.free_hours
            return [each for each in others if standing_of(work, each).wishes.free_hours != hours]


def give_to_others(work: Work, yard: YardRecord, what: What, *, now: datetime) -> int:
    """Let what was said of a yard hold at the chat's others as well; return at how many.

    A grass is given to zones of which none was named; watering and free days to all that differ.
    """
    others = lacking(work, yard, what)
    for each in others:
        match what:
            case "grass":
                grass = _one({zone.grass for zone in standing_of(work, yard).zones})
                change = grasses.Change(grass=grass)
                zones = _unnamed(work, each)
                grasses.change(work, each, zones, change, now=now)
            case "water":
                settle(work, each, _watering(yard))
            case "free":
                hours = standing_of(work, yard).wishes.free_hours
                change_yard(work, each, {"free_hours": hours})
    return len(others)


# --- inside ---------------------------------------------------------------------------------------


def _unnamed(work: Work, yard: YardRecord) -> list[ZoneRecord]:
    return [zone for zone in standing_of(work, yard).zones if zone.grass in (None, "unknown")]


def _watering(yard: YardRecord) -> dict[str, Any]:
    return {name: getattr(yard, name) for name in ("water_how", "water_days", "is_water_banned")}


def _is_same(yard: YardRecord, wanted: Wanted) -> bool:
    name, kept = wanted.name.casefold(), yard.name.casefold()
    told_apart = {
        f"{name} ({each.casefold()})"
        for each in (wanted.customer, wanted.town, wanted.address)
        if each
    }
    if kept in {each[:LONGEST_NAME].strip() for each in told_apart}:
        return True
    pairs = ((yard.customer, wanted.customer), (yard.town, wanted.town))
    is_other = any(had and said and had.casefold() != said.casefold() for had, said in pairs)
    return kept == name and not is_other


def _is_numbered(yard: YardRecord, wanted: Wanted) -> bool:
    """Tell whether a yard is one of several that nothing but a number tells apart."""
    head, _, number = yard.name.casefold().rpartition(" ")
    is_other = bool(yard.town and wanted.town and yard.town != wanted.town)
    return head == wanted.name.casefold() and number.isdigit() and not is_other


def _differs(work: Work, yard: YardRecord, wanted: Wanted) -> bool:
    told = ("customer", "address", "town")
    if any(getattr(wanted, name) not in (None, getattr(yard, name)) for name in told):
        return True
    if _moves(yard, wanted) or _new_sizes(work, yard, wanted):
        return True
    if wanted.grass is not None and any(
        zone.grass != wanted.grass for zone in standing_of(work, yard).zones
    ):
        return True
    return wanted.product is not None and not product_uses.has(work, yard, wanted.product)


def _moves(yard: YardRecord, wanted: Wanted) -> bool:
    apart = max(abs(yard.lat - wanted.lat), abs(yard.lon - wanted.lon))
    return apart > (_SAME_TOWN if wanted.is_rough else 1e-4)


def _new_sizes(work: Work, yard: YardRecord, wanted: Wanted) -> list[NewZone]:
    """Return the parts of a list that the yard has not, or in another size."""
    kept = {zone.name.casefold(): zone.area_m2 for zone in standing_of(work, yard).zones}
    return [
        zone
        for zone in wanted.zones
        if abs(kept.get(zone.name.casefold(), 0.0) - zone.area_m2) > _SAME_SIZE * zone.area_m2
    ]


def _filled(
    work: Work, yard: YardRecord, wanted: Wanted, common: Common, *, person_id: int, now: datetime
) -> YardRecord:
    """Put what a list says of a yard into it."""
    told = {
        name: value
        for name in ("customer", "address", "town")
        if (value := getattr(wanted, name)) not in (None, getattr(yard, name))
    }
    if told:
        if "customer" in told and yard.owner is None:
            # Whoever has customers treats their lawns for pay.
            told["owner"] = "pay"
        settle(work, yard, told)
    if _moves(yard, wanted):
        uses.move(
            work, yard, wanted.lat, wanted.lon, person_id=person_id, now=now, town=wanted.town
        )
    new = _new_sizes(work, yard, wanted)
    if new:
        zone_uses.keep(work, yard, new, person_id=person_id, now=now)
    _grass(work, yard, wanted.grass, common.grass, now=now)
    if wanted.product is not None:
        product_uses.enter(work, as_it_is(work, yard), wanted.product, person_id=person_id, now=now)
    return as_it_is(work, yard)


def _grass(
    work: Work, yard: YardRecord, said: str | None, common: str | None, *, now: datetime
) -> None:
    zones = standing_of(work, yard).zones
    grass = said or common
    other = [
        zone for zone in zones if zone.grass != grass and (said is not None or zone.grass is None)
    ]
    if grass is not None and other:
        change = grasses.Change(grass=grass)
        grasses.change(work, yard, other, change, now=now)


def _one(values: set[T | None]) -> T | None:
    known = {each for each in values if each is not None}
    return known.pop() if len(known) == 1 else None


def _frozen(hours: dict[str, list[int]] | None) -> tuple[tuple[str, tuple[int, int]], ...] | None:
    if hours is None:
        return None
    return tuple((day, (span[0], span[1])) for day, span in sorted(hours.items()))
