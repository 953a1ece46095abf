"""Answers in words to what is asked of a label: ``granules``, ``it doesn't say``."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Final

from bot.hearing import words
from bot.hearing.drafts import Draft, continued, figure_of_range
from bot.hearing.forms.form import Form
from bot.hearing.heard import Scene, Slots
from bot.hearing.readers.lexing import WORD_NUMBER, plain
from bot.hearing.readers.spoken import spoken

#: A typed answer to what a maximum is for, by the button it stands for.
_PERIODS_SAID: Final = {
    "year": re.compile(r"\b(?:year|yearly|annual(?:ly)?|ano|año|anual)\b", re.IGNORECASE),
    "season": re.compile(r"\b(?:season|temporada)\b", re.IGNORECASE),
    "application": re.compile(
        r"\b(?:applications?|time|once|single|aplicaci[oó]n|vez)\b", re.IGNORECASE
    ),
}
_FORMS_SAID: Final = (
    (
        "granule",
        (
            r"(?:(?:it'?s|it\s+is|they'?re|they\s+are)\s+)?(?:a\s+|the\s+)?(?:dry\s+)?"
            r"(?:gr[aá]nul\w+|spread(?:\s+dry)?|for\s+a\s+spreader)"
        ),
    ),
    (
        "spray",
        (
            r"(?:it'?s\s+|it\s+is\s+)?(?:a\s+)?(?:spray|sprayed|mixed\s+with\s+water|powder|liquid"
            r"|for\s+a\s+sprayer|l[ií]quido|polvo|se\s+mezcla\s+con\s+agua)"
        ),
    ),
)
#: A label states figures: what has none is none, and the grammar need not be asked.
FIGURE: Final = re.compile(
    rf"\d|[½¼¾⅓⅔⅛]|\b(?:{WORD_NUMBER}|half|quarter|once|twice)\b", re.IGNORECASE
)
_ONE: Final = re.compile(r"\bone\b", re.IGNORECASE)
#: A typed answer to what a maximum is for is no longer than this.
_SHORT: Final = 4


@dataclass(frozen=True)
class AnswerSaid:
    """An answer that stands for a button under the question: ``nomax`` ``year`` ``granule`` ..."""

    what: str


#: What begins an answer and says nothing of it.
_LEADS: Final = re.compile(
    r"^(?:(?:yes|yep|yeah|yup|no|nope|well|ok|okay|sure|hm+|um|oh|s[ií]|pues|bueno|ay|eh)\b[\s,.]*)+",
    re.IGNORECASE,
)
#: What it means that the label does not say what was asked, by what that was.
_NOT_THERE: Final = {
    "maximum": "nomax",
    "strength": "nostrength",
    "sure": "norate",
    "rate": "norate",
    "coverage": "norate",
}
#: Of these a no says that the label does not tell.
_DENIED: Final = frozenset({"maximum", "rate", "coverage"})


def read_not_told(text: str, scene: Scene) -> Slots | None:
    """Read that the figure which is asked for is not to be had: "nope, nothing about a max"."""
    pending = scene.pending
    if pending is None or pending.kind != "enter_product":
        return None
    draft = draft_of(scene)
    awaits = "rate" if draft is None else draft.awaits
    what = _not_told(text, awaits)
    is_asked = draft is None or (what == _NOT_THERE.get(awaits) and awaits in _DENIED)
    is_it = what is not None and is_asked
    return Slots(of=pending.kind, read=AnswerSaid(str(what))) if is_it else None


def _not_told(text: str, awaits: str) -> str | None:
    """Return what a label is said not to tell; None for a text that says anything else."""
    # "It doesn't give one" has no figure.
    if FIGURE.search(spoken(_ONE.sub(" ", text))) or "?" in text:
        return None
    said = " ".join(re.findall(r"[a-z]+", words.bare(plain(text).text).replace("'", "")))
    left, denials = words.phrases("facts", "label", "denies").subn(" ", said)
    if not denials or words.phrases("facts", "label", "around").sub(" ", left).split():
        return None
    if awaits not in _DENIED and not words.phrases("facts", "label", "tells").search(said):
        return None
    if words.phrases("facts", "label", "maximum").search(said):
        return "nomax"
    return _NOT_THERE.get(awaits)


def button_said(draft: Draft, text: str) -> str | None:
    """Return the button that an answer in words stands for; None for figures and sentences."""
    said = plain(text).text.strip(" .!")
    alone = words.bare(_LEADS.sub("", said)).replace("'", "")
    if draft.awaits == "sure" and words.phrases("facts", "label", "as_said").fullmatch(alone):
        return "sure"
    if draft.awaits and words.phrases("facts", "label", "later").fullmatch(alone):
        return "reread"
    what = _not_told(text, draft.awaits)
    if what is not None:
        return what
    if not draft.said:
        is_none = words.phrases("facts", "label", "none_yet").fullmatch(words.bare(said))
        return "none" if is_none else None
    if draft.awaits == "period" and len(said.split()) <= _SHORT:
        found = (period for period, word in _PERIODS_SAID.items() if word.search(said))
        return next(found, None)
    forms = (form for form, way in _FORMS_SAID if re.fullmatch(way, said, re.IGNORECASE))
    return next(forms, None)


def is_as_said(text: str, scene: Scene) -> bool:
    """Tell whether a label is only said to say so, while another figure of it is asked for."""
    draft = draft_of(scene)
    if scene.pending is None or scene.pending.kind != "enter_product":
        return False
    alone = words.bare(_LEADS.sub("", plain(text).text.strip(" .!"))).replace("'", "")
    is_so = words.phrases("facts", "label", "as_said").fullmatch(alone) is not None
    return is_so and (draft is None or draft.awaits != "sure")


def draft_of(scene: Scene) -> Draft | None:
    """Return the draft of the product being entered; None where none is."""
    pending = scene.pending
    if pending is None or pending.kind != "enter_product" or pending.draft is None:
        return None
    return Draft.from_json(pending.draft)


def read_of_range(text: str, scene: Scene) -> Slots | None:
    """Read which rate of a label's range it is to be: "let's go with 4", "the high rate"."""
    draft = draft_of(scene)
    if draft is None or draft.awaits != "rate" or figure_of_range(draft, text) is None:
        return None
    return Slots(read=continued(draft, text))


FORMS: Final = (
    Form("deny", read_not_told, is_sure=True),
    Form("enter_product", read_of_range, is_sure=True),
)
