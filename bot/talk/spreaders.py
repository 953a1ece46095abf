"""The spreader: weighing out, checking the gate, swath, cups, and what went wrong on the way."""

from __future__ import annotations

import math
import re
from typing import Final

from bot.language.lexing import figures
from bot.language.measures import Figure, near, of_kind, read_figures
from bot.language.saying import say_amount, say_area, say_rate
from bot.talk.naming import find_zones
from bot.talk.products import say_product
from bot.talk.rounds_now import amounts_of, said
from bot.talk.talk import Talk
from bot.turn import Buttons, Reply, rows
from jobs.agronomy.amounts import Amount, LabelLimitExceeded, check_amount
from jobs.agronomy.calibration import course_length_m, is_weighable, scale_step_si, target_for_pass
from jobs.agronomy.rates import Rate
from jobs.agronomy.shape_store import from_json
from jobs.agronomy.shapes import Rectangle, Square, Strip
from jobs.agronomy.spreader import (
    NextSetting,
    PatternTooNarrow,
    TriesDisagree,
    cups,
    effective_swath,
    missed_stripe,
    next_setting,
    overlapped,
    pan_rate,
    pass_plan,
    ran_out,
)
from jobs.agronomy.units import from_si, si_factor, to_si
from jobs.uses import machines as uses
from jobs.uses.amounts import YardAmounts
from storage import machines
from storage.yards import YardRecord, ZoneRecord

#: Zones told one a line; a phone screen holds no more with the rest of the message.
_MOST_LINES: Final = 6
#: Leaning more than this, a pattern is worth a look at the machine (see `Swath.skew`).
_SKEWED: Final = 0.1

