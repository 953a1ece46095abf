"""Questions about the trade that need no place: a short answer each, the same with a lawn."""

from __future__ import annotations

from typing import Final

from bot.dialogue import topics
from bot.dialogue.place_first import with_place
from bot.dialogue.talk import Talk
from bot.hearing.heard import ActHeard
from bot.telling import water_due
from bot.turn import Reply
from storage.yards import YardRecord

#: What a question was asked for, by what it awaits.
_WHY_ASKED: Final = {topics.PRODUCT: "why_label", topics.GRASS: "why_grass"}


def answer(talk: Talk, yard: YardRecord | None, heard: ActHeard) -> list[Reply]:
    """Answer a question about a fact (`Slots.about`); of the lawn itself what bears on it."""
    about = heard.slots.about
    if about == "none_yet":
        return _none_yet(talk, yard)
    if about == "why_asked":
        about = _WHY_ASKED.get(talk.topic or "", "why_place" if yard is None else "why_size")
    lines = [talk.say(f"facts.{about}")]
    if yard is not None and about == "away":
        return [*talk.answer("ask_when", yard, heard), Reply(lines[0])]
    if yard is not None and about == "dry":
        lines += water_due.water_lines(talk, yard)
    return with_place(talk, yard, [Reply("\n".join(lines))])


def _none_yet(talk: Talk, yard: YardRecord | None) -> list[Reply]:
    """Say what to buy: there is nothing to enter yet."""
    if talk.topic == topics.PRODUCT and not talk.data.get("said"):
        talk.settle()
    return with_place(talk, yard, talk.answer("ask_product", yard))
