"""A stand-in for both weather services on loopback: answers in their shapes, and their troubles.

It records every call in order and refuses what the services refuse. Trouble is ordered with
`fail`. The weather is a plain function of place and hour, so tests know what is right.
"""

from __future__ import annotations

import json
import math
import socket
import threading
from collections import deque
from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import UTC, date, datetime, timedelta
from functools import lru_cache
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from typing import Any
from urllib.parse import parse_qsl, urlsplit

HOUR_S = 3600
ARCHIVE_IS_COLDER_C = 1.5
FAULTS = (
    "minutely", "hourly", "daily", "bad request", "hang", "drop", "cut", "502", "malformed",
    "nulls", "elsewhere", "absurd", "trickle", "too short a list",
)  # fmt: skip


@lru_cache(maxsize=200_000)
def air_c(lat: float, at: datetime) -> float:
    """Return the stand-in's air temperature: a yearly and a daily wave, colder to the north."""
    year = math.cos(2 * math.pi * (at.timestamp() / 86_400 - 200) / 365.25)
    day = math.cos(2 * math.pi * (at.timestamp() / HOUR_S - 20) / 24)
    return round(12 - 0.5 * (lat - 40) + 13 * year + 4 * day, 1)


def soil_c(lat: float, at: datetime) -> float:
    """Return the stand-in's soil temperature at 6 cm."""
    return round(0.5 * air_c(lat, at) + 0.5 * air_c(lat, at - timedelta(hours=12)) + 1, 1)


def rain_mm(at: datetime) -> float:
    """Return the rain of the hour before ``at``: 2 mm from 06 to 07 UTC each fourth day."""
    day = int(at.timestamp()) // 86_400
    return 2.0 if day % 4 == 0 and at.hour == 7 else 0.0


@dataclass(frozen=True)
class Call:
    """One call as it came in."""

    method: str
    path: str
    params: dict[str, str]
    headers: dict[str, str]


@dataclass
class _Order:
    where: str
    fault: str
    times: int


@dataclass
class _Answer:
    body: bytes
    status: int = 200
    headers: dict[str, str] = field(default_factory=dict)


