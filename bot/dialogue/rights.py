"""Who may do what: the right an act needs, and the words where a share does not go so far."""

from __future__ import annotations

from bot.dialogue.talk import Talk
from bot.hearing.acts import ACTS, FOR_ADMINS
from bot.turn import Reply
from storage.yards import YardRecord


def refuse(talk: Talk, yard: YardRecord) -> list[Reply]:
    """Say that a share does not go so far."""
    return [talk.reply("crews.may_not", yard=yard.name, role=talk.role(yard) or "see")]


def refuse_act(talk: Talk, yard: YardRecord | None, act: str) -> list[Reply] | None:
    """Say that an act is not for this person, or return None where they may do it.

    What is about no yard needs no right on one.
    """
    if act in FOR_ADMINS and not talk.turn.runs_chat:
        return [talk.reply("crews.admins_only")]
    needs = ACTS[act].needs
    if yard is not None and needs != "none" and not talk.may(yard, needs):
        return refuse(talk, yard)
    return None
