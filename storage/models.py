"""Tables.

Instants are UTC; names carry units; JSON columns hold only what is shown back or replayed whole,
never what a query has to look into. A yard belongs to a chat; persons are kept apart from chats, so
that a crew can share one.
"""

from __future__ import annotations

from datetime import date, datetime
from typing import Any

from sqlalchemy import (
    JSON,
    ForeignKey,
    Index,
    LargeBinary,
    MetaData,
    String,
    Table,
    UniqueConstraint,
    text,
)
from sqlalchemy.orm import DeclarativeBase, Mapped, mapped_column, relationship

from storage.database import UtcDateTime

#: Conditions of the outbox's partial indices. A query is served by one only where it holds the very
#: same condition, written out: `storage.outbox` says them with literals, not with parameters.
_DUE = text("state = 'due'")
_SENDING = text("state = 'sending'")
_TROUBLED = text("state IN ('uncertain', 'dead')")
_FALSE = text("false")


class Base(DeclarativeBase):
    """Base of all tables; constraints have names on every database."""

    metadata = MetaData(
        naming_convention={
            "ix": "ix_%(table_name)s_%(column_0_N_name)s",
            "uq": "uq_%(table_name)s_%(column_0_N_name)s",
            "fk": "fk_%(table_name)s_%(column_0_N_name)s",
            "pk": "pk_%(table_name)s",
        }
    )
    type_annotation_map = {  # noqa: RUF012 - declarative configuration
        datetime: UtcDateTime,
        dict[str, Any]: JSON,
        list[Any]: JSON,
        str: String,
    }


def table_of(model: type[Base]) -> Table:
    """Return the table of a model, for statements that go past the session."""
    table = model.__table__
    assert isinstance(table, Table)
    return table


class Clock(Base):
    """The moved clock of a chat database; one row, which never goes back."""

    __tablename__ = "clock"

    id: Mapped[int] = mapped_column(primary_key=True)
    now: Mapped[datetime]
    climate: Mapped[str]


class Lease(Base):
    """Which process may do what only one should do at a time."""

    __tablename__ = "lease"

    name: Mapped[str] = mapped_column(primary_key=True)
    owner: Mapped[str]
    until: Mapped[datetime]


class Heartbeat(Base):
    """When something that goes on by itself last did, so that any process can tell."""

    __tablename__ = "heartbeat"

    name: Mapped[str] = mapped_column(primary_key=True)
    at: Mapped[datetime]


class Chat(Base):
    """A conversation: where replies and alerts go."""

    __tablename__ = "chat"
    __table_args__ = (UniqueConstraint("platform", "address"),)

    id: Mapped[int] = mapped_column(primary_key=True)
    platform: Mapped[str]
    address: Mapped[str]
    title: Mapped[str]
    language: Mapped[str]
    units: Mapped[str]
    is_active: Mapped[bool]
    created_at: Mapped[datetime]

    #: The year: when the chat was asked for what a record lacks; it is asked once.
    record_asked_at: Mapped[datetime | None]

    #: Leaving: since when nothing is told unasked, and whether texts that were not understood may
    #: be kept, without names and places, for whoever runs the bot.
    stopped_at: Mapped[datetime | None]
    keeps_unread: Mapped[bool] = mapped_column(server_default=_FALSE)
    #: Since when it cannot be reached; a year of that, and all of it is deleted.
    silent_at: Mapped[datetime | None]


class Person(Base):
    """Someone who talks to us."""

    __tablename__ = "person"
    __table_args__ = (UniqueConstraint("platform", "address"),)

    id: Mapped[int] = mapped_column(primary_key=True)
    platform: Mapped[str]
    address: Mapped[str]
    name: Mapped[str]
    created_at: Mapped[datetime]

    #: Measuring: length of a pace, and the licence to treat others' lawns for pay.
    pace_m: Mapped[float | None]
    licence: Mapped[str | None]
    licence_until: Mapped[date | None]

    #: Crews: under whom somebody without a licence of their own works, and that licence.
    works_under: Mapped[str | None]
    under_licence: Mapped[str | None]

    #: What the person's scale shows: its step, and the unit of that.
    scale_step: Mapped[float | None]
    scale_unit: Mapped[str | None]

    #: What the person asked to be answered in, in every chat.
    language: Mapped[str | None]
    units: Mapped[str | None]


