"""What the facts of an alert say, for whoever words it: alone, in a digest, or of late summer."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from typing import Any

from bot.saying.catalogue import say
from bot.saying.printed_amounts import Quantity
from bot.saying.values import Day, Degrees, Names
from jobs.agronomy.season import Kind
from jobs.data_trouble import Trouble
from jobs.judged import Judged
from jobs.messenger import Letter


def is_shelf_enough(letter: Letter) -> bool:
    """Tell whether a call to buy finds enough on the shelf already."""
    if letter.kind != Kind.SOIL_WARMING or letter.facts.get("is_closed_again"):
        return False
    return bool((letter.facts.get("needed") or {}).get("is_shelf_enough"))


def shelf_text(letter: Letter) -> Quantity | str:
    """Return what stands on the shelf; "" where nothing of it is known."""
    needed = letter.facts.get("needed") or {}
    if needed.get("shelf_si") is None:
        return ""
    return Quantity(needed["shelf_si"], needed["unit"])


def turn_lines(judged: Judged) -> list[str]:
    """Return in which turns zones come due, "strip first; front in about 10 days", and the late."""
    lines = []
    to_come = [turn for turn in judged.turns if turn.days >= 0]
    if len(to_come) > 1:
        first, *later = to_come
        rest = "; ".join(
            say("letters.turn_later", zones=Names(turn.zones), days=turn.days) for turn in later
        )
        lines.append(say("letters.turns", first=Names(first.zones), rest=rest))
    if judged.late:
        lines.append(say("letters.late", zones=Names(judged.late)))
    return lines


def trouble_lines(trouble: Trouble, today: date) -> list[str]:
    """Return a line for each thing that is wrong, the gravest first."""
    if trouble.is_missing:
        return [say("troubles.missing")]
    lines = []
    if trouble.old_days is not None:
        lines.append(say("troubles.old", days=trouble.old_days))
    gap = trouble.disagrees_by_c
    if gap is not None:
        key = "troubles.disagrees_warmer" if gap > 0 else "troubles.disagrees_cooler"
        lines.append(say(key, gap=Degrees(abs(gap))))
    if trouble.out_since is not None:
        lines.append(say("troubles.out", day=Day(trouble.out_since, today)))
    elif trouble.back_after is not None:
        lines.append(say("troubles.back", day=Day(trouble.back_after, today)))
    return lines


def rule_lines(signs: bool, hours: int | None) -> list[str]:
    """Return what is to be done before an application by what their state asks for."""
    lines = [] if hours is None else [say("notices.rule_hours", hours=hours)]
    return [*lines, say("notices.rule_signs")] if signs else lines


def call_lines(facts: Mapping[str, Any]) -> list[str]:
    """Return the same for an alert, from its facts."""
    rule = facts.get("posting")
    if rule is None:
        return []
    words = [] if rule["hours"] is None else [say("notices.rule_words")]
    return [*rule_lines(bool(rule["signs"]), rule["hours"]), *words]
