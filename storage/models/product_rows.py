"""Tables of what is put down, with what, and its photos."""

from __future__ import annotations

from datetime import datetime
from typing import Any

from sqlalchemy import ForeignKey, UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column

from storage.models.declarative import FALSE, Base


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
    is_of_label: Mapped[bool] = mapped_column(server_default=FALSE)
    product_id: Mapped[int | None] = mapped_column(ForeignKey("product.id"))
