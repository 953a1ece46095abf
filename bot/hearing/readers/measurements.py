"""Small measurements in words: soil temperatures, depths of water or soil, stretches of time."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import timedelta
from functools import partial
from typing import Final, Literal

from bot.hearing.expressions import expression
from bot.hearing.phrases import Said, phrases, which
from bot.hearing.readers import lexing
from bot.hearing.readers.lexing import NUMBER, UnreadNumber, number_value
from bot.hearing.readers.reading import Unread
from bot.hearing.readers.terms import NoSense, length_unit
from bot.hearing.readers.times import read_time, time_of_day
from jobs.agronomy import units

#: Soil in a lawn, in °C: beyond this a reading is asked about.
COLDEST_C: Final = -15.0
HOTTEST_C: Final = 50.0

#: A grown person's step is some 0.6 to 0.9 m; beyond this a figure is asked about (from memory).
SHORTEST_M: Final = 0.35
LONGEST_M: Final = 1.3
EXAMPLE_PACE: Final = "my pace is 30 in, or 10 paces are 25 ft"

_says: Final = partial(phrases, "measurements")
_TO_M: Final = {"mm": 0.001, "cm": 0.01, "in": units.si_factor("in")}


@dataclass(frozen=True)
class TemperatureRead:
    """A thermometer reading.

    Attributes
    ----------
    temperature_c : float
        In °C.
    depth_m : float or None
        Depth of the probe, where it was said.
    hour : float or None
        Local hour of the day, 0 to 24, where it was said.
    words : str
        What else was said: the name of a zone, perhaps, or "this morning".
    """

    temperature_c: float
    depth_m: float | None
    hour: float | None
    words: str


def read_depth(text: str) -> float | Unread:
    """Return a depth of water or soil in metres, from ``0.4 in`` or ``12 mm``."""
    typed = lexing.plain(text).text.strip().rstrip(".")
    said = _says("depth").whole(typed)
    if said is None:
        reason = "depth_unit" if re.fullmatch(NUMBER, typed, re.IGNORECASE) else "depth"
        return Unread(text.strip(), f"reading.{reason}", "0.4 in, or 10 mm")
    try:
        return _depth_m(said)
    except UnreadNumber:
        return Unread(text.strip(), "reading.depth", "0.4 in, or 10 mm")


def read_temperature_reading(
    text: str, default_unit: Literal["F", "C"]
) -> TemperatureRead | Unread | None:
    """Read ``soil 52`` or ``11.5 C at 3 in, 4 pm``; None where there is no temperature in it.

    A number that no soil has in the unit assumed is asked about.
    """
    said = text.strip()
    typed = lexing.plain(text).text
    soil = _says("soil").at_start(typed.lstrip(" /"))
    rest = typed if soil is None else soil.after
    depth, rest = _taken(_says("at_depth").first(rest), rest)
    hour = time_of_day().search(rest)
    rest = rest if hour is None else f"{rest[: hour.start()]} {rest[hour.end() :]}"
    temperature, rest = _taken(_says("temperature").first(rest), rest)
    if temperature is None:
        return None
    if re.search(r"\d", rest):
        return _asked(said, "temperature")
    value = float(temperature["number"])
    unit = which("measurements", _DEGREES, temperature["unit"])
    celsius = value if (unit or default_unit) == "C" else units.c_from_f(value)
    if not COLDEST_C <= celsius <= HOTTEST_C:
        return _asked(said, "temperature_range" if unit else "temperature_unit")
    if not unit and default_unit == "F" and value < 25.0:
        return _asked(said, "temperature_unit")
    read_hour = read_time(hour.group(0)) if hour else None
    if isinstance(read_hour, Unread):
        return read_hour
    try:
        depth_m = None if depth is None else _depth_m(depth)
    except UnreadNumber:
        return _asked(said, "depth", "0.4 in, or 10 mm")
    return TemperatureRead(
        celsius,
        depth_m,
        None if read_hour is None else read_hour.hour + read_hour.minute / 60.0,
        re.sub(r"\s+", " ", rest).strip(" ,.;:-"),
    )


def read_duration(text: str) -> timedelta | Unread:
    """Read a stretch of time: ``3 days``, ``2 weeks``, ``6 h``, ``1 day 6 hours``, ``P3D``."""
    said = text.strip()
    typed = lexing.plain(text).text.strip().rstrip(".").lower()
    iso = _ISO.fullmatch(typed.upper())
    if iso and any(iso.groups()):
        parts = {name: float(value) for name, value in iso.groupdict().items() if value}
        if max(parts.values()) > _MOST:
            return _asked(said, "duration", "3 days")
        return timedelta(**parts)
    typed = re.sub(r"(?<=[^\W\d])(?=\d)", " ", typed)
    typed = _says("half").without(typed, lambda half: f"0.5 {half['of']}")
    typed = _says("one").without(typed, lambda one: f"1 {one['of']}")
    typed = re.sub(
        lexing.WORD_NUMBER, lambda word: str(lexing.word_number_value(word.group())), typed
    )
    spans = list(_says("part").every(typed))
    between = _says("joint").without(_says("part").without(typed), " ")
    if not spans or between.strip(" ,"):
        is_months = _says("months").first(typed)
        return _asked(said, "duration_months" if is_months else "duration", "3 days")
    values = [
        (float(part["number"]), _SPANS[which("values", _SPANS, part["unit"]) or "day"])
        for part in spans
    ]
    total = sum((number * span for number, span in values if number <= _MOST), timedelta())
    if total <= timedelta() or max(number for number, _ in values) > _MOST:
        return _asked(said, "duration", "3 days")
    return total


def read_pace(text: str) -> float | Unread | None:
    """Read the length of a pace in metres; None where the text is about something else.

    A figure without a unit, or one that no grown person walks, is asked about.
    """
    said = text.strip()
    pace = _says("pace").whole(lexing.plain(text).text.strip(" .!"))
    if pace is None:
        return None
    try:
        total_m = units.to_si(number_value(pace["first"]), length_unit(pace["unit"]))
        if pace["second"]:
            if length_unit(pace["unit"]) != "ft" or number_value(pace["second"]) >= 12.0:
                return _asked(said, "pace_unit", EXAMPLE_PACE)
            total_m += units.to_si(number_value(pace["second"]), "in")
        count = lexing.value_of(pace["count"] or "1")
    except (UnreadNumber, NoSense, units.UnknownUnit):
        return _asked(said, "pace_unit", EXAMPLE_PACE)
    if count <= 0.0 or not SHORTEST_M <= total_m / count <= LONGEST_M:
        return _asked(said, "pace_range", EXAMPLE_PACE)
    return total_m / count


#: Degrees, by the names of their phrases.
_DEGREES: Final = ("F", "C")
_ISO: Final = expression(
    r"P(?:(?P<weeks>\d+(?:\.\d+)?)W)?(?:(?P<days>\d+(?:\.\d+)?)D)?"
    r"(?:T(?:(?P<hours>\d+(?:\.\d+)?)H)?(?:(?P<minutes>\d+(?:\.\d+)?)M)?"
    r"(?:(?P<seconds>\d+(?:\.\d+)?)S)?)?"
)
#: No stretch of time is given in more of anything.
_MOST: Final = 100_000.0
_SPANS: Final = {
    "week": timedelta(weeks=1),
    "day": timedelta(days=1),
    "h": timedelta(hours=1),
    "minute": timedelta(minutes=1),
}


def _taken(found: Said | None, text: str) -> tuple[Said | None, str]:
    return (None, text) if found is None else (found, f"{found.before} {found.after}")


def _depth_m(said: Said) -> float:
    unit = which("values", _TO_M, said["unit"])
    return number_value(said["number"]) * _TO_M[unit or "in"]


def _asked(said: str, reason: str, example: str = "soil 52 F at 2 in, 4 pm") -> Unread:
    return Unread(said, f"reading.{reason}", example)
