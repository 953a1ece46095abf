"""Examples of what may be typed, and sizes as read, with their few words in the language spoken.

The readers write them in English figures and words; each word that is no name or unit is a
message of ``examples.ftl``, and only words that are read in that language are put into it.
"""

from __future__ import annotations

import re
from typing import Final

from bot.saying import catalogue
from bot.saying.metric_examples import in_metric
from bot.saying.voice import voice

#: Words of sizes in our own writing, longer ones first.
_OF_SIZES: Final = (
    *("minus", "plus", "half circle", "three-quarter circle", "quarter circle", "circle", "oval"),
    *("triangle", "trapezoid", "square", "radius", "across", "deep"),
)
_WORDS: Final = (
    *("my pace is", "paces are", "bag of", "covers", "3 April", "a year", "yesterday", "front"),
    *("back", "strip", "house", "or", "per", "zone", "prodiamine", "granule", "max"),
    *_OF_SIZES,
)


def _either(words: tuple[str, ...]) -> re.Pattern[str]:
    return re.compile(rf"\b(?:{'|'.join(words)})\b")


_WORD: Final = _either(_WORDS)
_OF_SIZE: Final = _either(_OF_SIZES)


def in_words(example: str, *, is_own: bool = False) -> str:
    """Return an example, or a size in our own writing, in the language spoken.

    One that has figures of the person's own keeps them; others are in the person's units.
    """
    if voice().units == "metric" and not is_own:
        example = in_metric(example)
    return _WORD.sub(lambda match: catalogue.say(f"examples.{_key(match[0])}"), example)


def size_in_words(echo: str) -> str:
    """Return a size in our own writing, in the language spoken; it holds no names."""
    return _OF_SIZE.sub(lambda match: catalogue.say(f"examples.{_key(match[0])}"), echo)


def _key(word: str) -> str:
    return word.casefold().replace(" ", "_").replace("-", "_")
