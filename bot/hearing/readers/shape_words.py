"""Shapes that are named: ``circle 40 ft across``, ``triangle 30, 40, 50``, ``offsets ...``."""

from __future__ import annotations

import re
from functools import partial
from typing import Final

from bot.hearing.phrases import phrases
from bot.hearing.readers.lexing import figures
from bot.hearing.readers.terms import Measure, NoSense, Term
from bot.hearing.words import bare, finder
from jobs.agronomy import shapes
from jobs.agronomy.shapes import Shape

_says: Final = partial(phrases, "sizes")
#: Shapes by the names of their phrases; what is part of another's comes behind it.
_SHARE_OF_CIRCLE: Final = {
    "half circle": 0.5,
    "three-quarter circle": 0.75,
    "quarter circle": 0.25,
}
_KINDS: Final = (
    *("offsets", "radii", *_SHARE_OF_CIRCLE, "circle", "oval", "triangle", "trapezoid"),
    *("square", "L", "other"),
)
_QUALIFIERS: Final = ("across", "radius", "height", "qualifier")


def kind_of(term: Term, *, is_only: bool = True) -> str | None:
    """Return the kind of shape the words of a term name, or None for a plain size.

    An area is an area, whatever the shape; length by width with the word "square" is a rectangle,
    and so is each part of an L that is written as a sum or a difference.
    """
    if len(term.measures) == 1 and term.area_unit:
        return None
    for kind in _named(term.words):
        is_rectangle = len(term.measures) == 2 and (
            kind == "square" or (kind == "L" and not is_only)
        )
        return None if is_rectangle else kind
    is_round = len(term.measures) == 1 and _says("round").first(term.words)
    return "circle" if is_round else None


def without(words: str) -> str:
    """Return words without those that name a shape or say what its figures are."""
    for name in _named(words):
        words = _says(name).without(words)
    return _unqualified(words)


def _unqualified(words: str) -> str:
    for name in _QUALIFIERS:
        words = _says(name).without(words)
    return " ".join(words.split())


def name_of(words: str) -> str:
    """Return the name of a zone: all but the qualifiers, nothing where only a shape is named."""
    named = _named(words)
    if named or _says("round").first(words):
        # "wedge triangle" is a wedge by name; the shape is the triangle.
        is_named_twice = "other" in named and len(named) > 1
        if finder("zones").fullmatch(bare(without(words))):
            # "Back triangle" is the back.
            return without(words)
        if not is_named_twice and not re.search(r"\w", without(words)):
            return ""
        return _unqualified(words)
    return words


def example_of(text: str) -> str | None:
    """Return a right way to write the shape a text names; None where it names none."""
    return next((_EXAMPLES[kind] for kind in _named(text) if kind in _EXAMPLES), None)


def _named(words: str) -> list[str]:
    """Return the kinds of shape that words name."""
    if not re.search(r"[^\W\d]", words):
        return []
    named = [kind for kind in _KINDS if _says(kind).first(words)]
    is_larger = "three-quarter circle" in named
    return [kind for kind in named if not (is_larger and kind == "quarter circle")]


def shape_of(kind: str, term: Term, inherited: str, pace_m: float | None) -> tuple[Shape, str]:
    """Return a named shape and how we write it.

    Raises
    ------
    NoSense
        If its figures do not fit the kind.
    ImpossibleShape
        If no such shape can exist.
    """
    if term.area_unit or kind in {"L", "other"}:
        raise NoSense("shape", _EXAMPLES.get(kind, "front 60 x 40 ft plus 20 x 10 ft"))
    unit = next((m.unit for m in reversed(term.measures) if m.unit), None)
    if unit is None and term.spacing is not None:
        unit = term.spacing.unit
    unit = unit or inherited
    if not unit:
        raise NoSense("which_unit", f"{_EXAMPLES.get(kind, 'front 12 x 8 m')}")
    lengths = [measure.in_m(unit, pace_m) for measure in term.measures]
    said = ", ".join(measure.echo(unit) for measure in term.measures)
    if kind == "offsets":
        return _offsets(term, lengths, said, unit, pace_m)
    if term.spacing is not None:
        raise NoSense("shape", _EXAMPLES[kind])
    if kind == "radii":
        return shapes.AverageRadius(tuple(lengths)), f"radii {said}"
    if kind == "circle" or kind in _SHARE_OF_CIRCLE:
        return _round(kind, term, lengths, said)
    return _cornered(kind, term, lengths, unit, said)


