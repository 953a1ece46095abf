"""Which zones a sentence takes out: "leave out the strip, just do the front and the back"."""

from __future__ import annotations

import itertools
import re
from collections.abc import Iterator, Sequence
from functools import partial
from typing import Final

from bot.hearing.names_heard import Name
from bot.hearing.phrases import phrases
from bot.hearing.words import bare

_says: Final = partial(phrases, "zone")
_MARK: Final = re.compile(r"[,;:.!?\n]+\s*")


def taken_out(text: str, named: Sequence[Name]) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Return the zones that a text in the normal form takes out, or what is called like one.

    Of several names those count that stand with what takes out, or before its "it"; where that
    does not tell, none.
    """
    about = _meant(text, named) if len(named) > 1 else named
    for _, start, end, kept in about:
        before = _says("qualified").at_end(text[:start])
        word = "" if before is None else before["word"] or before.it
        is_whole = kept is not None and text[start:end] == bare(kept[0])
        is_whole = is_whole and _says("direction").whole(word) is None
        is_known = is_whole or not word or phrases("sizes", "how_big").whole(word) is not None
        if kept is None or not is_known:
            # "The north strip" is not the ditch strip.
            return (), (f"{word} {text[start:end]}".strip(),)
    return tuple(dict.fromkeys(kept[0] for *_, kept in about if kept)), ()


def _meant(text: str, named: Sequence[Name]) -> Sequence[Name]:
    before: list[Name] = []
    for start, end in _pieces(text, named):
        inside = [each for each in named if start <= each[1] < end]
        if _says("takes_out").first(text[start:end]):
            return _row(text, inside or before)
        before = inside or before
    row = _row(text, named)
    return row if len(row) == len(named) else ()


def _row(text: str, named: Sequence[Name]) -> Sequence[Name]:
    """Return the names of one list: "the strip between front and side" is of the strip alone."""
    pairs = itertools.pairwise(named)
    ends = (place for place, pair in enumerate(pairs, 1) if not _is_list(text, *pair))
    return named[: next(ends, len(named))]


def _is_list(text: str, first: Name, second: Name) -> bool:
    return _says("listed").whole(text[first[2] : second[1]].strip()) is not None


def _pieces(text: str, named: Sequence[Name]) -> Iterator[tuple[int, int]]:
    """Yield what stands between marks, or before what stays: "and just do the front"."""
    ends = [match.end() for match in _MARK.finditer(text)]
    ends += [said.start for said in _says("stays").every(text)]
    lists = [(a[2], b[1]) for a, b in itertools.pairwise(named) if _is_list(text, a, b)]
    cuts = (each for each in sorted(ends) if not any(a <= each <= b for a, b in lists))
    return itertools.pairwise([0, *cuts, len(text)])
