"""Records as files, of some of them: ``export all``, ``export 2026``, ``export customer Cobb``."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date
from typing import Final

from bot.hearing.forms.form import Form
from bot.hearing.heard import Scene, Slots
from bot.hearing.readers.dates import WhenRead, find_when

_EXPORT: Final = re.compile(
    r"^(?:/?export|(?:send|give|show)\s+me|download)\b\s*(?:(?:my|the)\s+)?(?P<rest>.*)$",
    re.IGNORECASE,
)
_ALL: Final = re.compile(
    r"\b(?:(?:for|of)\s+)?(?:all\s+(?:of\s+)?(?:my\s+|the\s+)?yards|every\s+yard|everything|all)\b",
    re.IGNORECASE,
)
_CUSTOMER: Final = re.compile(
    r"\b(?:(?:for|of)\s+)?(?:the\s+)?(?:customer|client)\s+(?P<name>.+?)"
    r"(?=\s+(?:from|since|in|for|20\d\d)\b|$)",
    re.IGNORECASE,
)
_SPAN: Final = re.compile(
    r"\b(?:from|since)\s+(?P<first>.+?)(?:\s+(?:to|until|till|through)\s+(?P<last>.+?))?$",
    re.IGNORECASE,
)
_YEAR: Final = re.compile(r"\b(?:(?:for|in|of)\s+)?(?P<year>20\d\d)\b")
_NOTHING: Final = re.compile(r"(?:records?|log|files?|for|of|\s|[.!?])*", re.IGNORECASE)


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


def read_export(text: str, scene: Scene) -> Slots | None:
    """Read which records are wanted as files; None for other texts, and for all of one yard."""
    match = _EXPORT.match(" ".join(text.split()))
    if match is None:
        return None
    rest = match["rest"]
    first = last = None
    span = _SPAN.search(rest)
    if span is not None:
        ends = [None if each is None else find_when(each, scene.now) for each in span.groups()]
        days = [each.at.date() if isinstance(each, WhenRead) else None for each in ends]
        first, last = days
        if first is None or (span["last"] is not None and last is None):
            return None
        if last is not None and last < first:
            # A day still to come is taken for the year before by itself; behind a first day it is
            # the next of its name.
            last = last.replace(
                year=last.year + 1, day=min(last.day, 28) if last.month == 2 else last.day
            )
        rest = rest[: span.start()]
    customer = _CUSTOMER.search(rest)
    if customer is not None:
        rest = _CUSTOMER.sub(" ", rest)
    year = _YEAR.search(rest)
    if year is not None and first is None:
        first, last = date(int(year["year"]), 1, 1), date(int(year["year"]), 12, 31)
        rest = _YEAR.sub(" ", rest)
    is_all = _ALL.search(rest) is not None
    rest = _ALL.sub(" ", rest)
    is_said = is_all or customer is not None or first is not None
    yard = None
    if is_said and _NOTHING.fullmatch(rest) is None:
        yard = next((each for each in scene.yards if _named(each).search(rest)), None)
        rest = rest if yard is None else _named(yard).sub(" ", rest)
    if not is_said or _NOTHING.fullmatch(rest) is None:
        return None
    name = None if customer is None else customer["name"].strip()
    return Slots(yard=yard, read=ExportSaid(is_all, name, first, last))


def _named(yard: str) -> re.Pattern[str]:
    return re.compile(rf"(?<!\w){re.escape(yard)}(?!\w)", re.IGNORECASE)


FORMS: Final = (Form("export", read_export),)
