"""The record in short: ``record 3 wind 5 mph``, ``licence 20417``, and what others put down."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Final

from bot.hearing import words
from bot.hearing.day_words import rough_in
from bot.hearing.forms.applied_forms import AMOUNT, find_amount
from bot.hearing.forms.form import Form
from bot.hearing.heard import Scene, Slots
from bot.hearing.readers.dates import WhenRead, find_when
from bot.hearing.readers.product_lines import read_product
from bot.hearing.readers.product_read import ProductRead
from bot.hearing.readers.quantities import Amount, read_amount
from bot.hearing.readers.reading import Unread
from bot.hearing.readers.targets import find_target
from bot.hearing.readers.zone_names import find_names
from bot.hearing.readers.zone_parts import find_parts, without_parts
from jobs.agronomy.ingredients import ingredients
from jobs.agronomy.season import Target

_EDIT: Final = re.compile(
    r"^(?:change\s+|set\s+)?record\s*#?(?P<number>\d+)?\s+(?P<rest>\S.*)$",
    re.IGNORECASE | re.DOTALL,
)
_EPA: Final = re.compile(
    r"^(?:the\s+)?epa(?:\s*(?:reg(?:istration)?\.?|number|no\.?|#|is))*[\s:.#]*"
    r"(?P<number>\d{1,7}-\d{1,7}(?:-\d{1,7})?)\s*\.?$",
    re.IGNORECASE,
)
_LICENCE: Final = re.compile(
    r"^(?:my\s+)?(?:applicator(?:'s)?\s+)?(?:licen[cs]e|certificate)(?:\s*(?:number|no\.?|#|is))*"
    r"[\s:.#]+(?P<number>[A-Za-z0-9][\w./ -]{1,30})$",
    re.IGNORECASE,
)
_UNDER: Final = re.compile(
    r"^(?:i|we)\s+(?:work|apply|spray)\s+under\s+(?!a\s+licen)(?P<name>[^,\d]+?)(?:'s)?"
    r"(?:,?\s+(?:licen[cs]e|certificate)(?:\s+(?:number|no\.?|is))*\s*#?(?P<number>[\w/-]*\d[\w/-]*))?"
    r"\s*\.?$",
    re.IGNORECASE,
)
_OTHERS: Final = re.compile(
    r"^(?:the\s+|my\s+|our\s+|a\s+)?(?P<who>(?:lawn\s+)?(?:service|company|care\s+company)"
    r"|contractor|landlord|landlady|wife|husband|partner|spouse|neighbou?r|gardener|crew)\s+"
    r"(?:has\s+|have\s+|just\s+)*(?:put\s+(?:it\s+)?down|applied|spread|sprayed|treated|did"
    r"|covered|used)\b[\s:,]*(?P<rest>.*)$",
    re.IGNORECASE | re.DOTALL,
)
_ZONES_WITH: Final = re.compile(
    r"^(?:(?:on|to|over|at)\s+)?(?P<zones>.+?)\s+(?:with|using|con)\s+(?P<words>.+)$", re.IGNORECASE
)
_ON_ZONES: Final = re.compile(
    r"\b(?:on|to|over|at)\s+(?:the\s+)?(?P<zones>[^\d,]+?)\s*$", re.IGNORECASE
)
_WORDS: Final = frozenset({"record", "records", "log", "history", "the record", "my records"})
#: Words for fields; longer ones are tried first.
_FIELDS: Final = {
    "wind from": "wind_from",
    "wind direction": "wind_from",
    "wind": "wind",
    "sky": "sky",
    "ended": "ended",
    "end": "ended",
    "carrier": "carrier",
    "water volume": "carrier",
    "equipment": "equipment",
    "spreader": "equipment",
    "calibration": "calibration",
    "batch": "batch",
    "lot": "batch",
    "weed": "weed",
    "target": "weed",
    "applicator": "applicator",
    "licence": "licence",
    "license": "licence",
    "posted": "posted",
    "sign": "posted",
    "re-entry": "reentry",
    "reentry": "reentry",
    "notes": "notes",
    "note": "notes",
}
#: Licences with their last day.
_LICENCE_UNTIL: Final = re.compile(
    r"^(?:my\s+)?(?:pesticide\s+|applicator\s+)?licen[cs]e\s*(?:number|no\.?|is|:)?\s*"
    r"(?P<number>[A-Za-z0-9][\w/-]*)[\s,]*(?:good\s+|valid\s+)?"
    r"(?:until|till|to|through|expires?|exp\.?|runs\s+out)\b\s*(?P<rest>.+)$",
    re.IGNORECASE,
)
#: A time that names no day.
_NO_DAY: Final = re.compile(
    r"\b(?:last|this|past|earlier\s+this)\s+(?:week(?:end)?|month|year|spring|summer|fall|autumn"
    r"|winter|season)\b|\b(?:recently|the\s+other\s+day|a\s+while\s+ago)\b",
    re.IGNORECASE,
)
_LONGEST_VALUE: Final = 200


@dataclass(frozen=True)
class RecordsAsked:
    """Somebody wants to see the record."""


@dataclass(frozen=True)
class EditSaid:
    """One field of a record put right.

    Attributes
    ----------
    number : int or None
        Of the record; None for the newest.
    field : str or None
        Which one, by the record's own name; ``date`` and ``amount`` are fields too. None where
        the word names none.
    value : str
        What was said of it.
    when, amount : WhenRead or Unread, Amount or Unread, or None
        The value of a date or an amount, as read.
    """

    number: int | None
    field: str | None
    value: str
    when: WhenRead | Unread | None = None
    amount: Amount | Unread | None = None


@dataclass(frozen=True)
class RegistrationSaid:
    """The number a product is registered under, from the person's own label."""

    number: str


