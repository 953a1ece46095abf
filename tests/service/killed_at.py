"""The `soilbell` command, killed without a warning the nth time it comes to a named point.

    SOILBELL_KILL_AT="turn kept:2" python -m tests.service.killed_at run

Nothing in the program knows of it: the points are functions, and what is called there is wrapped.
What it waits for can be shortened: SOILBELL_SHORTER='{"bot.ticking._RENEW_EVERY": 1}' [s].
"""

from __future__ import annotations

import importlib
import json
import os
import signal
import sys
from collections.abc import Callable
from datetime import timedelta
from typing import Any, Final

from bot import cli, conversation, telegram, telegram_send
from storage import chats, outbox, seasons

#: Points by name: the owner of a function, its name, and whether death comes after it.
POINTS: Final[dict[str, tuple[Any, str, bool]]] = {
    "turn begun": (conversation.Conversation, "_answered", False),
    "turn written": (chats, "record_turn", True),
    "turn kept": (conversation.Conversation, "answer", True),
    "reply sent": (telegram_send.Sender, "answer", True),
    "update taken": (telegram.Front, "take", False),
    "season written": (seasons, "note_event", True),
    "alert claimed": (outbox, "claim", True),
    "attempt noted": (outbox, "call", True),
    "letters sent": (telegram_send.TelegramMessenger, "send", True),
    "outcome known": (outbox, "settle", False),
}


def _die() -> None:
    os.kill(os.getpid(), signal.SIGKILL)


def _wrapped(function: Callable[..., Any], nth: int, *, is_after: bool) -> Callable[..., Any]:
    calls = 0

    def counted() -> bool:
        nonlocal calls
        calls += 1
        return calls == nth

    async def later(coming: Any) -> Any:
        found = await coming
        _die()
        return found

    def wrapped(*arguments: Any, **named: Any) -> Any:
        is_now = counted()
        if is_now and not is_after:
            _die()
        found = function(*arguments, **named)
        if is_now and hasattr(found, "__await__"):
            return later(found)
        if is_now:
            _die()
        return found

    return wrapped


def _shorten(constants: dict[str, float]) -> None:
    for name, seconds in constants.items():
        module, _, constant = name.rpartition(".")
        owner = importlib.import_module(module)
        usual = getattr(owner, constant)
        new = timedelta(seconds=seconds) if isinstance(usual, timedelta) else seconds
        assert new < usual
        setattr(owner, constant, new)


if __name__ == "__main__":
    _shorten(json.loads(os.environ.pop("SOILBELL_SHORTER", "{}")))
    point, _, number = os.environ.pop("SOILBELL_KILL_AT", "").partition(":")
    if point in POINTS:
        owner, name, after = POINTS[point]
        setattr(owner, name, _wrapped(getattr(owner, name), int(number), is_after=after))
    sys.exit(cli.main(sys.argv[1:]))
