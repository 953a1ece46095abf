"""Tasks that may be given up before they end."""

from __future__ import annotations

import asyncio
from typing import Any


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