class Dialogue(Base):
    """Where one person's conversation stands in one chat."""

    __tablename__ = "dialogue"
    __table_args__ = (UniqueConstraint("chat_id", "person_id"),)

    id: Mapped[int] = mapped_column(primary_key=True)
    chat_id: Mapped[int] = mapped_column(ForeignKey("chat.id"))
    person_id: Mapped[int] = mapped_column(ForeignKey("person.id"))
    yard_id: Mapped[int | None] = mapped_column(ForeignKey("yard.id"))
    topic: Mapped[str | None]
    schema: Mapped[int]
    data: Mapped[dict[str, Any]]
    version: Mapped[int]
    updated_at: Mapped[datetime]


class Turn(Base):
    """A turn that has been answered, by its key, with the answer."""

    __tablename__ = "turn"

    id: Mapped[int] = mapped_column(primary_key=True)
    key: Mapped[str] = mapped_column(unique=True)
    chat_id: Mapped[int] = mapped_column(ForeignKey("chat.id"), index=True)
    person_id: Mapped[int] = mapped_column(ForeignKey("person.id"))
    at: Mapped[datetime]
    said: Mapped[dict[str, Any]]
    replies: Mapped[list[Any]]


class Journal(Base):
    """A unit of work in which a person changed something: who, where, when, by which words.

    `undone_in` is the unit of work that took it back.
    """

    __tablename__ = "journal"
    __table_args__ = (Index("ix_journal_chat_id_id", "chat_id", "id"),)

    id: Mapped[int] = mapped_column(primary_key=True)
    at: Mapped[datetime]
    chat_id: Mapped[int] = mapped_column(ForeignKey("chat.id"))
    person_id: Mapped[int] = mapped_column(ForeignKey("person.id"))
    yard_id: Mapped[int | None] = mapped_column(ForeignKey("yard.id"))
    turn: Mapped[str | None]
    said: Mapped[str]
    undone_in: Mapped[int | None] = mapped_column(ForeignKey("journal.id"))


class JournalChange(Base):
    """What a unit of work changed, in a word and the figures to say it with.

    `hangs_on` names rows by table and number, such as ``application 3``, that it says something of.
    """

    __tablename__ = "journal_change"

    id: Mapped[int] = mapped_column(primary_key=True)
    journal_id: Mapped[int] = mapped_column(ForeignKey("journal.id"), index=True)
    yard_id: Mapped[int | None] = mapped_column(ForeignKey("yard.id"), index=True)
    action: Mapped[str]
    subject_id: Mapped[int | None]
    hangs_on: Mapped[list[Any]]
    figures: Mapped[dict[str, Any]]


class JournalRow(Base):
    """A row that a unit of work changed: only what changed, or all of it where it came or went."""

    __tablename__ = "journal_row"
    __table_args__ = (Index("ix_journal_row_table_name_row_id", "table_name", "row_id"),)

    id: Mapped[int] = mapped_column(primary_key=True)
    journal_id: Mapped[int] = mapped_column(ForeignKey("journal.id"), index=True)
    table_name: Mapped[str]
    row_id: Mapped[int]
    before: Mapped[dict[str, Any] | None]
    after: Mapped[dict[str, Any] | None]


