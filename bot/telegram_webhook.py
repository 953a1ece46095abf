"""Webhooks: the platform brings updates itself, to any of several processes.

The library's own webhook server confirms updates before they are handled; ours answers 200 when all
an update says is kept, and 503 where it could not be, so that the platform brings it again. TLS
ends at the proxy in front. Who does not send the secret that the platform was given is not heard.
"""

from __future__ import annotations

import asyncio
import hmac
import json
import logging
import threading
from collections.abc import Callable
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from typing import Any, Final
from urllib.parse import urlsplit

from telegram import Update

from bot.telegram_link import Bot, LineReport
from bot.telegram_poll import Take, offer_menu, persist

log = logging.getLogger(__name__)

#: Header in which the platform sends the secret (core.telegram.org/bots/api, "setWebhook").
_HEADER: Final = "X-Telegram-Bot-Api-Secret-Token"
#: Calls of the platform that are under way at once, and the largest update read [bytes].
_CONNECTIONS: Final = 40
_LARGEST: Final = 1_000_000
#: An update that cannot be kept in so long is given back; one that is kept is confirmed once it is
#: answered, or so much later: until then a crash has it given again [s].
_KEEP_WITHIN_S: Final = 25.0
_CONFIRM_AFTER_S: Final = 0.5
#: A connection that says nothing for so long is closed [s].
_SILENT_S: Final = 30.0
#: On stopping, turns and replies under way get this long [s].
_FINISH_WITHIN_S: Final = 4.5


class Hook:
    """Takes updates that the platform brings and hands each to ``take``.

    Parameters
    ----------
    bot
        The session.
    line
        Told how the platform fares.
    updates
        Kinds of updates to ask for.
    url
        Where the platform reaches us; its path is the one listened to.
    address
        Host and port to listen on.
    secret
        What the platform is told to send along.
    is_up
        Tells whether updates can be kept at all, for whoever parts the load.
    """

    def __init__(
        self,
        bot: Bot,
        line: LineReport,
        updates: tuple[str, ...],
        url: str,
        address: tuple[str, int],
        secret: str,
        is_up: Callable[[], bool],
    ) -> None:
        self._bot = bot
        self._line = line
        self._updates = updates
        self._url = url
        self._path = urlsplit(url).path or "/"
        self._secret = secret
        self._is_up = is_up
        self._is_stopping = False
        self._running: set[asyncio.Task[None]] = set()
        self._loop = asyncio.get_running_loop()
        self._take: Take | None = None
        self._server = _Server(address, self)

    async def run(self, take: Take, stop: asyncio.Event) -> None:
        """Take updates until ``stop`` is set."""
        self._take = take
        thread = threading.Thread(
            target=self._server.serve_forever, kwargs={"poll_interval": 0.1}, daemon=True
        )
        thread.start()
        await persist(self._ask, self._line, stop)
        log.info("The platform brings updates to port %d.", self._server.server_address[1])
        menu = asyncio.create_task(offer_menu(self._bot, self._line, stop))
        try:
            await stop.wait()
        finally:
            menu.cancel()

    async def finish(self) -> None:
        """Let what is under way end; what is not kept is given back."""
        self._is_stopping = True
        if self._running:
            _, late = await asyncio.wait(self._running, timeout=_FINISH_WITHIN_S)
            for task in late:
                task.cancel()
        await asyncio.to_thread(self._server.shutdown)
        self._server.server_close()

    async def _ask(self) -> bool:
        return await self._bot.set_webhook(
            self._url,
            secret_token=self._secret,
            allowed_updates=self._updates,
            max_connections=_CONNECTIONS,
            drop_pending_updates=False,
        )

    # What the server's threads ask.

    def is_here(self, path: str) -> bool:
        """Tell whether a path is the platform's."""
        return urlsplit(path).path == self._path

    def is_secret(self, told: str) -> bool:
        """Tell whether somebody knows the secret; how long that takes tells nothing of it."""
        return hmac.compare_digest(told.encode(), self._secret.encode())

    def is_up(self) -> bool:
        """Tell whether updates can be taken."""
        return not self._is_stopping and self._is_up()

    def status_of(self, body: bytes) -> int:
        """See an update through as far as it must be; return how the call is answered."""
        if self._is_stopping:
            return 503
        try:
            update = Update.de_json(json.loads(body), self._bot)
        except Exception as problem:  # whatever a changed platform makes the library trip over
            log.warning("an update cannot be read: %s", type(problem).__name__)
            return 200
        return asyncio.run_coroutine_threadsafe(self._see_through(update), self._loop).result()

    async def _see_through(self, update: Update) -> int:
        assert self._take is not None
        kept = asyncio.Event()
        task = asyncio.ensure_future(self._take(update, kept.set))
        self._running.add(task)
        task.add_done_callback(self._running.discard)
        waiting = asyncio.create_task(kept.wait())
        await asyncio.wait(
            (task, waiting), timeout=_KEEP_WITHIN_S, return_when=asyncio.FIRST_COMPLETED
        )
        waiting.cancel()
        if kept.is_set():
            await asyncio.wait((task,), timeout=_CONFIRM_AFTER_S)
            return 200
        # It is brought again, perhaps to another process: here it must not be answered as well.
        task.cancel()
        return 503


class _Server(ThreadingHTTPServer):
    daemon_threads = True
    request_queue_size = 128

    def __init__(self, address: tuple[str, int], hook: Hook) -> None:
        class Handler(_Handler):
            taker = hook

        super().__init__(address, Handler)

    def handle_error(self, request: Any, client_address: Any) -> None:
        """Whoever hangs up in the middle is no news."""


class _Handler(BaseHTTPRequestHandler):
    taker: Hook
    protocol_version = "HTTP/1.1"
    timeout = _SILENT_S

    def do_POST(self) -> None:
        """Take an update from the platform, and from nobody else."""
        if not self.taker.is_here(self.path):
            self._refuse(404)
        elif not self.taker.is_secret(self.headers.get(_HEADER, "")):
            log.warning("somebody without the secret called where the platform brings updates")
            self._refuse(403)
        elif (length := self._length()) is None:
            self._refuse(413)
        else:
            self._write(self.taker.status_of(self.rfile.read(length)))

    def do_GET(self) -> None:
        """Tell whether updates can be taken, and nothing else."""
        if urlsplit(self.path).path == "/health":
            self._write(200 if self.taker.is_up() else 503)
        else:
            self._refuse(404)

    def _length(self) -> int | None:
        said = self.headers.get("Content-Length", "")
        is_number = said.isascii() and said.isdigit() and len(said) < 10
        return int(said) if is_number and int(said) <= _LARGEST else None

    def _refuse(self, status: int) -> None:
        # What else is in the connection is not read.
        self.close_connection = True
        self._write(status)

    def _write(self, status: int) -> None:
        self.send_response(status)
        self.send_header("Content-Length", "0")
        self.end_headers()

    def version_string(self) -> str:
        """Say what answers; of which version is nobody's business."""
        return "soilbell"

    def log_message(self, format: str, *args: Any) -> None:
        """Say nothing of single calls."""
