"""Connections to the chat platform, the one used last taken first.

The HTTP library's pool looks at all of its connections, at each for each, whenever a call begins or
ends: of twenty that was a third of what sending costs. Here each has a pool of its own.
"""

from __future__ import annotations

import asyncio
import ssl
from typing import Any
from urllib.request import getproxies

import httpx


class Wires(httpx.AsyncBaseTransport):
    """So many connections at most, each made when it is first needed."""

    def __init__(self, most: int, context: ssl.SSLContext) -> None:
        one = httpx.Limits(max_connections=1)
        self._free = [httpx.AsyncHTTPTransport(verify=context, limits=one) for _ in range(most)]
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
        """Close them all, and those given up in the moment they were made, which nobody holds."""
        for wire in self._every:
            await wire.aclose()
        for left in list(getattr(asyncio.get_running_loop(), "_transports", {}).values()):
            left.abort()
        await asyncio.sleep(0)


def options(most: int, context: ssl.SSLContext) -> dict[str, Any]:
    """Return what makes the HTTP library use them; behind a proxy it finds its own way."""
    return {"verify": context} if getproxies() else {"transport": Wires(most, context)}
