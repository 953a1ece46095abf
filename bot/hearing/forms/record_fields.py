"""A record's fields said in one message: ``record 3 wind 5 mph from NW, 68 F, ended 10:05``.

Every piece between commas is one field; where one piece is none, the text is no such message.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from bot.hearing.expressions import expression
from bot.hearing.forms.form import Form
from bot.hearing.heard import Scene, Slots

_LONGEST: Final = 200
_WHICH: Final = expression(
    r"^(?:(?:change|set)\s+)?(?:records?\s*#?\s*(?P<number>\d+)|(?P<all>all\s+(?:my\s+)?records)"
    r"|(?P<newest>record))\s*[:,]?\s+(?P<rest>\S.*)$",
    re.IGNORECASE | re.DOTALL,
)
_CUT: Final = expression(r"\s*(?:[;\n]|,(?!\d{3}\b))\s*(?:and\s+)?")
_DIRECTION: Final = (
    r"(?:[NSEW]{1,3}|(?:north|south|east|west)(?:[- ]?(?:north|south|east|west)){0,2})"
)
_CLOCK: Final = r"\d{1,2}(?:[:.]\d{2})?\s*(?:[ap]\.?m\.?)?"
_PHRASES: Final = tuple(
    (expression(rf"^(?:the\s+)?{pattern}$", re.IGNORECASE), names)
    for pattern, names in (
        (
            (
                rf"wind\s+(?:was\s+)?(?P<wind>calm|[\d.]+(?:\s*(?:-|to)\s*[\d.]+)?\s*(?:mph|km/?h|kph|m/s"
                rf"|kn(?:ots?)?)?)\s*,?\s*(?:(?:from|out\s+of)\s+)?(?:the\s+)?(?P<wind_from>{_DIRECTION})"
            ),
            ("wind", "wind_from"),
        ),
        (
            (
                rf"wind\s+(?:was\s+)?(?P<wind_from>{_DIRECTION})\s+(?:at\s+)?"
                rf"(?P<wind>[\d.]+\s*(?:mph|km/?h|kph|m/s|kn(?:ots?)?)?)"
            ),
            ("wind", "wind_from"),
        ),
        (
            rf"wind\s+(?:direction\s+|was\s+)?(?:from\s+|out\s+of\s+)?(?:the\s+)?(?P<wind_from>{_DIRECTION})",
            ("wind_from",),
        ),
        (
            (
                r"wind\s+(?:was\s+)?(?P<wind>calm|[\d.]+(?:\s*(?:-|to)\s*[\d.]+)?\s*"
                r"(?:mph|km/?h|kph|m/s|kn(?:ots?)?)?)"
            ),
            ("wind",),
        ),
        (
            (
                r"(?:air|(?:air\s+)?temp(?:erature)?\.?)\s*(?:was|is|of)?\s*(?P<air>-?\d{1,3}(?:\.\d)?\s*"
                r"(?:°\s*|deg(?:rees)?\s*)?[FC]?)"
            ),
            ("air",),
        ),
        (r"(?P<air>-?\d{1,3}(?:\.\d)?\s*(?:°\s*|deg(?:rees)?\s*)[FC]?|\d{1,3}\s*[FC])", ("air",)),
        (
            r"(?:(?:relative\s+)?humidity|rh)\s*(?:was|is|of)?\s*(?P<humidity>\d{1,3}\s*%?)",
            ("humidity",),
        ),
        (r"(?P<humidity>\d{1,3}\s*%)\s*(?:relative\s+)?(?:humidity|rh)", ("humidity",)),
        (
            rf"(?:from\s+)?(?P<started>{_CLOCK})\s*(?:-|to|until|till)\s*(?P<ended>{_CLOCK})",
            ("started", "ended"),
        ),
        (rf"(?:started|start|began|begun)\s*(?:at\s+)?(?P<started>{_CLOCK})", ("started",)),
        (rf"(?:ended|end|finished|done)\s*(?:at\s+)?(?P<ended>{_CLOCK})", ("ended",)),
        (
            (
                r"(?:supervisor|supervised\s+by)\s*:?\s*(?P<supervisor>.+?),?\s+(?:under\s+)?"
                r"licen[cs]e\s*(?:no\.?|number)?\s*(?P<supervisor_licence>[\w/-]*\d[\w/-]*)"
            ),
            ("supervisor", "supervisor_licence"),
        ),
        (r"(?:supervisor|supervised\s+by)\s*:?\s*(?P<supervisor>.+)", ("supervisor",)),
        (
            (
                r"(?:under|supervisor'?s?)\s+licen[cs]e\s*(?:no\.?|number)?\s*:?\s*"
                r"(?P<supervisor_licence>[\w/-]*\d[\w/-]*)"
            ),
            ("supervisor_licence",),
        ),
        (
            (
                r"applicator\s*:?\s*(?P<applicator>.+?)\s+licen[cs]e\s*(?:no\.?|number)?\s*"
                r"(?P<licence>[\w/-]*\d[\w/-]*)"
            ),
            ("applicator", "licence"),
        ),
        (r"applicator\s*:?\s*(?P<applicator>.+)", ("applicator",)),
        (r"licen[cs]e\s*(?:no\.?|number)?\s*:?\s*(?P<licence>[\w/-]*\d[\w/-]*)", ("licence",)),
        (r"(?:carrier|water\s+volume|spray\s+volume)\s*:?\s*(?P<carrier>.+)", ("carrier",)),
        (r"equipment\s*:?\s*(?P<equipment>.+)", ("equipment",)),
        (
            r"(?P<equipment>(?:(?:drop|broadcast|rotary)\s+)?(?:spreader|sprayer)\b.*)",
            ("equipment",),
        ),
        (r"calibration\s*:?\s*(?P<calibration>.+)", ("calibration",)),
        (
            r"(?P<calibration>(?:(?:dial|gate|spreader)\s+)?setting\s*:?\s*\S.*)",
            ("calibration",),
        ),
        (r"(?:batch|lot)\s*(?:no\.?|number)?\s*:?\s*(?P<batch>\S.*)", ("batch",)),
        (r"(?:target|weed)\s*:?\s*(?P<weed>\S.*)", ("weed",)),
        (r"(?:posted|sign)\s*:?\s*(?P<posted>\S.*)", ("posted",)),
        (r"(?:keep\s+off|re-?entry)\s*:?\s*(?P<reentry>\S.*)", ("reentry",)),
        (r"sky\s*:?\s*(?P<sky>\S.*)", ("sky",)),
        (r"notes?\s*:?\s*(?P<notes>\S.*)", ("notes",)),
        (r"customer\s*:?\s*(?P<customer>\S.*)", ("customer",)),
        (r"address\s*:?\s*(?P<address>\S.*)", ("address",)),
        (
            (
                r"epa\s*(?:reg(?:istration)?\.?)?\s*(?:no\.?|number)?\s*:?\s*"
                r"(?P<registration>\d{1,7}-\d{1,7}(?:-\d{1,7})?)"
            ),
            ("registration",),
        ),
    )
)
#: What only a record speaks of: without the word "record" one of these is needed.
_OF_A_RECORD: Final = frozenset(
    {"wind", "wind_from", "humidity", "supervisor", "supervisor_licence", "carrier", "applicator"}
)


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
    said = text.strip().rstrip(".!")
    which = _WHICH.match(said)
    fields = list(_fields(said if which is None else which["rest"]))
    known = tuple((name, value) for name, value in fields if name)
    unread = tuple(value for name, value in fields if not name)
    names = {name for name, _ in known}
    is_enough = which is not None and (which["all"] is not None or "started" in names)
    # Beside two fields of a record that is named, a piece that is none is told of.
    is_said_too = which is not None and len(known) > 1
    if (unread and not is_said_too) or len(known) < (1 if is_enough else 2):
        return None
    if which is None and not (_OF_A_RECORD & names or names == {"started", "ended"}):
        return None
    number = None if which is None or which["number"] is None else int(which["number"])
    is_all = which is not None and which["all"] is not None
    return Slots(read=FieldsSaid(number, is_all, known, unread))


def _fields(text: str) -> Iterator[tuple[str, str]]:
    """Yield each field said; a piece that is none with no name."""
    for piece in _CUT.split(text):
        if not piece.strip():
            continue
        found = next(
            (
                (match, names)
                for pattern, names in _PHRASES
                if (match := pattern.match(piece.strip())) is not None
            ),
            None,
        )
        if found is None:
            yield "", piece.strip()
            continue
        match, names = found
        for name in names:
            yield name, " ".join(match[name].split())[:_LONGEST]


FORMS: Final = (Form("change_record", read_fields, is_sure=True),)
