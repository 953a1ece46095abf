"""Requests to weather services, with every way they can go wrong named.

A request has time limits for connecting, for each read and for the whole, a limit for the size of
the answer, and is repeated with growing, jittered pauses when the service was not reached or broke
down (never when it refused). What is raised is in the tree of `jobs.sources.base`; no message and
no log line holds a query, because keys travel there.
"""

from __future__ import annotations

import json
import logging
import time
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

import requests
from tenacity import (
    Retrying,
    retry_if_exception_type,
    stop_after_attempt,
    wait_exponential,
    wait_random,
)

from jobs.sources.base import (
    AnswerUnusable,
    QuotaSpent,
    SourceRefused,
    SourceTrouble,
    SourceUnreachable,
)

#: Read this much at once [bytes].
_PIECE = 65_536
#: Longest reason quoted from an answer [characters].
_LONGEST_REASON = 200


def user_agent(contact: str) -> str:
    """Return what we call ourselves to services, with the address at which they reach the operator.

    Raises
    ------
    ValueError
        Without an address, or with one that does not fit into a header.
    """
    contact = contact.strip()
    if not contact or not contact.isprintable() or not contact.isascii():
        raise ValueError("the weather services want an address (e-mail or site) to reach you at")
    return f"soilbell ({contact})"


@dataclass(frozen=True, slots=True)
class Patience:
    """How long and how often to try.

    Attributes
    ----------
    connect_s, read_s
        For the connection, and for each read.
    total_s
        For one attempt from connecting to the last byte (a read that has begun may overrun it by
        ``read_s``).
    attempts
        Attempts in all.
    first_pause_s, longest_pause_s
        Pauses between attempts double from the first to the longest, with jitter.
    """

    connect_s: float = 5.0
    read_s: float = 20.0
    total_s: float = 60.0
    attempts: int = 3
    first_pause_s: float = 0.5
    longest_pause_s: float = 8.0


class Http:
    """One session with a service.

    Parameters
    ----------
    user_agent
        Who asks, with an address for complaints.
    patience
        Time limits and repetitions.
    most_bytes
        Largest answer taken, unpacked.
    uses_proxies
        Whether proxies named in the environment are used.
    sleep
        How to wait between attempts.
    """

    def __init__(
        self,
        user_agent: str,
        patience: Patience | None = None,
        *,
        most_bytes: int = 64_000_000,
        uses_proxies: bool = True,
        sleep: Callable[[float], None] = time.sleep,
    ) -> None:
        self._patience = patience or Patience()
        self._most_bytes = most_bytes
        self._session = requests.Session()
        self._session.headers.update({"User-Agent": user_agent, "Accept": "application/json"})
        self._session.trust_env = uses_proxies
        self._session.max_redirects = 3
        self._sleep = sleep
        _keep_queries_out_of_logs()

    def get(
        self,
        url: str,
        params: Mapping[str, str] | None = None,
        *,
        before_attempt: Callable[[], None] = lambda: None,
    ) -> bytes:
        """Return the body of a good answer to GET; see `post` for the rest."""
        return self._repeated("GET", url, before_attempt, params=params)

    def post(
        self,
        url: str,
        form: Mapping[str, str],
        *,
        before_attempt: Callable[[], None] = lambda: None,
    ) -> bytes:
        """Return the body of a good answer to a posted form.

        Parameters
        ----------
        url, form
            Where to, and what.
        before_attempt
            Called before every attempt, repetitions too; what it raises ends the request. Budgets
            are charged there.

        Raises
        ------
        SourceUnreachable
            After the last attempt: no connection, time out, an answer cut short, 5xx.
        QuotaSpent
            429.
        SourceRefused
            Any other answer that is not 200, with the reason it gives.
        AnswerUnusable
            An answer that is too long.
        """
        return self._repeated("POST", url, before_attempt, form=form)

    def _repeated(
        self,
        method: str,
        url: str,
        before_attempt: Callable[[], None],
        *,
        params: Mapping[str, str] | None = None,
        form: Mapping[str, str] | None = None,
    ) -> bytes:
        patience = self._patience
        attempts = Retrying(
            stop=stop_after_attempt(patience.attempts),
            wait=wait_exponential(multiplier=patience.first_pause_s, max=patience.longest_pause_s)
            + wait_random(0, patience.first_pause_s),
            retry=retry_if_exception_type(SourceUnreachable),
            sleep=self._sleep,
            reraise=True,
        )

        def attempt() -> bytes:
            before_attempt()
            return self._once(method, url, params, form)

        return attempts(attempt)

    def _once(
        self,
        method: str,
        url: str,
        params: Mapping[str, str] | None,
        form: Mapping[str, str] | None,
    ) -> bytes:
        patience = self._patience
        deadline = time.monotonic() + patience.total_s
        try:
            with self._session.request(
                method,
                url,
                params=None if params is None else dict(params),
                data=None if form is None else dict(form),
                stream=True,
                timeout=(patience.connect_s, patience.read_s),
            ) as response:
                body = self._body(response, deadline)
        except requests.exceptions.Timeout:
            raise SourceUnreachable("the service did not answer in time") from None
        except SourceTrouble:
            raise
        except (requests.exceptions.InvalidURL, requests.exceptions.MissingSchema):
            raise SourceRefused("the service's address is malformed: check the settings") from None
        except (requests.exceptions.RequestException, OSError, ValueError) as error:
            # Their texts hold whole addresses, and with them keys.
            kind = type(error).__name__
            raise SourceUnreachable(f"no connection with the service ({kind})") from None
        if response.status_code == 200:
            return body
        raise _refusal(response.status_code, response.headers, body)

    def _body(self, response: requests.Response, deadline: float) -> bytes:
        pieces: list[bytes] = []
        size = 0
        while True:
            try:
                # One read of the socket at most, so that a trickle cannot outlast the deadline.
                piece = response.raw.read1(_PIECE, decode_content=True)
            except Exception as error:
                # urllib3 raises its own kinds here, which requests translates only in its streams.
                kind = type(error).__name__
                raise SourceUnreachable(f"the answer was cut short ({kind})") from None
            if not piece:
                return b"".join(pieces)
            pieces.append(piece)
            size += len(piece)
            if size > self._most_bytes:
                raise AnswerUnusable(f"the answer is longer than {self._most_bytes} bytes")
            if time.monotonic() > deadline:
                raise SourceUnreachable("the service did not answer in time")


