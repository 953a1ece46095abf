"""Zones and yards by the names people give them, in any of our languages.

A kept name counts whole, by a word that only it holds, by a near miss of its spelling, and by what
the language calls that part of a lot: "atras" is the zone that is called back.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cache, cached_property, partial

from rapidfuzz.distance import DamerauLevenshtein

from bot.hearing import words
from bot.hearing.phrases import phrases
from bot.hearing.readers.taken import Taken
from bot.hearing.readers.yard_names import every_name, spelled
from bot.hearing.readers.zone_names import is_generic
from bot.hearing.words import bare

_says = partial(phrases, "names")
#: A name found: ``zone``, ``yard``, ``all`` or ``rest``; start, end; kept names, or None unknown.
Name = tuple[str, int, int, "tuple[str, ...] | None"]


def part_of_lot(said: str, language: str) -> str:
    """Return our plain name for a part of a lot: ``front`` for "la de enfrente"; else as said."""
    group = _zone_words(language).get(" ".join(bare(said).split()), "")
    return group if group in _PLAIN else said


def is_part_of_lot(name: str) -> bool:
    """Tell whether a name is our plain one for a part of a lot."""
    return name in _PLAIN


def as_kept(text: str, found: Iterable[tuple[int, int, str]]) -> str:
    """Return a text with names put for the words that they are called by: "la mitad de back"."""
    pieces: list[str] = []
    at = 0
    for start, end, name in sorted(found):
        pieces += [text[at:start], name]
        at = end
    return "".join([*pieces, text[at:]])


def name_alone(said: str) -> str:
    """Return a Spanish name of a part of a lot alone: "frente" of "el frente mide"."""
    ahead, behind = _says("ahead").at_start(said), _says("behind").at_end(said)
    said = said if behind is None else behind.before
    return said[0 if ahead is None else ahead.end :].strip()


#: Parts of a lot that are called so in any language.
_PLAIN = frozenset({"front", "back", "side"})


@dataclass(frozen=True)
class Names:
    """The names that are kept: zones of the yard talked about, and yards."""

    zones: tuple[str, ...] = ()
    yards: tuple[str, ...] = ()

    def find(self, text: str, language: str) -> list[Name]:
        """Return the names in a normal form."""
        taken = Taken(text)
        found = []
        for each in self._all(text, language):
            is_back = language == "en" and text[each[1] : each[2]] == "back"
            is_phrase = is_back and _says("not_back").at_end(text[: each[2]]) is not None
            if not is_phrase and taken.take(*each[1:3]):
                found.append(each)
        return sorted(found, key=lambda each: each[1])

    def _all(self, text: str, language: str) -> Iterator[Name]:
        for pattern, kind, name in self._whole:
            for match in pattern.finditer(text):
                if bare(name) != "home" or language != "en" or _is_home(text, match):
                    yield kind, *match.span(), (name,)
        for match in words.phrases("things", "rest", "words").finditer(text):
            yield "rest", *match.span(), None
        for match in words.phrases("things", "all", "words", language=language).finditer(text):
            yield "all", *match.span(), self.zones
        if language == "en":
            for match in words.phrases("things", "all", "alone", language="en").finditer(text):
                if not _says("not_all").at_start(text[match.end() :].lstrip()):
                    yield "all", *match.span(), self.zones
        for pattern, kind, name in self._lone:
            for match in pattern.finditer(text):
                if kind == "yard" or not self._is_only_like(text, match):
                    yield kind, *match.span(), (name,)
        yield from self._yards_by_language(text)
        yield from self._by_language(text, language)
        yield from self._near(text)

    def _by_language(self, text: str, language: str) -> Iterator[Name]:
        meaning = _zone_words(language)
        for match in _zone_finder(language).finditer(text):
            if self._is_only_like(text, match):
                continue
            group = meaning[" ".join(match.group().split())]
            named = tuple(zone for zone in self.zones if self._groups[zone] & {group})
            # One word never stands for two zones: which one is asked, not guessed.
            yield "zone", *match.span(), named if len(named) == 1 else None

    def _is_only_like(self, text: str, match: re.Match[str]) -> bool:
        """Tell whether "a strip by the mailbox" is any strip, not the one that is kept."""
        is_some = _says("some").at_end(text[: match.start()]) is not None
        return bool(self.zones) and is_some and not re.search(r"\d", text[match.end() :])

    def _yards_by_language(self, text: str) -> Iterator[Name]:
        """Yield words of another language for the place that one yard alone is called after."""
        meaning = words.canon("places")
        for match in words.finder("places").finditer(text) if self.yards else ():
            place = meaning[" ".join(match.group().split())]
            called = [yard for yard in self.yards if place in self._places_of[yard]]
            if len(called) == 1:
                yield "yard", *match.span(), (called[0],)

    @cached_property
    def _places_of(self) -> dict[str, set[str]]:
        meaning = words.canon("places")
        return {
            yard: {meaning[each.group()] for each in words.finder("places").finditer(bare(yard))}
            for yard in self.yards
        }

    def _near(self, text: str) -> Iterator[Name]:
        """Yield words that are one slip away from a word of a name."""
        for match in _LONG_WORD.finditer(text):
            for word, kind, name in self._words:
                slips = DamerauLevenshtein.distance(match.group(), word, score_cutoff=1)
                if slips == 1 and len(word) >= 5 and match.group()[0] == word[0]:
                    yield kind, *match.span(), (name,)

    @cached_property
    def _whole(self) -> list[tuple[re.Pattern[str], str, str]]:
        kept = [("zone", name) for name in self.zones] + [
            ("yard", name) for name in sorted(every_name(self.yards))
        ]
        kept.sort(key=lambda each: -len(each[1]))
        return [(_spelled(name, kind), kind, name) for kind, name in kept]

    @cached_property
    def _words(self) -> list[tuple[str, str, str]]:
        """Words that only one kept name holds."""
        owners: dict[str, list[tuple[str, str]]] = {}
        for kind, name in [*(("zone", n) for n in self.zones), *(("yard", n) for n in self.yards)]:
            for word in set(re.findall(r"\w+", bare(name))):
                owners.setdefault(word, []).append((kind, name))
        return [
            (word, *each[0])
            for word, each in owners.items()
            if len(each) == 1
            and len(word) > 2
            and not word.isdigit()
            and not is_generic(word)
            # A word that is part of many names names none alone.
            and phrases("zones", "common").whole(word) is None
        ]

    @cached_property
    def _lone(self) -> list[tuple[re.Pattern[str], str, str]]:
        return [
            (re.compile(rf"(?<!\w){re.escape(word)}(?:'?s)?(?!\w)"), kind, name)
            for word, kind, name in self._words
        ]

    @cached_property
    def _groups(self) -> dict[str, set[str]]:
        """What each zone's name says in the words of any language: front, back, strip ..."""
        found: dict[str, set[str]] = {}
        for zone in self.zones:
            said = bare(zone)
            groups: set[str] = set()
            for language in words.LANGUAGES:
                meaning = _zone_words(language)
                for match in _zone_finder(language).finditer(said):
                    groups.add(meaning[" ".join(match.group().split())])
                groups |= {meaning[word] for word in said.split() if word in meaning}
            found[zone] = groups | set(said.split())
        return found


_LONG_WORD = re.compile(r"\b[a-z]{4,}\b")


def _is_home(text: str, match: re.Match[str]) -> bool:
    """Tell whether a yard called "home" is meant, not where somebody goes."""
    before = text[: match.start()]
    is_behind = before.endswith(", ") and _says("home_behind").at_start(text[match.start() :])
    is_ahead = _says("home_ahead").at_end(before) and not _says("home_not").at_end(before)
    return not before or bool(is_behind or is_ahead)


def _spelled(name: str, kind: str) -> re.Pattern[str]:
    inside = spelled(bare(name))
    possessive = "(?:'?s)?" if kind == "yard" else ""
    return re.compile(rf"(?<!\w){inside}{possessive}(?!\w)")


@cache
def _zone_words(language: str) -> dict[str, str]:
    found: dict[str, str] = {}
    for meaning, listed in words.table(language, "things")["zones"].items():
        found |= {bare(word): meaning for word in words.listed(listed)}
    return found


@cache
def _zone_finder(language: str) -> re.Pattern[str]:
    return words.any_of(_zone_words(language))
