"""Tables of the journal: who changed what, when and by which words."""

from __future__ import annotations

from datetime import datetime
from typing import Any

from sqlalchemy import ForeignKey, Index
from sqlalchemy.orm import Mapped, mapped_column

from storage.models.declarative import Base


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
