"""Phrases of the languages' folders: what a form or a reader listens for, written as people say it.

``languages/<language>/phrases/<subject>.toml`` names lists of phrases. A phrase holds plain words,
``[words that may be missing]``, ``[any number of them]*``, ``(this|that)``, ``{name}`` for a piece
of any text, ``{name:kind}`` for one of a kind below, ``word*`` for any ending and ``...`` for
anything or nothing. ``{>kind}`` stands next and is no part of it, ``{!kind}`` must not stand there.
Brackets nest; spaces, case and accents do not matter. Kinds of pieces that hold words, such as an
amount of water, are phrases themselves: ``kinds.toml``, of figures ``values.toml``.
"""

from __future__ import annotations

import itertools
import re
import unicodedata
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from functools import cache, cached_property, lru_cache
from typing import Final

from bot.hearing import words
from bot.hearing.expressions import KINDS

#: Files whose phrases are pieces of others.
_PIECES: Final = ("kinds", "values")
#: A place that is not within a word.
_EDGE: Final = r"(?:(?<!\w)|(?!\w))"
_TOKEN: Final = re.compile(
    r"(?P<any>\s*\.\.\.\s*)|(?P<space>\s+)"
    r"|(?P<piece>\{(?P<name>\w*)(?P<how>[:>!])?(?P<kind>\w+)?\})"
    r"|(?P<ending>\*)|(?P<open>[\[(])|(?P<close>[\])])|(?P<or>\|)|(?P<letter>.)"
)


class BadPhrase(ValueError):
    """Raised for a line that is no phrase."""


@dataclass(frozen=True)
class Said:
    """What a phrase found in a text: itself, what is around it, and its pieces, as written."""

    it: str
    before: str
    after: str
    start: int
    end: int
    match: re.Match[str]

    def __getitem__(self, name: str) -> str:
        """Return a piece as it was written, empty where it was left out."""
        for each in self.match.re.groupindex:
            if each.partition("__")[0] == name and self.match[each] is not None:
                start, end = self.match.span(each)
                return self.it[start - self.start : end - self.start]
        return ""


class Phrases:
    """The phrases of one name, in every language that has them; the first that fits counts."""

    def __init__(self, phrases: tuple[str, ...]) -> None:
        count = itertools.count()
        # Phrases may share the names of their pieces: each gets a number of its own.
        inside = "|".join(_regex(each) for each in phrases)
        self._text = re.sub(r"(\(\?P<\w+)>", lambda found: f"{found[1]}__{next(count)}>", inside)

    @cached_property
    def _whole(self) -> re.Pattern[str]:
        return re.compile(self._text)

    @cached_property
    def _inside(self) -> re.Pattern[str]:
        return re.compile(rf"{_EDGE}(?:{self._text}){_EDGE}")

    @cached_property
    def _last(self) -> re.Pattern[str]:
        return re.compile(rf"{_EDGE}(?:{self._text})\s*$")

    def whole(self, text: str) -> Said | None:
        """Return what a text says that is such a phrase whole, None for others."""
        return _said(text, self._whole.fullmatch(fold(text)))

    def first(self, text: str) -> Said | None:
        """Return the first place in a text where such a phrase stands, None where none does."""
        return _said(text, self._inside.search(fold(text)))

    def at_start(self, text: str) -> Said | None:
        """Return the phrase that a text begins with, None where it begins with none."""
        return _said(text, self._inside.match(fold(text)))

    def at_end(self, text: str) -> Said | None:
        """Return the phrase that a text ends with, None where it ends with none."""
        return _said(text, self._last.search(fold(text)))

    def every(self, text: str) -> Iterator[Said]:
        """Return all places in a text where such a phrase stands, in order."""
        found = (_said(text, match) for match in self._inside.finditer(fold(text)))
        return (said for said in found if said is not None)

    def without(self, text: str, instead: str | Callable[[Said], str] = " ") -> str:
        """Return a text with each such phrase put out of it, or something instead of it."""
        pieces, at = [], 0
        for found in self.every(text):
            new = instead if isinstance(instead, str) else instead(found)
            pieces += [text[at : found.start], new]
            at = found.end
        return "".join([*pieces, text[at:]])


def _said(text: str, match: re.Match[str] | None) -> Said | None:
    if match is None:
        return None
    start, end = match.span()
    return Said(text[start:end], text[:start], text[end:], start, end, match)


