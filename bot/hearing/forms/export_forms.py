"""Records as files, of some of them: ``export all``, ``export 2026``, ``export customer Cobb``."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date
from functools import partial
from typing import Final

from bot.hearing.forms.form import hearing
from bot.hearing.heard import Scene, Slots
from bot.hearing.phrases import Said, phrases
from bot.hearing.readers.dates import WhenRead, find_when

_says: Final = partial(phrases, "export")
_YEAR: Final = re.compile(r"20\d\d")


@dataclass(frozen=True)
class ExportSaid:
    """Which records are wanted as files; None where nothing was said.

    Attributes
    ----------
    is_all : bool
        Those of all yards.
    customer : str or None
        Those of one customer's yards.
    first, last : date or None
        Days of application, both inclusive.
    """

    is_all: bool = False
    customer: str | None = None
    first: date | None = None
    last: date | None = None


def read_export(found: Said, scene: Scene) -> Slots | None:
    """Read which records are wanted as files; None for other texts, and for all of one yard."""
    rest = found["rest"]
    first = last = None
    span = _says("span").at_end(rest)
    if span is not None:
        ends = [span[name] and find_when(span[name], scene.now) for name in ("first", "last")]
        days = [each.at.date() if isinstance(each, WhenRead) else None for each in ends]
        first, last = days
        if first is None or (span["last"] and last is None):
            return None
        if last is not None and last < first:
            # A day still to come is taken for the year before by itself; behind a first day it is
            # the next of its name.
            last = last.replace(
                year=last.year + 1, day=min(last.day, 28) if last.month == 2 else last.day
            )
        rest = span.before
    years = (each for each in _says("year").every(rest) if _YEAR.fullmatch(each["year"]))
    year = None if first is not None else next(years, None)
    if year is not None:
        first, last = date(int(year["year"]), 1, 1), date(int(year["year"]), 12, 31)
        rest = f"{year.before} {year.after}".strip()
    customer = _says("customer").first(rest)
    rest = rest if customer is None else customer.before
    is_all = _says("all").first(rest) is not None
    rest = _says("all").without(rest)
    is_said = is_all or customer is not None or first is not None
    yard = None
    if is_said and _says("nothing").without(rest).strip(" .!?"):
        yard = next((each for each in scene.yards if _named(each).search(rest)), None)
        rest = rest if yard is None else _named(yard).sub(" ", rest)
    if not is_said or _says("nothing").without(rest).strip(" .!?"):
        return None
    name = None if customer is None else customer["name"].strip()
    return Slots(yard=yard, read=ExportSaid(is_all, name, first, last))


def _named(yard: str) -> re.Pattern[str]:
    return re.compile(rf"(?<!\w){re.escape(yard)}(?!\w)", re.IGNORECASE)


FORMS: Final = (hearing("export", "export.export", read_export, ends=" ."),)
