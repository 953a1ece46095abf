"""Yards and their zones."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass, field
from datetime import date, datetime
from typing import Any, Final

from sqlalchemy import bindparam, func, select, update
from sqlalchemy.orm.attributes import set_committed_value

from storage import held, models
from storage.database import StaleWrite, Work
from storage.plain import plain, plain_or_none


@dataclass(frozen=True, slots=True)
class YardRecord:
    """A yard: its point in degrees, its time zone, its settings and when it is looked at next."""

    id: int
    chat_id: int
    name: str
    lat: float
    lon: float
    timezone: str
    product_id: int | None
    lead_days: int
    split_days: int
    rounds: int
    next_check_at: datetime
    version: int
    created_at: datetime
    owner: str | None = None
    water_how: str | None = None
    water_days: str | None = None
    is_water_banned: bool | None = None
    others_treat: bool | None = None
    screening: dict[str, Any] | None = None
    has_late_summer_round: bool = False
    has_dormant_half: bool = False
    is_asked_what_came: bool = False
    is_lead_set: bool = False
    customer: str | None = None
    address: str | None = None
    town: str | None = None


@dataclass(frozen=True, slots=True)
class ZoneRecord:
    """A zone: its name, what the person wrote, how we read it, and its area [m²].

    `ground_id` is the ground it lies on, which stays the same when it is renamed or measured again.

    `grass` is a species' key, ``unknown``, or None where nobody asked; `part` is ``every`` round,
    ``ask`` each time or ``never``. A zone is in the programme (`is_treated`) where its part is
    ``every`` and it is not locked.
    """

    id: int
    yard_id: int
    name: str
    position: int
    said: str
    echo: str
    shape: str
    area_m2: float
    is_treated: bool
    grass: str | None = None
    part: str = "every"
    buffer_length_m: float | None = None
    buffer_width_m: float | None = None
    notes: list[Any] = field(default_factory=list)
    locked_why: str | None = None
    locked_on: date | None = None
    ground_id: int = 0

    @property
    def buffer_m2(self) -> float:
        """The strip along water that stays untreated [m²]."""
        if self.buffer_length_m is None or self.buffer_width_m is None:
            return 0.0
        return min(self.buffer_length_m * self.buffer_width_m, self.area_m2)

    @property
    def treated_m2(self) -> float:
        """The area that gets product [m²]."""
        return self.area_m2 - self.buffer_m2


@dataclass(frozen=True, slots=True)
class NewZone:
    """A zone about to be kept; on the ground named, else on that of the zone of its name."""

    name: str
    said: str
    echo: str
    shape: str
    area_m2: float
    is_treated: bool = True
    ground_id: int | None = None


# Queries of every look are built once: building one costs as much as running it.
#: When the earliest event of a yard is due by its newest look, as it is written.
_EVENT_ON = (
    select(func.min(models.Season.outlook["p50"].as_string()))
    .where(
        models.Season.yard_id == models.Yard.id, models.Season.state.in_(("waiting", "window_open"))
    )
    .scalar_subquery()
)
_WHERE = (models.Yard.id, models.Yard.lat, models.Yard.lon, models.Yard.timezone, _EVENT_ON)
_DUE = (
    select(*_WHERE)
    .where(models.Yard.next_check_at <= bindparam("now"), models.Yard.archived_at.is_(None))
    .order_by(models.Yard.next_check_at, models.Yard.id)
)
_RESTING = (
    select(*_WHERE)
    .where(models.Yard.next_check_at >= bindparam("beyond"), models.Yard.archived_at.is_(None))
    .order_by(models.Yard.id)
)
_NEXT_DUE_AT = select(func.min(models.Yard.next_check_at)).where(models.Yard.archived_at.is_(None))
#: The session itself would sort out first what of each yard changed.
_YARD = models.table_of(models.Yard)
_LOOKED_AT = (
    update(_YARD)
    .where(_YARD.c.id == bindparam("yard_id"), _YARD.c.version == bindparam("held"))
    .values({name: bindparam(name) for name in ("next_check_at", "version")})
)
_EVERY_ZONE = (
    select(models.Zone).where(models.Zone.yard_id == bindparam("yard_id")).order_by(models.Zone.id)
)
# Rows that name the yard may still be written meanwhile, hence not a full lock.
_HELD = (
    select(models.Yard.id)
    .where(models.Yard.id.in_(bindparam("yard_ids", expanding=True)))
    .order_by(models.Yard.id)
    .with_for_update(key_share=True)
)


def add(
    work: Work,
    *,
    chat_id: int,
    person_id: int,
    name: str,
    lat: float,
    lon: float,
    timezone: str,
    lead_days: int,
    split_days: int,
    rounds: int,
    now: datetime,
    is_asked_what_came: bool = False,
    town: str | None = None,
) -> YardRecord:
    """Register a yard; it is due for its first look at once."""
    row = models.Yard(
        chat_id=chat_id,
        name=name,
        lat=round(lat, 4),
        lon=round(lon, 4),
        timezone=timezone,
        product_id=None,
        lead_days=lead_days,
        split_days=split_days,
        rounds=rounds,
        is_asked_what_came=is_asked_what_came,
        next_check_at=now,
        version=0,
        created_at=now,
        created_by=person_id,
        archived_at=None,
        town=town,
    )
    work.add(row)
    work.flush()
    return plain(row, YardRecord)


def yard(work: Work, yard_id: int) -> YardRecord | None:
    """Return a yard that is still kept, or None."""
    row = next(iter(held.of_yard(work, models.Yard, yard_id)), None)
    return plain_or_none(row if row is None or row.archived_at is None else None, YardRecord)


def chat_of(work: Work, yard_id: int) -> int:
    """Return the chat a yard belongs to, whether it is still kept or not."""
    return work.get_one(models.Yard, yard_id).chat_id


def of_chat(work: Work, chat_id: int) -> list[YardRecord]:
    """Return a chat's yards, oldest first."""
    return [
        plain(row, YardRecord)
        for row in held.of_chat(work, models.Yard, chat_id)
        if row.archived_at is None
    ]


