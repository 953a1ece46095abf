"""What a form is: the act it stands for, and its reader."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache
from typing import Final

from bot.hearing.acts import ACTS
from bot.hearing.heard import Scene, Slots
from bot.hearing.phrases import Said, phrases


# Dozens of forms ask the same of each text.
@lru_cache(maxsize=32)
def tidied(text: str, ends: str = " .!") -> str:
    """Return a text in one line, without the marks at its ends."""
    return " ".join(text.split()).strip(ends)


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


def saying(
    act: str, name: str, read: object = None, *, is_sure: bool = False, may_ask: bool = False
) -> Form:
    """Return the form of a text that is one of these phrases whole: all it says is `read`.

    `name` is the phrases' subject and name, such as ``wish.settings``. A question changes nothing:
    it is of the form only where the act changes nothing, or `may_ask`.
    """
    subject, _, which = name.partition(".")
    is_open = may_ask or not ACTS[act].changes

    def reads(text: str, _scene: Scene) -> Slots | None:
        is_said = is_open or "?" not in text
        is_said = is_said and phrases(subject, which).whole(tidied(text, _QUOTED)) is not None
        return Slots(read=read) if is_said else None

    return Form(act, reads, is_sure)


def hearing(
    act: str,
    name: str,
    read: Callable[[Said, Scene], Slots | None],
    *,
    ends: str = " .!",
    is_sure: bool = False,
) -> Form:
    """Return the form of a text that is one of these phrases whole; `read` tells what it says.

    `ends` are the marks at a text's ends that say nothing.
    """
    subject, _, which = name.partition(".")

    def reads(text: str, scene: Scene) -> Slots | None:
        found = phrases(subject, which).whole(tidied(text, ends))
        return None if found is None else read(found, scene)

    return Form(act, reads, is_sure)


#: What stands at the ends of a text that repeats a word of ours.
_QUOTED: Final = " .!?¿¡\"'“”"
