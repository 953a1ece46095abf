"""Messages that always say how a yard stands: which are to be written anew, and what they say."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import func, or_, select, update

from storage import models
from storage.database import Work

#: A number no yard has: what was told is not how it stands.
_NONE_TOLD = -1


@dataclass(frozen=True, slots=True)
class PinRecord:
    """A yard's message, and the yard it is to tell.

    Attributes
    ----------
    platform, address
        The chat the yard belongs to.
    is_wanted
        Whether there shall be one: not of a yard that was given up.
    is_told
        Whether its chat is told anything unasked.
    yard_version
        The yard's number now.
    """

    yard_id: int
    yard_name: str
    platform: str
    address: str
    language: str
    units: str
    is_wanted: bool
    is_told: bool
    message_ref: str | None
    shown: str | None
    yard_version: int
    times_sent: int


def want(work: Work, yard_id: int, now: datetime) -> None:
    """Have a message of a yard from now on."""
    work.add(
        models.Pin(
            yard_id=yard_id,
            message_ref=None,
            shown=None,
            yard_version=_NONE_TOLD,
            times_sent=0,
            not_before=now,
        )
    )
    work.flush()


_STALE = (
    select(models.Pin, models.Yard, models.Chat)
    .join(models.Yard, models.Yard.id == models.Pin.yard_id)
    .join(models.Chat, models.Chat.id == models.Yard.chat_id)
    .where(models.Pin.yard_version != models.Yard.version)
    .order_by(models.Pin.not_before, models.Pin.yard_id)
)


def stale(work: Work, now: datetime, most: int) -> list[PinRecord]:
    """Return messages that do not say how their yard stands now, longest waiting first."""
    found = work.execute(_STALE.where(models.Pin.not_before <= now).limit(most)).all()
    return [
        PinRecord(
            yard_id=pin.yard_id,
            yard_name=yard.name,
            platform=chat.platform,
            address=chat.address,
            language=chat.language,
            units=chat.units,
            is_wanted=yard.archived_at is None,
            is_told=chat.is_active and chat.stopped_at is None,
            message_ref=pin.message_ref,
            shown=pin.shown,
            yard_version=yard.version,
            times_sent=pin.times_sent,
        )
        for pin, yard, chat in found
    ]


def next_due_at(work: Work) -> datetime | None:
    """Return when the next message is to be written anew, or None."""
    return work.scalar(
        select(func.min(models.Pin.not_before))
        .join(models.Yard, models.Yard.id == models.Pin.yard_id)
        .where(models.Pin.yard_version != models.Yard.version)
    )


def note(work: Work, yard_id: int, **values: Any) -> None:
    """Set named columns of a yard's message; nothing where it has gone meanwhile."""
    work.execute(
        update(models.Pin)
        .where(models.Pin.yard_id == yard_id)
        .values(**values)
        .execution_options(synchronize_session=False)
    )


def touch(work: Work, chat_id: int, yard_id: int | None) -> None:
    """Have a yard's message and those of a chat's own yards written anew: something was changed."""
    mine = select(models.Yard.id).where(
        or_(models.Yard.chat_id == chat_id, models.Yard.id == yard_id)
    )
    work.execute(
        update(models.Pin)
        .where(models.Pin.yard_id.in_(mine))
        .values(yard_version=_NONE_TOLD)
        .execution_options(synchronize_session=False)
    )


def messages_of(work: Work, chat_id: int) -> Sequence[str]:
    """Return what the platform calls the messages of a chat's yards."""
    return work.scalars(
        select(models.Pin.message_ref)
        .join(models.Yard, models.Yard.id == models.Pin.yard_id)
        .where(models.Yard.chat_id == chat_id, models.Pin.message_ref.is_not(None))
    ).all()  # type: ignore[return-value]
