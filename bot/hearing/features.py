"""What the ranker looks at: words and parts of words of an abstracted clause, and its manner."""

from __future__ import annotations

import itertools
import re
from collections.abc import Iterator
from functools import lru_cache
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


def features(
    text: str, manner: Manner, language: str, moment: str, pending: str
) -> dict[int, float]:
    """Return the weight of each bucket: features of a kind have length one together."""
    tokens = tokens_of(text)
    begun = [_begun(token) for token in tokens]
    groups = {
        "w": {_bucket(name) for name in _word_runs(["^", *tokens, "$"])},
        "c": {bucket for token in tokens for bucket in _letters(token)},
        "s": {_bucket(name) for name in _steps(["^", *begun, "$"])},
        "p": {
            _bucket(f"p{first}&{second}")
            for first, second in itertools.combinations(sorted(set(begun))[:_MOST_PAIRED], 2)
        },
        "k": {_bucket(name) for name in _concepts(text, tokens, manner)},
        "g": {_bucket(name) for name in _manner(manner, language, len(tokens))},
        "m": {_bucket(name) for name in _moment(tokens, moment, pending)},
    }
    found: dict[int, float] = {}
    for kind, group in groups.items():
        weight = _WEIGHT[kind] if kind in "gm" else _WEIGHT[kind] / max(1, len(group)) ** 0.5
        for bucket in group:
            found[bucket] = found.get(bucket, 0.0) + weight
    return found


#: Words, letters, beginnings, two anywhere, concepts, manner, moment: what each kind weighs.
_WEIGHT: Final = {"w": 1.0, "c": 1.0, "s": 0.7, "p": 0.6, "k": 0.7, "g": 0.3, "m": 0.6}


def _bucket(name: str) -> int:
    return crc32(name.encode()) % BUCKETS


def _word_runs(framed: list[str]) -> Iterator[str]:
    for length in _WORDS:
        for start in range(len(framed) - length + 1):
            yield "w" + " ".join(framed[start : start + length])


@lru_cache(maxsize=4096)
def _letters(token: str) -> frozenset[int]:
    """Return the buckets of the runs of letters in a word; a value has none."""
    framed = "" if token[0] == "<" else f" {token} "
    return frozenset(
        _bucket("c" + framed[start : start + length])
        for length in _LETTERS
        for start in range(len(framed) - length + 1)
    )


def _begun(token: str) -> str:
    return token if token[0] == "<" else token[:_BEGINNING]


def _steps(framed: list[str]) -> Iterator[str]:
    for before, token in itertools.pairwise(framed):
        yield f"s{token}"
        yield f"s{before} {token}"


def _manner(manner: Manner, language: str, count: int) -> Iterator[str]:
    yield "gl" + language
    yield "gn" + str(min(count, 12) // 2)
    for name in manner.names():
        yield "g" + name


def _moment(tokens: list[str], moment: str, pending: str) -> Iterator[str]:
    for each in (each for each in (moment, pending and f"?{pending}") if each):
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
