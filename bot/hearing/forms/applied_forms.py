"""Reports in short: ``applied 3.2 lb on the strip yesterday 5 pm``."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from functools import partial
from typing import Final

from bot.hearing.day_words import find_days
from bot.hearing.forms.form import Form, tidied
from bot.hearing.forms.gap_forms import by_kept_names
from bot.hearing.forms.where_when import FEW_WORDS
from bot.hearing.heard import Scene, Slots
from bot.hearing.phrases import phrases
from bot.hearing.readers.dates import find_when
from bot.hearing.readers.quantities import Amount, read_amount
from bot.hearing.readers.reading import Unread
from bot.hearing.readers.spoken import spoken
from bot.hearing.readers.targets import find_target
from bot.hearing.readers.times import with_begin_alone
from bot.hearing.readers.yard_names import every_name, spelled
from bot.hearing.readers.zone_names import all_but, find_names, without_denied
from bot.hearing.readers.zone_parts import find_parts, without_parts
from jobs.agronomy.season import Target

_says: Final = partial(phrases, "applied")


@dataclass(frozen=True)
class ApplicationSaid:
    """What a report in short says beside the usual slots: the weeds it is for."""

    target: Target | None = None


def read_applied(text: str, scene: Scene) -> Slots | None:
    """Read ``applied 3.2 lb on the strip yesterday``; None for sentences."""
    found = _says("report").whole(tidied(with_begin_alone(text.strip()), ""))
    if found is None or "?" in text:
        return None
    yard, rest = _yard_in(found["rest"], scene)
    slots = applied_slots(rest, scene)
    if slots is not None and yard is not None:
        if any(letter.isdigit() for letter in slots.rest):
            # "From 9:15 to 9:50": more than a report in short.
            return None
        slots = replace(slots, yard=yard)
    if slots is None or not slots.rest:
        return slots
    if by_kept_names(slots.rest, scene)[1]:
        # "El frente", of a zone called front, is known to the sentences.
        return None
    # A zone that is not there is asked about; what else happened is a sentence, not this form.
    is_short = _says("applied").first(text) and not _says("more").first(slots.rest)
    return slots if is_short else None


def read_at_yard(text: str, scene: Scene) -> Slots | None:
    """Read ``did Walnut 66 at 9:15``, ``apliqué 21.5 lb en Walnut 66``; None for other texts."""
    found = _says("at_yard").whole(tidied(with_begin_alone(text.strip(" .!")), ""))
    if found is None or "?" in text:
        return None
    yard, rest = _yard_in(found["rest"], scene)
    rest = _says("at_hour").without(_says("between").without(rest), "at")
    slots = None if yard is None else applied_slots(rest, scene)
    if slots is None or slots.rest or slots.unread is not None:
        return None
    return replace(slots, yard=yard)


def _yard_in(text: str, scene: Scene) -> tuple[str | None, str]:
    """Return the yard a report names by its whole name, and the other words."""
    for name in sorted(every_name(scene.yards) - set(scene.zones), key=len, reverse=True):
        found = re.search(rf"(?<!\w){spelled(name)}(?!\w)", text, re.IGNORECASE)
        if found is not None:
            before = text[: found.start()]
            at = _says("at").at_end(before)
            return name, f"{before if at is None else at.before} {text[found.end() :]}"
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
    rest = " ".join(_says("fillers").without(rest).split())
    if len(rest.split()) > FEW_WORDS:
        return None
    said = ApplicationSaid(target)
    return Slots(
        zones=named, all_zones=is_all, parts=parts, on=when, amount=amount, rest=rest, read=said
    )


def read_part_done(text: str, scene: Scene) -> Slots | None:
    """Read ``did 100 sq ft of the front``, ``covered two thirds of the back``; else None."""
    said = tidied(spoken(text.strip()), " .!")
    done = _says("part_done").whole(said)
    found = done or _says("part_put").whole(said)
    if found is None or "?" in text:
        return None
    rest = _says("then_out").without(found["rest"], ",")
    slots = None if _says("gap").first(rest) else applied_slots(rest, scene)
    if slots is None or slots.rest:
        return None
    is_denied = all_but(scene.zones, rest) is not None or without_denied(scene.zones, rest) != rest
    is_part = any(part.zone is not None or done for part in slots.parts)
    return slots if is_part or (is_denied and slots.zones) else None


def find_amount(text: str) -> tuple[Amount | Unread | None, str]:
    """Find an amount of product in a text; return it and the other words."""
    found = _says("amount").first(text)
    if found is None:
        return None, text
    of, by = _says("of").at_start(found.after.lstrip()), _says("with").at_end(found.before)
    before = found.before if by is None else by.before
    after = found.after if of is None else of.after
    amount = text[len(found.before) : len(text) - len(found.after)]
    return read_amount(amount), f"{before} {after}"


FORMS: Final = (
    Form("report_applied", read_part_done, is_sure=True),
    Form("report_applied", read_at_yard, is_sure=True),
    Form("report_applied", read_applied),
)
