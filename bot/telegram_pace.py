"""The pace of the chat platform: who may call next, and when.

About 30 messages a second are let through over all chats, one a second in a chat and 20 a minute in
a group. Replies go first, in small bursts where there is room; alerts fill what is left, evenly, so
that a wave of them neither stumbles over the limits nor makes anybody wait for an answer.
"""

from __future__ import annotations

import asyncio
import time
from collections import deque
from collections.abc import Callable, Coroutine
from contextvars import ContextVar
from dataclasses import dataclass
from datetime import timedelta
from typing import Any, Final

from telegram.error import RetryAfter
from telegram.ext import BaseRateLimiter

#: So many calls in so long; a little longer than the platform's second.
_MOST: Final = 30
_WITHIN_S: Final = 1.02
_GAP_S: Final = _WITHIN_S / _MOST
#: What an answer takes at best is that of the quickest of so many: as many may all come late, where
#: the machine is busy for as long.
_ANSWERS_REMEMBERED: Final = 600
#: A call that is not answered after this long is taken not to be on its way any more [s].
_LOST_AFTER_S: Final = 3.0
#: While people are talking, alerts leave this many of them to replies.
_LEFT_TO_REPLIES: Final = 4
_TALK_LASTS_S: Final = 2.0
#: Alerts that were held up catch up by this many at once: while people are talking, and else.
_MOST_CATCHING_UP: Final = (4, 10)
#: Alerts to one chat are so far apart; replies may come in a burst, as often in the long run [s].
_CHAT_GAP_S: Final = 1.05
_CHAT_BURST: Final = 8
#: In a group so many in so long [s].
_MOST_IN_GROUP: Final = 20
_GROUP_WITHIN_S: Final = 60.5
#: Told to wait by so many chats lately, all wait: it is not about one chat.
_MANY_CHATS: Final = 3
_LATELY_S: Final = 5.0
#: Chats quiet for longer than this are forgotten [s].
_FORGOTTEN_AFTER_S: Final = 120.0
_MANY_KNOWN: Final = 2000


_Answer = bool | dict[str, Any] | list[dict[str, Any]]


class _Chat:
    """When a chat was last written to."""

    def __init__(self, *, is_group: bool) -> None:
        self._is_group = is_group
        self._last_s = float("-inf")
        self._last_letter_s = float("-inf")
        self._debt_s = float("-inf")
        self._minute: deque[float] = deque(maxlen=_MOST_IN_GROUP)
        self.held_until_s = 0.0

    def ready_at(self, letter_since_s: float | None = None) -> float:
        """Return when a reply may go, or an alert waiting since then, by the monotonic clock.

        Replies that leave while an alert waits do not put it off: else a chat that talks without
        a pause would never be alerted.
        """
        at = self.held_until_s
        if self._is_group and len(self._minute) == _MOST_IN_GROUP:
            at = max(at, self._minute[0] + _GROUP_WITHIN_S)
        if letter_since_s is not None:
            before_s = max(self._last_letter_s, min(self._last_s, letter_since_s))
            return max(at, before_s + _CHAT_GAP_S)
        if self._is_group:
            return at
        return max(at, self._debt_s - _CHAT_BURST * _CHAT_GAP_S)

    def note(self, now_s: float, *, is_letter: bool) -> None:
        self._last_s = now_s
        if is_letter:
            self._last_letter_s = now_s
        self._debt_s = max(self._debt_s, now_s) + _CHAT_GAP_S
        self._minute.append(now_s)

    def is_quiet(self, now_s: float) -> bool:
        return now_s - max(self._last_s, self.held_until_s) > _FORGOTTEN_AFTER_S


class _Waiting:
    """A call that waits for its turn."""

    def __init__(
        self, chat: _Chat, go: asyncio.Future[_Call], since_s: float, *, is_letter: bool
    ) -> None:
        self.chat = chat
        self.go = go
        self.is_letter = is_letter
        self._since_s = since_s

    def ready_at(self) -> float:
        """Return when its chat may be written to by it."""
        return self.chat.ready_at(self._since_s if self.is_letter else None)


