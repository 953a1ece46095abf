"""Single words that name what they bring: ``soil``, ``amounts``, ``undo``."""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache
from typing import Final

from bot.hearing import words
from bot.hearing.acts import ACTS
from bot.hearing.forms.form import Form
from bot.hearing.heard import Scene, Slots


def _reader(act: str) -> Callable[[str, Scene], Slots | None]:
    def read(text: str, _scene: Scene) -> Slots | None:
        return Slots() if _act_of(text) == act else None

    return read


@lru_cache(maxsize=64)
def _act_of(text: str) -> str | None:
    said = " ".join(words.bare(text).replace("'", "").split()).strip(" .!?¿¡")
    return words.canon("acts", "commands").get(said)


FORMS: Final = tuple(Form(act, _reader(act)) for act in ACTS)
