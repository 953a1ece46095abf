"""Ground that may be the same: asked about, and careful until somebody says."""

from __future__ import annotations

from bot.hearing.readers.dates import say_day
from bot.talk.talk import Talk
from bot.turn import Reply, rows
from jobs.uses import same_ground
from jobs.uses.zones import Removed
from storage.yards import YardRecord


def asked(talk: Talk, yard: YardRecord) -> list[Reply]:
    """Ask the oldest question about a yard's ground, if there is one."""
    found = same_ground.questions(talk.work, yard)
    if not found:
        return []
    question = found[0]
    here = f"{yard.id}:{question.id}"
    key = "zones.same_gone" if question.is_taken_out else "zones.same_smaller"
    buttons = rows(
        [
            (talk.say("zones.button_same"), f"ground:same:{here}"),
            (talk.say("zones.button_other"), f"ground:other:{here}"),
        ]
    )
    on = say_day(question.applied_on, talk.today(yard))
    return [talk.reply(key, buttons, zone=question.zone.name, was=question.was, on=on)]


def settle(talk: Talk, yard: YardRecord, action: str) -> list[Reply]:
    """Answer [Same ground] or [Other ground], and ask the next question."""
    _, what, *_, number = action.split(":")
    is_same = what == "same"
    try:
        found, journal_id = same_ground.answer(
            talk.work, yard, int(number), is_same=is_same, now=talk.now
        )
    except same_ground.NothingToSettle:
        return [talk.reply("help.button_stale", hint=talk.say("help.hint_zones"))]
    key = "zones.is_same" if is_same else "zones.is_other"
    undo = rows([(talk.say("applying.button_undo"), f"undo:{journal_id}")])
    return [
        talk.reply(key, undo, zone=found.zone.name, was=found.was),
        *asked(talk, yard),
    ]


def kept_line(talk: Talk, removed: Removed) -> str:
    """Say that what is on record of zones taken out stays; nothing where nothing is."""
    if not removed.kept:
        return ""
    return talk.say("zones.removed_record", zones=", ".join(each.zone for each in removed.kept))
