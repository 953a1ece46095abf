"""Wishes in plain words: free hours, watering, ground, sprinkler, label."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any, Final

from bot.dialogue import topics
from bot.dialogue.talk import Talk
from bot.hearing.forms.wish_forms import (
    BanSaid,
    CansSaid,
    CanWaterSaid,
    FreeHours,
    FreeSaid,
    WaterDaysSaid,
)
from bot.hearing.heard import ActHeard
from bot.letters.watering_words import run_words
from bot.saying.values import Depth
from bot.telling import offers, wishes_told
from bot.telling.wishes_told import days_in, spans_in
from bot.turn import Reply
from jobs.agronomy.watering import sprinkler_minutes
from jobs.uses import keeping_wishes as uses
from jobs.uses import water_so_far as watering_uses
from jobs.weather_of_day import run_of, water_terms
from storage.yards import YardRecord


def on_set_days(talk: Talk, yard: YardRecord, heard: ActHeard) -> list[Reply]:
    """Keep the hours one is free, the days one may water, a ban, or that one cannot water.

    Said of one yard it is offered for the others.
    """
    before = talk.standing(yard).wishes.free_hours
    replies = _set_days(talk, yard, heard)
    is_free = talk.standing(yard).wishes.free_hours != before
    return offers.with_offer(talk, yard, "free" if is_free else "water", replies)


def _set_days(talk: Talk, yard: YardRecord, heard: ActHeard) -> list[Reply]:
    said, slots = heard.slots.read, heard.slots
    if isinstance(said, Mapping):
        said = FreeSaid(said)
    elif said == "any":
        said = FreeSaid(None)
    match said:
        case FreeSaid():
            return _free(talk, yard, said)
        case WaterDaysSaid():
            return _water_days(talk, yard, said.days)
        case BanSaid():
            changes: dict[str, Any] = {"is_water_banned": said.is_on}
            uses.change_watering(talk.work, yard, changes)
            key = "wishes.banned" if said.is_on else "wishes.ban_over"
            return [talk.reply(key, yard=yard.name)]
        case CanWaterSaid():
            changes = {"water_how": None if said.can else "none"}
            uses.change_watering(talk.work, yard, changes)
            key = "wishes.can_water" if said.can else "wishes.cannot_water"
            return [talk.reply(key, yard=yard.name)]
    if not slots.weekdays:
        return [talk.reply("wishes.free_unread")]
    hours: FreeHours = dict.fromkeys(sorted(slots.weekdays), (0, wishes_told.DAY_MIN))
    if slots.work == "water":
        return _water_days(talk, yard, slots.weekdays)
    return _free(talk, yard, FreeSaid(hours))


def on_set_sprinkler(talk: Talk, yard: YardRecord, heard: ActHeard) -> list[Reply]:
    """Keep what a sprinkler gives, from cans set out under it."""
    said, slots = heard.slots.read, heard.slots
    is_of_run = slots.depth_m is not None and slots.minutes is None
    if talk.topic == topics.WATER_DEPTH and is_of_run and not isinstance(said, CansSaid):
        # "The can has 3/8 inch in it", after minutes that said too little.
        return talk.answer("report_watered", yard, replace(heard, act="report_watered"))
    try:
        if isinstance(said, CansSaid):
            depths_m, minutes = said.depths_m, said.minutes
        elif slots.depth_m is not None and slots.minutes is not None:
            depths_m, minutes = (slots.depth_m,), slots.minutes
        else:
            raise ValueError(heard.said)
        caught = watering_uses.caught([depth * 1000 for depth in depths_m], minutes)
    except ValueError:
        return [talk.reply("watering.sprinkler_unread")]
    after = uses.change_yard(talk.work, yard, {"sprinkler_mm_h": caught.rate_mm_h})
    if talk.topic == topics.WATER_DEPTH:
        # Minutes say enough now.
        talk.settle()
    wanted_mm = water_terms(talk.work, yard).depth_mm
    lines = [
        talk.say(
            "watering.sprinkler",
            rate=Depth(caught.rate_mm_h / 1000),
            depth=Depth(wanted_mm / 1000),
            minutes=round(sprinkler_minutes(wanted_mm, caught.rate_mm_h)),
        )
    ]
    run = run_of(after, wanted_mm)
    if run is not None and run.count > 1:
        lines.append(run_words(run))
    if caught.evenness < _EVEN:
        share = round(100 * caught.evenness)
        lines.append(talk.say("watering.sprinkler_uneven", share=share))
    return [Reply("\n".join(lines))]


def _free(talk: Talk, yard: YardRecord, said: FreeSaid) -> list[Reply]:
    if said.hours is None:
        uses.change_yard(talk.work, yard, {"free_hours": None})
        return [talk.reply("wishes.free_any", yard=yard.name)]
    if not said.hours:
        return [talk.reply("wishes.free_unread")]
    kept = {str(day): list(span) for day, span in said.hours.items()}
    uses.change_yard(talk.work, yard, {"free_hours": kept})
    return [talk.reply("wishes.free_set", yard=yard.name, hours=spans_in(talk, said.hours))]


def _water_days(talk: Talk, yard: YardRecord, days: frozenset[int]) -> list[Reply]:
    is_any = len(days) == 7
    names = None if is_any else ", ".join(_NAMES[day] for day in sorted(days))
    uses.change_watering(talk.work, yard, {"water_days": names})
    if is_any:
        return [talk.reply("wishes.water_days_any", yard=yard.name)]
    return [talk.reply("wishes.water_days", yard=yard.name, days=days_in(talk, days))]


#: Below this a sprinkler is called uneven: distribution uniformity of the low quarter, of which 0.7
#: is a usual goal for sprinklers (common practice, no source).
_EVEN: Final = 0.7
_NAMES: Final = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")

HANDLERS: Final = {"set_days": on_set_days, "set_sprinkler": on_set_sprinkler}
