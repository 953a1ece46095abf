"""Reading Open-Meteo's answers; see `jobs.sources.open_meteo` for what was asked.

Answers come as one object for one place and as a list for several, in the order asked; the first
object of a list has no ``location_id``. Coordinates are those of the grid cell.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from typing import Any

import numpy as np

from jobs.agronomy.series import DailySeries, FloatArray
from jobs.sources.answers import a_list, a_number, check_place, member, numbers, read_json
from jobs.sources.base import AnswerUnusable, Cell
from jobs.sources.hours import Hours

#: Hourly variables of the forecast: our name, theirs, and the unit we ask for.
HOURLY = (
    ("soil5_c", "soil_temperature_6cm", "°C"),
    ("tmean_c", "temperature_2m", "°C"),
    ("rain_mm", "precipitation", "mm"),
    ("wind_m_s", "wind_speed_10m", "m/s"),
    ("humidity_pct", "relative_humidity_2m", "%"),
)
#: Daily variables of the archive.
DAILY = (
    ("soil5_c", "soil_temperature_0_to_7cm_mean", "°C"),
    ("tmean_c", "temperature_2m_mean", "°C"),
    ("tmin_c", "temperature_2m_min", "°C"),
    ("tmax_c", "temperature_2m_max", "°C"),
    ("rain_mm", "precipitation_sum", "mm"),
)

_HOUR_S = 3600
_DAY_S = 86_400
#: Times an answer may hold [Unix seconds]: from 1940, where the archive begins, to 2200.
_TIMES = (-946_771_200, 7_258_118_400)
#: Longest span of an answer in steps; anything longer is nonsense.
_MOST_STEPS = 100_000


@dataclass(frozen=True, slots=True)
class GridHours:
    """A grid cell's hours."""

    lat: float
    lon: float
    hours: Hours


def read_forecast(body: bytes, asked: Sequence[Cell]) -> list[GridHours | AnswerUnusable]:
    """Return the hours of every cell asked about, in order, or what is wrong with its part.

    Raises
    ------
    AnswerUnusable
        When the answer as a whole cannot be read.
    """
    return [
        _tried(_grid_hours, told, cell)
        for told, cell in zip(_one_each(body, len(asked)), asked, strict=True)
    ]


def read_archive(
    body: bytes, asked: Sequence[Cell], utc_offset: timedelta
) -> list[DailySeries | AnswerUnusable]:
    """Return the days of every cell asked about, in order, or what is wrong with its part.

    Parameters
    ----------
    body
        The answer.
    asked
        The cells.
    utc_offset
        The offset the days were asked to be cut at.

    Raises
    ------
    AnswerUnusable
        When the answer as a whole cannot be read.
    """
    return [
        _tried(_archive_days, told, cell, utc_offset)
        for told, cell in zip(_one_each(body, len(asked)), asked, strict=True)
    ]


def _tried(read: Any, *args: Any) -> Any:
    try:
        return read(*args)
    except AnswerUnusable as trouble:
        return trouble


def _one_each(body: bytes, count: int) -> list[Any]:
    told = read_json(body)
    parts = told if isinstance(told, list) else [told]
    if len(parts) != count:
        raise AnswerUnusable(f"the answer is for {len(parts)} places, not for {count}")
    for position, part in enumerate(parts):
        if isinstance(part, dict) and part.get("location_id", position) != position:
            raise AnswerUnusable("the answer mixes up the places")
    return parts


def _grid_hours(told: object, cell: Cell) -> GridHours:
    lat, lon = _place(told, cell)
    hourly = member(told, "hourly")
    at = _steps(member(hourly, "time"), _HOUR_S, 0)
    columns = {
        ours: _column(told, "hourly", at, ours, theirs, unit) for ours, theirs, unit in HOURLY
    }
    # Their rain at an hour fell in the hour before; ours falls in the hour that begins then.
    rain = np.append(columns["rain_mm"][1:], np.nan)
    hours = Hours(
        first_hour=datetime(1970, 1, 1, tzinfo=UTC) + timedelta(hours=int(at[0])),
        air_c=columns["tmean_c"],
        rain_mm=rain,
        wind_m_s=columns["wind_m_s"],
        humidity_pct=columns["humidity_pct"],
        soil5_c=columns["soil5_c"],
    )
    return GridHours(lat, lon, hours)


def _archive_days(told: object, cell: Cell, utc_offset: timedelta) -> DailySeries:
    _place(told, cell)
    offset_s = a_number(member(told, "utc_offset_seconds"), "utc_offset_seconds")
    if offset_s != utc_offset.total_seconds():
        raise AnswerUnusable(f"days are cut {offset_s:g} s from UTC, not as asked")
    at = _steps(member(told, "daily", "time"), _DAY_S, int(offset_s))
    columns = [_column(told, "daily", at, ours, theirs, unit) for ours, theirs, unit in DAILY]
    return DailySeries(date(1970, 1, 1) + timedelta(days=int(at[0])), *columns)


def _place(told: object, cell: Cell) -> tuple[float, float]:
    lat = a_number(member(told, "latitude"), "latitude")
    lon = a_number(member(told, "longitude"), "longitude")
    check_place(lat, lon, cell)
    return lat, lon


def _steps(told: object, step_s: int, shift_s: int) -> FloatArray:
    """Return step numbers since 1970 of times that ascend by whole steps."""
    times = np.array([a_number(value, "time") for value in a_list(told, "time")], dtype=float)
    if not len(times):
        raise AnswerUnusable("the answer holds no times")
    if times.min() < _TIMES[0] or times.max() > _TIMES[1]:
        raise AnswerUnusable("the answer's times cannot be true")
    steps = (times + shift_s) / step_s
    if (steps != np.floor(steps)).any() or (np.diff(steps) < 1).any():
        raise AnswerUnusable("the answer's times do not follow each other")
    if steps[-1] - steps[0] >= _MOST_STEPS:
        raise AnswerUnusable("the answer's times span too much")
    return steps


def _column(
    told: object, block: str, at: FloatArray, ours: str, theirs: str, unit: str
) -> FloatArray:
    """Return a variable on every step from the first to the last."""
    units = told.get(f"{block}_units") if isinstance(told, dict) else None
    if isinstance(units, dict) and units.get(theirs, unit) != unit:
        raise AnswerUnusable(f"{theirs} is in {units[theirs]!r}, not in {unit}")
    values = numbers(member(told, block, theirs), len(at), ours)
    whole = np.full(int(at[-1] - at[0]) + 1, np.nan)
    whole[(at - at[0]).astype(int)] = values
    return whole
