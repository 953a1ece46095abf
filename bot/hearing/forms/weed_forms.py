"""Weeds in short: ``crabgrass along the drive``, ``no crabgrass``."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Final

from bot.hearing.forms.form import Form
from bot.hearing.forms.where_when import where_when
from bot.hearing.heard import Scene, Slots

_WEED: Final = (
    r"(?P<weed>(?:smooth\s+|large\s+|hairy\s+)?crabgrass|goosegrass|foxtails?|annual\s+bluegrass"
    r"|poa(?:\s+annua)?)"
)
_SEEN: Final = re.compile(
    rf"^(?:(?:i|we)\s+(?:see|saw|found|have)\s+|there\s+(?:is|are)\s+|seen\s+|found\s+|got\s+"
    rf"|still\s+)?(?:some\s+|a\s+(?:bit|little)\s+of\s+|lots?\s+of\s+)?{_WEED}\b"
    r"(?=\s+(?:on|in|at|along|everywhere|all\s+over|coming\s+up|came\s+up|is\s+up|seen)|\s*[.!]?$)"
    r"(?P<rest>.*)$",
    re.IGNORECASE | re.DOTALL,
)
_NONE: Final = re.compile(
    rf"^(?:no\s+{_WEED}|none\s+seen|(?:i\s+)?(?:saw|seen|see)\s+none|no\s+weeds)\b(?P<rest>.*)$",
    re.IGNORECASE | re.DOTALL,
)
_FILLERS: Final = re.compile(
    r"\b(?:along|over|seen|coming|came|up|there|now|again|some|edge|edges|seedlings?|plants?)\b"
    r"|[!?]",
    re.IGNORECASE,
)


@dataclass(frozen=True)
class SightingSaid:
    """Whether weeds were seen, or looked for in vain."""

    is_seen: bool


def read_sighting(text: str, scene: Scene) -> Slots | None:
    """Read what was seen and where; None for other texts."""
    said = text.strip()
    none = _NONE.match(said)
    if none is not None:
        return _slots(none["weed"], none["rest"], scene, is_seen=False)
    seen = _SEEN.match(said)
    if seen is not None and seen["rest"].strip(" .!"):
        return _slots(seen["weed"], seen["rest"], scene, is_seen=True)
    if scene.pending is not None and scene.pending.kind == "report_weeds":
        found = _slots(None, said, scene, is_seen=True)
        is_answer = found is not None and (found.zones or found.all_zones) and not found.rest
        return found if is_answer else None
    return None


def _slots(weed: str | None, rest: str, scene: Scene, *, is_seen: bool) -> Slots | None:
    said = where_when(rest, scene, _FILLERS)
    if said.is_sentence:
        return None
    return Slots(
        zones=said.zones,
        all_zones=said.all_zones,
        on=said.on,
        weed=None if weed is None else weed.casefold(),
        rest=said.rest,
        unread=said.unread,
        read=SightingSaid(is_seen),
    )


FORMS: Final = (Form("report_weeds", read_sighting),)
