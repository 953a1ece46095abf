"""Shapes to text and back, for keeping: JSON objects with the kind of the shape in ``kind``."""

from __future__ import annotations

import json
from dataclasses import fields
from typing import Any, Final, get_args

from jobs.agronomy import shapes
from jobs.agronomy.shapes import Shape

_KINDS: Final[dict[str, type[Any]]] = {kind.__name__: kind for kind in get_args(shapes.Shape)}


class UnknownShape(ValueError):
    """Raised for stored text that is none of our shapes."""


def to_json(shape: Shape) -> str:
    """Return the shape as one line of JSON; floats keep every digit."""
    return json.dumps(_plain(shape))


def from_json(text: str) -> Shape:
    """Return the shape that `to_json` wrote.

    Raises
    ------
    UnknownShape
        If the text is not JSON of a shape we know.
    ImpossibleShape
        If its figures cannot be a shape.
    """
    try:
        stored = json.loads(text)
    except json.JSONDecodeError as error:
        raise UnknownShape(text) from error
    return _shape(stored)


def _plain(shape: Shape) -> dict[str, Any]:
    plain: dict[str, Any] = {"kind": type(shape).__name__}
    for field in fields(shape):
        value = getattr(shape, field.name)
        if type(value).__name__ in _KINDS:
            plain[field.name] = _plain(value)
        elif field.name in {"parts", "holes"}:
            plain[field.name] = [_plain(piece) for piece in value]
        else:
            plain[field.name] = value
    return plain


def _shape(stored: Any) -> Shape:
    if not isinstance(stored, dict) or stored.get("kind") not in _KINDS:
        raise UnknownShape(json.dumps(stored))
    kind = _KINDS[stored["kind"]]
    given = {name: _value(value) for name, value in stored.items() if name != "kind"}
    if given.keys() != {field.name for field in fields(kind)}:
        raise UnknownShape(json.dumps(stored))
    shape: Shape = kind(**given)
    return shape


def _value(value: Any) -> Any:
    if isinstance(value, dict):
        return _shape(value)
    if isinstance(value, list):
        return tuple(_value(item) for item in value)
    return value