class Cell(Base):
    """A weather cell of one source, with the newest forecast and the source's trouble, if any."""

    __tablename__ = "cell"
    __table_args__ = (UniqueConstraint("source", "lat_e2", "lon_e2"),)

    id: Mapped[int] = mapped_column(primary_key=True)
    source: Mapped[str]
    lat_e2: Mapped[int]
    lon_e2: Mapped[int]
    place: Mapped[str]
    is_invented: Mapped[bool]
    soil_is_modelled: Mapped[bool]
    fetched_at: Mapped[datetime | None]
    observed_at: Mapped[datetime | None]
    last_known_day: Mapped[date | None]
    forecast_first_day: Mapped[date | None]
    forecast: Mapped[bytes | None] = mapped_column(LargeBinary)
    hourly: Mapped[dict[str, Any] | None]
    trouble: Mapped[str | None]
    trouble_since: Mapped[datetime | None]
    try_again_at: Mapped[datetime | None]

    #: Days and crews: how much warmer its soil is than another source's, where that is too much;
    #: and the newest outage that is over.
    disagrees_by_c: Mapped[float | None]
    out_since: Mapped[datetime | None]
    back_at: Mapped[datetime | None]

    #: First day held where the years before it are still to come; None: all that is wanted is held.
    recent_since: Mapped[date | None] = mapped_column(index=True)


class CallLine(Base):
    """A service that counts calls, and until when it told us to make none."""

    __tablename__ = "call_line"

    service: Mapped[str] = mapped_column(primary_key=True)
    shut_until: Mapped[datetime | None]


class CallMade(Base):
    """What was spent on a service at one moment, in its calls."""

    __tablename__ = "call_made"
    __table_args__ = (Index(None, "service", "made_at"),)

    id: Mapped[int] = mapped_column(primary_key=True)
    service: Mapped[str]
    made_at: Mapped[datetime]
    calls: Mapped[float]


class CellYear(Base):
    """One calendar year of a cell's known days, packed (see `jobs.packed_cells`)."""

    __tablename__ = "cell_year"

    cell_id: Mapped[int] = mapped_column(ForeignKey("cell.id"), primary_key=True)
    year: Mapped[int] = mapped_column(primary_key=True)
    days: Mapped[bytes] = mapped_column(LargeBinary)


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
    has_late_summer_round: Mapped[bool] = mapped_column(server_default=_FALSE)
    has_dormant_half: Mapped[bool] = mapped_column(server_default=_FALSE)
    is_asked_what_came: Mapped[bool] = mapped_column(server_default=_FALSE)

    #: Whether somebody chose the lead; the product moves it otherwise.
    is_lead_set: Mapped[bool] = mapped_column(server_default=_FALSE)

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


class Product(Base):
    """A product as its label states it; the rate is kept as written beside its SI value."""

    __tablename__ = "product"

    id: Mapped[int] = mapped_column(primary_key=True)
    chat_id: Mapped[int] = mapped_column(ForeignKey("chat.id"), index=True)
    said: Mapped[str]
    form: Mapped[str]
    ingredients: Mapped[list[Any]]
    rate_value: Mapped[float]
    rate_unit: Mapped[str]
    rate_si: Mapped[float]
    maxima: Mapped[list[Any]]
    created_at: Mapped[datetime]
    created_by: Mapped[int] = mapped_column(ForeignKey("person.id"))
    archived_at: Mapped[datetime | None]

    #: Measuring: the rest of the label, what it is sold in, and what stands on the shelf [kg or L].
    max_applications: Mapped[int | None]
    applications_period: Mapped[str | None]
    smallest_interval_days: Mapped[int | None]
    seeding_interval_days: Mapped[int | None]
    is_residential_allowed: Mapped[bool | None]
    turf_age_days: Mapped[int | None]
    analysis: Mapped[str | None]
    packs: Mapped[list[Any]] = mapped_column(server_default="[]")
    shelf_si: Mapped[float | None]
    level_cup_kg: Mapped[float | None]

    #: The year: the number the product is registered under, from the person's own label.
    registration: Mapped[str | None]
    #: The range of rates the label gives: lowest, highest, unit.
    rates: Mapped[list[Any] | None]


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


