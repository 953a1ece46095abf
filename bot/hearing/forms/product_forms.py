"""Labels and what is on the shelf, in short: ``prodiamine 0.38% granule, 3.2 lb per 1000``.

While a product is being entered a text that is an answer goes into its draft; other sentences are
no form, so that they are heard afresh.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from functools import partial
from typing import Final

from bot.hearing import drafts, guards, words
from bot.hearing.draft import Draft, ProductSaid
from bot.hearing.drafts import is_rate_like
from bot.hearing.forms.fact_forms import about_of
from bot.hearing.forms.form import Form, saying
from bot.hearing.forms.label_answers import AnswerSaid, button_said, draft_of, has_figure
from bot.hearing.forms.yard_forms import find_yards
from bot.hearing.heard import Scene, Slots
from bot.hearing.phrases import phrases
from bot.hearing.readers.label_words import LabelFacts, read_label_facts
from bot.hearing.readers.lexing import NUMBER, plain
from bot.hearing.readers.product_clauses import said_more
from bot.hearing.readers.product_read import ProductRead
from bot.hearing.readers.quantities import tidy
from bot.hearing.readers.reading import Unread
from bot.hearing.readers.spoken import spoken
from bot.hearing.readers.stock_words import read_stock_words
from bot.hearing.readers.zone_parts import find_parts

#: Words that complete a maximum: "fl oz per 1000 sq ft".
_FRAGMENT: Final = 6
_says: Final = partial(phrases, "label")
#: Questions that only a label's figures raise.
_STATED: Final = re.compile(
    r"reading\.(?:rate_range|per_m|two_rates|rate_or_limit|ounce_which|liquid_by_weight|dry_by_volume"
    r"|strength_code|strength_number|decimal_comma_rate)"
)
#: More words than these beside a label's own make a text a sentence.
_FEW_WORDS: Final = 2


@dataclass(frozen=True)
class SameAsked:
    """The product of another yard is to be used here; the yard's name, where it was said."""

    yard: str | None = None


@dataclass(frozen=True)
class LabelAsked:
    """Somebody wants to see all that is known of the label."""


@dataclass(frozen=True)
class FactsOfLabel:
    """The rest of a label: times, intervals, packs, stock."""

    facts: LabelFacts


@dataclass(frozen=True)
class PriceSaid:
    """What one pack costs, in the smallest money unit, and the sign of the money."""

    cents: int
    sign: str


def read_price(text: str, _scene: Scene) -> Slots | None:
    """Read ``a bag is 42 dollars``; None for other texts."""
    said, price = text.strip(" .!"), phrases("labels", "pack_price")
    found = price.whole(said) or price.whole(spoken(said))
    if found is None:
        return None
    cents = round(float(found["price"].replace(",", ".")) * 100)
    return Slots(read=PriceSaid(cents, found["sign"] or "$")) if cents else None


def read_answer(text: str, scene: Scene) -> Slots | None:
    """Read an answer to a question about the product being entered; None for other sentences."""
    draft = draft_of(scene)
    if draft is None or text.rstrip().endswith("?"):
        return None
    if guards.is_asked(text) and not has_figure(text):
        # "What's the tank load" is no word of a label.
        return None
    if any(part.zone is not None for part in find_parts(scene.zones, text)):
        # "20% of the back" is ground, and no strength.
        return None
    if about_of(text, scene) is not None or _is_of_ground(text, scene):
        return None
    if words.phrases("facts", "label", "own_water").search(words.bare(text)):
        # What is said of one's own sprinkler or sprayer stands on no bag.
        return None
    what = button_said(draft, text)
    if what is not None:
        return Slots(read=AnswerSaid(what))
    if re.fullmatch(NUMBER, tidy(text)):
        return _bare(draft, text)
    bare = phrases("labels", "bare_rate").whole(tidy(text))
    if bare is not None and draft.awaits in ("rate", "maximum"):
        example = f"{bare['n']} lb per 1000 sq ft"
        return Slots(unread=Unread(text.strip(), "reading.rate_needs_unit", example))
    completed = drafts.continued(draft, text)
    facts = read_label_facts(text)
    if not facts.is_empty and _is_few([facts.rest]):
        return Slots(read=completed)
    if completed.draft.label != draft.label and _is_few(completed.read.leftovers):
        return Slots(read=completed)
    if (
        completed.draft.said != draft.said
        and completed.read.rate is not None
        and (phrases("labels", "area_anew").whole(tidy(text)))
    ):
        return Slots(read=completed)
    new = drafts.read(f"max {text}" if draft.awaits == "maximum" else text)
    return Slots(read=completed) if _answers(draft, new, completed, text) else None


