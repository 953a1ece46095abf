"""Parts of zones as people say them: ``half of the back``, ``100 sq ft of the front``."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final

from bot.hearing.readers.lexing import NUMBER
from bot.hearing.readers.measures import of_kind, read_figures
from bot.hearing.readers.taken import Taken
from bot.hearing.readers.zone_names import lone_words

_ONE: Final = r"(?:an?|one|1|un|una)[\s-]+"
_TWO: Final = r"(?:two|2|dos)[\s-]+"
_THREE: Final = r"(?:three|3|tres)[\s-]+"
#: Fractions in words, in English and Spanish; the longer first.
_FRACTIONS: Final[tuple[tuple[str, float], ...]] = (
    (rf"\b{_TWO}thirds?\b|\b{_TWO}tercios\b|⅔", 2 / 3),
    (rf"\b{_THREE}(?:quarters?|fourths?)\b|\b{_THREE}cuartos\b|¾", 3 / 4),
    (rf"\b(?:{_ONE})?(?:third|tercio|tercera\s+parte)\b|⅓", 1 / 3),
    (rf"\b(?:{_ONE})?(?:quarter|cuarto|cuarta\s+parte)\b|\b{_ONE}fourth\b|¼", 1 / 4),
    (rf"\b(?:{_ONE})?(?:fifth|quinto)\b", 1 / 5),
    (rf"\b(?:{_ONE})?(?:half(?:[\s-]*way)?|halfways|mitad|media)\b|½", 1 / 2),
)
_OF_TWO: Final = re.compile(r"(?<![\d.,/])(\d{1,2})\s*/\s*(\d{1,2})(?![\d/])")
#: A share of ground in per cent; a strength stands before an ingredient or a product.
_PERCENT: Final = re.compile(
    r"(?<![\w.])(\d{1,2})\s*(?:%|per\s?cent\b|por\s?ciento\b)"
    r"(?=\s*(?:of|in|on|done|down|left|covered|treated|finished|is|was|got|has|to\s+go|de|del)\b|\s*[,.;!]|\s*$)",
    re.IGNORECASE,
)
_AREA: Final = re.compile(
    rf"(?<![\w.]){NUMBER}\s*(?:k\s*)?(?:sq(?:uare|\.)?\s*(?:feet|foot|ft|met(?:er|re)s?|m|yards?|yd)\b\.?"
    r"|sqft\b|sf\b|sqm\b|m2\b|m²|ft2\b|ft²|metros\s+cuadrados|pies\s+cuadrados)",
    re.IGNORECASE,
)
_SIZE: Final = re.compile(
    rf"(?<![\w.]){NUMBER}\s*(?:'|ft\b|feet\b|m\b)?\s*(?:x|by|por)\s*{NUMBER}\s*(?:'|ft\b|feet\b|m\b|met(?:er|re)s?\b)?",
    re.IGNORECASE,
)
_REST: Final = re.compile(
    r"\b(?:the\s+)?(?:rest|remainder|other\s+(?:half|part|side|bit))\b(?=\s+(?:of|in|on)\b)"
    r"|\bel\s+resto\b(?=\s+de)|\bla\s+otra\s+mitad\b",
    re.IGNORECASE,
)
_OPEN: Final = re.compile(
    r"\b(?:most|some|part|parts|almost\s+all|nearly\s+all|a\s+(?:bit|little|piece|part|patch|section"
    r"|corner|strip|chunk|few\s+passes))\s+(?:of|in|on)\b"
    r"|\bthe\s+(?:edges?|corners?|middle|sunny\s+(?:half|part|side)|near\s+half|far\s+half)\s+(?:of|in|on)\b"
    r"|\b(?:parte|casi\s+todo)\s+de(?:l)?\b",
    re.IGNORECASE,
)
_UP_TO_ZONE: Final = re.compile(
    r"^\s*(?:(?:of|in|on|from|across|through|over|along|de|del|en)\b\s*)?(?:(?:the|my|our|la|el|all)\b\s*)*$",
    re.IGNORECASE,
)
_FROM_ZONE: Final = re.compile(
    r"^(?:\s+(?:lawn|yard|zone))?[\s,:(–-]*(?:(?:is|was|got|has|about|only|just|roughly|the|all|but|like|maybe|it|some)\b\s*)*$",
    re.IGNORECASE,
)
_LEFT: Final = re.compile(
    r"\b(?:left|remain\w*|to\s+go|to\s+do|undone|un(?:treated|covered)|not\s+(?:done|treated|covered)"
    r"|(?:is|was|has)(?:n't|nt)\s+\w+|missing|nothing|without|bare|sin\s+\w+|por\s+hacer|falta\w*|queda\w*)\b",
    re.IGNORECASE,
)
_NOT: Final = re.compile(
    r"\b(?:but|except(?:\s+for)?|besides|minus|miss(?:ed|ing)?|skipped|forgot|left(?:\s+out)?|menos|salvo|falt[oó]"
    r"|(?:did|have|could)(?:n't|nt|\s+not)\s*(?:get\s+to|do|did|done|get|cover|reach|treat)?)\s+"
    r"(?:(?:about|for|the|with|like|maybe)\s+)*$",
    re.IGNORECASE,
)
#: Half of what is no zone: a bag, an inch, a dose.
_OF_ELSE: Final = re.compile(
    r"\s*(?:of\s+)?(?:(?:an?|the|my|our)\s+)?(?:inch|in\b(?!\s+the)|lbs?\b|pound|bag|oz\b|ounce|hour|acre|cup|sack"
    r"|tank|gal|hopper|box|jug|bottle|rate|dose|strength|application|round|time|summer|season)",
    re.IGNORECASE,
)
#: "The second half" is a round.
_ORDINAL: Final = re.compile(r"\b(?:second|first|2nd|1st|\d|for|another)\s+$", re.IGNORECASE)
_CLAUSE_ENDS: Final = re.compile(r"[;.,](?!\d)|\bbut\b|\band\b|\bthen\b", re.IGNORECASE)


@dataclass(frozen=True)
class PartSaid:
    """A part of a zone.

    Attributes
    ----------
    zone
        The zone's name as kept; None where none was said beside it.
    share, area_m2
        How much of it (0-1), or how much in all [m²]; neither where nobody said how much.
    is_left
        Whether that much is what got nothing.
    is_rest
        Whether it is what had been left out before.
    """

    zone: str | None = None
    share: float | None = None
    area_m2: float | None = None
    is_left: bool = False
    is_rest: bool = False

    @property
    def is_open(self) -> bool:
        """Whether nobody said how much."""
        return self.share is None and self.area_m2 is None and not self.is_rest


def fraction_of(text: str) -> float | None:
    """Return the first fraction a text names (0-1), or None."""
    found = [(start, share) for start, _, share in _shares(text)]
    return min(found)[1] if found else None


def find_parts(names: Sequence[str], text: str, length_unit: str = "ft") -> tuple[PartSaid, ...]:
    """Return the parts of zones that a text names, in order.

    Parameters
    ----------
    names
        The zones as kept.
    length_unit
        Unit of dimensions written without one.
    """
    return tuple(part for _, _, part in _found(names, text, length_unit))


def without_parts(names: Sequence[str], text: str, length_unit: str = "ft") -> str:
    """Return a text without the words of its parts; the zones' names stay."""
    for start, end, part in reversed(_found(names, text, length_unit)):
        denied = _NOT.search(text[:start])
        start = start if denied is None else denied.start()
        behind = text[end:]
        if part.is_left and denied is None:
            behind = _LEFT.sub(" ", behind, count=1)
        text = f"{text[:start]} {behind}"
    return text


