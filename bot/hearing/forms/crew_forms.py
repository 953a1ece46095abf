"""A crew in short: an invitation's code, ``crew``, ``invite``."""

from __future__ import annotations

import re
from typing import Final

from bot.hearing.forms.form import Form
from bot.hearing.heard import Scene, Slots
from bot.hearing.phrases import phrases

#: How a deep link and a typed invitation begin.
PAYLOAD: Final = "join_"
_CODE: Final = re.compile(
    rf"(?:/?join[_\s]+|{PAYLOAD})(?P<code>[A-Za-z0-9_-]{{6,60}})", re.IGNORECASE
)


def code_in(text: str) -> str | None:
    """Return the code of an invitation that somebody typed or tapped, or None."""
    match = _CODE.fullmatch(text.strip())
    return None if match is None else match["code"].lower()


def read_code(text: str, _scene: Scene) -> Slots | None:
    """Read an invitation's code; None for other texts."""
    code = code_in(text)
    return None if code is None else Slots(read=code)


def read_crew(text: str, _scene: Scene) -> Slots | None:
    """Read ``crew`` and ``invite``; None for other texts."""
    return Slots() if phrases("crew", "about").whole(text.strip(" .!?¿¡")) else None


FORMS: Final = (Form("join", read_code), Form("share", read_crew))
