"""From what was said of a product to what is kept of it, and what is doubtful about that."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Final

from bot.hearing import drafts
from bot.hearing.draft import Draft, ProductSaid
from bot.hearing.heard import ActHeard
from jobs.agronomy.label_doubts import LEAST_GRANULE_KG_HA, key_of
from jobs.agronomy.labelled_product import Form, product_rate
from jobs.agronomy.rates import Rate
from jobs.agronomy.slips import Slip
from jobs.agronomy.strengths import ActiveIngredient
from jobs.uses import entering_products as uses

#: Doubts settled by saying whether it is spread or sprayed.
OF_FORM: Final = frozenset({"granule_or_spray", "spray_or_granule"})


def with_doubt_settled(draft: Draft) -> Draft:
    """Return a draft in which the doubt that was asked about is settled."""
    slip = doubt_asked(draft)
    return draft if slip is None else sure_of(draft, key_of(slip))


def doubt_asked(draft: Draft) -> Slip | None:
    """Return the doubt that is asked about next; None where there is none."""
    said = drafts.reread(draft)
    if said.read.rate is None or not said.read.ingredients:
        return None
    form, _ = form_of(said, said.read.rate)
    command = command_of(said, form)
    doubts = () if command is None else open_doubts(draft, command)
    return doubts[0] if doubts else None


def is_of_maximum(slip: Slip) -> bool:
    """Tell whether a doubt is about a maximum, not about the rate."""
    return slip.kind.startswith("maximum")


def without_doubted(draft: Draft) -> Draft:
    """Return a draft to which the doubted figure is to be read off the label again.

    The same figure once more is no doubt any more: who looks twice knows what the label says.
    """
    slip, said = doubt_asked(draft), drafts.reread(draft)
    if slip is None:
        return draft
    draft = with_doubt_settled(draft)
    if not is_of_maximum(slip):
        return drafts.kept(ProductSaid(draft, said.read), "rate", with_rate=False)
    limits = tuple(each for each in said.read.limits if each.rate != slip.asked)
    read = replace(said.read, limits=limits)
    return replace(drafts.kept(ProductSaid(draft, read), "sure"), awaits="")


def with_suggestion(draft: Draft) -> ProductSaid:
    """Return a draft with the figure that was offered in place of the doubted one."""
    slip, read = doubt_asked(draft), drafts.reread(draft).read
    if slip is None or slip.suggestion is None:
        return drafts.reread(draft)
    if is_of_maximum(slip):
        limits = tuple(
            replace(each, rate=slip.suggestion) if each.rate == slip.asked else each
            for each in read.limits
        )
        read = replace(read, limits=limits)
    else:
        read = replace(read, rate=slip.suggestion)
    return drafts.reread(drafts.kept(ProductSaid(draft, read), ""))


def open_doubts(draft: Draft, command: uses.Enter) -> tuple[Slip, ...]:
    """Return the doubts that were not answered yet."""
    return tuple(
        slip
        for slip in uses.doubts_about(command)
        if key_of(slip) not in draft.sure and not (draft.form and slip.kind in OF_FORM)
    )


def form_of(said: ProductSaid, rate: Rate) -> tuple[Form, bool]:
    """Return whether it is spread or sprayed, and whether that was said."""
    if said.draft.form is not None:
        return ("granule" if said.draft.form == "granule" else "spray"), True
    if said.read.form is not None:
        return said.read.form, True
    if not rate.is_weight:
        return "spray", True
    return ("granule" if rate.rate_si >= LEAST_GRANULE_KG_HA else "spray"), False


def command_of(said: ProductSaid, form: Form) -> uses.Enter | None:
    """Return the product to keep; None where a rate of ingredient makes no rate of product."""
    read = said.read
    assert read.rate is not None
    rate = read.rate
    if read.is_rate_of_ingredient:
        if len(read.ingredients) != 1 or rate.rate_kg_ha is None:
            return None
        strength = read.ingredients[0].strength
        is_liquid = strength is not None and strength.is_liquid
        amount = "fl oz" if is_liquid else ("lb" if form == "granule" else "oz")
        rate = _down(product_rate(rate.rate_kg_ha, read.ingredients[0], f"{amount}/1000 sq ft"))
    found = said.draft.rate_range
    rates = None if found is None else (found[0].value, found[1].value, found[1].unit)
    return uses.Enter(said.draft.words, form, read.ingredients, rate, read.limits, rates)


def _down(rate: Rate) -> Rate:
    """Return a reckoned rate in five figures, rounded down: never above what the label says."""
    step = 10.0 ** (math.floor(math.log10(rate.value)) - 4)
    return Rate(float(f"{math.floor(rate.value / step * (1 + 1e-12)) * step:.5g}"), rate.unit)


def without_percent(part: ActiveIngredient) -> ActiveIngredient:
    """Return an ingredient without a strength by weight, to be asked by volume."""
    is_by_weight = part.strength is not None and not part.strength.is_liquid
    return ActiveIngredient(part.name) if is_by_weight else part


#: A figure said again is the same within what rounding does to it. Our choice.
_SAME_FIGURE: Final = 0.01


#: What is asked before a product is kept.
BEFORE_KEPT: Final = ("all", "ingredient", "strength", "rate", "coverage", "sure", "certified")


def is_rate_again(draft: Draft, heard: ActHeard) -> bool:
    """Tell whether the rate is said once more where the maximum was asked: "16 lb covers 5000"."""
    new, rate = drafts.read(heard.said), drafts.reread(draft).read.rate
    if new.rate is None or rate is None or new.limits or new.ingredients:
        return False
    is_one_unit = new.rate.is_weight == rate.is_weight
    return is_one_unit and math.isclose(new.rate.rate_si, rate.rate_si, rel_tol=_SAME_FIGURE)


def with_figure_repeated(before: Draft, said: ProductSaid) -> ProductSaid:
    """Return what was said with a doubt settled where the doubted figure was said once more."""
    slip = doubt_asked(before) if before.awaits == "sure" else None
    rate = drafts.read(said.draft.words.removeprefix(f"{before.words}, ")).rate
    if slip is None or rate is None or rate.unit != slip.asked.unit:
        return said
    is_same = math.isclose(rate.value, slip.asked.value, rel_tol=_SAME_FIGURE)
    return drafts.reread(sure_of(said.draft, key_of(slip))) if is_same else said


def adds_facts_alone(before: Draft, said: ProductSaid) -> bool:
    """Tell whether nothing of a product that is kept was said anew but the rest of its label."""
    is_kept = bool(before.awaits) and before.awaits not in BEFORE_KEPT
    if not is_kept or said.facts.is_empty:
        return False
    was, now = drafts.reread(before).read, said.read
    names = ("ingredients", "rate", "limits", "part_maximum")
    return all(getattr(was, name) == getattr(now, name) for name in names)


def sure_of(draft: Draft, what: str) -> Draft:
    """Return a draft with one more thing that is settled."""
    return replace(draft, sure=(*draft.sure, what))
