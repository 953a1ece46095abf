"""The word lists of each language, read once: what people call things, and what we call them."""

from __future__ import annotations

import re
import tomllib
import unicodedata
from collections.abc import Iterable
from functools import cache, lru_cache
from importlib import resources
from typing import Any, Final

#: Languages that are understood, the first one as a fallback.
LANGUAGES: Final = ("en", "es")


@cache
def table(language: str, name: str, folder: str = "words") -> dict[str, Any]:
    """Return a file of words, such as ``things`` in ``es``; empty where there is none."""
    path = resources.files("bot.hearing") / "languages" / language / folder / f"{name}.toml"
    return tomllib.loads(path.read_text("utf-8")) if path.is_file() else {}


def listed(words: str | Iterable[str]) -> list[str]:
    """Return the words of a list written between commas."""
    each = words.split(",") if isinstance(words, str) else words
    return [word.strip() for word in each if word.strip()]


@cache
def words_of(language: str, name: str, *path: str) -> tuple[str, ...]:
    """Return one list of words, such as ``guards``, ``plan``, ``words``."""
    found: Any = table(language, name)
    for step in path:
        found = found[step]
    return tuple(listed(found))


@cache
def phrases(name: str, *path: str, language: str | None = None) -> re.Pattern[str]:
    """Return a pattern that finds any phrase of a list, in one language or in all."""
    every = [language] if language else LANGUAGES
    return any_of(word for each in every for word in words_of(each, name, *path))


def any_of(words: Iterable[str]) -> re.Pattern[str]:
    """Return a pattern that finds any of these words or phrases whole, the longest first."""
    kept = sorted({bare(word) for word in words if word}, key=lambda word: (-len(word), word))
    if not kept:
        return re.compile(r"(?!)")
    inside = "|".join(re.escape(word).replace(r"\ ", r"\s+") for word in kept)
    return re.compile(rf"(?<![\w])(?:{inside})(?![\w])")


@cache
def canon(section: str, name: str = "things") -> dict[str, str]:
    """Return what each word of a section stands for, over all languages."""
    found: dict[str, str] = {}
    for language in LANGUAGES:
        for meaning, words in table(language, name)[section].items():
            for word in listed(words):
                found.setdefault(bare(word), meaning)
    return found


@cache
def stands_in(name: str, text: str) -> bool:
    """Tell whether a name stands in a text whole, letter by letter."""
    return re.search(rf"(?<!\w){re.escape(name)}(?!\w)", text) is not None


@cache
def finder(section: str, name: str = "things") -> re.Pattern[str]:
    """Return a pattern that finds the words of a section, over all languages."""
    return any_of(canon(section, name))


@lru_cache(maxsize=1024)
def bare(text: str) -> str:
    """Return a text in small letters without accents."""
    kept = unicodedata.normalize("NFKD", text.casefold())
    return "".join(letter for letter in kept if not unicodedata.combining(letter))
