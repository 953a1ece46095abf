"""Zones of a record on which nothing went down, and the button that takes them out of it."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import timedelta
from typing import Final, TypeAlias

from bot.dialogue.talk import Talk
from bot.saying.values import Names
from bot.turn import LONGEST_ACTION, Buttons, Reply, rows
from jobs.uses import recording
from storage.applications import ApplicationRecord, ZoneShare
from storage.yards import YardRecord, ZoneRecord

#: A record so new may be the slip that "nothing went down there" speaks of.
JUST_NOW: Final = timedelta(hours=24)

#: A record, and some of its zones.
Part: TypeAlias = tuple[ApplicationRecord, Sequence[ZoneShare]]


def of_newest(
    talk: Talk, yard: YardRecord, zones: Sequence[ZoneRecord], *, are_kept: bool = False
) -> Part | None:
    """Return the newest record with these of its zones, where it has others too; or the others.

    What the same message put on record is not doubted, nor is what is older than a day.
    """
    newest = recording.newest(talk.work, yard)
    if newest is None or talk.now - newest.recorded_at > JUST_NOW:
        return None
    if talk.is_told("report_applied") and not are_kept:
        return None
    named = {zone.ground_id for zone in zones}
    found = [each for each in newest.shares if (each.ground_id in named) != are_kept]
    return (newest, found) if 0 < len(found) < len(newest.shares) else None


def ask(talk: Talk, yard: YardRecord, part: Part) -> Reply:
    """Ask whether zones are to be taken out of a record."""
    record, out = part
    zones = Names([share.zone_name for share in out])
    return talk.reply("records.ask_out", button(talk, yard, part), number=record.id, zones=zones)


def button(talk: Talk, yard: YardRecord, part: Part) -> Buttons:
    """Return the button that takes zones out of a record; none where they are too many for one."""
    record, out = part
    numbers = (yard.id, record.id, *(share.zone_id for share in out))
    action = ":".join(["record", "sure", *map(str, numbers)])
    label = talk.say("records.button_out", zones=Names([share.zone_name for share in out]))
    return rows([(label, action)]) if len(action) <= LONGEST_ACTION else ()
