"""Zones taken out; what was done on their ground stays on record."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from bot.dialogue import topics
from bot.dialogue.named_here import names_of, total_of, zones_said
from bot.dialogue.talk import Talk
from bot.hearing.heard import ActHeard
from bot.saying.values import Names
from bot.telling import zones_out
from bot.turn import LONGEST_ACTION, Reply, rows
from jobs.uses import zones as uses
from storage.yards import YardRecord, ZoneRecord


def settle_removal(talk: Talk, yard: YardRecord, is_sure: bool) -> list[Reply]:
    """Answer the question whether all zones are to be taken out."""
    if talk.topic != topics.ZONES_REMOVE or talk.data["yard_id"] != yard.id:
        return [talk.stale("help.hint_zones")]
    kept = talk.standing(yard).zones
    asked = [zone for zone in kept if zone.id in talk.data["zone_ids"]]
    talk.settle()
    if is_sure and asked:
        return _removed(talk, yard, asked)
    return [talk.reply("zones.remove_kept", yard=yard.name, total=total_of(kept))]


def on_remove_zone(talk: Talk, yard: YardRecord, heard: ActHeard) -> list[Reply]:
    """Take out the zones that were named; all of them only after a question."""
    kept = talk.standing(yard).zones
    if not kept:
        return talk.answer("show_zones", yard)
    found = list(kept) if heard.slots.all_zones else zones_said(kept, heard.slots)
    if not found:
        said, names = ", ".join(heard.slots.strangers), names_of(kept)
        key = "zones.remove_unknown" if said else "zones.remove_which"
        return [talk.reply(key, yard=yard.name, said=said, names=names, name=kept[0].name)]
    if heard.slots.parts:
        return [talk.reply("zones.remove_part", name=found[0].name)]
    if len(found) > 1 and heard.slots.all_zones:
        return [_ask_to_remove(talk, yard, found)]
    recorded = zones_out.of_newest(talk, yard, found)
    if recorded is not None:
        # "Scratch the back", of what is just on record, may mean the record or the zone.
        out = zones_out.ask(talk, yard, recorded)
        action = ":".join(["zones", "forget", str(yard.id), *(str(zone.id) for zone in found)])
        label = talk.say("zones.button_forget", zones=names_of(found))
        drop = rows([(label, action)]) if len(action) <= LONGEST_ACTION else ()
        return [replace(out, buttons=(*out.buttons, *drop))]
    return _removed(talk, yard, found)


def forget_tapped(talk: Talk, yard: YardRecord, action: str) -> list[Reply]:
    """Answer the button that takes out zones of which something is on record just now."""
    numbers = action.split(":")[3:]
    found = [zone for zone in talk.standing(yard).zones if str(zone.id) in numbers]
    return _removed(talk, yard, found) if found else [talk.stale("help.hint_zones")]


def _ask_to_remove(talk: Talk, yard: YardRecord, found: Sequence[ZoneRecord]) -> Reply:
    talk.expect(topics.ZONES_REMOVE, yard_id=yard.id, zone_ids=[zone.id for zone in found])
    buttons = talk.row(
        ("zones.button_remove", f"zones:clear:{yard.id}"),
        ("zones.button_remove_not", f"zones:leave:{yard.id}"),
    )
    names = names_of(found)
    return talk.reply("zones.remove_all", buttons, count=len(found), yard=yard.name, names=names)


def _removed(talk: Talk, yard: YardRecord, found: Sequence[ZoneRecord]) -> list[Reply]:
    removed = uses.remove(talk.work, yard, found, now=talk.now)
    left = talk.standing(yard).zones
    total = total_of(left)
    said = talk.say("zones.removed", names=names_of(found), yard=yard.name, total=total)
    record = [talk.say("zones.removed_record", zones=Names(removed))] if removed else []
    return [Reply("\n".join([said, *record]))]


HANDLERS: Final = {"remove_zone": on_remove_zone}
