"""Slips of the thumb: "fornt" is "front", as it is no word, and "front" is said all the time.

What is a word, a general dictionary of English knows (pyspellchecker's); what is said all the time
is counted in our sentences by ``python -m bot.hearing.train``.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable
from functools import cache, lru_cache
from pathlib import Path
from typing import Any, Final

from rapidfuzz.distance import OSA
from spellchecker import SpellChecker

from bot.hearing import words

COMMON: Final = Path(__file__).parent / "languages" / "en" / "common.txt"
#: Words in so many sentences may be meant by a slip.
_LEAST: Final = 25
#: A shorter word is too near to too many; of a long one two letters may be wrong.
_SHORTEST: Final = 5
_LONG: Final = 9
_WORD: Final = re.compile(r"[a-z]+")


@lru_cache(maxsize=4096)
def near_word(word: str) -> str:
    """Return the common English word that a word is a slip of; itself where it is none."""
    if len(word) < _SHORTEST or word in _common() or word in _listed():
        return word
    most = 2 if len(word) >= _LONG else 1
    near = [
        (slips, place, common)
        for common, place in _common().items()
        if (slips := OSA.distance(word, common, score_cutoff=most)) <= most
        and common[0] in word[:2]
    ]
    # The dictionary is opened for what would be changed alone.
    if not (near or word.endswith("in")) or word in _dictionary():
        return word
    if word.endswith("in") and f"{word}g" in _dictionary():
        return f"{word}g"
    return min(near)[2] if near else word


def count(sentences: Iterable[str]) -> None:
    """Write the common words anew, the commonest first."""
    found = Counter(word for said in sentences for word in sorted(set(_WORD.findall(said))))
    kept = (word for word, times in found.most_common() if times >= _LEAST)
    long = (word for word in kept if len(word) >= _SHORTEST - 1 and word in _dictionary())
    COMMON.write_text("".join(f"{word}\n" for word in long), "utf-8")
    _common.cache_clear()
    near_word.cache_clear()


@cache
def _common() -> dict[str, int]:
    """Return the place of each common word, the commonest first."""
    return {word: place for place, word in enumerate(COMMON.read_text("utf-8").split())}


@cache
def _listed() -> frozenset[str]:
    """Return the words of our lists: names of products, weeds, units, in any language."""
    sections = [
        (section, name)
        for name in ("things", "values")
        for section in ("products", "weeds", "grasses", "zones", "units", "weekdays", "months")
        if all(section in words.table(each, name) for each in words.LANGUAGES)
    ]
    return frozenset(
        word
        for section, name in sections
        for said in words.canon(section, name)
        for word in said.split()
    )


@cache
def _dictionary() -> Any:
    return SpellChecker(language="en").word_frequency
