"""Connections to the chat platform, the one used last taken first.

The HTTP library's pool looks at all of its connections, at each for each, whenever a call begins or
ends: of twenty that was a third of what sending costs. Here each has a pool of its own.
"""

from __future__ import annotations

import asyncio
import ssl
from typing import Any
from urllib.request import getproxies

import httpcore
import httpx


class _SeenThrough(httpcore.AsyncNetworkBackend):
    """Makes connections, and closes one that is there only after its call was given up.

    Given up in the moment it is made, nobody would hold it, and it stayed open until garbage is
    looked for: on a busy machine many did.
    """

    def __init__(self, usual: httpcore.AsyncNetworkBackend) -> None:
        self._usual = usual
        self._closing: set[asyncio.Task[None]] = set()

    async def connect_tcp(
        self,
        host: str,
        port: int,
        timeout: float | None = None,  # noqa: ASYNC109 - the library's name
        local_address: str | None = None,
        socket_options: Any = None,
    ) -> httpcore.AsyncNetworkStream:
        """Connect within a time; what comes later is closed as it comes."""
        coming = asyncio.ensure_future(
            self._usual.connect_tcp(host, port, None, local_address, socket_options)
        )
        is_held = False
        try:
            async with asyncio.timeout(timeout):
                made = await asyncio.shield(coming)
            is_held = True
        except TimeoutError as late:
            raise httpcore.ConnectTimeout from late
        else:
            return made
        finally:
            if not is_held:
                coming.add_done_callback(self._close)

    def _close(self, coming: asyncio.Future[httpcore.AsyncNetworkStream]) -> None:
        if not coming.cancelled() and coming.exception() is None:
            closing = asyncio.ensure_future(coming.result().aclose())
            self._closing.add(closing)
            closing.add_done_callback(self._closing.discard)


class Wires(httpx.AsyncBaseTransport):
    """So many connections at most, each made when it is first needed."""

    def __init__(self, most: int, context: ssl.SSLContext) -> None:
        one = httpx.Limits(max_connections=1)
        self._free = [httpx.AsyncHTTPTransport(verify=context, limits=one) for _ in range(most)]
        for wire in self._free:
            wire._pool._network_backend = _SeenThrough(httpcore.AnyIOBackend())
        self._every = tuple(self._free)
        self._room = asyncio.Semaphore(most)

    async def handle_async_request(self, request: httpx.Request) -> httpx.Response:
        """Make a call and read its answer whole, as whoever calls here does anyway."""
        try:
            async with asyncio.timeout(request.extensions.get("timeout", {}).get("pool")):
                await self._room.acquire()
        except TimeoutError as late:
            raise httpx.PoolTimeout("no connection is free", request=request) from late
        wire = self._free.pop()
        try:
            answer = await wire.handle_async_request(request)
            try:
                content = b"".join([part async for part in answer.aiter_raw()])
            finally:
                await answer.aclose()
            return httpx.Response(
                answer.status_code,
                headers=answer.headers,
                content=content,
                extensions=answer.extensions,
            )
        finally:
            self._free.append(wire)
            self._room.release()

    async def aclose(self) -> None:
        """Close them all."""
        for wire in self._every:
            await wire.aclose()


def options(most: int, context: ssl.SSLContext) -> dict[str, Any]:
    """Return what makes the HTTP library use them; behind a proxy it finds its own way."""
    return {"verify": context} if getproxies() else {"transport": Wires(most, context)}
