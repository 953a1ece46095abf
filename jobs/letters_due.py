"""What is due, as letters: sorted out by chat, put together, with what is true at sending."""

from __future__ import annotations

import logging
from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from typing import Final

from jobs.data_trouble import know
from jobs.digests import Manners, facts_for, sort_out
from jobs.messenger import Letter
from jobs.outcomes import doubt, our_error
from jobs.sources.base import Cell
from storage import alerts, chats, held, outbox, yards
from storage.alerts import AlertRecord
from storage.database import Work
from storage.outbox import Outcome

log = logging.getLogger(__name__)


@dataclass(frozen=True, slots=True)
class Message:
    """One message to send: the letter, and the alerts it tells."""

    letter: Letter
    alerts: tuple[AlertRecord, ...]

    @property
    def chat_id(self) -> int:
        """The chat it goes to."""
        return self.alerts[0].chat_id

    @property
    def ids(self) -> tuple[int, ...]:
        """Ids of the alerts it tells."""
        return tuple(alert.id for alert in self.alerts)


@dataclass(slots=True)
class Plan:
    """What is to be done with what is due; nothing of it has been done yet."""

    messages: list[Message] = field(default_factory=list)
    withdrawn: list[int] = field(default_factory=list)
    put_off: dict[int, datetime] = field(default_factory=dict)
    #: Outcomes of alerts that are not sent now, and of claims that were lost.
    outcomes: dict[int, Outcome] = field(default_factory=dict)
    released: list[int] = field(default_factory=list)
    doubted: list[AlertRecord] = field(default_factory=list)

    @property
    def is_empty(self) -> bool:
        """Whether nothing is to be done."""
        changes = (self.withdrawn, self.put_off, self.outcomes, self.released)
        return not (self.messages or any(changes))


def plan(
    work: Work,
    now: datetime,
    manners: Manners | None,
    *,
    at_most: int,
    but_of_chats: Collection[int] = (),
) -> Plan:
    """Return what to do with what is due, for up to so many chats; only reads."""
    found = Plan()
    for alert, was_called in outbox.lost(work, now):
        if was_called:
            found.outcomes[alert.id] = doubt(alert, now, "the process that sent it died")
            found.doubted.append(alert)
        else:
            found.released.append(alert.id)
    due = outbox.due(work, now, _ROWS_A_CHAT * at_most, but_of_chats=but_of_chats)
    if manners is None:
        # Each as it is, in the order in which they fell due, and one of a chat at a time.
        first: dict[int, AlertRecord] = {}
        for alert in sorted(due, key=lambda each: (each.due_at, each.id)):
            first.setdefault(alert.chat_id, alert)
        for alert in list(first.values())[:at_most]:
            _add(work, found, (alert,), now, None)
        return found
    chat_ids = list(dict.fromkeys(alert.chat_id for alert in due))[:at_most]
    if not chat_ids:
        return found
    waiting = outbox.due_of_chats(work, chat_ids, now)
    told = alerts.messages_since(work, chat_ids, now - _LONGEST_DAY)
    held.load_chats(work, chat_ids)
    held.load(work, {alert.yard_id for of_one in waiting.values() for alert in of_one})
    places = {
        Cell.at(yard.lat, yard.lon)
        for of_one in waiting.values()
        for alert in of_one
        if (yard := yards.yard(work, alert.yard_id)) is not None
    }
    know(work, manners.source, places)
    for chat_id in chat_ids:
        sorted_out = sort_out(work, chat_id, waiting[chat_id], told[chat_id], now, manners)
        found.withdrawn += sorted_out.withdrawn
        found.put_off.update(sorted_out.put_off)
        if sorted_out.message:
            _add(work, found, sorted_out.message, now, manners)
    return found


#: No local day is longer, the one included on which clocks are set back.
_LONGEST_DAY: Final = timedelta(hours=25)
#: Rows looked at for each chat wanted: several yards of one fall due together.
_ROWS_A_CHAT: Final = 2


def letter_of(
    work: Work,
    alert: AlertRecord,
    now: datetime,
    manners: Manners | None = None,
    others: Iterable[AlertRecord] | None = None,
) -> Letter | None:
    """Return an alert as a letter, with those told beside it; None where nobody is to read it.

    Without `others` they are those that were sent in its message.
    """
    yard = yards.yard(work, alert.yard_id)
    chat = chats.chat(work, alert.chat_id)
    if yard is None or not chat.is_told:
        return None
    beside = alerts.told_together(work, alert.id) if others is None else others
    letters = (letter_of(work, each, now, manners, ()) for each in beside)
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
        others=tuple(each for each in letters if each is not None),
        is_repeat=alert.repeat_until is not None,
    )


def _add(
    work: Work, found: Plan, told: Sequence[AlertRecord], now: datetime, manners: Manners | None
) -> None:
    """Add a message, or what becomes of its alerts where there is none."""
    there = [alert for alert in told if yards.yard(work, alert.yard_id) is not None]
    gone = [alert for alert in told if alert not in there]
    letter = None
    try:
        if there:
            # A yard that is gone is left out; the next one leads.
            letter = letter_of(work, there[0], now, manners, there[1:])
    except Exception:
        log.exception("alert %s could not be put into words", there[0].id)
        found.outcomes.update({alert.id: our_error(alert, now) for alert in there})
    else:
        if letter is None:
            gone = list(told)
        else:
            found.messages.append(Message(letter, tuple(there)))
    for alert in gone:
        found.outcomes[alert.id] = Outcome("dead", detail="chat silent or yard gone")