_EXAMPLES: Final = {
    "circle": "circle 40 ft across, or circle radius 20 ft",
    "half circle": "half circle radius 20 ft",
    "quarter circle": "quarter circle radius 20 ft",
    "three-quarter circle": "three-quarter circle radius 20 ft",
    "L": "front 60 x 40 ft minus 20 x 15 ft",
    "oval": "oval 60 x 40 ft",
    "triangle": "triangle 40 x 30 ft, or triangle 30, 40, 50 ft",
    "trapezoid": "trapezoid 50, 70, 40 ft deep",
    "square": "square 30 ft",
    "offsets": "offsets 0, 18, 26, 31, 29, 20, 0 ft every 12 ft",
    "radii": "radii 30, 32, 29, 31 ft",
}


def _round(kind: str, term: Term, lengths: list[float], said: str) -> tuple[Shape, str]:
    is_across = _says("across").first(term.words) is not None
    is_radius = _says("radius").first(term.words) is not None
    if len(lengths) != 1 or is_across == is_radius:
        raise NoSense("radius_or_diameter", _EXAMPLES[kind])
    radius_m = lengths[0] / 2.0 if is_across else lengths[0]
    echo = f"{kind} {said} across" if is_across else f"{kind} radius {said}"
    if kind == "circle":
        return shapes.Circle(radius_m), echo
    return shapes.PartCircle(radius_m, _SHARE_OF_CIRCLE[kind]), echo


def _cornered(
    kind: str, term: Term, lengths: list[float], unit: str, said: str
) -> tuple[Shape, str]:
    by = " x ".join(measure.echo(unit) for measure in term.measures)
    match kind, lengths:
        case "oval", [length_m, width_m]:
            return shapes.Ellipse(length_m, width_m), f"oval {by}"
        case "triangle", [base_m, height_m]:
            return shapes.Triangle(base_m, height_m), f"triangle {by}"
        case "triangle", [a_m, b_m, c_m]:
            return shapes.TriangleOfSides(a_m, b_m, c_m), f"triangle {said}"
        case "square", [side_m]:
            return shapes.Square(side_m), f"square {said}"
        case "trapezoid", [a_m, b_m, height_m] if _says("height").first(term.trail):
            return shapes.Trapezoid(a_m, b_m, height_m), f"trapezoid {said} deep"
    raise NoSense("shape", _EXAMPLES[kind])


def _offsets(
    term: Term, lengths: list[float], said: str, unit: str, pace_m: float | None
) -> tuple[Shape, str]:
    spacing: Measure | None = term.spacing
    if spacing is None:
        raise NoSense("shape", _EXAMPLES["offsets"])
    if not spacing.in_m(unit, pace_m):
        raise NoSense("zero", _EXAMPLES["offsets"])
    line = ""
    if term.baseline is not None:
        strips = term.baseline.in_m(unit, pace_m) / spacing.in_m(unit, pace_m)
        if _is_about(strips, len(lengths) + 1):
            lengths = [0.0, *lengths, 0.0]  # taken inside only: it tapers to nothing at both ends
            zero = Measure(0.0, unit, "").echo(unit)
            said = f"{zero}, {said}, {zero}"
        elif not _is_about(strips, len(lengths) - 1):
            raise NoSense("offsets_line", _EXAMPLES["offsets"], strips=figures(round(strips, 2)))
        line = f" line {term.baseline.echo(unit)}"
    is_simpson = _says("simpson").first(term.words) is not None
    shape = shapes.Offsets(
        spacing.in_m(unit, pace_m), tuple(lengths), "simpson" if is_simpson else "trapezoid"
    )
    rule = "simpson offsets" if is_simpson else "offsets"
    return shape, f"{rule} {said} every {spacing.echo(unit)}{line}"


def _is_about(strips: float, count: int) -> bool:
    return abs(strips - count) < 0.25


def has_open_ends(term: Term) -> bool:
    """Tell whether offsets begin and end with a width, on a line whose length was not said.

    They may run from end to end of the line, or begin one spacing inside where the lawn tapers to
    nothing at both ends.
    """
    if kind_of(term) != "offsets" or term.baseline is not None:
        return False
    return bool(term.measures[0].value and term.measures[-1].value)
