"""Seed in short: ``seed front 5 Sep``, ``seeded the strip yesterday``, ``mowed the strip``."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from datetime import date, datetime
from functools import cache
from typing import Final

from bot.hearing.day_words import find_days
from bot.hearing.forms.form import Form
from bot.hearing.forms.where_when import where_when
from bot.hearing.heard import Scene, Slots
from jobs.agronomy.turf import turf_species

_ASKED: Final = re.compile(
    r"^(?:(?:can|may|could|should)\s+(?:i|we)\s+|when\s+(?:can|may)\s+(?:i|we)\s+|(?:plan|want)\s+to\s+"
    r"|is\s+it\s+too\s+(?:early|soon)\s+to\s+)?(?:over|re)?(?:seed|sow)\b(?P<rest>.*)$",
    re.IGNORECASE | re.DOTALL,
)
_SOWN: Final = re.compile(
    r"^(?:i\s+|we\s+|i've\s+|just\s+|have\s+)*(?:over|re)?(?:seeded|sowed|sown)\b(?P<rest>.*)$",
    re.IGNORECASE | re.DOTALL,
)
_MOWN: Final = re.compile(
    r"^(?:i\s+|we\s+|i've\s+|just\s+|have\s+)*(?:mowed|mown|cut)\b(?P<rest>.*)$",
    re.IGNORECASE | re.DOTALL,
)
_LABEL: Final = re.compile(
    r"[,;]?\s*(?:my\s+|the\s+)?label(?:\s+(?:says|interval|wait))*[\s:]*(?P<number>\d{1,3})\s*"
    r"(?P<unit>days?|weeks?|months?)",
    re.IGNORECASE,
)
_SLIT: Final = re.compile(
    r"\b(?:by\s+|with\s+(?:a\s+)?)?(?:slit|slice|slot|drill)(?:[- ]?(?:seed(?:er|ing|ed)?|it))?\b",
    re.IGNORECASE,
)
_BROADCAST: Final = re.compile(r"\b(?:broadcast|spread\s+by\s+hand)\b", re.IGNORECASE)
_DAYS_IN: Final = {"d": 1.0, "w": 7.0, "m": 30.5}
_FILLERS: Final = re.compile(
    r"\b(?:with|seed|grass|my|some|new|there|please|again)\b|\?", re.IGNORECASE
)


@dataclass(frozen=True)
class SeedSaid:
    """How seed goes in, and the days the label wants before it, where that was said."""

    method: str
    label_days: int | None


@dataclass(frozen=True)
class MownSaid:
    """New grass was mown."""


def read_sown(text: str, scene: Scene) -> Slots | None:
    """Read ``seeded the strip yesterday``; None for other texts."""
    match = _SOWN.match(text.strip())
    return None if match is None else _seed(match["rest"], scene, is_ahead=False)


def read_asked(text: str, scene: Scene) -> Slots | None:
    """Read ``can I seed the front on 5 Sep``; None for other texts."""
    match = _ASKED.match(text.strip())
    return None if match is None else seed_slots(match["rest"], scene)


def seed_slots(rest: str, scene: Scene) -> Slots | None:
    """Read the words behind ``seed``; None where they are more than a question in short."""
    return _seed(rest, scene, is_ahead=True)


def read_mown(text: str, scene: Scene) -> Slots | None:
    """Read ``mowed the strip``; None for other texts."""
    match = _MOWN.match(text.strip())
    if match is None:
        return None
    said = where_when(match["rest"], scene, _FILLERS)
    if said.unread is not None or (said.rest and not (said.zones or said.all_zones)):
        return None
    return Slots(zones=said.zones, all_zones=said.all_zones, on=said.on, read=MownSaid())


def _seed(rest: str, scene: Scene, *, is_ahead: bool) -> Slots | None:
    label_days = None
    label = _LABEL.search(rest)
    if label is not None:
        label_days = round(int(label["number"]) * _DAYS_IN[label["unit"][0].lower()])
        rest = rest.replace(label[0], " ")
    method = "slit" if _SLIT.search(rest) else "broadcast"
    species, rest = _find_species(_BROADCAST.sub(" ", _SLIT.sub(" ", rest)))
    said = where_when(rest, scene, _FILLERS)
    if said.unread is not None:
        return Slots(unread=said.unread)
    is_month = said.on is None and bool(find_days(rest, scene.language))
    if said.is_sentence or is_month:
        return None
    when = said.on
    if when is not None and is_ahead and not re.search(r"\b\d{4}\b", when.said):
        day = _next(when.at.date(), scene.now.date())
        when = replace(when, at=datetime.combine(day, when.at.timetz()))
    return Slots(
        zones=said.zones,
        all_zones=said.all_zones,
        on=when,
        grass=species,
        rest=said.rest,
        read=SeedSaid(method, label_days),
    )


def _next(day: date, today: date) -> date:
    """Return the next such day of a year: people ask about seed to come, not about last year's."""
    while day < today:
        leap = (day.month, day.day) == (2, 29)
        day = date(day.year + 1, 2, 28) if leap else day.replace(year=day.year + 1)
    return day


def _find_species(text: str) -> tuple[str | None, str]:
    """Return the species a text names, and the text without it; longer names first."""
    for pattern, key in _species():
        if pattern.search(text):
            return key, pattern.sub(" ", text)
    return None, text


@cache
def _species() -> tuple[tuple[re.Pattern[str], str], ...]:
    names = [(name, key) for key, row in turf_species().items() for name in row.names]
    return tuple(
        (re.compile(rf"(?<!\w){re.escape(name)}(?!\w)", re.IGNORECASE), key)
        for name, key in sorted(names, key=lambda pair: -len(pair[0]))
    )


FORMS: Final = (
    Form("report_seeded", read_sown),
    Form("report_seeded", read_mown),
    Form("ask_seed", read_asked),
)
