"""Trying a spreader: weighed runs, catch pans, swath, and the next setting."""

from __future__ import annotations

from dataclasses import asdict
from typing import Final

from bot.dialogue import topics
from bot.dialogue.talk import Talk
from bot.hearing.forms.spreader_forms import CourseAsked, DialSaid, PansSaid, RunSaid, SwathSaid
from bot.hearing.readers.lexing import figures
from bot.saying.values import Area
from bot.telling.spreader_words import known_swath, length_of, rate_text, weight_of
from bot.turn import Reply
from jobs.agronomy.amounts import M2_PER_HA
from jobs.agronomy.calibration import course_length_m, target_for_pass
from jobs.agronomy.rates import Rate
from jobs.agronomy.spreader import (
    NextSetting,
    PatternTooNarrow,
    TriesDisagree,
    effective_swath,
    next_setting,
    overlapped,
    pan_rate,
)
from jobs.agronomy.units import to_si
from jobs.uses import calibrating as uses
from storage.yards import YardRecord

#: Tries told one a line.
_MOST_LINES: Final = 6
#: Leaning more than this, a pattern is worth a look at the machine (see `Swath.skew`).
_SKEWED: Final = 0.1


def run(talk: Talk, yard: YardRecord, said: RunSaid, words: str) -> list[Reply]:
    """Take a weighed run; a length alone is one of the known swath, which is asked for."""
    area_m2, swath_m = said.area_m2, known_swath(talk, yard)
    if area_m2 is None and said.length_m is not None and swath_m is not None:
        area_m2 = said.length_m * swath_m
    if area_m2 is None and said.used_kg > 0 and talk.topic in (None, topics.SWATH):
        talk.expect(topics.SWATH, run=asdict(said), words=words)
    if area_m2 is None or not (said.used_kg > 0 and area_m2 > 0):
        return [talk.reply("machines.run_needs")]
    if talk.topic == topics.SWATH:
        talk.settle()
    result = uses.note_run(
        talk.work,
        yard,
        used_si=said.used_kg,
        area_m2=area_m2,
        setting=said.setting,
        is_half=said.is_half,
        unit="kg/ha" if talk.is_metric else "lb/1000 sq ft",
        said=words,
        person_id=talk.person.id,
        now=talk.now,
    )
    return [_say_run(talk, result, has_setting=said.setting is not None)]


def dial(talk: Talk, yard: YardRecord, said: DialSaid) -> list[Reply] | None:
    """Take the setting of the newest run, where it was not told; None where no run lacks it."""
    newest = uses.newest_try(talk.work, yard)
    if newest is None or newest.setting is not None:
        return None
    kg_m2 = Rate(newest.rate_value, newest.rate_unit).rate_si / M2_PER_HA
    return run(talk, yard, RunSaid(kg_m2, 1.0, setting=said.setting), newest.said)


def tries(talk: Talk, yard: YardRecord) -> list[Reply]:
    """Show the tries of the chosen product, and the setting for one of two directions."""
    known = uses.tries(talk.work, yard)
    if not known:
        steps = talk.row(("machines.button_how", f"spreader:how:{yard.id}"))
        return [talk.reply("machines.tries_none", steps)]
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


def pan_mean(talk: Talk, said: PansSaid) -> list[Reply]:
    """Answer what one mean catch comes to; how to set pans out where there is none."""
    if not said.caught_kg:
        return [talk.reply("machines.pans_ask")]
    unit = "kg/ha" if talk.is_metric else "lb/1000 sq ft"
    area = said.area_m2 or to_si(1.0, "sq ft")
    rate = pan_rate(said.caught_kg[0], area, unit)
    mean, pan = weight_of(said.caught_kg[0]), Area(area)
    return [talk.reply("machines.pan_mean", mean=mean, area=pan, rate=rate_text(rate))]


def pans(talk: Talk, yard: YardRecord, said: PansSaid) -> list[Reply]:
    """Take what pans caught: the pattern across the path."""
    values = said.caught_kg
    if said.is_mean or not values:
        return pan_mean(talk, said)
    if len(values) < 3 or len(values) % 2 == 0:
        return [talk.reply("machines.pans_few")]
    middle = len(values) // 2
    position_m = [(i - middle) * said.apart_m for i in range(len(values))]
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
            swath=length_of(talk, swath.effective_m),
            left=length_of(talk, swath.left_m),
            right=length_of(talk, swath.right_m),
        )
    ]
    if abs(swath.skew) > _SKEWED:
        lines.append(talk.say("machines.pans_skew"))
    if said.is_weighed and said.area_m2 is not None:
        unit = "kg/ha" if talk.is_metric else "lb/1000 sq ft"
        summed = overlapped(position_m, values, swath.effective_m)
        rate = pan_rate(float(summed.mean()) / said.runs, said.area_m2, unit)
        lines.append(talk.say("machines.pans_rate", rate=rate_text(rate)))
    return [Reply("\n".join(lines))]


def swath(talk: Talk, yard: YardRecord, said: SwathSaid) -> list[Reply]:
    """Take a swath, or answer how long a course of it is."""
    area_m2 = said.area_m2 or to_si(1000.0, "sq ft")
    params = {
        "swath": length_of(talk, said.swath_m),
        "area": Area(area_m2),
        "length": length_of(talk, course_length_m(area_m2, said.swath_m)),
    }
    if isinstance(said, CourseAsked):
        return [Reply(talk.say("machines.course", **params))]
    _keep_swath(talk, yard, said.swath_m)
    kept = Reply(talk.say("machines.swath", **params))
    if talk.topic != topics.SWATH:
        return [kept]
    return [kept, *run(talk, yard, RunSaid(**talk.data["run"]), str(talk.data["words"]))]


def _say_run(talk: Talk, result: uses.RunResult, *, has_setting: bool) -> Reply:
    # What is over the label is not printed as a rate anybody might copy.
    key = "machines.run_over" if result.is_over_label else "machines.run"
    lines = [talk.say(key, achieved=rate_text(result.achieved))]
    undo = talk.undo(key="machines.button_undo")
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
    uses.keep_machine(talk.work, yard, uses.SPREADER, now=talk.now, swath_m=swath_m)
