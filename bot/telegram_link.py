"""The line to the chat platform: one session, what its errors mean, and whether it is up.

Errors of python-telegram-bot become those of `jobs.messenger`. Only what surely did not arrive is
simply sent again: no connection was made, or the platform itself says that it was not done. Its
documentation says (core.telegram.org/bots/api, "Making requests") that every answer is JSON, whose
`ok` is false where the request was unsuccessful. A page that is no such JSON comes from something
in between, which may have handed the request on (RFC 9110, 15.6): 502 and 504 say nothing about
what became of it, 503 that it was not taken. Whatever may have arrived stays uncertain.
"""

from __future__ import annotations

import logging
import math
import os
import time
from collections.abc import Callable, Sequence
from contextvars import ContextVar
from datetime import timedelta
from typing import Any, Final

# The library is on its way from seconds to durations; we are there already.
os.environ.setdefault("PTB_TIMEDELTA", "true")

from telegram import Update
from telegram.error import (
    BadRequest,
    ChatMigrated,
    Conflict,
    Forbidden,
    InvalidToken,
    NetworkError,
    RetryAfter,
    TelegramError,
)
from telegram.ext import ExtBot

from bot.telegram_pace import Pacer
from bot.telegram_wires import NEVER_LEFT, Wires, certificates
from jobs.messenger import ChatMoved, DeliveryTrouble, MayHaveArrived, NobodyThere, TryLater

log = logging.getLogger(__name__)

PLATFORM: Final = "telegram"

#: A token that is refused is not accepted a minute later either.
_REFUSED_PAUSE: Final = timedelta(minutes=10)

#: What the platform says, among bad requests, of chats in which nobody can be reached.
_NOBODY: Final = (
    "chat not found",
    "user not found",
    "group chat was deactivated",
    "not enough rights to send",
    "have no rights to send",
    "chat_write_forbidden",
    "topic_closed",
)


class Departure:
    """Whether a call has been let out: before that, nothing can have arrived."""

    def __init__(self) -> None:
        self.has_begun = False


#: The departure that calls made from here are noted in.
departure_of_calls: ContextVar[Departure | None] = ContextVar("departure", default=None)


class _SendWires(Wires):
    """Notes when a call leaves; it may have waited for its turn until then."""

    async def do_request(self, *args: Any, **kwargs: Any) -> tuple[int, bytes]:
        """Make the call."""
        departure = departure_of_calls.get()
        if departure is not None:
            departure.has_begun = True
        return await super().do_request(*args, **kwargs)


#: How the platform is told to show no link below a message.
_NO_PREVIEW: Final = {"is_disabled": True}


class Bot(ExtBot[int]):
    """A session with the platform, of whose answers no more is read than somebody asks for."""

    async def unread_updates(
        self, offset: int | None, wait_s: float, *, limit: int = 100, kinds: Sequence[str] = ()
    ) -> list[dict[str, Any]]:
        """Ask for updates from a number on; return them as they came.

        Most were handed over before: until they are confirmed the platform gives them again.
        """
        asked = {
            "offset": offset,
            "timeout": wait_s,
            "limit": limit,
            "allowed_updates": kinds or None,
        }
        answer_s = (self._request[0].read_timeout or 0) + wait_s
        found: list[dict[str, Any]] = await self._post("getUpdates", asked, read_timeout=answer_s)
        return found

    async def say(self, text: str, **options: Any) -> None:
        """Send words, without links shown below them; options are those of `send_message`."""
        said = {"text": text, "link_preview_options": _NO_PREVIEW, **options}
        await self._post("sendMessage", said)


def read_update(told: dict[str, Any], bot: Bot | None) -> Update:
    """Read an update; of one that cannot be read only its number: it must not hold up the rest."""
    try:
        return Update.de_json(told, bot)
    except Exception as problem:  # whatever a changed platform makes the library trip over
        log.warning("update %s cannot be read: %s", told.get("update_id"), type(problem).__name__)
        return Update(told["update_id"])


#: On a busy machine a connection takes its time [s].
_CONNECT_S: Final = 10.0