def _found(names: Sequence[str], text: str, unit: str) -> list[tuple[int, int, PartSaid]]:
    pieces = [(*match.span(), PartSaid(is_rest=True)) for match in _REST.finditer(text)]
    pieces += [*_shares_said(text), *_areas_said(text, unit)]
    pieces += [(*match.span(), PartSaid()) for match in _OPEN.finditer(text)]
    taken = Taken(text)
    kept = [piece for piece in pieces if taken.take(*piece[:2])]
    kept.sort(key=lambda each: each[0])
    zones = _zones_at(names, text)
    bound = [(start, end, _bound(part, start, end, text, zones)) for start, end, part in kept]
    # A share of nothing kept, such as a patch that stands for no zone of ours, is no part.
    # Nor is a corner, beside the size it has.
    is_sized = any(not part.is_open for _, _, part in bound)
    return [each for each in bound if not each[2].is_open or (each[2].zone and not is_sized)]


def _shares(text: str) -> list[tuple[int, int, float]]:
    taken = Taken(text)
    found = [
        (*match.span(), share)
        for pattern, share in _FRACTIONS
        for match in re.finditer(pattern, text, re.IGNORECASE)
        if taken.take(*match.span())
    ]
    for match in _OF_TWO.finditer(text):
        above, below = int(match[1]), int(match[2])
        if 0 < above < below:
            found.append((*match.span(), above / below))
    percents = [(match, int(match[1])) for match in _PERCENT.finditer(text)]
    found += [(*match.span(), percent / 100) for match, percent in percents if percent]
    return found


