"""What waits in one chat: updates in a line, and their replies in the same order.

Replies leave at the platform's pace, about one a second in a chat, and updates are confirmed in
their order, a hundred at a time at most: somebody who says very much at once must not have all
others wait for that. Then turns are kept without waiting for the replies before them, and what
comes on top of a long line is refused, which is said once the line has ended.
"""

from __future__ import annotations

import asyncio
from collections.abc import Callable, Coroutine
from typing import Any, Final, TypeAlias

#: Behind so few each reply is sent before the next turn is taken: a crash loses none of them.
_MOST_PATIENT: Final = 5
#: So many may wait in a chat.
MOST_WAITING: Final = 40

Answer: TypeAlias = Callable[[], Coroutine[Any, Any, object]]


class Line:
    """What waits in one chat."""

    def __init__(self) -> None:
        self.turns = asyncio.Lock()
        self._refused: Answer | None = None
        self._waiting = 0
        self._replies = asyncio.Lock()
        self._sending: list[asyncio.Task[None]] = []

    def join(self, refuse: Answer | None) -> bool:
        """Wait here, unless too many do already; then nobody may until the line has ended.

        Parameters
        ----------
        refuse
            Says that from here on nothing was taken; None for what cannot be refused.
        """
        is_full = self._waiting >= MOST_WAITING or self._refused is not None
        if is_full and refuse is not None:
            self._refused = self._refused or refuse
            return False
        self._waiting += 1
        return True

    def leave(self) -> Answer | None:
        """Wait no more; return what says what was refused, once the line has ended."""
        self._waiting -= 1
        if self._waiting:
            return None
        first, self._refused = self._refused, None
        return first

    async def reply(self, kept: Callable[[], object], send: Answer) -> None:
        """Send replies behind those before them; a long line is not held up by that."""
        if self._waiting > _MOST_PATIENT:
            kept()
            self._sending.append(asyncio.create_task(self._in_order(kept, send)))
        else:
            await self._in_order(kept, send)

    def under_way(self) -> list[asyncio.Task[None]]:
        """Return what is being sent of the newest turn; asked within `turns`."""
        found, self._sending = self._sending, []
        return found

    async def _in_order(self, kept: Callable[[], object], send: Answer) -> None:
        async with self._replies:
            kept()
            await send()
