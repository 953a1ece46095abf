"""The outbox at work: claim, note the call, send, note the outcome.

Letters leave as fast as the messenger has room for them. Meanwhile the next are claimed, so that
nobody waits for the database; what is noted is noted for several at a time. What becomes of a try
stands in `jobs.outcomes`.
"""

from __future__ import annotations

import logging
import queue
import time
from collections import deque
from collections.abc import Callable, Iterable, Sequence
from concurrent.futures import Future
from datetime import datetime
from typing import Final

from sqlalchemy.exc import SQLAlchemyError

from jobs.digests import Manners
from jobs.letters_due import Message, plan
from jobs.messenger import (
    ChatMoved,
    DeliveryTrouble,
    MayHaveArrived,
    Messenger,
    NobodyThere,
    SwiftMessenger,
)
from jobs.outcomes import outcome_of
from storage import chats, outbox
from storage.alerts import AlertRecord
from storage.database import Database, Work, may_pass
from storage.outbox import Outcome

log = logging.getLogger(__name__)

#: Chats whose letters are claimed at once: by a messenger that sends one at a time, and by a swift
#: one. Fewer than that ready, the next are claimed.
_SLOW_BATCH: Final = 8
_SWIFT_BATCH: Final = 16
#: Calls are begun, and outcomes noted, this often [s].
_BEAT_S: Final = 0.2
#: Where the messenger has had no room for so long, what was claimed is given back [s].
_NO_ROOM_FOR_S: Final = 5.0
#: A call that has not ended by now is given up [s].
_CALL_TIMEOUT_S: Final = 90.0
#: Told to stop, calls under way get this long to end [s].
_FINISH_WITHIN_S: Final = 4.0

#: A message under way: when its call began, by the monotonic clock [s].
_UnderWay = dict[Future[None], tuple[Message, float]]
_Ended = list[tuple[Message, BaseException | None]]


def deliver_due(
    db: Database,
    messenger: Messenger,
    now: datetime,
    *,
    owner: str,
    manners: Manners | None = None,
    clock: Callable[[], datetime] | None = None,
    is_stopping: Callable[[], bool] = lambda: False,
) -> int:
    """Send every alert that is due; return how many messages were sent.

    With manners people's wishes are kept, what is no longer true is not sent, and alerts of several
    yards of one chat go together; without, each alert goes as it is, at once.

    Parameters
    ----------
    now
        What is due is due at this instant, unless a clock goes on meanwhile.
    owner
        This process.
    clock
        Tells the time while sending takes long; without, it stands still.
    is_stopping
        Asked often: where it says so, nothing more is begun.
    """
    return _Round(db, messenger, clock or (lambda: now), owner, manners, is_stopping).run()


def next_due_at(db: Database) -> datetime | None:
    """Return when the outbox next wants attention."""
    with db.reading() as work:
        return outbox.next_due_at(work)


