"""Is it the right thing at all: the questions before buying, and their answers in words."""

from __future__ import annotations

from dataclasses import dataclass
from functools import partial
from typing import Final, Literal, TypeAlias

from bot.hearing import words
from bot.hearing.forms.form import Form, saying, tidied
from bot.hearing.guards import is_asked
from bot.hearing.heard import Scene, Slots
from bot.hearing.phrases import phrases, which

#: What is said to a weed that is no summer annual.
WeedGroup: TypeAlias = Literal[
    "summer_annual",
    "goosegrass",
    "annual_bluegrass",
    "nutsedge",
    "perennial",
    "unsure",
    "other",
]

_says: Final = partial(phrases, "need")
_WATER: Final = ("none", "hose", "system")
#: Groups whose names are told at once; what is none of them is another weed.
_GROUPS: Final[tuple[WeedGroup, ...]] = (
    "summer_annual",
    "goosegrass",
    "annual_bluegrass",
    "nutsedge",
    "perennial",
)
#: Words of an answer about a weed, and about water; more make it a sentence.
_FEW_WORDS: Final = 4
_MOST_WORDS: Final = 6


@dataclass(frozen=True)
class LocalRulesAsked:
    """What local law says is asked."""


@dataclass(frozen=True)
class AnswerSaid:
    """An answer to the step that waits: yes, no, skip, a way to water, a weed."""

    answer: str


def read_answer(text: str, scene: Scene) -> Slots | None:
    """Read an answer to the question that waits; None for other texts."""
    said = tidied(text.casefold(), " ?.!¿¡")
    is_other = len(said.split()) > _FEW_WORDS and is_asked(text)
    if is_other or scene.pending is None or scene.pending.kind != "ask_need":
        return None
    answer = _answer(said, scene.pending.expects)
    return None if answer is None else Slots(read=AnswerSaid(answer))


def _answer(said: str, expects: tuple[str, ...]) -> str | None:
    if _says("skip").whole(said):
        return "skip"
    has_figure = any(letter.isdigit() for letter in said)
    if "weed" in expects:
        return said if len(said.split()) <= _FEW_WORDS and not has_figure else None
    if "water" in expects:
        is_answer = not has_figure and len(said.split()) <= _MOST_WORDS
        return which("need", _WATER, said) if is_answer else None
    if words.phrases("facts", "need", "unsure").fullmatch(words.bare(said).replace("'", "")):
        return "skip"
    if _says("yes").at_start(said):
        return "yes"
    return "no" if _says("no").at_start(said) else None


def weed_group(weed: str) -> WeedGroup:
    """Return what is said to a weed, by its name in people's words."""
    said = weed.replace("_", " ")
    if _says("unsure").whole(said):
        return "unsure"
    return next((group for group in _GROUPS if _says(group).first(said)), "other")


FORMS: Final = (
    saying("ask_need", "need.begin"),
    saying("ask_need", "need.local_rules", LocalRulesAsked()),
    Form("ask_need", read_answer),
)
