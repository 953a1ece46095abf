"""Weeds in short: ``crabgrass along the drive``, ``no crabgrass``."""

from __future__ import annotations

from dataclasses import dataclass
from functools import partial
from typing import Final

from bot.hearing import words
from bot.hearing.forms.form import Form, tidied
from bot.hearing.forms.where_when import where_when
from bot.hearing.heard import Scene, Slots
from bot.hearing.phrases import phrases

_says: Final = partial(phrases, "weed")


@dataclass(frozen=True)
class SightingSaid:
    """Whether weeds were seen, or looked for in vain."""

    is_seen: bool


def read_sighting(text: str, scene: Scene) -> Slots | None:
    """Read what was seen and where; None for other texts."""
    said = tidied(text, " .!¡")
    none = _says("none").whole(said)
    if none is not None:
        return _slots(none["weed"], none["rest"], scene, is_seen=False)
    seen = _says("seen").whole(said)
    if seen is not None:
        return _slots(seen["weed"], seen["rest"], scene, is_seen=True)
    if scene.asked == "report_weeds":
        found = _slots("", said, scene, is_seen=True)
        is_answer = found is not None and (found.zones or found.all_zones) and not found.rest
        return found if is_answer else None
    return None


def _slots(weed: str, rest: str, scene: Scene, *, is_seen: bool) -> Slots | None:
    said = where_when(rest, scene, _says("fillers"))
    if said.is_sentence:
        return None
    return Slots(
        zones=said.zones,
        all_zones=said.all_zones,
        on=said.on,
        weed=words.canon("weeds").get(words.bare(weed), weed.casefold()) or None,
        rest=said.rest,
        unread=said.unread,
        read=SightingSaid(is_seen),
    )


FORMS: Final = (Form("report_weeds", read_sighting),)
