"""A text without what could lead to somebody: names, places, numbers, addresses.

For texts that were not understood and that people let us keep. Better a word too many is taken out
than one too few: what is kept shows how people speak, not of whom.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from functools import cache
from typing import Final

from bot.hearing.words import LANGUAGES, words_of

#: Longest text that is kept.
LONGEST: Final = 200
#: Words of a town's name at most.
_MOST_WORDS: Final = 3

_ADDRESS: Final = re.compile(r"\S+@\S+|https?://\S+|www\.\S+|@\w+|\b\w+\.(?:com|net|org)\b\S*")
_NUMBER: Final = re.compile(r"[#+]?\d(?:[\d.,:/()-]*\d)?(?:st|nd|rd|th)?", re.IGNORECASE)
_WORD: Final = re.compile(r"[^\W\d_]+(?:['’-][^\W\d_]+)*|<\w+>|[^\w\s]|\S")


def unnamed(text: str, names: Iterable[str], is_town: Callable[[str], bool]) -> str:
    """Return a text with placeholders for what could lead to somebody.

    Parameters
    ----------
    text
        What was said.
    names
        Names known here: of zones, yards, people.
    is_town
        Tells whether words are the name of a town.
    """
    said = _ADDRESS.sub("<address>", " ".join(text.split())[:LONGEST])
    for name in sorted({each.strip() for each in names if each.strip()}, key=len, reverse=True):
        said = re.sub(rf"(?<!\w){re.escape(name)}(?!\w)", "<name>", said, flags=re.IGNORECASE)
        for part in name.split():
            if part.casefold() not in _words("common") and len(part) > 1:
                said = re.sub(
                    rf"(?<!\w){re.escape(part)}(?!\w)", "<name>", said, flags=re.IGNORECASE
                )
    said = _NUMBER.sub("<number>", said)
    words = _WORD.findall(said)
    return " ".join(_without_places(_without_people(words), is_town))


def _without_people(words: list[str]) -> list[str]:
    """Replace what follows a title or a relation, and capitals inside a sentence."""
    out: list[str] = []
    is_sentence_begin = True
    for word in words:
        before = out[-1].casefold() if out else ""
        is_capital = word[:1].isupper() and not word.isupper()
        is_free = word[:1].isalpha() and word.casefold().replace("'", "") not in _words("common")
        if is_free and (before in _words("before") or (is_capital and not is_sentence_begin)):
            out.append("<name>")
        else:
            out.append(word)
        is_sentence_begin = word in (".", "!", "?")
    return [word if word.startswith("<") else word.casefold() for word in out]


def _without_places(words: list[str], is_town: Callable[[str], bool]) -> list[str]:
    out: list[str] = []
    at = 0
    while at < len(words):
        for length in range(min(_MOST_WORDS, len(words) - at), 0, -1):
            phrase = words[at : at + length]
            if _may_be_town(phrase) and is_town(" ".join(phrase)):
                out.append("<place>")
                at += length
                break
        else:
            out.append(words[at])
            at += 1
    return out


def _may_be_town(phrase: list[str]) -> bool:
    is_words = all(word[:1].isalpha() for word in phrase)
    return is_words and not all(word in _words("common") for word in phrase)


@cache
def _words(kind: str) -> frozenset[str]:
    """Return the words of a kind, over all languages."""
    every = (words_of(language, "names", kind, "words") for language in LANGUAGES)
    return frozenset(word for each in every for word in each)
