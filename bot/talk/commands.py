"""Commands: one list, of which /help and the platform's menu are made, and what each answers."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

from bot.talk import (
    amounts,
    applying,
    buying,
    crews,
    days,
    labelling,
    products,
    readings,
    recording,
    rounds_of_work,
    seeding,
    sketching,
    soil,
    spreaders,
    turning,
    undoing,
    yards,
    zones,
)
from bot.talk.talk import Talk
from bot.turn import Reply
from storage.yards import YardRecord

Answer = list[Reply]


@dataclass(frozen=True, slots=True)
class Command:
    """One command.

    Attributes
    ----------
    word
        Its word, without the slash.
    answer
        What answers it for the yard being talked about.
    answer_anywhere
        What answers it where no yard is needed.
    needs
        What a share in the yard must allow: ``see``, ``confirm`` or ``change``.
    needs_with_more
        The same where words follow the command; empty for `needs`.
    """

    word: str
    answer: Callable[[Talk, YardRecord, str], Answer] | None = None
    answer_anywhere: Callable[[Talk, str], Answer] | None = None
    needs: str = "change"
    needs_with_more: str = ""


def command(talk: Talk, word: str, rest: str) -> Answer:
    """Answer a command and the words after it."""
    if word == "redo":
        # Undo offers it; it needs no place in the menu.
        return undoing.redo(talk)
    found = COMMANDS_BY_WORD.get(word)
    if found is None:
        return [unknown(talk, f"/{word}")]
    if found.answer_anywhere is not None:
        return found.answer_anywhere(talk, rest)
    yard = talk.yard()
    if yard is None:
        return yards.need(talk)
    if not talk.may(yard, (rest and found.needs_with_more) or found.needs):
        return crews.refuse(talk, yard)
    is_a_look = found.needs == "see" and not rest
    if not (is_a_look and talk.topic in _STANDING):
        talk.settle()
    assert found.answer is not None
    return found.answer(talk, yard, rest)


def unknown(talk: Talk, text: str) -> Reply:
    """Say that a text was not understood, with an example of what would be."""
    said = text if len(text) <= 60 else f"{text[:59]}…"
    return talk.reply("help.unknown", said=said or "…", example=zones.EXAMPLE)


def _start(talk: Talk, rest: str) -> Answer:
    code = crews.code_in(rest)
    return yards.start(talk) if code is None else crews.join(talk, code)


def _soil(talk: Talk, yard: YardRecord, rest: str) -> Answer:
    reading = readings.read(talk, f"soil {rest}") if rest else None
    if reading is None:
        return soil.show(talk, yard)
    return readings.take(talk, yard, reading, f"soil {rest}")


def _help(talk: Talk, _rest: str) -> Answer:
    lines = "\n".join(f"/{each.word}  {talk.say(f'commands.{each.word}')}" for each in COMMANDS)
    text = talk.say("help.commands", lines=lines)
    if talk.around.is_invented:
        text += f"\n{talk.say('help.invented')}"
    return [Reply(text)]


def _cancel(talk: Talk, _rest: str) -> Answer:
    key = "help.cancelled" if talk.topic is not None else "help.nothing_to_cancel"
    talk.settle()
    return [talk.reply(key)]


#: Questions whose buttons stay good while something is looked up, and which no other text answers.
_STANDING: Final = (
    products.TOPIC,
    zones.TOPIC,
    zones.DOUBT_TOPIC,
    zones.REMOVE_TOPIC,
    applying.SURE_TOPIC,
    readings.SURE_TOPIC,
)

#: Every command, in the order of the menu.
COMMANDS: Final = (
    Command("start", answer_anywhere=_start),
    Command("yard", turning.yard, needs="see"),
    Command("zones", zones.show, needs="see", needs_with_more="change"),
    Command("soil", _soil, needs="see", needs_with_more="confirm"),
    Command("product", labelling.enter),
    Command("amounts", lambda talk, yard, _: amounts.show(talk, yard), needs="see"),
    Command("day", days.show, needs="see"),
    Command("sketch", lambda talk, yard, _: sketching.show(talk, yard), needs="see"),
    Command("buy", buying.show, needs="see"),
    Command("spreader", spreaders.show, needs="see"),
    Command(
        "applied",
        lambda talk, yard, rest: applying.report(talk, yard, f"applied {rest}"),
        needs="confirm",
    ),
    Command("seed", seeding.command),
    Command("export", lambda talk, yard, _: recording.export(talk, yard), needs="see"),
    Command("undo", answer_anywhere=lambda talk, _: undoing.undo(talk)),
    Command("today", answer_anywhere=rounds_of_work.show),
    Command("crew", crews.show, needs="see"),
    Command("help", answer_anywhere=_help),
    Command("cancel", answer_anywhere=_cancel),
)
COMMANDS_BY_WORD: Final = {each.word: each for each in COMMANDS}
