"""Water that was reported, by sprinkler and from the sky, and the two worried questions."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date, timedelta
from typing import Final

from bot.dialogue import topics
from bot.dialogue.named_here import zones_said
from bot.dialogue.product_commands import BEFORE_KEPT
from bot.dialogue.talk import Talk
from bot.hearing.forms.water_forms import WorrySaid
from bot.hearing.heard import ActHeard, Slots
from bot.hearing.readers.reading import Unread
from bot.saying.values import Day, Depth, Names
from bot.telling import water_due
from bot.turn import Reply
from jobs import packed_cells
from jobs.local_days import local
from jobs.sources.base import Cell
from jobs.uses import undo, water_reports
from jobs.uses import water_so_far as uses
from jobs.watering_in import rain_on
from storage import journal
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
    depth_m, rate_told = slots.depth_m, list[Reply]()
    if talk.topic == topics.WATER_DEPTH and depth_m is not None:
        # A depth alone is what the minutes came to.
        on = on if slots.on is not None else date.fromisoformat(talk.data["on"])
        named = named or [zone for zone in zones if zone.id in talk.data["zones"]]
        minutes = talk.data.get("minutes") if slots.minutes is None else None
        talk.settle()
        if minutes:
            # And what the sprinkler gives: the next minutes say enough.
            run = Slots(depth_m=depth_m, minutes=float(minutes))
            rate_told = talk.answer("set_sprinkler", yard, replace(heard, slots=run))
    if depth_m is None and slots.minutes is not None:
        depth_mm = uses.depth_of_minutes(talk.work, yard, slots.minutes)
        if depth_mm is None:
            of = [zone.id for zone in named]
            if talk.topic in (None, topics.WATER_DEPTH) or _is_put_twice(talk):
                facts = {"on": on.isoformat(), "zones": of, "minutes": slots.minutes}
                talk.expect(topics.WATER_DEPTH, **facts)
            return [talk.reply("watering.minutes_unknown", minutes=f"{slots.minutes:.0f}")]
        depth_m = depth_mm / 1000
    if depth_m is None and slots.number is not None:
        problem = Unread(heard.said, "reading.depth", "0.4 in, or 10 mm").sentence()
        return [talk.reply("applying.water_unread", problem=problem)]
    return [*_record(talk, yard, heard, depth_m, on, [] if slots.all_zones else named), *rate_told]


def _is_put_twice(talk: Talk) -> bool:
    """Tell whether all that waits is what is left of a kept label, put again once already."""
    is_kept = talk.topic == topics.PRODUCT and talk.data.get("awaits") not in BEFORE_KEPT
    return is_kept and "put_again" in talk.data


def on_report_rain(talk: Talk, yard: YardRecord, heard: ActHeard) -> list[Reply]:
    """Take rain somebody measured: it counts for what the weather service has less of that day."""
    slots, on = heard.slots, talk.said_at(yard).date()
    if slots.on is not None and not slots.on.is_future:
        on = slots.on.at.date()
    if slots.depth_m is None:
        return on_ask_washed_out(talk, yard, heard)
    held = packed_cells.held(talk.work, talk.around.source, Cell.at(yard.lat, yard.lon))
    known_mm = 0.0 if held is None else rain_on(held.known, on)
    more_mm = slots.depth_m * 1000 - known_mm
    if more_mm <= 0:
        _without_last(talk, yard, heard)
        said = Depth(slots.depth_m)
        return [talk.reply("watering.rain_known", yard=yard.name, rain=said)]
    return _record(talk, yard, heard, more_mm / 1000, on)


def _without_last(talk: Talk, yard: YardRecord, heard: ActHeard) -> None:
    """Take back the water reported just before, where its depth is put right."""
    if heard.act != "change_record":
        return
    noted = journal.of_yard(talk.work, yard.id, ("watering.add",))
    mine = [each for each, _ in noted if each.person_id == talk.person.id]
    last = journal.entry(talk.work, mine[-1].id) if mine else None
    if last is not None and talk.now - last.at < _PUT_RIGHT_WITHIN:
        undo.undo(talk.work, last, person_id=talk.person.id, now=talk.now)


#: Later, another depth is another report. Our choice.
_PUT_RIGHT_WITHIN: Final = timedelta(hours=2)


def _record(
    talk: Talk,
    yard: YardRecord,
    heard: ActHeard,
    depth_m: float | None,
    on: date,
    zones: Sequence[ZoneRecord] = (),
) -> list[Reply]:
    depth_mm = None if depth_m is None else depth_m * 1000
    if depth_mm is not None and depth_mm > _FLOOD_MM:
        depth = Depth(depth_mm / 1000)
        return [talk.reply("applying.water_much", depth=depth)]
    _without_last(talk, yard, heard)
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


#: A spell without rain so long after an application is what somebody worries about who names none.
_DRY_DAYS: Final = 10


def on_ask_washed_out(talk: Talk, yard: YardRecord, heard: ActHeard) -> list[Reply]:
    """Answer ``two inches fell overnight, redo it?`` and ``three dry weeks, is it wasted?``."""
    said = heard.slots.read
    if isinstance(said, WorrySaid) and said.is_dry:
        return [_dry(talk, yard)]
    depth_m = heard.slots.depth_m
    return [_heavy(talk, yard, None if depth_m is None else depth_m * 1000)]


def _heavy(talk: Talk, yard: YardRecord, said_mm: float | None) -> Reply:
    found = uses.after_rain(talk.work, yard, talk.around.source, said_mm, talk.now)
    if found is None:
        return talk.reply("watering.nothing_down", yard=yard.name)
    if said_mm is None and found.after.rain_mm < 1.0:
        is_long = found.state.by - talk.now < timedelta(days=-_DRY_DAYS)
        fell = Depth(found.after.rain_mm / 1000)
        how_much = talk.reply("watering.heavy_how_much", yard=yard.name, rain=fell)
        return _dry(talk, yard) if is_long else how_much
    key = {
        "keep": "watering.heavy_keep",
        "keep_watered_in": "watering.heavy_watered_in",
        "look_for_washed_spots": "watering.heavy_look",
    }[found.after.answer]
    lines = [
        talk.say(
            key,
            yard=yard.name,
            rain=Depth(found.after.rain_mm / 1000),
            limit=Depth(found.after.limit_mm / 1000),
        )
    ]
    if not found.after.was_watered_in and found.after.rain_mm >= found.state.missing_mm > 0:
        # What somebody asks about is kept only when they tell it.
        rain = Depth(found.after.rain_mm / 1000)
        lines.append(talk.say("watering.heavy_counts", rain=rain))
    return Reply(
        "\n".join(lines),
        talk.row(("yards.button_amounts", f"amounts:{yard.id}")),
        data={"after_rain": found.to_json()},
    )


def _dry(talk: Talk, yard: YardRecord) -> Reply:
    found = uses.after_drought(talk.work, yard, talk.around.source, talk.now)
    if found is None:
        return talk.reply("watering.nothing_down", yard=yard.name)
    spell = found.spell
    had = found.state.rain_mm + found.state.irrigated_mm
    here = local(found.state.by, yard.timezone).date()
    missing = Depth(spell.missing_mm / 1000)
    lines = [
        talk.say(
            f"watering.dry_{spell.answer}",
            yard=yard.name,
            days=round(spell.days_dry),
            missing=missing,
            had=Depth(had / 1000),
            by=Day(here, talk.today(yard)),
        )
    ]
    if spell.answer != "watered_in":
        minutes = water_due.missing_words(talk, yard, spell.missing_mm)
        if minutes:
            lines.append(minutes)
        if spell.share_left is not None:
            share = round(100 * spell.share_left)
            lines.append(talk.say("watering.dry_share", share=share))
    return Reply("\n".join(lines), data={"dry_spell": found.to_json()})


HANDLERS: Final = {
    "report_watered": on_report_watered,
    "report_rain": on_report_rain,
    "ask_washed_out": on_ask_washed_out,
}
