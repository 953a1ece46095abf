"""The outbox: what leaves it, and what is known of each try.

due ──claim──> sending ──call──> sending, with an open attempt ──> sent
 ^                │                            ├──────> due, later (it surely never arrived)
 │                │                            ├──────> due, as a repeat (it may have arrived)
 └─ lease ran out ┘                            ├──────> uncertain (so may its repeat)
    before the call                            └──────> dead (nobody there, or not to be sent)

Each attempt is on record before the call is made: a claim that was lost without one never left, and
simply waits again. A claim that was lost with an attempt open may have arrived.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any, Final

from sqlalchemy import Select, bindparam, case, delete, func, insert, literal_column, select, update

from storage import models
from storage.alerts import RANKS, WITHDRAWN, AlertRecord
from storage.database import Work
from storage.held import IS_DUE
from storage.plain import plain

#: How long a process may take over an alert before another asks what became of it.
LEASE: Final = timedelta(minutes=2)

#: Said with literals: a parameter would hide from the database that its partial index will do.
_IS_SENDING: Final = models.Alert.state == literal_column("'sending'")

_PLAIN_UPDATE: Final = {"synchronize_session": False}


def _next_due() -> Select[*tuple[Any, ...]]:
    first = [
        select(func.min(models.Alert.due_at))
        .where(IS_DUE, models.Alert.rank == literal_column(str(rank)))
        .scalar_subquery()
        for rank in RANKS
    ]
    lost = select(func.min(models.Alert.lease_until)).where(_IS_SENDING).scalar_subquery()
    return select(*first, lost)


NEXT_DUE_AT: Final = _next_due()
#: The longest due of one rank.
LONGEST_DUE: Final = (
    select(models.Alert)
    .where(
        IS_DUE, models.Alert.rank == bindparam("of_rank"), models.Alert.due_at <= bindparam("until")
    )
    .order_by(models.Alert.due_at, models.Alert.id)
    .limit(bindparam("at_most"))
)
DUE_OF_CHATS: Final = select(models.Alert).where(
    IS_DUE,
    models.Alert.chat_id.in_(bindparam("of_chats", expanding=True)),
    models.Alert.due_at <= bindparam("until"),
)
#: Alerts are written in the order of their numbers: what was told longest ago comes first.
_ENDED: Final = (
    select(models.Alert.id, models.Alert.created_at)
    .where(models.Alert.state.not_in(("due", "sending")))
    .order_by(models.Alert.id)
    .limit(bindparam("at_most"))
)
LOST: Final = select(models.Alert).where(_IS_SENDING, models.Alert.lease_until <= bindparam("now"))


def next_due_at(work: Work) -> datetime | None:
    """Return when the next alert wants attention (its due time, or the end of a lease)."""
    return min(
        (at for at in work.connection().execute(NEXT_DUE_AT).one() if at is not None), default=None
    )


def due(
    work: Work, now: datetime, at_most: int, *, but_of_chats: Collection[int] = ()
) -> list[AlertRecord]:
    """Return what is due, the urgent first, and of one urgency the longest due."""
    query = LONGEST_DUE
    if but_of_chats:
        query = query.where(models.Alert.chat_id.not_in(but_of_chats))
    found: list[AlertRecord] = []
    for rank in RANKS:
        limits = {"of_rank": rank, "until": now, "at_most": at_most - len(found)}
        found += [plain(row, AlertRecord) for row in work.scalars(query, limits)]
        if len(found) >= at_most:
            break
    return found


def due_of_chats(
    work: Work, chat_ids: Collection[int], now: datetime
) -> dict[int, list[AlertRecord]]:
    """Return what is due for chats, for each the longest due first."""
    found: dict[int, list[AlertRecord]] = {chat_id: [] for chat_id in chat_ids}
    rows = work.scalars(DUE_OF_CHATS, {"of_chats": list(chat_ids), "until": now})
    for row in sorted(rows, key=lambda row: (row.due_at, row.id)):
        found[row.chat_id].append(plain(row, AlertRecord))
    return found


def lost(work: Work, now: datetime) -> list[tuple[AlertRecord, bool]]:
    """Return claims whose lease has run out, and whether the call for each had begun."""
    rows = [plain(row, AlertRecord) for row in work.scalars(LOST, {"now": now})]
    if not rows:
        return []
    open_ones = set(
        work.scalars(
            select(models.AlertAttempt.alert_id).where(
                models.AlertAttempt.alert_id.in_([row.id for row in rows]),
                models.AlertAttempt.ended_at.is_(None),
            )
        )
    )
    return [(row, row.id in open_ones) for row in rows]


def put_off(work: Work, until: Mapping[int, datetime]) -> None:
    """Let due alerts wait, each until its time; nothing has been tried."""
    for alert_id, due_at in until.items():
        work.execute(
            update(models.Alert).where(models.Alert.id == alert_id, IS_DUE).values(due_at=due_at),
            execution_options=_PLAIN_UPDATE,
        )


def withdraw(work: Work, ids: Collection[int]) -> None:
    """Withdraw due alerts that are no longer true or no longer wanted."""
    if ids:
        work.execute(
            update(models.Alert)
            .where(models.Alert.id.in_(ids), IS_DUE)
            .values(state=WITHDRAWN, told_with=None),
            execution_options=_PLAIN_UPDATE,
        )


def claim(work: Work, messages: Iterable[Sequence[int]], *, owner: str, now: datetime) -> set[int]:
    """Claim the alerts of messages; return those that are ours.

    The condition in the update decides between rivals.
    """
    by_lead = {ids[0]: list(ids[1:]) for ids in messages}
    ours = _claim(work, list(by_lead), None, owner=owner, now=now)
    for lead, others in by_lead.items():
        if others and lead in ours:
            ours |= _claim(work, others, lead, owner=owner, now=now)
    return ours


def _claim(
    work: Work, ids: Sequence[int], told_with: int | None, *, owner: str, now: datetime
) -> set[int]:
    if not ids:
        return set()
    claimed = (
        update(models.Alert)
        .where(models.Alert.id.in_(ids), IS_DUE)
        .values(state="sending", lease_owner=owner, lease_until=now + LEASE, told_with=told_with)
        .returning(models.Alert.id)
    )
    return set(work.scalars(claimed, execution_options=_PLAIN_UPDATE))


def release(work: Work, ids: Collection[int]) -> None:
    """Let claimed alerts wait again; no call was made for them."""
    if ids:
        work.execute(
            update(models.Alert)
            .where(models.Alert.id.in_(ids), _IS_SENDING)
            .values(state="due", lease_owner=None, lease_until=None, told_with=None),
            execution_options=_PLAIN_UPDATE,
        )


def call(work: Work, ids: Sequence[int], *, owner: str, now: datetime) -> set[int]:
    """Note that calls for claimed alerts begin now; return those still ours to send."""
    called = (
        update(models.Alert)
        .where(models.Alert.id.in_(ids), _IS_SENDING, models.Alert.lease_owner == owner)
        .values(tries=models.Alert.tries + 1, told_at=now, lease_until=now + LEASE)
        .returning(models.Alert.id, models.Alert.tries)
    )
    ours = {row.id: row.tries for row in work.execute(called, execution_options=_PLAIN_UPDATE)}
    if ours:
        attempts = [
            {"alert_id": alert_id, "number": number, "started_at": now, "detail": ""}
            for alert_id, number in ours.items()
        ]
        work.execute(insert(models.AlertAttempt), attempts)
    return set(ours)


@dataclass(frozen=True, slots=True)
class Outcome:
    """What became of a call.

    Attributes
    ----------
    word
        `sent`, `later`, `repeat`, `uncertain` or `dead`.
    again_at
        When it is due again, where it is.
    repeat_until
        How long the repeat of what may have arrived is worth it.
    detail
        Why, for the record.
    """

    word: str
    again_at: datetime | None = None
    repeat_until: datetime | None = None
    detail: str = ""


_NOTED: Final = {"later": "later", "repeat": "uncertain"}


def settle(work: Work, outcomes: Mapping[int, Outcome], now: datetime) -> None:
    """Note what became of alerts' calls."""
    alike: dict[Outcome, list[int]] = {}
    for alert_id, outcome in outcomes.items():
        alike.setdefault(outcome, []).append(alert_id)
    for outcome, ids in alike.items():
        work.execute(
            update(models.AlertAttempt)
            .where(models.AlertAttempt.alert_id.in_(ids), models.AlertAttempt.ended_at.is_(None))
            .values(
                ended_at=now,
                outcome=_NOTED.get(outcome.word, outcome.word),
                detail=outcome.detail[:500],
            ),
            execution_options=_PLAIN_UPDATE,
        )
        work.execute(
            update(models.Alert).where(models.Alert.id.in_(ids)).values(_becomes(outcome, now)),
            execution_options=_PLAIN_UPDATE,
        )


