"""What was said before there was a yard, answered as soon as there is one."""

from __future__ import annotations

from bot.dialogue.scene import scene_of
from bot.dialogue.talk import Talk
from bot.hearing.hear import hear_as
from bot.turn import Reply


def with_meanwhile(talk: Talk, replies: list[Reply], meanwhile: list[list[str]]) -> list[Reply]:
    """list[Reply] what was said before there was a yard, now that there is one."""
    yard = talk.yard()
    if not meanwhile or yard is None:
        return replies
    said = list(replies)
    for act, text in meanwhile:
        talk.settle()
        said += talk.answer(act, yard, hear_as(act, text, scene_of(talk)))
    return said
