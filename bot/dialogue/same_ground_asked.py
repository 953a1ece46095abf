"""What may be the same ground: asked about until it is said."""

from __future__ import annotations

from bot.dialogue.talk import Talk
from bot.saying.values import Day
from bot.turn import Reply
from jobs.uses import same_ground
from storage.yards import YardRecord


def asked(talk: Talk, yard: YardRecord) -> list[Reply]:
    """Ask the oldest question about a yard's ground, if there is one."""
    found = same_ground.questions(talk.work, yard)
    if not found:
        return []
    question = found[0]
    here = f"{yard.id}:{question.id}"
    key = "zones.same_gone" if question.is_taken_out else "zones.same_smaller"
    buttons = talk.row(
        ("zones.button_same", f"ground:same:{here}"), ("zones.button_other", f"ground:other:{here}")
    )
    on = Day(question.applied_on, talk.today(yard))
    return [talk.reply(key, buttons, zone=question.zone.name, was=question.was, on=on)]


def settle(talk: Talk, yard: YardRecord, action: str) -> list[Reply]:
    """Answer [Same ground] or [Other ground], and ask the next question."""
    _, what, *_, number = action.split(":")
    is_same = what == "same"
    try:
        found = same_ground.answer(talk.work, yard, int(number), is_same=is_same, now=talk.now)
    except same_ground.NothingToSettle:
        return [talk.stale("help.hint_zones")]
    key = "zones.is_same" if is_same else "zones.is_other"
    said = talk.reply(key, talk.undo(), zone=found.zone.name, was=found.was)
    return [said, *asked(talk, yard)]
