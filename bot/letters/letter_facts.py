"""What the facts of an alert say, for whoever words it: alone, in a digest, or of late summer."""

from __future__ import annotations

from bot.saying.catalogue import say
from bot.saying.printed_amounts import Quantity
from bot.saying.values import Names
from jobs.agronomy.season import Kind
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
