"""From the values of a clause to the slots of its act."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import partial
from typing import Any, Final

from bot.hearing import day_words, words
from bot.hearing.acts import ACTS
from bot.hearing.clauses import cut, goes_on
from bot.hearing.figure_slots import measures, span_days
from bot.hearing.guards import manner
from bot.hearing.heard import Scene, Slots
from bot.hearing.heard_values import Span
from bot.hearing.held_back import REPORTS
from bot.hearing.measuring_asked import about_measuring, system_meant
from bot.hearing.names_heard import Name, as_kept, name_alone, part_of_lot
from bot.hearing.normal import Normal
from bot.hearing.phrases import phrases
from bot.hearing.readers.dates import WhenRead
from bot.hearing.readers.reading import Unread
from bot.hearing.readers.times import WEEKDAYS
from bot.hearing.readers.zone_names import all_but, but_of
from bot.hearing.readers.zone_parts import find_parts
from bot.hearing.stretches import Stretch
from bot.hearing.taken_out import taken_out

_says: Final = partial(phrases, "sentences")
#: Acts that speak of something done: a weekday in them lies behind.
PAST: Final = REPORTS | {"look_back", "ask_who", "ask_washed_out", "set_sprinkler", "undo"}


#: Acts that may speak of a part of a zone.
_IN_PARTS: Final = frozenset({"report_applied", "report_gap", "report_service", "remove_zone"})


def fill(act: str, clause: Stretch, scene: Scene) -> Slots:
    """Return the slots of an act in a clause."""
    if act in PAST:
        clause = _told(clause)
    named = _zones(act, clause, scene)
    slots = Slots(rest=_rest(clause), part=_first(clause, "part"), **named)
    slots = replace(slots, **_whens(act, clause, scene), **_things(act, clause))
    if act in _IN_PARTS:
        unit = scene.length_unit
        slots = replace(slots, parts=find_parts(scene.zones, _by_kept_names(clause), unit))
    return replace(slots, **measures(act, clause))


def _zones(act: str, clause: Stretch, scene: Scene) -> dict[str, Any]:
    found: dict[str, Any] = {}
    spans = clause.of("zone")
    if act in _SAY_WHERE:
        # "The back, not the front": what is denied is none of it.
        spans = [span for span in spans if not is_denied(clause, span)] or spans
    names = {name for span in spans for name in span.names}
    zones = tuple(zone for zone in scene.zones if zone in names)
    if not scene.zones:
        # Before any zone is kept, a part of a lot goes by its plain name.
        zones = tuple(dict.fromkeys(plain_name(clause, span, scene) for span in clause.of("zone")))
    others = all_but(scene.zones, clause.said)
    if others is not None:
        return {"zones": _done_or_missed(act, others, scene)}
    left_out = _left_out(clause)
    if left_out:
        # "Todo menos la tira": by what the language calls that zone, or it is asked which.
        if all(isinstance(span.value, tuple) for span in left_out):
            left = {name for span in left_out for name in span.names}
            others = tuple(zone for zone in scene.zones if zone not in left)
            return {"zones": _done_or_missed(act, others, scene)}
        return {"strangers": _as_said(clause, left_out)}
    is_both = len(scene.zones) == 2 and says_both(clause.text)
    is_all = (bool(clause.of("all")) or is_both) and not zones
    if zones:
        found["zones"] = zones
    if act == "remove_zone" and clause.of("zone"):
        # "It is all gravel" beside a name is of that zone.
        found["zones"], found["strangers"] = taken_out(clause.text, _names(clause))
    elif is_all:
        found |= {"all_zones": True, "zones": scene.zones}
    elif scene.zones:
        unknown = [span for span in clause.of("zone") if span.value is None]
        found["strangers"] = _as_said(clause, unknown)
    yards = clause.of("yard")
    if yards and yards[0].names:
        found["yard"] = yards[0].names[0]
    return found


#: Acts that say where something was done.
_SAY_WHERE: Final = (_IN_PARTS | {"change_record", "report_watered", "report_seeded"}) - {
    "remove_zone"
}


def is_denied(clause: Stretch, span: Span) -> bool:
    """Tell whether a value is named only to be denied: "not the back", "it is no prodiamine"."""
    return _says("denied").at_end(clause.text[: span.start - clause.start]) is not None


def _done_or_missed(act: str, others: Sequence[str], scene: Scene) -> tuple[str, ...]:
    """Return what an act of "everything but the back" is about: a gap is what was left out."""
    is_gap = act == "report_gap"
    return tuple(zone for zone in scene.zones if (zone in others) != is_gap)


def _left_out(clause: Stretch) -> list[Span]:
    """Return the zones behind "everything but"."""
    every = next(iter(clause.of("all")), None)
    but = None if every is None else but_of(clause.normal.text[every.end : clause.end])
    if every is None or but is None:
        return []
    return [span for span in clause.of("zone") if span.start >= every.end + but.start]


def _as_said(clause: Stretch, spans: Sequence[Span]) -> tuple[str, ...]:
    return tuple(clause.normal.traced.original(span.start, span.end) for span in spans)


def says_both(text: str) -> bool:
    """Tell whether a text speaks of two things by one word, without their names."""
    return words.phrases("guards", "both", "words").search(text) is not None


def plain_name(clause: Stretch, span: Span, scene: Scene) -> str:
    """Return what a zone that is not kept yet would be called, by the person's own word."""
    said = clause.normal.traced.original(span.start, span.end)
    if scene.language == clause.normal.language != words.LANGUAGES[0]:
        # The names are the person's: a Spanish chat calls its front "frente".
        return name_alone(said)
    return part_of_lot(said, clause.normal.language)


