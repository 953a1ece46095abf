"""Work that did not go as meant: not done yet, or more put down than meant."""

from __future__ import annotations

import math
from collections.abc import Collection
from typing import Final

from bot.dialogue.named_here import names_of, zones_said
from bot.dialogue.talk import Talk
from bot.hearing.heard import ActHeard
from bot.saying.printed_amounts import Quantity
from bot.saying.values import Day, Names
from bot.telling import zones_out
from bot.telling.application_days import wanted_now
from bot.telling.applied_said import rate_line
from bot.telling.rounds_said import sight_of
from bot.turn import Reply, rows
from jobs.uses import amending
from jobs.uses import recording as uses
from jobs.weather_of_day import act_by_of
from storage.yards import YardRecord


def on_report_not_done(talk: Talk, yard: YardRecord, heard: ActHeard) -> list[Reply]:
    """Say what that means: until when there is time; a day that was named is kept as a reminder."""
    when = heard.slots.on
    today = talk.today(yard)
    # "No go today" puts nothing off till today.
    if when is not None and when.is_future and (when.has_time or when.at.date() > today):
        return talk.answer("snooze", yard, heard)
    zones = zones_said(talk.standing(yard).zones, heard.slots)
    newest = uses.newest(talk.work, yard)
    part = zones_out.of_newest(talk, yard, zones)
    if part is not None:
        record, out = part
        if heard.slots.of == "undo":
            return _taken_out(talk, yard, record.id, [share.zone_id for share in out])
        return [zones_out.ask(talk, yard, part)]
    buttons = [
        (talk.say("wishes.button_later"), f"later:ask:{yard.id}"),
        (talk.say("days.button_day"), f"day:{yard.id}"),
    ]
    by = act_by_of(talk.standing(yard), talk.now)
    # What is said of one zone takes nothing back of another.
    named = {zone.ground_id for zone in zones}
    is_about = newest is not None and (
        not named or any(share.ground_id in named for share in newest.shares)
    )
    is_beside = newest is not None and talk.is_told("report_applied")
    every = list(talk.standing(yard).zones)
    left = wanted_now(talk, yard, every)
    if not zones and (is_beside or 0 < len(left) < len(every)):
        # "Front is done, the rest must wait": what is on record already is not doubted.
        zones, is_about = left, False
    if newest is not None and is_about and talk.now - newest.recorded_at < zones_out.JUST_NOW:
        lines = [talk.say("applying.not_done_but_recorded", yard=yard.name, number=newest.id)]
        buttons.insert(0, (talk.say("applying.button_undo"), "undo:newest"))
    elif by is None:
        lines = [talk.say("applying.not_done", yard=yard.name)]
    else:
        names = names_of(zones) if zones else yard.name
        key = "left_by" if is_beside else "not_done_by"
        lines = [talk.say(f"applying.{key}", what=names, by=Day(by, today))]
    return [Reply("\n".join(lines), rows(buttons))]


def taken_out(talk: Talk, yard: YardRecord, action: str) -> list[Reply]:
    """Answer the button that takes zones out of a record: they are still to do."""
    number, *zone_ids = (int(each) for each in action.split(":")[3:])
    return _taken_out(talk, yard, number, zone_ids)


def _taken_out(talk: Talk, yard: YardRecord, number: int, zone_ids: Collection[int]) -> list[Reply]:
    who, sight = talk.person.id, sight_of(talk, yard)
    try:
        before = uses.record_of(talk.work, yard, number)
        amended = amending.take_out(
            talk.work, yard, before, zone_ids, sight=sight, person_id=who, now=talk.now
        )
    except LookupError:
        return [talk.stale()]
    talk.settle()
    kept = uses.record_of(talk.work, yard, number).shares
    out = [share.zone_name for share in before.shares if share.zone_id in zone_ids]
    total, unit = math.fsum(share.amount_si or 0.0 for share in kept), kept[0].amount_unit
    amount = Quantity(total, unit) if total and unit is not None else ""
    names = {"zones": Names(out), "kept": Names([share.zone_name for share in kept])}
    key = "records.out_amount" if amount else "records.out"
    lines = [talk.say(key, number=number, amount=amount, **names)]
    if amended is not None:
        lines.append(rate_line(talk, amended.achieved, amended.planned))
    if amended is not None and amended.is_over:
        lines.append(talk.say("records.amended_over"))
    return [Reply("\n".join(lines), talk.undo())]


def on_report_too_much(talk: Talk, yard: YardRecord, heard: ActHeard) -> list[Reply]:
    """Say what to do where more went down than meant; an amount that was named is put right."""
    if heard.slots.amount is not None and talk.standing(yard).done:
        first = talk.answer("change_record", yard, heard)
        return [*first, talk.reply("applying.too_much_short")]
    return [talk.reply("applying.too_much")]


HANDLERS: Final = {"report_not_done": on_report_not_done, "report_too_much": on_report_too_much}
