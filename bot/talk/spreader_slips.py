"""What helps or goes wrong while spreading: cups, the scale, running out, a missed stripe."""

from __future__ import annotations

import math
from typing import Final, get_args

from bot.hearing.forms.gap_forms import PassSaid, RanOutSaid, StripeSaid
from bot.hearing.heard import ActHeard
from bot.saying.figures import say_area
from bot.talk import topics
from bot.talk.naming import zones_said
from bot.talk.products import say_product
from bot.talk.rounds_now import amounts_of
from bot.talk.rounds_now import said as said_amount
from bot.talk.spreader_words import amount_of, length_text, rate_text, step_text, weight_text
from bot.talk.talk import Talk
from bot.turn import Reply, rows
from jobs.agronomy.amounts import Amount
from jobs.agronomy.calibration import is_weighable
from jobs.agronomy.spreader import Pass, missed_stripe, ran_out
from jobs.uses import machines as uses
from storage.yards import YardRecord

#: A share of a zone is kept in so many parts, and floating-point noise let pass.
_SHARES: Final = 10**9
_NOISE: Final = 1e-12

#: Parts of a zone by the words of the slot.
_PARTS: Final = {"half": 0.5, "1/2": 0.5, "1/3": 1 / 3, "2/3": 2 / 3, "1/4": 0.25, "3/4": 0.75}


def on_report_gap(talk: Talk, yard: YardRecord, heard: ActHeard) -> list[Reply]:
    """Answer a part that got nothing: a stripe left out, or a hopper that ran out."""
    said, slots = heard.slots.read, heard.slots
    match said:
        case PassSaid() if talk.topic == topics.RAN_OUT:
            return _ran_out(talk, yard, said.in_pass, *talk.data["slip"])
        case StripeSaid():
            return _missed(talk, yard, said)
        case RanOutSaid():
            return _ran_out_early(talk, yard, said, heard)
    share = _PARTS.get(slots.part or "")
    if share is None and slots.area_m2 is None:
        return [talk.reply("machines.gap_ask")]
    used_kg = None
    if slots.amount is not None and slots.amount.is_weight:
        used_kg = slots.amount.amount_si
    return _ran_out_early(talk, yard, RanOutSaid(share, slots.area_m2, used_kg), heard)


def cup(talk: Talk, yard: YardRecord, kg: float) -> list[Reply]:
    """Take the weight of one level cup."""
    round_now = amounts_of(talk, yard)
    if isinstance(round_now, list):
        return round_now
    uses.keep_cup(talk.work, yard, round_now.record, kg, person_id=talk.person.id, now=talk.now)
    product, cup = say_product(talk, round_now.record), weight_text(talk, kg)
    return [talk.reply("machines.cup", product=product, cup=cup)]


def cups(talk: Talk, yard: YardRecord, *, are_spoons: bool) -> list[Reply]:
    """Refuse spoons of a dry product; ask for the weight of a cup first."""
    round_now = amounts_of(talk, yard)
    if isinstance(round_now, list):
        return round_now
    if not are_spoons or not round_now.plan.rate.is_weight:
        return [talk.reply("machines.cup_first")]
    least = min((amount_of(round_now, z).si for z in round_now.zones), default=0.0)
    return [talk.reply("machines.no_spoons", step=step_text(talk, least))]


def scale(talk: Talk, yard: YardRecord, step_kg: float) -> list[Reply]:
    """Answer whether a scale is fine enough for every zone."""
    round_now = amounts_of(talk, yard)
    if isinstance(round_now, list):
        return round_now
    step = weight_text(talk, step_kg)
    smallest = min(round_now.zones, key=lambda zone: zone.treated_m2, default=None)
    if smallest is None or not round_now.plan.rate.is_weight:
        return [talk.reply("machines.no_spreader", product=say_product(talk, round_now.record))]
    amount = amount_of(round_now, smallest)
    if is_weighable(amount.si, step_kg):
        return [talk.reply("machines.scale_fine", step=step)]
    return [
        talk.reply(
            "machines.scale_coarse",
            step=step,
            zone=smallest.name,
            amount=said_amount(talk, round_now, amount, smallest.treated_m2),
            needed=step_text(talk, amount.si),
        )
    ]


