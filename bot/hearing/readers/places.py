"""Places typed as latitude and longitude: ``38.9, -97.6``, ``38°54'N 97°36'W``."""

from __future__ import annotations

import re
from typing import Final

from bot.hearing.expressions import expression
from bot.hearing.phrases import kind
from bot.hearing.readers import lexing
from bot.hearing.readers.reading import Unread

EXAMPLE_PLACE: Final = "38.9, -97.6"

_DEGREES: Final = rf"(?P<{{0}}deg>[-+]?\d{{{{1,3}}}}(?:\.\d+)?)\s*(?:°|º|{kind('degree')})?"
_MINUTES: Final = (
    r"(?:\s*(?P<{0}min>\d{{1,2}}(?:\.\d+)?)\s*'(?:\s*(?P<{0}sec>\d{{1,2}}(?:\.\d+)?)\s*\")?)?"
)
_ANGLE: Final = _DEGREES + _MINUTES
_SIDE: Final = rf"\s*(?P<{{0}}side>[{{1}}]|{kind('side_of_world')})?"
_PLACE: Final = expression(
    rf"^\s*(?:{kind('place_ahead')}\s*:?\s+)?(?:{kind('latitude')}\s*[:=]?\s*)?"
    r"(?:(?P<a_front>[ns])\s*)?"
    + _ANGLE.format("a")
    + _SIDE.format("a", "nsew")
    + rf"\s*[,;/ ]\s*(?:{kind('longitude')})?\s*[:=]?\s*"
    + r"(?:(?P<b_front>[ew])\s*)?"
    + _ANGLE.format("b")
    + _SIDE.format("b", "nsew")
    + r"\s*$",
    re.IGNORECASE,
)
_SPEAKS_OF_A_PLACE: Final = expression(
    "|".join(("°", *map(kind, ("latitude", "longitude", "place_word", "degree")))), re.IGNORECASE
)


def read_place(text: str) -> tuple[float, float] | Unread | None:
    """Read a place.

    Returns
    -------
    (float, float), Unread or None
        Latitude and longitude in degrees (north and east positive); a question where the figures
        are out of range or contradict each other; None where the text is no place at all.
    """
    typed = re.sub(r"(?<=\d),(?=\s*\d+\.\d)", ", ", lexing.plain(text).text.strip().rstrip("."))
    typed = re.sub(r"(?<=\d)\s*(?:by|and|x|y|por)\s*(?=-\d)", ", ", typed)
    match = _PLACE.match(typed)
    if match is None:
        return None
    said = text.strip()
    first = _angle(match, "a")
    second = _angle(match, "b")
    sides = (match["a_front"] or match["aside"], match["b_front"] or match["bside"])
    if first is None or second is None or _is_bare_pair(match):
        return None if _is_bare_pair(match) else _asked(said, "place_minutes")
    letters = tuple((side or "").upper()[:1] for side in sides)
    if letters[0] in {"E", "W"} and letters[1] in {"N", "S", ""}:
        if not letters[1]:
            return _asked(said, "place_order")
        first, second, letters = second, first, (letters[1], letters[0])
    if letters[0] in {"E", "W"} or letters[1] in {"N", "S"}:
        return _asked(said, "place_order")
    latitude = _signed(first, letters[0])
    longitude = _signed(second, letters[1])
    if latitude is None or longitude is None:
        return _asked(said, "place_sign")
    if abs(latitude) > 90.0 or abs(longitude) > 180.0:
        return _asked(said, "place_range")
    if bool(letters[0]) != bool(letters[1]):
        return _asked(said, "place_sign")
    return latitude, longitude


def _is_bare_pair(match: re.Match[str]) -> bool:
    """Tell whether it is two short whole numbers and nothing that speaks of a place."""
    if match["amin"] or match["aside"] or match["a_front"] or match["bside"] or match["b_front"]:
        return False
    if _SPEAKS_OF_A_PLACE.search(match.string):
        return False
    return "." not in match["adeg"] and "." not in match["bdeg"] and "," not in match.string


def _angle(match: re.Match[str], which: str) -> float | None:
    degrees = float(match[f"{which}deg"])
    minutes = float(match[f"{which}min"] or 0.0)
    seconds = float(match[f"{which}sec"] or 0.0)
    if minutes >= 60.0 or seconds >= 60.0:
        return None
    size = abs(degrees) + minutes / 60.0 + seconds / 3600.0
    return -size if match[f"{which}deg"].startswith("-") else size


def _signed(value: float, letter: str) -> float | None:
    if letter and value < 0.0:
        return None
    return -value if letter in {"S", "W"} else value


def _asked(said: str, reason: str) -> Unread:
    return Unread(said, f"reading.{reason}", EXAMPLE_PLACE)
