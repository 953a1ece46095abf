"""What comes in (a turn) and what goes back (replies), whatever carries them."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from pathlib import Path
from typing import Any, Final, TypeAlias

from bot.hearing.readers.label_photo import SeenFigure
from bot.pictures.render import PictureSpec

#: Rows of cells, as they stand in a table.
Grid: TypeAlias = tuple[tuple[str, ...], ...]

#: Longest action a button may carry, in bytes: what chat platforms allow.
LONGEST_ACTION = 64

#: Longest name of a person or a chat that is kept.
LONGEST_TITLE: Final = 128
_HALVES: Final = re.compile("[\ud800-\udfff]")
#: Controls but for tabs and ends of lines, and marks of direction (Unicode Annex 9).
_UNSEEN: Final = re.compile(
    "[\x00-\x08\x0b-\x1f\x7f-\x9f\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069]"
)
#: Two thousand blanks say no more than a few, and are gone over again and again.
_GAPS: Final = re.compile(r"[^\S\n]{9,}|\n{9,}")


def _shorter(gap: re.Match[str]) -> str:
    return gap[0][:8]


def legible(text: str) -> str:
    """Return a text without controls, marks of direction, halves of characters, and long gaps."""
    return _GAPS.sub(_shorter, _HALVES.sub("\ufffd", _UNSEEN.sub("", text)))


def _legible_rows(grid: Grid) -> Grid:
    return tuple(tuple(legible(cell) for cell in row) for row in grid)


@dataclass(frozen=True, slots=True)
class Turn:
    """One thing a person did: exactly one of text, tap, place, photo and document is set.

    Attributes
    ----------
    key
        Unique for this turn and the same when it is delivered again.
    platform, chat, person
        Addresses as the platform gives them.
    person_name
        What the platform calls the person, or an empty string.
    at
        When it is answered (aware).
    said_at
        When the platform got it, where it tells (aware): hours before `at` after an outage.
    language
        Code of the language the platform says the person reads (``es-MX``), or None.
    text
        What was typed, a command included.
    tap
        The action of the button that was tapped.
    place
        Latitude and longitude in degrees.
    photo
        Where the edge has put the photo.
    seen
        What was read on a label's photo, once that was tried; None where nothing reads here.
    document
        Where the edge has put a file with a table.
    table
        The rows of that table, once it was read; None where it could not be.
    is_group
        Whether others read and write in the chat too.
    runs_chat
        Whether the person has the say in the chat: always in private, in a group its admins.
    message_ref
        The platform's reference of the message whose button was tapped, or None.
    """

    key: str
    platform: str
    chat: str
    person: str
    at: datetime
    person_name: str = ""
    chat_title: str = ""
    text: str | None = None
    tap: str | None = None
    place: tuple[float, float] | None = None
    photo: str | None = None
    seen: tuple[SeenFigure, ...] | None = None
    document: str | None = None
    table: Grid | None = None
    message_ref: str | None = None
    is_group: bool = False
    runs_chat: bool = True
    said_at: datetime | None = None
    language: str | None = None

    def __post_init__(self) -> None:
        given = [self.text, self.tap, self.place, self.photo, self.document]
        if sum(part is not None for part in given) != 1:
            raise ValueError("a turn is one of text, tap, place, photo and document")

    def legible(self) -> Turn:
        """Return the turn without what nobody types and nobody sees.

        Marks that turn the direction of writing would garble what others are shown, and halves of
        characters cannot be kept.
        """
        return replace(
            self,
            text=None if self.text is None else legible(self.text),
            table=None if self.table is None else _legible_rows(self.table),
            tap=None if self.tap is None else _HALVES.sub("\ufffd", self.tap),
            person_name=legible(self.person_name)[:LONGEST_TITLE],
            chat_title=legible(self.chat_title)[:LONGEST_TITLE],
        )

    def said(self) -> dict[str, Any]:
        """Return what was done, for the record."""
        parts = {
            "text": self.text,
            "tap": self.tap,
            "place": self.place,
            "photo": self.photo,
            "document": None if self.document is None else Path(self.document).name,
        }
        return {name: value for name, value in parts.items() if value is not None}


@dataclass(frozen=True, slots=True)
class Button:
    """A button: what it says and the action it sends."""

    label: str
    action: str

    def __post_init__(self) -> None:
        if not 1 <= len(self.action.encode()) <= LONGEST_ACTION:
            raise ValueError(f"action of {len(self.action.encode())} bytes: {self.action}")


Buttons = tuple[tuple[Button, ...], ...]


@dataclass(frozen=True, slots=True)
class Reply:
    """One message back.

    Attributes
    ----------
    text
        The message.
    buttons
        Rows of buttons under it.
    picture, file
        Paths of a picture or a file to send with it, or None.
    drawing
        A picture still to be drawn, as values; it becomes `picture` outside the unit of work.
    replaces
        True where it should take the place of the message whose button was tapped.
    asks_place
        True where a button that shares the place would help.
    looks_at
        A yard whose soil is still to be looked at for the first time, or None: what is seen is
        said behind the first line (`bot.telling.pinned`), outside the unit of work.
    reaction
        A sign to put on what was said where the platform has such, in the place of the text.
    unpins
        What the platform calls messages that shall be there no more: of yards that are erased.
    settles
        True where a tap has settled what its message asked: the buttons there are used up.
    data
        The facts the message stands on, kept with the turn so that it can be explained; or None.
    understood
        Of the first reply to a text: what was heard, in plain values; or None.
    """

    text: str
    buttons: Buttons = ()
    picture: str | None = None
    file: str | None = None
    drawing: PictureSpec | None = None
    replaces: bool = False
    asks_place: bool = False
    looks_at: int | None = None
    reaction: str | None = None
    settles: bool = False
    unpins: tuple[str, ...] = ()
    data: Mapping[str, Any] | None = None
    understood: Sequence[Mapping[str, Any]] | None = None

    def to_json(self) -> dict[str, Any]:
        """Return primitives for storage."""
        return {
            "text": self.text,
            "buttons": [[[b.label, b.action] for b in row] for row in self.buttons],
            "picture": self.picture,
            "file": self.file,
            "drawing": None if self.drawing is None else self.drawing.to_json(),
            "replaces": self.replaces,
            "asks_place": self.asks_place,
            "looks_at": self.looks_at,
            "reaction": self.reaction,
            "settles": self.settles,
            "data": self.data,
            "understood": None if self.understood is None else list(self.understood),
        }

    @classmethod
    def from_json(cls, row: dict[str, Any]) -> Reply:
        """Return what `to_json` wrote."""
        buttons = tuple(tuple(Button(*pair) for pair in line) for line in row["buttons"])
        drawing = row.get("drawing")
        spec = None if drawing is None else PictureSpec.from_json(drawing)
        heard = row.get("understood")
        understood = None if heard is None else tuple(heard)
        kept = {"buttons": buttons, "drawing": spec, "understood": understood}
        return cls(**{**row, **kept})


def rows(*lines: Sequence[tuple[str, str]]) -> Buttons:
    """Return rows of buttons from (label, action) pairs; empty rows are left out."""
    return tuple(tuple(Button(*pair) for pair in line) for line in lines if line)
