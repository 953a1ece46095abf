"""Work that did not go as meant: not done yet, or more put down than meant."""

from __future__ import annotations

from datetime import timedelta
from typing import Final

from bot.dialogue.named_here import names_of, zones_said
from bot.dialogue.talk import Talk
from bot.hearing.heard import ActHeard
from bot.saying.values import Day
from bot.telling.application_days import wanted_now
from bot.turn import Reply, rows
from jobs.uses import recording as uses
from jobs.weather_of_day import act_by_of
from storage.yards import YardRecord

#: A record so new may be the slip that "nothing went down" speaks of.
_JUST_NOW: Final = timedelta(hours=24)


def on_report_not_done(talk: Talk, yard: YardRecord, heard: ActHeard) -> list[Reply]:
    """Say what that means: until when there is time; a day that was named is kept as a reminder."""
    when = heard.slots.on
    if when is not None and when.is_future:
        return talk.answer("snooze", yard, heard)
    zones = zones_said(talk.standing(yard).zones, heard.slots)
    newest = uses.newest(talk.work, yard)
    buttons = [
        (talk.say("wishes.button_later"), f"later:ask:{yard.id}"),
        (talk.say("days.button_day"), f"day:{yard.id}"),
    ]
    today = talk.today(yard)
    by = act_by_of(talk.standing(yard), talk.now)
    # What is said of one zone takes nothing back of another.
    named = {zone.ground_id for zone in zones}
    is_about = newest is not None and (
        not named or any(share.ground_id in named for share in newest.shares)
    )
    is_beside = newest is not None and newest.recorded_at == talk.now
    if is_beside and not zones:
        # "Front is done, the rest must wait": what was recorded with it is not doubted.
        zones, is_about = wanted_now(talk, yard, list(talk.standing(yard).zones)), False
    if newest is not None and is_about and talk.now - newest.recorded_at < _JUST_NOW:
        lines = [talk.say("applying.not_done_but_recorded", yard=yard.name, number=newest.id)]
        buttons.insert(0, (talk.say("applying.button_undo"), "undo:newest"))
    elif by is None:
        lines = [talk.say("applying.not_done", yard=yard.name)]
    else:
        names = names_of(zones) if zones else yard.name
        key = "left_by" if is_beside else "not_done_by"
        lines = [talk.say(f"applying.{key}", what=names, by=Day(by, today))]
    return [Reply("\n".join(lines), rows(buttons))]


def on_report_too_much(talk: Talk, yard: YardRecord, heard: ActHeard) -> list[Reply]:
    """Say what to do where more went down than meant; an amount that was named is put right."""
    if heard.slots.amount is not None and talk.standing(yard).done:
        first = talk.answer("change_record", yard, heard)
        return [*first, talk.reply("applying.too_much_short")]
    return [talk.reply("applying.too_much")]


HANDLERS: Final = {"report_not_done": on_report_not_done, "report_too_much": on_report_too_much}
