"""What is said of every yard at once: ``watered everywhere``, ``half an inch on all``."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from bot.dialogue.talk import Talk
from bot.hearing.forms.weed_forms import SightingSaid
from bot.hearing.heard import ActHeard, Heard
from bot.saying.shown_names import first_named
from bot.saying.values import Names
from bot.turn import Reply
from storage.yards import YardRecord

#: What may be said of every yard, and whether it is about what waits for water alone.
_OF_ALL: Final = {"report_watered": True, "report_rain": True, "report_weeds": False}
#: Of so many yards that wait for water the one spoken of last is meant by "everything".
_A_FEW: Final = 2
#: So many answers are said whole; of more the yards are named.
_WHOLE: Final = 3


def answer(talk: Talk, heard: Heard) -> list[Reply] | None:
    """Do at every yard what was said of every one; None for other texts."""
    act = heard.acts[0] if len(heard.acts) == 1 else None
    if act is None or not act.slots.every_yard or act.slots.yard or act.act not in _OF_ALL:
        return None
    return at_all(talk, act)


def at_all(talk: Talk, act: ActHeard) -> list[Reply] | None:
    """Do at every yard what is meant of every one; None where that cannot be."""
    is_none_seen = isinstance(act.slots.read, SightingSaid) and not act.slots.read.is_seen
    if act.act == "report_weeds" and not is_none_seen:
        # Weeds are somewhere, never everywhere: where it was is asked.
        return None
    mine = [yard for yard in talk.yards() if talk.may(yard, "confirm")]
    if len(mine) < 2:
        return None
    is_of_water = _OF_ALL[act.act]
    about = [yard for yard in mine if not is_of_water or _waits(talk, yard)]
    if not about:
        return [talk.reply("watering.none_waits")]
    # Names of zones are the yard's that is talked about: here all of each is meant.
    slots = replace(act.slots, zones=(), strangers=(), all_zones=True)
    at, replies = talk.yard_id, list[Reply]()
    for yard in about:
        replies += talk.answer(act.act, yard, replace(act, slots=slots))
    talk.yard_id = at
    if len(about) <= _WHOLE:
        return replies
    if not is_of_water:
        return [talk.reply("letters.digest_done_none", yards=first_named([y.name for y in about]))]
    short = [yard.name for yard in about if _waits(talk, yard)]
    full = [yard.name for yard in about if yard.name not in short]
    lines = []
    if full:
        lines.append(talk.say("letters.digest_done_watered", yards=first_named(full)))
    if short:
        lines.append(talk.say("watering.still_short", yards=Names(short)))
    return [Reply("\n".join(lines))]


def are_many_waiting(talk: Talk, mine: Sequence[YardRecord]) -> bool:
    """Tell whether more yards wait for water than anybody speaks of one by one."""
    return sum(_waits(talk, yard) for yard in mine) > _A_FEW


def _waits(talk: Talk, yard: YardRecord) -> bool:
    """Tell whether something that is down there waits for its water."""
    done = talk.standing(yard).done
    return bool(done) and done[-1].watered_in_on is None
