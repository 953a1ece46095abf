"""Zones taken out, in short: ``remove strip``, ``take out all zones``."""

from __future__ import annotations

import re
from typing import Final

from bot.hearing.forms.form import Form
from bot.hearing.heard import Scene, Slots
from bot.hearing.readers.zone_names import find_names

_REMOVE: Final = re.compile(
    r"^(?:remove|delete|take out|drop)\s+(?:zone\s+)?(?P<what>.+)$", re.IGNORECASE
)
#: What is no zone: a whole yard, or everything that is kept.
_YARD: Final = re.compile(
    r"\b(?:yard|lawn|place|house|account|data|records?|me|last|that|this)\b", re.IGNORECASE
)
#: Words left over; more make it a sentence, which is not read here.
_FEW_WORDS: Final = 3


def read_removal(text: str, scene: Scene) -> Slots | None:
    """Read which zones to take out; None for other texts."""
    match = _REMOVE.match(text.strip(" .!"))
    if match is None or not scene.zones:
        return None
    named, is_all, rest = find_names(scene.zones, match["what"])
    if _YARD.search(rest) or len(rest.split()) > _FEW_WORDS:
        return None
    return Slots(zones=named, all_zones=is_all and not named, rest=rest)


FORMS: Final = (Form("remove_zone", read_removal),)
