"""Putting back what was taken back: ``redo``, ``put it back``."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from bot.hearing import words
from bot.hearing.forms.form import Form
from bot.hearing.heard import Scene, Slots


@dataclass(frozen=True)
class RedoSaid:
    """What was taken back is wanted after all."""


def read_redo(text: str, _scene: Scene) -> Slots | None:
    """Read ``redo``; None for other texts."""
    said = " ".join(words.bare(text).split()).strip(" .!/")
    is_redo = words.canon("special", "commands").get(said) == "redo"
    return Slots(read=RedoSaid()) if is_redo else None


FORMS: Final = (Form("undo", read_redo, is_sure=True),)
