"""The chat platform for a bench, in a process of its own: it takes what is sent, and people talk.

It enforces the platform's pace, answers as late as it is told to, and each of its people says the
next sentence once the one before has been answered, at once or after a pause.
"""

from __future__ import annotations

import asyncio
import json
import multiprocessing
import time
from collections import deque
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field
from multiprocessing.connection import Connection
from typing import Any, Final
from urllib.parse import parse_qs

TOKEN: Final = "4242:AAbenchTokenOfNobody_0123456789abcdef"
PERMITTED_A_SECOND: Final = 30


class Limits:
    """The platform's pace, enforced as its FAQ tells it.

    About 30 messages a second, one a second in a chat, 20 a minute in a group
    (core.telegram.org/bots/faq, "My bot is hitting limits"). Windows slide; in a private chat a
    short burst is let through, as the FAQ says.
    """

    A_SECOND = PERMITTED_A_SECOND
    BURST = 10
    IN_GROUP = 20

    def __init__(self) -> None:
        self._all: deque[float] = deque()
        self._by_chat: dict[str, deque[float]] = {}

    def wait_s(self, chat: str, now_s: float) -> int | None:
        """Take note of a message; return how long its sender is told to wait, if at all."""
        _forget(self._all, now_s - 1)
        mine = self._by_chat.setdefault(chat, deque())
        _forget(mine, now_s - 60)
        if len(self._all) >= self.A_SECOND:
            return 1
        if chat.startswith("-"):
            if len(mine) >= self.IN_GROUP:
                return 60
        elif sum(at > now_s - self.BURST for at in mine) >= 2 * self.BURST:
            return 1
        self._all.append(now_s)
        mine.append(now_s)
        return None


def _forget(times: deque[float], before_s: float) -> None:
    while times and times[0] <= before_s:
        times.popleft()


@dataclass(frozen=True, slots=True)
class Plan:
    """What the platform does.

    Attributes
    ----------
    latency_s
        How late it answers what is sent.
    is_strict
        Whether it enforces its pace.
    chats, turns, sentences
        How many people talk, how often each, and what they say in turn.
    charts
        How many others, of the numbers after theirs, ask for a chart: at the beginning, or spread
        over the talk where people think.
    pause_s
        How long people think before they say the next thing.
    """

    latency_s: float = 0.0
    is_strict: bool = False
    chats: int = 0
    turns: int = 0
    sentences: Sequence[str] = ("hello",)
    charts: int = 0
    pause_s: float = 0.0


@dataclass
class Seen:
    """What the platform saw: messages, those it refused, and how long people waited [s].

    Those who asked while charts were drawn count in both lists.
    """

    messages: int = 0
    refused: int = 0
    waits: list[float] = field(default_factory=list)
    waits_beside_charts: list[float] = field(default_factory=list)
    talk_s: float = 0.0
    charts_s: float = 0.0


class _Wait(int):
    """For how long a call is refused [s]."""


class Platform:
    """The process, as the one who runs it sees it."""

    def __init__(self, line: Connection) -> None:
        self._line = line
        self.url = f"http://127.0.0.1:{line.recv()}/bot"

    def wait_for_talk(self, seconds: float) -> bool:
        """Wait until everybody has been answered; tell whether they have."""
        return self._line.poll(seconds)

    def seen(self) -> Seen:
        """End it, and return what it saw."""
        self._line.send("end")
        found: Any = None
        while not isinstance(found, Seen):
            found = self._line.recv()
        return found


@contextmanager
def platform(plan: Plan) -> Iterator[Platform]:
    """Run the process."""
    forking = multiprocessing.get_context("fork")
    ours, theirs = forking.Pipe()
    process = forking.Process(target=_serve, args=(theirs, ours, plan), daemon=True)
    process.start()
    theirs.close()
    try:
        yield Platform(ours)
    finally:
        ours.close()
        process.join(5)


def _serve(line: Connection, theirs: Connection, plan: Plan) -> None:
    theirs.close()
    asyncio.run(_Server(plan).run(line))


