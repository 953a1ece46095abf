"""Values in a normal form: sizes, rates, amounts, depths, times, places, names of things.

Each value is a `Span` of a kind. The ranker reads the text with spans put for their words
(`abstracted`), so that "front with 7 lb" and "pool lawn with 12 kg" are one sentence to it; the
slots are filled from the same spans.
"""

from __future__ import annotations

import bisect
import itertools
import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cache
from typing import Final

from bot.hearing import day_words, words
from bot.hearing.names_heard import Names
from bot.hearing.normal import Normal
from bot.hearing.phrases import kind
from bot.hearing.readers.lexing import NUMBER
from bot.hearing.readers.taken import Taken


@dataclass(frozen=True)
class Span:
    """A value: its kind, where it stands in the normal form, and what it is."""

    kind: str
    start: int
    end: int
    value: object = None

    @property
    def names(self) -> tuple[str, ...]:
        """The kept names that are meant; none where it is no name, or may be several."""
        return self.value if isinstance(self.value, tuple) else ()


_N: Final = NUMBER
_RANGE: Final = rf"{_N}(?:\s*(?:-|to|a|and|y|or|o)\s*{_N})?"
_LENGTH: Final = r"(?:ft|in|yd|m|cm|'|\"|paces|steps|pasos)"
_MASS: Final = r"(?:lb|oz|kg|g|fl oz|gal|qt|pt|mL|L|ml|l)"
_AREA: Final = (
    r"(?:1,?000|1k|k|m2|m|acre|thousand|mil|ha|hectare|hectarea|sq ft|100 m2|100 sq ft"
    r"|\d+(?:,\d{3})?\s*sq ft)(?:\s*(?:sq ft|sq|ft2|ft|m2|m))?"
)
_PER: Final = rf"(?:{kind('per_said')}|/)\s*{_AREA}"
_PER_LOOSE: Final = rf"(?:{_PER}|{kind('per_loose')}\s*(?:1,?000|1k|thousand|mil|acre)\b)"
_WHAT: Final = rf"(?:\s+{kind('of_product')})?"
_ANGLE: Final = r"-?\d{1,3}\.\d+\s*°?\s*"
#: "my code is 55821" is an invitation's, "zip code 55821" a place.
_NO_INVITATION: Final = (
    r"(?:(?<=zip code )|(?<=zip code is )|(?<=postal code )|(?<=postal code is )"
    r"|(?<!\bcode )(?<!\bcode is ))"
)
#: Kinds in order: the first that fits keeps its words.
_KINDS: Final = (
    # What it costs is no figure of a label.
    ("price", rf"\$\s*{_N}|\b{_N}\s*{kind('money_word')}\b"),
    (
        "place",
        (
            r"\blat(?:itude)?\b.{0,40}\blon\w*\b.{0,14}|"
            rf"{_ANGLE}[ns]?\s*(?:[,;/ ]|(?:by|and|x|y|por)(?=\s*-))"
            rf"\s*(?:{kind('minus_said')} )?{_ANGLE}[ew]?\b"
            # "0.38, 3.2 lb per 1000" is a label's.
            rf"(?!\d|\s*(?:{_MASS}|percent|%|{_LENGTH}|x|by|per)(?![\w]))"
        ),
    ),
    (
        "size",
        rf"\b{_N}\s*{_LENGTH}?\s*(?:x|\*|by|por(?!\s*(?:1,?000|mil)\b))\s*{_N}\s*{_LENGTH}?(?:\s*x\s*{_N})?(?![\w])",
    ),
    ("rate", rf"\b{_RANGE}\s*{_MASS}{_WHAT}\s*{_PER_LOOSE}(?![\w])|\b{_N}\s*{_PER}(?![\w])"),
    (
        "area",
        rf"\b{_N}\s*(?:sq ft|m2|acre|ft2|sq yd|hectares?|hectareas?)(?![\w])|\b\d+(?:\.\d+)?k\b",
    ),
    ("amount", rf"\b{_N}\s*(?:lb|gal)\s*(?:and\s+|y\s+|,\s*)?{_N}\s*oz\b|\b{_N}\s*{_MASS}(?![\w])"),
    (
        "depth",
        (
            # "7 in the front" is no depth.
            rf"(?<![\w]){_N}\s*(?:in(?!\s+{kind('no_inch')}\b)|mm|cm)(?![\w])"
            rf"|(?<![\w]){_N}\s*\"|(?<![\w.])0?\.\d+\b(?!\s*(?:percent|%|h\b))"
        ),
    ),
    ("speed", r"\b\d+(?:\.\d+)?\s*(?:mph|km/h)\b"),
    ("minutes", rf"\b{_RANGE}\s*(?:min|h)\b"),
    ("days", rf"\b{_RANGE}\s*(?:days|weeks|months)\b"),
    ("percent", rf"(?<![\w]){_N}\s*(?:percent\b|%)"),
    (
        "temp",
        r"-?\b\d{1,3}(?:\.\d+)?\s*(?:°\s*[fc]?|degrees(?:\s*[fc]\b)?|[fc]\b|fahrenheit|celsius)",
    ),
    (
        "licence",
        (
            r"\b\d{3,6}-\d{1,6}(?:-\d+)?\b|\b\d{4,8}-?[a-z]{1,2}\b|\b[a-z]{1,3}-\d{3,6}\b"
            r"|(?:(?<=# )|(?<=#))\d{4,8}\b"
        ),
    ),
    ("zip", _NO_INVITATION + r"\b\d{5}(?:-\d{4})?\b(?!\s*(?:sq|ft|lb))"),
    (
        "length",
        rf"\b{_N}\s*(?!in\s+{kind('no_ground')}\s+{kind('bare_ground')}\b){_LENGTH}(?![\w])",
    ),
)
_CODE: Final = re.compile(r"\b(?=[A-Z0-9]*\d)(?=[A-Z0-9]*[A-Z])[A-Z0-9]{6,10}\b")
_NUMBER: Final = re.compile(rf"(?<![\w.]){_N}(?![\w])")
_STATES, _STATE_CODES, _CLEAR_CODES = (
    words.table("en", "places", "phrases")[name] for name in ("state", "code", "clear_code")
)
#: A word of a town's name; no longer than any is, as a long run would be tried from each letter.
_TOWN_WORD: Final = r"[a-z][a-z.'-]{1,39}"
#: "Salina, Kansas", "salina ks": a town and its state.
_TOWN: Final = re.compile(
    rf"(?P<town>\b{_TOWN_WORD}(?:\s{_TOWN_WORD})?)\s*,?\s+(?P<state>{_STATES})\b(?!\s+(?:blue|31|state))"
    rf"|(?P<town2>\b{_TOWN_WORD}(?:\s{_TOWN_WORD})?)\s*,\s*(?P<state2>(?!(?:la|me|al|de|mi|hi|or|in)\s+(?!and\b|y\b|usa\b|us\b)[a-z])(?:{_STATE_CODES}))\b"
    r"|^\s*(?!(?:que|ahi|ya|no|como|se) va\b)"
    rf"{_TOWN_WORD}(?:\s{_TOWN_WORD}){{0,2}}\s(?:{_CLEAR_CODES})\s*$"
    rf"|(?:(?<=, )|(?<=\bin )|(?<=\bnear )){_TOWN_WORD}(?:\s{_TOWN_WORD})?"
    rf"\s(?:{_CLEAR_CODES})\b"
    rf"|\b(?P<state3>{_STATES})\b(?!\s+(?:blue|31))"
)
#: Kinds of values that stand in lists of words, by their sections.
_LISTS: Final = {
    "grasses": "grass",
    "weeds": "weed",
    "products": "product",
    "work": "work",
    "languages": "language",
    "parts": "part",
}


