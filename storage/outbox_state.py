"""How the outbox stands, for whoever runs the bot: what waits, and what came to nothing."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Final

from sqlalchemy import Select, func, literal_column, select, text

from storage import models
from storage.alerts import AlertRecord
from storage.database import Work
from storage.plain import plain

#: Said with literals, as in `storage.outbox`, so that the partial indices will do.
_IS_DUE: Final = models.Alert.state == literal_column("'due'")
_IS_SENDING: Final = models.Alert.state == literal_column("'sending'")
_IS_TROUBLED: Final = text("alert.state IN ('uncertain', 'dead')")


@dataclass(frozen=True, slots=True)
class OutboxState:
    """How the outbox stands.

    Attributes
    ----------
    waiting
        Alerts not sent yet, whenever they are due.
    overdue
        Those due already.
    oldest_due_at
        Since when the oldest of these is due, or None.
    repeats
        Those waiting to be told once more, because they may not have arrived.
    doubts, dead
        Those that may never have arrived, and those that were given up.
    """

    waiting: int
    overdue: int
    oldest_due_at: datetime | None
    repeats: int
    doubts: int
    dead: int


def state(work: Work, now: datetime) -> OutboxState:
    """Return how the outbox stands."""
    waiting, overdue, oldest, repeats = work.execute(
        select(
            func.count(),
            func.count().filter(models.Alert.due_at <= now),
            func.min(models.Alert.due_at).filter(models.Alert.due_at <= now),
            func.count().filter(models.Alert.repeat_until.is_not(None)),
        )
        .select_from(models.Alert)
        .where(_IS_DUE)
    ).one()
    sending = work.scalar(select(func.count()).select_from(models.Alert).where(_IS_SENDING)) or 0
    counted = work.execute(
        select(models.Alert.state, func.count()).where(_IS_TROUBLED).group_by("state")
    )
    came_to_nothing = {row[0]: row[1] for row in counted}
    return OutboxState(
        waiting=waiting + sending,
        overdue=overdue,
        oldest_due_at=oldest,
        repeats=repeats,
        doubts=came_to_nothing.get("uncertain", 0),
        dead=came_to_nothing.get("dead", 0),
    )


def troubled(work: Work, since: datetime, at_most: int) -> list[tuple[AlertRecord, str]]:
    """Return what was put in since and came to nothing, newest first, each with the last reason."""
    rows = work.scalars(
        TROUBLED.where(models.Alert.created_at >= since)
        .order_by(models.Alert.id.desc())
        .limit(at_most)
    )
    return [(plain(row, AlertRecord), _reason(work, row.id)) for row in rows]


TROUBLED: Final[Select[models.Alert]] = select(models.Alert).where(_IS_TROUBLED)


def _reason(work: Work, alert_id: int) -> str:
    newest = (
        select(models.AlertAttempt.detail)
        .where(models.AlertAttempt.alert_id == alert_id)
        .order_by(models.AlertAttempt.id.desc())
        .limit(1)
    )
    return work.scalar(newest) or ""