@cache
def phrases(subject: str, name: str) -> Phrases:
    """Return the phrases of a name in a subject's file, in all languages.

    Raises
    ------
    KeyError
        If no language has them.
    BadPhrase
        If one is no phrase.
    """
    found = [_listed(language, subject).get(name, ()) for language in words.LANGUAGES]
    if not any(found):
        raise KeyError(f"{subject}.{name}")
    return Phrases(tuple(phrase for each in found for phrase in each))


def which(subject: str, names: Iterable[str], text: str) -> str | None:
    """Return the first of these names one of whose phrases a text is whole; None for no such."""
    return next((name for name in names if phrases(subject, name).whole(text)), None)


# Dozens of phrases are asked of each text.
@lru_cache(maxsize=256)
def fold(text: str) -> str:
    """Return a text in small letters without accents, letter by letter."""
    if text.isascii():
        return text.lower()
    return "".join(unicodedata.normalize("NFD", letter.lower())[0] for letter in text)


@cache
def _listed(language: str, subject: str) -> dict[str, tuple[str, ...]]:
    found = words.table(language, subject, "phrases")
    return {
        name: (listed,) if isinstance(listed, str) else tuple(listed)
        for name, listed in found.items()
    }


@cache
def kind(name: str) -> str:
    """Return the pattern of a kind of piece, for patterns of figures around it."""
    if name in KINDS:
        return KINDS[name]
    listed = [_listed(lang, file) for file in _PIECES for lang in words.LANGUAGES]
    every = [phrase for each in listed for phrase in each.get(name, ())]
    if not every:
        raise BadPhrase(f"no kind {name}")
    return f"(?:{'|'.join(map(_regex, every))})"


def _regex(phrase: str) -> str:
    """Return the pattern of a phrase; `BadPhrase` where its brackets do not match."""
    tokens = list(_TOKEN.finditer(fold(" ".join(phrase.split()))))
    pattern, at = _branches(tokens, 0)
    if at < len(tokens):
        raise BadPhrase(phrase)
    return pattern


def _branches(tokens: list[re.Match[str]], at: int) -> tuple[str, int]:
    """Return the pattern of all up to a closing bracket; a space goes with what may be missing."""
    branches, done = [], ""
    is_leading = True
    while at < len(tokens) and tokens[at].lastgroup != "close":
        token = tokens[at]
        after = tokens[at + 1] if at + 1 < len(tokens) else None
        if token["or"]:
            branches.append(done)
            done, at, is_leading = "", at + 1, True
        elif token["space"] and after is not None and after["open"] == "[":
            inside, at = _bracket(tokens, at + 1)
            times, at = _times(tokens, at)
            done += rf"(?:\s+{inside}){times}"
        elif token["open"]:
            inside, at = _bracket(tokens, at)
            times, at = ("", at) if token["open"] == "(" else _times(tokens, at)
            if times and is_leading and at < len(tokens) and tokens[at]["space"]:
                done += rf"(?:{inside}\s+){times}"
                at += 1
            else:
                done += inside + times
                is_leading = False
        else:
            done += _plain(token)
            at, is_leading = at + 1, False
    return "|".join([*branches, done]), at


def _times(tokens: list[re.Match[str]], at: int) -> tuple[str, int]:
    """Return how often what may be missing stands there, and where the phrase goes on."""
    is_any = at < len(tokens) and tokens[at]["ending"] is not None
    return ("*", at + 1) if is_any else ("?", at)


def _bracket(tokens: list[re.Match[str]], at: int) -> tuple[str, int]:
    inside, end = _branches(tokens, at + 1)
    if end == len(tokens) or (tokens[end]["close"] == "]") != (tokens[at]["open"] == "["):
        raise BadPhrase("".join(token[0] for token in tokens))
    return f"(?:{inside})", end + 1


def _plain(token: re.Match[str]) -> str:
    if token["space"]:
        return r"\s+"
    if token["any"]:
        return r"(?:\b|^).*(?:\b|$)"
    if token["ending"]:
        return r"\w*"
    if token["piece"]:
        name, inside = token["name"], kind(token["kind"] or "text")
        ahead = {">": "=", "!": "!"}.get(token["how"] or "", ":")
        return f"(?P<{name}>{inside})" if name else f"(?{ahead}{inside})"
    return re.escape(token["letter"])
