"""Small measurements in words: soil temperatures, depths of water or soil, stretches of time."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import timedelta
from typing import Final, Literal

from bot.hearing.expressions import expression
from bot.hearing.readers import lexing
from bot.hearing.readers.lexing import NUMBER, UnreadNumber, number_value
from bot.hearing.readers.reading import Unread
from bot.hearing.readers.times import TIME, read_time
from jobs.agronomy import units

#: Soil in a lawn, in °C: beyond this a reading is asked about.
COLDEST_C: Final = -15.0
HOTTEST_C: Final = 50.0

_DEPTH_UNIT: Final = (
    r"(?P<unit>\"|in\b\.?|inch(?:es)?\b|mm\b|cm\b|millimet(?:er|re)s?\b|centimet(?:er|re)s?\b)"
)
_DEPTH: Final = expression(rf"(?P<number>{NUMBER})\s*-?\s*{_DEPTH_UNIT}", re.IGNORECASE)
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
    match = _DEPTH.fullmatch(typed)
    if match is None:
        reason = "depth_unit" if re.fullmatch(NUMBER, typed, re.IGNORECASE) else "depth"
        return Unread(text.strip(), f"reading.{reason}", "0.4 in, or 10 mm")
    try:
        return _depth_m(match)
    except UnreadNumber:
        return Unread(text.strip(), "reading.depth", "0.4 in, or 10 mm")


def read_temperature_reading(
    text: str, default_unit: Literal["F", "C"]
) -> TemperatureRead | Unread | None:
    """Read ``soil 52`` or ``11.5 C at 3 in, 4 pm``; None where there is no temperature in it.

    A number that no soil has in the unit assumed is asked about.
    """
    said = text.strip()
    rest = re.sub(
        r"^\s*/?soil\b\s*(?:temp(?:erature)?\b)?\s*[:=]?",
        "",
        lexing.plain(text).text,
        flags=re.IGNORECASE,
    )
    depth, rest = _take(_DEPTH_PHRASE, rest)
    hour, rest = _take(_TIME_PHRASE, rest)
    temperature, rest = _take(_TEMPERATURE, rest)
    if temperature is None:
        return None
    if re.search(r"\d", rest):
        return _asked(said, "temperature")
    value = float(temperature["number"])
    unit = (temperature["unit"] or "").upper()[:1]
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
    typed = re.sub(r"\b(?:an?|one)\s+(?=[a-z])", "1 ", re.sub(r"\bhalf an?\b", "0.5", typed))
    typed = re.sub(
        lexing.WORD_NUMBER, lambda word: str(lexing.word_number_value(word.group())), typed
    )
    if not _SPAN.fullmatch(typed):
        is_months = re.search(r"\d\s*(?:months?|years?)\b", typed)
        return _asked(said, "duration_months" if is_months else "duration", "3 days")
    total = timedelta()
    for number, unit in _SPAN_PART.findall(typed):
        if float(number) > _MOST:
            return _asked(said, "duration", "3 days")
        total += float(number) * _SPANS[unit[0]]
    if total <= timedelta():
        return _asked(said, "duration", "3 days")
    return total


_TEMPERATURE: Final = expression(
    r"(?<![\d.])(?P<number>-?\d+(?:\.\d+)?)\s*(?:°|deg(?:rees?)?\b)?\s*(?P<unit>(?:fahrenheit|celsius|f|c)\b)?",
    re.IGNORECASE,
)
_DEPTH_PHRASE: Final = expression(
    rf"(?:\bat\s+)?(?P<number>{NUMBER})\s*-?\s*{_DEPTH_UNIT}(?:\s*(?:deep|down|depth)\b)?",
    re.IGNORECASE,
)
_TIME_PHRASE: Final = expression(rf"(?:\bat\s+)?{TIME}", re.IGNORECASE)
_ISO: Final = expression(
    r"P(?:(?P<weeks>\d+(?:\.\d+)?)W)?(?:(?P<days>\d+(?:\.\d+)?)D)?"
    r"(?:T(?:(?P<hours>\d+(?:\.\d+)?)H)?(?:(?P<minutes>\d+(?:\.\d+)?)M)?"
    r"(?:(?P<seconds>\d+(?:\.\d+)?)S)?)?"
)
#: No stretch of time is given in more of anything.
_MOST: Final = 100_000.0
_SPANS: Final = {
    "w": timedelta(weeks=1),
    "d": timedelta(days=1),
    "h": timedelta(hours=1),
    "m": timedelta(minutes=1),
}
_SPAN_PART: Final = expression(
    r"(\d+(?:\.\d+)?)\s*(weeks?|wks?|w|days?|d|hours?|hrs?|h|minutes?|mins?|m)\b"
)
_SPAN: Final = expression(rf"(?:{_SPAN_PART.pattern}\s*(?:,|and)?\s*)+")


def _take(pattern: re.Pattern[str], text: str) -> tuple[re.Match[str] | None, str]:
    match = pattern.search(text)
    if match is None:
        return None, text
    return match, f"{text[: match.start()]} {text[match.end() :]}"


def _depth_m(match: re.Match[str]) -> float:
    unit = match["unit"].lower()
    kind = "cm" if unit.startswith("c") else "mm" if unit.startswith("m") else "in"
    return number_value(match["number"]) * _TO_M[kind]


def _asked(said: str, reason: str, example: str = "soil 52 F at 2 in, 4 pm") -> Unread:
    return Unread(said, f"reading.{reason}", example)
