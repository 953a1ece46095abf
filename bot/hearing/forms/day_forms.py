"""Days to come in short: ``why not Tuesday``, ``what about tomorrow``."""

from __future__ import annotations

import re
from datetime import datetime, time, timedelta
from typing import Final

from bot.hearing.forms.form import Form
from bot.hearing.heard import Scene, Slots
from bot.hearing.readers.dates import WhenRead

_WHY: Final = re.compile(
    r"^(?:and\s+)?(?:why|how\s+about|what\s+about)\b\s*(?:not\b)?\s*(?:on\s+)?(?P<rest>.*)$",
    re.IGNORECASE,
)
_DAY_WORD: Final = re.compile(
    r"\b(today|tomorrow|mon|tue|wed|thu|fri|sat|sun)[a-z]*\b", re.IGNORECASE
)
_WEEKDAYS: Final = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")


def read_why(text: str, scene: Scene) -> Slots | None:
    """Read ``why not Tuesday``; None for other texts."""
    asked = _WHY.match(text.strip())
    if asked is None:
        return None
    when = day_ahead(asked["rest"], scene)
    return None if when is None else Slots(on=when)


def day_ahead(text: str, scene: Scene) -> WhenRead | None:
    """Return the day to come that a text names, None where it names none."""
    found = _DAY_WORD.search(text)
    if found is None:
        return None
    word, today = found[1].casefold(), scene.now.date()
    if word in ("today", "tomorrow"):
        ahead = ("today", "tomorrow").index(word)
    else:
        ahead = (_WEEKDAYS.index(word) - today.weekday()) % 7
    at = datetime.combine(today + timedelta(days=ahead), time(12), tzinfo=scene.now.tzinfo)
    return WhenRead(at, has_time=False, is_future=ahead > 0, said=found[0])


FORMS: Final = (Form("ask_day", read_why),)
