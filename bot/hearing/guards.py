"""What kind of a sentence a clause is: a question, a denial, a plan, somebody else's."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache, partial
from typing import Final

from bot.hearing import words
from bot.hearing.phrases import phrases

_says: Final = partial(phrases, "sentences")


@dataclass(frozen=True)
class Manner:
    """How a clause is said, by the words of its language."""

    is_question: bool = False
    is_denied: bool = False
    is_plan: bool = False
    is_condition: bool = False
    is_third: bool = False
    is_past: bool = False

    def names(self) -> list[str]:
        """Return the names of what holds."""
        return [name for name, value in vars(self).items() if value]


def is_marked(said: str) -> bool:
    """Tell whether a text as written has the marks of a question."""
    return _mark().search(said) is not None


def is_asked(said: str) -> bool:
    """Tell whether a text as written is a question, in any of our languages."""
    plain = words.bare(said)
    return is_marked(said) or any(
        manner(plain, language, has_mark=False).is_question for language in words.LANGUAGES
    )


def manner(text: str, language: str, *, has_mark: bool) -> Manner:
    """Return how a clause is said; `has_mark` as `is_marked` tells."""
    start = _MARKS.sub("", text)
    while (opening := _says("opening").at_start(start)) is not None:
        start = opening.after.lstrip(" ,")
    stated = _pattern("question", "stated", language)
    is_asked = (
        has_mark
        or (
            bool(_pattern("question", "first", language).match(start))
            and not stated.match(start)
            and not _says("cannot").at_start(start)
        )
        or bool(_pattern("question", "anywhere", language).search(stated.sub(" ", text)))
    )
    return Manner(
        is_question=is_asked,
        is_denied=bool(_pattern("negation", "words", language).search(text)),
        is_plan=_plan(text, language) is not None,
        is_condition=bool(
            _pattern("condition", "words", language).search(
                _pattern("condition", "idle", language).sub(" ", text)
            )
        ),
        is_third=bool(_pattern("third", "words", language).search(text)),
        is_past=bool(_pattern("past", "words", language).search(text)),
    )


def _plan(text: str, language: str) -> re.Match[str] | None:
    """Return what speaks of what is to come; "las 7 de la mañana" is no tomorrow."""
    return _pattern("plan", "words", language).search(without_mornings(text))


def without_mornings(text: str) -> str:
    """Return a text with mornings hidden, letter by letter, whose word is tomorrow's as well."""
    return _says("of_morning").without(text, lambda said: "-" * len(said.it))


def is_only_planned(text: str, language: str) -> bool:
    """Tell whether a clause speaks of what is to come: "going to put it down", "will have it done".

    The words behind a plan are its own; only a past that stands elsewhere makes a report of it.
    """
    plan = _plan(text, language)
    if plan is None:
        return False
    own = _OWN_WORDS.match(text, plan.end())
    left = text[: plan.start()] + text[own.end() if own else plan.end() :]
    return not _pattern("past", "words", language).search(left)


_OWN_WORDS: Final = re.compile(r"(?:\W+\w+){0,5}")
_MARKS: Final = re.compile(r"^[\W_]+")


@cache
def _mark() -> re.Pattern[str]:
    """Return a pattern of marks of a question, among them accents that question words have."""
    listed = [
        words.table(each, "sentences", "phrases").get("accented", ()) for each in words.LANGUAGES
    ]
    return re.compile(
        rf"[?¿]|\b(?:{'|'.join(word for each in listed for word in each)})\b", re.IGNORECASE
    )


@cache
def _pattern(kind: str, name: str, language: str) -> re.Pattern[str]:
    return words.phrases("guards", kind, name, language=language)
