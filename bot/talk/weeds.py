"""The emergence clock in words: weed by weed, with the air rules beside it."""

from __future__ import annotations

from typing import Final

from bot.dialogue.talk import Talk
from bot.saying.values import Day, ShortDay
from bot.turn import Reply
from jobs.uses import emergence_clock as uses
from jobs.uses.emergence_clock import AirRule, WeedDate
from storage.yards import YardRecord


def show(talk: Talk, yard: YardRecord, *, is_by_air: bool = False) -> list[Reply]:
    """Answer "weeds": when each comes up by soil; or what rules on air say, and which counts."""
    around = talk.around
    found = uses.clock(talk.work, yard, around.source, around.outlooks, talk.now)
    if found is None:
        return [talk.reply("soil.nothing_yet", yard=yard.name)]
    if is_by_air:
        lines = [talk.say("weeds.air_head"), *(_air(talk, yard, rule) for rule in found.air)]
        return [Reply("\n".join([*lines, talk.say("weeds.which")]))]
    lines = [talk.say("weeds.head", yard=yard.name)]
    lines += [_weed(talk, yard, weed) for weed in found.weeds]
    if around.is_invented:
        lines.append(talk.say("help.invented"))
    return [Reply("\n".join(lines), talk.row(("weeds.button_air", f"weeds:air:{yard.id}")))]


def _weed(talk: Talk, yard: YardRecord, weed: WeedDate) -> str:
    today = talk.today(yard)
    name = talk.say(f"weeds.{weed.weed}_{weed.stage}")
    if weed.p50 is None:
        return talk.say("weeds.not_in_sight", weed=name)
    if weed.p50 <= today:
        return talk.say("weeds.was", weed=name, on=Day(weed.p50, today))
    if weed.p10 is None or weed.p90 is None:
        return talk.say("weeds.about", weed=name, on=Day(weed.p50, today))
    return talk.say(
        "weeds.between",
        weed=name,
        on=Day(weed.p50, today),
        early=ShortDay(weed.p10),
        late=ShortDay(weed.p90),
    )


def _air(talk: Talk, yard: YardRecord, rule: AirRule) -> str:
    band = (
        f"{rule.low_f:.0f}" if rule.low_f == rule.high_f else f"{rule.low_f:.0f}-{rule.high_f:.0f}"
    )
    so_far = f"{max(0.0, rule.sum_f):.0f}"
    if rule.reached_on is None:
        return talk.say(f"weeds.air_{rule.name}_before", sum=so_far, band=band)
    today = talk.today(yard)
    return talk.say(f"weeds.air_{rule.name}", sum=so_far, band=band, on=Day(rule.reached_on, today))


HANDLERS: Final = {"ask_weeds": lambda talk, yard, _heard: show(talk, yard)}