def read_label(text: str, _scene: Scene) -> Slots | None:
    """Read a label in short; None for sentences that only name an ingredient."""
    if text.rstrip().endswith("?") or not has_figure(text):
        return None
    said = drafts.begun(text)
    read = said.read
    if not _is_label(read) or not _is_few(read.leftovers):
        return None
    is_labelled = _says("labelled").at_start(plain(text).text.strip()) is not None
    is_near = any(each.reason == "reading.ingredient_spelling" for each in read.questions)
    is_whole = bool(read.ingredients) or read.coverage is not None or is_near
    return Slots(read=said) if is_whole or is_labelled else None


def read_same(text: str, scene: Scene) -> Slots | None:
    """Read ``same product as yard 1``; None for other texts."""
    said = text.strip(" .!")
    as_there, at = _says("same_as").whole(said), _says("same_at").whole(said)
    found = as_there or at
    if found is None and _says("same").whole(said) is None:
        return None
    places = [] if found is None else find_yards(scene.yards, found["yard"])
    if not places and at is not None:
        return None
    return Slots(read=SameAsked(scene.yards[places[0]] if len(places) == 1 else None))


def read_facts(text: str, _scene: Scene) -> Slots | None:
    """Read the rest of a label alone: ``2 applications a year, 60 days apart``."""
    facts = label_facts(text)
    if facts is None or facts.shelf is not None or facts.bought is not None:
        return None
    return Slots(read=FactsOfLabel(facts))


def read_stock(text: str, scene: Scene) -> Slots | None:
    """Read ``I have 10 lb left``, ``bought 2 bags of 25 lb``, ``half a bag left``."""
    if phrases("stock", "part_of_pack").whole(text.strip(" .!")) is not None:
        return Slots(read=read_stock_words(text))
    facts = label_facts(text)
    if facts is None or (facts.shelf is None and facts.bought is None):
        return None
    if _is_of_ground(text, scene):
        # "The front got 14 lb" is none of what is on the shelf.
        return None
    return Slots(amount=facts.shelf or facts.bought, read=FactsOfLabel(facts))


def label_facts(text: str) -> LabelFacts | None:
    """Return the rest of a label where a text says nothing else; None for other texts."""
    if text.rstrip().endswith("?"):
        return None
    facts = read_label_facts(text)
    return None if facts.is_empty or said_more([facts.rest]) else facts


def _is_of_ground(text: str, scene: Scene) -> bool:
    """Tell whether a text is about a zone and not about what a label says: "front's on, 3 lb"."""
    said = words.bare(text)
    is_named = any(words.stands_in(words.bare(zone), said) for zone in scene.zones)
    return is_named and "%" not in said and _says("of_label").first(said) is None


def _bare(draft: Draft, text: str) -> Slots | None:
    """Take a figure alone: a strength or a maximum as far as it goes; a rate needs its unit."""
    if draft.awaits in ("maximum", "strength", "coverage"):
        return Slots(read=drafts.continued(draft, text))
    if draft.awaits == "rate":
        completed = drafts.continued(draft, f"covers {text}")
        if completed.read.coverage is not None:
            return Slots(read=completed)
        said = text.strip()
        return Slots(unread=Unread(said, "reading.rate_unit_and_area", f"{said} lb per 1000 sq ft"))
    return None


def _answers(draft: Draft, new: ProductRead, completed: ProductSaid, text: str) -> bool:
    """Tell whether a text is an answer: it says something of a label, and little else."""
    fragment = tidy(text)
    is_fragment = is_rate_like(fragment) or _says("unit").whole(fragment)
    is_fragment = is_fragment or phrases("labels", "a_period").first(fragment)
    if draft.maximum and is_fragment and len(fragment.split()) <= _FRAGMENT:
        return True
    if not _is_few(new.leftovers):
        return False
    if _is_label(new) or new.ingredients or new.form is not None:
        return True
    is_near = any(each.reason == "reading.ingredient_spelling" for each in new.questions)
    if draft.awaits == "rate" and completed.read.coverage is not None:
        # What the bag covers, where that was asked: "5,000 square feet".
        return True
    return is_near or (draft.awaits == "coverage" and completed.read.rate is not None)


def _is_label(read: ProductRead) -> bool:
    """Tell whether a text states something of a label, beyond names and forms."""
    is_stated = read.rate or read.limits or read.coverage or read.strengths or read.part_maximum
    return bool(is_stated) or any(_STATED.fullmatch(each.reason) for each in read.questions)


def _is_few(words: Sequence[str]) -> bool:
    more = said_more(words)
    return len(more) <= _FEW_WORDS and not any(_says("reports").whole(word) for word in more)


FORMS: Final = (
    Form("set_stock", read_stock),
    Form("set_stock", read_price),
    Form("enter_product", read_answer),
    saying("show_product", "label.asked", LabelAsked(), may_ask=True),
    Form("enter_product", read_same),
    Form("enter_product", read_facts),
    Form("enter_product", read_label),
)
