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
from collections.abc import Callable
from contextvars import ContextVar
from datetime import timedelta
from typing import Any, Final

# The library is on its way from seconds to durations; we are there already.
os.environ.setdefault("PTB_TIMEDELTA", "true")

import httpx
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
from telegram.request import HTTPXRequest

from bot.telegram_pace import Pacer
from bot.telegram_wires import options as wires
from jobs.messenger import ChatMoved, DeliveryTrouble, MayHaveArrived, NobodyThere, TryLater

log = logging.getLogger(__name__)

PLATFORM: Final = "telegram"

#: A token that is refused is not accepted a minute later either.
_REFUSED_PAUSE: Final = timedelta(minutes=10)

#: Causes of errors after which nothing has left this machine.
_NEVER_LEFT: Final = (httpx.ConnectError, httpx.ConnectTimeout, httpx.PoolTimeout)

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

Bot = ExtBot[int]


class Departure:
    """Whether a call has been let out: before that, nothing can have arrived."""

    def __init__(self) -> None:
        self.has_begun = False


#: The departure that calls made from here are noted in.
departure_of_calls: ContextVar[Departure | None] = ContextVar("departure", default=None)


class _SendRequest(HTTPXRequest):
    """Notes when a call leaves; it may have waited for its turn until then."""

    async def do_request(self, *args: Any, **kwargs: Any) -> tuple[int, bytes]:
        """Make the call."""
        departure = departure_of_calls.get()
        if departure is not None:
            departure.has_begun = True
        return await super().do_request(*args, **kwargs)


class _PollRequest(HTTPXRequest):
    """Reads what was polled update by update: one that cannot be read must not hold up the rest."""

    @staticmethod
    def parse_json_payload(payload: bytes) -> dict[str, Any]:
        """Return the answer with unreadable updates reduced to their numbers."""
        answer = HTTPXRequest.parse_json_payload(payload)
        updates = answer.get("result")
        if isinstance(updates, list):
            answer["result"] = [_readable(update) for update in updates]
        return answer


def _readable(update: dict[str, Any]) -> dict[str, Any]:
    try:
        Update.de_json(dict(update), None)
    except Exception as problem:  # whatever a changed platform makes the library trip over
        log.warning("update %s cannot be read: %s", update.get("update_id"), type(problem).__name__)
        return {"update_id": update["update_id"]}
    return update


#: A connection given up in the moment it is made stays open until garbage is looked for: on a busy
#: machine a short wait for one leaves many of them [s].
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
    context = httpx.create_ssl_context()

    def request(kind: type[HTTPXRequest], connections: int) -> HTTPXRequest:
        return kind(
            connection_pool_size=connections,
            connect_timeout=max(timeout_s, _CONNECT_S),
            read_timeout=timeout_s,
            write_timeout=timeout_s,
            pool_timeout=timeout_s,
            httpx_kwargs=wires(connections, context),
        )

    return ExtBot(
        token,
        base_url=platform_url,
        base_file_url=f"{platform_url.removesuffix('/bot')}/file/bot",
        request=request(_SendRequest, 64),
        get_updates_request=request(_PollRequest, 1),
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
    return isinstance(error.__cause__, _NEVER_LEFT)


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
