"""Spread or sprayed, dry or liquid: by the words and strengths of a label."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial
from typing import Final, Literal, TypeAlias

from bot.hearing.phrases import phrases
from bot.hearing.readers.quantities import RateRead
from jobs.agronomy.strengths import Strength

Form: TypeAlias = Literal["granule", "spray"]

_says: Final = partial(phrases, "labels")


def kind_of(forms: Sequence[str], strengths: Sequence[Strength]) -> tuple[Form | None, bool | None]:
    """Return how a product goes onto turf, and whether it is a liquid itself; None where unsaid.

    Words that contradict each other say nothing.
    """
    is_liquid_strength = any(strength.is_liquid for strength in strengths)
    is_dispersible = any(_says("dispersible").first(form) for form in forms)
    is_granule = any(_says("granule").first(form) for form in forms) and not is_dispersible
    is_liquid = is_liquid_strength or any(_says("liquid").at_start(form) for form in forms)
    is_spray = any(_says("spray").at_start(form) for form in forms)
    if is_granule and (is_liquid or is_spray):
        return None, None
    if is_granule:
        return "granule", False
    if is_liquid and is_dispersible and not is_liquid_strength:
        is_liquid = False  # a dry flowable, a powder concentrate
    if is_liquid:
        return "spray", True
    if is_dispersible:
        return "spray", False
    return ("spray", None) if forms else (None, None)


def wrong_kind(read: RateRead, form: Form | None, is_liquid: bool | None) -> tuple[str, str] | None:
    """Return why a rate cannot be one of such a product (reason, example), or None."""
    if read.is_of_ingredient:
        return None
    if is_liquid and read.is_bare_ounce:
        return "ounce_which", "0.74 fl oz per 1000 sq ft"
    if is_liquid and read.rate.is_weight:
        return "liquid_by_weight", "0.74 fl oz per 1000 sq ft"
    if is_liquid is False and not read.rate.is_weight:
        return "dry_by_volume", "3.2 lb per 1000 sq ft"
    if is_liquid is None and form == "spray" and read.is_bare_ounce:
        return "ounce_which", "0.74 fl oz per 1000 sq ft"
    return None
