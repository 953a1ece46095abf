"""Regular expressions: of figures in phrases, and such as are compiled when first needed."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any, Final, cast

from bot.hearing.readers.lexing import NUMBER, WORD_NUMBER

#: What a piece of a kind is; figures and units are the grammars' own.
KINDS: Final[Mapping[str, str]] = {
    "text": r".+?",
    "rest": r".+",
    "maybe": r".*?",
    "letters": r"[^\W\d_]+",
    "word": r"[^\s,;:]+",
    "words": r"[^\d,;:]+?",
    "figure": r"\d+(?:[.,]\d+)*",
    "number": NUMBER,
    "decimal": r"\d+(?:\.\d+)?",
    "signed_number": r"(?<![\d.])-?\d+(?:\.\d+)?",
    "count": r"\d+",
    "clock_figure": r"\d{1,2}(?:[:.]\d{2})?",
    "code": r"[\w/-]*\d[\w/-]*",
    "hour": r"\d{1,2}(?::\d{2})?",
    "date_figure": r"\d{1,2}(?![\d:])",
    "year_figure": r"\d{4}(?!\d)",
    "wordy": WORD_NUMBER,
    "two_figures": r"(?<![\w.])\d{1,2}(?!\d)",
    "npk": r"\d{1,2}-\d{1,2}-\d{1,2}(?![\d-])",
    "plain_number": rf"(?<![\d.,]){NUMBER}",
    "price": r"\d+(?:[.,]\d{2})?",
    "money_sign": r"[$€£]",
    "no_break": r"[^;\n]*",
    "letter": r"\w",
    "end": r"\s*$",
}


class _Later:
    """A pattern until somebody asks anything of it."""

    def __init__(self, text: str, flags: int) -> None:
        self._said = text, flags

    def __getattr__(self, name: str) -> Any:
        found = getattr(re.compile(*self._said), name)
        setattr(self, name, found)
        return found


def expression(text: str, flags: int = 0) -> re.Pattern[str]:
    """Return a pattern for its methods, as `re.compile` does, compiled when one is called."""
    return cast(re.Pattern[str], _Later(text, int(flags)))
