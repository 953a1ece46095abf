"""The pinned message of a yard on the chat platform: sent once, then edited.

It stands beside the outbox: whatever becomes of it, no alert is sent again or held up by it. Where
the platform refuses to pin it is edited all the same. Somebody who deletes it gets it once more,
and no more after that.
"""

from __future__ import annotations

import asyncio
import logging
from collections.abc import Callable
from concurrent.futures import CancelledError, Future
from contextlib import suppress
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Final

from telegram import LinkPreviewOptions
from telegram.error import BadRequest, TelegramError

from bot.dialogue.talk import Surroundings
from bot.saying.catalogue import say
from bot.saying.voice import speaking
from bot.tasks import unheard_here
from bot.telegram_link import PLATFORM, Bot, LineReport, never_left
from bot.telegram_pace import is_letter_call
from bot.telling.pinned import card_of
from jobs.schedule import Job
from storage import pins
from storage.database import Database, Work
from storage.pins import PinRecord

log = logging.getLogger(__name__)

#: Looked at this often, so many written at once.
_EVERY: Final = timedelta(seconds=20)
_AT_ONCE: Final = 16
#: What could not be written is tried again after so long; a call gets so long [s].
_AGAIN_AFTER: Final = timedelta(minutes=15)
_TIMEOUT_S: Final = 60.0
#: Sent anew where it was deleted, and that is all.
_MOST_SENT: Final = 2


@dataclass(frozen=True, slots=True)
class _Written:
    """What became of a message: what the platform calls it, or None where it has gone."""

    message_ref: str | None
    was_sent: bool = False


class Pinned:
    """Keeps the pinned messages as their yards stand.

    Parameters
    ----------
    db
        The database.
    around
        Where the conversation runs.
    bot
        The session, which lives on ``loop``.
    line
        Told how the platform fares.
    loop
        The bot's loop.
    is_patient
        Whether each is waited for. A demonstration's clock goes on meanwhile: it would lose days
        to the pace of the platform.
    is_stopping
        Asked often: where it says so, nothing more is begun.
    """

    def __init__(
        self,
        db: Database,
        around: Surroundings,
        bot: Bot,
        line: LineReport,
        loop: asyncio.AbstractEventLoop,
        *,
        is_patient: bool = True,
        is_stopping: Callable[[], bool] = lambda: False,
    ) -> None:
        self._db = db
        self._around = around
        self._bot = bot
        self._line = line
        self._loop = loop
        self._is_patient = is_patient
        self._is_stopping = is_stopping
        self._under_way: list[tuple[PinRecord, str, Future[_Written]]] = []
        self.job = Job("pinned", _EVERY, self.write, self._next_due_at)

    def _next_due_at(self) -> datetime | None:
        if self._is_stopping() or not self._may_go_on():
            return None
        with self._db.reading() as work:
            return pins.next_due_at(work)

    def write(self, now: datetime) -> None:
        """Write every message anew that does not say how its yard stands now."""
        while self._may_go_on() and not self._is_stopping():
            self._settle(now)
            self._begin(now)
            if not self._under_way:
                return

    def _may_go_on(self) -> bool:
        return self._is_patient or all(each.done() for _, _, each in self._under_way)

    def _begin(self, now: datetime) -> None:
        """Begin to write the next messages; what is to stay as it is, is settled at once."""
        while not self._under_way:
            with self._db.reading() as work:
                found = pins.stale(work, now, _AT_ONCE)
                texts = [self._text(work, pin, now) for pin in found]
            if not found:
                return
            for pin, text in zip(found, texts, strict=True):
                if text is not None:
                    writing = asyncio.run_coroutine_threadsafe(
                        _write(self._bot, pin, text), self._loop
                    )
                    self._under_way.append((pin, text, writing))
            with self._db.writing() as work:
                for pin, text in zip(found, texts, strict=True):
                    if text is None:
                        pins.note(work, pin.yard_id, yard_version=pin.yard_version)

    def _settle(self, now: datetime) -> None:
        """Note what became of what is under way."""
        ended = [(pin, text, self._end(writing)) for pin, text, writing in self._under_way]
        self._under_way.clear()
        if ended:
            with self._db.writing() as work:
                for pin, text, written in ended:
                    _note(work, pin, text, written, now)

    def _text(self, work: Work, pin: PinRecord, now: datetime) -> str | None:
        """Return what a message is to say; None where it is to stay as it is."""
        if not pin.is_told or pin.platform != PLATFORM:
            return None
        if pin.message_ref is None and (not pin.is_wanted or pin.times_sent >= _MOST_SENT):
            return None
        with speaking(pin.language, pin.units):
            if not pin.is_wanted:
                return say("pinned.gone", yard=pin.yard_name)
            text = card_of(work, pin.yard_id, self._around, now)
        return None if text in ("", pin.shown) else text

    def _end(self, begun: Future[_Written]) -> _Written | TelegramError:
        """Return what became of a message; an error where it is to be tried again."""
        try:
            written = begun.result(_TIMEOUT_S)
        except TelegramError as error:
            self._line.failed(error)
            return error
        except (TimeoutError, CancelledError):
            begun.cancel()
            return TelegramError("no answer in time")
        self._line.up()
        return written


def _note(
    work: Work, pin: PinRecord, text: str, written: _Written | TelegramError, now: datetime
) -> None:
    match written:
        case TelegramError():
            log.info("the message of a yard was not written: %s", written)
            # It may be there all the same: that counts, so that they do not heap up.
            times = pin.times_sent + (pin.message_ref is None and not never_left(written))
            pins.note(work, pin.yard_id, not_before=now + _AGAIN_AFTER, times_sent=times)
        case _Written(message_ref, was_sent):
            # Deleted, it is sent anew; a yard taken up again gets a message of its own.
            is_there = message_ref is not None and pin.is_wanted
            pins.note(
                work,
                pin.yard_id,
                message_ref=message_ref if is_there else None,
                shown=text if is_there else None,
                times_sent=pin.times_sent + was_sent if pin.is_wanted else 0,
                yard_version=pin.yard_version if is_there or not pin.is_wanted else -1,
            )


async def _write(bot: Bot, pin: PinRecord, text: str) -> _Written:
    """Edit a message, or send and pin it where there is none.

    Raises
    ------
    telegram.error.TelegramError
        If it may not have been done.
    """
    unheard_here()
    is_letter_call.set(True)
    if pin.message_ref is None:
        sent = await bot.send_message(
            chat_id=pin.address,
            text=text,
            disable_notification=True,
            link_preview_options=LinkPreviewOptions(is_disabled=True),
        )
        # Where that is refused, in a group say, it is a message like others, and edited.
        with suppress(TelegramError):
            await bot.pin_chat_message(pin.address, sent.message_id, disable_notification=True)
        return _Written(str(sent.message_id), was_sent=True)
    if not pin.is_wanted and await take_down(bot, pin.address, pin.message_ref):
        return _Written(None)
    try:
        await bot.edit_message_text(text=text, chat_id=pin.address, message_id=int(pin.message_ref))
    except BadRequest as error:
        if "message is not modified" not in str(error).lower():
            return _Written(None)
    return _Written(pin.message_ref)


async def take_down(bot: Bot, address: str, message_ref: str) -> bool:
    """Delete a yard's message; where it is too old for that it is pinned no more.

    Returns
    -------
    bool
        Whether it is gone.
    """
    try:
        return await bot.delete_message(address, int(message_ref))
    except TelegramError:
        with suppress(TelegramError):
            await bot.unpin_chat_message(address, int(message_ref))
        return False
