"""What a form is: the act it stands for, and its reader."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from bot.hearing.heard import Scene, Slots


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
