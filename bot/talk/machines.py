"""Spreaders, sprayers and the sums around them: whichever a text is about."""

from __future__ import annotations

from bot.talk import figuring, sprayers, spreaders
from bot.talk.talk import Talk
from bot.turn import Reply
from storage.yards import YardRecord


def take(talk: Talk, yard: YardRecord, text: str) -> list[Reply] | None:
    """Answer what is about a machine; None where a text says nothing of the kind."""
    for take_one in (figuring.take, sprayers.take, spreaders.take):
        answer = take_one(talk, yard, text)
        if answer is not None:
            return answer
    return None