class Alert(Base):
    """The outbox: one row a thing to tell, written together with the state that caused it.

    What is looked for by its state has an index of rows in that state alone, so that it costs the
    same however many alerts were ever sent.
    """

    __tablename__ = "alert"
    __table_args__ = (
        Index("ix_alert_due", "rank", "due_at", "id", sqlite_where=_DUE, postgresql_where=_DUE),
        Index(
            "ix_alert_due_of_chat",
            "chat_id",
            "due_at",
            sqlite_where=_DUE,
            postgresql_where=_DUE,
        ),
        Index("ix_alert_due_of_yard", "yard_id", sqlite_where=_DUE, postgresql_where=_DUE),
        Index("ix_alert_sending", "lease_until", sqlite_where=_SENDING, postgresql_where=_SENDING),
        Index("ix_alert_troubled", "id", sqlite_where=_TROUBLED, postgresql_where=_TROUBLED),
        Index("ix_alert_chat_id_told_at", "chat_id", "told_at"),
        Index("ix_alert_yard_id_kind", "yard_id", "kind"),
    )

    id: Mapped[int] = mapped_column(primary_key=True)
    chat_id: Mapped[int] = mapped_column(ForeignKey("chat.id"))
    yard_id: Mapped[int] = mapped_column(ForeignKey("yard.id"))
    target: Mapped[str]
    year: Mapped[int]
    kind: Mapped[str]
    #: It tells new rows apart, so that all are written in one statement.
    episode_key: Mapped[str] = mapped_column(unique=True, insert_sentinel=True)
    facts: Mapped[dict[str, Any]]
    created_at: Mapped[datetime]
    due_at: Mapped[datetime]
    state: Mapped[str]
    lease_until: Mapped[datetime | None]
    lease_owner: Mapped[str | None]
    sent_at: Mapped[datetime | None]

    #: Days and crews: the alert whose message also told this one, or None where it had its own.
    told_with: Mapped[int | None]

    #: The outbox's policy: what goes first (0 is most urgent), how often it was tried, when it last
    #: left or may have, and, where that is all that is known, until when a repeat is worth it.
    rank: Mapped[int] = mapped_column(server_default=text("1"))
    tries: Mapped[int] = mapped_column(server_default=text("0"))
    told_at: Mapped[datetime | None]
    repeat_until: Mapped[datetime | None]


class AlertAttempt(Base):
    """One attempt to send: noted before the call, its outcome after it."""

    __tablename__ = "alert_attempt"

    id: Mapped[int] = mapped_column(primary_key=True)
    alert_id: Mapped[int] = mapped_column(ForeignKey("alert.id"), index=True)
    number: Mapped[int]
    started_at: Mapped[datetime]
    ended_at: Mapped[datetime | None]
    outcome: Mapped[str | None]
    detail: Mapped[str]


class Machine(Base):
    """A spreader or sprayer of a chat, with what was found out about it."""

    __tablename__ = "machine"
    __table_args__ = (UniqueConstraint("chat_id", "kind"),)

    id: Mapped[int] = mapped_column(primary_key=True)
    chat_id: Mapped[int] = mapped_column(ForeignKey("chat.id"))
    kind: Mapped[str]
    swath_m: Mapped[float | None]
    tank_l: Mapped[float | None]
    spray_l_ha: Mapped[float | None]
    changed_at: Mapped[datetime]


class MachineTry(Base):
    """One weighed try of a product in a machine; `product` says which, by ingredients and form."""

    __tablename__ = "machine_try"

    id: Mapped[int] = mapped_column(primary_key=True)
    machine_id: Mapped[int] = mapped_column(ForeignKey("machine.id"), index=True)
    product: Mapped[str]
    setting: Mapped[float | None]
    rate_value: Mapped[float]
    rate_unit: Mapped[str]
    said: Mapped[str]
    at: Mapped[datetime]
    person_id: Mapped[int] = mapped_column(ForeignKey("person.id"))
    undone_at: Mapped[datetime | None]


