"""What a clause speaks of, in names that all languages share: rain, late, seed, buy ..."""

from __future__ import annotations

import re
from functools import cache

from bot.hearing import words
from bot.hearing.words import bare


def concepts_of(text: str) -> list[str]:
    """Return the concepts of a text in the order of their words; a word may have several."""
    found: list[tuple[int, str]] = []
    for name, pattern in _patterns():
        found += [(match.start(), name) for match in pattern.finditer(text)]
    return [name for _, name in sorted(found)]


@cache
def _patterns() -> tuple[tuple[str, re.Pattern[str]], ...]:
    names = words.table(words.LANGUAGES[0], "concepts")
    return tuple((name, _pattern(name)) for name in names)


def _pattern(name: str) -> re.Pattern[str]:
    every = [
        bare(word)
        for language in words.LANGUAGES
        for word in words.words_of(language, "concepts", name)
    ]
    inside = "|".join(
        re.escape(word).replace(r"\*", r"\w*").replace(r"\ ", r"\s+")
        for word in sorted(set(every), key=lambda word: -len(word))
    )
    return re.compile(rf"(?<!\w)(?:{inside})(?!\w)")
