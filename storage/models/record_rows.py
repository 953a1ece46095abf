"""Tables of what was done and seen on the ground."""

from __future__ import annotations

from datetime import date, datetime
from typing import Any

from sqlalchemy import ForeignKey, UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column, relationship

from storage.models.declarative import Base
from storage.models.yard_rows import Ground


class Application(Base):
    """A confirmed application, with the product as it was on that day."""

    __tablename__ = "application"

    id: Mapped[int] = mapped_column(primary_key=True)
    yard_id: Mapped[int] = mapped_column(ForeignKey("yard.id"), index=True)
    target: Mapped[str]
    year: Mapped[int]
    applied_at: Mapped[datetime]
    applied_on: Mapped[date]
    recorded_at: Mapped[datetime]
    person_id: Mapped[int] = mapped_column(ForeignKey("person.id"))
    product_id: Mapped[int | None] = mapped_column(ForeignKey("product.id"))
    product: Mapped[dict[str, Any] | None]
    said: Mapped[str]
    undone_at: Mapped[datetime | None]
    undone_by: Mapped[int | None] = mapped_column(ForeignKey("person.id"))

    #: The year: who put it down if not somebody of this chat, and the record's other fields.
    by_whom: Mapped[str | None]
    details: Mapped[dict[str, Any]] = mapped_column(server_default="{}")


class ApplicationZone(Base):
    """What one zone got in one application; amounts in kg or L, None where not said.

    `area_m2` of the zone's `of_m2` got it; `beside` are applications known to lie on other square
    feet of the same ground.
    """

    __tablename__ = "application_zone"
    __table_args__ = (UniqueConstraint("application_id", "zone_id"),)

    id: Mapped[int] = mapped_column(primary_key=True)
    application_id: Mapped[int] = mapped_column(ForeignKey("application.id"), index=True)
    #: Of one application it tells the rows apart, so that all are written in one statement.
    zone_id: Mapped[int] = mapped_column(ForeignKey("zone.id"), insert_sentinel=True)
    ground_id: Mapped[int] = mapped_column(ForeignKey("ground.id"))
    area_m2: Mapped[float]
    of_m2: Mapped[float]
    beside: Mapped[list[Any]] = mapped_column(server_default="[]")
    watered_in_on: Mapped[date | None]
    asked_si: Mapped[float | None]
    amount_si: Mapped[float | None]
    amount_unit: Mapped[str | None]
    is_amount_said: Mapped[bool]

    ground: Mapped[Ground] = relationship(lazy="joined", innerjoin=True)

    @property
    def zone_name(self) -> str:
        """What the ground is called."""
        return self.ground.name


class Watering(Base):
    """Irrigation somebody reported; rain is read from the cell.

    `grounds` are those that got it (None: all of the yard); `after_id` is the newest application
    on record when it was told of.
    """

    __tablename__ = "watering"

    id: Mapped[int] = mapped_column(primary_key=True)
    yard_id: Mapped[int] = mapped_column(ForeignKey("yard.id"), index=True)
    watered_on: Mapped[date]
    depth_mm: Mapped[float]
    recorded_at: Mapped[datetime]
    person_id: Mapped[int] = mapped_column(ForeignKey("person.id"))
    undone_at: Mapped[datetime | None]
    grounds: Mapped[list[Any] | None]
    after_id: Mapped[int] = mapped_column(server_default="0")


class Reading(Base):
    """A reading of the yard's own soil thermometer, of the yard or of one zone, as it was said."""

    __tablename__ = "reading"

    id: Mapped[int] = mapped_column(primary_key=True)
    yard_id: Mapped[int] = mapped_column(ForeignKey("yard.id"), index=True)
    ground_id: Mapped[int | None] = mapped_column(ForeignKey("ground.id"))
    read_at: Mapped[datetime]
    read_on: Mapped[date]
    measured_c: Mapped[float]
    depth_m: Mapped[float]
    has_hour: Mapped[bool]
    said: Mapped[str]
    recorded_at: Mapped[datetime]
    person_id: Mapped[int] = mapped_column(ForeignKey("person.id"))
    undone_at: Mapped[datetime | None]

    ground: Mapped[Ground | None] = relationship(lazy="joined")

    @property
    def zone_name(self) -> str | None:
        """What the ground is called; None where the whole yard is meant."""
        return None if self.ground is None else self.ground.name


class Seeding(Base):
    """A zone that was seeded, or is to be, and how often it has been mown since."""

    __tablename__ = "seeding"

    id: Mapped[int] = mapped_column(primary_key=True)
    yard_id: Mapped[int] = mapped_column(ForeignKey("yard.id"), index=True)
    ground_id: Mapped[int] = mapped_column(ForeignKey("ground.id"))
    species: Mapped[str | None]
    method: Mapped[str]
    seed_on: Mapped[date]
    is_done: Mapped[bool]
    is_before_round: Mapped[bool]
    label_days: Mapped[int | None]
    mowings: Mapped[int]
    mown_on: Mapped[list[Any] | None]
    said: Mapped[str]
    created_at: Mapped[datetime]
    person_id: Mapped[int] = mapped_column(ForeignKey("person.id"))
    undone_at: Mapped[datetime | None]

    ground: Mapped[Ground] = relationship(lazy="joined", innerjoin=True)

    @property
    def zone_name(self) -> str:
        """What the ground is called."""
        return self.ground.name


class Sighting(Base):
    """Weeds somebody saw in a zone, or looked for in vain."""

    __tablename__ = "sighting"

    id: Mapped[int] = mapped_column(primary_key=True)
    yard_id: Mapped[int] = mapped_column(ForeignKey("yard.id"), index=True)
    ground_id: Mapped[int | None] = mapped_column(ForeignKey("ground.id"))
    weed: Mapped[str]
    is_seen: Mapped[bool]
    seen_on: Mapped[date]
    said: Mapped[str]
    recorded_at: Mapped[datetime]
    person_id: Mapped[int] = mapped_column(ForeignKey("person.id"))
    undone_at: Mapped[datetime | None]

    ground: Mapped[Ground | None] = relationship(lazy="joined")

    @property
    def zone_name(self) -> str | None:
        """What the ground is called; None where the whole yard is meant."""
        return None if self.ground is None else self.ground.name