class _Server:
    def __init__(self, plan: Plan) -> None:
        self._plan = plan
        self._limits = Limits() if plan.is_strict else None
        self._seen = Seen()
        self._said = dict.fromkeys(range(1, plan.chats + 1), 0)
        self._asked_s: dict[int, float] = {}
        self._updates: dict[int, dict[str, Any]] = {}
        self._news = asyncio.Event()
        # Updates of a database that another platform wrote to before have other numbers.
        self._number = 1_000 * int(time.monotonic())
        self._left = plan.chats
        self._without_chart = set(range(plan.chats + 1, plan.chats + plan.charts + 1))
        self._began_s = 0.0

    async def run(self, line: Connection) -> None:
        server = await asyncio.start_server(self._connected, "127.0.0.1", 0)
        self._line = line
        line.send(server.sockets[0].getsockname()[1])
        await asyncio.to_thread(line.recv)
        line.send(self._seen)

    async def _connected(self, reader: asyncio.StreamReader, writer: asyncio.StreamWriter) -> None:
        try:
            while True:
                head = (await reader.readuntil(b"\r\n\r\n")).decode("latin-1")
                lines = head.split("\r\n")
                headers = dict(each.lower().split(": ", 1) for each in lines[1:] if ": " in each)
                body = await reader.readexactly(int(headers.get("content-length", 0)))
                method = lines[0].split(" ")[1].rsplit("/", 1)[1]
                asyncio.create_task(self._answer(writer, method, headers, body))  # noqa: RUF006
        except (asyncio.IncompleteReadError, ConnectionError):
            writer.close()

    async def _answer(
        self, writer: asyncio.StreamWriter, method: str, headers: dict[str, str], body: bytes
    ) -> None:
        params: dict[str, str] = {}
        if headers.get("content-type", "").startswith("application/x-www-form-urlencoded"):
            params = {name: each[0] for name, each in parse_qs(body.decode()).items()}
        status, told = 200, await self._do(method, params, body)
        if isinstance(told, _Wait):
            status = 429
            answer = {
                "ok": False,
                "error_code": 429,
                "description": f"Too Many Requests: retry after {told}",
                "parameters": {"retry_after": told},
            }
        else:
            answer = {"ok": True, "result": told}
        content = json.dumps(answer).encode()
        head = (
            f"HTTP/1.1 {status} Told\r\nContent-Type: application/json\r\n"
            f"Content-Length: {len(content)}\r\n\r\n"
        )
        writer.write(head.encode() + content)

    async def _do(self, method: str, params: dict[str, str], body: bytes) -> Any:
        if method == "getMe":
            return {"id": 4242, "is_bot": True, "first_name": "Bench", "username": "bench_bot"}
        if method == "getUpdates":
            return await self._polled(int(params.get("offset", 0)), float(params.get("timeout", 0)))
        if method not in ("sendMessage", "sendPhoto", "sendDocument"):
            return True
        chat = params.get("chat_id") or _of_form(body)
        now_s = time.monotonic()
        if self._limits is not None:
            wait_s = self._limits.wait_s(chat, now_s)
            if wait_s is not None:
                self._seen.refused += 1
                return _Wait(wait_s)
        self._seen.messages += 1
        if self._plan.latency_s:
            await asyncio.sleep(self._plan.latency_s)
        if int(chat) not in self._said:
            self._shown(int(chat), now_s, is_chart=method == "sendPhoto")
        else:
            self._heard(int(chat), now_s)
        return {
            "message_id": self._seen.messages,
            "date": 1_770_000_000,
            "chat": {"id": int(chat), "type": "private", "first_name": "Ada"},
            "text": "said",
        }

    async def _polled(self, offset: int, timeout_s: float) -> list[dict[str, Any]]:
        if not self._began_s and self._plan.chats:
            self._began_s = time.monotonic()
            spread_s = self._plan.pause_s * self._plan.turns
            for number, chat in enumerate(sorted(self._without_chart)):
                self._later(spread_s * number / self._plan.charts, self._put, chat, "/soil")
            for number, chat in enumerate(self._said):
                self._later(self._plan.pause_s * number / len(self._said), self._say, chat)
        self._updates = {n: each for n, each in self._updates.items() if n >= offset}
        if not self._updates:
            self._news.clear()
            try:
                async with asyncio.timeout(timeout_s):
                    await self._news.wait()
            except TimeoutError:
                return []
        return [each for _, each in sorted(self._updates.items())][:100]

    def _heard(self, chat: int, now_s: float) -> None:
        asked_s = self._asked_s.pop(chat, None)
        if asked_s is None:
            return
        self._seen.waits.append(now_s - asked_s)
        if self._without_chart:
            self._seen.waits_beside_charts.append(now_s - asked_s)
        if self._said[chat] < self._plan.turns:
            self._later(self._plan.pause_s, self._say, chat)
            return
        self._left -= 1
        if not self._left:
            self._seen.talk_s = now_s - self._began_s
        self._end_if_over()

    def _shown(self, chat: int, now_s: float, *, is_chart: bool) -> None:
        if is_chart and chat in self._without_chart:
            self._without_chart.remove(chat)
            self._seen.charts_s = now_s - self._began_s
            self._end_if_over()

    def _end_if_over(self) -> None:
        if not self._left and not self._without_chart:
            self._line.send("all have been answered")

    @staticmethod
    def _later(after_s: float, do: Callable[..., None], *what: Any) -> None:
        if after_s:
            asyncio.get_running_loop().call_later(after_s, do, *what)
        else:
            do(*what)

    def _say(self, chat: int) -> None:
        sentence = self._plan.sentences[self._said[chat] % len(self._plan.sentences)]
        self._said[chat] += 1
        self._put(chat, sentence)
        self._asked_s[chat] = time.monotonic()

    def _put(self, chat: int, sentence: str) -> None:
        self._number += 1
        who = {"id": chat, "is_bot": False, "first_name": f"Ada {chat}"}
        self._updates[self._number] = {
            "update_id": self._number,
            "message": {
                "message_id": self._number,
                "date": 1_770_000_000,
                "chat": {"id": chat, "type": "private", "first_name": f"Ada {chat}"},
                "from": who,
                "text": sentence,
            },
        }
        self._news.set()


def _of_form(body: bytes) -> str:
    """Return the chat a file goes to: files come in a form of several parts."""
    _, _, rest = body.partition(b'name="chat_id"\r\n\r\n')
    return rest.partition(b"\r\n")[0].decode()
