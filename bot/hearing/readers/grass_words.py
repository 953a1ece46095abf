"""What people say of a zone: its grass, how often it is treated, water, slope, new seed.

``front is tall fescue, ditch strip is near water 60 x 25 ft, back is new sod``
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Final

from bot.hearing.readers.lexing import NUMBER, UnreadNumber, number_value, plain
from bot.hearing.readers.terms import LENGTH, NoSense, length_unit
from jobs.agronomy import units
from jobs.agronomy.turf import find_species


@dataclass(frozen=True)
class ZoneFact:
    """One thing said of zones; exactly one part is set.

    Attributes
    ----------
    zones
        The words that name them.
    said
        The words that say it.
    grass
        A species' key or ``unknown``.
    grass_candidates
        Species it may have meant.
    part
        ``every``, ``ask`` or ``never``.
    note
        ``slope``, ``clay``, ``hot_strip``, ``shade`` or ``water``; `is_denied` where it is not so.
    buffer_m
        Length and width of the strip along water [m].
    lock
        ``seed``, ``sod``, ``rest`` for a year without, or ``open`` for turf that is treated again.
    """

    zones: str
    said: str
    grass: str | None = None
    grass_candidates: tuple[str, ...] = ()
    part: str | None = None
    note: str | None = None
    is_denied: bool = False
    buffer_m: tuple[float, float] | None = None
    lock: str | None = None


_IS: Final = r"\s+(?:is|are|has|have|was|were)\s+|\s*[:=]\s*"
_CLAUSE: Final = re.compile(
    rf"^(?P<zones>[^:=]+?)(?:{_IS})(?P<rest>.+)$", re.IGNORECASE | re.DOTALL
)
_UNKNOWN: Final = re.compile(
    r"^(?:unknown|no idea|not sure|unsure|(?:i\s+)?(?:don'?t|do not|dunno)(?:\s+know)?)\b.*$",
    re.IGNORECASE,
)
_PARTS: Final = (
    (r"(?:treated\s+)?(?:every|each)\s+round|always(?:\s+treated)?|part of the programme", "every"),
    (r"(?:treated\s+)?(?:occasional(?:ly)?|sometimes|now and then)|ask(?:\s+each\s+time)?", "ask"),
    (r"never(?:\s+treated)?|not\s+treated|left\s+(?:alone|out|untreated)|untreated", "never"),
)
_NOTES: Final = (
    (r"(?:on\s+)?(?:an?\s+)?(?:steep|sloping|slope|hill|hilly|bank)(?:\s+slope)?", "slope"),
    (r"(?:on\s+)?(?:heavy\s+)?clay(?:\s+soil)?", "clay"),
    (
        r"(?:an?\s+)?(?:hot\s+strip|hot|in\s+full\s+sun|south[- ]facing|along\s+(?:the\s+)?paving)",
        "hot_strip",
    ),
    (r"(?:in\s+)?(?:the\s+)?(?:shade|shady|shaded|north[- ]facing)", "shade"),
    (
        (
            r"(?:near|along|by|beside|next\s+to|at|on)\s+(?:the\s+|a\s+)?"
            r"(?:water|pond|creek|stream|brook|river|lake|ditch|well|drain|shore)(?:\s+edge)?"
        ),
        "water",
    ),
)
_LOCKS: Final = (
    (r"(?:new(?:ly)?\s+(?:seed(?:ed)?|grass)|(?:just\s+)?(?:over)?seeded|seedlings?)\b.*", "seed"),
    (
        r"(?:new(?:ly)?\s+(?:sod|turf|sprigs?|plugs?)|(?:just\s+)?sod(?:ded)?|sprigged|sprigs)\b.*",
        "sod",
    ),
    (
        (
            r"(?:well\s+)?(?:established|rooted|ready|grown\s+in)(?:\s+now)?"
            r"|(?:may|can)\s+be\s+treated(?:\s+(?:again|now))?"
            r"|(?:treated|in)\s+again(?:\s+this\s+(?:year|season|spring))?|back\s+in"
        ),
        "open",
    ),
    (
        (
            r"(?:rest(?:s|ing)?|skipped|left\s+out|out)"
            r"(?:\s+(?:for\s+)?(?:this|the)\s+(?:whole\s+)?(?:year|season|spring))"
        ),
        "rest",
    ),
)
_SIZE: Final = re.compile(
    rf"(?P<a>{NUMBER})\s*(?P<ua>{LENGTH})?\s*(?:x|by|\*)\s*(?P<b>{NUMBER})\s*(?P<ub>{LENGTH})?",
    re.IGNORECASE,
)
_LONGEST_CLAUSE: Final = 400
_BUFFER: Final = re.compile(r"^(?P<zones>.+?)\s+buffer\b[\s:]*(?P<rest>.*)$", re.IGNORECASE)


def read_facts(text: str, default_unit: str) -> list[ZoneFact] | None:
    """Return what a text says of zones, clause by clause; None where it says nothing of the kind.

    A text of which one clause is something else is not taken at all.
    """
    typed = plain(text).text.strip().rstrip(".!")
    facts = []
    for clause in _clauses(typed):
        fact = _fact(clause.strip(), default_unit)
        if fact is None:
            return None
        facts.append(fact)
    return facts or None


def read_grass(text: str) -> ZoneFact | None:
    """Return the grass a bare answer names, such as ``tall fescue`` or ``I don't know``."""
    return _grass("", text.strip().rstrip(".!"))


