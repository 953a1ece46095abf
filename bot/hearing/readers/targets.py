"""Targets in words: against annual bluegrass, for the spring round."""

from __future__ import annotations

import re
from typing import Final

from jobs.agronomy.season import Target

_FOR_WINTER: Final = re.compile(
    r"\b(?:against|for)\s+(?:the\s+)?(?:annual\s+bluegrass|poa(?:\s+annua)?"
    r"|(?:late[- ]summer|autumn|fall)\s+round)\b",
    re.IGNORECASE,
)
_FOR_SUMMER: Final = re.compile(
    r"\b(?:against|for)\s+(?:the\s+)?(?:crabgrass|goosegrass|foxtail|(?:next\s+)?spring"
    r"(?:\s+round)?)\b",
    re.IGNORECASE,
)


def find_target(text: str) -> tuple[Target | None, str]:
    """Return the round a text names (``against annual bluegrass``), and the text without it."""
    if _FOR_WINTER.search(text):
        return Target.WINTER_ANNUALS, _FOR_WINTER.sub(" ", text)
    if _FOR_SUMMER.search(text):
        return Target.SUMMER_ANNUALS, _FOR_SUMMER.sub(" ", text)
    return None, text
