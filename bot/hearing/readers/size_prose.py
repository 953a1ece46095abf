"""Sizes told in sentences, put into the list that the grammar reads.

"It's just a front and a back. The front's 40 wide and 25 deep, the back 60x45 with a 12x10 shed in
it" is ``front 40 x 25, back 60 x 45 minus shed 12 x 10``. What takes ground off a lawn is never
left standing as a lawn of its own. How it is said is data: ``languages/*/rewriting/sizes.toml``.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import cache
from typing import Any, Final

from bot.hearing import words
from bot.hearing.expressions import expression
from bot.hearing.readers.lexing import NUMBER, WORD_NUMBER, Traced, word_number_value
from bot.hearing.readers.terms import LENGTH

_PIECE: Final = re.compile(r"\{([a-z_]+)\}")
_Tidying = tuple[re.Pattern[str], "str | Callable[[re.Match[str]], str]"]


def tidy(text: Traced) -> Traced:
    """Return a text as a list of names and sizes: "half an acre", "length 60, width 40" too."""
    for pattern, new in _steps():
        text = text.sub(pattern, new)
    return text


@cache
def pattern_of(name: str) -> re.Pattern[str]:
    """Return a pattern of the languages' files by its name."""
    return expression(_piece(name), re.IGNORECASE)


@cache
def _steps() -> tuple[_Tidying, ...]:
    """Return what is rewritten, in order: one language's words before the common list."""
    special: dict[str, Callable[[re.Match[str]], str]] = {
        "=figures": lambda match: str(word_number_value(match.group())),
        "=commas": lambda match: match[1] + re.sub(r",?[ ]+", ", ", match[2]),
    }
    steps = [step for table in reversed(_tables()) for step in table.get("steps", ())]
    return tuple(
        (expression(_filled(said), re.IGNORECASE), special.get(new, new))
        for step in steps
        for said, new in step["rules"] * step.get("times", 1)
    )


def _filled(text: str) -> str:
    """Return a pattern with its pieces put in."""
    return _PIECE.sub(lambda piece: _piece(piece[1]), text)


@cache
def _piece(name: str) -> str:
    own = {"number": NUMBER, "word_number": WORD_NUMBER, "length": LENGTH}.get(name)
    if own is not None:
        return own
    is_piece = any(name in table["pieces"] for table in _tables())
    return f"(?:{_filled(_joined('pieces' if is_piece else 'patterns', name))})"


def _joined(section: str, name: str) -> str:
    return "|".join(table[section][name] for table in _tables() if name in table[section])


@cache
def _tables() -> tuple[dict[str, Any], ...]:
    return tuple(words.table(each, "sizes", "rewriting") for each in words.LANGUAGES)
