"""Answers in words to what is asked of a label: ``granules``, ``it doesn't say``."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import partial
from typing import Final

from bot.hearing import words
from bot.hearing.draft import Draft
from bot.hearing.drafts import continued, figure_of_range
from bot.hearing.forms.form import Form
from bot.hearing.heard import Scene, Slots
from bot.hearing.phrases import phrases, which
from bot.hearing.readers.lexing import WORD_NUMBER, plain
from bot.hearing.readers.spoken import spoken

_says: Final = partial(phrases, "label")
#: Buttons that a typed answer stands for: what a maximum is for, and what a product is.
_PERIODS: Final = ("year", "season", "application")
_WAYS: Final = ("granule", "spray")
_FIGURE: Final = re.compile(rf"\d|[½¼¾⅓⅔⅛]|{WORD_NUMBER}", re.IGNORECASE)
#: A typed answer to what a maximum is for is no longer than this.
_SHORT: Final = 4
#: What takes up a question before it answers it is no longer: "the max?".
_ECHO: Final = 3


@dataclass(frozen=True)
class AnswerSaid:
    """An answer that stands for a button under the question: ``nomax`` ``year`` ``granule`` ..."""

    what: str


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
    if scene.asked != "enter_product":
        return None
    draft = draft_of(scene)
    awaits = "rate" if draft is None else draft.awaits
    what = _not_told(text, awaits)
    is_asked = draft is None or (what == _NOT_THERE.get(awaits) and awaits in _DENIED)
    is_it = what is not None and is_asked
    return Slots(of=scene.asked, read=AnswerSaid(str(what))) if is_it else None


def _not_told(text: str, awaits: str) -> str | None:
    """Return what a label is said not to tell; None for a text that says anything else."""
    # "It doesn't give one" has no figure; "max?? i don't see one" takes up what was asked.
    *echo, rest = re.split(r"\?+\s*", text)
    is_echo = all(len(each.split()) <= _ECHO for each in echo)
    if has_figure(_says("one").without(text)) or (echo and not (rest and is_echo)):
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
    alone = _alone(said)
    if draft.awaits == "sure" and words.phrases("facts", "label", "as_said").fullmatch(alone):
        return "sure"
    if draft.awaits in ("rate", "coverage") and _says("only_settings").whole(alone):
        return "norate"
    if draft.awaits == "maximum" and _says("same_maximum").whole(alone):
        return "maxsame"
    what = _not_told(text, draft.awaits)
    if what is not None:
        return what
    if not draft.said:
        is_none = words.phrases("facts", "label", "none_yet").fullmatch(words.bare(said))
        return "none" if is_none else None
    if draft.awaits == "period" and len(said.split()) <= _SHORT:
        return next((period for period in _PERIODS if _says(period).first(said)), None)
    return which("label", _WAYS, said)


def read_waits(text: str, scene: Scene, *, name: str, what: str) -> Slots | None:
    """Read that somebody looks first ("it's in the truck"), or that they ask what is meant."""
    draft, alone = draft_of(scene), _alone(plain(text).text)
    if draft is None or not draft.awaits or re.search(r"\d", alone):
        return None
    said = AnswerSaid("reread" if (what, draft.awaits) == ("later", "sure") else what)
    return Slots(read=said) if _says(name).whole(alone) else None


def has_figure(text: str) -> bool:
    """Tell whether a text has a figure: a label states some, and what has none is no label."""
    said = spoken(text)
    return _FIGURE.search(said) is not None or _says("figure").first(said) is not None


def _alone(said: str) -> str:
    """Return an answer without what begins it and says nothing of it."""
    while (lead := _says("leads").at_start(said)) is not None:
        said = lead.after.lstrip(" ,.")
    return " ".join(re.sub(r"[,;.!?¿¡]+", " ", words.bare(said).replace("'", "")).split())


def is_as_said(text: str, scene: Scene) -> bool:
    """Tell whether a label is only said to say so, while another figure of it is asked for."""
    draft, alone = draft_of(scene), _alone(plain(text).text.strip(" .!"))
    is_so = (
        scene.asked == "enter_product"
        and words.phrases("facts", "label", "as_said").fullmatch(alone) is not None
    )
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
    Form("enter_product", partial(read_waits, name="later", what="later"), is_sure=True),
    Form("help", partial(read_waits, name="by_row", what="by_row"), is_sure=True),
    Form("help", partial(read_waits, name="asked_back", what="explain"), is_sure=True),
    Form("enter_product", read_of_range, is_sure=True),
)
