"""The sketch and walking, in short: ``my photo``, ``walk front``, ``my pace is 30 in``."""

from __future__ import annotations

from dataclasses import dataclass
from functools import partial
from typing import Final

from bot.hearing.forms.form import Form, saying, tidied
from bot.hearing.heard import Scene, Slots
from bot.hearing.normal import normal
from bot.hearing.phrases import phrases, which
from bot.hearing.readers.measurements import read_pace
from bot.hearing.readers.measures import read_figures
from bot.hearing.readers.reading import Unread

_says: Final = partial(phrases, "sketch")
_LONGEST_NAME: Final = 40


@dataclass(frozen=True)
class PhotoAsked:
    """The person's own photo is wanted."""


@dataclass(frozen=True)
class CornerSaid:
    """A walk ends, or its last corner was wrong."""

    is_last: bool


@dataclass(frozen=True)
class PaceSaid:
    """The length of a pace [m]."""

    pace_m: float


def read_walk(text: str, scene: Scene) -> Slots | None:
    """Read ``walk front``, and of somebody who walks ``done``; None for other texts."""
    said = tidied(text)
    if scene.asked == "walk_corners":
        end = which("sketch", ("done", "drop"), said)
        if end is not None:
            return Slots(read=CornerSaid(is_last=end == "done"))
    found = _says("walk").whole(said)
    is_name = found is not None and len(found["zone"]) <= _LONGEST_NAME
    return Slots(name=found["zone"]) if found is not None and is_name else None


def _lone_length(text: str, scene: Scene) -> float | Unread | None:
    """Read the one length of a sentence as a pace: "mine is about 2 and a half feet"."""
    said = normal(text, scene.language).text
    figures = read_figures(said)
    if len(figures) != 1 or figures[0].kind != "length":
        return None
    return read_pace(f"my pace is {said[figures[0].start : figures[0].end]}")


def read_step(text: str, scene: Scene) -> Slots | None:
    """Read ``my pace is 30 in``, or its length alone where that was asked; None otherwise."""
    read = read_pace(text)
    if read is None and scene.pending is not None and "pace" in scene.pending.expects:
        read = read_pace(f"my pace is {text}") or _lone_length(text, scene)
    if read is None:
        return None
    return Slots(unread=read) if isinstance(read, Unread) else Slots(read=PaceSaid(read))


FORMS: Final = (
    saying("show_sketch", "sketch.sketch"),
    saying("show_sketch", "sketch.photo", PhotoAsked()),
    Form("walk_corners", read_walk),
    Form("walk_corners", read_step),
)