def reason_in(body: bytes) -> str:
    """Return the reason a service gives in an error's body, or an empty text."""
    try:
        told = json.loads(body)
    except (ValueError, RecursionError):
        return ""
    if not isinstance(told, dict):
        return ""
    for name in ("reason", "detail", "title"):
        if isinstance(text := told.get(name), str) and text.strip():
            return " ".join(text.split())[:_LONGEST_REASON]
    return ""


def _refusal(status: int, headers: Mapping[str, str], body: bytes) -> SourceTrouble:
    reason = reason_in(body)
    if status == 429:
        return QuotaSpent(reason or "the service asks us to wait", _asked_wait_s(headers, reason))
    if status >= 500:
        return SourceUnreachable(f"the service is in trouble ({status})")
    return SourceRefused(f"{reason or 'no reason given'} ({status})")


#: What a reason says about the quota that is spent, and how long that lasts at most [s].
_QUOTA_WORDS: Sequence[tuple[str, float]] = (
    ("minute", 60.0),
    ("hour", 3600.0),
    ("dai", 86_400.0),
    ("day", 86_400.0),
    ("month", 31 * 86_400.0),
)


def _asked_wait_s(headers: Mapping[str, str], reason: str) -> float:
    try:
        return min(31 * 86_400.0, max(1.0, float(headers.get("Retry-After", ""))))
    except ValueError:
        pass
    words = reason.casefold()
    # "Minutely ... one minute": the longest span named counts.
    return max((wait for word, wait in _QUOTA_WORDS if word in words), default=60.0)


class _WithoutQuery(logging.Filter):
    """Cuts queries from the log lines of the library below, at whatever level."""

    def filter(self, record: logging.LogRecord) -> bool:
        if isinstance(record.args, tuple):
            record.args = tuple(
                arg.split("?", 1)[0] if isinstance(arg, str) else arg for arg in record.args
            )
        return True


_FILTER = _WithoutQuery()


def _keep_queries_out_of_logs() -> None:
    # A filter holds for its own logger only, not for those below it.
    for name in ("urllib3", "urllib3.connectionpool", "urllib3.connection", "urllib3.util.retry"):
        logging.getLogger(name).addFilter(_FILTER)
