"""Seed in short: ``seed front 5 Sep``, ``seeded the strip yesterday``, ``mowed the strip``."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from datetime import date, datetime
from functools import partial
from typing import Final

from bot.hearing import words
from bot.hearing.day_words import find_days
from bot.hearing.forms.form import hearing
from bot.hearing.forms.where_when import where_when
from bot.hearing.heard import Scene, Slots
from bot.hearing.phrases import Said, phrases
from jobs.agronomy.turf import turf_species

_says: Final = partial(phrases, "seed")
_DAYS_IN: Final = {"label_days": 1.0, "label_weeks": 7.0, "label_months": 30.5}


@dataclass(frozen=True)
class SeedSaid:
    """How seed goes in, and the days the label wants before it, where that was said."""

    method: str
    label_days: int | None


@dataclass(frozen=True)
class MownSaid:
    """New grass was mown."""


def read_mown(found: Said, scene: Scene) -> Slots | None:
    """Read ``mowed the strip``; None for other texts."""
    said = where_when(found["rest"], scene, _says("fillers"))
    if said.unread is not None or (said.rest and not (said.zones or said.all_zones)):
        return None
    return Slots(zones=said.zones, all_zones=said.all_zones, on=said.on, read=MownSaid())


def read_seed(found: Said, scene: Scene, *, is_ahead: bool) -> Slots | None:
    """Read ``seeded the strip yesterday``, ``can I seed the front on 5 Sep``; None for others."""
    rest = found["rest"]
    label_days = None
    for unit, days in _DAYS_IN.items():
        label = _says(unit).first(rest)
        if label is not None:
            label_days = round(int(label["n"]) * days)
            rest = f"{label.before.rstrip(' ,;')} {label.after}"
    method = "slit" if _says("slit").first(rest) else "broadcast"
    species, rest = _find_species(_says("broadcast").without(_says("slit").without(rest)))
    said = where_when(rest, scene, _says("fillers"))
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
    """Return the species a text names, and the text without it."""
    names = {words.bare(name): key for key, row in turf_species().items() for name in row.names}
    found = words.any_of(names).search(words.bare(text))
    if found is None:
        return None, text
    return names[" ".join(found[0].split())], f"{text[: found.start()]} {text[found.end() :]}"


FORMS: Final = (
    hearing("report_seeded", "seed.sown", partial(read_seed, is_ahead=False)),
    hearing("report_seeded", "seed.mown", read_mown, ends=" .!?"),
    hearing("ask_seed", "seed.asked", partial(read_seed, is_ahead=True), ends=" ?¿.!"),
)
