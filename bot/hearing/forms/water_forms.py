"""Worries about water: ``two inches fell overnight, redo it?``, ``three dry weeks, wasted?``."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Final

from bot.hearing.forms.form import Form
from bot.hearing.heard import Scene, Slots
from bot.hearing.readers.measurements import read_depth
from bot.hearing.readers.reading import Unread

_REDO: Final = re.compile(
    r"\b(redo|do\s+(?:it|that)\s+(?:over|again)|re-?apply|put\s+(?:it|more)\s+down\s+again"
    r"|start\s+over|apply\s+(?:it\s+)?again|wash(?:ed)?\s+(?:off|away|out)|wasted?)\b",
    re.IGNORECASE,
)
_RAINED: Final = re.compile(
    r"\b(fell|rain(?:ed|s|fall)?|pour(?:ed|ing)?|storm(?:ed)?|downpour|wash(?:ed)?"
    r"|inch(?:es)?\s+(?:of|overnight))\b",
    re.IGNORECASE,
)
_DRY: Final = re.compile(
    r"\b(dry|no\s+rain|without\s+rain|not\s+a\s+drop|drought|never\s+rained|hasn'?t\s+rained"
    r"|no\s+water)\b",
    re.IGNORECASE,
)
_DEPTH: Final = re.compile(
    r"\b(?P<number>\d+(?:\.\d+)?|\.\d+|half\s+an|an?|one|two|three|four|five|six|seven)\s*"
    r"(?:and\s+a\s+half\s+)?(?P<unit>inch(?:es)?|in\b|\"|mm\b|cm\b|millimet\w+|centimet\w+)",
    re.IGNORECASE,
)
_WORDS: Final = ("zero", "one", "two", "three", "four", "five", "six", "seven")


@dataclass(frozen=True)
class WorrySaid:
    """Whether somebody worries for want of rain, or for too much of it."""

    is_dry: bool


def read_worry(text: str, _scene: Scene) -> Slots | None:
    """Read whether rain or drought undid an application; None for other texts."""
    if _REDO.search(text) is None:
        return None
    is_dry = _DRY.search(text) is not None
    if not is_dry and _RAINED.search(text) is None:
        return None
    depth_mm = None if is_dry else _said_mm(text)
    return Slots(
        depth_m=None if depth_mm is None else depth_mm / 1000, read=WorrySaid(is_dry=is_dry)
    )


def _said_mm(text: str) -> float | None:
    match = _DEPTH.search(text)
    if match is None:
        return None
    word = match["number"].casefold()
    number = str(_WORDS.index(word)) if word in _WORDS else word
    if word in ("a", "an"):
        number = "1"
    elif word.startswith("half"):
        number = "0.5"
    if re.search(r"and\s+a\s+half", match[0], re.IGNORECASE):
        number = f"{float(number) + 0.5}"
    depth = read_depth(f"{number} {match['unit']}")
    return None if isinstance(depth, Unread) else depth * 1000


#: The words for every yard behind it are found where all that is said of everywhere is.
_ON_ALL: Final = re.compile(
    rf"(?P<depth>{_DEPTH.pattern})(?:\s+of\s+water)?\s+(?:on|at)\s+all(?:\s+of\s+them|\s+yards)?",
    re.IGNORECASE,
)


def read_on_all(text: str, scene: Scene) -> Slots | None:
    """Read ``half an inch on all``, of whoever has several yards; None for other texts."""
    match = _ON_ALL.fullmatch(text.strip(" .!"))
    depth_mm = None if match is None or len(scene.yards) < 2 else _said_mm(match["depth"])
    return None if depth_mm is None else Slots(depth_m=depth_mm / 1000, every_yard=True)


FORMS: Final = (
    Form("ask_washed_out", read_worry),
    Form("report_watered", read_on_all, is_sure=True),
)
