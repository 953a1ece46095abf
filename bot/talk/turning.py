"""Turning to one of several yards: by its name or number, or from the list of all."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Final

from bot.talk import yards
from bot.talk.talk import Talk
from bot.turn import Buttons, Reply, rows
from storage.yards import YardRecord

#: Yards listed at once, each with a button: what a phone shows without scrolling far.
MOST_LISTED: Final = 12

#: Letters of a name by which a yard is found without the rest of it.
_FEWEST_LETTERS: Final = 3

_LIST: Final = re.compile(
    r"(?:(?:show|list|what\s+are|which)\s+)?(?:(?:me|all|of|my|the|our)\s+)*yards", re.IGNORECASE
)
_NAMED: Final = re.compile(
    r"(?P<how>yard|(?:switch|go|turn)\s+(?:back\s+)?to|switch|back\s+to|show(?:\s+me)?|open)\s+"
    r"(?P<name>.+)",
    re.IGNORECASE,
)
_NUMBER: Final = re.compile(r"(?:yard\s+)?(?:number\s+|no\.?\s*|#\s*)?(?P<number>\d{1,2})")


def take(talk: Talk, text: str) -> list[Reply] | None:
    """Take ``yards``, ``yard smith`` and ``switch to yard 2``; None where no yard is meant."""
    said = " ".join(text.split()).strip(" .!?")
    if _LIST.fullmatch(said):
        return show(talk)
    match = _NAMED.fullmatch(said)
    if match is None or not talk.yards():
        return None
    found = find(talk.yards(), match["name"])
    if found:
        return _turn(talk, found)
    whole = said if match["how"].casefold() == "yard" else match["name"]
    # "show soil" and "yard 60x40" are other business; "yard 7" can be nothing else.
    is_number = _NUMBER.fullmatch(_bare(whole)) is not None
    return [_unknown(talk, whole)] if is_number and whole.casefold().startswith("yard") else None


def yard(talk: Talk, at: YardRecord, name: str) -> list[Reply]:
    """Answer /yard, and /yard with the name of another one."""
    if not name:
        return yards.overview(talk, at)
    found = find(talk.yards(), name)
    return _turn(talk, found) if found else [_unknown(talk, name)]


def show(talk: Talk) -> list[Reply]:
    """Answer "yards": all of them, with where each stands."""
    mine, at = talk.yards(), talk.yard()
    if at is None:
        return yards.need(talk)
    lines = [
        talk.say("yards.all_line", yard=each.name, state=yards.state_words(talk, each))
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


def find(mine: Sequence[YardRecord], text: str) -> list[YardRecord]:
    """Return the yards a text names: by the whole name, a number, or the beginning of a word."""
    said = _bare(text)
    exact = [each for each in mine if _bare(each.name) in (said, f"yard {said}")]
    if exact:
        return exact
    number = _NUMBER.fullmatch(said)
    if number is not None:
        place = int(number["number"])
        return [mine[place - 1]] if 0 < place <= len(mine) else []
    said = re.sub(r"^yard\s+|\s+(?:yard|lawn)$", "", said)
    if len(said) < _FEWEST_LETTERS:
        return []
    pattern = re.compile(rf"(?<!\w){re.escape(said)}")
    return [each for each in mine if pattern.search(_bare(each.name))]


def _turn(talk: Talk, found: Sequence[YardRecord]) -> list[Reply]:
    if len(found) > 1:
        return [talk.reply("yards.which_of", _buttons(talk, found))]
    talk.turn_to(found[0].id)
    return yards.choose(talk, found[0])


def _unknown(talk: Talk, name: str) -> Reply:
    mine = talk.yards()
    names = ", ".join(each.name for each in mine[:MOST_LISTED])
    said = name if len(name) <= 40 else f"{name[:39]}…"
    return talk.reply("yards.unknown", _buttons(talk, mine), said=said, names=names)


def _buttons(talk: Talk, found: Sequence[YardRecord]) -> Buttons:
    labels = [
        (talk.say("yards.button_other", yard=yards.short(each.name)), f"yard:go:{each.id}")
        for each in found[:MOST_LISTED]
    ]
    return rows(*(labels[at : at + 2] for at in range(0, len(labels), 2)))


def _bare(text: str) -> str:
    said = " ".join(text.casefold().split()).strip(" \"'“”.!?")
    return re.sub(r"^(?:the|my)\s+", "", said)
