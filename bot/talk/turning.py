"""Turning to one of several yards: by its name or number, or from the list of all."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from bot.hearing.forms.yard_forms import find_yards
from bot.hearing.heard import ActHeard
from bot.saying.values import Names
from bot.talk import registering
from bot.talk.talk import Talk
from bot.turn import Buttons, Reply, rows
from storage.yards import YardRecord

#: Yards listed at once, each with a button: what a phone shows without scrolling far.
MOST_LISTED: Final = 12


def on_turn_to_yard(talk: Talk, at: YardRecord, heard: ActHeard) -> list[Reply]:
    """Turn to the yard that was named; without a name show the one talked about."""
    name = heard.slots.yard or heard.slots.name
    if name is None:
        return registering.overview(talk, at)
    found = find(talk.yards(), name)
    return _turn(talk, found) if found else [_unknown(talk, name)]


def show(talk: Talk) -> list[Reply]:
    """Answer "yards": all of them, with where each stands."""
    mine, at = talk.yards(), talk.yard()
    if at is None:
        return registering.need(talk)
    lines = [
        talk.say("yards.all_line", yard=each.name, state=registering.state_words(talk, each))
        for each in mine[:MOST_LISTED]
    ]
    if len(mine) > MOST_LISTED:
        lines.append("…")
    return [
        talk.reply(
            "yards.all",
            _buttons(talk, mine),
            count=len(mine),
            yard=next((each.name for each in mine if each.id != at.id), at.name),
            at=at.name,
            lines="\n".join(lines),
        )
    ]


def find(mine: Sequence[YardRecord], name: str) -> list[YardRecord]:
    """Return the yards a name means: by the whole name, a number, or the beginning of a word."""
    places = find_yards([each.name for each in mine], name)
    return [mine[place] for place in places]


def which(talk: Talk, found: Sequence[YardRecord]) -> list[Reply]:
    """Ask which of several yards of like names is meant."""
    return [talk.reply("yards.which_of", _buttons(talk, found))]


def _turn(talk: Talk, found: Sequence[YardRecord]) -> list[Reply]:
    if len(found) > 1:
        return which(talk, found)
    talk.turn_to(found[0].id)
    return registering.choose(talk, found[0])


def _unknown(talk: Talk, name: str) -> Reply:
    mine = talk.yards()
    names = Names([each.name for each in mine[:MOST_LISTED]])
    said = name if len(name) <= 40 else f"{name[:39]}…"
    return talk.reply("yards.unknown", _buttons(talk, mine), said=said, names=names)


def _buttons(talk: Talk, found: Sequence[YardRecord]) -> Buttons:
    labels = [
        (talk.say("yards.button_other", yard=registering.short(each.name)), f"yard:go:{each.id}")
        for each in found[:MOST_LISTED]
    ]
    return rows(*(labels[at : at + 2] for at in range(0, len(labels), 2)))


HANDLERS: Final = {
    "turn_to_yard": on_turn_to_yard,
    "list_yards": lambda talk, _yard, _heard: show(talk),
}
