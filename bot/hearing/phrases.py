"""Phrases of the languages' folders: what a form or a reader listens for, written as people say it.

``languages/<language>/phrases/<subject>.toml`` names lists of phrases. A phrase holds plain words,
``[words that may be missing]``, ``(this|that)``, ``{name}`` for a piece of any text,
``{name:kind}`` for a piece of a kind below, ``word*`` for any ending of a word and ``...`` for
anything or nothing. Brackets nest; spaces, case and accents of what is said do not matter. Kinds
of pieces that hold words, such as an amount of water, are phrases themselves: ``kinds.toml``.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from typing import Final

from bot.hearing import words

#: What a piece of a kind is; figures and units are the grammars' own.
KINDS: Final[Mapping[str, str]] = {
    "text": r".+?",
    "rest": r".+",
    "maybe": r".*?",
    "word": r"[^\s,;:]+",
    "words": r"[^\d,;:]+?",
    "figure": r"\d+(?:[.,]\d+)*",
    "count": r"\d+",
}

_TOKEN: Final = re.compile(
    r"(?P<any>\s*\.\.\.\s*)|(?P<space>\s+)|(?P<piece>\{(?P<name>\w*)(?::(?P<kind>\w+))?\})"
    r"|(?P<ending>\*)|(?P<open>[\[(])|(?P<close>[\])])|(?P<or>\|)|(?P<letter>.)"
)


class BadPhrase(ValueError):
    """Raised for a line that is no phrase."""


@dataclass(frozen=True)
class Said:
    """What a phrase found in a text: its pieces as they were written, and where it stands."""

    text: str
    match: re.Match[str]

    def __getitem__(self, name: str) -> str:
        """Return a piece as it was written, empty where it was left out."""
        if name not in self.match.re.groupindex:
            return ""
        start, end = self.match.span(name)
        return self.text[max(start, 0) : max(end, 0)]

    @property
    def start(self) -> int:
        """Where it begins in the text."""
        return self.match.start()

    @property
    def end(self) -> int:
        """Where it ends in the text."""
        return self.match.end()

    @property
    def before(self) -> str:
        """What stands before it."""
        return self.text[: self.match.start()]

    @property
    def after(self) -> str:
        """What stands behind it."""
        return self.text[self.match.end() :]


class Phrases:
    """The phrases of one name, in every language that has them; the first that fits counts."""

    def __init__(self, phrases: tuple[str, ...]) -> None:
        inside = [_regex(phrase) for phrase in phrases]
        plain = [each for each in inside if "(?P<" not in each]
        # What names no pieces is one pattern; where phrases share names each is its own.
        grouped = [each for each in inside if "(?P<" in each]
        self._each = [re.compile(each) for each in [*([_either(plain)] if plain else []), *grouped]]
        self._inside = [re.compile(rf"(?<!\w)(?:{each.pattern})(?!\w)") for each in self._each]

    def whole(self, text: str) -> Said | None:
        """Return what a text says that is such a phrase whole, None for others."""
        folded = fold(text)
        found = (each.fullmatch(folded) for each in self._each)
        return next((Said(text, match) for match in found if match), None)

    def first(self, text: str) -> Said | None:
        """Return the first place in a text where such a phrase stands, None where none does."""
        folded = fold(text)
        found = [match for each in self._inside if (match := each.search(folded))]
        return Said(text, min(found, key=lambda match: match.start())) if found else None

    def at_start(self, text: str) -> Said | None:
        """Return the phrase that a text begins with, None where it begins with none."""
        folded = fold(text)
        found = (each.match(folded) for each in self._inside)
        return next((Said(text, match) for match in found if match), None)

    def every(self, text: str) -> Iterator[Said]:
        """Return all places in a text where such a phrase stands, those of one phrase in order."""
        folded = fold(text)
        for each in self._inside:
            yield from (Said(text, match) for match in each.finditer(folded))

    def without(self, text: str, instead: str = " ") -> str:
        """Return a text with each such phrase put out of it."""
        for found in sorted(self.every(text), key=lambda said: -said.start):
            text = text[: found.start] + instead + text[found.end :]
        return text


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
def _kind(name: str) -> str:
    every = [each for lang in words.LANGUAGES for each in _listed(lang, "kinds").get(name, ())]
    if not every:
        raise BadPhrase(f"no kind {name}")
    return _either([_regex(each) for each in every])


def _either(regexes: list[str]) -> str:
    return f"(?:{'|'.join(regexes)})"


def _regex(phrase: str) -> str:
    """Return the pattern of a phrase.

    Raises
    ------
    BadPhrase
        If its brackets do not match.
    """
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
            done += rf"(?:\s+{inside})?"
        elif token["open"]:
            inside, at = _bracket(tokens, at)
            if token["open"] == "(":
                done += inside
                is_leading = False
            elif is_leading and at < len(tokens) and tokens[at]["space"]:
                done += rf"(?:{inside}\s+)?"
                at += 1
            else:
                done += f"{inside}?"
                is_leading = False
        else:
            done += _plain(token)
            at, is_leading = at + 1, False
    return "|".join([*branches, done]), at


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
        name, kind = token["name"], token["kind"] or "text"
        inside = KINDS.get(kind) or _kind(kind)
        return f"(?P<{name}>{inside})" if name else f"(?:{inside})"
    return re.escape(token["letter"])
