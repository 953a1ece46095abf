"""Plain words and buttons of the whole year: rounds, seed, the record, scouting, looking back."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Final

from bot.talk import looking_back, recording, rounds, scouting, seeding
from bot.talk.talk import Talk
from bot.turn import Reply
from storage.yards import YardRecord

Answer = Callable[[Talk, YardRecord], list[Reply]]

_PLAIN: Final[dict[str, Answer]] = {
    "rounds": rounds.show,
    "plan": rounds.show,
    "the plan": rounds.show,
    "as last year": rounds.copy,
    "same as last year": rounds.copy,
    "copy last year": rounds.copy,
    "what is still allowed": rounds.allowed,
    "what's still allowed": rounds.allowed,
    "still allowed": rounds.allowed,
    "allowed": rounds.allowed,
    "how much is left": rounds.allowed,
    "look back": looking_back.show,
    "looking back": looking_back.show,
    "last year": looking_back.show,
    "how did last year go": looking_back.show,
    "how was last year": looking_back.show,
    "what was it last year": looking_back.show,
    "export": recording.export,
}


def take(talk: Talk, yard: YardRecord, text: str) -> list[Reply] | None:
    """Answer what belongs to the year; None where a text says nothing of it."""
    said = re.sub(r"[.?!]+$", "", " ".join(text.split())).strip()
    plain = _PLAIN.get(said.casefold())
    if plain is not None:
        return plain(talk, yard)
    if rounds.is_about_rounds(said):
        return rounds.take(talk, yard, said)
    for subject in (recording.take, seeding.take, scouting.take):
        answer = subject(talk, yard, text)
        if answer is not None:
            return answer
    return None