def _shares_said(text: str) -> list[tuple[int, int, PartSaid]]:
    return [
        (start, end, PartSaid(share=share))
        for start, end, share in _shares(text)
        if not _OF_ELSE.match(text[end:]) and not _ORDINAL.search(text[:start])
    ]


def _areas_said(text: str, unit: str) -> list[tuple[int, int, PartSaid]]:
    found: list[tuple[int, int, PartSaid]] = []
    for pattern in (_AREA, _SIZE):
        for match in pattern.finditer(text):
            area_m2 = _area_m2(match.group(), unit)
            if area_m2 and not re.search(r"(?:per|/)\s*$", text[: match.start()]):
                found.append((*match.span(), PartSaid(area_m2=area_m2)))
    return found


def _area_m2(said: str, unit: str) -> float | None:
    said = re.sub(r"(?<=\d)\s*x\s*(?=\d)", " x ", said, flags=re.IGNORECASE)
    figures = read_figures(said)
    areas = of_kind(figures, "area")
    if areas:
        return areas[0].value
    if not re.search(r"[a-z']\W*$|[a-z']\s*(?:x|by|por)", said, re.IGNORECASE):
        figures = read_figures(f"{said} {unit}")
    lengths = of_kind(figures, "length")
    return lengths[0].value * lengths[1].value if len(lengths) == 2 else None


def _zones_at(names: Sequence[str], text: str) -> list[tuple[int, int, str]]:
    """Return where a text names which zone, whole names before words that only one holds."""
    words = {
        word: name
        for word, owners in lone_words(names).items()
        for name in owners
        if len(owners) == 1
    }
    taken = Taken(text)
    return sorted(
        (*match.span(), name)
        for said, name in [*((n, n) for n in sorted(names, key=len, reverse=True)), *words.items()]
        for match in re.finditer(rf"(?<!\w){re.escape(said)}(?!\w)", text, re.IGNORECASE)
        if taken.take(*match.span())
    )


def _bound(
    part: PartSaid, start: int, end: int, text: str, zones: Sequence[tuple[int, int, str]]
) -> PartSaid:
    after = next((z for z in zones if z[0] >= end and _UP_TO_ZONE.match(text[end : z[0]])), None)
    before = next(
        (z for z in reversed(zones) if z[1] <= start and _FROM_ZONE.match(text[z[1] : start])), None
    )
    zone = after or before
    if zone is None and len({name for _, _, name in zones}) == 1:
        zone = zones[0]
    behind = text[max(end, 0 if zone is None else zone[1]) :]
    stop = _CLAUSE_ENDS.search(behind)
    behind = behind if stop is None else behind[: stop.start()]
    is_left = _LEFT.search(behind) is not None or _NOT.search(text[:start]) is not None
    return replace(
        part, zone=None if zone is None else zone[2], is_left=is_left and not part.is_rest
    )
