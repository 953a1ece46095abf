"""Bags that went down: how many a report took, and what only looks like the shelf or a zone."""

from __future__ import annotations

from collections.abc import Collection
from functools import partial
from typing import Final

from bot.hearing import words
from bot.hearing.clause_readings import Reading
from bot.hearing.forms.gap_forms import is_gap
from bot.hearing.phrases import phrases
from bot.hearing.readers.lexing import known_value
from bot.hearing.readers.spoken import spoken
from bot.hearing.readers.zone_parts import fraction_of
from bot.hearing.stretches import Stretch

_says: Final = partial(phrases, "sentences")


def bags_used(text: str) -> float | None:
    """Return how many bags a report took: 0 where it was not just so many, and is asked."""
    text = spoken(text)
    found = _says("bags").first(text)
    if found is None or _says("not_used").first(text):
        return None
    if found["some"] or _says("not_quite").first(text):
        return 0.0
    if found["share"]:
        # "Medio saco", which is no part of a lawn.
        return fraction_of(found["share"]) or 0.5
    count = known_value(found["number"] or "1")
    return count + 0.5 if count is not None and found["and_half"] else count


def act_of_used(
    between: Collection[str], reading: Reading, clause: Stretch, *, is_beside: bool
) -> str | None:
    """Return the act of a clause whose bags or pounds went down; None where it tells of no such.

    "Used half a bag" is none of what is on the shelf, nor half of a zone.

    Parameters
    ----------
    between
        The acts it was heard as.
    is_beside
        Whether a report is told beside it: "put the front down, about a third of the bag".
    """
    said = reading.manner
    is_fact = not (said.is_question or said.is_plan or said.is_condition or said.is_third)
    is_open = bool(_LIKE_USED.intersection(between)) or (
        len(between) > 1 and "report_applied" in between
    )
    if not (is_open and is_fact) or is_gap(clause.text):
        return None
    is_done = words.phrases("commands", "done", "words").search(clause.text) is not None
    if clause.of("amount") and len(between) == 2 and "set_stock" in between:
        # "Finished just now, 12 pounds"; "front only, 7 lb".
        other = next(act for act in between if act != "set_stock")
        if other in _OF_WORK and (is_done or clause.of("zone")):
            return other
    if bags_used(clause.text) is None:
        return None
    if is_beside:
        return "set_stock"
    found = _says("bags").first(spoken(clause.text))
    if found is None or _says("took").at_end(found.before) is None:
        return None
    return "report_applied" if clause.of("zone", "all") or is_done else "change_record"


#: What bags that went down are heard as where it is not plain.
_LIKE_USED: Final = frozenset({"set_stock", "report_gap"})
#: What pounds of a zone, or of work that is done, are said of.
_OF_WORK: Final = ("report_applied", "change_record")
