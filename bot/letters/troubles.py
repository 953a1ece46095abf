"""What is wrong with the data, said plainly."""

from __future__ import annotations

from datetime import date

from bot.saying.catalogue import say
from bot.saying.values import Day, Degrees
from jobs.data_trouble import Trouble


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
