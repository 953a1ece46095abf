"""Asking the chat platform whose token this is, and how it hands updates over."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from telegram.error import InvalidToken, TelegramError

from bot.telegram_link import is_refusal_of_token, make_bot


class TokenUnknown(Exception):
    """Raised when the platform does not know the token."""


class PlatformTrouble(Exception):
    """Raised when the platform gives no usable answer; says why."""


@dataclass(frozen=True, slots=True)
class KnownBot:
    """A bot as the platform knows it.

    `brings_to` is where it brings updates, empty where it is asked for them; `waiting` counts those
    not handed over; `trouble` is why one could not be brought, last `trouble_at` (UTC).
    """

    name: str
    brings_to: str = ""
    waiting: int = 0
    trouble: str | None = None
    trouble_at: datetime | None = None


async def known_bot(token: str, platform_url: str, timeout_s: float) -> KnownBot:
    """Return the bot that a token belongs to.

    Raises
    ------
    TokenUnknown
        If it belongs to none.
    PlatformTrouble
        If there is no answer.
    """
    bot = make_bot(token, platform_url, timeout_s)
    try:
        await bot.initialize()
        hook = await bot.get_webhook_info()
    except TelegramError as error:
        if is_refusal_of_token(error):
            raise TokenUnknown from None
        # A refused token is named in the library's message.
        told = error.__cause__ if isinstance(error, InvalidToken) else error
        raise PlatformTrouble(str(told)) from None
    else:
        return KnownBot(
            bot.username,
            hook.url,
            hook.pending_update_count,
            hook.last_error_message,
            hook.last_error_date,
        )
    finally:
        await bot.shutdown()