def find_spans(normal: Normal, names: Names) -> list[Span]:
    """Return the values of a normal form, in order, none over another."""
    text, found = normal.text, _Found(normal.text)
    found.take_all(
        Span("code", match.start(), match.end(), match.group())
        for match in _CODE.finditer(normal.traced.said)
        for match in re.finditer(rf"\b{re.escape(match.group().lower())}\b", text)
    )
    for of, start, end, value in names.find(text, normal.language):
        found.take(Span(of, start, end, value))
    for of, pattern in _patterns():
        found.take_all(Span(of, *match.span(), match.group()) for match in pattern.finditer(text))
    found.take_all(
        Span("day", each.start, each.end, each)
        for each in day_words.find_days(text, normal.language)
    )
    found.take_all(
        Span("hour", start, end, (part, minutes))
        for start, end, part, minutes in day_words.find_hours(text)
    )
    for section, of in _LISTS.items():
        meaning = words.canon(section)
        found.take_all(
            Span(of, *match.span(), meaning[" ".join(match.group().split())])
            for match in words.finder(section).finditer(text)
        )
    found.take_all(Span("town", *match.span(), match.group()) for match in _TOWN.finditer(text))
    found.take_all(Span("number", *match.span(), match.group()) for match in _NUMBER.finditer(text))
    return found.in_order()


def abstracted(text: str, spans: Sequence[Span], start: int = 0, end: int | None = None) -> str:
    """Return a stretch of a normal form with a token of its kind for each value."""
    stop = len(text) if end is None else end
    pieces: list[str] = []
    at = start
    first = bisect.bisect_left(spans, start, key=lambda span: span.start)
    for span in itertools.islice(spans, first, None):
        if span.start < at or span.end > stop:
            if span.start >= stop:
                break
            continue
        pieces += [text[at : span.start], _token(span)]
        at = span.end
    pieces.append(text[at:stop])
    return " ".join("".join(pieces).split())


def _token(span: Span) -> str:
    """Return what the ranker sees: work, languages and parts keep their meaning."""
    if span.kind in ("work", "language", "part"):
        return f" <{span.kind}> {str(span.value).replace('_', '')} "
    if span.kind == "day" and isinstance(span.value, day_words.DaySaid):
        return f" <day> {_when(span.value)} "
    return f" <{span.kind}> "


_BEHIND: Final = frozenset(
    {"yesterday", "last night", "day before yesterday", "last week", "last weekend"}
)


def _when(day: day_words.DaySaid) -> str:
    """Return whether a day lies behind, ahead, or neither is said."""
    if day.kind in ("ago", "lately", "this_month") or day.day in _BEHIND:
        return "behind"
    if day.day in ("tomorrow", "day after tomorrow", "next week", "weekend"):
        return "ahead"
    if day.day == "today":
        return "now"
    return {"last": "behind", "next": "ahead"}.get(day.which, "some")


@cache
def _patterns() -> tuple[tuple[str, re.Pattern[str]], ...]:
    return tuple((of, re.compile(pattern)) for of, pattern in _KINDS)


class _Found:
    """Spans taken so far: a later one yields to those before it."""

    def __init__(self, text: str) -> None:
        self._spans: list[Span] = []
        self._taken = Taken(text)

    def take(self, span: Span) -> None:
        if self._taken.take(span.start, span.end):
            self._spans.append(span)

    def take_all(self, spans: Iterable[Span]) -> None:
        for span in spans:
            self.take(span)

    def in_order(self) -> list[Span]:
        return sorted(self._spans, key=lambda span: span.start)