_RUN: Final = re.compile(
    r"\b(?:used|ran|run|over|on|left|spread|test|trial|swath|course|weighed|went|emptied|out\s+of)\b",
    re.IGNORECASE,
)
_FRACTIONS: Final = (
    (r"\bhalf|1/2\b", 1 / 2),
    (r"\btwo[ -]thirds|2/3\b", 2 / 3),
    (r"\bthird|1/3\b", 1 / 3),
    (r"\bthree[ -]quarters|3/4\b", 3 / 4),
    (r"\bquarter|1/4\b", 1 / 4),
)


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
    machine = machines.machine(talk.work, yard.chat_id, uses.SPREADER)
    swath_m = None if machine is None else machine.swath_m
    zones = list(found.zones)
    if rest:
        named, _ = find_zones(zones, rest)
        zones = named or zones
    lines = [_passes(talk, found, zone, swath_m) for zone in zones[:_MOST_LINES]]
    if len(zones) > _MOST_LINES:
        lines.append(talk.say("machines.more_zones", count=len(zones) - _MOST_LINES))
    if swath_m is not None:
        lines.append(talk.say("machines.strips_note", swath=_length(talk, swath_m)))
    if found.record.level_cup_kg and zones:
        half = _amount(found, zones[0]).times(0.5)
        count = cups(half.si, found.record.level_cup_kg)
        cup = _weight(talk, found.record.level_cup_kg)
        lines.append(
            talk.say("machines.cups_note", cup=cup, zone=zones[0].name, cups=f"{count:.1f}")
        )
    least = min((_amount(found, zone).si / 2 for zone in zones), default=0.0)
    text = talk.say(
        "machines.spreader",
        yard=yard.name,
        number=found.round_number,
        rounds=found.rounds,
        lines="\n".join(lines),
        half=_rate(target_for_pass(found.plan.rate)),
        step=_step(talk, least),
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
            return _tries(talk, yard)
        case _:
            return show(talk, yard)


def take(talk: Talk, yard: YardRecord, text: str) -> list[Reply] | None:
    """Take what was weighed, caught or went wrong; None where a text says nothing of the kind."""
    typed = " ".join(text.casefold().rstrip("?.!").split())
    if typed in ("spreader", "passes", "weigh out"):
        return show(talk, yard)
    if typed in ("tries", "my tries", "settings", "next setting", "spreader setting"):
        return _tries(talk, yard)
    if re.search(r"\bran\s+out\b|\brun\s+out\b", typed):
        return _ran_out(talk, yard, text)
    found = read_figures(text)
    if re.search(r"\b(?:pans?|trays?|catch\s+boxes)\b", typed):
        return _pans(talk, yard, text, found)
    if re.search(r"\bcups?\b|\bteaspoons?\b|\btablespoons?\b|\btsp\b|\btbsp\b", typed):
        return _cup(talk, yard, typed, found)
    if not found:
        return None
    if re.search(r"\bscale\b", typed):
        return _scale(talk, yard, found)
    if re.search(r"\bmissed\b|\bmiss\b|\bskipped\b|\bleft\s+out\s+a\b", typed):
        return _missed(talk, yard, found)
    if re.search(r"\bswath\b|\bcourse\b", typed) and not of_kind(found, "mass", "flow", "volume"):
        return _swath(talk, yard, text, found)
    return _run(talk, yard, text, found)


def _run(talk: Talk, yard: YardRecord, text: str, found: list[Figure]) -> list[Reply] | None:
    masses, lengths = of_kind(found, "mass"), of_kind(found, "length")
    areas = of_kind(found, "area")
    if len(masses) != 1 or not _RUN.search(text) or re.search(r"\bper\b|/", text):
        return None
    swath_m = _known_swath(talk, yard)
    if len(lengths) == 1 and swath_m is not None:
        area_m2 = lengths[0].value * swath_m
    elif len(lengths) == 2:
        area_m2 = lengths[0].value * lengths[1].value
    elif len(areas) == 1 and not lengths:
        area_m2 = areas[0].value
    else:
        return None
    if not (masses[0].value > 0 and area_m2 > 0):
        return [talk.reply("machines.run_needs")]
    dial = near(text, found, r"\b(?:setting|dial|gate|notch)\b")
    result = uses.note_run(
        talk.work,
        yard,
        used_si=masses[0].value,
        area_m2=area_m2,
        setting=dial.value if dial is not None and dial.kind == "bare" and dial.value > 0 else None,
        is_half=_said_half(text),
        unit="kg/ha" if talk.is_metric else "lb/1000 sq ft",
        said=text,
        person_id=talk.person.id,
        now=talk.now,
    )
    return [_say_run(talk, result, has_setting=dial is not None)]


def _say_run(talk: Talk, result: uses.RunResult, *, has_setting: bool) -> Reply:
    # What is over the label is not printed as a rate anybody might copy.
    key = "machines.run_over" if result.is_over_label else "machines.run"
    lines = [talk.say(key, achieved=_rate(result.achieved))]
    undo = rows([(talk.say("machines.button_undo"), f"undo:{result.journal_id}")])
    if result.off is None:
        return Reply("\n".join([*lines, talk.say("machines.run_no_product")]), undo)
    target = result.off.target
    key = "machines.target_half" if result.is_half else "machines.target_whole"
    lines.append(talk.say(key, target=_rate(target)))
    percent = f"{abs(result.off.share) * 100:.1f}"
    lines.append(talk.say(f"machines.{result.off.direction}", percent=percent))
    if result.disagree is not None:
        narrow, wide = (figures(setting) for setting in result.disagree)
        lines.append(talk.say("machines.disagree", wide=wide, narrow=narrow))
    elif result.following is not None:
        lines.append(_next_line(talk, result.following))
    elif not has_setting and not result.off.is_on_target:
        lines.append(talk.say("machines.say_setting"))
    if not result.is_half:
        lines.append(talk.say("machines.for_two", half=_rate(target_for_pass(target))))
    return Reply("\n".join(lines), undo)


def _tries(talk: Talk, yard: YardRecord) -> list[Reply]:
    known = uses.tries(talk.work, yard)
    if not known:
        return [talk.reply("machines.tries_none")]
    lines = [
        talk.say("machines.try_line", setting=figures(each.setting), rate=_rate(each.rate))
        for each in known[-_MOST_LINES:]
    ]
    found = uses.setup(talk.work, yard, uses.SPREADER, talk.now)
    half = target_for_pass(found.rate)
    try:
        following = next_setting(known, half)
    except TriesDisagree as problem:
        narrow, wide = (figures(setting) for setting in problem.settings)
        following_line = talk.say("machines.disagree", wide=wide, narrow=narrow)
    else:
        target = talk.say("machines.target_half", target=_rate(half))
        following_line = f"{target} {_next_line(talk, following)}"
    return [talk.reply("machines.tries", lines="\n".join(lines), next=following_line)]


def _next_line(talk: Talk, following: NextSetting) -> str:
    setting = figures(round(following.setting, 1))
    if following.is_good_already:
        return talk.say("machines.next_keep", setting=setting)
    key = "machines.next_between" if following.is_between_tries else "machines.next_beyond"
    return talk.say(key, setting=setting)


def _pans(talk: Talk, yard: YardRecord, text: str, found: list[Figure]) -> list[Reply]:
    masses, areas = of_kind(found, "mass"), of_kind(found, "area")
    catches = [f for f in found if f.kind == "bare"] + masses
    unit = "kg/ha" if talk.is_metric else "lb/1000 sq ft"
    if len(catches) == 1 and masses:
        area = areas[0].value if areas else to_si(1.0, "sq ft")
        rate = pan_rate(masses[0].value, area, unit)
        mean = _weight(talk, masses[0].value)
        pan = say_area(area, talk.unit_system)
        return [talk.reply("machines.pan_mean", mean=mean, area=pan, rate=_rate(rate))]
    spacing = near(text, found, r"\bapart\b|\bevery\b|\bspac\w+\b", is_before=True)
    if not catches:
        return [talk.reply("machines.pans_ask")]
    factor = si_factor(masses[-1].unit) if masses else 0.001
    ordered = sorted(catches, key=lambda figure: figure.start)
    values = [f.value if f.kind == "mass" else f.value * factor for f in ordered]
    apart_m = spacing.value if spacing and spacing.kind == "length" else to_si(1.0, "ft")
    if len(values) < 3 or len(values) % 2 == 0:
        return [talk.reply("machines.pans_few")]
    middle = len(values) // 2
    position_m = [(i - middle) * apart_m for i in range(len(values))]
    try:
        swath = effective_swath(position_m, values)
    except PatternTooNarrow:
        return [talk.reply("machines.pans_narrow")]
    except ValueError:
        return [talk.reply("machines.pans_few")]
    _keep_swath(talk, yard, swath.effective_m)
    lines = [
        talk.say(
            "machines.pans",
            swath=_length(talk, swath.effective_m),
            left=_length(talk, swath.left_m),
            right=_length(talk, swath.right_m),
        )
    ]
    if abs(swath.skew) > _SKEWED:
        lines.append(talk.say("machines.pans_skew"))
    if masses and areas:
        runs = re.search(r"(\d+)\s*(?:runs|passes|times)\b", text, re.IGNORECASE)
        times = int(runs[1]) if runs and int(runs[1]) > 0 else 1
        summed = overlapped(position_m, values, swath.effective_m)
        caught_kg = float(summed.mean()) / times
        lines.append(
            talk.say("machines.pans_rate", rate=_rate(pan_rate(caught_kg, areas[0].value, unit)))
        )
    return [Reply("\n".join(lines))]


def _swath(talk: Talk, yard: YardRecord, text: str, found: list[Figure]) -> list[Reply] | None:
    lengths, areas = of_kind(found, "length"), of_kind(found, "area")
    if len(lengths) != 1 or lengths[0].value <= 0 or "128" in text:
        return None
    swath_m = lengths[0].value
    area_m2 = areas[0].value if areas and areas[0].value > 0 else to_si(1000.0, "sq ft")
    params = {
        "swath": _length(talk, swath_m),
        "area": say_area(area_m2, talk.unit_system),
        "length": _length(talk, course_length_m(area_m2, swath_m)),
    }
    if re.search(r"\bcourse\b", text, re.IGNORECASE):
        return [Reply(talk.say("machines.course", **params))]
    _keep_swath(talk, yard, swath_m)
    return [Reply(talk.say("machines.swath", **params))]


def _cup(talk: Talk, yard: YardRecord, typed: str, found: list[Figure]) -> list[Reply] | None:
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
        least = min((_amount(round_now, z).si for z in round_now.zones), default=0.0)
        return [talk.reply("machines.no_spoons", step=_step(talk, least))]
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
    product, cup = say_product(talk, round_now.record), _weight(talk, masses[0].value)
    return [talk.reply("machines.cup", product=product, cup=cup), *show(talk, yard)]


def _scale(talk: Talk, yard: YardRecord, found: list[Figure]) -> list[Reply] | None:
    masses = of_kind(found, "mass")
    if len(masses) != 1 or masses[0].value <= 0:
        return None
    round_now = amounts_of(talk, yard)
    if isinstance(round_now, list):
        return round_now
    step = _weight(talk, masses[0].value)
    smallest = min(round_now.zones, key=lambda zone: zone.treated_m2, default=None)
    if smallest is None or not round_now.plan.rate.is_weight:
        return None
    amount = _amount(round_now, smallest)
    if is_weighable(amount.si, masses[0].value):
        return [talk.reply("machines.scale_fine", step=step)]
    return [
        talk.reply(
            "machines.scale_coarse",
            step=step,
            zone=smallest.name,
            amount=said(talk, round_now, amount, smallest.treated_m2),
            needed=_step(talk, amount.si),
        )
    ]


def _ran_out(talk: Talk, yard: YardRecord, text: str) -> list[Reply]:
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
    used = Amount(masses[0].value, "lb") if masses else _amount(round_now, zone)
    rate = round_now.plan.rate
    result = ran_out(zone.treated_m2, done_m2, used.in_unit(rate.amount_unit), rate)
    lines = [
        talk.say(
            "machines.ran_out",
            zone=zone.name,
            achieved=_rate(result.achieved),
            left=say_area(result.left_m2, talk.unit_system),
            needed=said(talk, round_now, result.still_needed, result.left_m2),
        )
    ]
    try:
        check_amount(used, done_m2, round_now.product)
    except LabelLimitExceeded:
        # A rate above the label is not printed, only that it is one.
        left = say_area(result.left_m2, talk.unit_system)
        needed = said(talk, round_now, result.still_needed, result.left_m2)
        lines = [talk.say("machines.ran_out_left", left=left, zone=zone.name, needed=needed)]
        lines.append(talk.say("machines.ran_out_over"))
    else:
        if result.achieved.rate_si > rate.rate_si * 1.05:
            lines.append(talk.say("machines.ran_out_thick"))
    return [Reply("\n".join(lines))]


def _missed(talk: Talk, yard: YardRecord, found: list[Figure]) -> list[Reply] | None:
    lengths = of_kind(found, "length")
    if len(lengths) != 2 or min(each.value for each in lengths) <= 0:
        return None
    round_now = amounts_of(talk, yard)
    if isinstance(round_now, list):
        return round_now
    width, length = sorted(each.value for each in lengths)
    amount = missed_stripe(width, length, round_now.plan.rate)
    size = f"{_length(talk, width)} x {_length(talk, length)}"
    return [
        talk.reply(
            "machines.missed", size=size, amount=said(talk, round_now, amount, width * length)
        )
    ]


def _passes(talk: Talk, found: YardAmounts, zone: ZoneRecord, swath_m: float | None) -> str:
    half = said(talk, found, _amount(found, zone).times(0.5), zone.treated_m2 / 2)
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


def _amount(found: YardAmounts, zone: ZoneRecord) -> Amount:
    return next(item.amount for item in found.plan.zones if item.zone.name == zone.name)


def _known_swath(talk: Talk, yard: YardRecord) -> float | None:
    machine = machines.machine(talk.work, yard.chat_id, uses.SPREADER)
    return None if machine is None else machine.swath_m


def _keep_swath(talk: Talk, yard: YardRecord, swath_m: float) -> None:
    uses.keep_machine(
        talk.work, yard, uses.SPREADER, person_id=talk.person.id, now=talk.now, swath_m=swath_m
    )


def _said_half(text: str) -> bool | None:
    typed = text.casefold()
    if re.search(r"\bhalf\s+rate\b|\bone\s+(?:direction|pass)\b|\beach\s+way\b", typed):
        return True
    return False if re.search(r"\b(?:full|whole)\s+rate\b", typed) else None


def _rate(rate: Rate) -> str:
    """Return a reckoned rate with four figures."""
    return say_rate(Rate(float(f"{rate.value:.4g}"), rate.unit))


def _weight(talk: Talk, kg: float) -> str:
    return say_amount(kg, "g" if talk.is_metric or kg < 0.028 else "lb")


def _step(talk: Talk, amount_si: float) -> str:
    """Return the coarsest step that will do, rounded down to a round figure."""
    step_g = scale_step_si(amount_si) * 1000
    if step_g <= 0:
        return "1 g"
    power = 10 ** math.floor(math.log10(step_g))
    return f"{figures(next(n for n in (5, 2, 1) if n * power <= step_g) * power)} g"


def _length(talk: Talk, metres: float) -> str:
    unit = talk.length_unit
    value = from_si(metres, unit)
    return f"{figures(round(value, 1 if value >= 1 else 2))} {unit}"


def _buttons(talk: Talk, yard: YardRecord) -> Buttons:
    return rows(
        [
            (talk.say("machines.button_pans"), f"spreader:pans:{yard.id}"),
            (talk.say("machines.button_cups"), f"spreader:cups:{yard.id}"),
            (talk.say("machines.button_tries"), f"spreader:tries:{yard.id}"),
        ]
    )
