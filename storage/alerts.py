"""The outbox: alerts claimed by a conditional update, each attempt noted before it is made.

due ──claim──> sending ──> sent
 ^                ├──────> due (told to wait, or it surely never left)
 │                ├──────> uncertain (it may have arrived)
 └─ lease ran out ┘──────> dead (nobody there any more)
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any

from sqlalchemy import Select, and_, func, or_, select, update

from storage import models
from storage.database import Work, changed_rows
from storage.plain import plain, plain_or_none

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
    told_with: int | None = None


_NEXT_DUE_AT = select(
    func.min(models.Alert.due_at).filter(models.Alert.state == "due"),
    func.min(models.Alert.lease_until).filter(models.Alert.state == "sending"),
)


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
    due, lease = work.execute(_NEXT_DUE_AT).one()
    return min((at for at in (due, lease) if at is not None), default=None)


def claim(work: Work, *, owner: str, now: datetime) -> tuple[AlertRecord, int] | None:
    """Claim the longest due alert and note the attempt; return it with the attempt's id.

    The condition in the update decides between rivals. A crashed owner's alert, whose lease ran
    out, becomes `uncertain` rather than being sent twice.
    """
    _settle_lost(work, now)
    alert_id = _longest_due(work, now)
    if alert_id is None:
        return None
    attempt_id = _claim(work, alert_id, None, owner=owner, now=now)
    if attempt_id is None:
        return None
    row = work.get_one(models.Alert, alert_id, populate_existing=True)
    return plain(row, AlertRecord), attempt_id


def due_chat(work: Work, now: datetime) -> int | None:
    """Return the chat of the longest due alert, or None; leases that ran out are settled first."""
    _settle_lost(work, now)
    alert_id = _longest_due(work, now)
    return None if alert_id is None else work.get_one(models.Alert, alert_id).chat_id


def due_of_chat(work: Work, chat_id: int, now: datetime) -> list[AlertRecord]:
    """Return what is due for a chat, longest due first."""
    rows = work.scalars(
        select(models.Alert)
        .where(
            models.Alert.chat_id == chat_id,
            models.Alert.state == "due",
            models.Alert.due_at <= now,
        )
        .order_by(models.Alert.due_at, models.Alert.id)
        .with_for_update(skip_locked=True)
        .execution_options(populate_existing=True)
    )
    return [plain(row, AlertRecord) for row in rows]


def claim_together(
    work: Work, ids: Sequence[int], *, owner: str, now: datetime
) -> list[tuple[AlertRecord, int]]:
    """Claim alerts for one message and note an attempt for each; rivals' are left out."""
    claimed: list[tuple[AlertRecord, int]] = []
    for alert_id in ids:
        lead = claimed[0][0].id if claimed else None
        attempt_id = _claim(work, alert_id, lead, owner=owner, now=now)
        if attempt_id is not None:
            row = work.get_one(models.Alert, alert_id, populate_existing=True)
            claimed.append((plain(row, AlertRecord), attempt_id))
    return claimed


def put_off(work: Work, alert_id: int, due_at: datetime) -> None:
    """Let a due alert wait; nothing has been tried."""
    work.execute(
        update(models.Alert)
        .where(models.Alert.id == alert_id, models.Alert.state == "due")
        .values(due_at=due_at)
    )


def withdraw(work: Work, alert_id: int) -> None:
    """Withdraw a due alert that is no longer true or no longer wanted."""
    work.execute(
        update(models.Alert)
        .where(models.Alert.id == alert_id, models.Alert.state == "due")
        .values(state="withdrawn", told_with=None)
    )


def messages_since(work: Work, chat_id: int, since: datetime) -> int:
    """Return how many messages a chat has got, or may have got, since an instant."""
    return (
        work.scalar(
            select(func.count())
            .select_from(models.AlertAttempt)
            .join(models.Alert, models.Alert.id == models.AlertAttempt.alert_id)
            .where(
                models.Alert.chat_id == chat_id,
                models.Alert.told_with.is_(None),
                models.AlertAttempt.started_at >= since,
                or_(
                    models.AlertAttempt.outcome.is_(None),
                    models.AlertAttempt.outcome.in_(("sent", "uncertain")),
                ),
            )
        )
        or 0
    )