def _clauses(text: str) -> list[str]:
    """Cut a text into clauses; zones listed before one verb stay together."""
    clauses: list[str] = []
    held = ""
    for piece in re.split(r"[;\n,]|(?<![Ss]t)\.\s|\s+and\s+", text):
        held = f"{held}, {piece}" if held else piece
        if len(held) > _LONGEST_CLAUSE:
            # No list of zones is so long: it is none of ours, whatever follows.
            return [held]
        if re.search(_IS, held) or _BUFFER.match(held.strip()):
            clauses.append(held.strip())
            held = ""
    if held.strip():
        clauses.append(held.strip())
    return clauses


def _fact(clause: str, default_unit: str) -> ZoneFact | None:
    buffer = _BUFFER.match(clause)
    if buffer is not None:
        size = _size(buffer["rest"], default_unit)
        said = buffer["rest"].strip() or "buffer"
        return ZoneFact(buffer["zones"], said, note="water", buffer_m=size)
    match = _CLAUSE.match(clause)
    if match is None:
        return None
    zones, rest = match["zones"].strip(), match["rest"].strip()
    is_denied = re.match(r"(?:not|no longer)\s+", rest, re.IGNORECASE) is not None
    bare = re.sub(r"^(?:not|no longer)\s+", "", rest, flags=re.IGNORECASE)
    for pattern, part in _PARTS:
        if re.fullmatch(pattern, rest, re.IGNORECASE):
            return ZoneFact(zones, rest, part=part)
    for pattern, lock in _LOCKS:
        if not is_denied and re.fullmatch(pattern, rest, re.IGNORECASE):
            return ZoneFact(zones, rest, lock=lock)
    size = _size(bare, default_unit)
    without = _SIZE.sub("", bare).strip(" :,")
    for pattern, note in _NOTES:
        if re.fullmatch(pattern, without, re.IGNORECASE):
            is_water = note == "water"
            if size is not None and not is_water:
                return None
            return ZoneFact(zones, rest, note=note, is_denied=is_denied, buffer_m=size)
    return None if is_denied else _grass(zones, rest)


def _grass(zones: str, text: str) -> ZoneFact | None:
    if _UNKNOWN.match(text):
        return ZoneFact(zones, text, grass="unknown")
    bare = re.sub(r"\s+(?:lawn|grass|turf|sod)$", "", text, flags=re.IGNORECASE)
    naming = find_species(text)
    if naming.found is None:
        naming = find_species(bare) if find_species(bare).found else naming
    if naming.found is None and naming.candidates == ():
        if re.fullmatch(r"fescue", bare, re.IGNORECASE):
            return ZoneFact(zones, text, grass_candidates=("tall_fescue", "fine_fescue"))
        return None
    if naming.found is not None:
        return ZoneFact(zones, text, grass=naming.found)
    return ZoneFact(zones, text, grass_candidates=naming.candidates)


def _size(text: str, default_unit: str) -> tuple[float, float] | None:
    match = _SIZE.search(text)
    if match is None:
        return None
    try:
        own = [None if match[u] is None else length_unit(match[u]) for u in ("ua", "ub")]
        first = own[0] or own[1] or default_unit
        second = own[1] or own[0] or default_unit
        a = units.to_si(number_value(match["a"]), first)
        b = units.to_si(number_value(match["b"]), second)
    except (UnreadNumber, NoSense, units.UnknownUnit):
        return None
    return (max(a, b), min(a, b)) if a > 0 and b > 0 else None
