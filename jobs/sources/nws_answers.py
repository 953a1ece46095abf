"""Reading the answers of api.weather.gov; see `jobs.sources.nws` for what was asked."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from typing import Any

import numpy as np

from jobs.agronomy.series import FloatArray
from jobs.sources.answers import a_list, a_number, a_text, check_place, checked, member, read_json
from jobs.sources.base import AnswerUnusable, Cell
from jobs.sources.hours import Hours

_HOUR = timedelta(hours=1)
#: The longest span taken from one answer [h].
_MOST_HOURS = 24 * 20
#: Factors to our units by the last part of a unit's code; °C, % and mm stand as they are.
_UNITS = {
    "temperature": {"degC": 1.0},
    "relativeHumidity": {"percent": 1.0},
    "windSpeed": {"km_h-1": 1 / 3.6, "m_s-1": 1.0},
    "quantitativePrecipitation": {"mm": 1.0},
    "precipitationLastHour": {"mm": 1.0, "m": 1000.0},
}
_OURS = {
    "temperature": "tmean_c",
    "relativeHumidity": "humidity_pct",
    "windSpeed": "wind_m_s",
    "quantitativePrecipitation": "rain_mm",
    "precipitationLastHour": "rain_mm",
}
_DURATION = re.compile(
    r"P(?:(?P<days>\d{1,3})D)?(?:T(?:(?P<hours>\d{1,4})H)?(?:(?P<minutes>\d{1,4})M)?)?"
)
_GRID = re.compile(r"[A-Z]{3}")
_STATION = re.compile(r"[A-Z0-9]{3,8}")


@dataclass(frozen=True, slots=True)
class Grid:
    """A cell of a forecast office's grid."""

    office: str
    x: int
    y: int

    def __str__(self) -> str:
        return f"{self.office}/{self.x},{self.y}"


def read_point(body: bytes) -> Grid:
    """Return the grid cell of a point.

    Raises
    ------
    AnswerUnusable
        When the answer cannot be read, as all functions here.
    """
    told = member(read_json(body), "properties")
    office = a_text(member(told, "gridId"), "gridId")
    x, y = (a_number(member(told, name), name) for name in ("gridX", "gridY"))
    if not _GRID.fullmatch(office) or x != int(x) or y != int(y) or not (0 <= min(x, y) < 1000):
        raise AnswerUnusable("the answer names no grid cell")
    return Grid(office, int(x), int(y))


def read_stations(body: bytes) -> list[str]:
    """Return the names of stations near a grid cell, nearest first."""
    names = []
    for feature in a_list(member(read_json(body), "features"), "features"):
        name = a_text(member(feature, "properties", "stationIdentifier"), "stationIdentifier")
        if not _STATION.fullmatch(name):
            raise AnswerUnusable("the answer names no station")
        names.append(name)
    return names


def read_gridpoint(body: bytes, asked: Cell) -> Hours:
    """Return the raw layers of a grid cell by the hour; amounts are spread over their interval."""
    told = read_json(body)
    _check_polygon(told, asked)
    layers = {
        name: _intervals(member(told, "properties", name), name)
        for name in ("temperature", "relativeHumidity", "windSpeed", "quantitativePrecipitation")
    }
    if not layers["temperature"]:
        raise AnswerUnusable("the answer holds no temperature")
    first = min(start for start, _, _ in layers["temperature"])
    last = max(start + length for start, length, _ in layers["temperature"])
    size = (last - first) // _HOUR
    if not 0 < size <= _MOST_HOURS:
        raise AnswerUnusable("the answer's times span too much")
    columns = {
        name: _spread(intervals, first, size, is_amount=name == "quantitativePrecipitation")
        for name, intervals in layers.items()
    }
    return _hours(first, columns["temperature"], columns["quantitativePrecipitation"], columns)


