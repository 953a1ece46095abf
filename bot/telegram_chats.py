"""What the platform tells about chats themselves: gone silent, moved, and who runs a group."""

from __future__ import annotations

import asyncio
import logging
import time
from collections.abc import Callable
from datetime import datetime
from typing import Final

from telegram import Message
from telegram.error import TelegramError

from bot.telegram_link import PLATFORM, Bot
from storage import chats, crews
from storage.database import Database

log = logging.getLogger(__name__)

#: Who runs a group is asked again after so long, and no answer waited for longer than that [s].
_KNOWN_FOR_S: Final = 300.0
_ASK_WITHIN_S: Final = 3.0


class Addresses:
    """What the platform tells about chats themselves: gone silent, or moved.

    Parameters
    ----------
    db
        The database.
    clock
        Tells the time.
    """

    def __init__(self, db: Database, clock: Callable[[], datetime]) -> None:
        self._db = db
        self._clock = clock

    def silence(self, address: str) -> None:
        """Mark a chat that cannot be reached; it speaks again when somebody does.

        What a group shared ends with it: its people have gone their ways, and whoever takes the bot
        into it again is somebody else.
        """
        ended = 0
        with self._db.writing() as work:
            chat = chats.find_chat(work, PLATFORM, address)
            if chat is not None:
                chats.silence(work, chat.id, self._clock())
                # Groups have negative numbers there.
                if address.startswith("-"):
                    ended = crews.end_of_chat(work, chat.id, self._clock())
        log.info("chat %s is silent; shares that ended with it: %d", address, ended)

    def move(self, address: str, new_address: str) -> None:
        """Give a chat its new address."""
        with self._db.writing() as work:
            chat = chats.find_chat(work, PLATFORM, address)
            if chat is not None:
                chats.move(work, chat.id, new_address)
        log.info("chat %s moved to %s", address, new_address)


class GroupAdmins:
    """Who runs a group; where the platform does not tell, nobody is taken for an admin.

    Parameters
    ----------
    bot
        The session.
    """

    def __init__(self, bot: Bot) -> None:
        self._bot = bot
        self._known: dict[int, tuple[float, frozenset[int]]] = {}

    async def has(self, chat_id: int, person: int, message: Message | None) -> bool:
        """Tell whether somebody runs a group; who writes in the group's own name does.

        Parameters
        ----------
        message
            What they wrote, where it is their own.
        """
        sender = None if message is None else message.sender_chat
        if sender is not None and sender.id == chat_id:
            return True
        asked_at_s, admins = self._known.get(chat_id, (-_KNOWN_FOR_S, frozenset()))
        if time.monotonic() - asked_at_s > _KNOWN_FOR_S:
            try:
                async with asyncio.timeout(_ASK_WITHIN_S):
                    found = await self._bot.get_chat_administrators(chat_id)
            except (TelegramError, TimeoutError) as error:
                log.warning("who runs a group could not be asked: %s", type(error).__name__)
                return False
            admins = frozenset(each.user.id for each in found)
            self._known[chat_id] = (time.monotonic(), admins)
        return person in admins
