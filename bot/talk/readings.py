"""The yard's own thermometer in conversation: ``soil 52``, or ``soil 11.5 C at 3 in, 4 pm``."""

from __future__ import annotations

from datetime import datetime, time
from typing import Final

from bot.hearing.readers.dates import WhenRead, find_when
from bot.hearing.readers.reading import Unread
from bot.hearing.readers.readings import TemperatureRead, read_temperature_reading
from bot.saying.figures import say_temp
from bot.talk.naming import find_zones
from bot.talk.talk import Talk
from bot.turn import Reply, rows
from jobs.uses import readings as uses
from storage import yards
from storage.yards import YardRecord

SURE_TOPIC: Final = "readings.sure"


def read(talk: Talk, text: str) -> TemperatureRead | Unread | None:
    """Return the reading in a text that begins with "soil", or None where it holds none."""
    if not text.casefold().lstrip("/ ").startswith("soil"):
        return None
    return read_temperature_reading(text, "C" if talk.is_metric else "F")


def take(talk: Talk, yard: YardRecord, found: TemperatureRead | Unread, text: str) -> list[Reply]:
    """Take a reading, or ask what is unclear about it."""
    if isinstance(found, Unread):
        return [Reply(found.sentence(talk.chat.language))]
    now = talk.said_at(yard)
    at, words = now, found.words
    when = find_when(words, now)
    if isinstance(when, Unread):
        return [Reply(when.sentence(talk.chat.language))]
    if isinstance(when, WhenRead):
        at, words = when.at, when.rest
    if found.hour is not None:
        at = datetime.combine(
            at.date(), time(int(found.hour), round(found.hour % 1 * 60) % 60), tzinfo=now.tzinfo
        )
    if at > now:
        return [talk.reply("readings.future")]
    zones, leftover = find_zones(yards.zones(talk.work, yard.id), words)
    if leftover or len(zones) > 1:
        return [talk.reply("readings.unclear", said=leftover or words)]
    has_hour = found.hour is not None or (isinstance(when, WhenRead) and when.has_time)
    command = uses.TakeReading(
        measured_c=found.temperature_c,
        depth_m=uses.USUAL_DEPTH_M if found.depth_m is None else found.depth_m,
        read_at=at,
        has_hour=has_hour or at == now,
        zone_name=zones[0].name if zones else None,
        said=text,
    )
    return _take(talk, yard, command)


def confirm(talk: Talk, yard: YardRecord, is_right: bool) -> list[Reply]:
    """Answer the question about a reading that is far off."""
    if talk.topic != SURE_TOPIC:
        return [talk.reply("help.button_stale", hint=talk.say("readings.hint"))]
    data = talk.data
    talk.settle()
    if not is_right:
        return [talk.reply("readings.left_out")]
    command = uses.TakeReading(
        measured_c=data["measured_c"],
        depth_m=data["depth_m"],
        read_at=datetime.fromisoformat(data["read_at"]),
        has_hour=data["has_hour"],
        zone_name=data["zone_name"],
        said=data["said"],
        is_sure=True,
    )
    return _take(talk, yard, command)


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
    button = (talk.say("applying.button_undo"), f"undo:{done.journal_id}")
    return [
        talk.reply(
            "readings.taken" if command.zone_name is None else "readings.taken_zone",
            rows([button, (talk.say("yards.button_soil"), f"soil:{yard.id}")]),
            yard=yard.name,
            zone=command.zone_name,
            measured=say_temp(command.measured_c, talk.unit_system),
            mean=say_temp(done.mean_c, talk.unit_system),
            grid=say_temp(done.grid_c, talk.unit_system),
            blend=say_temp(done.blend_c, talk.unit_system),
            count=done.count,
        )
    ]


def _ask(talk: Talk, yard: YardRecord, command: uses.TakeReading, far: uses.FarOff) -> Reply:
    talk.expect(
        SURE_TOPIC,
        measured_c=command.measured_c,
        depth_m=command.depth_m,
        read_at=command.read_at.isoformat(),
        has_hour=command.has_hour,
        zone_name=command.zone_name,
        said=command.said,
    )
    yes, no = talk.say("readings.button_sure"), talk.say("readings.button_not")
    return talk.reply(
        "readings.far_off",
        rows([(yes, f"reading:sure:{yard.id}"), (no, f"reading:not:{yard.id}")]),
        measured=say_temp(command.measured_c, talk.unit_system),
        low=say_temp(far.low_c, talk.unit_system),
        high=say_temp(far.high_c, talk.unit_system),
    )
