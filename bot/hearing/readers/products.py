"""A product in one line, as its label states it, in any order.

``prodiamine 0.38% granule, 3.2 lb per 1000 sq ft, max 6.4 lb per 1000 a year``
"""

from __future__ import annotations

import difflib
import re
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Final, Literal, TypeAlias

from lark import Token, Tree
from lark.exceptions import UnexpectedInput

from bot.hearing.readers import lexing
from bot.hearing.readers.lexing import UnreadNumber
from bot.hearing.readers.product_clauses import is_filler, is_maximum, neighbour
from bot.hearing.readers.product_parts import Part, marked_text, part_of
from bot.hearing.readers.quantities import NoQuantity, RateRead, refuse_decimal_comma, tidy
from bot.hearing.readers.reading import Unread
from jobs.agronomy.maxima import Basis, LabelMaximum, Period
from jobs.agronomy.rates import Rate
from jobs.agronomy.strengths import ActiveIngredient, Strength

Form: TypeAlias = Literal["granule", "spray"]


@dataclass(frozen=True)
class PartMaximum:
    """A maximum that lacks its unit or area: its figure as written, ``6.4`` or ``5 lb``."""

    said: str
    period: Period | None

    @property
    def has_unit(self) -> bool:
        """Whether only the area is missing."""
        return re.search(r"[^\W\d_]", self.said) is not None


@dataclass(frozen=True)
class ProductRead:
    """A product, as far as it was understood.

    Attributes
    ----------
    said : str
        The line as written.
    ingredients : tuple of ActiveIngredient
        In the order named.
    form : str or None
        ``granule`` (spread dry) or ``spray`` (mixed with water); None where not said.
    is_liquid : bool or None
        Whether the product itself is a liquid; None where not said.
    rate : Rate or None
        The label rate; None where missing, a range, or in doubt.
    is_rate_of_ingredient : bool
        Whether the rate counts active ingredient.
    limits : tuple of LabelMaximum
        The label's maxima.
    questions : tuple of Unread
        What has to be asked before the product can be used.
    leftovers : tuple of str
        Words not understood.
    codes : tuple of (str, Strength)
        Trade codes and the strength each was read as, to be said back: ``65 WDG`` is 65 %.
    part_maximum : PartMaximum or None
        A maximum that still lacks its unit or area, and so is none of `limits`.
    """

    said: str
    ingredients: tuple[ActiveIngredient, ...]
    form: Form | None
    is_liquid: bool | None
    rate: Rate | None
    is_rate_of_ingredient: bool
    limits: tuple[LabelMaximum, ...]
    questions: tuple[Unread, ...]
    leftovers: tuple[str, ...]
    codes: tuple[tuple[str, Strength], ...] = ()
    part_maximum: PartMaximum | None = None


def read_product(text: str, ingredients: Sequence[str]) -> ProductRead:
    """Read a product line; `ingredients` are the names known, in our spelling."""
    if len(text) > lexing.LONGEST_TEXT:
        said = f"{text[:40]}…"
        return _unread(said, Unread(said, "reading.too_long", _EXAMPLE))
    typed = tidy(text)
    draft = _Draft(text.strip())
    try:
        marked = marked_text(typed, ingredients)
        refuse_decimal_comma(marked)  # a name such as 2,4-d holds no decimal comma
        tree = lexing.parser("products", "product").parse(marked)
        _fill(draft, tree, marked, ingredients)
    except NoQuantity as why:
        return _unread(text.strip(), why.unread(text.strip()))
    except (UnexpectedInput, UnreadNumber):
        return _unread(text.strip(), Unread(text.strip(), "reading.product", _EXAMPLE))
    return draft.finished()


def _unread(said: str, question: Unread) -> ProductRead:
    return ProductRead(said, (), None, None, None, False, (), (question,), ())


