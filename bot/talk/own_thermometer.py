"""The yard's own thermometer in conversation: ``soil 52``, or ``soil 11.5 C at 3 in, 4 pm``."""

from __future__ import annotations

from dataclasses import asdict, fields
from datetime import datetime
from typing import Final

from bot.dialogue import topics
from bot.dialogue.named_here import names_of, zones_said
from bot.dialogue.talk import Talk
from bot.hearing.heard import ActHeard
from bot.saying.values import Temperature
from bot.turn import Reply, rows
from jobs.uses import taking_readings as uses
from storage import journal
from storage.yards import YardRecord


def on_report_soil(talk: Talk, yard: YardRecord, heard: ActHeard) -> list[Reply]:
    """Take a reading, or ask what is unclear about it."""
    slots, now = heard.slots, talk.said_at(yard)
    if slots.unread is not None:
        return [Reply(slots.unread.sentence())]
    if slots.soil_c is None:
        return [talk.reply("readings.how")]
    at = now if slots.on is None else slots.on.at
    if at > now:
        return [talk.reply("readings.future")]
    zones = zones_said(talk.standing(yard).zones, slots)
    if slots.rest and heard.why == "grammar":
        return [talk.reply("readings.unclear", said=slots.rest)]
    if len(zones) > 1:
        return [talk.reply("readings.unclear", said=names_of(zones))]
    has_hour = slots.on is not None and slots.on.has_time
    command = uses.TakeReading(
        measured_c=slots.soil_c,
        depth_m=uses.USUAL_DEPTH_M if slots.depth_m is None else slots.depth_m,
        read_at=at,
        has_hour=has_hour or at == now,
        zone_name=zones[0].name if zones else None,
        said=heard.said,
    )
    return _take(talk, yard, command)


def confirm(talk: Talk, yard: YardRecord, is_right: bool) -> list[Reply]:
    """Answer the question about a reading that is far off."""
    if talk.topic != topics.READING_SURE:
        return [talk.stale("readings.hint")]
    data = talk.data
    talk.settle()
    if not is_right:
        return [talk.reply("readings.left_out")]
    kept = {each.name: data[each.name] for each in fields(uses.TakeReading) if each.name in data}
    kept |= {"read_at": datetime.fromisoformat(data["read_at"]), "is_sure": True}
    return _take(talk, yard, uses.TakeReading(**kept))


def _take(talk: Talk, yard: YardRecord, command: uses.TakeReading) -> list[Reply]:
    around = talk.around
    try:
        done = uses.take(
            talk.work,
            yard,
            command,
            around.source,
            around.outlooks,
            person_id=talk.person.id,
            now=talk.now,
        )
    except uses.NoSoilYet:
        return [talk.reply("soil.nothing_yet", yard=yard.name)]
    except uses.FarOff as far:
        return [_ask(talk, yard, command, far)]
    except ValueError:
        return [talk.reply("readings.depth")]
    undo = ("applying.button_undo", f"undo:{journal.entry_now(talk.work)}")
    return [
        talk.reply(
            "readings.taken" if command.zone_name is None else "readings.taken_zone",
            talk.row(undo, ("yards.button_soil", f"soil:{yard.id}")),
            yard=yard.name,
            zone=command.zone_name,
            measured=Temperature(command.measured_c),
            mean=Temperature(done.mean_c),
            grid=Temperature(done.grid_c),
            blend=Temperature(done.blend_c),
            count=done.count,
        )
    ]


def _ask(talk: Talk, yard: YardRecord, command: uses.TakeReading, far: uses.FarOff) -> Reply:
    kept = asdict(command) | {"read_at": command.read_at.isoformat()}
    talk.expect(topics.READING_SURE, **kept)
    yes, no = talk.say("applying.button_right"), talk.say("readings.button_not")
    return talk.reply(
        "readings.far_off",
        rows([(yes, f"reading:sure:{yard.id}"), (no, f"reading:not:{yard.id}")]),
        measured=Temperature(command.measured_c),
        low=Temperature(far.low_c),
        high=Temperature(far.high_c),
    )


HANDLERS: Final = {"report_soil": on_report_soil}
