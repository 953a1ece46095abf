"""Trying a spreader: weighed runs, catch pans, swath, and the next setting."""

from __future__ import annotations

import re
from typing import Final

from bot.hearing.readers.lexing import figures
from bot.hearing.readers.measures import Figure, near, of_kind
from bot.saying.figures import say_area
from bot.talk.spreader_words import known_swath, length_text, rate_text, weight_text
from bot.talk.talk import Talk
from bot.turn import Reply, rows
from jobs.agronomy.calibration import course_length_m, target_for_pass
from jobs.agronomy.spreader import (
    NextSetting,
    PatternTooNarrow,
    TriesDisagree,
    effective_swath,
    next_setting,
    overlapped,
    pan_rate,
)
from jobs.agronomy.units import si_factor, to_si
from jobs.uses import machines as uses
from storage.yards import YardRecord

#: Tries told one a line.
_MOST_LINES: Final = 6
#: Leaning more than this, a pattern is worth a look at the machine (see `Swath.skew`).
_SKEWED: Final = 0.1

_RUN: Final = re.compile(
    r"\b(?:used|ran|run|over|on|left|spread|test|trial|swath|course|weighed|went|emptied|out\s+of)\b",
    re.IGNORECASE,
)


def run(talk: Talk, yard: YardRecord, text: str, found: list[Figure]) -> list[Reply] | None:
    """Take a weighed run; None where the figures are none."""
    masses, lengths = of_kind(found, "mass"), of_kind(found, "length")
    areas = of_kind(found, "area")
    if len(masses) != 1 or not _RUN.search(text) or re.search(r"\bper\b|/", text):
        return None
    swath_m = known_swath(talk, yard)
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


def tries(talk: Talk, yard: YardRecord) -> list[Reply]:
    """Show the tries of the chosen product, and the setting for one of two directions."""
    known = uses.tries(talk.work, yard)
    if not known:
        return [talk.reply("machines.tries_none")]
    lines = [
        talk.say("machines.try_line", setting=figures(each.setting), rate=rate_text(each.rate))
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
        target = talk.say("machines.target_half", target=rate_text(half))
        following_line = f"{target} {_next_line(talk, following)}"
    return [talk.reply("machines.tries", lines="\n".join(lines), next=following_line)]


def pans(talk: Talk, yard: YardRecord, text: str, found: list[Figure]) -> list[Reply]:
    """Take what pans caught: their mean, or the pattern across the path."""
    masses, areas = of_kind(found, "mass"), of_kind(found, "area")
    catches = [f for f in found if f.kind == "bare"] + masses
    unit = "kg/ha" if talk.is_metric else "lb/1000 sq ft"
    if len(catches) == 1 and masses:
        area = areas[0].value if areas else to_si(1.0, "sq ft")
        rate = pan_rate(masses[0].value, area, unit)
        mean = weight_text(talk, masses[0].value)
        pan = say_area(area, talk.unit_system)
        return [talk.reply("machines.pan_mean", mean=mean, area=pan, rate=rate_text(rate))]
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
            swath=length_text(talk, swath.effective_m),
            left=length_text(talk, swath.left_m),
            right=length_text(talk, swath.right_m),
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
            talk.say(
                "machines.pans_rate", rate=rate_text(pan_rate(caught_kg, areas[0].value, unit))
            )
        )
    return [Reply("\n".join(lines))]


def swath(talk: Talk, yard: YardRecord, text: str, found: list[Figure]) -> list[Reply] | None:
    """Take a swath, or answer how long a course is; None for other lengths."""
    lengths, areas = of_kind(found, "length"), of_kind(found, "area")
    if len(lengths) != 1 or lengths[0].value <= 0 or "128" in text:
        return None
    swath_m = lengths[0].value
    area_m2 = areas[0].value if areas and areas[0].value > 0 else to_si(1000.0, "sq ft")
    params = {
        "swath": length_text(talk, swath_m),
        "area": say_area(area_m2, talk.unit_system),
        "length": length_text(talk, course_length_m(area_m2, swath_m)),
    }
    if re.search(r"\bcourse\b", text, re.IGNORECASE):
        return [Reply(talk.say("machines.course", **params))]
    _keep_swath(talk, yard, swath_m)
    return [Reply(talk.say("machines.swath", **params))]


def _say_run(talk: Talk, result: uses.RunResult, *, has_setting: bool) -> Reply:
    # What is over the label is not printed as a rate anybody might copy.
    key = "machines.run_over" if result.is_over_label else "machines.run"
    lines = [talk.say(key, achieved=rate_text(result.achieved))]
    undo = rows([(talk.say("machines.button_undo"), f"undo:{result.journal_id}")])
    if result.off is None:
        return Reply("\n".join([*lines, talk.say("machines.run_no_product")]), undo)
    target = result.off.target
    key = "machines.target_half" if result.is_half else "machines.target_whole"
    lines.append(talk.say(key, target=rate_text(target)))
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
        lines.append(talk.say("machines.for_two", half=rate_text(target_for_pass(target))))
    return Reply("\n".join(lines), undo)


def _next_line(talk: Talk, following: NextSetting) -> str:
    setting = figures(round(following.setting, 1))
    if following.is_good_already:
        return talk.say("machines.next_keep", setting=setting)
    key = "machines.next_between" if following.is_between_tries else "machines.next_beyond"
    return talk.say(key, setting=setting)


def _keep_swath(talk: Talk, yard: YardRecord, swath_m: float) -> None:
    uses.keep_machine(
        talk.work, yard, uses.SPREADER, person_id=talk.person.id, now=talk.now, swath_m=swath_m
    )


def _said_half(text: str) -> bool | None:
    typed = text.casefold()
    if re.search(r"\bhalf\s+rate\b|\bone\s+(?:direction|pass)\b|\beach\s+way\b", typed):
        return True
    return False if re.search(r"\b(?:full|whole)\s+rate\b", typed) else None
