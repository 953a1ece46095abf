"""A text without what could lead to somebody: names, places, numbers, addresses.

For texts that were not understood and that people let us keep. Better a word too many is taken out
than one too few: what is kept shows how people speak, not of whom.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from typing import Final

#: Longest text that is kept.
LONGEST: Final = 200
#: Words of a town's name at most.
_MOST_WORDS: Final = 3

_ADDRESS: Final = re.compile(r"\S+@\S+|https?://\S+|www\.\S+|@\w+|\b\w+\.(?:com|net|org)\b\S*")
_NUMBER: Final = re.compile(r"[#+]?\d(?:[\d.,:/()-]*\d)?(?:st|nd|rd|th)?", re.IGNORECASE)
_WORD: Final = re.compile(r"[^\W\d_]+(?:['’-][^\W\d_]+)*|<\w+>|[^\w\s]|\S")
#: After these a name follows.
_BEFORE_A_NAME: Final = frozenset(
    [
        "mr",
        "mrs",
        "ms",
        "miss",
        "dr",
        "señor",
        "señora",
        "sr",
        "sra",
        "don",
        "doña",
        "named",
        "called",
        "neighbor",
        "neighbour",
        "vecino",
        "vecina",
        "brother",
        "sister",
        "son",
        "daughter",
        "husband",
        "wife",
        "uncle",
        "aunt",
        "cousin",
        "friend",
        "boss",
        "hermano",
        "hermana",
        "hijo",
        "hija",
        "esposo",
        "esposa",
        "amigo",
        "amiga",
        "primo",
        "prima",
        "jefe",
    ]
)
#: Words so common that they are no name, though a town may be called so.
_COMMON: Final = frozenset(
    [
        "a",
        "about",
        "after",
        "again",
        "all",
        "am",
        "an",
        "and",
        "any",
        "are",
        "at",
        "back",
        "be",
        "been",
        "before",
        "big",
        "but",
        "by",
        "can",
        "cant",
        "could",
        "day",
        "did",
        "didnt",
        "do",
        "does",
        "dont",
        "down",
        "dry",
        "early",
        "edge",
        "end",
        "ever",
        "everything",
        "fall",
        "far",
        "few",
        "first",
        "for",
        "friday",
        "front",
        "from",
        "get",
        "go",
        "going",
        "good",
        "got",
        "grass",
        "green",
        "ground",
        "had",
        "half",
        "has",
        "have",
        "he",
        "heat",
        "help",
        "her",
        "here",
        "him",
        "his",
        "hot",
        "how",
        "i",
        "if",
        "im",
        "in",
        "is",
        "it",
        "its",
        "just",
        "keep",
        "know",
        "last",
        "late",
        "later",
        "lawn",
        "left",
        "like",
        "little",
        "lot",
        "main",
        "many",
        "may",
        "maybe",
        "me",
        "mean",
        "monday",
        "more",
        "morning",
        "most",
        "mow",
        "much",
        "my",
        "near",
        "need",
        "new",
        "next",
        "nice",
        "no",
        "north",
        "not",
        "now",
        "of",
        "off",
        "ok",
        "old",
        "on",
        "one",
        "only",
        "or",
        "our",
        "out",
        "over",
        "part",
        "please",
        "put",
        "rain",
        "rained",
        "ready",
        "rest",
        "right",
        "round",
        "same",
        "saturday",
        "see",
        "seed",
        "she",
        "should",
        "side",
        "since",
        "so",
        "soil",
        "some",
        "soon",
        "south",
        "spot",
        "spray",
        "spring",
        "stop",
        "summer",
        "sun",
        "sunday",
        "sure",
        "tell",
        "than",
        "thanks",
        "that",
        "the",
        "their",
        "them",
        "then",
        "there",
        "they",
        "thing",
        "think",
        "this",
        "thursday",
        "time",
        "to",
        "today",
        "tomorrow",
        "too",
        "tuesday",
        "two",
        "under",
        "until",
        "up",
        "us",
        "use",
        "very",
        "wait",
        "want",
        "warm",
        "was",
        "water",
        "way",
        "we",
        "wednesday",
        "weed",
        "weeds",
        "week",
        "well",
        "went",
        "were",
        "west",
        "wet",
        "what",
        "when",
        "where",
        "which",
        "while",
        "white",
        "who",
        "why",
        "will",
        "winter",
        "with",
        "wont",
        "work",
        "would",
        "yard",
        "year",
        "yellow",
        "yes",
        "yesterday",
        "yet",
        "you",
        "your",
        "east",
        "bag",
        "barrier",
        "crabgrass",
        "el",
        "la",
        "los",
        "las",
        "un",
        "una",
        "de",
        "del",
        "que",
        "y",
        "en",
        "no",
        "si",
        "sí",
        "por",
        "para",
        "con",
        "mi",
        "tu",
        "su",
        "ya",
        "hoy",
        "mañana",
        "agua",
        "césped",
        "zacate",
        "pasto",
        "yarda",
        "patio",
        "frente",
        "lado",
        "cuando",
        "cuanto",
        "como",
        "donde",
    ]
)


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
            if part.casefold() not in _COMMON and len(part) > 1:
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
        is_free = word[:1].isalpha() and word.casefold().replace("'", "") not in _COMMON
        if is_free and (before in _BEFORE_A_NAME or (is_capital and not is_sentence_begin)):
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
    return is_words and not all(word in _COMMON for word in phrase)
