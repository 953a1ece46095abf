"""Our forms said in Spanish: ``registro 3 viento 5 mph`` -> ``record 3 wind 5 mph``.

The forms' grammars read English. What a whole text of ours in Spanish means is written there in
``languages/es/words/forms.toml``; names in it keep the person's own spelling.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Sequence
from functools import cache
from typing import Final, TypeAlias

from bot.hearing import words

_Pairs: TypeAlias = Sequence[tuple[re.Pattern[str], str]]
#: A place in the English writing: a group, and the table its words are put into English by.
_PLACE: Final = re.compile(r"\{(?P<group>\w)(?::(?P<kind>\w+))?\}")


def in_english(text: str) -> str | None:
    """Return a text of a form of ours in Spanish as the grammars read it, None for other texts."""
    said = " ".join(text.split()).strip("¿?¡!. ")
    folded = _folded(said)
    for pattern, english in _whole():
        match = pattern.fullmatch(folded)
        if match is not None:
            return _written(said, match, english)
    return None


def _written(said: str, match: re.Match[str], english: str) -> str:
    def piece(place: re.Match[str]) -> str:
        start, end = match.span(place["group"])
        return "" if start < 0 else _put(said[start:end], place["kind"])

    return _PLACE.sub(piece, english)


def _put(said: str, kind: str | None) -> str:
    """Return a piece with the words of a table in English."""
    for pattern, english in () if kind is None else _kind(kind):
        folded, done, last = _folded(said), "", 0
        for found in pattern.finditer(folded):
            done += said[last : found.start()] + found.expand(english)
            last = found.end()
        said = done + said[last:]
    return said


def _folded(text: str) -> str:
    """Return a text in small letters without accents, letter by letter."""
    return "".join(unicodedata.normalize("NFD", letter.lower())[0] for letter in text)


@cache
def _whole() -> _Pairs:
    return _patterns(words.table("es", "forms")["whole"])


@cache
def _kind(name: str) -> _Pairs:
    kinds = words.table("es", "forms")["kinds"]
    pairs = kinds[name]
    # Days and amounts stand in what others put down, too.
    more = kinds["day"] if name == "service" else []
    return _patterns([*pairs, *more])


def _patterns(pairs: Sequence[tuple[str, str]]) -> _Pairs:
    return tuple((re.compile(said, re.IGNORECASE), english) for said, english in pairs)
