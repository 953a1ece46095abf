"""Tables of chats and people: who talks, where that stands, who shares a yard."""

from __future__ import annotations

from datetime import date, datetime
from typing import Any

from sqlalchemy import ForeignKey, UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column

from storage.models.declarative import FALSE, Base


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
    keeps_unread: Mapped[bool] = mapped_column(server_default=FALSE)
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
    posts_signs: Mapped[bool] = mapped_column(server_default=FALSE)
    notice_hours: Mapped[int | None]


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
    is_of_all: Mapped[bool] = mapped_column(server_default=FALSE)


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
    is_of_all: Mapped[bool] = mapped_column(server_default=FALSE)


class UnreadText(Base):
    """A text that was not understood, without names, places and numbers, and nobody's own."""

    __tablename__ = "unread_text"

    id: Mapped[int] = mapped_column(primary_key=True)
    said_on: Mapped[date] = mapped_column(index=True)
    language: Mapped[str]
    moment: Mapped[str]
    said: Mapped[str]
