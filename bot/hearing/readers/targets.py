"""Targets in words: against annual bluegrass, for the spring round."""

from __future__ import annotations

from bot.hearing.phrases import phrases
from jobs.agronomy.season import Target


def find_target(text: str) -> tuple[Target | None, str]:
    """Return the round a text names (``against annual bluegrass``), and the text without it."""
    for target in (Target.WINTER_ANNUALS, Target.SUMMER_ANNUALS):
        said = phrases("traits", target.name.lower())
        if said.first(text):
            return target, said.without(text)
    return None, text
