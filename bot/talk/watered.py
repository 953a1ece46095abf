"""Water that was reported, by sprinkler and from the sky."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import Final

from bot.dialogue import topics
from bot.dialogue.named_here import zones_said
from bot.dialogue.talk import Talk
from bot.hearing.heard import ActHeard
from bot.hearing.readers.reading import Unread
from bot.saying.values import Day, Depth, Names
from bot.telling import water_due
from bot.turn import Reply
from jobs import packed_cells
from jobs.sources.base import Cell
from jobs.uses import water_reports
from jobs.uses import water_so_far as watering_uses
from jobs.watering_in import rain_on
from storage.yards import YardRecord, ZoneRecord

#: More water than this at once is a slip of the decimal point [mm]: 4 in.
_FLOOD_MM: Final = 101.6


def on_report_watered(talk: Talk, yard: YardRecord, heard: ActHeard) -> list[Reply]:
    """Take a report of watering; without a depth the person's word is taken for all of it."""
    slots, on = heard.slots, talk.said_at(yard).date()
    if slots.unread is not None:
        problem = slots.unread.sentence()
        return [talk.reply("applying.water_unread", problem=problem)]
    if slots.on is not None:
        if slots.on.is_future:
            return [talk.reply("applying.water_future", said=slots.on.said)]
        on = slots.on.at.date()
    zones = talk.standing(yard).zones
    named = zones_said(zones, slots)
    depth_m = slots.depth_m
    if talk.topic == topics.WATER_DEPTH and depth_m is not None:
        # A depth alone is what the minutes came to.
        on = on if slots.on is not None else date.fromisoformat(talk.data["on"])
        named = named or [zone for zone in zones if zone.id in talk.data["zones"]]
        talk.settle()
    if depth_m is None and slots.minutes is not None:
        depth_mm = watering_uses.depth_of_minutes(talk.work, yard, slots.minutes)
        if depth_mm is None:
            minutes, of = f"{slots.minutes:.0f}", [zone.id for zone in named]
            if talk.topic in (None, topics.WATER_DEPTH):
                # A label half entered waits for what was asked of it.
                talk.expect(topics.WATER_DEPTH, on=on.isoformat(), zones=of)
            return [talk.reply("watering.minutes_unknown", minutes=minutes)]
        depth_m = depth_mm / 1000
    if depth_m is None and slots.number is not None:
        problem = Unread(heard.said, "reading.depth", "0.4 in, or 10 mm").sentence()
        return [talk.reply("applying.water_unread", problem=problem)]
    return _record(talk, yard, depth_m, on, [] if slots.all_zones else named)


def on_report_rain(talk: Talk, yard: YardRecord, heard: ActHeard) -> list[Reply]:
    """Take rain somebody measured: it counts for what the weather service has less of that day."""
    slots, on = heard.slots, talk.said_at(yard).date()
    if slots.on is not None and not slots.on.is_future:
        on = slots.on.at.date()
    if slots.depth_m is None:
        return talk.answer("ask_washed_out", yard, heard)
    held = packed_cells.held(talk.work, talk.around.source, Cell.at(yard.lat, yard.lon))
    known_mm = 0.0 if held is None else rain_on(held.known, on)
    more_mm = slots.depth_m * 1000 - known_mm
    if more_mm <= 0:
        said = Depth(slots.depth_m)
        return [talk.reply("watering.rain_known", yard=yard.name, rain=said)]
    return _record(talk, yard, more_mm / 1000, on)


def _record(
    talk: Talk, yard: YardRecord, depth_m: float | None, on: date, zones: Sequence[ZoneRecord] = ()
) -> list[Reply]:
    depth_mm = None if depth_m is None else depth_m * 1000
    if depth_mm is not None and depth_mm > _FLOOD_MM:
        depth = Depth(depth_mm / 1000)
        return [talk.reply("applying.water_much", depth=depth)]
    held = packed_cells.held(talk.work, talk.around.source, Cell.at(yard.lat, yard.lon))
    try:
        done = water_reports.record_watering(
            talk.work,
            yard,
            depth_mm,
            None if held is None else held.known,
            on=on,
            person_id=talk.person.id,
            now=talk.now,
            zones=zones or None,
        )
    except water_reports.NothingToWaterIn:
        return [talk.reply("applying.nothing_to_water", yard=yard.name)]
    except water_reports.WateredBefore as before:
        today = talk.said_at(yard).date()
        day, applied = Day(on, today), Day(before.applied_on, today)
        return [talk.reply("applying.watered_before", day=day, applied=applied)]
    key = "applying.watered_in" if done.is_watered_in else "applying.watered_some"
    missing_mm = max(0.0, done.wanted_mm - done.had_mm)
    lines = [
        talk.say(
            key,
            yard=yard.name,
            added=Depth(done.added_mm / 1000),
            had=Depth(done.had_mm / 1000),
            missing=Depth(missing_mm / 1000),
        )
    ]
    if not done.is_watered_in:
        lines.append(water_due.missing_words(talk, yard, missing_mm))
    if done.still_dry:
        lines.append(talk.say("applying.water_zones", zones=Names(done.still_dry)))
    return [Reply("\n".join(line for line in lines if line), talk.undo())]


HANDLERS: Final = {"report_watered": on_report_watered, "report_rain": on_report_rain}
