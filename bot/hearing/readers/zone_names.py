"""Zones by the names people give them."""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import lru_cache, partial
from typing import Final

from bot.hearing.phrases import Said, phrases

_says: Final = partial(phrases, "zones")
_MARKS: Final = re.compile(r"[,;&+.:]")


def but_of(text: str) -> Said | None:
    """Return the exception that a text makes: "everything but the back"."""
    return _says("but").first(text)


def all_but(names: Sequence[str], text: str) -> tuple[str, ...] | None:
    """Return the zones that ``everything but the back`` means; None for other texts."""
    every = _says("everything").first(text)
    but = None if every is None else but_of(every.after)
    if but is None:
        return None
    left, _ = _leading(names, but["but"])
    return tuple(name for name in names if name not in left) if left else None


def without_denied(names: Sequence[str], text: str) -> str:
    """Return a text without the zones it denies: ``the front but not the back``."""
    for denied in _says("denied").every(text):
        found, end = _leading(names, denied.after)
        if found and denied.after[0] == " ":
            return f"{denied.before.rstrip(' ,')} {denied.after[end:]}"
    return text


def _leading(names: Sequence[str], text: str) -> tuple[set[str], int]:
    """Return the zones that a text begins with, and where they end."""
    spelled = {word: min(owners) for word, owners in lone_words(names).items() if len(owners) == 1}
    spelled |= {name.casefold(): name for name in names}
    small, found, at, end = text.casefold(), set[str](), 0, 0
    while True:
        at = len(small) - len(small[at:].lstrip(" ,&"))
        filler = _says("small").at_start(small[at:])
        here = [said for said in spelled if re.match(rf"{re.escape(said)}(?!\w)", small[at:])]
        if filler is not None and not here:
            at += filler.end
        elif here:
            longest = max(here, key=len)
            found.add(spelled[longest])
            at = end = at + len(longest)
        else:
            return found, end


def find_names(names: Sequence[str], text: str) -> tuple[tuple[str, ...], bool, str]:
    """Return the zones a text names, in their order, whether it means all, and the words left.

    A whole name counts; so does a word that only one zone's name holds.
    """
    others = all_but(names, text)
    if others is not None:
        left = _says("but").without(_says("everything").without(text))
        return others, False, _words_left(left)
    rest = f" {text} "
    found: set[str] = set()
    is_all = _says("everything").first(rest) is not None
    rest = _says("everything").without(rest)
    for name in sorted(names, key=len, reverse=True):
        pattern = _whole(name)
        if pattern.search(rest):
            found.add(name)
            rest = pattern.sub(" ", rest)
    for word, owners in lone_words(names).items():
        pattern = _whole(word)
        if len(owners) == 1 and pattern.search(rest):
            found |= owners
            rest = pattern.sub(" ", rest)
    return tuple(name for name in names if name in found), is_all, _words_left(rest)


def _words_left(text: str) -> str:
    """Return the words of a text that join no names."""
    return " ".join(_MARKS.sub(" ", _says("joint").without(text)).split())


@lru_cache(maxsize=512)
def _whole(words: str) -> re.Pattern[str]:
    return re.compile(rf"(?<!\w){re.escape(words)}(?!\w)", re.IGNORECASE)


def is_generic(word: str) -> bool:
    """Tell whether a word is one of many names, and stands for none alone."""
    return _says("generic").whole(word) is not None


def is_whole_lot(name: str) -> bool:
    """Tell whether a name is of all the ground, and has the other zones in it."""
    return _says("whole").whole(name) is not None


def lone_words(names: Sequence[str]) -> dict[str, set[str]]:
    """Return each word of the zones' names with the names that hold it."""
    owners: dict[str, set[str]] = {}
    for name in names:
        for word in re.findall(r"[\w'’-]+", name.casefold()):
            if len(word) > 2 and not word.isdigit() and not is_generic(word):
                owners.setdefault(word, set()).add(name)
    return owners
