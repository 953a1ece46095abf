"""Reports in short: ``applied 3.2 lb on the strip yesterday 5 pm``."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from typing import Final

from bot.hearing.day_words import find_days
from bot.hearing.forms.form import Form
from bot.hearing.forms.where_when import FEW_WORDS
from bot.hearing.heard import Scene, Slots
from bot.hearing.readers.dates import find_when
from bot.hearing.readers.hours_of_work import with_begin_alone
from bot.hearing.readers.quantities import Amount, read_amount
from bot.hearing.readers.reading import Unread
from bot.hearing.readers.spoken import spoken
from bot.hearing.readers.targets import find_target
from bot.hearing.readers.yard_names import every_name, spelled
from bot.hearing.readers.zone_names import all_but, find_names, without_denied
from bot.hearing.readers.zone_parts import find_parts, without_parts
from jobs.agronomy.season import Target

_BEFORE: Final = (
    r"^(?:(?:i|we|i've|we've|i\s+have|we\s+have|have|just|only|also|already|finally|it\s+is|it's|is)"
    r"\s+)*"
)
_REPORT: Final = re.compile(
    rf"{_BEFORE}"
    r"(?:ap+l(?:ie|e|i|y|ye|yie)d|application|put\s+(?:it\s+)?down|spread|sprayed|treated|it\s+is\s+down"
    r"|did\s+(?:it|them)|(?<=\bi\s)put(?:\s+out)?|(?<=\bwe\s)put(?:\s+out)?"
    r"|(?:(?<=\bi\s)|(?<=\bwe\s)|(?<=only\s)|(?<=just\s)|(?<=also\s))did(?!\s+(?:not|n't)))"
    r"\b[\s:,]*"
    r"(?P<rest>.*)$",
    re.IGNORECASE | re.DOTALL,
)
#: A report of a part is sure by its part, whatever word it begins with.
_PART_DONE: Final = re.compile(
    rf"{_BEFORE}(?:did|treated|covered|finished|sprayed|spread|applied|put\s+(?:it\s+)?down"
    r"|(?P<put>put))\b(?:\s+it)?(?:\s+(?:on|to|over))?[\s:,]*(?P<rest>.*)$",
    re.IGNORECASE | re.DOTALL,
)
_THEN_OUT: Final = re.compile(
    r"[\s,;]+(?:(?:and|but|then|i|we|it)\s+)*ran\s+out(?:\s+of\s+\w+)?\s+with\b", re.IGNORECASE
)
_GAP: Final = re.compile(r"\b(?:ran\s+out|empty|short|missed)\b", re.IGNORECASE)
#: Words before a yard's name that say it is done; nothing but an amount and an hour stands beside.
_AT_YARD: Final = re.compile(
    r"^(?:(?:i|we|ya|just)\s+)*(?:did|finished|done\s+(?:with|at)|applied(?:\s+it)?|treated|sprayed"
    r"|apliqu[eé]|aplicado|ech[eé](?:le)?|trat[eé]|termin[eé])\b(?P<rest>.*)$",
    re.IGNORECASE | re.DOTALL,
)
AMOUNT: Final = re.compile(
    r"(?<![\w.])\d[\d.,/½¼¾]*\s*(?:fl\.?\s*oz|fluid\s+ounces?|pounds?|lbs?|ounces?|oz|kilos?|kg"
    r"|grams?|g|ml|millilit\w+|l|lit(?:re|er)s?|gal(?:lons?)?|quarts?|qt|pints?|pt)\b"
    r"(?:\s+\d[\d.]*\s*(?:ounces?|oz)\b)?(?:\s+of\b)?",
    re.IGNORECASE,
)
_APPLIED: Final = re.compile(r"\bap+l", re.IGNORECASE)
#: Words of something else that happened beside it.
_MORE: Final = frozenset(
    {"ran", "out", "watered", "missed", "half", "part", "bag", "bags", "rest", "but", "rained"}
)
_FILLERS: Final = re.compile(
    r"\b(?:too|also|now|just|again|today|finally|myself|all|done)\b", re.IGNORECASE
)


@dataclass(frozen=True)
class ApplicationSaid:
    """What a report in short says beside the usual slots: the weeds it is for."""

    target: Target | None = None


def read_applied(text: str, scene: Scene) -> Slots | None:
    """Read ``applied 3.2 lb on the strip yesterday``; None for sentences."""
    match = _REPORT.match(with_begin_alone(text.strip()))
    if match is None or "?" in text:
        return None
    yard, rest = _yard_in(match["rest"], scene)
    slots = applied_slots(rest, scene)
    if slots is not None and yard is not None:
        if any(letter.isdigit() for letter in slots.rest):
            # "From 9:15 to 9:50": more than a report in short.
            return None
        slots = replace(slots, yard=yard)
    if slots is None or not slots.rest:
        return slots
    # A zone that is not there is asked about; what else happened is a sentence, not this form.
    words = slots.rest.casefold().split()
    is_short = _APPLIED.search(match[0]) is not None and _MORE.isdisjoint(words)
    return slots if is_short else None


def read_at_yard(text: str, scene: Scene) -> Slots | None:
    """Read ``did Walnut 66 at 9:15``, ``apliqué 21.5 lb en Walnut 66``; None for other texts."""
    match = _AT_YARD.match(with_begin_alone(text.strip(" .!")))
    if match is None or "?" in text:
        return None
    yard, rest = _yard_in(match["rest"], scene)
    rest = re.sub(r"\ba\s+las?\b", "at", re.sub(r"\b(?:en|con)\b", " ", rest))
    slots = None if yard is None else applied_slots(rest, scene)
    if slots is None or slots.rest or slots.unread is not None:
        return None
    return replace(slots, yard=yard)


def _yard_in(text: str, scene: Scene) -> tuple[str | None, str]:
    """Return the yard a report names by its whole name, and the other words."""
    for name in sorted(every_name(scene.yards) - set(scene.zones), key=len, reverse=True):
        whole = rf"(?:\b(?:at|on|in|for)\s+)?(?<!\w){spelled(name)}(?!\w)"
        found = re.search(whole, text, re.IGNORECASE)
        if found is not None:
            return name, f"{text[: found.start()]} {text[found.end() :]}"
    return None, text


def applied_slots(rest: str, scene: Scene) -> Slots | None:
    """Read the words behind ``applied``; None where they are more than a report in short."""
    when = find_when(rest, scene.now)
    if isinstance(when, Unread):
        return Slots(unread=when)
    if when is not None:
        rest = when.rest
    elif find_days(rest.casefold(), scene.language):
        # "Last week" is several days: more than a report in short.
        return None
    amount, rest = find_amount(rest)
    if isinstance(amount, Unread):
        return Slots(unread=amount)
    if find_amount(rest)[0] is not None:
        # Two amounts are two places' own: more than a report in short.
        return None
    target, rest = find_target(rest)
    parts = find_parts(scene.zones, rest, scene.length_unit)
    whole = without_denied(scene.zones, without_parts(scene.zones, rest))
    named, is_all, rest = find_names(scene.zones, whole)
    rest = " ".join(_FILLERS.sub(" ", rest).split())
    if len(rest.split()) > FEW_WORDS:
        return None
    said = ApplicationSaid(target)
    return Slots(
        zones=named, all_zones=is_all, parts=parts, on=when, amount=amount, rest=rest, read=said
    )


def read_part_done(text: str, scene: Scene) -> Slots | None:
    """Read ``did 100 sq ft of the front``, ``covered two thirds of the back``; else None."""
    match = _PART_DONE.match(spoken(text.strip()))
    if match is None or "?" in text:
        return None
    rest = _THEN_OUT.sub(", ", match["rest"])
    slots = None if _GAP.search(rest) else applied_slots(rest, scene)
    if slots is None or slots.rest:
        return None
    is_denied = all_but(scene.zones, rest) is not None or without_denied(scene.zones, rest) != rest
    is_part = any(part.zone is not None or match["put"] is None for part in slots.parts)
    return slots if is_part or (is_denied and slots.zones) else None


def find_amount(text: str) -> tuple[Amount | Unread | None, str]:
    """Find an amount of product in a text; return it and the other words."""
    found = AMOUNT.search(text)
    if found is None:
        return None, text
    said = re.sub(r"\s+of$", "", found[0], flags=re.IGNORECASE)
    before = re.sub(r"\b(?:with|using)\s*$", "", text[: found.start()], flags=re.IGNORECASE)
    return read_amount(said), f"{before} {text[found.end() :]}"


FORMS: Final = (
    Form("report_applied", read_part_done, is_sure=True),
    Form("report_applied", read_at_yard, is_sure=True),
    Form("report_applied", read_applied),
)