def _becomes(outcome: Outcome, now: datetime) -> dict[str, Any]:
    values: dict[str, Any] = {"lease_until": None, "lease_owner": None}
    match outcome.word:
        case "later":
            again = {"state": "due", "told_with": None, "due_at": outcome.again_at}
            return {**values, **again, "told_at": _TOLD_BEFORE}
        case "repeat":
            return {
                **values,
                "state": "due",
                "due_at": outcome.again_at,
                "repeat_until": outcome.repeat_until,
            }
        case "sent":
            return {**values, "state": "sent", "sent_at": now}
        case "dead":
            return {**values, "state": "dead", "told_at": _TOLD_BEFORE}
    return {**values, "state": outcome.word}


#: This try did not arrive; that an earlier one may have stays on record.
_TOLD_BEFORE: Final = case((models.Alert.repeat_until.is_not(None), models.Alert.told_at))


#: When the oldest alert that has nothing before it any more was written.
OLDEST_ENDED_AT: Final = _ENDED.with_only_columns(models.Alert.created_at).limit(1)


def forget(work: Work, before: datetime, at_most: int) -> int:
    """Forget alerts that came to an end and were written before an instant; return how many.

    Why a yard's season moved stays on record, with its facts (`seasons.note_event`).
    """
    ended = work.connection().execute(_ENDED, {"at_most": at_most})
    ids = [each.id for each in ended if each.created_at < before]
    if ids:
        attempts = delete(models.AlertAttempt).where(models.AlertAttempt.alert_id.in_(ids))
        work.execute(attempts, execution_options=_PLAIN_UPDATE)
        gone = delete(models.Alert).where(models.Alert.id.in_(ids))
        work.execute(gone, execution_options=_PLAIN_UPDATE)
    return len(ids)
