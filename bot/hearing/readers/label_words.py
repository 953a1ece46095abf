"""The rest of a label in words: how often, how far apart, seeding, home lawns, packs, analysis.

``2 applications a year, 60 days apart, no seeding for 16 weeks, bags 25 lb $38 and 40 lb $55``
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass, field
from functools import lru_cache, partial
from typing import Any, Final

from bot.hearing.phrases import Said, phrases, which
from bot.hearing.readers.lexing import plain, value_of
from bot.hearing.readers.quantities import Amount, read_amount
from bot.hearing.readers.spoken import spoken


@dataclass(frozen=True)
class PackRead:
    """A pack: what it holds, and its price in cents with its sign, where one was given."""

    amount: Amount
    price: int | None
    currency: str = ""


@dataclass(frozen=True)
class LabelFacts:
    """What a text says of a label beyond ingredient, rate and maximum.

    Attributes
    ----------
    values
        Columns of the product, by name.
    packs
        What it is sold in.
    shelf
        What is in hand; ``bought`` adds to it.
    rest
        What of the text is left over.
    """

    values: dict[str, Any] = field(default_factory=dict)
    packs: tuple[PackRead, ...] = ()
    shelf: Amount | None = None
    bought: Amount | None = None
    rest: str = ""

    @property
    def is_empty(self) -> bool:
        """Whether nothing of it was understood."""
        return not (self.values or self.packs or self.shelf or self.bought)

    @property
    def is_pack_alone(self) -> bool:
        """Whether it says what one bag weighs, without a price, and nothing else."""
        is_one = len(self.packs) == 1 and self.packs[0].price is None
        return is_one and not (self.values or self.shelf or self.bought)


_says: Final = partial(phrases, "labels")
_PERIODS: Final = ("12_months", "season", "calendar_year")
#: Months are not all alike: the longer reading keeps people waiting, never the shorter.
_DAYS: Final = {"day": 1.0, "week": 7.0, "month": 31.0, "year": 365.0}


# A turn asks for the same text up to four times.
@lru_cache(maxsize=16)
def read_label_facts(text: str) -> LabelFacts:
    """Return what a text says of a label, and what of it is left over."""
    rest = spoken(plain(text).text)
    values: dict[str, Any] = {}
    rest = _take(rest, "times", lambda said: values.update(_times(said)))
    for name, column in _INTERVALS.items():
        rest = _take(rest, name, partial(_keep_days, values, column))
    rest = _take(rest, "homes_not", lambda _: values.update(is_residential_allowed=False))
    rest = _take(rest, "homes", lambda _: values.update(is_residential_allowed=True))
    rest = _take(rest, "analysis", lambda said: values.update(analysis=said["npk"]))
    bought: list[Amount] = []
    packs: list[PackRead] = []
    shelf: list[Amount] = []
    if _says("bought").at_start(rest.lstrip()):
        rest = _take(rest, "bought", lambda said: bought.extend(_bought(said)))
    if not bought:
        rest = _take(rest, "packs", lambda said: packs.extend(_packs(said["list"])))
    rest = _take(rest, "shelf", lambda said: shelf.extend(_amounts(said["amount"])))
    return LabelFacts(
        values,
        tuple(packs),
        shelf[-1] if shelf else None,
        bought[-1] if bought else None,
        re.sub(r"(?:\s*[,;]\s*){2,}", ", ", rest).strip(" ,;.").removeprefix("and ").strip(),
    )


#: Columns of a product that are stretches of time, by the names of their phrases.
_INTERVALS: Final = {
    "seeding": "seeding_interval_days",
    "apart": "smallest_interval_days",
    "age": "turf_age_days",
}


def _take(text: str, name: str, keep: Callable[[Said], None]) -> str:
    said = _says(name).first(text)
    if said is None:
        return text
    keep(said)
    return f"{said.before} , {said.after}"


def _times(said: Said) -> dict[str, Any]:
    often = which("labels", ("once", "twice"), said["count"])
    count = int(value_of(said["count"])) if often is None else ("once", "twice").index(often) + 1
    kept = which("labels", _PERIODS, said["period"]) or "unsaid"
    return {"max_applications": count, "applications_period": kept} if count > 0 else {}


def _keep_days(values: dict[str, Any], column: str, said: Said) -> None:
    values[column] = _days(said)


def _days(said: Said) -> int | None:
    unit = which("values", _DAYS, said["unit"])
    return None if unit is None else round(value_of(said["number"]) * _DAYS[unit]) or None


def _bought(said: Said) -> list[Amount]:
    count = value_of(said["count"] or "1")
    return [Amount(one.value * count, one.unit) for one in _amounts(said["amount"])]


def _packs(listed: str) -> list[PackRead]:
    found = []
    plainly = " ".join(_says("pack_word").without(listed).split())
    for one in _says("one_pack").every(plainly):
        price = one["price"].replace(",", ".")
        cents = round(float(price) * 100) if price else None
        sign = one["sign"] or ("$" if one["dollars"] else "")
        amounts = _amounts(f"{one['size']} {one['unit']}")
        found += [PackRead(amount, cents, sign) for amount in amounts]
    return found


def _amounts(said: str) -> list[Amount]:
    read = read_amount(said)
    return [read] if isinstance(read, Amount) else []
