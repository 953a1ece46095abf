"""What goes wrong while spreading: running out, a missed stripe, a pass still to come."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Final, get_args

from bot.dialogue import topics
from bot.dialogue.named_here import names_of, zones_said
from bot.dialogue.talk import Talk
from bot.hearing.forms.gap_forms import PassSaid, RanOutSaid, StripeSaid
from bot.hearing.heard import ActHeard
from bot.hearing.readers.quantities import Amount as AmountSaid
from bot.hearing.readers.zone_parts import PartSaid
from bot.saying.printed_amounts import Quantity
from bot.saying.values import Area
from bot.talk import putting_on_record
from bot.telling import application_days, second_passes, zones_out
from bot.telling.amounts_said import amounts_of, to_weigh
from bot.telling.parts_said import share_got, which_part, zone_of
from bot.telling.rounds_said import sight_of
from bot.telling.second_passes import to_come
from bot.telling.spreader_words import amount_of, length_of, rate_text
from bot.turn import Reply, rows
from jobs.agronomy.amounts import Amount, amount_for
from jobs.agronomy.spreader import Pass, ran_out
from jobs.agronomy.units import from_si
from jobs.uses import amending, recording, second_pass
from jobs.uses import calibrating as uses
from jobs.uses.parts import Part
from storage.yards import YardRecord

#: A share of a zone is kept in so many parts, and floating-point noise let pass.
_SHARES: Final = 10**9
_NOISE: Final = 1e-12
#: Zones that are offered as buttons.
_MOST_BUTTONS: Final = 8
#: An area is kept in a button by the square centimetre.
_PER_M2: Final = 10**4
#: And an amount by the hundredth of a gram.
_PER_KG: Final = 10**5


def on_report_gap(talk: Talk, yard: YardRecord, heard: ActHeard) -> list[Reply]:
    """Answer a part that got nothing: a stripe left out, or a hopper that ran out."""
    said, slots = heard.slots.read, heard.slots
    if talk.topic == topics.MISSED:
        talk.settle()
    match said:
        case PassSaid() if talk.topic == topics.RAN_OUT and "slip" in talk.data:
            return _ran_out(talk, yard, said.in_pass, *talk.data["slip"])
        case StripeSaid():
            return _missed(talk, yard, said, slots.zones)
        case RanOutSaid() if (
            not any(part.zone in slots.zones for part in slots.parts) or len(slots.zones) == 1
        ):
            return _ran_out_early(talk, yard, said, heard)
    if all(part.is_open for part in slots.parts):
        named = zones_said(talk.standing(yard).zones, slots)
        recorded = zones_out.of_newest(talk, yard, named)
        if recorded is not None:
            return [zones_out.ask(talk, yard, recorded)]
        # "Ran out of daylight for the back": all of it is still to do.
        missed = application_days.wanted_now(talk, yard, named)
        if missed:
            return [talk.reply("applying.still_open", zones=names_of(missed))]
        talk.expect(topics.MISSED, yard_id=yard.id)
        return [talk.reply("machines.gap_ask")]
    lacking = _lacking(talk, yard, slots.parts)
    if lacking is not None:
        area_m2, of = lacking
        return _gap(talk, yard, area_m2, Area(area_m2), of)
    # Only a part of it was done, whatever the reason: that part is down.
    return talk.answer("report_applied", yard, heard)


def _ran_out_early(talk: Talk, yard: YardRecord, said: RanOutSaid, heard: ActHeard) -> list[Reply]:
    """Answer a hopper that ran out before the zone was covered."""
    round_now = amounts_of(talk, yard)
    if isinstance(round_now, list):
        return round_now
    named = zones_said(round_now.zones, heard.slots)
    zone = named[0] if named else (round_now.zones[0] if len(round_now.zones) == 1 else None)
    part = next((each for each in heard.slots.parts if not each.is_open), None)
    if zone is None and part is not None:
        zone = zone_of(round_now.zones, part)
    share = None if part is None or zone is None else share_got(zone, part)
    done_m2 = None if share is None or zone is None else zone.treated_m2 * share
    if zone is None or done_m2 is None or not 0 < done_m2 < zone.treated_m2:
        waits: dict[str, object] = {"zone": None if zone is None else zone.name}
        waits |= {"used_kg": said.used_kg, "in_pass": said.in_pass}
        waits["share"] = None if part is None or zone is not None else part.share
        talk.expect(topics.RAN_OUT, yard_id=yard.id, **waits)
        if waits["share"] is not None:
            return [which_part(talk, yard, round_now.zones)]
        if said.used_kg:
            used = Quantity.of(Amount(said.used_kg, "lb").in_unit(round_now.plan.rate.amount_unit))
            return [talk.reply("machines.ran_out_ask_used", used=used)]
        return [talk.reply("machines.ran_out_ask")]
    which = said.in_pass
    if round_now.product.form != "granule":
        which = which or "one"
    # The share covered, rounded up so that the rate never is; and what was in the hopper [g], 0 for
    # what the round's own method has put there.
    share = math.ceil(done_m2 / zone.treated_m2 * _SHARES * (1 - _NOISE))
    slip = (zone.id, share, round(said.used_kg * 1000) if said.used_kg else 0)
    if which is None:
        talk.expect(topics.RAN_OUT, yard_id=yard.id, step="pass", slip=slip)
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
    which: Pass = next(each for each in get_args(Pass) if verb == f"ran_{each}")
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
    known = [e for e in second_passes.to_come(talk, yard) if e.share.ground_id == zone.ground_id]
    first = known[0] if which == "second" and len(known) == 1 else None
    loaded = amount_of(round_now, zone).times(1.0 if which == "one" else 0.5)
    if first is not None:
        loaded = Amount(loaded.si + first.lacking.si, loaded.unit)
    used = Amount(used_g / 1000, "lb") if used_g else loaded
    used = used.in_unit(rate.amount_unit)
    lies = None if first is None else first.has
    result = ran_out(zone.treated_m2, done_m2, used, rate, which, lies)
    left = Area(result.left_m2)
    needed = to_weigh(talk, round_now, result.still_needed, result.left_m2)
    verdict = uses.slip_by_label(
        talk.standing(yard),
        zone,
        round_now.product,
        result.achieved,
        talk.today(yard),
        () if first is None else (first.record.id,),
    )
    if verdict == "over":
        # A rate above the label is not printed, only that it is one.
        lines = [talk.say("machines.ran_out_left", left=left, zone=zone.name, needed=needed)]
        return [Reply("\n".join([*lines, talk.say("machines.ran_out_over")]))]
    achieved = rate_text(result.achieved)
    key = f"machines.ran_out_{which}"
    lines = [talk.say(key, zone=zone.name, achieved=achieved, left=left, needed=needed)]
    if result.rest_of_covered.si > 0:
        rest = to_weigh(talk, round_now, result.rest_of_covered, done_m2)
        lines.append(talk.say("machines.ran_out_rest", rest=rest))
    elif result.achieved.rate_si > rate.rate_si * 1.05:
        lines.append(talk.say("machines.ran_out_thick"))
    elif which == "first":
        lines.append(talk.say("machines.ran_out_full"))
    if verdict == "used_up" and result.achieved.rate_si > rate.rate_si * 1.05:
        lines.append(talk.say("machines.ran_out_used_up"))
    verb, label = "went", "record"
    if which == "first" and result.rest_of_covered.si > 0:
        verb = "first"
    elif first is not None:
        # What lies there since the first pass is on record: all that came since is to be.
        used, verb, label = Amount(used.si + result.still_needed.si, used.unit), "all", "done"
    elif which == "second":
        verb, label = "done", "done"
        used = Amount(used.si + amount_for(done_m2, rate).si / 2, used.unit)
    much = round(used.si * _PER_KG) if used.dimension == "mass" else 0
    action = ":".join(["spreader", verb, *map(str, (yard.id, zone.id, share, much))])
    button = (talk.say(f"machines.button_{label}", zone=zone.name), action)
    return [Reply("\n".join(lines), rows([button]))]


def _missed(talk: Talk, yard: YardRecord, stripe: StripeSaid, named: Sequence[str]) -> list[Reply]:
    """Answer what a stripe left out takes; offer to leave it out of the record it is part of."""
    if stripe.length_m is None:
        waits = {"width_m": stripe.width_m, "zones": list(named)}
        talk.expect(topics.MISSED, yard_id=yard.id, **waits)
        return [talk.reply("machines.missed_length", width=length_of(talk, stripe.width_m))]
    area_m2 = stripe.width_m * stripe.length_m
    size = f"{length_of(talk, stripe.width_m)} x {length_of(talk, stripe.length_m)}"
    return _gap(talk, yard, area_m2, size, named)


def _lacking(
    talk: Talk, yard: YardRecord, parts: Sequence[PartSaid]
) -> tuple[float, tuple[str, ...]] | None:
    """Return how much lacks [m²] of what is on record, and of which zone, where that was said."""
    if len(parts) != 1 or not parts[0].is_left:
        return None
    of = () if parts[0].zone is None else (parts[0].zone,)
    newest = recording.newest(talk.work, yard)
    shares = () if newest is None else newest.shares
    on = [each.zone_id for each in shares if each.zone_name in of or len(shares) == 1]
    zones = talk.standing(yard).zones
    zone = next((each for each in zones if on == [each.id]), None)
    got = None if zone is None else share_got(zone, parts[0])
    if zone is not None and got is not None and 0 < got < 1:
        return (1 - got) * zone.treated_m2, (zone.name,)
    # Ground without its zone: which it is of is asked.
    return (parts[0].area_m2, ()) if parts[0].area_m2 and not of else None


def _gap(
    talk: Talk, yard: YardRecord, area_m2: float, size: object, named: Sequence[str]
) -> list[Reply]:
    """Say what a piece that was left out takes, and offer to leave it out of the record."""
    round_now = amounts_of(talk, yard)
    if isinstance(round_now, list):
        return round_now
    amount = amount_for(area_m2, round_now.plan.rate)
    text = to_weigh(talk, round_now, amount, area_m2)
    lines = [talk.say("machines.missed", size=size, amount=text)]
    record = recording.newest(talk.work, yard)
    fitting = [
        share
        for share in (() if record is None else record.shares)
        if (not named or share.zone_name in named) and amending.can_leave_out(share, area_m2)
    ][:_MOST_BUTTONS]
    if record is None or not fitting or (named and len(fitting) > 1):
        return [Reply("\n".join(lines))]
    actions = [
        ":".join(["spreader", "missed", str(yard.id), str(record.id), str(each.zone_id), str(area)])
        for each in fitting
        for area in [round(area_m2 * _PER_M2)]
    ]
    if len(fitting) > 1:
        lines.append(talk.say("machines.missed_where", number=record.id))
        labels = [each.zone_name for each in fitting]
        return [Reply("\n".join(lines), rows(*([e] for e in zip(labels, actions, strict=True))))]
    zone = fitting[0].zone_name
    lines.append(talk.say("machines.missed_recorded", zone=zone, number=record.id))
    return [Reply("\n".join(lines), talk.row(("machines.button_leave_out", actions[0])))]


def left_out_tapped(talk: Talk, yard: YardRecord, action: str) -> list[Reply]:
    """Answer [Leave it out]: what was missed is still to do."""
    record_id, zone_id, area = (int(number) for number in action.split(":")[3:])
    sight = sight_of(talk, yard)
    try:
        record = recording.record_of(talk.work, yard, record_id)
        amending.leave_out(
            talk.work,
            yard,
            record,
            zone_id,
            area / _PER_M2,
            sight=sight,
            person_id=talk.person.id,
            now=talk.now,
        )
    except LookupError:
        return [talk.stale()]
    zone = next(each.zone_name for each in record.shares if each.zone_id == zone_id)
    left = Area(area / _PER_M2)
    undo = talk.undo()
    return [talk.reply("machines.left_out", undo, number=record_id, zone=zone, left=left)]


def went_tapped(talk: Talk, yard: YardRecord, action: str) -> list[Reply]:
    """Answer [Record it]: as far as it went before it ran out is down; [All is done]: all of it.

    What lay there before a second pass ran out is part of a whole round only with the rest of that.
    """
    zone_id, share, used = (int(number) for number in action.split(":")[3:])
    zone = next((each for each in talk.standing(yard).zones if each.id == zone_id), None)
    if zone is None or not 0 < share < _SHARES:
        return [talk.reply("machines.ran_out_ask")]
    amount = AmountSaid(from_si(used / _PER_KG, "lb"), "lb") if used else None
    verb, part = action.split(":")[1], Part(share=share / _SHARES)
    if verb == "all":
        return putting_on_record.confirm_part(talk, yard, zone, None, amount)
    is_first = verb == "first"
    found = putting_on_record.confirm_part(talk, yard, zone, part, amount, is_first_pass=is_first)
    if verb == "done" and talk.topic is None:
        found += putting_on_record.confirm_part(talk, yard, zone, Part(is_rest=True), None)
    return found


def second_tapped(talk: Talk, yard: YardRecord, action: str) -> list[Reply]:
    """Answer [Second pass done]: the record has all of it then."""
    number = int(action.rsplit(":", 1)[1])
    second = next((each for each in to_come(talk, yard) if each.record.id == number), None)
    if second is None:
        return [talk.stale()]
    second_pass.complete(
        talk.work,
        yard,
        second,
        second.lacking,
        sight=sight_of(talk, yard),
        person_id=talk.person.id,
        now=talk.now,
    )
    undo = talk.undo()
    area = Area(second.share.area_m2)
    zone = second.share.zone_name
    return [talk.reply("applying.second_done", undo, number=number, zone=zone, area=area)]


HANDLERS: Final = {"report_gap": on_report_gap}
