"""Sizes that wait for [Keep]: held with the dialogue, kept by [Keep] or by going on.

A next step about the yard keeps them, and says so; cancelling forgets them.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import asdict, replace
from typing import Any, Final

from bot.dialogue import same_ground_asked, topics
from bot.dialogue.sizes_waiting import are_there, forget, waiting
from bot.dialogue.talk import Talk
from bot.hearing.acts import ACTS
from bot.saying.catalogue import shown
from bot.saying.values import Area, Names
from bot.turn import Reply
from jobs.uses import grass as grasses
from jobs.uses import zones as uses
from jobs.uses.bounds import OutOfBounds, check_zones
from jobs.uses.grass import Change
from storage import journal
from storage.yards import NewZone, YardRecord

#: What goes on with the sizes themselves, or is no step at all.
_NO_STEP: Final = frozenset({"measure", "cancel", "undo", "confirm", "deny", "unknown", "other"})

#: In place of a name: zones that are measured next.
_EVERY: Final = ""


def hold_grass(talk: Talk, yard: YardRecord, grass: str, names: Sequence[str]) -> None:
    """Hold the grass of zones that wait; without names of those still to be measured."""
    held: dict[str, Any] = {"yard": yard.id}
    if talk.unkept.get("yard") == yard.id:
        held = talk.unkept
    of = {name.casefold(): grass for name in names or [_EVERY]}
    talk.unkept = {**held, "grass": {**held.get("grass", {}), **of}}


def add(talk: Talk, yard: YardRecord, new: Sequence[NewZone]) -> list[Reply]:
    """Let sizes wait for [Keep] with those that do; return what is said of another yard's.

    Raises
    ------
    OutOfBounds
        If there would be too many zones, or a name is too long.
    """
    others = [] if talk.unkept.get("yard") == yard.id else keep(talk)
    names = {each.name.casefold() for each in new}
    held = [each for each in waiting(talk, yard) if each.name.casefold() not in names]
    check_zones(talk.work, yard, [each.name for each in (*held, *new)])
    before = [asdict(each) for each in waiting(talk, yard)]
    zones = [asdict(each) for each in (*held, *new)]
    talk.unkept = {**talk.unkept, "yard": yard.id, "zones": zones, "before": before}
    return others


def keep(talk: Talk, *, is_said: bool = True) -> list[Reply]:
    """Keep the sizes that wait; say so, and ask what has to be asked of their ground."""
    yard = next((each for each in talk.yards() if each.id == talk.unkept.get("yard")), None)
    new = [] if yard is None else waiting(talk, yard)
    grass = talk.unkept.get("grass", {})
    forget(talk)
    left: list[str] = []
    if talk.topic == topics.ZONE_DOUBT and is_said:
        left = [str(each["said"]) for each in talk.data.get("zones", ())]
    if talk.topic in (topics.ZONES, topics.ZONE_DOUBT):
        # That they are right is settled with it.
        talk.settle()
    if yard is None or not new or not talk.may(yard, "change"):
        return []
    try:
        zones = uses.keep(talk.work, yard, new, person_id=talk.person.id, now=talk.now)
    except OutOfBounds as bound:
        return [talk.reply(f"bounds.{bound.bound}", most=bound.most)]
    of = {each.name.casefold(): grass.get(each.name.casefold(), grass.get(_EVERY)) for each in new}
    for zone in zones:
        if (key := of.get(zone.name.casefold())) is not None:
            change = Change(grass=key)
            grasses.change(talk.work, yard, [zone], change, now=talk.now)
    # What is done in the same turn is taken back by itself.
    journal.end_entry(talk.work)
    names = Names([each.name for each in new])
    total = shown(Area(sum(zone.area_m2 for zone in zones)))
    lines = [talk.say("zones.kept_by_going_on", names=names, total=total)]
    if left:
        lines.append(talk.say("zones.left_out", said=Names(left)))
    said = [Reply("\n".join(lines))] if is_said else []
    return [*said, *same_ground_asked.asked(talk, yard)]


def before(talk: Talk, act: str) -> list[Reply]:
    """Return what is said of sizes that a next step keeps, an act about the yard."""
    if not are_there(talk) or act in _NO_STEP or ACTS[act].needs == "none":
        return []
    return keep(talk)


def said_first(kept: Sequence[Reply], replies: list[Reply]) -> list[Reply]:
    """Put what was said of sizes kept in front of what was answered, and what is asked behind."""
    if not kept or not replies:
        return [*kept, *replies]
    note, *asked = kept
    first, *others = replies
    return [replace(first, text=f"{note.text}\n{first.text}"), *others, *asked]
