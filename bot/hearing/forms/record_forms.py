"""The record in short: ``record 3 wind 5 mph``, ``licence 20417``, and what others put down."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import partial
from typing import Final

from bot.hearing import drafts, words
from bot.hearing.day_words import rough_in
from bot.hearing.forms.applied_forms import find_amount
from bot.hearing.forms.form import Form, hearing, saying, tidied
from bot.hearing.forms.record_fields import as_recorded
from bot.hearing.heard import Scene, Slots
from bot.hearing.phrases import Said, phrases
from bot.hearing.readers.dates import WhenRead, find_when
from bot.hearing.readers.product_read import ProductRead
from bot.hearing.readers.quantities import Amount, read_amount
from bot.hearing.readers.reading import Unread
from bot.hearing.readers.targets import find_target
from bot.hearing.readers.zone_names import find_names
from bot.hearing.readers.zone_parts import find_parts, without_parts
from jobs.agronomy.season import Target

_says: Final = partial(phrases, "record")
#: Fields that are put right one at a time; longer words are tried first.
_FIELDS: Final = (
    *("wind_from", "wind", "sky", "ended", "carrier", "equipment", "calibration", "batch", "weed"),
    *("applicator", "licence", "posted", "reentry", "notes"),
)
#: What a licence's number is written in.
_NUMBER: Final = re.compile(r"[A-Za-z0-9][\w./ -]{1,30}")
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
class FigureAnew:
    """A bare figure in place of the one that was just reported, in its unit."""

    value: float


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
    said = tidied(text, "")
    found = _says("numbered").whole(said) or _says("newest").whole(said)
    if found is None:
        return None
    number = int(found["number"]) if found["number"] else None
    rest = found["rest"]
    values = ((name, _says(name).at_start(rest)) for name in ("date", "amount", *_FIELDS))
    field, value = next(
        (
            (name, said.after.strip(" :"))
            for name, said in values
            if said and said.after.strip(" :")
        ),
        (None, rest.split()[0]),
    )
    if field == "date":
        when = find_when(value, scene.now) or Unread(
            value, "reading.no_such_day", "3 April 5 pm, or yesterday 5 pm"
        )
        return Slots(read=EditSaid(number, field, value, when=when))
    if field == "amount":
        return Slots(read=EditSaid(number, field, value, amount=read_amount(value)))
    value = value if field is None else as_recorded(field, value[:_LONGEST_VALUE])
    return Slots(read=EditSaid(number, field, value))


def read_anew(found: Said, scene: Scene) -> Slots | None:
    """Read ``no it was 8``, right behind a report of what went down; ``that was 8 on the back``."""
    zones, _, rest = find_names(scene.zones, found["place"])
    if rest or not (zones or scene.said_before == "report_applied"):
        return None
    return Slots(zones=zones, read=FigureAnew(float(found["figure"])))


def read_anew_of(found: Said, scene: Scene) -> Slots | None:
    """Read ``wait, the back was 9.5``, right behind a report of what went down."""
    is_behind = scene.said_before == "report_applied"
    is_known = is_behind and find_names(scene.zones, found["place"])[0]
    return read_anew(found, scene) if is_known else None


def read_registration(found: Said, _scene: Scene) -> Slots:
    """Read ``EPA reg. no. 1234-56``."""
    return Slots(read=RegistrationSaid(found["number"]))


def read_licence(text: str, scene: Scene) -> Slots | None:
    """Read ``my licence is 20417, valid until 31 Dec 2027``; None for other texts."""
    said = tidied(text, "")
    found = _says("licence_until").whole(said)
    if found is not None:
        when = find_when(found["until"], scene.now)
        until = when if isinstance(when, WhenRead) else None
        return Slots(read=LicenceSaid(found["number"], until, is_until_said=True))
    found = _says("licence_is").whole(said)
    number = "" if found is None else found["number"].strip(" :.#")
    return Slots(read=LicenceSaid(number)) if _NUMBER.fullmatch(number) else None


def read_under(found: Said, _scene: Scene) -> Slots:
    """Read ``I work under A. Cobb, licence 20417``."""
    return Slots(read=UnderSaid(found["name"].strip(), found["number"] or None))


def read_service(found: Said, scene: Scene) -> Slots | None:
    """Read ``the service put down prodiamine 0.38% 3 lb per 1000 on the front yesterday``."""
    rest = found["rest"]
    if words.phrases("whose", "own", "words").search(words.bare(rest)):
        # "The service did the front and I did the back": a sentence of two.
        return None
    when = find_when(rest, scene.now) or rough_in(rest, scene.language, scene.now)
    if isinstance(when, Unread):
        return Slots(unread=when)
    if when is not None:
        rest = when.rest
    vague = _says("no_day").first(rest) if when is None else None
    target, rest = find_target(rest)
    parts = find_parts(scene.zones, rest)
    rest = without_parts(scene.zones, rest)
    zones, is_all, left = _zones_in(scene, rest.strip(" .,"))
    product = drafts.read(left)
    amount: Amount | Unread | None = None
    if product.rate is None or product.is_rate_of_ingredient:
        amount, without = find_amount(left)
        product = product if amount is None else drafts.read(without)
    if isinstance(amount, Unread):
        return Slots(unread=amount)
    spoken = "" if vague is None else vague.it
    said = ServiceSaid(found["who"], target, product, left, spoken)
    return Slots(zones=zones, all_zones=is_all, parts=parts, on=when, amount=amount, read=said)


def _zones_in(scene: Scene, text: str) -> tuple[tuple[str, ...], bool, str]:
    """Return the zones named at either end of a text, whether all are said, and the rest."""
    found = _says("with").whole(text)
    if found is not None:
        named, is_all, leftover = find_names(scene.zones, found["zones"])
        if (named or is_all) and not leftover:
            return named, is_all, found["words"]
    found = _says("on").at_end(text)
    if found is not None:
        named, is_all, leftover = find_names(scene.zones, found["zones"])
        if named or is_all:
            return named, is_all, f"{found.before.strip(' ,')} {leftover}".strip()
    named, is_all, leftover = find_names(scene.zones, text)
    if (named or is_all) and not leftover:
        return named, is_all, ""
    return (), False, text


FORMS: Final = (
    saying("look_back", "record.show", RecordsAsked()),
    Form("change_record", read_edit),
    hearing("change_record", "record.anew", read_anew),
    hearing("change_record", "record.anew_of", read_anew_of),
    hearing("set_licence", "record.registration", read_registration, ends=""),
    Form("set_licence", read_licence),
    hearing("set_licence", "record.under", read_under, ends=" ."),
    hearing("report_service", "record.others", read_service, ends=""),
)
