"""Polling: opens the line, however long that takes, and fetches updates until told to stop.

The library's own poller confirms updates before they are handled; ours confirms each when it is
kept, so that a crash loses nothing: what was not confirmed is delivered again, and turns know by
their key whether they were answered before. Pending updates are never dropped.
"""

from __future__ import annotations

import asyncio
import logging
import random
import time
from collections.abc import Awaitable, Callable, Coroutine, Sequence
from contextlib import suppress
from datetime import timedelta
from functools import partial
from typing import Any, Final, TypeVar

from telegram import BotCommand, Update
from telegram.error import BadRequest, Conflict, RetryAfter, TelegramError
from telegram.ext import ExtBot

from bot.saying.catalogue import languages, say
from bot.saying.voice import speaking
from bot.talk.commands import COMMANDS
from bot.tasks import unheard
from bot.telegram_link import Bot, LineReport, is_refusal_of_token, read_update, trouble_of
from jobs.messenger import TryLater

log = logging.getLogger(__name__)

T = TypeVar("T")

#: Pauses after failures double from the first to the longest [s].
_FIRST_PAUSE_S: Final = 0.5
_LONGEST_PAUSE_S: Final = 30.0
#: What is kept is confirmed once it is answered, or so much later: until then a crash has it given
#: again, and answered [s].
_CONFIRM_AFTER_S: Final = 0.5
#: While replies are under way, and while something said cannot be kept, the platform is asked for
#: more so often [s].
_WAIT_FOR_REPLIES_S: Final = 0.1
_WAIT_FOR_TURNS_S: Final = 1.0
#: On stopping, turns and replies under way get this long, and then the last confirmation [s].
_FINISH_WITHIN_S: Final = 4.5
_CONFIRM_WITHIN_S: Final = 1.5
#: Of two programs that poll, the one that came so lately stops after so many conflicts [s].
_TRIAL_S: Final = 20.0
_MOST_CONFLICTS: Final = (3, 5)
_CONFLICT_PAUSE_S: Final = 0.5

_NEVER: Final = float("inf")

#: Sees an update through, and calls when what it says is kept and only the reply is left.
Take = Callable[[Update, Callable[[], object]], Awaitable[None]]


class TokenRefused(Exception):
    """Raised when the platform does not know the token."""


class AnotherPolls(Exception):
    """Raised when another program polls with this token, and was there first."""


