"""Tasks that may be given up before they end, and a thread that a loop lets go first."""

from __future__ import annotations

import asyncio
import threading
from collections.abc import Callable
from concurrent.futures import Future, ThreadPoolExecutor
from typing import Any, Final, TypeVar

T = TypeVar("T")

#: A loop stands aside for so long at a time [s].
_ASIDE_S: Final = 0.02


def unheard(task: asyncio.Future[Any]) -> None:
    """Let a task end unheard: who gave it up asks no more how it ended, and that is no news."""
    task.add_done_callback(_read_outcome)


def unheard_here() -> None:
    """Let the task that runs now end unheard."""
    task = asyncio.current_task()
    if task is not None:
        unheard(task)


def _read_outcome(task: asyncio.Future[Any]) -> None:
    if not task.cancelled():
        task.exception()


class GoesFirst(ThreadPoolExecutor):
    """One thread, for which the loop that gives it work stands aside, a moment at a time.

    Python runs one thread at a time. Two that have much to do take it from each other at every look
    at the database, from one core to the other, which made both a fifth dearer. What takes longer,
    as it waits for others, holds the loop up once and no more.
    """

    def __init__(self, name: str) -> None:
        super().__init__(1, name)
        self._counting = threading.Lock()
        self._left = self._done = 0
        self._none_left = threading.Event()
        self._is_standing_aside = False

    def submit(self, fn: Callable[..., T], /, *args: Any, **kwargs: Any) -> Future[T]:
        """Have something done; to be called on the loop."""
        future = super().submit(fn, *args, **kwargs)
        with self._counting:
            self._left += 1
            self._none_left.clear()
        future.add_done_callback(self._note_done)
        self._stand_aside_soon()
        return future

    def _note_done(self, _: Future[Any]) -> None:
        with self._counting:
            self._left -= 1
            self._done += 1
            if not self._left:
                self._none_left.set()

    def _stand_aside_soon(self) -> None:
        if not self._is_standing_aside:
            self._is_standing_aside = True
            asyncio.get_running_loop().call_soon(self._stand_aside)

    def _stand_aside(self) -> None:
        self._is_standing_aside = False
        done_before = self._done
        self._none_left.wait(_ASIDE_S)
        if self._left and self._done > done_before:
            self._stand_aside_soon()