class _Round:
    """One emptying of the outbox."""

    def __init__(
        self,
        db: Database,
        messenger: Messenger,
        clock: Callable[[], datetime],
        owner: str,
        manners: Manners | None,
        is_stopping: Callable[[], bool],
    ) -> None:
        self._db = db
        self._messenger = messenger
        self._swift = messenger if isinstance(messenger, SwiftMessenger) else None
        self._clock = clock
        self._owner = owner
        self._manners = manners
        self._is_stopping = is_stopping
        self._batch = _SLOW_BATCH if self._swift is None else _SWIFT_BATCH
        self._ready: deque[Message] = deque()
        self._under_way: _UnderWay = {}
        self._ended: _Ended = []
        self._done: queue.SimpleQueue[Future[None]] = queue.SimpleQueue()
        self._may_find_more = True
        self._went_on_s = time.monotonic()
        self._sent = 0

    def run(self) -> int:
        """Send until nothing is due, or nothing can go now."""
        while not self._is_stopping():
            if self._may_find_more and len(self._ready) < self._batch:
                try:
                    self._claim()
                except SQLAlchemyError as trouble:
                    if not (self._ended or self._under_way or self._ready):
                        raise
                    self._wait_for_database(trouble)
            self._begin(self._next())
            if not self._under_way and not self._ended:
                if not self._ready and not self._may_find_more:
                    return self._sent
                if time.monotonic() - self._went_on_s > _NO_ROOM_FOR_S:
                    break
                if self._ready:
                    time.sleep(_BEAT_S / 4)
            self._gather(_BEAT_S)
        self._stop()
        return self._sent

    def _claim(self) -> None:
        now = self._clock()
        busy = {message.chat_id for message in self._ready}
        busy |= {message.chat_id for message, _ in self._under_way.values()}
        busy |= {message.chat_id for message, _ in self._ended}
        with self._db.reading(of_many=True) as work:
            found = plan(work, now, self._manners, at_most=self._batch, but_of_chats=busy)
        if found.is_empty:
            self._may_find_more = False
            return
        with self._db.writing() as work:
            outbox.withdraw(work, found.withdrawn)
            outbox.put_off(work, found.put_off)
            outbox.release(work, found.released)
            outbox.settle(work, found.outcomes, now)
            ids = [message.ids for message in found.messages]
            ours = outbox.claim(work, ids, owner=self._owner, now=now)
            taken = [each for each in found.messages if ours.issuperset(each.ids)]
            whole = {alert_id for message in taken for alert_id in message.ids}
            # A rival has a part of the message: the rest is sorted out afresh.
            outbox.release(work, ours - whole)
        _tell_operator((alert, found.outcomes[alert.id]) for alert in found.doubted)
        self._ready.extend(taken)

    def _next(self) -> list[Message]:
        room = 1 if self._swift is None else self._swift.room()
        return [self._ready.popleft() for _ in range(min(room, len(self._ready)))]

    def _begin(self, messages: Sequence[Message]) -> None:
        """Note what has ended and that these calls begin, then begin them."""
        if not messages and not self._ended:
            return
        now = self._clock()
        outcomes = {
            alert.id: outcome_of(alert, trouble, now)
            for message, trouble in self._ended
            for alert in message.alerts
        }
        try:
            with self._db.writing() as work:
                for message, trouble in self._ended:
                    _note_address(work, message.chat_id, trouble, now)
                outbox.settle(work, outcomes, now)
                ids = [alert_id for message in messages for alert_id in message.ids]
                ours = outbox.call(work, ids, owner=self._owner, now=now) if ids else set()
        except SQLAlchemyError as trouble:
            self._ready.extendleft(reversed(messages))
            self._wait_for_database(trouble)
            return
        _tell_operator(
            (alert, outcomes[alert.id]) for message, _ in self._ended for alert in message.alerts
        )
        self._may_find_more = self._may_find_more or bool(self._ended)
        self._ended = []
        for message in messages:
            self._went_on_s = time.monotonic()
            if ours.issuperset(message.ids):
                self._send(message)

    def _wait_for_database(self, trouble: SQLAlchemyError) -> None:
        """Ask again in a moment: what has been sent must not be forgotten."""
        if not may_pass(trouble):
            raise trouble
        log.warning("the outbox waits for the database")
        time.sleep(_BEAT_S)

    def _send(self, message: Message) -> None:
        future: Future[None]
        try:
            if self._swift is not None:
                future = self._swift.begin(message.letter)
            else:
                future = Future()
                self._messenger.send(message.letter)
                future.set_result(None)
        except Exception as trouble:
            if not isinstance(trouble, DeliveryTrouble):
                log.exception("alert %s could not be put into words or sent", message.ids[0])
            future = Future()
            future.set_exception(trouble)
        self._under_way[future] = (message, time.monotonic())
        future.add_done_callback(self._done.put)

    def _gather(self, seconds: float) -> None:
        """Take up what has ended, for so long where anything is under way."""
        until_s = time.monotonic() + seconds
        while self._under_way:
            left_s = until_s - time.monotonic()
            if self._swift is None:
                left_s = 0.0
            try:
                future = self._done.get(timeout=max(0.0, left_s))
            except queue.Empty:
                break
            self._take_up(future)
        for future, (_, began_s) in list(self._under_way.items()):
            if time.monotonic() - began_s > _CALL_TIMEOUT_S:
                future.cancel()
                message, _ = self._under_way.pop(future)
                self._ended.append((message, MayHaveArrived("no answer in time")))

    def _take_up(self, future: Future[None]) -> None:
        found = self._under_way.pop(future, None)
        if found is None:
            # Given up before.
            return
        trouble = MayHaveArrived("given up") if future.cancelled() else future.exception()
        if trouble is None:
            self._sent += 1
        elif not isinstance(trouble, DeliveryTrouble):
            log.error("alert %s was not sent", found[0].ids[0], exc_info=trouble)
        self._ended.append((found[0], trouble))

    def _stop(self) -> None:
        """Give back what was claimed, and let what is under way end."""
        given_back = [alert_id for message in self._ready for alert_id in message.ids]
        self._ready.clear()
        self._gather(_FINISH_WITHIN_S)
        for future in list(self._under_way):
            future.cancel()
            message, _ = self._under_way.pop(future)
            self._ended.append((message, MayHaveArrived("stopped before its answer")))
        self._begin(())
        if given_back:
            with self._db.writing() as work:
                outbox.release(work, given_back)


def _note_address(work: Work, chat_id: int, trouble: BaseException | None, now: datetime) -> None:
    match trouble:
        case NobodyThere():
            chats.silence(work, chat_id, now)
        case ChatMoved():
            chats.move(work, chat_id, trouble.new_address)


def _tell_operator(settled: Iterable[tuple[AlertRecord, Outcome]]) -> None:
    """Log what whoever runs the bot may want to act on."""
    for alert, outcome in settled:
        match outcome.word:
            case "repeat":
                log.warning(
                    "alert %s (%s) may not have arrived and is sent once more, marked: %s",
                    alert.id,
                    alert.kind,
                    outcome.detail,
                )
            case "uncertain":
                log.error(
                    "alert %s (%s) and its repeat may not have arrived: %s",
                    alert.id,
                    alert.kind,
                    outcome.detail,
                )
            case "dead" if outcome.detail == "our error":
                log.error("alert %s (%s) cannot be sent: see above", alert.id, alert.kind)
