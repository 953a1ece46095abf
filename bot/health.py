"""How the machine fares, over HTTP for whoever watches over it: off unless asked for.

``/health`` answers 200 or 503 and one JSON object; ``/metrics`` the same as Prometheus reads it.
Neither tells anything about anybody.
"""

from __future__ import annotations

import json
import logging
import threading
from collections.abc import Callable
from dataclasses import asdict, dataclass
from datetime import datetime, timedelta
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from typing import Any, Final

from sqlalchemy.exc import SQLAlchemyError

from bot.ticking import HEARTBEAT
from storage import cells, heartbeats, outbox_state
from storage.database import Database

log = logging.getLogger(__name__)

#: Whoever ticks says so each minute; silent for so long it does not tick.
_SILENT_AFTER: Final = timedelta(minutes=5)
#: An alert that has been due for so long is not getting out.
_STUCK_AFTER: Final = timedelta(hours=1)


@dataclass(frozen=True, slots=True)
class Health:
    """How the machine fares.

    Attributes
    ----------
    is_well
        Whether nobody has to do anything.
    trouble
        What is wrong, in words.
    last_tick
        When jobs were last looked at, or None.
    last_good_data
        When each source last answered.
    outbox
        How the outbox stands; None while the database cannot be read.
    """

    is_well: bool
    trouble: tuple[str, ...]
    last_tick: datetime | None = None
    last_good_data: dict[str, datetime] | None = None
    outbox: outbox_state.OutboxState | None = None

    def to_json(self) -> dict[str, Any]:
        """Return primitives."""
        outbox = None if self.outbox is None else asdict(self.outbox)
        if outbox is not None and self.outbox is not None:
            outbox["oldest_due_at"] = _iso(self.outbox.oldest_due_at)
        return {
            "is_well": self.is_well,
            "trouble": list(self.trouble),
            "last_tick": _iso(self.last_tick),
            "last_good_data": {
                name: at.isoformat() for name, at in (self.last_good_data or {}).items()
            },
            "outbox": outbox,
        }


def look(db: Database, now: datetime, *, ticks_by_the_wall: bool = True) -> Health:
    """Return how the machine on a database fares."""
    try:
        with db.reading() as work:
            last_tick = heartbeats.last(work, HEARTBEAT)
            good = cells.newest_answers(work)
            outbox = outbox_state.state(work, now)
    except SQLAlchemyError as error:
        return Health(False, (f"the database cannot be read ({type(error).__name__})",))
    trouble = []
    if ticks_by_the_wall and (last_tick is None or now - last_tick > _SILENT_AFTER):
        trouble.append("nobody ticks")
    if outbox.oldest_due_at is not None and now - outbox.oldest_due_at > _STUCK_AFTER:
        trouble.append("alerts do not get out")
    return Health(not trouble, tuple(trouble), last_tick, good, outbox)


def metrics(health: Health) -> bytes:
    """Return the same as Prometheus reads it."""
    # Loaded by those alone who ask for it.
    from prometheus_client import CollectorRegistry, Gauge, generate_latest

    registry = CollectorRegistry()

    def gauge(name: str, says: str, value: float) -> None:
        Gauge(f"soilbell_{name}", says, registry=registry).set(value)

    gauge("well", "1 where nobody has to do anything", float(health.is_well))
    if health.last_tick is not None:
        gauge("last_tick_seconds", "When jobs were last looked at", health.last_tick.timestamp())
    if health.outbox is not None:
        outbox = health.outbox
        gauge("outbox_waiting", "Alerts not sent yet", outbox.waiting)
        gauge("outbox_overdue", "Alerts that are due", outbox.overdue)
        gauge("outbox_repeats", "Alerts to be told once more", outbox.repeats)
        gauge("outbox_doubts", "Alerts that may never have arrived", outbox.doubts)
        gauge("outbox_dead", "Alerts that were given up", outbox.dead)
        if outbox.oldest_due_at is not None:
            since_s = outbox.oldest_due_at.timestamp()
            gauge("outbox_oldest_due_seconds", "Since when the oldest is due", since_s)
    answered = Gauge(
        "soilbell_source_answered_seconds",
        "When a source last answered",
        ["source"],
        registry=registry,
    )
    for name, at in (health.last_good_data or {}).items():
        answered.labels(name).set(at.timestamp())
    return generate_latest(registry)


class HealthServer:
    """Answers in a thread of its own.

    Parameters
    ----------
    address
        Host and port.
    examine
        Tells how the machine fares.
    has_metrics
        Whether ``/metrics`` is answered too.
    """

    def __init__(
        self, address: tuple[str, int], examine: Callable[[], Health], *, has_metrics: bool
    ) -> None:
        class Handler(BaseHTTPRequestHandler):
            def do_GET(self) -> None:
                if self.path == "/health":
                    health = examine()
                    body = json.dumps(health.to_json()).encode()
                    self._write(200 if health.is_well else 503, body, "application/json")
                elif self.path == "/metrics" and has_metrics:
                    self._write(200, metrics(examine()), "text/plain; version=0.0.4")
                else:
                    self._write(404, b"", "text/plain")

            def _write(self, status: int, body: bytes, kind: str) -> None:
                self.send_response(status)
                self.send_header("Content-Type", kind)
                self.send_header("Content-Length", str(len(body)))
                self.end_headers()
                self.wfile.write(body)

            def log_message(self, format: str, *args: Any) -> None:
                """Say nothing: it is asked often."""

        self._server = ThreadingHTTPServer(address, Handler)
        self._server.daemon_threads = True
        self._thread = threading.Thread(
            target=self._server.serve_forever, kwargs={"poll_interval": 0.1}, daemon=True
        )

    @property
    def port(self) -> int:
        """The port it listens on."""
        return int(self._server.server_address[1])

    def start(self) -> None:
        """Begin to answer."""
        self._thread.start()
        log.info("Health is told on port %d.", self.port)

    def stop(self) -> None:
        """Answer no more."""
        self._server.shutdown()
        self._server.server_close()


def _iso(at: datetime | None) -> str | None:
    return None if at is None else at.isoformat()
