"""What every parser of a service's answer needs: checked JSON, checked numbers, checked places.

Whatever an answer holds, these raise nothing but `AnswerUnusable`.
"""

from __future__ import annotations

import json
import math
from typing import Any

import numpy as np

from jobs.agronomy.series import FloatArray
from jobs.sources.base import AnswerUnusable, Cell

#: What can be true at the surface of the Earth, lowest and highest; bounds lie just beyond the
#: published world records of air temperature (-89.2 and 56.7 °C), rain of a day and an hour (1,825
#: and 305 mm) and wind kept by the World Meteorological Organization's archive of weather
#: extremes, quoted from memory.
POSSIBLE = {
    "soil5_c": (-70.0, 80.0),
    "tmean_c": (-90.0, 60.0),
    "tmin_c": (-90.0, 60.0),
    "tmax_c": (-90.0, 60.0),
    "rain_mm": (0.0, 2000.0),
    "wind_m_s": (0.0, 120.0),
    "humidity_pct": (0.0, 110.0),
}

#: A grid cell's centre may lie this far from the place asked for; the coarsest grids in use are
#: 0.25 degrees wide, and a coastal place may be given the next cell on land.
FARTHEST_KM = 60.0


def read_json(body: bytes) -> Any:
    """Return what a body says in JSON."""
    try:
        return json.loads(body)
    except (ValueError, RecursionError):
        start = body[:40].decode("ascii", "replace")
        raise AnswerUnusable(f"the answer is no JSON; it begins {start!r}") from None


def member(parent: object, *path: str) -> Any:
    """Return what stands at a path of names in nested objects."""
    for name in path:
        if not isinstance(parent, dict) or name not in parent:
            raise AnswerUnusable(f"the answer lacks {'.'.join(path)}")
        parent = parent[name]
    return parent


def a_list(value: object, what: str) -> list[Any]:
    """Return the value, a list."""
    if not isinstance(value, list):
        raise AnswerUnusable(f"{what} is no list")
    return value


def a_text(value: object, what: str) -> str:
    """Return the value, a text of sensible length."""
    if not isinstance(value, str) or not 0 < len(value) <= 300:
        raise AnswerUnusable(f"{what} is no text")
    return value


def a_number(value: object, what: str) -> float:
    """Return the value, a finite number."""
    if type(value) not in (int, float):
        raise AnswerUnusable(f"{what} is no number")
    try:
        number = float(value)  # type: ignore[arg-type]
    except OverflowError:
        number = math.inf
    if not math.isfinite(number):
        raise AnswerUnusable(f"{what} is no number")
    return number


def numbers(values: object, size: int, what: str) -> FloatArray:
    """Return an array of that size in which nulls are NaN.

    Raises
    ------
    AnswerUnusable
        Also for a value that no place on Earth ever had, where `POSSIBLE` knows ``what``.
    """
    listed = a_list(values, what)
    if len(listed) != size:
        raise AnswerUnusable(f"{what} has {len(listed)} values for {size} times")
    out = np.array([math.nan if v is None else a_number(v, what) for v in listed], dtype=float)
    return checked(out, what)


def checked(values: FloatArray, what: str) -> FloatArray:
    """Return the values, all of them possible.

    Raises
    ------
    AnswerUnusable
        Naming the first that is not.
    """
    lowest, highest = POSSIBLE.get(what, (-math.inf, math.inf))
    wrong = (values < lowest) | (values > highest)
    if wrong.any():
        raise AnswerUnusable(f"{what} of {values[wrong][0]:g} cannot be true")
    return values


def check_place(lat: float, lon: float, asked: Cell) -> None:
    """Check that an answer is for the place asked about.

    Raises
    ------
    AnswerUnusable
        When it is not.
    """
    km = distance_km((lat, lon), (asked.lat, asked.lon))
    if not km <= FARTHEST_KM:
        raise AnswerUnusable(
            f"the answer is for {lat:g}, {lon:g}, not for {asked.lat:.2f}, {asked.lon:.2f}"
        )


def distance_km(one: tuple[float, float], other: tuple[float, float]) -> float:
    """Return the great-circle distance of two places given as latitude and longitude [degrees]."""
    lat1, lon1, lat2, lon2 = map(math.radians, (*one, *other))
    half = (
        math.sin((lat2 - lat1) / 2) ** 2
        + math.cos(lat1) * math.cos(lat2) * math.sin((lon2 - lon1) / 2) ** 2
    )
    return 2 * 6371.0 * math.asin(min(1.0, math.sqrt(max(0.0, half))))
