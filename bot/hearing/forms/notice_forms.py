"""Words for others in short: ``customer notices``, ``notice for the landlord before, in Spanish``.

And what the person's state asks for: ``my state asks for signs and notice 48 hours before``.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import partial
from typing import Final, Literal, TypeAlias

from bot.hearing.forms.form import Form, tidied
from bot.hearing.forms.yard_forms import find_yards
from bot.hearing.heard import Scene, Slots
from bot.hearing.phrases import phrases, which

#: Who reads a notice.
Reader: TypeAlias = Literal["customer", "neighbor", "landlord", "association"]

_says: Final = partial(phrases, "notice")
_READERS: Final[tuple[Reader, ...]] = ("association", "customer", "neighbor", "landlord")
_LANGUAGES: Final = ("en", "es")
_COUNTS: Final = ("one", "two", "three")
#: Longest time a notice is asked for ahead [h]: two weeks.
_MOST_HOURS: Final = 336


@dataclass(frozen=True)
class NoticeAsked:
    """Words for somebody are wanted.

    Attributes
    ----------
    reader : str or None
        Who reads them.
    is_after : bool or None
        Whether they tell what was done (else what is to come); None where neither was said.
    language : str or None
        Code of the language they are in.
    is_of_all : bool
        Whether what is due to every customer is meant.
    """

    reader: Reader | None = None
    is_after: bool | None = None
    language: str | None = None
    is_of_all: bool = False


@dataclass(frozen=True)
class PostingSaid:
    """What somebody says their state asks for: signs, and notice so many hours ahead."""

    signs: bool = False
    hours: int | None = None


def read_notice(text: str, scene: Scene) -> Slots | None:
    """Read ``notice for the neighbors after, in Spanish``; None for other texts."""
    said = tidied(text, " .!?¿¡")
    if _says("due").whole(said):
        return Slots(read=NoticeAsked("customer", is_of_all=True))
    head = _says("head").whole(said)
    if head is None:
        return None
    rest = head["rest"]
    spoken = {code: _says(f"in_{code}").at_end(rest) for code in _LANGUAGES}
    language = next((code for code in _LANGUAGES if spoken[code]), None)
    rest = next((end.before.rstrip(" ,") for end in spoken.values() if end), rest)
    after, before = _says("after").at_end(rest), _says("before").at_end(rest)
    when = after or before
    rest = rest if when is None else when.before
    reader, rest = _reader(head["whose"], rest)
    if reader is None and not _says("plain").whole(head["what"]):
        return None
    places: list[int] = []
    left = rest.strip(" ,:;")
    if left:
        at = _says("at").at_start(left)
        places = find_yards(scene.yards, left if at is None else at.after.strip())
        if len(places) != 1:
            return None
    is_many = _says("many").whole(head["what"]) is not None and not places
    is_after = None if when is None else after is not None
    read = NoticeAsked(reader, is_after, language, is_many and reader in (None, "customer"))
    return Slots(read=read, yard=scene.yards[places[0]] if places else None)


def read_in_language(text: str, scene: Scene) -> Slots | None:
    """Read ``drafts in Spanish``: that is no wish to be spoken to in another language."""
    slots = read_notice(text, scene)
    is_said = slots is not None and isinstance(slots.read, NoticeAsked) and slots.read.language
    return slots if is_said else None


def _reader(whose: str, rest: str) -> tuple[Reader | None, str]:
    """Return who reads it, and what else was said."""
    for reader in _READERS:
        if whose and _says(reader).whole(whose):
            return reader, rest
        named = None if whose else _says(reader).first(rest)
        if named is not None:
            return reader, f"{named.before} {named.after}"
    return None, rest


def read_posting(text: str, _scene: Scene) -> Slots | None:
    """Read ``my state asks for signs and notice 48 hours before``; None for other texts."""
    said = tidied(text)
    if _says("no_rule").whole(said):
        return Slots(read=PostingSaid())
    rule = _says("rule").whole(said)
    if rule is None or said.endswith("?"):
        return None
    rest = rule["rest"]
    signs, notice = _says("signs").first(rest), _says("notice").first(rest)
    days = _says("ahead_days").first(rest)
    ahead = days or _says("ahead_hours").first(rest)
    if not signs and not (notice and ahead):
        return None
    hours = None
    if notice and ahead is not None:
        word = which("notice", _COUNTS, ahead["n"])
        count = int(ahead["n"]) if word is None else _COUNTS.index(word) + 1
        hours = min(_MOST_HOURS, count * (24 if days else 1))
    return Slots(read=PostingSaid(signs is not None, hours))


FORMS: Final = (
    Form("ask_notice", read_in_language, is_sure=True),
    Form("ask_notice", read_notice),
    Form("set_licence", read_posting),
)
