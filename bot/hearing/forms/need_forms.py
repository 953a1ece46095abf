"""Is it the right thing at all: the questions before buying, and their answers in words."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Final, Literal, TypeAlias

from bot.hearing import words
from bot.hearing.forms.form import Form
from bot.hearing.heard import Scene, Slots

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

_PERENNIAL: Final = re.compile(
    r"dallis\s*grass|quack\s*grass|tall\s+fescue|fescue|moss|clover|dandelion|plantain|broadleaf"
    r"|bermuda|orchard|nimblewill|ivy",
    re.IGNORECASE,
)
_YES: Final = re.compile(
    r"^(?:yes|y|yep|yeah|sure|some|a\s+bit|we\s+will|i\s+will)\b", re.IGNORECASE
)
_NO: Final = re.compile(r"^(?:no|n|nope|none|never|not?\b.*|nobody)\b", re.IGNORECASE)
#: Ways to water, as they are said; a sprinkler that hangs on a hose is the hose's.
_WATER: Final = (
    (
        "none",
        r"no|n|nope|none|no\s+water|nothing|(?:it\s+)?(?:can\W?t|cannot|can\s+not)\b.*|only\s+rain|rain(?:\s+only)?",
    ),
    ("hose", r".*\b(?:hose|by\s+hand|garden\s+tap)\b.*"),
    ("system", r".*\b(?:sprinklers?|irrigation|irrigated|system)\b.*"),
)
_BEGIN: Final = frozenset({"questions", "screening", "is it right for my lawn", "do i need it"})
_LOCAL_RULES: Final = re.compile(r"(?:your\s+|my\s+|the\s+)?local\s+(?:rules|law|laws)")
_SKIP: Final = frozenset({"skip", "skip it", "next"})
_UNSURE: Final = frozenset({"unsure", "don't know", "i don't know", "no idea", "not sure"})
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


def read_need(text: str, scene: Scene) -> Slots | None:
    """Read the beginning of the questions, and an answer to the one that waits."""
    said = " ".join(text.casefold().strip(" ?.!").split())
    if said in _BEGIN:
        return Slots()
    if _LOCAL_RULES.fullmatch(said):
        return Slots(read=LocalRulesAsked())
    if scene.pending is None or scene.pending.kind != "ask_need":
        return None
    answer = _answer(said, scene.pending.expects)
    return None if answer is None else Slots(read=AnswerSaid(answer))


def _answer(said: str, expects: tuple[str, ...]) -> str | None:
    if said in _SKIP:
        return "skip"
    if "weed" in expects:
        is_weed = len(said.split()) <= _FEW_WORDS and re.search(r"\d", said) is None
        return said if is_weed else None
    if "water" in expects:
        if re.search(r"\d", said) or len(said.split()) > _MOST_WORDS:
            return None
        return next((how for how, pattern in _WATER if re.fullmatch(pattern, said)), None)
    if words.phrases("facts", "need", "unsure").fullmatch(words.bare(said).replace("'", "")):
        return "skip"
    if _YES.match(said):
        return "yes"
    return "no" if _NO.match(said) else None


def weed_group(weed: str) -> WeedGroup:
    """Return what is said to a weed, by its name in people's words."""
    said = weed.replace("_", " ")
    if re.search(r"crab|foxtail|barnyard|sandbur|panicum", said):
        return "summer_annual"
    if "goose" in said:
        return "goosegrass"
    if re.search(r"annual\s+blue|poa", said):
        return "annual_bluegrass"
    if re.search(r"nut\s*(?:sedge|grass)", said):
        return "nutsedge"
    if said in _UNSURE:
        return "unsure"
    return "perennial" if _PERENNIAL.search(said) else "other"


FORMS: Final = (Form("ask_need", read_need),)