class WeatherStandin:
    """The stand-in as a context manager.

    Parameters
    ----------
    clock
        What time it is for the services.
    """

    def __init__(self, clock: Callable[[], datetime]) -> None:
        self.clock = clock
        self.calls: list[Call] = []
        self._orders: deque[_Order] = deque()
        self._lock = threading.Lock()
        self._closing = threading.Event()

    def __enter__(self) -> WeatherStandin:
        standin = self

        class Handler(_Handler):
            service = standin

        class Server(ThreadingHTTPServer):
            daemon_threads = True
            request_queue_size = 64

            def handle_error(self, request: Any, client_address: Any) -> None:
                """Clients that give up are no news here."""

        self._server = Server(("127.0.0.1", 0), Handler)
        self._thread = threading.Thread(
            target=self._server.serve_forever, kwargs={"poll_interval": 0.02}, daemon=True
        )
        self._thread.start()
        return self

    def __exit__(self, *_: object) -> None:
        self._closing.set()
        self._server.shutdown()
        self._server.server_close()
        self._thread.join()

    @property
    def url(self) -> str:
        return f"http://127.0.0.1:{self._server.server_address[1]}"

    @property
    def forecast_url(self) -> str:
        return f"{self.url}/v1/forecast"

    @property
    def archive_url(self) -> str:
        return f"{self.url}/v1/archive"

    @property
    def nws_url(self) -> str:
        return self.url

    def fail(self, where: str, fault: str, times: int = 1) -> None:
        """Order trouble for the next calls whose path holds ``where``."""
        assert fault in FAULTS
        self._orders.append(_Order(where, fault, times))

    def heal(self) -> None:
        """Forget all orders."""
        self._orders.clear()

    def calls_to(self, where: str) -> list[Call]:
        return [call for call in self.calls if where in call.path]

    def take(self, call: Call) -> str | None:
        """Record a call and return the fault ordered for it."""
        with self._lock:
            self.calls.append(call)
            for order in self._orders:
                if order.where in call.path:
                    order.times -= 1
                    if order.times <= 0:
                        self._orders.remove(order)
                    return order.fault
        return None

    def wait_closing(self, seconds: float) -> bool:
        return self._closing.wait(seconds)

    # What the services say.

    def answer(self, call: Call) -> Any:
        if call.path == "/v1/forecast":
            return self._open_meteo(call, self._forecast)
        if call.path == "/v1/archive":
            return self._open_meteo(call, self._archive)
        if "(" not in call.headers.get("User-Agent", ""):
            return _Answer(b'{"title": "Forbidden"}', 403)
        parts = call.path.strip("/").split("/")
        if parts[0] == "points":
            return self._point(*map(float, parts[1].split(",")))
        if parts[0] == "gridpoints" and parts[-1] == "stations":
            return self._stations()
        if parts[0] == "gridpoints":
            return self._gridpoint(*map(int, parts[2].split(",")))
        if parts[0] == "stations" and parts[-1] == "observations":
            return self._observations(parts[1], call.params)
        return _Answer(b'{"title": "Not Found", "detail": "no such thing"}', 404)

    def _open_meteo(self, call: Call, one: Callable[..., dict[str, Any]]) -> Any:
        lats = [float(text) for text in call.params["latitude"].split(",")]
        lons = [float(text) for text in call.params["longitude"].split(",")]
        if len(lats) != len(lons):
            return _refused(
                "Parameter 'latitude' and 'longitude' must have the same number of elements"
            )
        if len(lats) > 1000:
            return _refused("Only up to 1000 locations can be requested at once")
        parts: list[dict[str, Any]] = []
        for index, (lat, lon) in enumerate(zip(lats, lons, strict=True)):
            grid = round(lat * 10) / 10 + 0.03, round(lon * 10) / 10 - 0.02
            part = {
                "latitude": grid[0],
                "longitude": grid[1],
                "generationtime_ms": 0.1,
                "elevation": 300.0,
            }
            if index:
                part["location_id"] = index
            try:
                parts.append(part | one(call.params, lat))
            except KeyError as unknown:
                return _refused(
                    "Cannot initialize WeatherVariable from invalid String value "
                    f"{unknown.args[0]} for key hourly"
                )
        return parts if len(parts) > 1 else parts[0]

    def _forecast(self, params: dict[str, str], lat: float) -> dict[str, Any]:
        today = self.clock().astimezone(UTC).replace(hour=0, minute=0, second=0, microsecond=0)
        first = today - timedelta(days=int(params.get("past_days", 0)))
        hours = 24 * (int(params.get("past_days", 0)) + int(params.get("forecast_days", 7)))
        at = [first + timedelta(hours=hour) for hour in range(hours)]
        known: dict[str, tuple[str, Callable[[datetime], float | None]]] = {
            "soil_temperature_6cm": ("°C", lambda t: soil_c(lat, t)),
            "temperature_2m": ("°C", lambda t: air_c(lat, t)),
            "precipitation": ("mm", rain_mm),
            "wind_speed_10m": ("m/s" if params.get("wind_speed_unit") == "ms" else "km/h",
                               lambda t: 3.0),
            "relative_humidity_2m": ("%", lambda t: 60),
        }  # fmt: skip
        return self._block("hourly", params, known, at, [int(t.timestamp()) for t in at])

    def _archive(self, params: dict[str, str], lat: float) -> dict[str, Any]:
        zone = params.get("timezone", "GMT")
        offset_s = 0 if zone == "GMT" else -int(zone.removeprefix("Etc/GMT")) * HOUR_S
        first, last = (date.fromisoformat(params[name]) for name in ("start_date", "end_date"))
        newest = self.clock().date() - timedelta(days=5)
        days = [first + timedelta(days=i) for i in range((last - first).days + 1)]
        starts = [
            datetime(day.year, day.month, day.day, tzinfo=UTC) - timedelta(seconds=offset_s)
            for day in days
        ]

        def daily(
            of: Callable[[list[float]], float], what: Callable[[datetime], float]
        ) -> Callable[[datetime], float | None]:
            def value(start: datetime) -> float | None:
                if start.date() > newest:
                    return None
                return round(
                    of([what(start + timedelta(hours=h)) for h in (0, 4, 8, 12, 16, 20)]), 2
                )

            return value

        def mean(values: list[float]) -> float:
            return sum(values) / len(values)

        known = {
            "soil_temperature_0_to_7cm_mean": (
                "°C", daily(mean, lambda t: soil_c(lat, t) - ARCHIVE_IS_COLDER_C)),
            "temperature_2m_mean": ("°C", daily(mean, lambda t: air_c(lat, t))),
            "temperature_2m_min": ("°C", daily(min, lambda t: air_c(lat, t))),
            "temperature_2m_max": ("°C", daily(max, lambda t: air_c(lat, t))),
            "precipitation_sum": ("mm", lambda t: 0.5),
        }  # fmt: skip
        block = self._block("daily", params, known, starts, [int(t.timestamp()) for t in starts])
        return block | {"utc_offset_seconds": offset_s}

    def _block(
        self, name: str, params: dict[str, str], known: Any, at: list[datetime], times: list[int]
    ) -> dict[str, Any]:
        values: dict[str, Any] = {"time": times}
        units = {"time": "unixtime"}
        for variable in params[name].split(","):
            units[variable], value = known[variable]
            values[variable] = [value(t) for t in at]
        return {
            "utc_offset_seconds": 0,
            "timezone": params.get("timezone", "GMT"),
            f"{name}_units": units,
            name: values,
        }

    def _point(self, lat: float, lon: float) -> Any:
        if not (24 < lat < 50 and -125 < lon < -66):
            return _Answer(b'{"title": "Data Unavailable For Requested Point", "status": 404}', 404)
        grid = {"gridId": "TOP", "gridX": round((lat - 20) * 10), "gridY": round((lon + 130) * 10)}
        return {"properties": grid | {"cwa": "TOP", "timeZone": "America/Chicago"}}

    def _stations(self) -> Any:
        return {
            "features": [
                {"properties": {"stationIdentifier": name}} for name in ("KAAA", "KBBB", "KCCC")
            ]
        }

    def _gridpoint(self, x: int, y: int) -> Any:
        lat, lon = x / 10 + 20, y / 10 - 130
        first = self.clock().astimezone(UTC).replace(minute=0, second=0, microsecond=0)
        first -= timedelta(hours=3)
        hours = 24 * 7

        def layer(uom: str, length: int, value: Callable[[datetime], float]) -> Any:
            starts = [first + timedelta(hours=h) for h in range(0, hours, length)]
            return {
                "uom": f"wmoUnit:{uom}",
                "values": [
                    {"validTime": f"{start.isoformat()}/PT{length}H", "value": value(start)}
                    for start in starts
                ],
            }

        corner = 0.01
        ring = [
            [lon + dx * corner, lat + dy * corner]
            for dx, dy in ((-1, -1), (1, -1), (1, 1), (-1, 1), (-1, -1))
        ]
        return {
            "geometry": {"type": "Polygon", "coordinates": [ring]},
            "properties": {
                "temperature": layer("degC", 1, lambda t: air_c(lat, t)),
                "relativeHumidity": layer("percent", 2, lambda t: 60),
                "windSpeed": layer("km_h-1", 3, lambda t: 10.8),
                "quantitativePrecipitation": layer("mm", 6, lambda t: 1.2),
            },
        }

    def _observations(self, station: str, params: dict[str, str]) -> Any:
        start = datetime.fromisoformat(params["start"])
        end = datetime.fromisoformat(params["end"])
        at = start.replace(minute=53)
        features = []
        while at < end:
            temperature = air_c(39.1, at.replace(minute=0) + timedelta(hours=1))
            features.append(
                {
                    "properties": {
                        "timestamp": at.isoformat(),
                        "temperature": {"unitCode": "wmoUnit:degC", "value": temperature},
                        "relativeHumidity": {"unitCode": "wmoUnit:percent", "value": 55},
                        "windSpeed": {"unitCode": "wmoUnit:km_h-1", "value": 7.2},
                        "precipitationLastHour": {"unitCode": "wmoUnit:mm", "value": None},
                    }
                }
            )
            at += timedelta(hours=1)
        return {"features": list(reversed(features))}