_EXAMPLE: Final = "prodiamine 0.38% granule, 3.2 lb per 1000 sq ft, max 6.4 lb per 1000 a year"
_GRANULE: Final = re.compile(r"granul(?:e|es|ar|ated)$|fertili", re.IGNORECASE)
_LIQUID: Final = re.compile(
    r"^(?:ec|ew|sc|cs|liquid|flowable|concentrate|emulsifiable|suspension|microencaps|capsule)",
    re.IGNORECASE,
)
_DISPERSIBLE: Final = re.compile(r"dispersible|wdg|wg|wsp|wp|df|powder|dry", re.IGNORECASE)


@dataclass
class _Draft:
    said: str
    names: list[str] = field(default_factory=list)
    strengths: list[Strength] = field(default_factory=list)
    forms: list[str] = field(default_factory=list)
    rates: list[RateRead] = field(default_factory=list)
    limits: list[tuple[RateRead, Period | None]] = field(default_factory=list)
    questions: list[Unread] = field(default_factory=list)
    leftovers: list[str] = field(default_factory=list)
    codes: list[tuple[str, Strength]] = field(default_factory=list)
    part_maximum: PartMaximum | None = None

    def ask(self, reason: str, example: str = _EXAMPLE, said: str = "", **facts: str) -> None:
        question = Unread(said or self.said, f"reading.{reason}", example, tuple(facts.items()))
        if question not in self.questions:
            self.questions.append(question)

    def finished(self) -> ProductRead:
        form, is_liquid = self._form()
        rate = self._rate(form, is_liquid)
        return ProductRead(
            said=self.said,
            ingredients=self._ingredients(),
            form=form,
            is_liquid=is_liquid,
            rate=rate.rate if rate else None,
            is_rate_of_ingredient=rate.is_of_ingredient if rate else False,
            limits=self._limits(form, is_liquid),
            questions=tuple(self.questions),
            leftovers=tuple(self.leftovers),
            codes=tuple(self.codes),
            part_maximum=self.part_maximum,
        )

    def _ingredients(self) -> tuple[ActiveIngredient, ...]:
        if not self.names:
            self.ask("ingredient", "prodiamine 0.38%")
            return ()
        names = list(dict.fromkeys(self.names))
        if len(names) == len(self.strengths):
            pairs = zip(names, self.strengths, strict=True)
            return tuple(ActiveIngredient(name, strength) for name, strength in pairs)
        asked = {question.reason for question in self.questions}
        if not asked & {"reading.strength_code", "reading.strength_number"}:
            self.ask("strengths" if self.strengths else "strength", "prodiamine 0.38%")
        return tuple(ActiveIngredient(name) for name in names)

    def _form(self) -> tuple[Form | None, bool | None]:
        is_liquid_strength = any(strength.is_liquid for strength in self.strengths)
        is_dispersible = any(_DISPERSIBLE.search(form) for form in self.forms)
        is_granule = any(_GRANULE.search(form) for form in self.forms) and not is_dispersible
        is_liquid = is_liquid_strength or any(_LIQUID.match(form) for form in self.forms)
        if is_granule and (
            is_liquid or any(form.lower().startswith("spray") for form in self.forms)
        ):
            self.ask("form", "granule, or spray")
            return None, None
        if is_granule:
            return "granule", False
        if is_liquid and is_dispersible and not is_liquid_strength:
            is_liquid = False  # a dry flowable, a powder concentrate
        if is_liquid:
            return "spray", True
        if is_dispersible:
            return "spray", False
        if self.forms:
            return "spray", None
        self.ask("form", "granule, or spray")
        return None, None

    def _is_kind_wrong(self, read: RateRead, form: Form | None, is_liquid: bool | None) -> bool:
        if read.is_of_ingredient:
            return False
        if is_liquid and read.is_bare_ounce:
            self.ask("ounce_which", "0.74 fl oz per 1000 sq ft", read.said)
        elif is_liquid and read.rate.is_weight:
            self.ask("liquid_by_weight", "0.74 fl oz per 1000 sq ft", read.said)
        elif is_liquid is False and not read.rate.is_weight:
            self.ask("dry_by_volume", "3.2 lb per 1000 sq ft", read.said)
        elif is_liquid is None and form == "spray" and read.is_bare_ounce:
            self.ask("ounce_which", "0.74 fl oz per 1000 sq ft", read.said)
        else:
            return False
        return True

    def _rate(self, form: Form | None, is_liquid: bool | None) -> RateRead | None:
        if len(self.rates) > 1:
            self.ask("two_rates", "3.2 lb per 1000 sq ft")
            return None
        if not self.rates:
            asked = {question.reason for question in self.questions}
            if not asked & {"reading.rate_range", "reading.rate_or_limit", "reading.per_m"}:
                self.ask("product_rate", "3.2 lb per 1000 sq ft")
            return None
        return None if self._is_kind_wrong(self.rates[0], form, is_liquid) else self.rates[0]

    def _limits(self, form: Form | None, is_liquid: bool | None) -> tuple[LabelMaximum, ...]:
        kept = []
        for read, period in self.limits:
            if self._is_kind_wrong(read, form, is_liquid):
                continue
            if period is None:
                self.ask("limit_period", "max 6.4 lb per 1000 a year", read.said)
            if read.is_of_ingredient and not read.rate.is_weight:
                self.ask("ingredient_by_volume", "max 0.75 lb ai per acre a year", read.said)
                continue
            of: Basis = "ai" if read.is_of_ingredient else "product"
            kept.append(LabelMaximum(read.rate, of, period or "unsaid"))
        return tuple(kept)


