"""Words for others in short: ``customer notices``, ``notice for the landlord before, in Spanish``.

And what the person's state asks for: ``my state asks for signs and notice 48 hours before``.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Final, Literal, TypeAlias

from bot.hearing.forms.form import Form
from bot.hearing.forms.yard_forms import find_yards
from bot.hearing.heard import Scene, Slots

#: Who reads a notice.
Reader: TypeAlias = Literal["customer", "neighbor", "landlord", "association"]

_HEAD: Final = re.compile(
    r"^(?:please\s+)?(?:(?:give|write|send|draft|make|show)\s+(?:me\s+|us\s+)?(?:up\s+)?)?"
    r"(?:an?\s+|the\s+|all\s+(?:the\s+|my\s+)?|my\s+)?"
    r"(?:(?P<whose>customers?|clients?|neighbou?rs?|landlords?|hoa|residents?|tenants?)(?:'?s?'?)\s+)?"
    r"(?P<what>notices?|drafts?|notes?|letters?|texts?|signs?|words)\b(?P<rest>.*)$",
    re.IGNORECASE,
)
_DUE: Final = re.compile(
    r"^(?:what(?:'?s|\s+is)?\s+(?:is\s+)?due\s+(?:to|for)|what\s+do\s+i\s+owe|who\s+gets\s+(?:a\s+)?notices?"
    r"(?:\s+among)?)\s+(?:(?:the|my|our|all|each|every)\s+)*(?:customers?|clients?)$",
    re.IGNORECASE,
)
_READERS: Final[tuple[tuple[Reader, str], ...]] = (
    ("customer", r"customers?|clients?|home\s*owners?"),
    ("neighbor", r"neighbou?rs?|next\s+door"),
    ("landlord", r"landlords?|landlady|(?:property\s+)?owners?|property\s+manager"),
    ("association", r"hoa|(?:home\s*owners'?\s+)?association|board|residents?|tenants?"),
)
_FOR: Final = r"(?:\b(?:for|to)\s+)?(?:(?:the|my|our|all|each|every)\s+)*"
_WHEN: Final = re.compile(
    r"\b(?:(?P<before>beforehand|before(?:\s+(?:it|we|i)\b.*)?|ahead)"
    r"|(?P<after>afterwards?|after(?:\s+(?:it|we|i)\b.*)?|that\s+it(?:'s|\s+is)\s+done))\s*$",
    re.IGNORECASE,
)
_LANGUAGE: Final = re.compile(r",?\s*\bin\s+(?P<language>english|spanish)\s*$", re.IGNORECASE)
_CODES: Final = {"english": "en", "spanish": "es"}
_AT: Final = re.compile(r"^(?:(?:at|for|of|about)\s+)?(?P<yard>.+)$", re.IGNORECASE)
#: Of these a bare word is a notice; of the others somebody is named.
_PLAIN: Final = ("notice", "draft")

_RULE: Final = re.compile(
    r"^(?:(?:my|our|the)\s+(?:state|county|city|town)|they|we|i)\s+"
    r"(?:asks?|requires?|wants?|needs?|(?:have|has|must|need|got)(?:\s+to)?)\b(?P<rest>.*)$",
    re.IGNORECASE,
)
_SIGNS: Final = re.compile(r"\b(?:signs?|flags?|markers?|posting|post(?:ed)?)\b", re.IGNORECASE)
_NOTICE: Final = re.compile(
    r"\b(?:notices?|notif\w+|pre-?notif\w+|tell|warn|inform)\b", re.IGNORECASE
)
_AHEAD: Final = re.compile(
    r"\b(?P<number>\d{1,3}|a|an|one|two|three)\s*-?\s*(?P<unit>hours?|hrs?|h|days?)\b",
    re.IGNORECASE,
)
_COUNTS: Final = {"a": 1, "an": 1, "one": 1, "two": 2, "three": 3}
_NO_RULE: Final = re.compile(
    r"^(?:(?:my|our|the)\s+(?:state|county|city|town)\s+(?:(?:asks?\s+for|requires?|wants?|needs?)\s+no"
    r"|does(?:n't|\s+not)\s+(?:ask\s+for|require|want|need))|we\s+(?:need\s+no|don't\s+need))\s+(?:any\s+)?"
    r"(?:signs?(?:\s+(?:or|and)\s+no(?:tice)?s?)?|posting|notices?)$|^no\s+(?:signs?|posting)\s+(?:here|needed|required)$",
    re.IGNORECASE,
)
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
    said = " ".join(text.split()).strip(" .!?")
    if _DUE.match(said):
        return Slots(read=NoticeAsked("customer", is_of_all=True))
    match = _HEAD.match(said)
    if match is None:
        return None
    rest = match["rest"]
    spoken = _LANGUAGE.search(rest)
    if spoken is not None:
        rest = rest[: spoken.start()]
    when = _WHEN.search(rest)
    if when is not None:
        rest = rest[: when.start()]
    is_after = None if when is None else when["after"] is not None
    reader, rest = _reader(match["whose"] or "", rest)
    if reader is None and not match["what"].casefold().startswith(_PLAIN):
        return None
    places: list[int] = []
    left = rest.strip(" ,:;")
    if left:
        places = find_yards(scene.yards, _AT.sub(r"\g<yard>", left))
        if len(places) != 1:
            return None
    is_many = match["what"].casefold() in ("notices", "drafts") and not places
    language = None if spoken is None else _CODES[spoken["language"].casefold()]
    read = NoticeAsked(reader, is_after, language, is_many and reader in (None, "customer"))
    return Slots(read=read, yard=scene.yards[places[0]] if places else None)


def _reader(whose: str, rest: str) -> tuple[Reader | None, str]:
    """Return who reads it, and what else was said."""
    for reader, names in _READERS:
        if whose and re.fullmatch(names, whose, re.IGNORECASE):
            return reader, rest
        named = re.search(rf"{_FOR}\b(?:{names})\b", rest, re.IGNORECASE)
        if named is not None and not whose:
            return reader, f"{rest[: named.start()]} {rest[named.end() :]}"
    return None, rest


def read_posting(text: str, _scene: Scene) -> Slots | None:
    """Read ``my state asks for signs and notice 48 hours before``; None for other texts."""
    said = " ".join(text.split()).strip(" .!")
    if _NO_RULE.match(said):
        return Slots(read=PostingSaid())
    match = _RULE.match(said)
    if match is None or said.endswith("?"):
        return None
    rest = match["rest"]
    signs, notice = bool(_SIGNS.search(rest)), bool(_NOTICE.search(rest))
    ahead = _AHEAD.search(rest)
    if not signs and not (notice and ahead):
        return None
    hours = None
    if notice and ahead is not None:
        count = _COUNTS.get(ahead["number"].casefold()) or int(ahead["number"])
        hours = min(_MOST_HOURS, count * (24 if ahead["unit"].casefold().startswith("d") else 1))
    return Slots(read=PostingSaid(signs, hours))


FORMS: Final = (Form("ask_notice", read_notice), Form("set_licence", read_posting))
