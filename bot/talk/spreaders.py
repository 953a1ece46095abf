"""The spreader: what to weigh out for each zone, pass by pass, and where its texts go."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from bot.dialogue import topics
from bot.dialogue.named_here import zones_said
from bot.dialogue.talk import Talk
from bot.hearing.forms.sprayer_forms import MixAsked, PlotAsked, SprayerAsked, TankSaid, VolumeSaid
from bot.hearing.forms.spreader_forms import (
    CourseAsked,
    CupSaid,
    CupsAsked,
    DialSaid,
    HowAsked,
    PansSaid,
    RunSaid,
    ScaleAsked,
    SpreaderAsked,
    SwathSaid,
    TriesAsked,
)
from bot.hearing.heard import ActHeard
from bot.saying.values import Names
from bot.talk import sprayers
from bot.talk import spreader_tries as trying
from bot.telling import figuring
from bot.telling.amounts_said import amounts_of, exact, to_weigh
from bot.telling.products_said import doubt_lines, say_product
from bot.telling.spreader_words import (
    amount_of,
    known_swath,
    length_of,
    rate_text,
    step_of,
    weight_of,
)
from bot.turn import Buttons, Reply
from jobs.agronomy.calibration import is_weighable, target_for_pass
from jobs.agronomy.shape_store import from_json
from jobs.agronomy.shapes import Rectangle, Square, Strip
from jobs.agronomy.spreader import cups, is_narrow, pass_plan
from jobs.uses import calibrating as uses
from jobs.uses.how_much import YardAmounts
from storage.yards import YardRecord, ZoneRecord

#: Zones told one a line; a phone screen holds no more with the rest of the message.
_MOST_LINES: Final = 6


def on_ask_spreader(talk: Talk, yard: YardRecord, heard: ActHeard) -> list[Reply]:
    """Answer what to set, weigh out or mix: passes of a granule, loads of a spray."""
    asked = heard.slots.read
    match asked:
        case HowAsked():
            return _how(talk, yard)
        case TriesAsked():
            return trying.tries(talk, yard)
        case CupsAsked():
            return _cups(talk, yard, heard, are_spoons=asked.are_spoons)
        case ScaleAsked():
            return _scale(talk, yard, asked.step_kg)
        case CourseAsked():
            return trying.swath(talk, yard, asked)
        case PansSaid():
            return trying.pan_mean(talk, asked)
        case SprayerAsked() | MixAsked() | PlotAsked():
            return sprayers.answer(talk, yard, asked)
    figured = figuring.answer(talk, asked)
    return [figured] if figured is not None else show(talk, yard, heard)


def on_set_spreader(talk: Talk, yard: YardRecord, heard: ActHeard) -> list[Reply]:
    """Keep what was weighed, caught or measured of a spreader or a sprayer."""
    said = heard.slots.read
    match said:
        case RunSaid():
            return trying.run(talk, yard, said, heard.said)
        case PansSaid():
            return trying.pans(talk, yard, said)
        case SwathSaid():
            return trying.swath(talk, yard, said)
        case DialSaid():
            return trying.dial(talk, yard, said) or [talk.reply("machines.set_ask")]
        case CupSaid():
            return [*_cup(talk, yard, said.kg), *show(talk, yard)]
        case TankSaid() | VolumeSaid():
            return sprayers.keep(talk, yard, said)
    return [talk.reply("machines." + ("run_needs" if talk.topic == topics.SWATH else "set_ask"))]


def show(
    talk: Talk, yard: YardRecord, heard: ActHeard | None = None, *, even_done: bool = False
) -> list[Reply]:
    """Answer /spreader: what to weigh out for each zone, pass by pass.

    Where all of the plan is down, that is said, unless they want it `even_done`.
    """
    found = amounts_of(talk, yard)
    if isinstance(found, list):
        return found
    if found.product.form != "granule":
        is_named = heard is None or isinstance(heard.slots.read, SpreaderAsked)
        if heard is not None and heard.why != "command" and not is_named:
            return sprayers.show(talk, yard, even_done=even_done)
        return [talk.reply("machines.not_spread", product=say_product(found.record))]
    if found.is_finished and not even_done:
        return [sprayers.finished(talk, yard, found)]
    swath_m = known_swath(talk, yard)
    zones = list(found.zones)
    if heard is not None:
        zones = zones_said(zones, heard.slots) or zones
    lines = [_passes(talk, found, zone, swath_m) for zone in zones[:_MOST_LINES]]
    if len(zones) > _MOST_LINES:
        lines.append(talk.say("machines.more_zones", count=len(zones) - _MOST_LINES))
    if swath_m is not None:
        lines.append(talk.say("machines.strips_note", swath=length_of(talk, swath_m)))
        lines += _too_narrow(talk, zones, swath_m)
    if found.record.level_cup_kg and zones:
        lines.append(_in_cups(talk, found, zones[0]))
    head = "finished" if found.is_finished else "head"
    text = talk.say(
        "machines.spreader",
        head=talk.say(
            f"machines.spreader_{head}",
            yard=yard.name,
            number=found.round_number,
            rounds=found.rounds,
        ),
        lines="\n".join(lines),
    )
    doubts = doubt_lines(talk, found.record)
    return [Reply("\n".join([text, *doubts]), _buttons(talk, yard))]


def _in_cups(talk: Talk, found: YardAmounts, zone: ZoneRecord) -> str:
    assert found.record.level_cup_kg is not None
    count = cups(amount_of(found, zone).times(0.5).si, found.record.level_cup_kg)
    cup = weight_of(found.record.level_cup_kg)
    return talk.say("machines.cups_note", cup=cup, zone=zone.name, cups=f"{count:.1f}")


def _how(talk: Talk, yard: YardRecord) -> list[Reply]:
    """Answer [Step by step]: how the passes are weighed, walked and checked."""
    found = amounts_of(talk, yard)
    if isinstance(found, list):
        return found
    if found.product.form != "granule":
        return [Reply(sprayers.no_volume(talk))]
    half = rate_text(target_for_pass(found.plan.rate))
    least = min((item.amount.si / 2 for item in found.plan.zones), default=0.0)
    return [talk.reply("machines.spreader_how", half=half, step=step_of(least))]


def tap(talk: Talk, yard: YardRecord, action: str) -> list[Reply]:
    """Answer the buttons of this subject."""
    match action.split(":")[1]:
        case "how":
            return _how(talk, yard)
        case "even_done":
            return show(talk, yard, ActHeard("ask_spreader"), even_done=True)
        case "pans":
            return [talk.reply("machines.pans_ask")]
        case "cups":
            return [talk.reply("machines.cup_first")]
        case "tries":
            return trying.tries(talk, yard)
        case _:
            return show(talk, yard)


def _passes(talk: Talk, found: YardAmounts, zone: ZoneRecord, swath_m: float | None) -> str:
    half = to_weigh(talk, found, amount_of(found, zone).times(0.5), zone.treated_m2 / 2)
    sides = _sides(zone)
    if swath_m is None or sides is None:
        return talk.say("machines.zone", zone=zone.name, half=half)
    short, long = sides
    rate = found.plan.rate
    lengthwise = _strips(talk, pass_plan(zone.treated_m2, short, swath_m, rate).passes)
    if is_narrow(short, swath_m):
        key = "machines.zone_narrow"
        return talk.say(key, zone=zone.name, half=half, one=lengthwise)
    return talk.say(
        "machines.zone_strips",
        zone=zone.name,
        half=half,
        one=lengthwise,
        other=_strips(talk, pass_plan(zone.treated_m2, long, swath_m, rate).passes),
    )


def _too_narrow(talk: Talk, zones: Sequence[ZoneRecord], swath_m: float) -> list[str]:
    """Say which zones are narrower than the spread, so that some of it lands beside them."""
    narrow = [zone.name for zone in zones if (sides := _sides(zone)) and sides[0] < swath_m]
    if not narrow:
        return []
    swath = length_of(talk, swath_m)
    return [talk.say("machines.too_narrow", zones=Names(narrow), swath=swath)]


def _strips(talk: Talk, count: int) -> str:
    return talk.say("machines.strips", count=count)


def _sides(zone: ZoneRecord) -> tuple[float, float] | None:
    shape = from_json(zone.shape)
    if isinstance(shape, Square):
        return shape.side_m, shape.side_m
    if isinstance(shape, (Rectangle, Strip)):
        return min(shape.length_m, shape.width_m), max(shape.length_m, shape.width_m)
    return None


def _buttons(talk: Talk, yard: YardRecord) -> Buttons:
    return talk.rows(
        [("machines.button_how", f"spreader:how:{yard.id}")],
        [
            ("machines.button_pans", f"spreader:pans:{yard.id}"),
            ("machines.button_cups", f"spreader:cups:{yard.id}"),
            ("machines.button_tries", f"spreader:tries:{yard.id}"),
        ],
    )


def _cup(talk: Talk, yard: YardRecord, kg: float) -> list[Reply]:
    """Take the weight of one level cup."""
    round_now = amounts_of(talk, yard)
    if isinstance(round_now, list):
        return round_now
    uses.keep_cup(talk.work, yard, round_now.record, kg)
    product, cup = say_product(round_now.record), weight_of(kg)
    return [talk.reply("machines.cup", product=product, cup=cup)]


def _cups(talk: Talk, yard: YardRecord, heard: ActHeard, *, are_spoons: bool) -> list[Reply]:
    """Refuse spoons of a dry product; say cups of known weight, else ask for that first."""
    round_now = amounts_of(talk, yard)
    if isinstance(round_now, list):
        return round_now
    zones = zones_said(round_now.zones, heard.slots) or round_now.zones
    if round_now.record.level_cup_kg and not are_spoons:
        said = [_in_cups(talk, round_now, zone) for zone in zones[:_MOST_LINES]]
        return [Reply("\n".join(said) or talk.say("machines.cup_first"))]
    if not are_spoons or not round_now.plan.rate.is_weight:
        return [talk.reply("machines.cup_first")]
    least = min((amount_of(round_now, z).si for z in round_now.zones), default=0.0)
    return [talk.reply("machines.no_spoons", step=step_of(least))]


def _scale(talk: Talk, yard: YardRecord, step_kg: float) -> list[Reply]:
    """Keep what a scale shows; answer whether it is fine enough for every zone."""
    round_now = amounts_of(talk, yard)
    if isinstance(round_now, list):
        return round_now
    smallest = min(round_now.zones, key=lambda zone: zone.treated_m2, default=None)
    if smallest is None or not round_now.plan.rate.is_weight:
        return [talk.reply("machines.not_spread", product=say_product(round_now.record))]
    talk.person = uses.keep_scale(talk.work, yard, talk.person, step_kg)
    step = talk.scale
    amount = amount_of(round_now, smallest)
    if is_weighable(amount.si, step_kg):
        return [talk.reply("machines.scale_fine", step=step)]
    return [
        talk.reply(
            "machines.scale_coarse",
            step=step,
            zone=smallest.name,
            amount=exact(round_now, amount, smallest.treated_m2),
            needed=step_of(amount.si),
        )
    ]


HANDLERS: Final = {"ask_spreader": on_ask_spreader, "set_spreader": on_set_spreader}
