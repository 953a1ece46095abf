"""Questions about the trade that need no place: a short answer each, the same with a lawn."""

from __future__ import annotations

from typing import Final

from bot.hearing.heard import ActHeard
from bot.talk import choosing, registering, topics, when_to_treat
from bot.talk.talk import Talk
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
        return [*when_to_treat.on_ask_when(talk, yard, heard), Reply(lines[0])]
    if yard is not None and about == "dry":
        lines += registering.water_lines(talk, yard)
    return with_place(talk, yard, [Reply("\n".join(lines))])


def with_place(talk: Talk, yard: YardRecord | None, replies: list[Reply]) -> list[Reply]:
    """Ask for the place behind an answer where there is no lawn yet."""
    if yard is not None:
        return replies
    if talk.topic not in (topics.PLACE, topics.WHICH_TOWN):
        talk.expect(topics.PLACE, meanwhile=registering.said_meanwhile(talk))
    text = "\n".join([*(reply.text for reply in replies), talk.say("beforehand.where")])
    return [Reply(text, asks_place=True)]


def _none_yet(talk: Talk, yard: YardRecord | None) -> list[Reply]:
    """Say what to buy: there is nothing to enter yet."""
    if talk.topic == topics.PRODUCT and not talk.data.get("said"):
        talk.settle()
    return with_place(talk, yard, choosing.on_ask_product(talk, yard, ActHeard("ask_product")))