@dataclass(frozen=True, slots=True)
class DueYard:
    """A yard whose next look has come, where it lies, and when what it waits for is due."""

    id: int
    lat: float
    lon: float
    timezone: str
    event_on: str | None = None


def due(work: Work, now: datetime, limit: int | None = None) -> list[DueYard]:
    """Return the yards whose next look has come, longest waiting first."""
    return [DueYard(*row) for row in work.execute(_DUE.limit(limit), {"now": now})]


def still_due(work: Work, yard_ids: Collection[int], now: datetime) -> set[int]:
    """Return those of yards whose next look has still not been made."""
    asked = select(models.Yard.id).where(
        models.Yard.id.in_(yard_ids), models.Yard.next_check_at <= now
    )
    return set(work.scalars(asked))


def resting(work: Work, beyond: datetime) -> list[DueYard]:
    """Return the yards that are next looked at from an instant on."""
    return [DueYard(*row) for row in work.execute(_RESTING, {"beyond": beyond})]


def look_again(work: Work, yard_ids: Collection[int], now: datetime) -> None:
    """Have yards looked at: what is held of their place has changed."""
    for yard_id in yard_ids:
        change(work, yard_id, next_check_at=now)


def next_due_at(work: Work) -> datetime | None:
    """Return when the next yard wants to be looked at."""
    return work.connection().scalar(_NEXT_DUE_AT)


def change(work: Work, yard_id: int, **values: Any) -> None:
    """Set named columns of a yard."""
    row = work.get_one(models.Yard, yard_id)
    for name, value in values.items():
        if not hasattr(models.Yard, name):
            raise AttributeError(name)
        setattr(row, name, value)
    row.version += 1
    work.flush()


def looked_at(work: Work, yard: YardRecord, next_check_at: datetime) -> None:
    """Set when to look at a yard again.

    Raises
    ------
    StaleWrite
        If the yard changed since it was read; the look must be made again.
    """
    row = work.get_one(models.Yard, yard.id)
    if row.version != yard.version:
        raise StaleWrite(f"yard {yard.id} changed")
    values = {"next_check_at": next_check_at, "version": yard.version + 1}
    if work.is_in_one_go:
        work.write_later(_LOOKED_AT, {**values, "yard_id": yard.id, "held": yard.version})
        for name, value in values.items():
            set_committed_value(row, name, value)
        return
    for name, value in values.items():
        setattr(row, name, value)
    work.flush()


def looked_at_all(work: Work, looked: Iterable[tuple[int, int, datetime]]) -> None:
    """Set when to look at yards again: of each its number, the version read, and the instant.

    Raises
    ------
    StaleWrite
        If one changed since it was read.
    """
    rows = [
        {"next_check_at": at, "version": version + 1, "yard_id": yard_id, "held": version}
        for yard_id, version, at in looked
    ]
    work.write_all(_LOOKED_AT, rows)