class _Calls:
    """The calls of the last second, by when the platform had them at the latest.

    It counts by its own clock, and on a busy machine a call may get there long after it left, close
    behind the next. What is known is when its answer came: it was there before that by as long as
    an answer takes at best. One that is not answered yet may only be getting there now.
    """

    def __init__(self) -> None:
        self._calls: deque[_Call] = deque(maxlen=2 * _MOST)
        self._took_s: deque[float] = deque(maxlen=_ANSWERS_REMEMBERED)

    def begin(self, now_s: float) -> _Call:
        call = _Call(now_s)
        self._calls.append(call)
        return call

    def end(self, call: _Call, now_s: float, *, is_taken: bool) -> None:
        call.answered_s = now_s
        if is_taken:
            # What fails may do so at once.
            self._took_s.append(now_s - call.left_s)

    def room_at(self, most: int, now_s: float) -> float:
        """Return when so many calls and one more may be on their way, as far as is known now."""
        if len(self._calls) < most:
            return float("-inf")
        at_best_s = min(self._took_s, default=0.0)

        def there_s(call: _Call) -> float:
            known_s = call.answered_s or min(now_s, call.left_s + _LOST_AFTER_S)
            return max(call.left_s, known_s - at_best_s)

        there = sorted(map(there_s, self._calls))
        return there[-most] + _WITHIN_S


@dataclass(slots=True)
class _Call:
    """When a call left, and when its answer came."""

    left_s: float
    answered_s: float | None = None


#: True where a call made from here is an alert, which lets replies go first.
is_letter_call: ContextVar[bool] = ContextVar("is_letter_call", default=False)


