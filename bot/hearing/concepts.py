"""What a clause speaks of, in names that all languages share: rain, late, seed, buy ..."""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import cache, lru_cache
from typing import Final

from bot.hearing import words
from bot.hearing.words import bare

_WORD: Final = re.compile(r"\w+")
#: So many letters of a word say which phrases may begin with it: none is shorter.
_KEY: Final = 2


@lru_cache(maxsize=256)
def concepts_of(text: str) -> tuple[str, ...]:
    """Return the concepts of a text in the order of their words; a word may have several."""
    found: list[tuple[int, str]] = []
    ends: dict[str, int] = {}
    for word in _WORD.finditer(text):
        start = word.start()
        for name, pattern in _beginnings().get(text[start : start + _KEY], ()):
            match = pattern.match(text, start) if ends.get(name, 0) <= start else None
            if match is not None:
                ends[name] = match.end()
                found.append((start, name))
    return tuple(name for _, name in sorted(found))


@cache
def _beginnings() -> dict[str, list[tuple[str, re.Pattern[str]]]]:
    """Return patterns of the phrases of each concept, by the letters that they begin with."""
    found: dict[str, list[tuple[str, re.Pattern[str]]]] = {}
    for name in words.table(words.LANGUAGES[0], "concepts"):
        by_key: dict[str, set[str]] = {}
        for language in words.LANGUAGES:
            for phrase in map(bare, words.words_of(language, "concepts", name)):
                by_key.setdefault(phrase[:_KEY], set()).add(phrase)
        for key, phrases in by_key.items():
            found.setdefault(key, []).append((name, _pattern(phrases)))
    return found


def _pattern(phrases: Iterable[str]) -> re.Pattern[str]:
    inside = "|".join(
        re.escape(phrase).replace(r"\*", r"\w*").replace(r"\ ", r"\s+")
        for phrase in sorted(phrases, key=lambda each: (-len(each), each))
    )
    return re.compile(rf"(?:{inside})(?!\w)")
