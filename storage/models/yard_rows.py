"""Tables of yards: their ground, seasons, and what people wish of them."""

from __future__ import annotations

from datetime import date, datetime
from typing import Any

from sqlalchemy import ForeignKey, UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column, relationship

from storage.models.declarative import FALSE, Base


class Yard(Base):
    """A place that is looked after."""

    __tablename__ = "yard"

    id: Mapped[int] = mapped_column(primary_key=True)
    chat_id: Mapped[int] = mapped_column(ForeignKey("chat.id"), index=True)
    name: Mapped[str]
    lat: Mapped[float]
    lon: Mapped[float]
    timezone: Mapped[str]
    product_id: Mapped[int | None] = mapped_column(ForeignKey("product.id"))
    lead_days: Mapped[int]
    split_days: Mapped[int]
    rounds: Mapped[int]
    next_check_at: Mapped[datetime] = mapped_column(index=True)
    version: Mapped[int]
    created_at: Mapped[datetime]
    created_by: Mapped[int] = mapped_column(ForeignKey("person.id"))
    archived_at: Mapped[datetime | None]

    #: Measuring: whose it is, how it is watered, who else treats it, and whether a pre-emergent is
    #: the right thing at all (the answers, shown back whole).
    owner: Mapped[str | None]
    water_how: Mapped[str | None]
    water_days: Mapped[str | None]
    is_water_banned: Mapped[bool | None]
    others_treat: Mapped[bool | None]
    screening: Mapped[dict[str, Any] | None]

    #: The year: rounds besides those of spring, and whether people are asked what came of it.
    has_late_summer_round: Mapped[bool] = mapped_column(server_default=FALSE)
    has_dormant_half: Mapped[bool] = mapped_column(server_default=FALSE)
    is_asked_what_came: Mapped[bool] = mapped_column(server_default=FALSE)

    #: Whether somebody chose the lead; the product moves it otherwise.
    is_lead_set: Mapped[bool] = mapped_column(server_default=FALSE)

    #: Many yards: the customer's name, the street address and the town.
    customer: Mapped[str | None]
    address: Mapped[str | None]
    town: Mapped[str | None]


class Ground(Base):
    """A piece of ground, by whatever name it goes now; what happened on it hangs on its id."""

    __tablename__ = "ground"

    id: Mapped[int] = mapped_column(primary_key=True)
    yard_id: Mapped[int] = mapped_column(ForeignKey("yard.id"), index=True)
    name: Mapped[str]


class GroundOrigin(Base):
    """Ground that came of other ground, or may have: ``split``, ``merge``, ``maybe``, ``same``.

    ``other`` keeps the answer that it is not the same. `area_m2` is how much of it came so.
    """

    __tablename__ = "ground_origin"
    __table_args__ = (UniqueConstraint("ground_id", "from_id"),)

    id: Mapped[int] = mapped_column(primary_key=True)
    ground_id: Mapped[int] = mapped_column(ForeignKey("ground.id"))
    from_id: Mapped[int] = mapped_column(ForeignKey("ground.id"))
    kind: Mapped[str]
    area_m2: Mapped[float]


class Zone(Base):
    """A piece of ground as it was measured last; `said` is what the person wrote."""

    __tablename__ = "zone"

    id: Mapped[int] = mapped_column(primary_key=True)
    yard_id: Mapped[int] = mapped_column(ForeignKey("yard.id"), index=True)
    ground_id: Mapped[int] = mapped_column(index=True, server_default="0")
    position: Mapped[int]
    said: Mapped[str]
    echo: Mapped[str]
    shape: Mapped[str]
    area_m2: Mapped[float]
    is_treated: Mapped[bool]
    created_at: Mapped[datetime]
    created_by: Mapped[int] = mapped_column(ForeignKey("person.id"))
    removed_at: Mapped[datetime | None]

    #: Measuring: the turf, how often it is treated, what acts on it, and why it may not be yet.
    grass: Mapped[str | None]
    part: Mapped[str] = mapped_column(server_default="every")
    buffer_length_m: Mapped[float | None]
    buffer_width_m: Mapped[float | None]
    notes: Mapped[list[Any]] = mapped_column(server_default="[]")
    locked_why: Mapped[str | None]
    locked_on: Mapped[date | None]

    #: No reference in the schema: others point at this table, and SQLite cannot add one to it.
    ground: Mapped[Ground] = relationship(
        primaryjoin="foreign(Zone.ground_id) == Ground.id", lazy="joined", innerjoin=True
    )

    @property
    def name(self) -> str:
        """What the ground is called."""
        return self.ground.name


