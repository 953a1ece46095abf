"""The rest of a label in words: how often, how far apart, seeding, home lawns, packs, analysis.

``2 applications a year, 60 days apart, no seeding for 16 weeks, bags 25 lb $38 and 40 lb $55``
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from functools import lru_cache
from typing import Any, Final

from bot.hearing.expressions import expression
from bot.hearing.readers.lexing import NUMBER, WORD_NUMBER, number_value, plain, word_number_value
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


_COUNT: Final = rf"(?P<count>\d{{1,2}}|{WORD_NUMBER}|once|twice)"
_PERIOD: Final = (
    r"(?:\s*(?:per|a|an|each|every|in\s+any|in)\s*"
    r"(?P<period>calendar\s+year|year|season|12[ -]months?|twelve\s+months))?"
)
_SPAN: Final = (
    rf"(?P<number>{NUMBER}|{WORD_NUMBER}|a|an)\s*-?\s*(?P<unit>days?|weeks?|months?|years?)"
)
_TIMES: Final = expression(
    r"(?:\b(?:max(?:imum)?|at\s+most|up\s+to|(?:(?:do\s+)?not|don'?t|no)\s+(?:(?:make|apply|do)\s+)?more"
    r"\s+than|not\s+to\s+exceed)\s+(?:of\s+)?)?"
    rf"(?:\b{_COUNT}\s*(?:x|times)?\s*(?:applications?|treatments?|apps?)\b{_PERIOD}"
    rf"|\b(?:(?P<often>once|twice)|(?P<often2>\d{{1,2}}|{WORD_NUMBER})\s*(?:x|times))"
    r"\s+(?:per|a|each)\s+(?P<in>year|season))",
    re.IGNORECASE,
)
_APART: Final = expression(
    rf"(?:\b(?:at\s+least|min(?:imum)?|not\s+less\s+than|every)\s+)?{_SPAN}\s*"
    rf"(?:apart|between(?:\s+(?:applications?|treatments?|them))?)\b"
    rf"|\b(?:smallest\s+|retreatment\s+|re-treatment\s+)?interval\s*(?:of|is|:)?\s*"
    rf"(?P<number2>{NUMBER})\s*(?P<unit2>days?|weeks?|months?)",
    re.IGNORECASE,
)
_SEEDING: Final = expression(
    rf"\b(?:(?:no|don'?t|do\s+not)\s+(?:re|over)?-?seed(?:ing)?|(?:re|over)?-?seed(?:ing)?\s+interval)"
    rf"\s*(?:for|within|of|is|:)?\s*(?:at\s+least\s+)?{_SPAN}"
    rf"|\b(?:wait\s+)?(?P<number2>{NUMBER})\s*(?P<unit2>days?|weeks?|months?|years?)\s*"
    r"(?:before|to)\s+(?:re|over)?-?seed(?:ing)?\b",
    re.IGNORECASE,
)
_AGE: Final = expression(
    rf"\b(?:turf|lawn|grass|sod)\s*(?:age\s*)?(?:must\s+be\s+|at\s+least\s+|older\s+than\s+|over\s+)*"
    rf"(?:is\s+|of\s+|:\s*)?{_SPAN}\s*(?:old\b)?",
    re.IGNORECASE,
)
_HOMES: Final = expression(
    r"\b(?P<no>not\s+(?:for|on)\s+|no\s+)?(?:(?:label\s+)?(?:allows|names|for)\s+)?"
    r"(?:home|residential)\s+lawns?(?:\s+(?P<after>not\s+)?(?:are\s+)?(?:allowed|ok|fine|named))?\b",
    re.IGNORECASE,
)
_ANALYSIS: Final = expression(
    r"(?:\b(?:analysis|npk|n-p-k|fertili[sz]er)\s*:?\s*)(?P<npk>\d{1,2}-\d{1,2}-\d{1,2})(?![\d-])",
    re.IGNORECASE,
)
_UNIT: Final = (
    r"(?:lbs?|pounds?|kgs?|kilos?|g|grams?|fl\.?\s*oz|fluid\s+ounces?|oz|ounces?|gal(?:lons?)?"
    r"|qts?|quarts?|pts?|pints?|ml|l|lit(?:er|re)s?)\b\.?"
)
_MONEY: Final = (
    r"(?:(?:for|at|@|costs?|is|=)?\s*(?P<sign>[$€£])\s*(?P<price>\d+(?:[.,]\d{2})?)"
    r"|(?:for|at|costs?)\s+(?P<price2>\d+(?:\.\d{2})?)(?:\s*(?:dollars|usd))?)?"
)
_PACK_WORD: Final = r"(?:bags?|packs?|bottles?|jugs?|pails?|boxes|jars?|sacks?|containers?|sizes?)"
_ONE_PACK: Final = rf"(?P<size>{NUMBER})\s*-?\s*(?P<unit>{_UNIT})\s*{_MONEY}"
_PACKS: Final = expression(
    rf"\b{_PACK_WORD}(?:\s+(?:of|are|is|come\s+in))?\s*:?\s*"
    rf"(?P<list>{NUMBER}\s*-?\s*{_UNIT}[^;\n]*)"
    rf"|\bsold\s+in\s+(?P<list2>{NUMBER}[^;\n]*)"
    rf"|\b(?P<list3>{NUMBER}\s*-?\s*{_UNIT}\s*{_PACK_WORD}\s*(?:for|at|costs?|@|is|:)?\s*[$€£]?\s*\d[\d.]*)",
    re.IGNORECASE,
)
_SHELF: Final = expression(
    rf"\b(?:(?:i\s+|we\s+)?(?:have|got)|there\s+(?:is|are)|on\s+the\s+shelf:?|shelf:?|in\s+stock:?|stock:?)\s+"
    rf"(?:still\s+)?(?P<amount>{NUMBER}\s*{_UNIT})(?:\s*(?:left|over|of\s+it|on\s+the\s+shelf|in\s+stock))*",
    re.IGNORECASE,
)
_BOUGHT: Final = expression(
    rf"^\s*(?:i\s+|we\s+)?bought\s+(?:(?P<count>\d{{1,3}}|{WORD_NUMBER}|an?)\s*"
    rf"(?:x\s*|{_PACK_WORD}\s+(?:of\s+)?)?)?(?P<amount>{NUMBER}\s*{_UNIT})(?:\s*{_PACK_WORD})?",
    re.IGNORECASE,
)
_DAYS: Final = {"d": 1.0, "w": 7.0, "m": 30.5, "y": 365.0}


# A turn asks for the same text up to four times.
@lru_cache(maxsize=16)
def read_label_facts(text: str) -> LabelFacts:
    """Return what a text says of a label, and what of it is left over."""
    rest = spoken(plain(text).text)
    values: dict[str, Any] = {}
    rest = _take(rest, _TIMES, lambda match: values.update(_times(match)))
    rest = _take(rest, _SEEDING, lambda m: values.update(seeding_interval_days=_days(m)))
    rest = _take(rest, _APART, lambda m: values.update(smallest_interval_days=_days(m)))
    rest = _take(rest, _AGE, lambda m: values.update(turf_age_days=_days(m)))
    rest = _take(
        rest,
        _HOMES,
        lambda m: values.update(is_residential_allowed=not (m["no"] or m["after"])),
    )
    rest = _take(rest, _ANALYSIS, lambda m: values.update(analysis=m["npk"]))
    bought: list[Amount] = []
    rest = _take(rest, _BOUGHT, lambda m: bought.extend(_bought(m)))
    packs: list[PackRead] = []
    if not bought:
        rest = _take(rest, _PACKS, lambda m: packs.extend(_packs(m)))
    shelf: list[Amount] = []
    rest = _take(rest, _SHELF, lambda m: shelf.extend(_amounts(m["amount"])))
    return LabelFacts(
        values,
        tuple(packs),
        shelf[-1] if shelf else None,
        bought[-1] if bought else None,
        re.sub(r"(?:\s*[,;]\s*){2,}", ", ", rest).strip(" ,;.").removeprefix("and ").strip(),
    )


def _take(text: str, pattern: re.Pattern[str], keep: Any) -> str:
    match = pattern.search(text)
    if match is None:
        return text
    keep(match)
    return f"{text[: match.start()]} , {text[match.end() :]}"


def _times(match: re.Match[str]) -> dict[str, Any]:
    said = (match["count"] or match["often"] or match["often2"] or "").lower()
    count = {"once": 1, "twice": 2}.get(said) or int(_number(said))
    period = (match["period"] or match["in"] or "").lower()
    kept = "unsaid"
    if "12" in period or "twelve" in period:
        kept = "12_months"
    elif "season" in period:
        kept = "season"
    elif "year" in period:
        kept = "calendar_year"
    return {"max_applications": count, "applications_period": kept} if count > 0 else {}


def _days(match: re.Match[str]) -> int | None:
    groups = match.groupdict()
    number = groups.get("number") or groups.get("number2")
    unit = groups.get("unit") or groups.get("unit2")
    if number is None or unit is None:
        return None
    # Months are not all alike: the longer reading keeps people waiting, never the shorter.
    days = _number(number.lower()) * (
        31.0 if unit.lower().startswith("mo") else _DAYS[unit[0].lower()]
    )
    return round(days) or None


def _number(said: str) -> float:
    if said in ("a", "an"):
        return 1.0
    if re.fullmatch(WORD_NUMBER, said, re.IGNORECASE):
        return float(word_number_value(said))
    return number_value(said)


def _bought(match: re.Match[str]) -> list[Amount]:
    count = 1.0 if match["count"] is None else _number(match["count"].lower())
    return [Amount(one.value * count, one.unit) for one in _amounts(match["amount"])]


def _packs(match: re.Match[str]) -> list[PackRead]:
    listed = match["list"] or match["list2"] or match["list3"] or ""
    listed = re.sub(rf"\b{_PACK_WORD}\b", " ", listed, flags=re.IGNORECASE)
    found = []
    for one in re.finditer(_ONE_PACK, listed, re.IGNORECASE):
        price = one["price"] or one["price2"]
        cents = None if price is None else round(float(price.replace(",", ".")) * 100)
        sign = one["sign"] or ("$" if "dollar" in one.group().lower() else "")
        found += [
            PackRead(amount, cents, sign) for amount in _amounts(f"{one['size']} {one['unit']}")
        ]
    return found


def _amounts(said: str) -> list[Amount]:
    read = read_amount(said)
    return [read] if isinstance(read, Amount) else []
