"""Parts of zones as people say them: ``half of the back``, ``100 sq ft of the front``."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import partial
from typing import Final

from bot.hearing.phrases import kind, phrases
from bot.hearing.readers.measures import of_kind, read_figures
from bot.hearing.readers.taken import Taken
from bot.hearing.readers.zone_names import lone_words

_says: Final = partial(phrases, "zones")
#: Fractions in words; the longer first.
_FRACTIONS: Final = {
    "two_thirds": 2 / 3,
    "three_quarters": 3 / 4,
    "third": 1 / 3,
    "quarter": 1 / 4,
    "fifth": 1 / 5,
    "half": 1 / 2,
}
_OF_TWO: Final = re.compile(r"(?<![\d.,/])(\d{1,2})\s*/\s*(\d{1,2})(?![\d/])")
#: Words that bind a part to its zone are no longer than this [letters].
_CLOSE: Final = 80
_MARKED: Final = re.compile(r"[;.,](?!\d)")


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


def without_parts(names: Sequence[str], text: str) -> str:
    """Return a text without the words of its parts; the zones' names stay."""
    for start, end, part in reversed(_found(names, text, "ft")):
        denied = _denial(text[:start])
        start = start if denied is None else denied
        behind = text[end:]
        left = _says("left").first(behind) if part.is_left and denied is None else None
        behind = behind if left is None else f"{left.before} {left.after}"
        text = f"{text[:start]} {behind}"
    return text


def _denial(before: str) -> int | None:
    """Return where a denial begins that a text ends with: "all but about"."""
    # What denies stands close: the rest of a long text is not looked through again.
    skipped = max(0, len(before) - _CLOSE)
    before = before[skipped:]
    while (filler := _says("filler").at_end(before)) is not None:
        before = filler.before
    found = _says("not").at_end(before)
    return None if found is None else skipped + found.start


def _found(names: Sequence[str], text: str, unit: str) -> list[tuple[int, int, PartSaid]]:
    pieces = [(each.start, each.end, PartSaid(is_rest=True)) for each in _says("rest").every(text)]
    pieces += [*_shares_said(text), *_areas_said(text, unit)]
    zones = _zones_at(names, text)
    some = _says("open" if zones else "open_of_all")
    pieces += [
        (each.start, each.end, PartSaid())
        for each in some.every(text)
        if not _says("of_else").at_start(each.after.lstrip())
    ]
    taken = Taken(text)
    kept = [piece for piece in pieces if taken.take(*piece[:2])]
    kept.sort(key=lambda each: each[0])
    bound = [(start, end, _bound(part, start, end, text, zones)) for start, end, part in kept]
    # A share of nothing kept, such as a patch that stands for no zone of ours, is no part; some of
    # all of it is. Nor is a corner a part, beside the size it has.
    is_sized = any(not part.is_open for _, _, part in bound)
    return [
        (start, end, part)
        for start, end, part in bound
        if not part.is_open or (not is_sized and (part.zone or not zones))
    ]


def _shares(text: str) -> list[tuple[int, int, float]]:
    taken = Taken(text)
    found = [
        (said.start, said.end, share)
        for name, share in _FRACTIONS.items()
        for said in _says(name).every(text)
        if taken.take(said.start, said.end)
    ]
    for match in _OF_TWO.finditer(text):
        above, below = int(match[1]), int(match[2])
        if 0 < above < below:
            found.append((*match.span(), above / below))
    percents = [(said, int(said["n"])) for said in _says("percent").every(text)]
    found += [(said.start, said.end, percent / 100) for said, percent in percents if percent]
    return found


def _shares_said(text: str) -> list[tuple[int, int, PartSaid]]:
    return [
        (start, end, PartSaid(share=share))
        for start, end, share in _shares(text)
        if not _says("of_else").at_start(text[end:].lstrip())
        and not _says("ordinal").at_end(text[max(0, start - _CLOSE) : start])
    ]


def _areas_said(text: str, unit: str) -> list[tuple[int, int, PartSaid]]:
    found: list[tuple[int, int, PartSaid]] = []
    for name in ("area", "size"):
        for said in _says(name).every(text):
            area_m2 = _area_m2(said.it, unit)
            is_rate = said.before.rstrip().endswith("/") or _says("per").at_end(
                said.before[-_CLOSE:]
            )
            if area_m2 and not is_rate:
                found.append((said.start, said.end, PartSaid(area_m2=area_m2)))
    return found


def _area_m2(said: str, unit: str) -> float | None:
    said = re.sub(rf"(?<=[\d\s'])\s*{kind('by')}\s*(?=[\d.])", " x ", said, flags=re.IGNORECASE)
    figures = read_figures(said)
    if all(figure.kind == "bare" for figure in figures):
        figures = read_figures(f"{said} {unit}")
    areas, lengths = of_kind(figures, "area"), of_kind(figures, "length")
    if areas:
        return areas[0].value
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
    after = next((z for z in zones if z[0] >= end and _is_up_to(text[end : z[0]])), None)
    before = next(
        (z for z in reversed(zones) if z[1] <= start and _is_from(text[z[1] : start])), None
    )
    zone = after or before
    if zone is None and len({name for _, _, name in zones}) == 1:
        zone = zones[0]
    behind = text[max(end, 0 if zone is None else zone[1]) :]
    behind = _MARKED.split(behind, maxsplit=1)[0]
    stop = _says("clause_end").first(behind)
    behind = behind if stop is None else stop.before
    is_left = _says("left").first(behind) is not None or _denial(text[:start]) is not None
    return replace(
        part, zone=None if zone is None else zone[2], is_left=is_left and not part.is_rest
    )


def _is_up_to(gap: str) -> bool:
    return len(gap) <= _CLOSE and not _says("up_to_zone").without(gap).strip()


def _is_from(gap: str) -> bool:
    return len(gap) <= _CLOSE and not _says("from_zone").without(gap).strip(" ,:(–-")
