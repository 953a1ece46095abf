"""A product in one line, as its label states it, in any order.

``prodiamine 0.38% granule, 3.2 lb per 1000 sq ft, max 6.4 lb per 1000 a year``
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Final

from lark import Token, Tree
from lark.exceptions import UnexpectedInput
from rapidfuzz import fuzz, process

from bot.hearing.phrases import phrases
from bot.hearing.readers import lexing
from bot.hearing.readers.coverage import Coverage, find_coverage
from bot.hearing.readers.lexing import NUMBER, UnreadNumber, number_value
from bot.hearing.readers.product_clauses import is_filler, is_maximum, neighbour
from bot.hearing.readers.product_kinds import Form, kind_of, wrong_kind
from bot.hearing.readers.product_parts import Part, marked_text, part_of
from bot.hearing.readers.product_read import PartMaximum, ProductRead
from bot.hearing.readers.quantities import NoQuantity, RateRead, refuse_decimal_comma, tidy
from bot.hearing.readers.reading import Unread
from jobs.agronomy.labelled_product import ai_kg_ha
from jobs.agronomy.maxima import Basis, LabelMaximum, Period
from jobs.agronomy.rates import Rate
from jobs.agronomy.strengths import ActiveIngredient, Strength, StrengthUnknown


def read_product(text: str, ingredients: Sequence[str]) -> ProductRead:
    """Read a product line; `ingredients` are the names known, in our spelling."""
    if len(text) > lexing.LONGEST_TEXT:
        said = f"{text[:40]}…"
        return _unread(said, Unread(said, "reading.too_long", _EXAMPLE))
    coverage, typed = find_coverage(phrases("labels", "in_passing").without(tidy(text)))
    draft = _Draft(text.strip(), coverage=coverage)
    try:
        marked = marked_text(typed, ingredients)
        refuse_decimal_comma(marked)  # a name such as 2,4-d holds no decimal comma
        tree = lexing.parser("products", "product").parse(marked)
        _fill(draft, tree, marked, ingredients)
        return draft.finished()
    except NoQuantity as why:
        return _unread(text.strip(), why.unread(text.strip()))
    except (UnexpectedInput, UnreadNumber):
        return _unread(text.strip(), Unread(text.strip(), "reading.product", _EXAMPLE))


def _unread(said: str, question: Unread) -> ProductRead:
    return ProductRead(said, (), None, None, None, False, (), (question,), ())


_EXAMPLE: Final = "prodiamine 0.38% granule, 3.2 lb per 1000 sq ft, max 6.4 lb per 1000 a year"
#: Two ways to say one rate agree within this: what a bag covers is rounded. Our choice.
_AGREES: Final = 0.06


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
    coverage: Coverage | None = None
    bare: str | None = None
    rate_range: tuple[Rate, Rate] | None = None
    is_range_bare: bool = False

    def ask(self, reason: str, example: str = _EXAMPLE, said: str = "", **facts: str) -> None:
        question = Unread(said or self.said, f"reading.{reason}", example, tuple(facts.items()))
        if question not in self.questions:
            self.questions.append(question)

    def finished(self) -> ProductRead:
        form, is_liquid = kind_of(self.forms, self.strengths)
        if form is None:
            self.ask("form", "granule, or spray")
        self._take_bare(form, is_liquid)
        if self.is_range_bare and is_liquid is not False:
            # Ounces of what may be a liquid: weighed or measured, nobody knows.
            self.rate_range = None
        if self.rate_range is not None and self.rates:
            # Which of the range it is was said beside it.
            self.questions = [e for e in self.questions if e.reason != "reading.rate_range"]
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
            coverage=self.coverage,
            strengths=tuple(self.strengths),
            rate_range=self.rate_range,
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

    def _take_bare(self, form: Form | None, is_liquid: bool | None) -> None:
        """Take a bare figure behind a name as per cent of a dry product; of a liquid, ask."""
        if self.bare is None or self.strengths:
            return
        by_weight = all(read.rate.is_weight for read in self.rates) and not is_liquid
        is_spread = form == "granule" or self.coverage is not None or is_liquid is False
        value = number_value(self.bare)
        if not (by_weight and 0.0 < value < 100.0 and (is_spread or value < 1.0)):
            self.ask("strength_code", "prodiamine 0.38%", self.bare)
            return
        self.strengths.append(Strength(value, "%"))
        self.codes.append((self.bare, self.strengths[0]))

    def _is_kind_wrong(self, read: RateRead, form: Form | None, is_liquid: bool | None) -> bool:
        wrong = wrong_kind(read, form, is_liquid)
        if wrong is not None:
            self.ask(wrong[0], wrong[1], read.said)
        return wrong is not None

    def _rate(self, form: Form | None, is_liquid: bool | None) -> RateRead | None:
        covers = None if self.coverage is None else self.coverage.rate
        if covers is not None:
            self.rates.append(RateRead(covers, self.said))
        if len(self.rates) > 1 and not self._agree():
            self.ask("two_rates", "3.2 lb per 1000 sq ft")
            return None
        if not self.rates and self.coverage is not None:
            self.ask("coverage_weight", "bag of 16 lb covers 5,000 sq ft")
            return None
        if not self.rates:
            asked = {question.reason for question in self.questions}
            if not asked & {"reading.rate_range", "reading.rate_or_limit", "reading.per_m"}:
                self.ask("product_rate", "3.2 lb per 1000 sq ft")
            return None
        return None if self._is_kind_wrong(self.rates[0], form, is_liquid) else self.rates[0]

    def _agree(self) -> bool:
        """Tell whether all rates said come to the same, of product and of active ingredient."""
        strengths = self.strengths if len(self.names) == len(self.strengths) == 1 else []
        try:
            found = [
                read.rate.rate_si
                if read.is_of_ingredient or not strengths
                else ai_kg_ha(read.rate, ActiveIngredient(self.names[0], strengths[0]))
                for read in self.rates
            ]
        except StrengthUnknown:
            return False
        is_mixed = len({read.is_of_ingredient for read in self.rates}) > 1
        kinds = {read.rate.is_weight for read in self.rates if not read.is_of_ingredient}
        if len(kinds) > 1 or (is_mixed and not strengths):
            return False
        # The label's rate of product is what is weighed out: it comes first.
        self.rates.sort(key=lambda read: read.is_of_ingredient)
        return max(found) <= min(found) * (1 + _AGREES)

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
        elif part.kind == "amount" and _is_bare_strength(parts, place):
            draft.bare = part.text
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
        facts = dict(part.fault.facts)
        draft.is_range_bare = bool(facts.pop("is_bare", ""))
        if part.fault.reason == "rate_range" and facts.get("unit") and not is_limit:
            low, high = (number_value(facts[end]) for end in ("low", "high"))
            if 0 < low < high:
                draft.rate_range = (Rate(low, facts["unit"]), Rate(high, facts["unit"]))
        draft.ask(part.fault.reason, part.fault.example, part.text, **facts)
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


def _is_bare_strength(parts: list[Part], place: int) -> bool:
    """Tell whether an amount is a figure alone right behind the name of an ingredient."""
    before = neighbour(parts, place, -1, "INGREDIENT")
    return before is not None and re.fullmatch(NUMBER, parts[place].text) is not None


def _leave(draft: _Draft, part: Part, ingredients: Sequence[str]) -> None:
    word = part.text.strip(" .").lower()
    if not word or is_filler(word) or part.text in {"+", "&", "(", ")", ":", "/", "-", "."}:
        return
    if part.kind == "WORD" and len(word) >= 5:
        names = [name.lower() for name in ingredients]
        if close := process.extractOne(word, names, scorer=fuzz.ratio, score_cutoff=75):
            draft.ask("ingredient_spelling", f"{close[0]} 0.38%", part.text, meant=close[0])
    draft.leftovers.append(part.text)
