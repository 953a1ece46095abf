"""The outbox: alerts claimed by a conditional update, each attempt noted before it is made.

due ──claim──> sending ──> sent
 ^                ├──────> due (told to wait, or it surely never left)
 │                ├──────> uncertain (it may have arrived)
 └─ lease ran out ┘──────> dead (nobody there any more)
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any

from sqlalchemy import and_, func, or_, select, update

from storage import models
from storage.database import Work, changed_rows
from storage.plain import plain

#: How long a process may take over one alert before another asks what became of it.
LEASE = timedelta(minutes=2)


@dataclass(frozen=True, slots=True)
class AlertRecord:
    """One thing to tell."""

    id: int
    chat_id: int
    yard_id: int
    target: str
    year: int
    kind: str
    episode_key: str
    facts: dict[str, Any]
    created_at: datetime
    due_at: datetime
    state: str


def add(
    work: Work,
    *,
    chat_id: int,
    yard_id: int,
    target: str,
    year: int,
    kind: str,
    episode_key: str,
    facts: dict[str, Any],
    due_at: datetime,
    now: datetime,
) -> bool:
    """Put an alert into the outbox unless its episode has been told; return whether it was new."""
    if work.scalar(select(models.Alert.id).where(models.Alert.episode_key == episode_key)):
        return False
    work.add(
        models.Alert(
            chat_id=chat_id,
            yard_id=yard_id,
            target=target,
            year=year,
            kind=kind,
            episode_key=episode_key,
            facts=facts,
            created_at=now,
            due_at=due_at,
            state="due",
            lease_until=None,
            lease_owner=None,
            sent_at=None,
        )
    )
    work.flush()
    return True


def next_due_at(work: Work) -> datetime | None:
    """Return when the next alert wants attention (its due time, or the end of a lease)."""
    due, lease = work.execute(
        select(
            func.min(models.Alert.due_at).filter(models.Alert.state == "due"),
            func.min(models.Alert.lease_until).filter(models.Alert.state == "sending"),
        )
    ).one()
    return min((at for at in (due, lease) if at is not None), default=None)


def claim(work: Work, *, owner: str, now: datetime) -> tuple[AlertRecord, int] | None:
    """Claim the longest due alert and note the attempt; return it with the attempt's id.

    The condition in the update decides between rivals. A crashed owner's alert, whose lease ran
    out, becomes `uncertain` rather than being sent twice.
    """
    work.execute(
        update(models.Alert)
        .where(models.Alert.state == "sending", models.Alert.lease_until < now)
        .values(state="uncertain", lease_owner=None)
    )
    alert_id = work.scalar(
        select(models.Alert.id)
        .where(models.Alert.state == "due", models.Alert.due_at <= now)
        .order_by(models.Alert.due_at, models.Alert.id)
        .limit(1)
        .with_for_update(skip_locked=True)
    )
    if alert_id is None:
        return None
    claimed = changed_rows(
        work,
        update(models.Alert)
        .where(models.Alert.id == alert_id, models.Alert.state == "due")
        .values(state="sending", lease_owner=owner, lease_until=now + LEASE),
    )
    if claimed != 1:
        return None
    number = 1 + (
        work.scalar(
            select(func.count())
            .select_from(models.AlertAttempt)
            .where(models.AlertAttempt.alert_id == alert_id)
        )
        or 0
    )
    attempt = models.AlertAttempt(
        alert_id=alert_id, number=number, started_at=now, ended_at=None, outcome=None, detail=""
    )
    work.add(attempt)
    work.flush()
    row = work.get_one(models.Alert, alert_id, populate_existing=True)
    return plain(row, AlertRecord), attempt.id


def settle(
    work: Work,
    alert_id: int,
    attempt_id: int,
    *,
    outcome: str,
    now: datetime,
    again_at: datetime | None = None,
    detail: str = "",
) -> None:
    """Note what became of an attempt: `sent`, `later` (with `again_at`), `uncertain` or `dead`."""
    attempt = work.get_one(models.AlertAttempt, attempt_id)
    attempt.ended_at = now
    attempt.outcome = outcome
    attempt.detail = detail[:500]
    row = work.get_one(models.Alert, alert_id)
    row.state = "due" if outcome == "later" else outcome
    row.lease_until = None
    row.lease_owner = None
    if outcome == "later" and again_at is not None:
        row.due_at = again_at
    if outcome == "sent":
        row.sent_at = now
    work.flush()


def drop_waiting(work: Work, yard_id: int, target: str, kinds: list[str]) -> None:
    """Withdraw alerts not yet sent that are no longer true."""
    work.execute(
        update(models.Alert)
        .where(
            and_(
                models.Alert.yard_id == yard_id,
                models.Alert.target == target,
                models.Alert.state == "due",
                or_(*(models.Alert.kind == kind for kind in kinds)),
            )
        )
        .values(state="withdrawn")
    )


def of_yard(work: Work, yard_id: int) -> list[AlertRecord]:
    """Return every alert of a yard, oldest first."""
    rows = work.scalars(
        select(models.Alert).where(models.Alert.yard_id == yard_id).order_by(models.Alert.id)
    )
    return [plain(row, AlertRecord) for row in rows]


def newest_sent(work: Work, chat_id: int, limit: int) -> list[tuple[AlertRecord, datetime]]:
    """Return a chat's newest alerts that were sent, with when, newest first."""
    rows = work.scalars(
        select(models.Alert)
        .where(models.Alert.chat_id == chat_id, models.Alert.sent_at.is_not(None))
        .order_by(models.Alert.sent_at.desc(), models.Alert.id.desc())
        .limit(limit)
    )
    return [(plain(row, AlertRecord), row.sent_at) for row in rows if row.sent_at is not None]
