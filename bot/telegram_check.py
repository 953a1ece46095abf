"""Asking the chat platform whose token this is."""

from __future__ import annotations

from telegram.error import InvalidToken, TelegramError

from bot.telegram_link import is_refusal_of_token, make_bot


class TokenUnknown(Exception):
    """Raised when the platform does not know the token."""


class PlatformTrouble(Exception):
    """Raised when the platform gives no usable answer; says why."""


async def name_of_bot(token: str, platform_url: str, timeout_s: float) -> str:
    """Return the name of the bot that a token belongs to.

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
    except TelegramError as error:
        if is_refusal_of_token(error):
            raise TokenUnknown from None
        # A refused token is named in the library's message.
        told = error.__cause__ if isinstance(error, InvalidToken) else error
        raise PlatformTrouble(str(told)) from None
    else:
        return bot.username
    finally:
        await bot.shutdown()
