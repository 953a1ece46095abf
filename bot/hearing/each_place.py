"""One deed said of several places: each place with its own amount, or what they share.

"7 lb at Pine 8 and 8 lb at Elm 4" is two reports. Where nothing says which amount is whose, or
whether one is for each or for all together, it is asked: never a dose by guess.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from functools import partial
from itertools import pairwise
from typing import Final

from bot.hearing import words
from bot.hearing.figure_slots import bare_amounts
from bot.hearing.heard import ActHeard, Heard, Scene
from bot.hearing.heard_values import Span
from bot.hearing.held_back import DEEDS
from bot.hearing.normal import Normal
from bot.hearing.phrases import phrases
from bot.hearing.readers.reading import Unread
from bot.hearing.slots import fill
from bot.hearing.stretches import Stretch, stretch

_says: Final = partial(phrases, "sentences")


def at_each(act: ActHeard, clause: Stretch, scene: Scene) -> list[ActHeard]:
    """Return a deed once for each yard it names, and for each zone or day with a figure of its own.

    "Church and miller are done" is two reports, "0.3 friday and 0.5 last night" two rains.
    """
    if act.act not in (*DEEDS, "report_rain") or act.slots.unread is not None:
        return [act]
    yards, zones, days = _places(clause, "yard"), _places(clause, "zone"), clause.of("day")
    if act.act in _OF_WATER:
        clause = _with_water(clause)
        water = clause.of("depth", "minutes")
        for where in (days, zones):
            if len(water) == len(where) > 1 and _take_turns(water, where):
                return [_of_piece(act, piece, scene) for piece in _pieces(clause, water, where)]
    clause = _with_units(clause) if act.act == "report_applied" else clause
    amounts = _amounts(clause) if act.act == "report_applied" else []
    ground = clause.of("zone", "all")
    if len(yards) > 1 and not amounts and _has_own_ground(clause, ground, yards):
        # "Church whole and miller just the front": each yard with the ground said of it.
        facts = ground if len(ground) == len(yards) else yards
        return [_of_piece(act, piece, scene) for piece in _pieces(clause, facts, yards)]
    is_by_day = act.act == "report_applied" and len(days) > 1 and not amounts
    if is_by_day and len(days) == len(zones) and _take_turns(days, zones):
        # "The front on Monday and the back today" is two reports.
        return [_of_piece(act, piece, scene) for piece in _pieces(clause, days, zones)]
    places = yards if len(yards) > 1 else zones if len(amounts) > 1 and not act.slots.parts else []
    if len(places) < 2:
        return [act]
    if len(amounts) == len(places) and _take_turns(amounts, places):
        return [_of_piece(act, piece, scene) for piece in _pieces(clause, amounts, places)]
    if len(amounts) > 1 or (amounts and _says("each").first(clause.text) is None):
        return [replace(act, slots=replace(act.slots, unread=_whose(clause, amounts, places)))]
    names = (name for each in places for name in each.names)
    return [replace(act, slots=replace(act.slots, yard=name)) for name in names]


def _has_own_ground(clause: Stretch, ground: Sequence[Span], yards: Sequence[Span]) -> bool:
    """Tell whether each yard has ground of its own, or one that "only" is said of."""
    is_only = len(ground) == 1 and _says("only").first(clause.text) is not None
    return is_only or (len(ground) == len(yards) and _take_turns(ground, yards))


_OF_WATER: Final = frozenset({"report_watered", "report_rain"})


def _with_water(clause: Stretch) -> Stretch:
    """Return a clause with bare figures as the water said before: "20 minutes friday, 30 today"."""
    of = next(iter(clause.of("depth", "minutes")), None)
    unit = None if of is None else _UNIT.search(str(of.value))
    if of is None or unit is None:
        return clause
    return _in_unit(clause, clause.of("number"), of.kind, unit[0])


def _in_unit(clause: Stretch, bare: Sequence[Span], kind: str, unit: str) -> Stretch:
    text = clause.normal.text
    spans = tuple(
        replace(each, kind=kind, value=f"{text[each.start : each.end]} {unit}")
        if each in bare
        else each
        for each in clause.spans
    )
    return replace(clause, spans=spans)


def _places(clause: Stretch, kind: str) -> list[Span]:
    """Return the places of a kind that are named, each once."""
    found = {span.names: span for span in reversed(clause.of(kind)) if span.names}
    return sorted(found.values(), key=lambda span: span.start)


def _with_units(clause: Stretch) -> Stretch:
    """Return a clause with bare figures in the one unit said: "12 lb on the back, 2 in front"."""
    units = {match[0] for each in clause.of("amount") if (match := _UNIT.search(str(each.value)))}
    if len(units) != 1:
        return clause
    return _in_unit(clause, bare_amounts(clause, "yard", "zone"), "amount", units.pop())


_UNIT: Final = re.compile(r"[a-z][a-z ]*$", re.IGNORECASE)


def _amounts(clause: Stretch) -> list[Span]:
    found: list[Span] = []
    for span in clause.of("amount"):
        between = clause.normal.text[found[-1].end : span.start].strip() if found else "-"
        # "7 lb 4 oz" is one amount.
        if not between or (found and phrases("values", "and").whole(between)):
            found[-1] = Span("amount", found[-1].start, span.end)
        else:
            found.append(span)
    return found


def _take_turns(facts: Sequence[Span], places: Sequence[Span]) -> bool:
    in_order = sorted((*facts, *places), key=lambda span: span.start)
    is_fact = [span in facts for span in in_order]
    return all(one != next_one for one, next_one in pairwise(is_fact))


def _pieces(clause: Stretch, facts: Sequence[Span], places: Sequence[Span]) -> list[Stretch]:
    """Return the pieces of a clause, each with one amount or day and one place."""
    first = facts if facts[0].start < places[0].start else places
    cuts = [clause.start, *(each.start for each in first[1:]), clause.end]
    return [stretch(clause.normal, clause.spans, *each) for each in pairwise(cuts)]


def _of_piece(act: ActHeard, piece: Stretch, scene: Scene) -> ActHeard:
    """Return the deed of a piece; the day that was said once holds for all."""
    slots = fill(act.act, piece, scene)
    return replace(act, slots=replace(slots, on=slots.on or act.slots.on), said=piece.said)


def _whose(clause: Stretch, amounts: Sequence[Span], places: Sequence[Span]) -> Unread:
    said = [clause.normal.traced.original(each.start, each.end) for each in amounts]
    first, second = (each.names[0] for each in places[:2])
    example = f"applied 3 lb at {first}, 3.2 lb at {second}"
    key = "reading.amount_of_several" if len(said) == 1 else "reading.amounts_apart"
    return Unread(", ".join(said), key, example)


def at_named(heard: Heard, spans: Sequence[Span]) -> Heard:
    """Return what a form read, with the one yard that was named: "no crabgrass at Elm 4"."""
    named = {each.names for each in spans if each.kind == "yard" and each.names}
    if len(named) != 1 or len(next(iter(named))) != 1:
        return heard
    ((name,),) = named
    acts = [
        replace(each, slots=replace(each.slots, yard=name))
        if each.why == "grammar" and each.slots.yard is None and each.act in _SEEN_THERE
        else each
        for each in heard.acts
    ]
    return replace(heard, acts=tuple(acts))


#: What is told of one place and may name its yard, whatever form it fits.
_SEEN_THERE: Final = frozenset(
    {"report_weeds", "report_watered", "report_rain", "report_soil", "report_gap"}
)


_TWO: Final = 2


def of_every_yard(heard: Heard, form: Normal, scene: Scene) -> Heard:
    """Return acts with the word for every yard that was said beside them, such as "everywhere"."""
    text = form.text.strip(" .,!")
    every = words.phrases("whose", "every_yard", "words").search(text)
    last = [each.end() for each in words.phrases("whose", "every_yard", "last").finditer(text)]
    if every is None and len(scene.yards) == _TWO:
        every = words.phrases("whose", "every_yard", "both").search(text)
    if every is None and len(text) not in last:
        return heard
    acts = [replace(each, slots=replace(each.slots, every_yard=True)) for each in heard.acts]
    return replace(heard, acts=tuple(acts))
