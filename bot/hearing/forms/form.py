"""What a form is: the act it stands for, and its reader."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache
from typing import Final

from bot.hearing.heard import Scene, Slots


# Dozens of forms ask the same of each text.
@lru_cache(maxsize=32)
def tidied(text: str, ends: str = " .!") -> str:
    """Return a text in one line, without the marks at its ends."""
    return " ".join(text.split()).strip(ends)


def pattern(text: str) -> re.Pattern[str]:
    """Return a pattern of small and capital letters alike."""
    return re.compile(text, re.IGNORECASE)


@dataclass(frozen=True)
class Form:
    """One form.

    Attributes
    ----------
    act : str
        The act that a text of this form is.
    read : callable
        Takes the text and the scene; returns the slots, or None where the text is not of the form.
    is_sure : bool
        Whether it holds whatever the sentences say: a kept name stands beside its verb.
    """

    act: str
    read: Callable[[str, Scene], Slots | None]
    is_sure: bool = False


def saying(act: str, whole: str, read: object, *, is_sure: bool = False) -> Form:
    """Return the form of a text that fits a pattern whole: all it says is `read`."""
    fits = pattern(whole)

    def reads(text: str, _scene: Scene) -> Slots | None:
        return Slots(read=read) if fits.fullmatch(tidied(text, _QUOTED)) else None

    return Form(act, reads, is_sure)


#: What stands at the ends of a text that repeats a word of ours.
_QUOTED: Final = " .!?\"'“”"
