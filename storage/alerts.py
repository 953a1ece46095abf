"""Alerts as things to tell and as things told: what the outbox got, and what became of it.

How they leave it stands in `storage.outbox`.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any, Final

from sqlalchemy import Select, bindparam, case, or_, select, update

from storage import held, models
from storage.database import Work
from storage.plain import plain, plain_or_none

#: What goes first: where an hour matters, then where a day does, then what is merely good to know.
RANKS: Final = (0, 1, 2)
#: The kind that says that data is old.
STALE: Final = "data_stale"
_RANK_OF: Final[Mapping[str, int]] = {
    "act_now": 0,
    "water_in": 0,
    "window_open": 1,
    "second_half_due": 1,
    "barrier_fading": 1,
    "window_missed": 1,
    STALE: 1,
}
_LAST: Final = 2


#: Where a unit of work keeps the episodes it knows of, by yard and year, and those it may ask for.
_EPISODES: Final = "episodes"
_NOT_ASKED: Final = "episodes not asked for"
_TOLD_EPISODES: Final = select(
    models.Alert.yard_id, models.Alert.year, models.Alert.episode_key
).where(
    models.Alert.yard_id.in_(bindparam("yard_ids", expanding=True)),
    models.Alert.year.in_(bindparam("years", expanding=True)),
)


@dataclass(frozen=True, slots=True)
class AlertRecord:
    """One thing to tell.

    `repeat_until` is set once it left and nobody knows whether it arrived: a repeat, marked as one,
    is worth it until then.
    """

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
    tries: int = 0
    repeat_until: datetime | None = None


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
    told = _told_episodes(work, yard_id, year)
    if told is not None:
        if episode_key in told:
            return False
        told.add(episode_key)
    elif work.scalar(select(models.Alert.id).where(models.Alert.episode_key == episode_key)):
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
            rank=rank_of(kind),
        )
    )
    work.flush()
    return True


#: States of what was sent, or may have been.
_TOLD: Final = ("sent", "uncertain")


def know_episodes(work: Work, yard_ids: Collection[int], years: Sequence[int]) -> None:
    """Let a first alert load which episodes of all these yards have been told.

    So nothing is asked for each alert, and nothing at all where there is none to tell.
    """
    work.info[_NOT_ASKED] = {"yard_ids": list(yard_ids), "years": list(years)}


def _told_episodes(work: Work, yard_id: int, year: int) -> set[str] | None:
    known: dict[tuple[int, int], set[str]] = work.info.setdefault(_EPISODES, {})
    asked = work.info.pop(_NOT_ASKED, None)
    if asked is not None:
        known.update({(each, of): set() for each in asked["yard_ids"] for of in asked["years"]})
        for of_yard_id, of, episode_key in work.execute(_TOLD_EPISODES, asked):
            known[of_yard_id, of].add(episode_key)
    return known.get((yard_id, year))


def rank_of(kind: str) -> int:
    """Return how urgent a kind of alert is; the least number goes first."""
    return _RANK_OF.get(kind, _LAST)


def messages_since(
    work: Work, chat_ids: Collection[int], since: datetime
) -> dict[int, list[datetime]]:
    """Return by chat when messages left, or may have, since an instant."""
    found: dict[int, list[datetime]] = {chat_id: [] for chat_id in chat_ids}
    query = select(models.Alert.chat_id, models.Alert.told_at).where(
        models.Alert.chat_id.in_(chat_ids),
        models.Alert.told_at >= since,
        models.Alert.told_with.is_(None),
    )
    for chat_id, told_at in work.execute(query):
        if told_at is not None:
            found[chat_id].append(told_at)
    return found


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


def newest_stale_by_chat(work: Work, yard_id: int) -> list[AlertRecord]:
    """Return of each chat that was told that a yard's data is old the newest such, newest first."""
    newest: dict[int, models.Alert] = {}
    for row in reversed(held.of_yard(work, models.Alert, yard_id)):
        is_told = row.state in _TOLD or row.repeat_until is not None
        if is_told and row.kind == STALE:
            newest.setdefault(row.chat_id, row)
    return [plain(row, AlertRecord) for row in newest.values()]


def is_any_open(work: Work, yard_id: int) -> bool:
    """Tell whether an alert of a yard waits, or somebody was told of old data and not of new."""
    stale = newest_stale_by_chat(work, yard_id)
    return any(not each.facts.get("is_back") for each in stale) or any(
        row.state == "due" for row in held.of_yard(work, models.Alert, yard_id)
    )


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
            or_(
                models.Alert.state.in_(_TOLD),
                # It waits to be told again, because nobody knows whether it was.
                models.Alert.repeat_until.is_not(None),
            ),
        )
        .order_by(models.Alert.id.desc())
    )


#: What is no longer true is withdrawn; whether somebody has it all the same stays on record.
WITHDRAWN: Final = case((models.Alert.repeat_until.is_(None), "withdrawn"), else_="uncertain")


def drop_waiting(work: Work, yard_id: int, target: str, kinds: list[str]) -> None:
    """Withdraw alerts not yet sent that are no longer true."""
    waiting = held.of_yard(work, models.Alert, yard_id)
    if not any(e.state == "due" and e.target == target and e.kind in kinds for e in waiting):
        return
    work.execute(
        update(models.Alert)
        .where(
            models.Alert.yard_id == yard_id,
            models.Alert.kind.in_(kinds),
            models.Alert.target == target,
            models.Alert.state == "due",
        )
        .values(state=WITHDRAWN, told_with=None)
    )


def of_chat(work: Work, chat_id: int, alert_id: int) -> AlertRecord | None:
    """Return an alert that was told to a chat, or None."""
    row = work.get(models.Alert, alert_id)
    return plain_or_none(None if row is None or row.chat_id != chat_id else row, AlertRecord)


def told_together(work: Work, alert_id: int) -> list[AlertRecord]:
    """Return the alerts that were sent in another one's message, oldest first."""
    lead = work.get_one(models.Alert, alert_id)
    rows = work.scalars(
        select(models.Alert)
        .where(
            models.Alert.chat_id == lead.chat_id,
            models.Alert.told_at == lead.told_at,
            models.Alert.told_with == alert_id,
            models.Alert.state == lead.state,
        )
        .order_by(models.Alert.id)
    )
    return [plain(row, AlertRecord) for row in rows]
