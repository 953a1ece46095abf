"""What grass, notes and state of zones change about a round: left out, asked about, soaked."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date

from bot.dialogue.talk import Talk
from bot.saying.plants import say_grass, say_ingredient
from bot.saying.values import Area, Day, LabelRate, Names, Value
from jobs.agronomy.turf import turf_species
from jobs.turf_limits import NONE_OF_THEM, UNKNOWN, GrassCaution, LeftOut
from storage.yards import YardRecord, ZoneRecord


def left_out_lines(talk: Talk, yard: YardRecord, left_out: Sequence[LeftOut]) -> list[str]:
    """Return why zones get nothing, those of one reason together."""
    by_reason: dict[LeftOut, list[str]] = {}
    for item in left_out:
        by_reason.setdefault(replace(item, zone=""), []).append(item.zone)
    today = talk.today(yard)
    return [_left_out(talk, item, zones, today) for item, zones in by_reason.items()]


def _left_out(talk: Talk, item: LeftOut, zones: list[str], today: date) -> str:
    key = f"grass.left_out_{item.why}"
    if item.why == "locked":
        key = f"{key}_{item.source}"
    is_named = item.grass is not None and item.grass not in (UNKNOWN, NONE_OF_THEM)
    return talk.say(
        key,
        zones=Names(zones),
        zone=zones[0],
        ingredient=say_ingredient(item.ingredient),
        harmed=_names(talk, item.harmed),
        grass=say_grass(item.grass or "") if is_named else talk.say("grass.any_turf"),
        source=item.source,
        limit=_figure(item.limit, item.unit),
        used=_figure(item.used, item.unit),
        day="" if item.allowed_from is None else Day(item.allowed_from, today),
    )


def _figure(value: float, unit: str) -> Value | int:
    """Return a rate with its unit, or a number of applications."""
    return LabelRate(round(value, 3), unit) if "/" in unit else round(value)


def caution_line(talk: Talk, cautions: tuple[GrassCaution, ...]) -> str:
    """Return the question about zones whose grass nobody named."""
    first = cautions[0]
    return talk.say(
        "grass.caution",
        zones=Names([item.zone for item in cautions]),
        zone=first.zone,
        ingredient=say_ingredient(first.ingredient),
        harmed=_names(talk, first.harmed),
    )


def note_lines(talk: Talk, zones: Sequence[ZoneRecord]) -> list[str]:
    """Return what slopes, clay, hot strips and buffers change about a round."""
    lines = []
    buffered_m2 = sum(zone.buffer_m2 for zone in zones)
    if buffered_m2:
        lines.append(talk.say("grass.buffered", area=Area(buffered_m2)))
    soak = [zone.name for zone in zones if {"slope", "clay"} & set(zone.notes)]
    if soak:
        lines.append(talk.say("grass.soak", zones=Names(soak)))
    hot = [zone.name for zone in zones if "hot_strip" in zone.notes]
    if hot and len(hot) < len(zones):
        lines.append(talk.say("grass.hot_first", zones=Names(hot)))
    return lines


def _names(talk: Talk, keys: tuple[str, ...]) -> Names | str:
    every = {key for key, species in turf_species().items() if species.season == "cool"}
    if set(keys) == every:
        return talk.say("grass.cool_season")
    return Names([say_grass(key) for key in keys])