def told_together(work: Work, alert_id: int) -> list[AlertRecord]:
    """Return the alerts told in another one's message, oldest first.

    They share its fate: one that waits or was withdrawn meanwhile is not told with it any more.
    """
    lead = work.get_one(models.Alert, alert_id)
    rows = work.scalars(
        select(models.Alert)
        .where(models.Alert.told_with == alert_id, models.Alert.state == lead.state)
        .order_by(models.Alert.id)
    )
    return [plain(row, AlertRecord) for row in rows]


def newest_told(
    work: Work, yard_id: int, kinds: Sequence[str], chat_id: int | None = None
) -> AlertRecord | None:
    """Return a yard's newest alert of some kinds that has been sent, or may have been.

    With a chat only what was told there counts.
    """
    told = _told(yard_id, kinds)
    if chat_id is not None:
        told = told.where(models.Alert.chat_id == chat_id)
    return plain_or_none(work.scalar(told.limit(1)), AlertRecord)


def newest_told_by_chat(work: Work, yard_id: int, kinds: Sequence[str]) -> list[AlertRecord]:
    """Return the newest such alert of each chat that was told, newest first."""
    newest: dict[int, models.Alert] = {}
    for row in work.scalars(_told(yard_id, kinds)):
        newest.setdefault(row.chat_id, row)
    return [plain(row, AlertRecord) for row in newest.values()]


def is_waiting(work: Work, yard_id: int, kinds: Sequence[str], chat_id: int) -> bool:
    """Tell whether an alert of some kinds about a yard waits for a chat."""
    found = work.scalar(
        select(models.Alert.id)
        .where(
            models.Alert.yard_id == yard_id,
            models.Alert.chat_id == chat_id,
            models.Alert.kind.in_(kinds),
            models.Alert.state == "due",
        )
        .limit(1)
    )
    return found is not None


def _told(yard_id: int, kinds: Sequence[str]) -> Select[models.Alert]:
    return (
        select(models.Alert)
        .where(
            models.Alert.yard_id == yard_id,
            models.Alert.kind.in_(kinds),
            models.Alert.state.in_(("sent", "uncertain")),
        )
        .order_by(models.Alert.id.desc())
    )


def _settle_lost(work: Work, now: datetime) -> None:
    work.execute(
        update(models.Alert)
        .where(models.Alert.state == "sending", models.Alert.lease_until <= now)
        .values(state="uncertain", lease_owner=None)
    )


def _longest_due(work: Work, now: datetime) -> int | None:
    return work.scalar(
        select(models.Alert.id)
        .where(models.Alert.state == "due", models.Alert.due_at <= now)
        .order_by(models.Alert.due_at, models.Alert.id)
        .limit(1)
        .with_for_update(skip_locked=True)
    )


def _claim(
    work: Work, alert_id: int, told_with: int | None, *, owner: str, now: datetime
) -> int | None:
    """Claim one alert by the condition in the update; return its attempt's id, None if too late."""
    claimed = changed_rows(
        work,
        update(models.Alert)
        .where(models.Alert.id == alert_id, models.Alert.state == "due")
        .values(state="sending", lease_owner=owner, lease_until=now + LEASE, told_with=told_with),
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
    return attempt.id


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
    if outcome == "later":
        row.told_with = None
        row.due_at = row.due_at if again_at is None else again_at
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
        .values(state="withdrawn", told_with=None)
    )


def of_yard(work: Work, yard_id: int) -> list[AlertRecord]:
    """Return every alert of a yard, oldest first."""
    rows = work.scalars(
        select(models.Alert).where(models.Alert.yard_id == yard_id).order_by(models.Alert.id)
    )
    return [plain(row, AlertRecord) for row in rows]


def newest_sent(work: Work, chat_id: int, limit: int) -> list[tuple[AlertRecord, datetime]]:
    """Return a chat's newest messages by their first alert, with when, newest first."""
    rows = work.scalars(
        select(models.Alert)
        .where(
            models.Alert.chat_id == chat_id,
            models.Alert.sent_at.is_not(None),
            models.Alert.told_with.is_(None),
        )
        .order_by(models.Alert.sent_at.desc(), models.Alert.id.desc())
        .limit(limit)
    )
    return [(plain(row, AlertRecord), row.sent_at) for row in rows if row.sent_at is not None]
