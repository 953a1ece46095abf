"""Lawns measured as a list of figures, with commas inside: read as one size.

``traverse 60 ft at 90°, 40 ft at 0°, ...``, ``corners (0, 0) (10, 0) (10, 7.3) m`` and
``modified offsets 120 x 80 ft every 20 ft, left 5, 8, 10 right 4, 6, 9``. They are lifted out of a
text before it is cut at its commas, so that names, plus and minus work around them as around any
other size.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Final

from bot.hearing.readers.lexing import NUMBER, Traced, figures, number_value, plain
from bot.hearing.readers.reading import Note
from bot.hearing.readers.size_prose import pattern_of
from bot.hearing.readers.terms import LENGTH, SURVEY_MARK, Measure, NoSense, length_unit
from jobs.agronomy import shapes, units
from jobs.agronomy.shapes import Shape


@dataclass(frozen=True)
class Survey:
    """A survey read: its shape, how we write it, what to tell, its longest side."""

    shape: Shape
    echo: str
    notes: tuple[Note, ...]
    longest_m: float


def lift(text: Traced) -> Traced:
    """Return the text with each survey replaced by `SURVEY_MARK`."""
    return text.sub(
        pattern_of("survey"), lambda match: SURVEY_MARK if _is_plain(match) else match.group()
    )


def read(said: str, inherited: str, pace_m: float | None) -> Survey:
    """Return what a lifted survey means.

    Raises
    ------
    NoSense
        If figures are missing or have two meanings.
    ImpossibleShape
        If no such lawn can exist.
    """
    text = plain(said).text
    match = pattern_of("survey").fullmatch(text)
    if match is None:
        raise NoSense("unclear")
    if match["legs"] is not None:
        return _traverse(match["legs"], inherited, pace_m)
    if match["pairs"] is not None:
        return _corners(match["pairs"], match["pairs_unit"], inherited, pace_m)
    return _modified(text, inherited, pace_m)


_EXAMPLES: Final = {
    "traverse": "traverse 60 ft at 90°, 40 ft at 0°, 60 ft at 270°, 40 ft at 180°",
    "corners": "corners (0, 0) (60, 0) (60, 40) (0, 40) ft",
    "modified": "modified offsets 60 x 40 ft every 20 ft, left 5, 8, 4 right 3, 6, 2",
}


def _is_plain(match: re.Match[str]) -> bool:
    """Tell whether it must be a survey: without its word, "north 60, east 40" may be a list."""
    if match["legs"] is None or match["word"] is not None:
        return True
    return pattern_of("with_unit").search(match["legs"]) is not None


def _measures(text: str) -> list[Measure]:
    found: list[Measure] = []
    for each in pattern_of("measured").finditer(text):
        number, *inches = re.findall(NUMBER, each.group(), re.IGNORECASE)
        unit = re.search(LENGTH, each.group(), re.IGNORECASE)
        if inches and number_value(inches[0]) >= 12:
            raise NoSense("inches", "60 ft 6 in", number=inches[0])
        own = None if unit is None else length_unit(unit.group())
        extra = number_value(inches[0]) if inches else 0.0
        found.append(Measure(number_value(number), own, "", inches=extra))
    return found


def _shared_unit(measures: list[Measure], inherited: str) -> str:
    """Return the unit of the figures that have none: the only one named, else the usual one."""
    named = {measure.unit for measure in measures if measure.unit is not None}
    if len(named) > 1 and any(measure.unit is None for measure in measures):
        raise NoSense("which_unit", _EXAMPLES["traverse"])
    unit = named.pop() if named else inherited
    if not unit:
        raise NoSense("which_unit", _EXAMPLES["traverse"])
    return unit


def _traverse(legs: str, inherited: str, pace_m: float | None) -> Survey:
    bearings: list[float] = []

    def take(match: re.Match[str]) -> str:
        bearings.append(_bearing(match.group()))
        return " ; "

    sides = _measures(pattern_of("bearing").sub(take, legs))
    unit = _shared_unit(sides, inherited)
    is_quadrant_bare = pattern_of("quadrant").search(legs)
    if is_quadrant_bare and all(side.unit is None for side in sides):
        raise NoSense("bearing", _EXAMPLES["traverse"])  # N 60 E 40: an angle, or two sides?
    if len(sides) != len(bearings):
        raise NoSense("shape", _EXAMPLES["traverse"])
    if any(not 0.0 <= bearing <= 360.0 for bearing in bearings):
        raise NoSense("bearing", _EXAMPLES["traverse"])
    lengths = [side.in_m(unit, pace_m) for side in sides]
    shape = shapes.Traverse(tuple(lengths), tuple(bearings))
    pairs = zip(sides, bearings, strict=True)
    said = ", ".join(f"{side.echo(unit)} at {figures(bearing)}°" for side, bearing in pairs)
    notes = (_closing(shape, "ft" if unit == "pace" else unit),)
    return Survey(shape, f"traverse {said}", notes, max(lengths))


def _closing(shape: shapes.Traverse, unit: str) -> Note:
    gap = units.from_si(shape.closing_error_m, unit)
    share = shape.closing_error_m / shape.length_m
    around = units.from_si(shape.length_m, unit)
    if share < 0.0005:
        return Note("reading.note_closes", (("around", f"{figures(round(around, 1))} {unit}"),))
    return Note(
        "reading.note_closing_error",
        (
            ("gap", f"{figures(round(gap, 2))} {unit}"),
            ("around", f"{figures(round(around, 1))} {unit}"),
            ("percent", figures(round(share * 100.0, 1))),
        ),
    )


#: Points of the compass from north, 22.5 degrees apart.
_POINTS: Final = re.findall(r"\w+", "n nne ne ene e ese se sse s ssw sw wsw w wnw nw nnw")


def _bearing(written: str) -> float:
    """Return degrees clockwise from north, from 90°, N 45 E or south-west."""
    text = pattern_of("bearing_words").sub(" ", written.lower())
    quadrant = re.search(r"\b([ns])\s*(\d+(?:\.\d+)?)\D*([ew])\b", text)
    if quadrant is not None:
        angle = float(quadrant[2])
        if angle > 90.0:
            raise NoSense("bearing", _EXAMPLES["traverse"])
        base, turn = (0.0, 1.0) if quadrant[1] == "n" else (180.0, -1.0)
        return (base + (turn if quadrant[3] == "e" else -turn) * angle) % 360.0
    number = re.search(r"-?\d+(?:\.\d+)?", text)
    if number is not None:
        return float(number.group())
    for name in ("north", "south", "west", "east"):
        text = pattern_of(name).sub(name[0], text)
    letters = re.sub(r"[\s-]", "", text)
    if letters not in _POINTS:
        raise NoSense("bearing", _EXAMPLES["traverse"])
    return _POINTS.index(letters) * 22.5


def _corners(pairs: str, written: str | None, inherited: str, pace_m: float | None) -> Survey:
    unit = inherited if written is None else length_unit(written)
    if not unit:
        raise NoSense("which_unit", _EXAMPLES["corners"])
    numbers = [float(number) for number in re.findall(r"-?(?:\d+\.\d+|\.\d+|\d+)", pairs)]
    each_m = Measure(1.0, unit, "").in_m(unit, pace_m)
    points = list(zip(numbers[0::2], numbers[1::2], strict=True))
    if len(points) > 3 and points[0] == points[-1]:
        points.pop()  # the first corner said again to close the ring
    shape = shapes.Corners(tuple((east * each_m, north * each_m) for east, north in points))
    said = " ".join(f"({east:.10g}, {north:.10g})" for east, north in points)
    plural = "paces" if unit == "pace" else unit
    longest = max(max(abs(a), abs(b)) for a, b in shape.points_m)
    return Survey(shape, f"corners {said} {plural}", (), longest)


def _modified(text: str, inherited: str, pace_m: float | None) -> Survey:
    match = pattern_of("survey").fullmatch(text)
    assert match is not None
    length, width = _measures(match["around"])
    every = [each.group() for each in pattern_of("every").finditer(match["parts"])]
    beside = {
        "left" if pattern_of("left").search(part.group()) else "right": _measures(part.group())
        for part in pattern_of("on_a_side").finditer(match["parts"])
    }
    if len(every) != 1 or set(beside) != {"left", "right"}:
        raise NoSense("shape", _EXAMPLES["modified"])
    (spacing,) = _measures(every[0])
    unit = _shared_unit([length, width, spacing, *beside["left"], *beside["right"]], inherited)

    def metres(measures: list[Measure]) -> tuple[float, ...]:
        return tuple(measure.in_m(unit, pace_m) for measure in measures)

    shape = shapes.ModifiedOffsets(
        length.in_m(unit, pace_m),
        width.in_m(unit, pace_m),
        spacing.in_m(unit, pace_m),
        metres(beside["left"]),
        metres(beside["right"]),
    )

    def said(measures: list[Measure]) -> str:
        return ", ".join(measure.echo(unit) for measure in measures)

    echo = (
        f"modified offsets {length.echo(unit)} x {width.echo(unit)} every {spacing.echo(unit)}, "
        f"left {said(beside['left'])} right {said(beside['right'])}"
    )
    return Survey(shape, echo, (), max(shape.length_m, shape.width_m))
