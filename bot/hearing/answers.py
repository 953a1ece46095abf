"""Whether a text answers the pending question: by what an answer to it is, never by guessing."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Final

from rapidfuzz import fuzz

from bot.hearing import words
from bot.hearing.heard import ActHeard, Pending, Scene, Slots
from bot.hearing.normal import Normal
from bot.hearing.readers.places import read_place
from bot.hearing.readers.reading import Unread
from bot.hearing.slots import fill, stretch
from bot.hearing.values import Span

#: What an answer is made of, by what is expected.
_KINDS: Final = {
    "rate": ("rate", "number", "amount", "depth"),
    "number": ("number", "percent", "amount", "area", "length", "minutes", "days", "depth", "temp"),
    "percent": ("percent", "number", "depth"),
    "size": ("size", "area"),
    "place": ("place", "zip", "town"),
    "day": ("day", "hour"),
    "zone": ("zone", "all", "rest"),
    "days": ("days", "number", "day"),
    "amount": ("amount", "number", "minutes", "depth", "percent", "part"),
    "ingredient": ("product",),
    "grass": ("grass",),
    "timezone": (),
    "yes_no": (),
}
#: Words around an answer: "it says 3.2", "about 20".
_FILLERS: Final = 4


def yes_or_no(normal: Normal) -> str | None:
    """Return ``confirm``, ``deny`` or ``cancel`` for a text that is one and nothing else."""
    said = _bare(normal.text)
    if said == "thumbsup":
        return "confirm"
    if said == "thumbsdown":
        return "deny"
    for name, act in (("yes", "confirm"), ("no", "deny"), ("cancel", "cancel")):
        for language in words.LANGUAGES:
            if said in {
                words.bare(word) for word in words.words_of(language, "answers", name, "words")
            }:
                return act
    return None


def is_way_out(normal: Normal) -> bool:
    """Tell whether a text, said while something is asked, leaves the question: ``stop``."""
    return words.canon("special", "commands").get(_bare(normal.text)) == "leave"


def typed_button(said: str, pending: Pending) -> ActHeard | None:
    """Return the button whose label was typed, but for case, pictures and a slip."""
    typed = _bare(words.bare(said))
    best: tuple[float, str] = (0.0, "")
    for label, action in pending.options:
        shown = _bare(words.bare(label))
        if shown and typed:
            best = max(best, (fuzz.ratio(typed, shown), action))
    if best[0] < 90.0:
        return None
    return ActHeard(pending.kind, Slots(option=best[1]), said, "pending", best[0] / 100.0)


def answer(normal: Normal, spans: Sequence[Span], scene: Scene) -> ActHeard | None:
    """Return the pending question's act if a text is an answer to it; None where it is not."""
    pending = scene.pending
    if pending is None:
        return None
    said = normal.traced.said.strip()
    if "?" in said or "¿" in said:
        return None
    for expected in pending.expects:
        if _is_answer(expected, normal, spans):
            whole = stretch(normal, spans, 0, len(normal.text))
            slots = fill(pending.kind, whole, scene)
            return ActHeard(pending.kind, slots, said, "pending", 1.0)
    return None


def _is_answer(expected: str, normal: Normal, spans: Sequence[Span]) -> bool:
    if expected == "place" and isinstance(read_place(normal.text), tuple | Unread):
        return True
    kinds = _KINDS.get(expected, ())
    found = [span for span in spans if span.kind in kinds]
    if not found:
        return False
    others = [
        s
        for s in spans
        if s.kind not in kinds and s.kind not in ("product", "percent", "zone", "all")
    ]
    rest = "".join(
        letter
        for at, letter in enumerate(normal.text)
        if not any(span.start <= at < span.end for span in spans)
    )
    return not others and len(re.findall(r"[a-z]+", rest)) <= _FILLERS


def _bare(text: str) -> str:
    return " ".join(re.findall(r"[a-z0-9']+", text))