@dataclass(frozen=True)
class LicenceSaid:
    """A licence, and its last day where one was said."""

    number: str
    until: WhenRead | None = None
    is_until_said: bool = False


@dataclass(frozen=True)
class UnderSaid:
    """Under whom somebody works who has no licence of their own; `licence` is that person's."""

    name: str
    licence: str | None


@dataclass(frozen=True)
class ServiceSaid:
    """What others put down: who, and the product's words as read."""

    who: str
    target: Target | None
    product: ProductRead
    words: str
    vague: str = ""


def read_edit(text: str, scene: Scene) -> Slots | None:
    """Read ``record 3 wind 5 mph``; None for other texts."""
    match = _EDIT.match(" ".join(text.split()))
    if match is None:
        return None
    number = None if match["number"] is None else int(match["number"])
    rest = match["rest"]
    dated = re.match(r"(?:date|day|on|was|when)\b[\s:]*(?P<when>.+)$", rest, re.IGNORECASE)
    if dated is not None:
        when = find_when(dated["when"], scene.now) or Unread(
            dated["when"], "reading.no_such_day", "3 April 5 pm, or yesterday 5 pm"
        )
        return Slots(read=EditSaid(number, "date", dated["when"], when=when))
    weighed = re.match(r"amount\b[\s:]*(?P<amount>.+)$", rest, re.IGNORECASE)
    if weighed is not None:
        amount = read_amount(weighed["amount"])
        return Slots(read=EditSaid(number, "amount", weighed["amount"], amount=amount))
    for word in sorted(_FIELDS, key=len, reverse=True):
        named = re.match(rf"{re.escape(word)}\b[\s:]*(?P<value>.+)$", rest, re.IGNORECASE)
        if named is not None:
            value = named["value"].strip()[:_LONGEST_VALUE]
            return Slots(read=EditSaid(number, _FIELDS[word], value))
    return Slots(read=EditSaid(number, None, rest.split()[0]))


def read_records(text: str, _scene: Scene) -> Slots | None:
    """Read ``records``; None for other texts."""
    is_asked = " ".join(text.casefold().split()).rstrip("?.") in _WORDS
    return Slots(read=RecordsAsked()) if is_asked else None


def read_registration(text: str, _scene: Scene) -> Slots | None:
    """Read ``EPA reg. no. 1234-56``; None for other texts."""
    match = _EPA.match(" ".join(text.split()))
    return None if match is None else Slots(read=RegistrationSaid(match["number"]))


def read_licence(text: str, scene: Scene) -> Slots | None:
    """Read ``my licence is 20417, valid until 31 Dec 2027``; None for other texts."""
    said = " ".join(text.split())
    match = _LICENCE_UNTIL.match(said)
    if match is not None and re.search(r"\d", match["number"]):
        when = find_when(match["rest"], scene.now)
        until = when if isinstance(when, WhenRead) else None
        return Slots(read=LicenceSaid(match["number"], until, is_until_said=True))
    match = _LICENCE.match(said)
    return None if match is None else Slots(read=LicenceSaid(match["number"].strip()))


def read_under(text: str, _scene: Scene) -> Slots | None:
    """Read ``I work under A. Cobb, licence 20417``; None for other texts."""
    match = _UNDER.match(" ".join(text.split()))
    return None if match is None else Slots(read=UnderSaid(match["name"], match["number"]))


def read_service(text: str, scene: Scene) -> Slots | None:
    """Read ``the service put down prodiamine 0.38% 3 lb per 1000 on the front yesterday``."""
    match = _OTHERS.match(" ".join(text.split()))
    if match is None:
        return None
    rest = match["rest"]
    if words.phrases("whose", "own", "words").search(words.bare(rest)):
        # "The service did the front and I did the back": a sentence of two.
        return None
    when = find_when(rest, scene.now) or rough_in(rest, scene.language, scene.now)
    if isinstance(when, Unread):
        return Slots(unread=when)
    if when is not None:
        rest = when.rest
    vague = _NO_DAY.search(rest) if when is None else None
    target, rest = find_target(rest)
    parts = find_parts(scene.zones, rest)
    rest = without_parts(scene.zones, rest)
    zones, is_all, left = _zones_in(scene, rest.strip(" .,"))
    names = [item.names[0] for item in ingredients().values()]
    product = read_product(left, names)
    amount: Amount | Unread | None = None
    if product.rate is None or product.is_rate_of_ingredient:
        found = AMOUNT.search(left)
        amount, without = find_amount(left)
        product = product if found is None else read_product(without, names)
    if isinstance(amount, Unread):
        return Slots(unread=amount)
    said = ServiceSaid(match["who"], target, product, left, "" if vague is None else vague[0])
    return Slots(zones=zones, all_zones=is_all, parts=parts, on=when, amount=amount, read=said)


def _zones_in(scene: Scene, text: str) -> tuple[tuple[str, ...], bool, str]:
    """Return the zones named at either end of a text, whether all are said, and the rest."""
    match = _ZONES_WITH.match(text)
    if match is not None:
        named, is_all, leftover = find_names(scene.zones, match["zones"])
        if (named or is_all) and not leftover:
            return named, is_all, match["words"]
    match = _ON_ZONES.search(text)
    if match is not None:
        named, is_all, leftover = find_names(scene.zones, match["zones"])
        if named or is_all:
            return named, is_all, f"{text[: match.start()].strip(' ,')} {leftover}".strip()
    named, is_all, leftover = find_names(scene.zones, text)
    if (named or is_all) and not leftover:
        return named, is_all, ""
    return (), False, text


FORMS: Final = (
    Form("look_back", read_records),
    Form("change_record", read_edit),
    Form("set_licence", read_registration),
    Form("set_licence", read_licence),
    Form("set_licence", read_under),
    Form("report_service", read_service),
)
