"""When work began and ended: "from 9:15 to 9:50", "started 9:15, finished 9:50"."""

from __future__ import annotations

import re
from typing import Final

from bot.hearing.readers.wish_words import read_time_of_day

_CLOCK: Final = r"\d{1,2}(?::\d{2})?\s*(?:[ap]\.?m\b\.?)?"
_RANGE: Final = re.compile(
    rf"(?:\b(?:from|desde|de)\s+(?:las?\s+)?)?(?<![\d.:])(?P<begun>{_CLOCK})\s*"
    r"(?:-|–|to|until|till|a|hasta)\s*(?:las?\s+)?"
    rf"(?P<ended>{_CLOCK})(?![\d.:]|\s*(?:lbs?|oz|kg|gal|ft|sq|x|por|pounds?|libras)\b)",
    re.IGNORECASE,
)
_BEGUN: Final = re.compile(
    rf"\b(?:started|began|begun|empec[eé]|comenc[eé])\s+(?:at\s+|a\s+las?\s+)?(?P<begun>{_CLOCK})",
    re.IGNORECASE,
)
_ENDED: Final = re.compile(
    r"[\s,]{0,3}(?:\b(?:and|y)\s+)?\b(?:finished|ended|termin[eé]|acab[eé])\s+(?:at\s+|a\s+las?\s+)?"
    rf"(?P<ended>{_CLOCK})",
    re.IGNORECASE,
)
_HALF: Final = re.compile(r"([ap])\.?m", re.IGNORECASE)
_NOON: Final = 12 * 60


def ended_in(text: str, begun: int) -> int | None:
    """Return when work ended that began then, in minutes after midnight; None where unsaid."""
    match = _of_range(text) or _ENDED.search(text)
    ended = None if match is None else read_time_of_day(match["ended"])
    if match is None or ended is None:
        return None
    if ended < begun and _HALF.search(match["ended"]) is None and ended + _NOON >= begun:
        return ended + _NOON
    return ended if ended >= begun else None


def with_begin_alone(text: str) -> str:
    """Return a text with the hour at which work began, without that at which it ended."""
    match = _of_range(text)
    if match is not None:
        begun = _with_half(match["begun"].strip(), match["ended"])
        return f"{text[: match.start()].rstrip()} at {begun} {text[match.end() :].lstrip()}".strip()
    if _ENDED.search(text) is None or _BEGUN.search(text) is None:
        return text
    return _BEGUN.sub(r"at \g<begun>", _ENDED.sub("", text))


def _of_range(text: str) -> re.Match[str] | None:
    """Return a range of hours: figures alone, such as "3 to 4", may be anything."""
    for match in _RANGE.finditer(text):
        if ":" in match["begun"] + match["ended"] or _HALF.search(match["ended"]):
            return match
    return None


def _with_half(begun: str, ended: str) -> str:
    """Return a begin with the am or pm of the end, where it can only be that."""
    half = _HALF.search(ended)
    if half is None or _HALF.search(begun):
        return begun
    alike = read_time_of_day(f"{begun} {half[1]}m")
    end = read_time_of_day(ended)
    if alike is not None and end is not None and alike <= end:
        return f"{begun} {half[1].lower()}m"
    return f"{begun} am"
