"""Connections to the chat platform.

The library's own way there takes five times the processor of this one, and looks at all of its
connections, at each for each, whenever a call begins or ends.
"""

from __future__ import annotations

import io
import os
import ssl
from typing import Any, Final
from urllib.parse import urlencode, urlsplit
from urllib.request import getproxies, proxy_bypass

import aiohttp
import certifi
from telegram.error import NetworkError, TimedOut
from telegram.request import BaseRequest, RequestData

#: Causes of errors after which nothing has left this machine: no connection was made, or none was
#: free.
NEVER_LEFT: Final = (aiohttp.ClientConnectorError, aiohttp.ConnectionTimeoutError)

#: A connection that is not used is closed after so long, before the platform does [s].
_KEPT_FOR_S: Final = 5.0
#: Whoever sends a file may take so long for it [s].
_FILE_S: Final = 20.0
_FORM: Final = {"Content-Type": "application/x-www-form-urlencoded"}


class Wires(BaseRequest):
    """So many connections at most, each made when it is first needed.

    Parameters
    ----------
    url
        Base of the API, which says whether there is a proxy on the way.
    most
        How many connections there may be at once.
    connect_s
        How long making one may take [s].
    timeout_s
        How long a call waits for one that is free, for its own way out, and for an answer, each
        [s].
    context
        The certificates trusted.
    """

    def __init__(
        self, url: str, most: int, connect_s: float, timeout_s: float, context: ssl.SSLContext
    ) -> None:
        self._proxy = _proxy_to(url)
        self._most = most
        self._connect_s = connect_s
        self._timeout_s = timeout_s
        self._context = context
        self._session: aiohttp.ClientSession | None = None

    @property
    def read_timeout(self) -> float:
        """How long an answer is waited for where a call does not say [s]."""
        return self._timeout_s

    async def initialize(self) -> None:
        """Open the session; connections are made later."""
        if self._session is None:
            self._session = aiohttp.ClientSession(
                connector=aiohttp.TCPConnector(
                    limit=self._most, ssl=self._context, keepalive_timeout=_KEPT_FOR_S
                ),
                cookie_jar=aiohttp.DummyCookieJar(),
                headers={"User-Agent": self.USER_AGENT},
                proxy=self._proxy,
            )

    async def shutdown(self) -> None:
        """Close all connections."""
        session, self._session = self._session, None
        if session is not None:
            await session.close()

    async def do_request(
        self,
        url: str,
        method: str,
        request_data: RequestData | None = None,
        read_timeout: Any = BaseRequest.DEFAULT_NONE,
        write_timeout: Any = BaseRequest.DEFAULT_NONE,
        connect_timeout: Any = BaseRequest.DEFAULT_NONE,
        pool_timeout: Any = BaseRequest.DEFAULT_NONE,
    ) -> tuple[int, bytes]:
        """Make a call; return its status, and what was answered whole.

        Raises
        ------
        TimedOut
            If a connection or an answer took too long.
        NetworkError
            If something on the way went wrong. Neither tells the address, which holds the token.
        """
        if self._session is None:
            raise RuntimeError("this request is not initialized")
        has_files = request_data is not None and request_data.contains_files
        read_s = _or(read_timeout, self._timeout_s)
        connect_s = _or(connect_timeout, self._connect_s)
        wait_s = _or(pool_timeout, self._timeout_s) + connect_s
        write_s = _or(write_timeout, _FILE_S if has_files else self._timeout_s)
        times = aiohttp.ClientTimeout(
            # A file that comes may take longer, as long as it comes.
            total=None if request_data is None else wait_s + write_s + read_s,
            connect=wait_s,
            sock_connect=connect_s,
            sock_read=read_s,
        )
        try:
            async with self._session.request(
                method,
                url,
                data=None if request_data is None else _body(request_data),
                headers=None if request_data is None or has_files else _FORM,
                timeout=times,
                allow_redirects=False,
            ) as answer:
                return answer.status, await answer.read()
        except TimeoutError as late:
            raise TimedOut from late
        except aiohttp.ClientError as trouble:
            told = f": {trouble}" if isinstance(trouble, aiohttp.ClientOSError) else ""
            raise NetworkError(f"{type(trouble).__name__}{told}") from trouble


def _or(given: Any, usual_s: float) -> float:
    """Return a time-out that was given, as the library tells it [s]."""
    return usual_s if given is BaseRequest.DEFAULT_NONE or given is None else float(given)


def _body(data: RequestData) -> bytes | aiohttp.FormData:
    if not data.contains_files:
        return urlencode(data.json_parameters).encode()
    form = aiohttp.FormData(quote_fields=False)
    for name, value in data.json_parameters.items():
        form.add_field(name, value)
    for name, (filename, content, kind) in data.multipart_data.items():
        file = io.BytesIO(content) if isinstance(content, bytes) else content
        form.add_field(name, file, filename=filename, content_type=kind)
    return form


def _proxy_to(url: str) -> str | None:
    """Return the proxy on the way to an address, as the environment tells it."""
    parts, proxies = urlsplit(url), getproxies()
    proxy = proxies.get(parts.scheme) or proxies.get("all")
    if not proxy or proxy_bypass(parts.netloc):
        return None
    return proxy if "://" in proxy else f"http://{proxy}"


def certificates() -> ssl.SSLContext:
    """Return the certificates that are trusted: the environment's, else those that come along."""
    file, folder = os.environ.get("SSL_CERT_FILE"), os.environ.get("SSL_CERT_DIR")
    if file or folder:
        return ssl.create_default_context(cafile=file, capath=folder)
    return ssl.create_default_context(cafile=certifi.where())