def _by_kept_names(clause: Stretch) -> str:
    """Return a clause as written, in its kept names where it calls zones otherwise: "atras"."""
    named = [
        (span.start - clause.start, span.end - clause.start, span.names[0])
        for span in clause.of("zone")
        if len(span.names) == 1
    ]
    said = clause.said.casefold()
    is_said = all(name.casefold() in said for _, _, name in named)
    return clause.said if is_said else as_kept(clause.text, named)


def _told(clause: Stretch) -> Stretch:
    """Return a report without its pieces that are still to come: "front, side I'll do Sunday"."""
    pieces = _with_exceptions(clause, cut(clause.normal, clause.spans, clause.start, clause.end))
    kept: list[Span] = []
    left: list[Span] = []
    for start, end in pieces:
        inside = [span for span in clause.spans if start <= span.start and span.end <= end]
        (left if _is_to_come(clause.normal, start, end) else kept).extend(inside)
    if not left or not any(span.kind in ("zone", "all") for span in kept):
        return clause
    return replace(clause, spans=tuple(kept))


def _with_exceptions(clause: Stretch, pieces: Sequence[tuple[int, int]]) -> list[tuple[int, int]]:
    """Return pieces with what is left out of everything in one with the everything it is of."""
    joined: list[tuple[int, int]] = []
    for start, end in pieces:
        begin = joined[-1][0] if joined else start
        is_of_all = any(begin <= span.start < start for span in clause.of("all"))
        but = but_of(clause.normal.text[start:end].lstrip()) if is_of_all else None
        if but is not None and but.start == 0:
            joined[-1] = (begin, end)
        else:
            joined.append((start, end))
    return joined


def _is_to_come(normal: Normal, start: int, end: int) -> bool:
    text = normal.text[start:end]
    said = manner(text, normal.language, has_mark=False)
    return said.is_plan or (said.is_denied and not said.is_past) or goes_on(text)


def _whens(act: str, clause: Stretch, scene: Scene) -> dict[str, Any]:
    found_days = [span for span in clause.of("day") if isinstance(span.value, day_words.DaySaid)]
    # "No fue el viernes, fue el sabado": what is denied is not the day.
    told = [span for span in found_days if not is_denied(clause, span)] or found_days
    said: list[Any] = [span.value for span in told]
    # In "3 days ago" the span of days was found first; it says when, not for how long.
    days = day_words.find_days(clause.text, clause.normal.language)
    ago = [each for each in days if each.kind == "ago" and each.count > 0]
    said += [each for each in ago if each not in said]
    if act == "ask_day":
        # "Which day is good this week" asks for the week's best, not about one of its days.
        said = [each for each in said if each.day != "this week"]
    hours = [span.value for span in clause.of("hour") if isinstance(span.value, tuple)]
    clock = next((each for each in hours if each[0] == "clock"), hours[0] if hours else None)
    is_past = act in PAST
    each_day: list[day_words.DaySaid | None] = [*said] or [None]
    moments = [day_words.placed(each, clock, scene.now, is_past=is_past) for each in each_day]
    known = [each for each in moments if isinstance(each, WhenRead)]
    asked = [each for each in moments if isinstance(each, Unread)]
    found: dict[str, Any] = {}
    if known:
        # Of two days in a report the one that has come is meant: "did it monday, side tomorrow".
        today = scene.now.date()
        fitting = [
            each
            for each in known
            if (each.at.date() <= today if is_past else each.at.date() >= today)
        ]
        found["on"] = (fitting or known)[0]
    elif asked:
        found["unread"] = asked[0]
    weekdays = frozenset(WEEKDAYS.index(each.day) for each in said if each.kind == "weekday")
    if act in ("set_days", "ask_day") and weekdays:
        found["weekdays"] = weekdays
    spans = clause.of("days")
    if spans and not ago:
        found["days"] = span_days(str(spans[0].value))
    return found


def _things(act: str, clause: Stretch) -> dict[str, Any]:
    found = {kind: _first(clause, kind) for kind in ("weed", "grass", "language")}
    products = clause.of("product")
    told = [span for span in products if not is_denied(clause, span)] or products
    found["product"] = str(told[0].value) if told else None
    # "Holding off till saturday" is about no tilling.
    found["work"] = _first(clause, "work") if "work" in ACTS[act].slots else None
    if act == "set_units":
        # In the normal form "feet" are "ft".
        found["units"] = system_meant(clause.said)
    if act == "help":
        found["about"] = about_measuring(clause.said)
    return {kind: value for kind, value in found.items() if value is not None}


def _names(clause: Stretch) -> list[Name]:
    """Return the zones that a clause names, by their places in it."""
    return [
        (span.kind, span.start - clause.start, span.end - clause.start, span.names or None)
        for span in clause.of("zone")
    ]


def _first(clause: Stretch, kind: str) -> str | None:
    spans = clause.of(kind)
    return str(spans[0].value) if spans else None


def _rest(clause: Stretch) -> str:
    taken = [(span.start, span.end) for span in clause.spans]
    return clause.normal.traced.beside(taken, clause.start, clause.end)
