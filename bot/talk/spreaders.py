"""The spreader: what to weigh out for each zone, pass by pass, and where its texts go."""

from __future__ import annotations

import re
from typing import Final

from bot.hearing.readers.measures import of_kind, read_figures
from bot.talk import spreader_slips as slips
from bot.talk import spreader_tries as trying
from bot.talk.naming import find_zones
from bot.talk.products import say_product
from bot.talk.rounds_now import amounts_of, said
from bot.talk.spreader_words import (
    amount_of,
    known_swath,
    length_text,
    rate_text,
    step_text,
    weight_text,
)
from bot.talk.talk import Talk
from bot.turn import Buttons, Reply, rows
from jobs.agronomy.calibration import target_for_pass
from jobs.agronomy.shape_store import from_json
from jobs.agronomy.shapes import Rectangle, Square, Strip
from jobs.agronomy.spreader import cups, pass_plan
from jobs.uses.amounts import YardAmounts
from storage.yards import YardRecord, ZoneRecord

#: Zones told one a line; a phone screen holds no more with the rest of the message.
_MOST_LINES: Final = 6


def show(talk: Talk, yard: YardRecord, rest: str = "") -> list[Reply]:
    """Answer /spreader: what to weigh out for each zone, pass by pass."""
    if rest:
        answer = take(talk, yard, rest)
        if answer is not None:
            return answer
    found = amounts_of(talk, yard)
    if isinstance(found, list):
        return found
    if found.product.form != "granule":
        return [talk.reply("machines.not_spread", product=say_product(talk, found.record))]
    swath_m = known_swath(talk, yard)
    zones = list(found.zones)
    if rest:
        named, _ = find_zones(zones, rest)
        zones = named or zones
    lines = [_passes(talk, found, zone, swath_m) for zone in zones[:_MOST_LINES]]
    if len(zones) > _MOST_LINES:
        lines.append(talk.say("machines.more_zones", count=len(zones) - _MOST_LINES))
    if swath_m is not None:
        lines.append(talk.say("machines.strips_note", swath=length_text(talk, swath_m)))
    if found.record.level_cup_kg and zones:
        half = amount_of(found, zones[0]).times(0.5)
        count = cups(half.si, found.record.level_cup_kg)
        cup = weight_text(talk, found.record.level_cup_kg)
        lines.append(
            talk.say("machines.cups_note", cup=cup, zone=zones[0].name, cups=f"{count:.1f}")
        )
    least = min((amount_of(found, zone).si / 2 for zone in zones), default=0.0)
    text = talk.say(
        "machines.spreader",
        yard=yard.name,
        number=found.round_number,
        rounds=found.rounds,
        lines="\n".join(lines),
        half=rate_text(target_for_pass(found.plan.rate)),
        step=step_text(talk, least),
    )
    return [Reply(text, _buttons(talk, yard))]


def tap(talk: Talk, yard: YardRecord, action: str) -> list[Reply]:
    """Answer the buttons of this subject."""
    match action.split(":")[1]:
        case "pans":
            return [talk.reply("machines.pans_ask")]
        case "cups":
            return [talk.reply("machines.cup_first")]
        case "tries":
            return trying.tries(talk, yard)
        case "ran_first" | "ran_second" | "ran_one":
            return slips.ran_out_tapped(talk, yard, action)
        case _:
            return show(talk, yard)


def take(talk: Talk, yard: YardRecord, text: str) -> list[Reply] | None:
    """Take what was weighed, caught or went wrong; None where a text says nothing of the kind."""
    typed = " ".join(text.casefold().rstrip("?.!").split())
    if typed in ("spreader", "passes", "weigh out"):
        return show(talk, yard)
    if typed in ("tries", "my tries", "settings", "next setting", "spreader setting"):
        return trying.tries(talk, yard)
    if re.search(r"\bran\s+out\b|\brun\s+out\b", typed):
        return slips.ran_out_early(talk, yard, text)
    in_pass = slips.which_pass(talk, yard, typed)
    if in_pass is not None:
        return in_pass
    found = read_figures(text)
    if re.search(r"\b(?:pans?|trays?|catch\s+boxes)\b", typed):
        return trying.pans(talk, yard, text, found)
    if re.search(r"\bcups?\b|\bteaspoons?\b|\btablespoons?\b|\btsp\b|\btbsp\b", typed):
        answer = slips.cup(talk, yard, typed, found)
        is_weighed = answer is not None and bool(of_kind(found, "mass"))
        return [*answer, *show(talk, yard)] if answer is not None and is_weighed else answer
    if not found:
        return None
    if re.search(r"\bscale\b", typed):
        return slips.scale(talk, yard, found)
    if re.search(r"\bmissed\b|\bmiss\b|\bskipped\b|\bleft\s+out\s+a\b", typed):
        return slips.missed(talk, yard, found)
    if re.search(r"\bswath\b|\bcourse\b", typed) and not of_kind(found, "mass", "flow", "volume"):
        return trying.swath(talk, yard, text, found)
    return trying.run(talk, yard, text, found)


def _passes(talk: Talk, found: YardAmounts, zone: ZoneRecord, swath_m: float | None) -> str:
    half = said(talk, found, amount_of(found, zone).times(0.5), zone.treated_m2 / 2)
    sides = _sides(zone)
    if swath_m is None or sides is None:
        return talk.say("machines.zone", zone=zone.name, first=half, second=half)
    short, long = sides
    rate = found.plan.rate
    return talk.say(
        "machines.zone_strips",
        zone=zone.name,
        first=half,
        second=half,
        one=_strips(talk, pass_plan(zone.treated_m2, short, swath_m, rate).passes),
        other=_strips(talk, pass_plan(zone.treated_m2, long, swath_m, rate).passes),
    )


def _strips(talk: Talk, count: int) -> str:
    return talk.say("machines.strip" if count == 1 else "machines.strips", count=count)


def _sides(zone: ZoneRecord) -> tuple[float, float] | None:
    shape = from_json(zone.shape)
    if isinstance(shape, Square):
        return shape.side_m, shape.side_m
    if isinstance(shape, (Rectangle, Strip)):
        return min(shape.length_m, shape.width_m), max(shape.length_m, shape.width_m)
    return None


def _buttons(talk: Talk, yard: YardRecord) -> Buttons:
    return rows(
        [
            (talk.say("machines.button_pans"), f"spreader:pans:{yard.id}"),
            (talk.say("machines.button_cups"), f"spreader:cups:{yard.id}"),
            (talk.say("machines.button_tries"), f"spreader:tries:{yard.id}"),
        ]
    )
