"""The outbox at work: claim, commit, send, note the outcome."""

from __future__ import annotations

import logging
from datetime import datetime, timedelta

from jobs.messenger import (
    ChatMoved,
    DeliveryTrouble,
    Letter,
    MayHaveArrived,
    Messenger,
    NobodyThere,
    TryLater,
)
from storage import alerts, chats, yards
from storage.alerts import AlertRecord
from storage.database import Database, Work

log = logging.getLogger(__name__)

#: After a failure of our own making an alert is put off this long, so that it cannot block others.
PUT_OFF = timedelta(minutes=15)


def deliver_due(db: Database, messenger: Messenger, now: datetime, *, owner: str) -> int:
    """Send every alert that is due at ``now``; return how many were sent."""
    sent = 0
    while True:
        with db.writing() as work:
            claimed = alerts.claim(work, owner=owner, now=now)
            letter = None if claimed is None else letter_of(work, claimed[0], now)
        if claimed is None:
            return sent
        alert, attempt_id = claimed
        if letter is None:
            _settle(db, alert.id, attempt_id, "dead", now, detail="chat silent or yard gone")
            continue
        sent += _send(db, messenger, alert, attempt_id, letter, now)


def next_due_at(db: Database) -> datetime | None:
    """Return when the outbox next wants attention."""
    with db.reading() as work:
        return alerts.next_due_at(work)


def letter_of(work: Work, alert: AlertRecord, now: datetime) -> Letter | None:
    """Return an alert as a letter, or None where nobody is there to read it."""
    yard = yards.yard(work, alert.yard_id)
    chat = chats.chat(work, alert.chat_id)
    if yard is None or not chat.is_active:
        return None
    return Letter(
        alert_id=alert.id,
        platform=chat.platform,
        address=chat.address,
        language=chat.language,
        units=chat.units,
        yard_id=yard.id,
        yard_name=yard.name,
        timezone=yard.timezone,
        target=alert.target,
        kind=alert.kind,
        facts=alert.facts,
        at=now,
    )


def _send(
    db: Database,
    messenger: Messenger,
    alert: AlertRecord,
    attempt_id: int,
    letter: Letter,
    now: datetime,
) -> int:
    try:
        messenger.send(letter)
    except TryLater as trouble:
        again_at = now + trouble.after
        _settle(db, alert.id, attempt_id, "later", now, again_at=again_at, detail=str(trouble))
    except MayHaveArrived as trouble:
        _settle(db, alert.id, attempt_id, "uncertain", now, detail=str(trouble))
    except NobodyThere as trouble:
        with db.writing() as work:
            chats.silence(work, alert.chat_id)
        _settle(db, alert.id, attempt_id, "dead", now, detail=str(trouble))
    except ChatMoved as moved:
        with db.writing() as work:
            chats.move(work, alert.chat_id, moved.new_address)
        _settle(db, alert.id, attempt_id, "later", now, again_at=now, detail="chat moved")
    except DeliveryTrouble as trouble:
        _settle(db, alert.id, attempt_id, "uncertain", now, detail=str(trouble))
    except Exception:
        _settle(db, alert.id, attempt_id, "later", now, again_at=now + PUT_OFF, detail="our error")
        log.exception("alert %s could not be put into words or sent", alert.id)
    else:
        _settle(db, alert.id, attempt_id, "sent", now)
        return 1
    return 0


def _settle(
    db: Database,
    alert_id: int,
    attempt_id: int,
    outcome: str,
    now: datetime,
    *,
    again_at: datetime | None = None,
    detail: str = "",
) -> None:
    with db.writing() as work:
        alerts.settle(
            work, alert_id, attempt_id, outcome=outcome, now=now, again_at=again_at, detail=detail
        )
