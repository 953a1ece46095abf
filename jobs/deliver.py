"""The outbox at work: claim, commit, send, note the outcome."""

from __future__ import annotations

import logging
from dataclasses import replace
from datetime import datetime, timedelta

from jobs.digests import Manners, facts_for, to_send
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


def deliver_due(
    db: Database,
    messenger: Messenger,
    now: datetime,
    *,
    owner: str,
    manners: Manners | None = None,
) -> int:
    """Send every alert that is due at ``now``; return how many messages were sent.

    With manners people's wishes are kept, what is no longer true is not sent, and alerts of several
    yards of one chat go together; without, each alert goes as it is, at once.
    """
    sent = 0
    while True:
        with db.writing() as work:
            chat_id = alerts.due_chat(work, now)
            claimed = []
            if chat_id is not None:
                claimed = _claim(work, chat_id, now, owner=owner, manners=manners)
        if chat_id is None:
            return sent
        if claimed:
            sent += _send_claimed(db, messenger, claimed, now, manners)


def next_due_at(db: Database) -> datetime | None:
    """Return when the outbox next wants attention."""
    with db.reading() as work:
        return alerts.next_due_at(work)


def letter_of(
    work: Work, alert: AlertRecord, now: datetime, manners: Manners | None = None
) -> Letter | None:
    """Return an alert as a letter, with those told beside it; None where nobody is to read it."""
    yard = yards.yard(work, alert.yard_id)
    chat = chats.chat(work, alert.chat_id)
    if yard is None or not chat.is_active:
        return None
    others = (letter_of(work, each, now, manners) for each in alerts.told_together(work, alert.id))
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
        facts=alert.facts if manners is None else facts_for(work, alert, yard, now, manners),
        at=now,
        others=tuple(each for each in others if each is not None),
    )


_Claimed = list[tuple[AlertRecord, int]]


def _claim(
    work: Work, chat_id: int, now: datetime, *, owner: str, manners: Manners | None
) -> _Claimed:
    if manners is None:
        claimed = alerts.claim(work, owner=owner, now=now)
        return [] if claimed is None else [claimed]
    wanted = to_send(work, chat_id, now, manners)
    return alerts.claim_together(work, [alert.id for alert in wanted], owner=owner, now=now)


def _send_claimed(
    db: Database,
    messenger: Messenger,
    claimed: _Claimed,
    now: datetime,
    manners: Manners | None,
) -> int:
    try:
        with db.reading() as work:
            letter = _letter_of_all(work, claimed, now, manners)
    except Exception:
        _settle(db, claimed, "later", now, again_at=now + PUT_OFF, detail="our error")
        log.exception("alert %s could not be put into words", claimed[0][0].id)
        return 0
    if letter is None:
        _settle(db, claimed, "dead", now, detail="chat silent or yard gone")
        return 0
    return _send(db, messenger, claimed, letter, now)


def _letter_of_all(
    work: Work, claimed: _Claimed, now: datetime, manners: Manners | None
) -> Letter | None:
    """Return one letter of all that was claimed; a yard that is gone is left out."""
    letters = [letter_of(work, alert, now, manners) for alert, _ in claimed[:1]]
    if letters[0] is not None or len(claimed) == 1:
        return letters[0]
    # The first yard is gone: the next one leads.
    rest = [letter_of(work, alert, now, manners) for alert, _ in claimed[1:]]
    there = [letter for letter in rest if letter is not None]
    return replace(there[0], others=tuple(there[1:])) if there else None


def _send(
    db: Database,
    messenger: Messenger,
    claimed: _Claimed,
    letter: Letter,
    now: datetime,
) -> int:
    chat_id = claimed[0][0].chat_id
    try:
        messenger.send(letter)
    except TryLater as trouble:
        again_at = now + trouble.after
        _settle(db, claimed, "later", now, again_at=again_at, detail=str(trouble))
    except MayHaveArrived as trouble:
        _settle(db, claimed, "uncertain", now, detail=str(trouble))
    except NobodyThere as trouble:
        with db.writing() as work:
            chats.silence(work, chat_id)
        _settle(db, claimed, "dead", now, detail=str(trouble))
    except ChatMoved as moved:
        with db.writing() as work:
            chats.move(work, chat_id, moved.new_address)
        _settle(db, claimed, "later", now, again_at=now, detail="chat moved")
    except DeliveryTrouble as trouble:
        _settle(db, claimed, "uncertain", now, detail=str(trouble))
    except Exception:
        _settle(db, claimed, "later", now, again_at=now + PUT_OFF, detail="our error")
        log.exception("alert %s could not be put into words or sent", claimed[0][0].id)
    else:
        _settle(db, claimed, "sent", now)
        return 1
    return 0


def _settle(
    db: Database,
    claimed: _Claimed,
    outcome: str,
    now: datetime,
    *,
    again_at: datetime | None = None,
    detail: str = "",
) -> None:
    with db.writing() as work:
        for alert, attempt_id in claimed:
            alerts.settle(
                work,
                alert.id,
                attempt_id,
                outcome=outcome,
                now=now,
                again_at=again_at,
                detail=detail,
            )
