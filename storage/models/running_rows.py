"""Tables of the program itself: its clock, who does what, what it spends on services."""

from __future__ import annotations

from datetime import datetime

from sqlalchemy import Index
from sqlalchemy.orm import Mapped, mapped_column

from storage.models.declarative import Base


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