def hold(work: Work, *yard_ids: int) -> None:
    """Let nobody else change yards or their seasons until this unit of work ends.

    What is read after it, others cannot change before it is acted upon. The yard is held before
    its season is written, by everybody, so that two never wait for each other. On SQLite whoever
    writes is alone anyway.
    """
    if work.get_bind().dialect.name == "sqlite":
        return
    work.execute(_HELD, {"yard_ids": yard_ids})
    held.let_go(work)


def zones(work: Work, yard_id: int) -> list[ZoneRecord]:
    """Return a yard's zones in their order."""
    return [plain(row, ZoneRecord) for row in _zones(work, yard_id)]


def _zones(work: Work, yard_id: int) -> list[models.Zone]:
    there = [z for z in held.of_yard(work, models.Zone, yard_id) if z.removed_at is None]
    return sorted(there, key=lambda zone: (zone.position, zone.id))


def every_zone(work: Work, yard_id: int) -> list[ZoneRecord]:
    """Return every measurement of a yard's zones, those replaced and taken out too."""
    return [plain(row, ZoneRecord) for row in work.scalars(_EVERY_ZONE, {"yard_id": yard_id})]


def keep_zones(
    work: Work, yard_id: int, new: Sequence[NewZone], *, person_id: int, now: datetime
) -> list[int]:
    """Keep zones; one of the same name (any case) is replaced. Return the ids of those replaced.

    Measured again, a zone stays on its ground, unless another is named.
    """
    present = {row.name.casefold(): row for row in _zones(work, yard_id)}
    position = max((row.position for row in present.values()), default=0)
    replaced = []
    for zone in new:
        old = present.pop(zone.name.casefold(), None)
        if old is not None:
            old.removed_at = now
            replaced.append(old.id)
        else:
            position += 1
        if zone.ground_id is not None:
            ground = work.get_one(models.Ground, zone.ground_id)
        elif old is not None:
            ground = old.ground
            ground.name = zone.name
        else:
            ground = models.Ground(yard_id=yard_id, name=zone.name)
        row = _zone(yard_id, zone, ground, person_id=person_id, now=now)
        row.position = old.position if old is not None else position
        if old is not None:
            for name in _OF_THE_GROUND:
                setattr(row, name, getattr(old, name))
        work.add(row)
        present[zone.name.casefold()] = row
    work.flush()
    return replaced


def add_zone(
    work: Work, new: NewZone, like: ZoneRecord, *, person_id: int, now: datetime
) -> ZoneRecord:
    """Add a zone that has the place, the turf and the cautions of another."""
    assert new.ground_id is not None
    ground = work.get_one(models.Ground, new.ground_id)
    row = _zone(like.yard_id, new, ground, person_id=person_id, now=now)
    for name in (*_OF_THE_GROUND, "position"):
        setattr(row, name, getattr(like, name))
    work.add(row)
    work.flush()
    return plain(row, ZoneRecord)


def _zone(
    yard_id: int, zone: NewZone, ground: models.Ground, *, person_id: int, now: datetime
) -> models.Zone:
    return models.Zone(
        yard_id=yard_id,
        ground=ground,
        position=0,
        said=zone.said,
        echo=zone.echo,
        shape=zone.shape,
        area_m2=zone.area_m2,
        is_treated=zone.is_treated,
        created_at=now,
        created_by=person_id,
        removed_at=None,
    )


def change_zones(work: Work, ids: Sequence[int], **values: Any) -> None:
    """Set named columns of zones."""
    for row in work.scalars(select(models.Zone).where(models.Zone.id.in_(ids))):
        for name, value in values.items():
            if not hasattr(models.Zone, name):
                raise AttributeError(name)
            setattr(row, name, value)
    work.flush()


def put_on_ground(work: Work, zone_id: int, ground_id: int) -> None:
    """Put a zone onto another piece of ground."""
    work.get_one(models.Zone, zone_id).ground = work.get_one(models.Ground, ground_id)
    work.flush()


def remove_zones(work: Work, ids: Sequence[int], now: datetime) -> None:
    """Take zones out of their yard; records that name them stay whole."""
    change_zones(work, ids, removed_at=now)


_OF_THE_GROUND: Final = (
    "is_treated",
    "grass",
    "part",
    "buffer_length_m",
    "buffer_width_m",
    "notes",
    "locked_why",
    "locked_on",
)