class Poller:
    """Fetches updates and hands each to ``take``.

    Updates are confirmed in their order, each once all it says is kept. Until then the platform
    gives them again; what is under way is not taken twice.

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
        #: Of updates not confirmed yet, from when on each may be; never, as long as it is not kept.
        self._may_confirm_s: dict[int, float] = {}
        self._news = asyncio.Event()
        self._polls_since_s = 0.0
        self._conflicts = 0
        # Two that came at the same moment do not both stop.
        self._most_conflicts = random.randint(*_MOST_CONFLICTS)

    async def run(self, take: Take, stop: asyncio.Event) -> None:
        """Fetch until ``stop`` is set, then let what is under way finish.

        Raises
        ------
        AnotherPolls
            If another program was there first.
        """
        await persist(
            lambda: self._bot.delete_webhook(drop_pending_updates=False), self._line, stop
        )
        menu = asyncio.create_task(offer_menu(self._bot, self._line, stop))
        self._polls_since_s = time.monotonic()
        try:
            while not stop.is_set():
                updates = await persist(self._poll, self._line, stop)
                await self._hand_over(updates or (), take)
        finally:
            menu.cancel()

    async def finish(self) -> None:
        """Let what is under way end, and confirm what is kept."""
        if self._running:
            _, late = await asyncio.wait(self._running, timeout=_FINISH_WITHIN_S)
            for task in late:
                task.cancel()
        for number, at_s in self._may_confirm_s.items():
            if at_s < _NEVER:
                self._may_confirm_s[number] = 0.0
        self._move_on()
        if self._offset is None:
            return
        try:
            async with asyncio.timeout(_CONFIRM_WITHIN_S):
                # Confirms the last batch.
                await self._bot.unread_updates(self._offset, 0, limit=1)
        except (TelegramError, TimeoutError) as error:
            log.info("the last updates stay unconfirmed: %s", error)

    async def _poll(self) -> list[dict[str, Any]]:
        while True:
            try:
                return await self._bot.unread_updates(
                    self._offset, self._poll_s, kinds=self._updates
                )
            except Conflict as conflict:
                self._conflicts += 1
                is_new = time.monotonic() - self._polls_since_s < _TRIAL_S
                if is_new and self._conflicts >= self._most_conflicts:
                    raise AnotherPolls from conflict
                if self._conflicts > 1:
                    self._line.down(conflict)
                await asyncio.sleep(_CONFLICT_PAUSE_S)

    async def _hand_over(self, updates: Sequence[dict[str, Any]], take: Take) -> None:
        # What is under way comes again until it is confirmed.
        fresh = [each for each in updates if each["update_id"] not in self._may_confirm_s]
        # Noted before any is begun, else the next poll would be given them all once more.
        self._may_confirm_s |= {each["update_id"]: _NEVER for each in fresh}
        read = [read_update(each, self._bot) for each in fresh]
        batch = [asyncio.create_task(self._see_through(update, take)) for update in read]
        self._running.update(batch)
        for task in batch:
            task.add_done_callback(self._running.discard)
        await self._wait_for_news()
        self._move_on()

    async def _see_through(self, update: Update, take: Take) -> None:
        number = update.update_id

        def kept() -> None:
            self._let_confirm(number, time.monotonic() + _CONFIRM_AFTER_S)

        await take(update, kept)
        if self._may_confirm_s.get(number, _NEVER) < _NEVER:
            self._let_confirm(number, time.monotonic())

    def _let_confirm(self, number: int, from_s: float) -> None:
        if number in self._may_confirm_s:
            self._may_confirm_s[number] = min(from_s, self._may_confirm_s[number])
        self._news.set()

    async def _wait_for_news(self) -> None:
        """Wait until everything may be confirmed, or a little: others may have come meanwhile."""
        began_s = time.monotonic()
        while self._may_confirm_s:
            now_s, last_s = time.monotonic(), max(self._may_confirm_s.values())
            wait_s = _WAIT_FOR_TURNS_S if last_s == _NEVER else _WAIT_FOR_REPLIES_S
            left_s = began_s + wait_s - now_s
            if last_s <= now_s or left_s <= 0:
                return
            self._news.clear()
            with suppress(TimeoutError):
                async with asyncio.timeout(left_s):
                    await self._news.wait()

    def _move_on(self) -> None:
        """Let the next poll confirm what may be, up to the first update that may not."""
        now_s = time.monotonic()
        for number in sorted(self._may_confirm_s):
            if self._may_confirm_s[number] > now_s:
                return
            del self._may_confirm_s[number]
            self._offset = max(self._offset or 0, number + 1)


async def offer_menu(bot: Bot, line: LineReport, stop: asyncio.Event) -> None:
    """Tell the platform what the bot says of itself: its menu and descriptions, by language."""
    for lang in languages():
        with speaking(lang):
            commands = [BotCommand(each.word, say(f"commands.{each.word}")) for each in COMMANDS]
            about, short = say("telegram.description"), say("telegram.short_description")
        code = None if lang == "en" else lang
        for offer in (
            partial(bot.set_my_commands, commands, language_code=code),
            partial(bot.set_my_description, about, language_code=code),
            partial(bot.set_my_short_description, short, language_code=code),
        ):
            await persist(partial(_offer, offer), line, stop)


async def _offer(offer: Callable[[], Awaitable[bool]]) -> None:
    try:
        await offer()
    except BadRequest as error:
        # Everything can be typed without a menu; asking again would change nothing.
        log.warning("the menu or a description was refused: %s", error)


async def open_line(bot: ExtBot[Any], line: LineReport, stop: asyncio.Event) -> None:
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


async def _unless(stop: asyncio.Event, doing: Coroutine[Any, Any, T]) -> T | None:
    """Await something, or give it up when told to stop."""
    task = asyncio.ensure_future(doing)
    unheard(task)
    stopping = asyncio.create_task(stop.wait())
    try:
        await asyncio.wait((task, stopping), return_when=asyncio.FIRST_COMPLETED)
        return task.result() if task.done() else None
    finally:
        stopping.cancel()
        task.cancel()
