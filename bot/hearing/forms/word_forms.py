"""Words that name what they bring: ``soil``, ``amounts``, ``undo``, and ``redo``."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache
from typing import Final

from bot.hearing import words
from bot.hearing.acts import ACTS
from bot.hearing.forms.form import Form
from bot.hearing.heard import Scene, Slots


@dataclass(frozen=True)
class RedoSaid:
    """What was taken back is wanted after all."""


def read_redo(text: str, _scene: Scene) -> Slots | None:
    """Read ``redo``; None for other texts."""
    is_redo = words.canon("special", "commands").get(_bare(text)) == "redo"
    return Slots(read=RedoSaid()) if is_redo else None


def _reader(act: str) -> Callable[[str, Scene], Slots | None]:
    def read(text: str, _scene: Scene) -> Slots | None:
        return Slots() if _act_of(text) == act else None

    return read


@lru_cache(maxsize=64)
def _act_of(text: str) -> str | None:
    return words.canon("acts", "commands").get(_bare(text))


def _bare(text: str) -> str:
    return " ".join(words.bare(text).replace("'", "").split()).strip(" .!?¿¡/")


_NAMED: Final = frozenset(words.canon("acts", "commands").values())
FORMS: Final = (
    *(Form(act, _reader(act)) for act in ACTS if act in _NAMED),
    Form("undo", read_redo, is_sure=True),
)
