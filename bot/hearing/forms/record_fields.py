"""A record's fields said in one message: ``record 3 wind 5 mph from NW, 68 F, ended 10:05``.

Every piece between commas is one field; where one piece is none, the text is no such message.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial
from typing import Final

from bot.hearing.forms.form import Form
from bot.hearing.heard import Scene, Slots
from bot.hearing.phrases import phrases, which
from bot.hearing.readers.places import read_place

_says: Final = partial(phrases, "record")
_LONGEST: Final = 200
_CUT: Final = re.compile(r"\s*(?:[;\n]|,(?!\d{3}\b))\s*")
#: Names of fields, as the pieces of the phrases are named.
_FIELDS: Final = (
    *("wind", "wind_from", "air", "humidity", "started", "ended", "supervisor"),
    *("supervisor_licence", "applicator", "licence", "carrier", "equipment", "calibration"),
    *("batch", "weed", "posted", "reentry", "sky", "notes", "customer", "address", "registration"),
)
#: What only a record speaks of: without the word "record" one of these is needed.
_OF_A_RECORD: Final = frozenset(
    {"wind", "wind_from", "humidity", "supervisor", "supervisor_licence", "carrier", "applicator"}
)
_WINDS: Final = tuple(f"from_{point}" for point in ("N", "NE", "E", "SE", "S", "SW", "W", "NW"))


@dataclass(frozen=True)
class FieldsSaid:
    """Fields of a record, by its own names, in the order they were said.

    Attributes
    ----------
    number : int or None
        Of the record; None for the newest.
    is_all : bool
        Whether every record of the season is meant, where it lacks them.
    fields : tuple of (str, str)
        Name and value; ``started`` and ``ended`` as times of day, ``customer`` and ``address`` are
        the yard's, ``registration`` the product's.
    unread : tuple of str
        Pieces that name no field.
    """

    number: int | None
    is_all: bool
    fields: tuple[tuple[str, str], ...]
    unread: tuple[str, ...] = ()


def read_fields(text: str, _scene: Scene) -> Slots | None:
    """Read several fields of a record; None for other texts, and for one alone."""
    if isinstance(read_place(text), tuple):
        # "40.81 -96.70" are no hours.
        return None
    said = text.strip().rstrip(".!").replace("\n", ";")
    named = [
        (how, _says(how).whole(said)) for how in ("numbered", "listed", "all", "newest", "beside")
    ]
    how, found = next((each for each in named if each[1]), ("", None))
    fields = list(_fields(said if found is None else found["rest"]))
    known = tuple((name, value) for name, value in fields if name)
    unread = tuple(value for name, value in fields if not name)
    names = {name for name, _ in known}
    is_enough = how in ("all", "beside") or (found is not None and "started" in names)
    # Beside two fields of a record that is named, a piece that is none is told of.
    is_said_too = found is not None and len(known) > 1
    if (unread and not is_said_too) or len(known) < (1 if is_enough else 2):
        return None
    if found is None and not (_OF_A_RECORD & names or names == {"started", "ended"}):
        return None
    number = int(found["number"]) if found is not None and found["number"] else None
    return Slots(read=FieldsSaid(number, how == "all", known, unread))


def _fields(text: str) -> Iterator[tuple[str, str]]:
    """Yield each field said; a piece that is none with no name."""
    for piece in _CUT.split(text):
        start = _says("and").at_start(piece)
        said = (piece if start is None else start.after).strip()
        if not said:
            continue
        found = _says("field").whole(said)
        if found is None:
            yield "", said
            continue
        for name in _FIELDS:
            if found[name]:
                yield name, as_recorded(name, " ".join(found[name].split())[:_LONGEST])


def as_recorded(field: str, value: str) -> str:
    """Return a value as the record writes it: winds by their letters, whatever the language."""
    if field == "wind" and _says("calm").whole(value):
        return "calm"
    if field == "calibration":
        return _says("setting").without(value, "setting")
    point = which("record", _WINDS, value) if field == "wind_from" else None
    return value if point is None else point.removeprefix("from_")


FORMS: Final = (Form("change_record", read_fields, is_sure=True),)