def _fill(draft: _Draft, tree: Tree[Token], marked: str, ingredients: Sequence[str]) -> None:
    items = [item for item in tree.children if isinstance(item, Tree)]
    parts = [part_of(item.children[0], marked, ingredients) for item in items]
    was_limit = False
    for place, part in enumerate(parts):
        if part.ingredient is not None:
            draft.names.append(part.ingredient)
        elif part.strength is not None:
            draft.strengths.append(part.strength)
            if part.form is not None:
                draft.forms.append(part.form)
                draft.codes.append((part.text, part.strength))
        elif part.kind == "FORM":
            draft.forms.append(part.text)
        elif part.kind == "quantity":
            was_limit = _take_quantity(draft, parts, place, was_limit)
        elif part.fault is not None:
            draft.ask(part.fault.reason, part.fault.example, **dict(part.fault.facts))
        elif part.kind == "amount" and _is_part_maximum(parts, place):
            period = neighbour(parts, place, +1, "PERIOD")
            _, before = is_maximum(parts, place)
            draft.part_maximum = PartMaximum(part.text, period.period if period else before)
        elif part.kind not in {"MAX", "PERIOD", "COMMA"}:
            _leave(draft, part, ingredients)


def _take_quantity(draft: _Draft, parts: list[Part], place: int, was_limit: bool) -> bool:
    """File a quantity as the rate or as a maximum; return whether it was a maximum."""
    part = parts[place]
    period = neighbour(parts, place, +1, "PERIOD")
    is_limit, before_period = is_maximum(parts, place)
    if was_limit and period is not None:
        is_limit = True
    if part.fault is not None:
        draft.ask(part.fault.reason, part.fault.example, part.text, **dict(part.fault.facts))
        return is_limit
    assert part.rate is not None
    said_period = period.period if period else before_period
    if is_limit:
        draft.limits.append((part.rate, said_period))
    elif said_period not in {None, "application"}:
        draft.ask("rate_or_limit", "max 6.4 lb per 1000 a year", part.text)
    else:
        draft.rates.append(part.rate)
    return is_limit


def _is_part_maximum(parts: list[Part], place: int) -> bool:
    """Tell whether an amount is a maximum without its area; "max 2 feedings" counts no amount."""
    counted = neighbour(parts, place, +1, "WORD")
    return counted is None and is_maximum(parts, place)[0]


def _leave(draft: _Draft, part: Part, ingredients: Sequence[str]) -> None:
    word = part.text.strip(" .").lower()
    if not word or is_filler(word) or part.text in {"+", "&", "(", ")", ":", "/", "-", "."}:
        return
    close = difflib.get_close_matches(word, [name.lower() for name in ingredients], 1, 0.75)
    if part.kind == "WORD" and len(word) >= 5 and close:
        draft.ask("ingredient_spelling", f"{close[0]} 0.38%", part.text, meant=close[0])
    draft.leftovers.append(part.text)
