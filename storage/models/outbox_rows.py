"""Tables of what is told."""

from __future__ import annotations

from datetime import datetime
from typing import Any

from sqlalchemy import ForeignKey, Index, text
from sqlalchemy.orm import Mapped, mapped_column

from storage.models.declarative import Base

#: Conditions of the outbox's partial indices. A query is served by one only where it holds the very
#: same condition, written out: `storage.outbox` says them with literals, not with parameters. They
#: hold on PostgreSQL too, by the migrations: said here, every start would load its dialect.
_DUE = text("state = 'due'")
_SENDING = text("state = 'sending'")
_TROUBLED = text("state IN ('uncertain', 'dead')")


class Alert(Base):
    """The outbox: one row a thing to tell, written together with the state that caused it.

    What is looked for by its state has an index of rows in that state alone, so that it costs the
    same however many alerts were ever sent.
    """

    __tablename__ = "alert"
    __table_args__ = (
        Index("ix_alert_due", "rank", "due_at", "id", sqlite_where=_DUE),
        Index("ix_alert_due_of_chat", "chat_id", "due_at", sqlite_where=_DUE),
        Index("ix_alert_due_of_yard", "yard_id", sqlite_where=_DUE),
        Index("ix_alert_sending", "lease_until", sqlite_where=_SENDING),
        Index("ix_alert_troubled", "id", sqlite_where=_TROUBLED),
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