class YardPhoto(Base):
    """A person's own photo of a yard, of a sketch on paper, or of a product's label."""

    __tablename__ = "yard_photo"

    id: Mapped[int] = mapped_column(primary_key=True)
    yard_id: Mapped[int] = mapped_column(ForeignKey("yard.id"), index=True)
    path: Mapped[str]
    added_at: Mapped[datetime]
    person_id: Mapped[int] = mapped_column(ForeignKey("person.id"))
    undone_at: Mapped[datetime | None]
    #: Of a label that was being read off; its product, once that was kept.
    is_of_label: Mapped[bool] = mapped_column(server_default=_FALSE)
    product_id: Mapped[int | None] = mapped_column(ForeignKey("product.id"))


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


class Pin(Base):
    """The message that always says how a yard stands, in the yard's own chat."""

    __tablename__ = "pin"

    yard_id: Mapped[int] = mapped_column(ForeignKey("yard.id"), primary_key=True)
    #: What the platform calls the message, and what it says; None while there is none.
    message_ref: Mapped[str | None]
    shown: Mapped[str | None]
    #: The yard as it is told there; another number of it is to be told.
    yard_version: Mapped[int]
    times_sent: Mapped[int]
    not_before: Mapped[datetime]


class ChatWishes(Base):
    """When and how often a chat is written to; times of day in minutes after midnight."""

    __tablename__ = "chat_wishes"

    chat_id: Mapped[int] = mapped_column(ForeignKey("chat.id"), primary_key=True)
    quiet_from: Mapped[int]
    quiet_until: Mapped[int]
    wake_at: Mapped[int | None]
    daily_cap: Mapped[int]
    yards_a_day: Mapped[int]

    #: Crews: where the day's round starts, in degrees.
    start_lat: Mapped[float | None]
    start_lon: Mapped[float | None]

    #: What their state asks for, as they say: signs, and notice so many hours ahead.
    posts_signs: Mapped[bool] = mapped_column(server_default=_FALSE)
    notice_hours: Mapped[int | None]


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


class Membership(Base):
    """A chat, beside a yard's own, in which the yard may be seen, confirmed or changed."""

    __tablename__ = "membership"

    id: Mapped[int] = mapped_column(primary_key=True)
    yard_id: Mapped[int] = mapped_column(ForeignKey("yard.id"), index=True)
    chat_id: Mapped[int] = mapped_column(ForeignKey("chat.id"), index=True)
    person_id: Mapped[int] = mapped_column(ForeignKey("person.id"))
    role: Mapped[str]
    invited_by: Mapped[int] = mapped_column(ForeignKey("person.id"))
    since: Mapped[datetime]
    ended_at: Mapped[datetime | None]
    ended_by: Mapped[int | None] = mapped_column(ForeignKey("person.id"))
    #: Crews: whether it is one of a share in all yards, so that a new yard is shared too.
    is_of_all: Mapped[bool] = mapped_column(server_default=_FALSE)


class Invitation(Base):
    """An invitation to a yard: used once, and not after it has run out."""

    __tablename__ = "invitation"

    id: Mapped[int] = mapped_column(primary_key=True)
    code: Mapped[str] = mapped_column(unique=True)
    yard_id: Mapped[int] = mapped_column(ForeignKey("yard.id"), index=True)
    role: Mapped[str]
    created_at: Mapped[datetime]
    created_by: Mapped[int] = mapped_column(ForeignKey("person.id"))
    expires_at: Mapped[datetime]
    used_at: Mapped[datetime | None]
    used_by: Mapped[int | None] = mapped_column(ForeignKey("person.id"))
    #: Crews: whether it is to all yards of the chat.
    is_of_all: Mapped[bool] = mapped_column(server_default=_FALSE)


class UnreadText(Base):
    """A text that was not understood, without names, places and numbers, and nobody's own."""

    __tablename__ = "unread_text"

    id: Mapped[int] = mapped_column(primary_key=True)
    said_on: Mapped[date] = mapped_column(index=True)
    language: Mapped[str]
    moment: Mapped[str]
    said: Mapped[str]
