"""What helps or goes wrong while spreading: cups, the scale, running out, a missed stripe."""

from __future__ import annotations

import math
import re
from typing import Final, get_args

from bot.hearing.readers.measures import Figure, of_kind, read_figures
from bot.saying.figures import say_area
from bot.talk.naming import find_zones
from bot.talk.products import say_product
from bot.talk.rounds_now import amounts_of, said
from bot.talk.spreader_words import amount_of, length_text, rate_text, step_text, weight_text
from bot.talk.talk import Talk
from bot.turn import Reply, rows
from jobs.agronomy.amounts import Amount
from jobs.agronomy.calibration import is_weighable
from jobs.agronomy.spreader import Pass, missed_stripe, ran_out
from jobs.uses import machines as uses
from storage.yards import YardRecord

RAN_OUT_TOPIC: Final = "ran out"

#: A share of a zone is kept in so many parts, and floating-point noise let pass.
_SHARES: Final = 10**9
_NOISE: Final = 1e-12

#: A typed answer to which pass it was is no longer than this.
_MOST_WORDS: Final = 6

_FRACTIONS: Final = (
    (r"\bhalf|1/2\b", 1 / 2),
    (r"\btwo[ -]thirds|2/3\b", 2 / 3),
    (r"\bthird|1/3\b", 1 / 3),
    (r"\bthree[ -]quarters|3/4\b", 3 / 4),
    (r"\bquarter|1/4\b", 1 / 4),
)


def cup(talk: Talk, yard: YardRecord, typed: str, found: list[Figure]) -> list[Reply] | None:
    """Take the weight of one level cup; refuse spoons; ask for a cup first."""
    is_spoon = re.search(r"spoon|\btsp\b|\btbsp\b", typed) is not None
    masses = of_kind(found, "mass")
    if not is_spoon and not masses and found:
        return None
    round_now = amounts_of(talk, yard)
    if isinstance(round_now, list):
        return round_now
    if is_spoon:
        if not round_now.plan.rate.is_weight:
            return None
        least = min((amount_of(round_now, z).si for z in round_now.zones), default=0.0)
        return [talk.reply("machines.no_spoons", step=step_text(talk, least))]
    if len(masses) != 1 or masses[0].value <= 0:
        return [talk.reply("machines.cup_first")]
    uses.keep_cup(
        talk.work,
        yard,
        round_now.record,
        masses[0].value,
        person_id=talk.person.id,
        now=talk.now,
    )
    product, cup = say_product(talk, round_now.record), weight_text(talk, masses[0].value)
    return [talk.reply("machines.cup", product=product, cup=cup)]


def scale(talk: Talk, yard: YardRecord, found: list[Figure]) -> list[Reply] | None:
    """Answer whether a scale is fine enough for every zone."""
    masses = of_kind(found, "mass")
    if len(masses) != 1 or masses[0].value <= 0:
        return None
    round_now = amounts_of(talk, yard)
    if isinstance(round_now, list):
        return round_now
    step = weight_text(talk, masses[0].value)
    smallest = min(round_now.zones, key=lambda zone: zone.treated_m2, default=None)
    if smallest is None or not round_now.plan.rate.is_weight:
        return None
    amount = amount_of(round_now, smallest)
    if is_weighable(amount.si, masses[0].value):
        return [talk.reply("machines.scale_fine", step=step)]
    return [
        talk.reply(
            "machines.scale_coarse",
            step=step,
            zone=smallest.name,
            amount=said(talk, round_now, amount, smallest.treated_m2),
            needed=step_text(talk, amount.si),
        )
    ]


