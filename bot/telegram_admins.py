"""Trouble told to whoever runs the bot: what the log holds, sparingly, in their own chats."""

from __future__ import annotations

import asyncio
import logging
import time
from collections.abc import Iterable
from typing import Final

from bot.logs import DiscreetFormatter
from bot.saying.catalogue import say
from bot.telegram_send import Sender, To
from bot.turn import Reply

#: The same trouble is told again after this, and no more than so many messages within it [s].
_ONCE_WITHIN_S: Final = 3600.0
_MOST_WITHIN: Final = 6
_LONGEST: Final = 600

#: Warnings of these are told; of everything else only errors. What goes wrong on the way to the
#: chat platform is left out: it would have to take that very way.
_WARNED_OF: Final = ("jobs.watch", "jobs.weather_in")
_LEFT_OUT: Final = ("bot.telegram", "telegram", "aiohttp")


class AdminNotes(logging.Handler):
    """A log handler that writes to admins' chats without holding anything up.

    Parameters
    ----------
    sender
        What carries replies.
    loop
        The loop it runs on.
    admin_ids
        Chats to tell.
    secrets
        What must never be written.
    """

    def __init__(
        self,
        sender: Sender,
        loop: asyncio.AbstractEventLoop,
        admin_ids: Iterable[int],
        secrets: Iterable[str],
    ) -> None:
        super().__init__(logging.WARNING)
        self._sender = sender
        self._loop = loop
        self._admin_ids = tuple(admin_ids)
        self._told: dict[str, float] = {}
        self.setFormatter(DiscreetFormatter(secrets))

    def emit(self, record: logging.LogRecord) -> None:
        """Tell of a record, if it is worth it and has not been told lately."""
        if record.levelno < self.level or record.name.startswith(_LEFT_OUT):
            return
        if record.levelno < logging.ERROR and not record.name.startswith(_WARNED_OF):
            return
        now = time.monotonic()
        self._told = {what: at for what, at in self._told.items() if now - at < _ONCE_WITHIN_S}
        what = f"{record.name}:{record.msg}"
        if what in self._told or len(self._told) >= _MOST_WITHIN or self._loop.is_closed():
            return
        self._told[what] = now
        text = say("telegram.trouble", line=self.format(record).splitlines()[0][:_LONGEST])
        for admin in self._admin_ids:
            answer = self._sender.answer(To(str(admin)), Reply(text))
            asyncio.run_coroutine_threadsafe(answer, self._loop)