class Pacer(BaseRateLimiter[int]):
    """Lets calls through at the platform's pace.

    Parameters
    ----------
    now_s
        A clock that only goes forward [s].
    """

    def __init__(self, now_s: Callable[[], float] = time.monotonic) -> None:
        self._now_s = now_s
        self._replies: deque[_Waiting] = deque()
        self._letters: deque[_Waiting] = deque()
        self._chats: dict[str, _Chat] = {}
        self._calls = _Calls()
        self._next_letter_s = 0.0
        self._talked_s = float("-inf")
        self._held_until_s = 0.0
        self._told_to_wait: dict[str, float] = {}
        self._timer: asyncio.TimerHandle | None = None

    async def initialize(self) -> None:
        """Do nothing: there is nothing to prepare."""

    async def shutdown(self) -> None:
        """Let nobody wait any longer."""
        if self._timer is not None:
            self._timer.cancel()

    async def process_request(
        self,
        callback: Callable[..., Coroutine[Any, Any, _Answer]],
        args: Any,
        kwargs: dict[str, Any],
        endpoint: str,
        data: dict[str, Any],
        rate_limit_args: int | None,
    ) -> _Answer:
        """Make a call when its turn has come; what goes to no chat has no turn to wait for."""
        chat_id = data.get("chat_id")
        if chat_id is None:
            return await callback(*args, **kwargs)
        address = str(chat_id)
        call = await self._turn(address)
        is_taken = False
        try:
            answer = await callback(*args, **kwargs)
            is_taken = True
        except RetryAfter as error:
            self._hold(address, error)
            raise
        finally:
            self._calls.end(call, self._now_s(), is_taken=is_taken)
            self._let_go()
        return answer

    def letters_waiting(self) -> int:
        """Return how many alerts wait for their turn."""
        return len(self._letters)

    def wait_of_letter_s(self, address: str) -> float:
        """Return how long a chat still may not be sent an alert [s]."""
        chat = self._chats.get(address)
        now_s = self._now_s()
        return 0.0 if chat is None else max(0.0, chat.ready_at(letter_since_s=now_s) - now_s)

    async def _turn(self, address: str) -> _Call:
        is_letter = is_letter_call.get()
        chat = self._chat(address)
        if is_letter and not self._letters:
            # The first of a wave was held up by nothing.
            self._catch_up(self._now_s(), _MOST_CATCHING_UP[0])
        go: asyncio.Future[_Call] = asyncio.get_running_loop().create_future()
        (self._letters if is_letter else self._replies).append(
            _Waiting(chat, go, self._now_s(), is_letter=is_letter)
        )
        self._let_go()
        return await go

    def _chat(self, address: str) -> _Chat:
        chat = self._chats.get(address)
        if chat is None:
            if len(self._chats) > _MANY_KNOWN:
                now_s = self._now_s()
                self._chats = {a: c for a, c in self._chats.items() if not c.is_quiet(now_s)}
            chat = self._chats[address] = _Chat(is_group=not address.isdigit())
        return chat

    def _hold(self, address: str, error: RetryAfter) -> None:
        wait = error.retry_after
        wait_s = wait.total_seconds() if isinstance(wait, timedelta) else float(wait)
        now_s = self._now_s()
        self._chat(address).held_until_s = now_s + wait_s
        lately = {a: at for a, at in self._told_to_wait.items() if now_s - at < _LATELY_S}
        self._told_to_wait = {**lately, address: now_s}
        if len(self._told_to_wait) >= _MANY_CHATS:
            self._held_until_s = max(self._held_until_s, now_s + wait_s)

    def _let_go(self) -> None:
        """Let through whoever may go now, and look again when the next may."""
        if self._timer is not None:
            self._timer.cancel()
            self._timer = None
        while True:
            now_s = self._now_s()
            firsts = [
                first
                for line in (self._replies, self._letters)
                if (first := self._first_of(line, now_s)) is not None
            ]
            going = next((waiting for at_s, waiting in firsts if at_s <= now_s), None)
            if going is None:
                break
            (self._letters if going.is_letter else self._replies).remove(going)
            self._note(going, now_s)
        if firsts:
            wait_s = max(0.001, min(at_s for at_s, _ in firsts) - now_s)
            self._timer = asyncio.get_running_loop().call_later(wait_s, self._let_go)

    def _first_of(self, line: deque[_Waiting], now_s: float) -> tuple[float, _Waiting] | None:
        """Return who of a line goes first, and when; the given up are let go."""
        for given_up in [waiting for waiting in line if waiting.go.done()]:
            line.remove(given_up)
        if not line:
            return None
        overall_s = self._overall_at(now_s, is_letter=line[0].is_letter)
        soonest: tuple[float, _Waiting] | None = None
        for waiting in line:
            at_s = max(overall_s, waiting.ready_at())
            if at_s <= now_s:
                return at_s, waiting
            if soonest is None or at_s < soonest[0]:
                soonest = at_s, waiting
        return soonest

    def _overall_at(self, now_s: float, *, is_letter: bool) -> float:
        most = _MOST - _LEFT_TO_REPLIES if is_letter and self._is_talk(now_s) else _MOST
        at_s = max(self._held_until_s, self._calls.room_at(most, now_s))
        return max(at_s, self._next_letter_s) if is_letter else at_s

    def _catch_up(self, now_s: float, most: int) -> None:
        self._next_letter_s = max(self._next_letter_s, now_s - most * _GAP_S)

    def _is_talk(self, now_s: float) -> bool:
        return now_s - self._talked_s < _TALK_LASTS_S

    def _note(self, waiting: _Waiting, now_s: float) -> None:
        waiting.chat.note(now_s, is_letter=waiting.is_letter)
        if waiting.is_letter:
            self._catch_up(now_s, _MOST_CATCHING_UP[not self._is_talk(now_s)])
            self._next_letter_s += _GAP_S
        else:
            self._talked_s = now_s
        waiting.go.set_result(self._calls.begin(now_s))