class YardWishes(Base):
    """What of a yard and its label matters for choosing the day."""

    __tablename__ = "yard_wishes"

    yard_id: Mapped[int] = mapped_column(ForeignKey("yard.id"), primary_key=True)
    ground: Mapped[str | None]
    is_slope: Mapped[bool]
    free_hours: Mapped[dict[str, Any] | None]
    sprinkler_mm_h: Mapped[float | None]
    label_terms: Mapped[dict[str, Any]]
    label_product_id: Mapped[int | None] = mapped_column(ForeignKey("product.id"))


class Snooze(Base):
    """A chat wants to hear no more of a yard until an instant, or until its soil is so warm."""

    __tablename__ = "snooze"
    __table_args__ = (UniqueConstraint("yard_id", "chat_id"),)

    id: Mapped[int] = mapped_column(primary_key=True)
    yard_id: Mapped[int] = mapped_column(ForeignKey("yard.id"))
    chat_id: Mapped[int] = mapped_column(ForeignKey("chat.id"))
    until: Mapped[datetime | None]
    until_c: Mapped[float | None]


class Mute(Base):
    """Somebody wants to hear no more of a target this year."""

    __tablename__ = "mute"
    __table_args__ = (UniqueConstraint("yard_id", "target", "year"),)

    id: Mapped[int] = mapped_column(primary_key=True)
    yard_id: Mapped[int] = mapped_column(ForeignKey("yard.id"))
    target: Mapped[str]
    year: Mapped[int]
    at: Mapped[datetime]
    person_id: Mapped[int] = mapped_column(ForeignKey("person.id"))


class Season(Base):
    """Where a yard stands with one target; `outlook` is the newest summary it was judged by."""

    __tablename__ = "season"
    __table_args__ = (UniqueConstraint("yard_id", "target"),)

    id: Mapped[int] = mapped_column(primary_key=True)
    yard_id: Mapped[int] = mapped_column(ForeignKey("yard.id"))
    target: Mapped[str]
    year: Mapped[int]
    state: Mapped[str]
    since: Mapped[date]
    told: Mapped[list[Any]]
    outlook: Mapped[dict[str, Any] | None]
    version: Mapped[int] = mapped_column()

    #: Written only as it was read: whoever was slower looks again.
    __mapper_args__ = {"version_id_col": version, "version_id_generator": False}  # noqa: RUF012


class SeasonEvent(Base):
    """One change of state, with its reason and whoever caused it."""

    __tablename__ = "season_event"

    id: Mapped[int] = mapped_column(primary_key=True)
    yard_id: Mapped[int] = mapped_column(ForeignKey("yard.id"), index=True)
    target: Mapped[str]
    year: Mapped[int]
    at: Mapped[datetime]
    state_before: Mapped[str]
    state_after: Mapped[str]
    why: Mapped[str]
    person_id: Mapped[int | None] = mapped_column(ForeignKey("person.id"))
    facts: Mapped[dict[str, Any]]


class CalendarEntry(Base):
    """An entry of an exported calendar as it was last given out, so that it updates in place."""

    __tablename__ = "calendar_entry"
    __table_args__ = (UniqueConstraint("yard_id", "uid"),)

    id: Mapped[int] = mapped_column(primary_key=True)
    yard_id: Mapped[int] = mapped_column(ForeignKey("yard.id"))
    uid: Mapped[str]
    sequence: Mapped[int]
    content: Mapped[dict[str, Any]]
    changed_at: Mapped[datetime]
