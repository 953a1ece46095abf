"""What people say of a zone: its grass, how often it is treated, water, slope, new seed.

``front is tall fescue, ditch strip is near water 60 x 25 ft, back is new sod``
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import partial
from typing import Final

from bot.hearing.phrases import phrases, which
from bot.hearing.readers.lexing import UnreadNumber, number_value, plain
from bot.hearing.readers.terms import NoSense, length_unit
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


_says: Final = partial(phrases, "traits")
_PARTS: Final = ("every", "ask", "never")
_NOTES: Final = ("slope", "clay", "hot_strip", "shade", "water")
_LOCKS: Final = ("seed", "sod", "open", "rest")
_LONGEST_CLAUSE: Final = 400


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
    for piece in re.split(r"[;\n,]|(?<![Ss]t)\.\s", _says("joint").without(text, ",")):
        held = f"{held}, {piece.strip()}" if held else piece.strip()
        if len(held) > _LONGEST_CLAUSE:
            # No list of zones is so long: it is none of ours, whatever follows.
            return [held]
        if _says("is").whole(held) or _says("buffer").whole(held):
            clauses.append(held)
            held = ""
    return [*clauses, held] if held else clauses


def _fact(clause: str, default_unit: str) -> ZoneFact | None:
    buffer = _says("buffer").whole(clause)
    if buffer is not None:
        size, said = _size(buffer["what"], default_unit), buffer["what"].strip()
        return ZoneFact(buffer["zones"], said or "buffer", note="water", buffer_m=size)
    told = _says("is").whole(clause)
    if told is None:
        return None
    zones, rest = told["zones"].strip(), told["what"].strip()
    denied = _says("not").whole(rest)
    part = which("traits", _PARTS, rest)
    lock = None if denied else which("traits", _LOCKS, rest)
    if part or lock:
        return ZoneFact(zones, rest, part=part, lock=None if part else lock)
    bare = rest if denied is None else denied["what"]
    size = _size(bare, default_unit)
    note = which("traits", _NOTES, _says("size").without(bare, "").strip(" :,"))
    if note is not None:
        is_odd = size is not None and note != "water"
        is_denied = denied is not None
        return (
            None if is_odd else ZoneFact(zones, rest, note=note, is_denied=is_denied, buffer_m=size)
        )
    return None if denied else _grass(zones, rest)


def _grass(zones: str, text: str) -> ZoneFact | None:
    if _says("unknown").whole(text):
        return ZoneFact(zones, text, grass="unknown")
    named = _says("grass").whole(text)
    bare = text if named is None else named["name"]
    naming = find_species(text)
    if naming.found is None and find_species(bare).found:
        naming = find_species(bare)
    if naming.found is not None:
        return ZoneFact(zones, text, grass=naming.found)
    if naming.candidates or _says("fescue").whole(bare):
        candidates = naming.candidates or ("tall_fescue", "fine_fescue")
        return ZoneFact(zones, text, grass_candidates=candidates)
    return None


def _size(text: str, default_unit: str) -> tuple[float, float] | None:
    match = _says("size").first(text)
    if match is None:
        return None
    try:
        own = [length_unit(match[u]) if match[u] else None for u in ("ua", "ub")]
        first = own[0] or own[1] or default_unit
        second = own[1] or own[0] or default_unit
        a = units.to_si(number_value(match["a"]), first)
        b = units.to_si(number_value(match["b"]), second)
    except (UnreadNumber, NoSense, units.UnknownUnit):
        return None
    return (max(a, b), min(a, b)) if a > 0 and b > 0 else None