def ran_out_early(talk: Talk, yard: YardRecord, text: str) -> list[Reply]:
    """Answer a hopper that ran out before the zone was covered."""
    round_now = amounts_of(talk, yard)
    if isinstance(round_now, list):
        return round_now
    named, _ = find_zones(round_now.zones, text)
    zone = named[0] if named else (round_now.zones[0] if len(round_now.zones) == 1 else None)
    done_m2 = None
    areas = of_kind(read_figures(text), "area")
    if areas:
        done_m2 = areas[0].value
    elif zone is not None:
        share = next(
            (part for pattern, part in _FRACTIONS if re.search(pattern, text, re.IGNORECASE)), None
        )
        done_m2 = None if share is None else zone.treated_m2 * share
    if zone is None or done_m2 is None or not 0 < done_m2 < zone.treated_m2:
        return [talk.reply("machines.ran_out_ask")]
    masses = of_kind(read_figures(text), "mass")
    which = _pass_of(text)
    if round_now.product.form != "granule":
        which = which or "one"
    # The share covered, rounded up so that the rate never is; and what was in the hopper [g], 0 for
    # what the round's own method has put there.
    share = math.ceil(done_m2 / zone.treated_m2 * _SHARES * (1 - _NOISE))
    slip = (zone.id, share, round(masses[0].value * 1000) if masses else 0)
    if which is None:
        talk.expect(RAN_OUT_TOPIC, yard_id=yard.id, slip=slip)
        buttons = [
            (
                talk.say(f"machines.button_pass_{each}"),
                ":".join(["spreader", f"ran_{each}", str(yard.id), *map(str, slip)]),
            )
            for each in get_args(Pass)
        ]
        return [talk.reply("machines.ran_out_which", rows(buttons[:2], buttons[2:]))]
    return _ran_out(talk, yard, which, *slip)


def which_pass(talk: Talk, yard: YardRecord, text: str) -> list[Reply] | None:
    """Answer a typed pass as the buttons under the question would; None for other texts."""
    bare = text.strip(" .!")
    which = _pass_of(f"{bare} pass" if len(bare.split()) == 1 else bare)
    if talk.topic != RAN_OUT_TOPIC or which is None or len(text.split()) > _MOST_WORDS:
        return None
    slip = talk.data["slip"]
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


def _pass_of(text: str) -> Pass | None:
    # Only with the word itself: a zone may be called "first lawn", or lie "in one corner".
    typed = text.casefold()
    if re.search(r"\b(?:one|single)\s+(?:pass|go)\b", typed):
        return "one"
    if re.search(r"\b(?:first|1st)\s+(?:pass|way|direction)\b", typed):
        return "first"
    is_second = re.search(r"\b(?:second|2nd|crosswise|other)\s+(?:pass|way|direction)\b", typed)
    return "second" if is_second else None


def _ran_out(
    talk: Talk, yard: YardRecord, which: Pass, zone_id: int, share: int, used_g: int
) -> list[Reply]:
    if talk.topic == RAN_OUT_TOPIC:
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
    needed = said(talk, round_now, result.still_needed, result.left_m2)
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
        rest = said(talk, round_now, result.rest_of_covered, done_m2)
        lines.append(talk.say("machines.ran_out_rest", rest=rest))
    elif result.achieved.rate_si > rate.rate_si * 1.05:
        lines.append(talk.say("machines.ran_out_thick"))
    elif which == "first":
        lines.append(talk.say("machines.ran_out_full"))
    if verdict == "used_up" and result.achieved.rate_si > rate.rate_si * 1.05:
        lines.append(talk.say("machines.ran_out_used_up"))
    return [Reply("\n".join(lines))]


def missed(talk: Talk, yard: YardRecord, found: list[Figure]) -> list[Reply] | None:
    """Answer what a stripe left out takes."""
    lengths = of_kind(found, "length")
    if len(lengths) != 2 or min(each.value for each in lengths) <= 0:
        return None
    round_now = amounts_of(talk, yard)
    if isinstance(round_now, list):
        return round_now
    width, length = sorted(each.value for each in lengths)
    amount = missed_stripe(width, length, round_now.plan.rate)
    size = f"{length_text(talk, width)} x {length_text(talk, length)}"
    return [
        talk.reply(
            "machines.missed", size=size, amount=said(talk, round_now, amount, width * length)
        )
    ]
