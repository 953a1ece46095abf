"""The sketch and walking, in short: ``my photo``, ``walk front``, ``my pace is 30 in``."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Final

from bot.hearing.forms.form import Form
from bot.hearing.heard import Scene, Slots
from bot.hearing.readers.paces import read_pace
from bot.hearing.readers.reading import Unread

_SKETCH: Final = frozenset(
    {"sketch", "draw", "draw it", "map", "drawing", "show the sketch", "my yard"}
)
_PHOTO: Final = frozenset(
    {"my photo", "photo", "my sketch", "show my photo", "my drawing", "paper sketch"}
)
_DONE: Final = frozenset({"done", "closed", "finished", "that's it", "that is it", "last one"})
_DROP: Final = frozenset({"drop", "drop the last", "drop last", "back"})
_WALK: Final = re.compile(
    r"^(?:i\s+(?:will|'ll|want\s+to)\s+)?walk(?:ing)?(?:\s+(?:round|around|out))?"
    r"(?:\s+(?:the\s+)?(?P<zone>[^\d]{1,40}?))?\s*[.!]?$",
    re.IGNORECASE,
)


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


def read_sketch(text: str, _scene: Scene) -> Slots | None:
    """Read a wish to see the sketch or the photo; None for other texts."""
    said = " ".join(text.casefold().rstrip("?.!").split())
    if said in _SKETCH:
        return Slots()
    return Slots(read=PhotoAsked()) if said in _PHOTO else None


def read_walk(text: str, scene: Scene) -> Slots | None:
    """Read ``walk front``, and of somebody who walks ``done``; None for other texts."""
    said = " ".join(text.casefold().rstrip(".!").split())
    is_walking = scene.pending is not None and scene.pending.kind == "walk_corners"
    if is_walking and (said in _DONE or said in _DROP):
        return Slots(read=CornerSaid(is_last=said in _DONE))
    match = _WALK.match(text.strip())
    return None if match is None else Slots(name=" ".join((match["zone"] or "").split()))


def read_step(text: str, scene: Scene) -> Slots | None:
    """Read ``my pace is 30 in``, or its length alone where that was asked; None otherwise."""
    read = read_pace(text)
    if read is None and scene.pending is not None and "pace" in scene.pending.expects:
        read = read_pace(f"my pace is {text}")
    if read is None:
        return None
    return Slots(unread=read) if isinstance(read, Unread) else Slots(read=PaceSaid(read))


FORMS: Final = (
    Form("show_sketch", read_sketch),
    Form("walk_corners", read_walk),
    Form("walk_corners", read_step),
)
