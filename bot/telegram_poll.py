"""Polling: opens the line, however long that takes, and fetches updates until told to stop.

The library's own poller confirms updates before they are handled; ours gives a batch time to be
seen through first, so that a crash loses nothing: what was not confirmed is delivered again, and
turns know by their key whether they were answered before. Pending updates are never dropped.
"""

from __future__ import annotations

import asyncio
import logging
from collections.abc import Awaitable, Callable, Coroutine
from contextlib import suppress
from datetime import timedelta
from functools import partial
from typing import Any, Final, TypeVar

from telegram import BotCommand, Update
from telegram.error import BadRequest, RetryAfter, TelegramError

from bot.saying.catalogue import languages, say
from bot.talk.commands import COMMANDS
from bot.telegram_link import Bot, LineReport, is_refusal_of_token, trouble_of
from jobs.messenger import TryLater

log = logging.getLogger(__name__)

T = TypeVar("T")

#: Pauses after failures double from the first to the longest [s].
_FIRST_PAUSE_S: Final = 0.5
_LONGEST_PAUSE_S: Final = 30.0
#: Replies that take longer than this to send do not hold up the next poll [s], and turns that
#: take longer than this to be kept do not either [s].
_WAIT_FOR_REPLIES_S: Final = 0.5
_WAIT_FOR_TURNS_S: Final = 5.0
#: On stopping, replies under way get this long [s].
_FINISH_WITHIN_S: Final = 8.0


#: Sees an update through, and calls when what it says is kept and only the reply is left.
Take = Callable[[Update, Callable[[], object]], Awaitable[None]]


class TokenRefused(Exception):
    """Raised when the platform does not know the token."""


class Poller:
    """Fetches updates and hands each to ``take``.

    Parameters
    ----------
    bot
        The session.
    line
        Told how the platform fares.
    updates
        Kinds of updates to ask for.
    poll_s
        How long the platform may keep a poll waiting [s].
    """

    def __init__(self, bot: Bot, line: LineReport, updates: tuple[str, ...], poll_s: int) -> None:
        self._bot = bot
        self._line = line
        self._updates = updates
        self._poll_s = poll_s
        self._offset: int | None = None
        self._running: set[asyncio.Task[None]] = set()

    async def run(self, take: Take, stop: asyncio.Event) -> None:
        """Fetch until ``stop`` is set, then let what is under way finish."""
        await persist(
            lambda: self._bot.delete_webhook(drop_pending_updates=False), self._line, stop
        )
        menu = asyncio.create_task(self._set_menu(stop))
        while not stop.is_set():
            updates = await persist(self._poll, self._line, stop)
            await self._hand_over(updates or (), take)
        menu.cancel()
        await self._finish()

    async def _poll(self) -> tuple[Update, ...]:
        return await self._bot.get_updates(
            offset=self._offset,
            timeout=timedelta(seconds=self._poll_s),
            allowed_updates=self._updates,
        )

    async def _hand_over(
        self,
        updates: tuple[Update, ...],
        take: Take,
    ) -> None:
        if not updates:
            return

        kept = [asyncio.Event() for _ in updates]

        async def see_through(update: Update, kept: asyncio.Event) -> None:
            try:
                await take(update, kept.set)
            finally:
                kept.set()

        batch = [
            asyncio.create_task(see_through(*pair)) for pair in zip(updates, kept, strict=True)
        ]
        self._running.update(batch)
        for task in batch:
            task.add_done_callback(self._running.discard)
        await asyncio.wait(batch, timeout=_WAIT_FOR_REPLIES_S)
        with suppress(TimeoutError):
            await asyncio.wait_for(_all(kept), _WAIT_FOR_TURNS_S)
        self._offset = updates[-1].update_id + 1

    async def _finish(self) -> None:
        if self._running:
            _, late = await asyncio.wait(self._running, timeout=_FINISH_WITHIN_S)
            for task in late:
                task.cancel()
        if self._offset is None:
            return
        try:
            # Confirms the last batch.
            await self._bot.get_updates(offset=self._offset, timeout=0, limit=1)
        except TelegramError as error:
            log.info("the last updates stay unconfirmed: %s", error)

    async def _set_menu(self, stop: asyncio.Event) -> None:
        """Put the commands into the platform's menu, in every language there is."""
        for lang in languages():
            commands = [
                BotCommand(command.word, say(f"commands.{command.word}", lang))
                for command in COMMANDS
            ]
            code = None if lang == "en" else lang
            await persist(partial(self._offer, commands, code), self._line, stop)

    async def _offer(self, commands: list[BotCommand], code: str | None) -> None:
        try:
            await self._bot.set_my_commands(commands, language_code=code)
        except BadRequest as error:
            # Commands can be typed without a menu; asking again would change nothing.
            log.warning("the menu of commands was refused: %s", error)


async def open_line(bot: Bot, line: LineReport, stop: asyncio.Event) -> None:
    """Make sure of the token and learn the bot's name, however long the platform is down.

    Raises
    ------
    TokenRefused
        If the platform does not know the token.
    """
    await persist(bot.initialize, line, stop, is_first=True)


async def persist(
    call: Callable[[], Coroutine[Any, Any, T]],
    line: LineReport,
    stop: asyncio.Event,
    *,
    is_first: bool = False,
) -> T | None:
    """Call until it works, with growing pauses; return None when told to stop first.

    Raises
    ------
    TokenRefused
        On the first call to the platform, if it does not know the token.
    """
    pause_s, failures = _FIRST_PAUSE_S, 0
    while not stop.is_set():
        try:
            answer = await _unless(stop, call())
        except TelegramError as error:
            if is_first and is_refusal_of_token(error):
                raise TokenRefused from None
            wait_s, pause_s = pause_s, min(2 * pause_s, _LONGEST_PAUSE_S)
            trouble = trouble_of(error, timedelta(seconds=wait_s))
            if isinstance(error, RetryAfter) and isinstance(trouble, TryLater):
                wait_s = trouble.after.total_seconds()
            failures += 1
            if failures > 1:
                # One failure alone is no news.
                line.down(error)
            await _unless(stop, asyncio.sleep(wait_s))
        else:
            line.up()
            return answer
    return None


async def _all(events: list[asyncio.Event]) -> None:
    for event in events:
        await event.wait()


async def _unless(stop: asyncio.Event, doing: Coroutine[Any, Any, T]) -> T | None:
    """Await something, or give it up when told to stop."""
    task = asyncio.ensure_future(doing)
    stopping = asyncio.create_task(stop.wait())
    try:
        await asyncio.wait((task, stopping), return_when=asyncio.FIRST_COMPLETED)
        if task.done():
            return task.result()
        task.cancel()
        return None
    finally:
        stopping.cancel()
