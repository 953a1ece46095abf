"""Ground that somebody speaks of by a word none of their zones bears: "treated the terrace"."""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import cache
from typing import Final

from bot.hearing import words

#: Lists of `things.toml` and `values.toml` whose words are no ground by themselves.
_NO_GROUND: Final = (
    ("things", ("all", "work", "weeds", "products")),
    ("values", ("weekdays", "weekdays_short", "months", "parts_of_day", "units", "numbers")),
)


def where_said(text: str) -> str:
    """Return the words for a piece of ground behind a deed or a preposition; else an empty text.

    Words for all of a lot, for what was put down, for weeds, days and manners are none.
    """
    said = words.bare(text)
    for match in _where().finditer(said):
        if not _no_ground().search(match["ground"]):
            return text[match.start("ground") : match.end("ground")].strip()
    return ""


@cache
def _where() -> re.Pattern[str]:
    ahead, articles, stops = (
        words.phrases("whose", "where", name).pattern for name in ("ahead", "articles", "stops")
    )
    one = rf"(?!{stops})[^\W\d]+"
    return re.compile(rf"{ahead}\s+{articles}\s+(?P<ground>{one}(?:\s+{one}){{0,2}})")


@cache
def _no_ground() -> re.Pattern[str]:
    lists: list[Iterable[str]] = [
        words.words_of(each, "whose", "where", "no_ground") for each in words.LANGUAGES
    ]
    for name, sections in _NO_GROUND:
        for section in sections:
            for language in words.LANGUAGES:
                lists += _lists(words.table(language, name)[section])
    return words.any_of(word for each in lists for word in each)


def _lists(section: object) -> list[list[str]]:
    if isinstance(section, dict):
        return [each for inner in section.values() for each in _lists(inner)]
    return [words.listed(section if isinstance(section, list) else str(section))]
