"""The table of acts: what answers each of them.

Every subject lists its own in ``HANDLERS``. Rights stand in the act's row (`bot.hearing.acts`) and
are checked once, before the handler is called. A handler takes the turn, the yard meant and what
was heard; it never looks at the text. The yard is None only where the act needs no right on one
and there is none.
"""

from __future__ import annotations

from types import ModuleType
from typing import Final

from bot.dialogue.talk import Answers, Handler
from bot.talk import (  # noqa: F401 (taken from this module's names below)
    amounts_asked,
    applying,
    beforehand,
    buying,
    choosing,
    courtesies,
    everyday,
    exporting,
    inviting,
    measuring,
    notices,
    own_thermometer,
    parting,
    planning,
    product_chosen,
    product_entry,
    reasons,
    records,
    registering,
    rounds_of_work,
    scouting,
    screening,
    services,
    shortfalls,
    sketching,
    soil_now,
    sowing,
    spreader_slips,
    spreaders,
    taking_out,
    turning,
    undoing,
    walking,
    watered,
    weeds,
    week_ahead,
    when_to_treat,
    when_to_write,
    wishes_said,
    yes_or_no,
    zone_traits,
)

#: The rooms: what answers the acts of one subject each. None borrows from another.
SUBJECTS: Final = [
    each
    for each in list(vars().values())
    if isinstance(each, ModuleType) and each not in (beforehand, yes_or_no)
]

#: What answers each act.
HANDLERS: Final[dict[str, Handler]] = {
    act: handler for subject in SUBJECTS for act, handler in subject.HANDLERS.items()
}

#: What answers each act that has an answer of its own where there is no yard.
BEFOREHAND: Final[dict[str, Handler]] = {**beforehand.HANDLERS, "undo": HANDLERS["undo"]}

#: What a turn has at hand, so that one subject reaches another by its act alone.
ANSWERS: Final = Answers(HANDLERS, BEFOREHAND, yes_or_no.settle)
