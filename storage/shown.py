"""What a chat was shown last: answers and alerts, in one statement."""

from __future__ import annotations

from datetime import datetime
from typing import Final

from sqlalchemy import bindparam, select

from storage import held, models
from storage.alerts import AlertRecord
from storage.chats import TurnRecord
from storage.database import Work
from storage.gathering import Gathering
from storage.plain import plain

_NEWEST: Final = Gathering(
    (
        models.Turn,
        models.Turn.id.in_(
            select(models.Turn.id)
            .where(models.Turn.chat_id == bindparam("chat_id"))
            .order_by(models.Turn.id.desc())
            .limit(bindparam("most"))
        ),
    ),
    (
        models.Alert,
        models.Alert.id.in_(
            select(models.Alert.id)
            .where(
                models.Alert.chat_id == bindparam("chat_id"),
                models.Alert.told_at.is_not(None),
                models.Alert.sent_at.is_not(None),
                models.Alert.told_with.is_(None),
            )
            .order_by(models.Alert.told_at.desc(), models.Alert.id.desc())
            .limit(bindparam("most"))
        ),
    ),
)


def newest_shown(
    work: Work, chat_id: int, most: int
) -> tuple[list[TurnRecord], list[tuple[AlertRecord, datetime]]]:
    """Return a chat's newest answered turns, and its newest messages by their first alert.

    Of each at most so many, oldest first; with an alert stands when it was sent.
    """
    return held.made(work, ("shown", chat_id, most), lambda: _newest_shown(work, chat_id, most))


def _newest_shown(
    work: Work, chat_id: int, most: int
) -> tuple[list[TurnRecord], list[tuple[AlertRecord, datetime]]]:
    rows = list(_NEWEST.rows(work, {"chat_id": chat_id, "most": most}))
    turns = sorted((row for row in rows if isinstance(row, models.Turn)), key=lambda row: row.id)
    sent = [row for row in rows if isinstance(row, models.Alert)]
    sent.sort(key=lambda row: (row.told_at, row.id))
    return (
        [plain(row, TurnRecord) for row in turns],
        [(plain(row, AlertRecord), row.sent_at) for row in sent if row.sent_at is not None],
    )