def make_bot(token: str, platform_url: str, timeout_s: float, pacer: Pacer | None = None) -> Bot:
    """Return a session with the platform; nothing is sent yet.

    Parameters
    ----------
    token
        The bot's token.
    platform_url
        Base of the API, ending in ``/bot``; files are served beside it.
    timeout_s
        How long to wait for a write and an answer, each; for a connection 10 s at least [s].
    pacer
        Keeps the platform's pace; without, calls leave at once.
    """
    # The certificates are read once.
    connect_s, context = max(timeout_s, _CONNECT_S), certificates()
    return Bot(
        token,
        base_url=platform_url,
        base_file_url=f"{platform_url.removesuffix('/bot')}/file/bot",
        request=_SendWires(platform_url, 64, connect_s, timeout_s, context),
        get_updates_request=Wires(platform_url, 1, connect_s, timeout_s, context),
        rate_limiter=pacer,
    )


def bare_bot(token: str, platform_url: str) -> ExtBot[Any]:
    """Return a session as the library has it, to be measured against."""
    return ExtBot(token, base_url=platform_url)


def trouble_of(error: TelegramError, pause: timedelta) -> DeliveryTrouble | None:
    """Return what an error means for the message that was being sent.

    Parameters
    ----------
    error
        As the library raised it.
    pause
        When to try again where the platform was not reached.

    Returns
    -------
    DeliveryTrouble or None
        None for a request that was refused as wrong, which is our own mistake.
    """
    match error:
        case RetryAfter():
            wait = error.retry_after
            after = wait if isinstance(wait, timedelta) else timedelta(seconds=wait)
            return TryLater("told to wait", after)
        case ChatMigrated():
            return ChatMoved(str(error.new_chat_id))
        case Forbidden():
            return NobodyThere(str(error))
        case InvalidToken():
            return TryLater("the token was refused", _REFUSED_PAUSE)
        case BadRequest():
            is_nobody = any(words in str(error).lower() for words in _NOBODY)
            return NobodyThere(str(error)) if is_nobody else None
        case NetworkError() if never_left(error):
            return TryLater(f"not reached: {type(error.__cause__).__name__}", pause)
        case NetworkError() if str(error).startswith(("Too Many Requests", "Service Unavailable")):
            return TryLater("told to wait", pause)
        case NetworkError() if type(error) is NetworkError and error.__cause__ is None:
            # It answered in its own form that it was not done.
            return TryLater(f"refused: {error}", pause)
    # Of an answer that is some page, the library quotes all.
    told = str(error).partition(". Parsing")[0]
    return MayHaveArrived(f"{type(error).__name__}: {told}")


def never_left(error: TelegramError) -> bool:
    """Tell whether no connection was made, so that nothing can have arrived."""
    return isinstance(error.__cause__, NEVER_LEFT)


def is_refusal_of_token(error: TelegramError) -> bool:
    """Tell whether the platform itself, not some page on the way to it, refuses the token."""
    if not isinstance(error, InvalidToken):
        return False
    cause = error.__cause__ if isinstance(error.__cause__, InvalidToken) else error
    return cause.__cause__ is None


#: So soon after it is back, another failure is no news [s].
_HARDLY_BACK_S: Final = 10.0


class LineReport:
    """Tells the log once when the platform is out of reach, and once when it is back.

    Parameters
    ----------
    note
        Where it is written.
    """

    def __init__(self, note: Callable[[str], object] = log.warning) -> None:
        self._note = note
        self._is_down = False
        self._back_at_s = -math.inf

    def failed(self, error: TelegramError) -> None:
        """Hear of a failed call: where it never left, that says something about the line."""
        if never_left(error):
            self.down(error)

    def down(self, error: TelegramError) -> None:
        """Hear of a failure that says something about the line."""
        # What fails now was mostly begun before it was back.
        is_hardly_back = time.monotonic() - self._back_at_s < _HARDLY_BACK_S
        if not self._is_down and not is_hardly_back:
            self._is_down = True
            reason = str(error)
            if isinstance(error, Conflict):
                reason = "another program is polling with this token, and only one can; stop it"
            elif isinstance(error, InvalidToken):
                reason = "it does not accept the token at the moment"
            self._note(f"The chat platform cannot be used for now; I keep trying. ({reason})")

    def up(self) -> None:
        """Hear of a success."""
        if self._is_down:
            self._is_down = False
            self._back_at_s = time.monotonic()
            self._note("The chat platform is back.")