class _Handler(BaseHTTPRequestHandler):
    service: WeatherStandin
    protocol_version = "HTTP/1.1"
    # Written in one go: small writes with Nagle's algorithm would cost 40 ms each.
    wbufsize = -1

    def setup(self) -> None:
        self.request.setsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY, True)
        super().setup()

    def log_message(self, format: str, *args: Any) -> None:
        """Say nothing."""

    def do_GET(self) -> None:
        split = urlsplit(self.path)
        self._serve("GET", split.path, dict(parse_qsl(split.query)))

    def do_POST(self) -> None:
        body = self.rfile.read(int(self.headers.get("Content-Length", 0)))
        self._serve("POST", urlsplit(self.path).path, dict(parse_qsl(body.decode())))

    def _serve(self, method: str, path: str, params: dict[str, str]) -> None:
        call = Call(method, path, params, dict(self.headers))
        fault = self.service.take(call)
        if fault == "hang":
            self.service.wait_closing(30)
        if fault in ("hang", "drop"):
            self.close_connection = True
            return
        answer = _faulty(fault, call) or self.service.answer(call)
        if not isinstance(answer, _Answer):
            answer = _Answer(json.dumps(_spoilt(fault, answer), ensure_ascii=False).encode())
        if fault == "malformed":
            answer.body = answer.body[: len(answer.body) // 2]
        self._send(answer, fault)

    def _send(self, answer: _Answer, fault: str | None) -> None:
        self.send_response(answer.status)
        self.send_header("Content-Type", "application/json; charset=utf-8")
        self.send_header("Content-Length", str(len(answer.body)))
        for name, value in answer.headers.items():
            self.send_header(name, value)
        self.end_headers()
        if fault == "cut":
            self.wfile.write(answer.body[: len(answer.body) // 2])
            self.wfile.flush()
            self.close_connection = True
            return
        if fault == "trickle":
            for byte in answer.body:
                self.wfile.write(bytes([byte]))
                self.wfile.flush()
                if self.service.wait_closing(0.02):
                    return
        self.wfile.write(answer.body)
        self.wfile.flush()


def _faulty(fault: str | None, call: Call) -> _Answer | None:
    spans = {"minutely": "one minute", "hourly": "the next hour", "daily": "tomorrow"}
    if fault in spans:
        reason = f"{fault.capitalize()} API request limit exceeded. Please try again in "
        return _Answer(json.dumps({"error": True, "reason": reason + spans[fault]}).encode(), 429)
    if fault == "bad request":
        return _refused("Data corrupted at path ''. Cannot initialize SurfaceVariable")
    if fault == "502":
        return _Answer(b"<html><body>502 Bad Gateway</body></html>", 502)
    return None


def _refused(reason: str) -> _Answer:
    return _Answer(json.dumps({"reason": reason, "error": True}).encode(), 400)


def _spoilt(fault: str | None, told: Any) -> Any:
    if fault == "too short a list":
        return told[:-1] if isinstance(told, list) else []
    for part in told if isinstance(told, list) else [told]:
        if fault == "elsewhere":
            part["latitude"] = -12.5
            if "geometry" in part:
                part["geometry"]["coordinates"] = [[[10.0, 10.0], [11.0, 10.0], [10.0, 11.0]]]
        for block in ("hourly", "daily"):
            for name, values in part.get(block, {}).items():
                if name != "time" and fault == "nulls":
                    part[block][name] = [None] * len(values)
                if name != "time" and fault == "absurd":
                    values[len(values) // 2] = 4e5
    return told
