"""Did it work: weeds seen and not seen, and what that means for this year and the next."""

from __future__ import annotations

from typing import Final

from bot.dialogue import topics
from bot.dialogue.named_here import names_of, zones_said
from bot.dialogue.talk import Talk
from bot.hearing.forms.weed_forms import SightingSaid
from bot.hearing.heard import ActHeard, Slots
from bot.saying.plants import say_ingredient, say_weed
from bot.saying.values import Day, Names
from bot.turn import Buttons, Reply, rows
from jobs.local_days import season_day
from jobs.uses import weeds_seen as uses
from jobs.uses import yard_settings as yard_uses
from storage.yards import YardRecord

CRABGRASS: Final = "crabgrass"


def on_report_weeds(talk: Talk, yard: YardRecord, heard: ActHeard) -> list[Reply]:
    """Keep where weeds were seen, or looked for in vain."""
    said = heard.slots.read
    is_seen = said.is_seen if isinstance(said, SightingSaid) else True
    slots = heard.slots
    is_open = slots.read is None and slots.weed is None and slots.unread is None
    if is_open and talk.topic != topics.SCOUTING:
        # "Weeds" may be any, and what is noted as crabgrass moves next year's window.
        return [talk.reply("scouting.which")]
    return _record(talk, yard, slots, heard.said, is_seen=is_seen)


def tapped(talk: Talk, yard: YardRecord, action: str) -> list[Reply]:
    """Answer the buttons under the question, and under a suggestion."""
    what = action.split(":")[1]
    if what == "lead":
        days = min(int(action.rsplit(":", 1)[1]), yard_uses.LEADS_DAYS.stop - 1)
        yard_uses.set_lead(talk.work, yard, days)
        return [talk.reply("yards.lead_set", yard=yard.name, lead=days)]
    if what == "none":
        said = talk.say("year.button_none")
        return _record(talk, yard, Slots(), said, is_seen=False)
    talk.expect(topics.SCOUTING, yard_id=yard.id)
    return [talk.reply("scouting.ask_where")]


def _record(talk: Talk, yard: YardRecord, slots: Slots, said: str, *, is_seen: bool) -> list[Reply]:
    zones = talk.standing(yard).zones
    on = today = talk.today(yard)
    if slots.unread is not None:
        return [Reply(slots.unread.sentence())]
    if slots.on is not None:
        on = min(slots.on.at.date(), today)
    if slots.rest and isinstance(slots.read, SightingSaid):
        example = zones[0].name if zones else "front"
        names = names_of(zones)
        return [talk.reply("scouting.unclear", yard=yard.name, names=names, zone=example)]
    named, weed = zones_said(zones, slots), slots.weed or CRABGRASS
    if talk.topic == topics.SCOUTING:
        talk.settle()
    seen = uses.Seen(named, weed, is_seen, on, said)
    found = uses.record(talk.work, yard, seen, person_id=talk.person.id, now=talk.now)
    day = Day(on, today)
    if not is_seen:
        is_last = season_day(today, yard.lat).month >= 8
        key = "scouting.noted_none_last" if is_last else "scouting.noted_none"
        lines = [talk.say(key, yard=yard.name, on=day)]
    elif named:
        lines = [talk.say("scouting.noted", weed=say_weed(weed), zones=names_of(named), on=day)]
    else:
        lines = [talk.say("scouting.noted_yard", weed=say_weed(weed), yard=yard.name, on=day)]
    lines += _meaning(talk, found, is_seen=is_seen)
    if found.longer_lead is not None:
        lead = found.longer_lead
        lines.append(talk.say("scouting.lead", lead=lead.suggested_days, now=lead.now_days))
    return [Reply("\n".join(lines), _buttons(talk, yard, found))]


def _meaning(talk: Talk, found: uses.Found, *, is_seen: bool) -> list[str]:
    lines = []
    if is_seen and found.is_late:
        lines.append(talk.say("scouting.late"))
    elif is_seen:
        lines.append(talk.say("scouting.helps", names=Names([*map(say_ingredient, found.helps)])))
    if found.failed_though_right:
        zones = Names(found.failed_though_right)
        lines.append(talk.say("scouting.failed", zones=zones))
    if found.group_years is not None:
        group, running = found.group_years
        lines.append(talk.say("scouting.group", group=group, years=running))
    if found.first_zone is not None:
        lines.append(talk.say("scouting.first_zone", zone=found.first_zone))
    return lines


def _buttons(talk: Talk, yard: YardRecord, found: uses.Found) -> Buttons:
    line = []
    if found.longer_lead is not None and talk.may(yard, "change"):
        days = found.longer_lead.suggested_days
        label = talk.say("scouting.button_lead", lead=days)
        line.append((label, f"seen:lead:{yard.id}:{days}"))
    return rows(line) + talk.undo()


HANDLERS: Final = {"report_weeds": on_report_weeds}
