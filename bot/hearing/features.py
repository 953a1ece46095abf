"""What the ranker looks at: words and parts of words of an abstracted clause, and its manner."""

from __future__ import annotations

import itertools
import re
from collections.abc import Iterator
from typing import Final
from zlib import crc32

from bot.hearing.concepts import concepts_of
from bot.hearing.guards import Manner

#: Number of buckets that features are hashed into.
BUCKETS: Final = 1 << 18
_TOKEN: Final = re.compile(r"<\w+>|[a-z0-9]+(?:'[a-z]+)?|\?")
_SHORT: Final = 5
_WORDS: Final = (1, 2, 3)
_LETTERS: Final = (2, 3, 4, 5)
#: Letters of a word's beginning, and words of a long text of which each two are a feature.
_BEGINNING: Final = 4
_MOST_PAIRED: Final = 14


def tokens_of(text: str) -> list[str]:
    """Return the words of an abstracted text."""
    return _TOKEN.findall(text)


def features(text: str, manner: Manner, language: str, moment: str, pending: str) -> list[str]:
    """Return the names of the features of a clause."""
    return list(_features(text, manner, language, moment, pending))


def buckets(names: list[str]) -> dict[int, float]:
    """Return the weight of each bucket: features of a clause have length one together."""
    groups: dict[str, dict[int, float]] = {}
    for name in names:
        kind = name[0]
        group = groups.setdefault(kind, {})
        group[crc32(name.encode()) % BUCKETS] = _WEIGHT[kind]
    found: dict[int, float] = {}
    for kind, group in groups.items():
        scale = 1.0 if kind in "gm" else 1.0 / len(group) ** 0.5
        for bucket, weight in group.items():
            found[bucket] = found.get(bucket, 0.0) + weight * scale
    return found


#: Words, letters, beginnings, two anywhere, concepts, manner, moment: what each kind weighs.
_WEIGHT: Final = {"w": 1.0, "c": 1.0, "s": 0.7, "p": 0.6, "k": 0.7, "g": 0.3, "m": 0.6}


def _features(text: str, manner: Manner, language: str, moment: str, pending: str) -> Iterator[str]:
    tokens = tokens_of(text)
    framed = ["^", *tokens, "$"]
    for length in _WORDS:
        for start in range(len(framed) - length + 1):
            yield "w" + " ".join(framed[start : start + length])
    for token in tokens:
        if token[0] == "<":
            continue
        framed_token = f" {token} "
        for length in _LETTERS:
            for start in range(len(framed_token) - length + 1):
                yield "c" + framed_token[start : start + length]
    begun = [token if token[0] == "<" else token[:_BEGINNING] for token in tokens]
    for before, token in itertools.pairwise(["^", *begun, "$"]):
        yield f"s{token}"
        yield f"s{before} {token}"
    for first, second in itertools.combinations(sorted(set(begun))[:_MOST_PAIRED], 2):
        yield f"p{first}&{second}"
    yield from _concepts(text, tokens, manner)
    yield "gl" + language
    yield "gn" + str(min(len(tokens), 12) // 2)
    for name in manner.names():
        yield "g" + name
    about = [each for each in (moment, pending and f"?{pending}") if each]
    for each in about:
        yield "m" + each
        if len(tokens) <= _SHORT:
            for token in tokens:
                yield f"m{each}|{token}"
            yield f"m{each}|{' '.join(tokens)}"


def _concepts(text: str, tokens: list[str], manner: Manner) -> Iterator[str]:
    """Yield concepts, pairs of them, and both with the manner: the same in every language."""
    values = [token for token in tokens if token[0] == "<"]
    about = list(dict.fromkeys([*concepts_of(text), *values]))[:_MOST_CONCEPTS]
    mark = "?" if manner.is_question else "-" if manner.is_denied else ""
    for name in about:
        yield "k" + name
        if mark:
            yield f"k{name}{mark}"
    for first, second in itertools.combinations(about, 2):
        yield f"k{first}>{second}"
        yield "k&" + "&".join(sorted((first, second)))
    if not about:
        yield "k" + mark


#: Concepts of a long text that are paired.
_MOST_CONCEPTS: Final = 9
