"""Sizes that wait for [Keep], and the zones of a yard with them in their place."""

from __future__ import annotations

from bot.dialogue.talk import Talk
from bot.saying.catalogue import shown
from bot.saying.examples import size_in_words
from bot.saying.values import Area
from bot.turn import Buttons, rows
from storage.yards import NewZone, YardRecord, ZoneRecord


def waiting(talk: Talk, yard: YardRecord) -> list[NewZone]:
    """Return a yard's sizes that nobody has said to keep, or gone on after."""
    if talk.unkept.get("yard") != yard.id:
        return []
    return [NewZone(**each) for each in talk.unkept.get("zones", ())]


def areas(talk: Talk, yard: YardRecord) -> dict[str, float]:
    """Return the zones of a yard by name, with those that wait in their place [m²]."""
    kept = {zone.name: zone.area_m2 for zone in talk.standing(yard).zones}
    for new in waiting(talk, yard):
        name = next((each for each in kept if each.casefold() == new.name.casefold()), new.name)
        kept[name] = new.area_m2
    return kept


def forget(talk: Talk) -> bool:
    """Forget the sizes that wait; tell whether there were any."""
    there_were, talk.unkept = are_there(talk), {}
    return there_were


def step_back(talk: Talk) -> list[NewZone]:
    """Forget what was said last of the sizes that wait; return those that wait still."""
    before = talk.unkept.get("before", [])
    talk.unkept = {**talk.unkept, "zones": before, "before": []} if before else {}
    return [NewZone(**each) for each in before]


def are_there(talk: Talk) -> bool:
    """Tell whether any sizes wait."""
    return bool(talk.unkept.get("zones"))


def keep_or_fix(talk: Talk, yard: YardRecord) -> Buttons:
    """Return the buttons under sizes that wait."""
    fix_label, keep_label = talk.say("zones.button_fix"), talk.say("zones.button_keep")
    return rows([(fix_label, f"zones:fix:{yard.id}"), (keep_label, f"zones:keep:{yard.id}")])


def line_of(talk: Talk, zone: ZoneRecord | NewZone, was_m2: float | None = None) -> str:
    """Return a zone with its size in one line, and what it was before."""
    area, echo = shown(Area(zone.area_m2)), size_in_words(zone.echo)
    key = "zones.line_area" if echo in ("", area) else "zones.line"
    if was_m2 is None:
        return talk.say(key, name=zone.name, echo=echo, area=area)
    return talk.say(f"{key}_again", name=zone.name, echo=echo, area=area, was=shown(Area(was_m2)))
