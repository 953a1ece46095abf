"""The yard's own thermometer in short: ``soil 52``, ``soil 11.5 C at 3 in, 4 pm, front``."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime, time
from typing import Final

from bot.hearing.forms.form import Form
from bot.hearing.heard import Scene, Slots
from bot.hearing.phrases import phrases
from bot.hearing.readers.dates import WhenRead, find_when
from bot.hearing.readers.measurements import TemperatureRead, read_temperature_reading
from bot.hearing.readers.reading import Unread
from bot.hearing.readers.zone_names import find_names


def read_soil(text: str, scene: Scene) -> Slots | None:
    """Read a text that begins with "soil" and holds a temperature; None for other texts."""
    if phrases("measurements", "soil").at_start(text.lstrip("/ ")) is None:
        return None
    read = read_temperature_reading(text, "C" if scene.units == "metric" else "F")
    if read is None or isinstance(read, Unread):
        return None if read is None else Slots(unread=read)
    return slots_of(read, scene)


def slots_of(read: TemperatureRead, scene: Scene) -> Slots:
    """Return the slots of a reading: when and where it was taken."""
    when = find_when(read.words, scene.now)
    if isinstance(when, Unread):
        return Slots(unread=when)
    words = read.words if when is None else when.rest
    if read.hour is not None:
        day = scene.now if when is None else when.at
        hour = time(int(read.hour), round(read.hour % 1 * 60) % 60)
        at = datetime.combine(day.date(), hour, tzinfo=scene.now.tzinfo)
        said = WhenRead(at, has_time=True, is_future=at > scene.now, said=read.words)
        when = said if when is None else replace(when, at=at, has_time=True)
    named, is_all, rest = find_names(scene.zones, words)
    return Slots(
        zones=named,
        all_zones=is_all,
        on=when,
        soil_c=read.temperature_c,
        depth_m=read.depth_m,
        rest=rest,
        read=read,
    )


FORMS: Final = (Form("report_soil", read_soil),)
