"""Did it work: weeds seen and not seen, and what that means for this year and the next."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Final

from bot.hearing.readers.dates import WhenRead, find_when, say_day
from bot.hearing.readers.reading import Unread
from bot.talk.naming import find_zones, names_of
from bot.talk.talk import Talk
from bot.turn import Buttons, Reply, rows
from jobs.local_days import season_day
from jobs.uses import scouting as uses
from jobs.uses import yards as yard_uses
from storage import yards
from storage.yards import YardRecord

TOPIC: Final = "scouting"
CRABGRASS: Final = "crabgrass"

_WEED: Final = (
    r"(?P<weed>(?:smooth\s+|large\s+|hairy\s+)?crabgrass|goosegrass|foxtails?|annual\s+bluegrass"
    r"|poa(?:\s+annua)?)"
)
_SEEN: Final = re.compile(
    rf"^(?:(?:i|we)\s+(?:see|saw|found|have)\s+|there\s+(?:is|are)\s+|seen\s+|found\s+|got\s+"
    rf"|still\s+)?(?:some\s+|a\s+(?:bit|little)\s+of\s+|lots?\s+of\s+)?{_WEED}\b"
    r"(?=\s+(?:on|in|at|along|everywhere|all\s+over|coming\s+up|came\s+up|is\s+up|seen)|\s*[.!]?$)"
    r"(?P<rest>.*)$",
    re.IGNORECASE | re.DOTALL,
)
_NONE: Final = re.compile(
    rf"^(?:no\s+{_WEED}|none\s+seen|(?:i\s+)?(?:saw|seen|see)\s+none|no\s+weeds)\b(?P<rest>.*)$",
    re.IGNORECASE | re.DOTALL,
)
_FILLERS: Final = re.compile(
    r"\b(?:along|over|seen|coming|came|up|there|now|again|some|edge|edges|seedlings?|plants?)\b"
    r"|[!?]",
    re.IGNORECASE,
)


def take(talk: Talk, yard: YardRecord, text: str) -> list[Reply] | None:
    """Take what was seen; None where a text says nothing of the kind."""
    said = text.strip()
    read = _read(talk, yard, said)
    if read is None:
        return None
    return _record(talk, yard, read.weed, read.rest, said, is_seen=read.is_seen)


def is_report(talk: Talk, yard: YardRecord, text: str) -> bool:
    """Tell whether a text says what was seen, or where, and nothing else."""
    read = _read(talk, yard, text.strip())
    if read is None:
        return False
    when = find_when(read.rest, talk.said_at(yard))
    rest = when.rest if isinstance(when, WhenRead) else read.rest
    _, leftover = find_zones(yards.zones(talk.work, yard.id), _FILLERS.sub(" ", rest))
    return not leftover


@dataclass(frozen=True, slots=True)
class _Read:
    """The weed a text is about, the words that say where and when, and whether it was seen."""

    weed: str
    rest: str
    is_seen: bool


def _read(talk: Talk, yard: YardRecord, said: str) -> _Read | None:
    none = _NONE.match(said)
    if none is not None:
        return _Read((none["weed"] or CRABGRASS).casefold(), none["rest"], is_seen=False)
    seen = _SEEN.match(said)
    if seen is not None and seen["rest"].strip(" .!"):
        return _Read(seen["weed"].casefold(), seen["rest"], is_seen=True)
    if talk.topic == TOPIC and talk.data.get("yard_id") == yard.id:
        zones = yards.zones(talk.work, yard.id)
        named, leftover = find_zones(zones, _FILLERS.sub(" ", said))
        if named and not leftover:
            return _Read(CRABGRASS, said, is_seen=True)
    return None


def tapped(talk: Talk, yard: YardRecord, action: str) -> list[Reply]:
    """Answer the buttons under the question, and under a suggestion."""
    what = action.split(":")[1]
    if what == "lead":
        days = min(int(action.rsplit(":", 1)[1]), yard_uses.LEADS_DAYS.stop - 1)
        yard_uses.set_lead(talk.work, yard, days, person_id=talk.person.id, now=talk.now)
        return [talk.reply("yards.lead_set", yard=yard.name, lead=days)]
    if what == "none":
        said = talk.say("year.button_none")
        return _record(talk, yard, CRABGRASS, "", said, is_seen=False)
    talk.expect(TOPIC, yard_id=yard.id)
    return [talk.reply("scouting.ask_where")]


def _record(
    talk: Talk, yard: YardRecord, weed: str, rest: str, said: str, *, is_seen: bool
) -> list[Reply]:
    zones = yards.zones(talk.work, yard.id)
    today = talk.today(yard)
    on = today
    when = find_when(rest, talk.said_at(yard))
    if isinstance(when, Unread):
        return [Reply(when.sentence(talk.chat.language))]
    if when is not None:
        on, rest = min(when.at.date(), today), when.rest
    named, leftover = find_zones(zones, _FILLERS.sub(" ", rest))
    if leftover:
        example = zones[0].name if zones else "front"
        names = names_of(zones)
        return [talk.reply("scouting.unclear", yard=yard.name, names=names, zone=example)]
    if talk.topic == TOPIC:
        talk.settle()
    seen = uses.Seen(named, weed, is_seen, on, said)
    found = uses.record(talk.work, yard, seen, person_id=talk.person.id, now=talk.now)
    day = say_day(on, today)
    if not is_seen:
        is_last = season_day(today, yard.lat).month >= 8
        key = "scouting.noted_none_last" if is_last else "scouting.noted_none"
        lines = [talk.say(key, yard=yard.name, on=day)]
    elif named:
        lines = [talk.say("scouting.noted", weed=weed, zones=names_of(named), on=day)]
    else:
        lines = [talk.say("scouting.noted_yard", weed=weed, yard=yard.name, on=day)]
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
        lines.append(talk.say("scouting.helps", names=", ".join(found.helps)))
    if found.failed_though_right:
        zones = ", ".join(found.failed_though_right)
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
    undo = (talk.say("applying.button_undo"), f"undo:{found.journal_id}")
    return rows(line, [undo])
