"""The `soilbell` command, altered from outside; nothing in the program knows of it.

    SOILBELL_KILL_AT="turn kept:2" python -m tests.service.altered run

It is killed without a warning the nth time it comes to a named point: the points are functions, and
what is called there is wrapped. SOILBELL_SHORTER='{"bot.ticking._RENEW_EVERY": 1}' shortens what it
waits for [s], and SOILBELL_WEATHER_TROUBLE=3 has one call in three for invented weather go wrong.
"""

from __future__ import annotations

import importlib
import json
import logging
import os
import random
import signal
import sys
import time
from collections.abc import Callable, Mapping, Sequence
from datetime import datetime, timedelta
from typing import Any, Final

from bot import cli, conversation, telegram, telegram_send
from jobs.sources.base import (
    AnswerUnusable,
    Cell,
    CellRequest,
    CellWeather,
    QuotaSpent,
    SourceTrouble,
    SourceUnreachable,
)
from jobs.sources.simulated import SimulatedSource
from storage import chats, outbox, seasons

log = logging.getLogger("altered")

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

WEATHER_FAULTS: Final = ("away", "slow", "wrong", "quota spent")
_HANGS_S: Final = 10.0


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


def _trouble_weather(share: int) -> None:
    """Let one call in so many for the invented weather find it away, slow, wrong or spent.

    Each says so in the log, by which whoever started the program may count them.
    """
    draw, usual = random.Random(share), SimulatedSource.fetch

    def fetch(
        source: SimulatedSource, requests: Sequence[CellRequest], now: datetime
    ) -> Mapping[Cell, CellWeather | SourceTrouble]:
        if draw.randrange(share):
            return usual(source, requests, now)
        fault = draw.choice(WEATHER_FAULTS)
        log.warning("weather fault: %s", fault)
        if fault == "slow":
            # As long as a source that hangs behind its headers is waited for, and then nothing.
            time.sleep(_HANGS_S)
        # Of a wrong answer some cells can be read all the same.
        wrong = requests[::2] if fault == "wrong" else requests
        found = dict(usual(source, requests[1::2], now)) if fault == "wrong" else {}
        return found | {each.cell: _failure(each.cell, fault) for each in wrong}

    SimulatedSource.fetch = fetch  # type: ignore[method-assign,assignment]


def _failure(cell: Cell, fault: str) -> SourceTrouble:
    where = f"invented trouble at {cell.lat:.2f}"
    if fault == "quota spent":
        return QuotaSpent(where, retry_after_s=3600)
    return (AnswerUnusable if fault == "wrong" else SourceUnreachable)(where)


if __name__ == "__main__":
    weather = int(os.environ.pop("SOILBELL_WEATHER_TROUBLE", "0"))
    if weather:
        _trouble_weather(weather)
    _shorten(json.loads(os.environ.pop("SOILBELL_SHORTER", "{}")))
    point, _, number = os.environ.pop("SOILBELL_KILL_AT", "").partition(":")
    if point in POINTS:
        owner, name, after = POINTS[point]
        setattr(owner, name, _wrapped(getattr(owner, name), int(number), is_after=after))
    sys.exit(cli.main(sys.argv[1:]))