def _ran_out_early(talk: Talk, yard: YardRecord, said: RanOutSaid, heard: ActHeard) -> list[Reply]:
    """Answer a hopper that ran out before the zone was covered."""
    round_now = amounts_of(talk, yard)
    if isinstance(round_now, list):
        return round_now
    named = zones_said(round_now.zones, heard.slots)
    zone = named[0] if named else (round_now.zones[0] if len(round_now.zones) == 1 else None)
    done_m2 = said.area_m2
    if done_m2 is None and zone is not None and said.share is not None:
        done_m2 = zone.treated_m2 * said.share
    if zone is None or done_m2 is None or not 0 < done_m2 < zone.treated_m2:
        return [talk.reply("machines.ran_out_ask")]
    which = said.in_pass
    if round_now.product.form != "granule":
        which = which or "one"
    # The share covered, rounded up so that the rate never is; and what was in the hopper [g], 0 for
    # what the round's own method has put there.
    share = math.ceil(done_m2 / zone.treated_m2 * _SHARES * (1 - _NOISE))
    slip = (zone.id, share, round(said.used_kg * 1000) if said.used_kg else 0)
    if which is None:
        talk.expect(topics.RAN_OUT, yard_id=yard.id, slip=slip)
        buttons = [
            (
                talk.say(f"machines.button_pass_{each}"),
                ":".join(["spreader", f"ran_{each}", str(yard.id), *map(str, slip)]),
            )
            for each in get_args(Pass)
        ]
        return [talk.reply("machines.ran_out_which", rows(buttons[:2], buttons[2:]))]
    return _ran_out(talk, yard, which, *slip)


def ran_out_tapped(talk: Talk, yard: YardRecord, action: str) -> list[Reply]:
    """Answer the buttons under the question which pass it was."""
    verb, *numbers = action.split(":")[1:]
    which: Pass
    match verb:
        case "ran_first":
            which = "first"
        case "ran_second":
            which = "second"
        case _:
            which = "one"
    return _ran_out(talk, yard, which, *(int(number) for number in numbers[1:]))


def _ran_out(
    talk: Talk, yard: YardRecord, which: Pass, zone_id: int, share: int, used_g: int
) -> list[Reply]:
    if talk.topic == topics.RAN_OUT:
        talk.settle()
    round_now = amounts_of(talk, yard)
    if isinstance(round_now, list):
        return round_now
    zone = next((each for each in round_now.zones if each.id == zone_id), None)
    if zone is None or not 0 < share < _SHARES:
        return [talk.reply("machines.ran_out_ask")]
    done_m2 = zone.treated_m2 * share / _SHARES
    rate = round_now.plan.rate
    loaded = amount_of(round_now, zone).times(1.0 if which == "one" else 0.5)
    used = Amount(used_g / 1000, "lb") if used_g else loaded
    result = ran_out(zone.treated_m2, done_m2, used.in_unit(rate.amount_unit), rate, which)
    left = say_area(result.left_m2, talk.unit_system)
    needed = said_amount(talk, round_now, result.still_needed, result.left_m2)
    verdict = uses.slip_by_label(
        talk.work, yard, zone.name, round_now.product, result.achieved, talk.today(yard)
    )
    if verdict == "over":
        # A rate above the label is not printed, only that it is one.
        lines = [talk.say("machines.ran_out_left", left=left, zone=zone.name, needed=needed)]
        return [Reply("\n".join([*lines, talk.say("machines.ran_out_over")]))]
    achieved = rate_text(result.achieved)
    key = f"machines.ran_out_{which}"
    lines = [talk.say(key, zone=zone.name, achieved=achieved, left=left, needed=needed)]
    if result.rest_of_covered.si > 0:
        rest = said_amount(talk, round_now, result.rest_of_covered, done_m2)
        lines.append(talk.say("machines.ran_out_rest", rest=rest))
    elif result.achieved.rate_si > rate.rate_si * 1.05:
        lines.append(talk.say("machines.ran_out_thick"))
    elif which == "first":
        lines.append(talk.say("machines.ran_out_full"))
    if verdict == "used_up" and result.achieved.rate_si > rate.rate_si * 1.05:
        lines.append(talk.say("machines.ran_out_used_up"))
    return [Reply("\n".join(lines))]


def _missed(talk: Talk, yard: YardRecord, stripe: StripeSaid) -> list[Reply]:
    """Answer what a stripe left out takes."""
    round_now = amounts_of(talk, yard)
    if isinstance(round_now, list):
        return round_now
    width, length = stripe.width_m, stripe.length_m
    amount = missed_stripe(width, length, round_now.plan.rate)
    size = f"{length_text(talk, width)} x {length_text(talk, length)}"
    text = said_amount(talk, round_now, amount, width * length)
    return [talk.reply("machines.missed", size=size, amount=text)]


HANDLERS: Final = {"report_gap": on_report_gap}
