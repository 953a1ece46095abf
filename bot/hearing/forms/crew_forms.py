"""A crew in short: an invitation's code, ``crew``, ``invite``."""

from __future__ import annotations

import re
from typing import Final

from bot.hearing.forms.form import Form, saying
from bot.hearing.heard import Scene, Slots

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


FORMS: Final = (Form("join", read_code), saying("share", "crew.about", may_ask=True))