def read_observations(body: bytes, first: datetime, last: datetime) -> Hours:
    """Return what a station reported, by the nearest whole hour from ``first`` to ``last``."""
    size = (last - first) // _HOUR + 1
    names = ("temperature", "relativeHumidity", "windSpeed", "precipitationLastHour")
    sums = {name: np.zeros(size) for name in names}
    counts = {name: np.zeros(size) for name in names}
    for feature in a_list(member(read_json(body), "features"), "features"):
        told = member(feature, "properties")
        at = _instant(member(told, "timestamp"))
        hour = round((at - first) / _HOUR)
        if not 0 <= hour < size:
            continue
        for name in names:
            value = _quantity(told.get(name), name)
            if not np.isnan(value):
                sums[name][hour] += value
                counts[name][hour] += 1
    columns = {
        name: np.where(counts[name] > 0, sums[name] / np.maximum(1, counts[name]), np.nan)
        for name in names
    }
    # What fell in the hour before a report fell in the hour that ends there.
    rain = np.append(columns["precipitationLastHour"][1:], np.nan)
    return _hours(first, columns["temperature"], rain, columns)


def _hours(
    first: datetime, air_c: FloatArray, rain_mm: FloatArray, columns: dict[str, FloatArray]
) -> Hours:
    return Hours(
        first_hour=first,
        air_c=air_c,
        rain_mm=rain_mm,
        wind_m_s=columns["windSpeed"],
        humidity_pct=columns["relativeHumidity"],
        soil5_c=np.full(len(air_c), np.nan),
    )


def _check_polygon(told: object, asked: Cell) -> None:
    rings = a_list(member(told, "geometry", "coordinates"), "coordinates")
    corners = a_list(rings[0] if rings else None, "coordinates")
    points = [a_list(corner, "coordinates") for corner in corners]
    if not points or any(len(point) < 2 for point in points):
        raise AnswerUnusable("the answer names no place")
    lon, lat = (
        float(np.mean([a_number(point[axis], "coordinates") for point in points]))
        for axis in (0, 1)
    )
    check_place(lat, lon, asked)


def _intervals(layer: object, name: str) -> list[tuple[datetime, timedelta, float]]:
    """Return a layer's values, each with the start and length of its interval in whole hours."""
    factor = _factor(layer.get("uom") if isinstance(layer, dict) else None, name)
    out = []
    for told in a_list(member(layer, "values"), name):
        start, length = _interval(member(told, "validTime"))
        value = member(told, "value")
        number = np.nan if value is None else a_number(value, name) * factor
        out.append((start, length, number))
    checked(np.array([value for _, _, value in out], dtype=float), _OURS[name])
    return out


def _interval(told: object) -> tuple[datetime, timedelta]:
    start_text, _, length_text = a_text(told, "validTime").partition("/")
    start = _instant(start_text)
    match = _DURATION.fullmatch(length_text)
    if match is None:
        raise AnswerUnusable(f"{length_text!r} is no duration")
    length = timedelta(**{unit: int(number or 0) for unit, number in match.groupdict().items()})
    start = start.replace(minute=0, second=0, microsecond=0)
    hours = max(1, round(length / _HOUR))
    if hours > _MOST_HOURS:
        raise AnswerUnusable("the answer's times span too much")
    return start, hours * _HOUR


def _instant(told: object) -> datetime:
    text = a_text(told, "time")
    try:
        at = datetime.fromisoformat(text)
        if at.tzinfo is None or not 1940 <= at.year <= 2200:
            raise ValueError(text)
        return at.astimezone(UTC)
    except (ValueError, OverflowError):
        raise AnswerUnusable(f"{text[:40]!r} is no time") from None


def _spread(
    intervals: Sequence[tuple[datetime, timedelta, float]],
    first: datetime,
    size: int,
    *,
    is_amount: bool,
) -> FloatArray:
    out = np.full(size, np.nan)
    for start, length, value in intervals:
        hours = length // _HOUR
        begin = (start - first) // _HOUR
        span = slice(max(0, begin), max(0, begin + hours))
        out[span] = value / hours if is_amount else value
    return out


def _quantity(told: Any, name: str) -> float:
    if told is None:
        return float("nan")
    value = member(told, "value")
    if value is None:
        return float("nan")
    factor = _factor(told.get("unitCode"), name)
    number = a_number(value, name) * factor
    return float(checked(np.array([number]), _OURS[name])[0])


def _factor(unit: object, name: str) -> float:
    code = unit.rpartition(":")[2] if isinstance(unit, str) else ""
    if code not in _UNITS[name]:
        raise AnswerUnusable(f"{name} is in {code!r}, a unit unknown for it")
    return _UNITS[name][code]
