"""A product being entered: what was said of it so far, joined with each answer and read again.

A draft is kept between turns as plain values. `said` is the label as understood so far, in our own
writing; the rest of the label (`label`) waits in it until the product is kept.
"""

from __future__ import annotations

import re
from dataclasses import replace
from functools import lru_cache, partial
from typing import Final

from bot.hearing.draft import NO_MAXIMUM, Draft, ProductSaid
from bot.hearing.label_lines import PERIOD_WORDS, label_of, maximum_line, rate_line
from bot.hearing.phrases import phrases
from bot.hearing.readers.coverage import Coverage, find_coverage, find_pack_weight
from bot.hearing.readers.label_words import read_label_facts
from bot.hearing.readers.lexing import NUMBER, figures
from bot.hearing.readers.product_lines import read_product
from bot.hearing.readers.product_read import ProductRead
from bot.hearing.readers.quantities import tidy
from bot.hearing.readers.spoken import spoken
from bot.hearing.readers.units_said import unit_of
from jobs.agronomy.ingredients import ingredients
from jobs.agronomy.rates import Rate

_says: Final = partial(phrases, "labels")
_PACK_LB: Final = 10.0
_PACK_KG: Final = 5.0
#: Where the unit and the area of a maximum go that was said without them.
_GAP: Final = "…"


def names() -> list[str]:
    """Return the active ingredients known, in our spelling."""
    return [item.names[0] for item in ingredients().values()]


@lru_cache(maxsize=16)
def read(text: str) -> ProductRead:
    """Read a text as a product, whatever is missing; within a turn it is asked several times."""
    return read_product(text, names())


def begun(text: str) -> ProductSaid:
    """Return the product that a text begins."""
    return _said(Draft(), text, text)


def reread(draft: Draft) -> ProductSaid:
    """Return a draft as it is read now."""
    understood = read(draft.said)
    if understood.rate_range is not None:
        draft = replace(draft, rates=range_line(*understood.rate_range))
    return ProductSaid(draft, understood)


def is_rate_like(text: str) -> bool:
    """Tell whether a text speaks of an area that something is put on: "per 1000", "an acre"."""
    return _says("rate_like").first(text) is not None


def range_line(low: Rate, high: Rate) -> str:
    """Return a range of rates as a draft keeps it."""
    return f"{figures(low.value)}|{figures(high.value)}|{high.unit}"


def continued(draft: Draft, text: str) -> ProductSaid:
    """Return the product a draft and an answer come to; another product begins anew."""
    new = read(text)
    if draft.said and new.ingredients and is_rate_like(tidy(text)):
        # The whole label said again is no addition to what was asked about.
        return begun(text)
    if _is_another(draft, text, new):
        return begun(text)
    anew = _covers_anew(draft, text)
    if anew is not None:
        return _said(kept(reread(draft), "rate", with_rate=False), anew, text)
    before, words = _but_said_anew(draft.said, new), text
    is_limit = any(each.reason == "reading.rate_or_limit" for each in new.questions)
    if draft.near and new.ingredients:
        before, text = draft.said.replace(draft.near, new.ingredients[0].name), ""
    elif draft.awaits == "maximum" or (is_limit and read(draft.said).rate is not None):
        # What is said of a year beside the rate that is known is the most.
        text = _as_maximum(draft, text)
        before = before.removesuffix(f", {_without_gap(draft.maximum)}")
    elif draft.awaits == "strength" and re.fullmatch(NUMBER, tidy(text)):
        name = next((part.name for part in read(draft.said).ingredients), "")
        before, text = draft.said.replace(name, f"{name} {tidy(text)}", 1), ""
    elif draft.awaits == "rate" and figure_of_range(draft, text) is not None:
        text = str(figure_of_range(draft, text))
    elif draft.awaits == "rate" and find_coverage(text)[0] is None:
        # What it covers, where that was asked: "15,000 sq ft".
        covered, rest = find_coverage(f"covers {tidy(text)}")
        text = f"covers {tidy(text)}" if covered is not None and not rest else text
        if is_pack(text):
            text = f"{tidy(text)} bag"
        is_told = new.rate is not None or new.limits or new.rate_range is not None
        over = None if is_told else _says("weight_over").first(tidy(text))
        # Of two figures alone: one more may be another rate.
        if over is not None and not re.search(r"\d", over.before + over.after):
            of = over["of"] or "sq ft"
            text = f"{over['weight']} {over['unit']} bag covers {over['area']} {of}"
    elif draft.awaits == "coverage":
        coverage, before = find_coverage(before)
        text = _as_pack(coverage, text)
    return _said(replace(draft, said=before), text, words)


def _covers_anew(draft: Draft, text: str) -> str | None:
    """Return what the bag covers, said anew of one whose weight was told: "no, 10,000 sq ft"."""
    said = _says("area_anew").whole(tidy(text))
    if said is None or not draft.said or read(draft.said).rate is None:
        return None
    words = tidy(draft.words)
    pack = find_coverage(words)[0] or find_pack_weight(words)[0]
    if pack is None or pack.weight is None:
        return None
    return f"{figures(pack.weight)} {pack.unit} bag covers {said['area']} {said['of']}"


def answered(draft: Draft, what: str) -> ProductSaid:
    """Return a draft with the answer of a button: a form, a period, a name, that it is sure."""
    match what:
        case "granule" | "spray":
            return reread(replace(draft, form=what))
        case "certified":
            return reread(replace(draft, is_certified=True))
        case "year" | "application" | "season":
            return reread(replace(draft, said=_with_period(draft.said, what)))
    if what in ("rate_low", "rate_high") and draft.rate_range is not None:
        chosen = draft.rate_range[what == "rate_high"]
        return continued(replace(draft, awaits="rate"), rate_line(chosen, ""))
    if what.startswith("pct_"):
        return continued(replace(draft, awaits="strength"), what.removeprefix("pct_"))
    if what.startswith("max_"):
        rate = read(draft.said).rate
        unit = "" if rate is None else rate_line(rate, "").split(" ", 1)[1]
        return continued(
            replace(draft, awaits="maximum"), f"{unit} per {what.removeprefix('max_')}"
        )
    if what.startswith("is_") and draft.near:
        name = what.removeprefix("is_").replace("_", "-")
        return reread(replace(draft, said=draft.said.replace(draft.near, name), near=""))
    return reread(draft)


def added_to(label: str, text: str) -> ProductSaid:
    """Return a product that is kept already, by its own label, with more of it said."""
    return _said(Draft(said=_but_said_anew(label, read(text)), words=label), text, text)


def kept(said: ProductSaid, awaits: str, *, with_rate: bool = True) -> Draft:
    """Return the draft with what was understood in our own writing, so that more can be added."""
    draft, understood = said.draft, said.read
    rate = understood.rate if with_rate else None
    form = draft.form or understood.form
    if form == "spray" and understood.is_liquid is False:
        form = "powder"  # a dry flowable stays dry: its ounces are weights
    parts = [label_of(understood.ingredients, form, None, ())]
    if rate is not None:
        parts.append(rate_line(rate, " ai" if understood.is_rate_of_ingredient else ""))
    parts += [maximum_line(limit) for limit in understood.limits]
    if with_rate and rate is None and understood.coverage is not None:
        parts.append(understood.coverage.written)
    part_maximum = ""
    if understood.part_maximum is not None:
        period = PERIOD_WORDS[understood.part_maximum.period or "unsaid"]
        part_maximum = f"max {understood.part_maximum.said} {_GAP}{period}"
        parts.append(_without_gap(part_maximum))
    line = ", ".join(part for part in parts if part)
    return replace(draft, said=line, awaits=awaits, maximum=part_maximum, near="")


def _said(before: Draft, text: str, words: str) -> ProductSaid:
    """Return a draft with one more text: the rest of the label apart, the product read."""
    lacks = phrases("label", "no_maximum").first(text)
    if lacks is not None:
        text = f"{lacks.before} {lacks.after}"
        before = replace(before, sure=(*before.sure, NO_MAXIMUM))
    coverage, rest = find_coverage(tidy(text))
    if coverage is None and not read_label_facts(rest).packs:
        coverage, rest = find_pack_weight(rest)
    coverage = _with_pack(coverage, before.label)
    facts = read_label_facts(rest)
    line = facts.rest
    label = before.label
    if not facts.is_empty:
        label = f"{label}, {rest}" if label else rest
    if coverage is not None and coverage.weight is not None:
        packs = f"bags {figures(coverage.weight)} {coverage.unit}"
        label = f"{label}; {packs}" if label else packs
    if coverage is not None and coverage.area is not None:
        line = f"{line}, {coverage.written}" if line else coverage.written
    draft = replace(
        before,
        said=", ".join(part for part in (before.said, line) if part),
        words=f"{before.words}, {words}" if before.words else words,
        label=label,
        awaits="",
        near="",
    )
    return reread(draft)


def is_pack(text: str) -> bool:
    """Tell whether a weight alone is a bag's: more than any spreader puts on 1,000 sq ft."""
    weight = _says("weight").whole(tidy(text))
    if weight is None:
        return False
    is_metric = unit_of(weight["unit"], ("kg",)) is not None
    return float(weight["number"]) >= (_PACK_KG if is_metric else _PACK_LB)


def figure_of_range(draft: Draft, text: str) -> str | None:
    """Return a bare figure in answer to a range, ``3`` or ``3 lb``, in the range's unit."""
    found = draft.rate_range
    if found is None:
        return None
    said = phrases("label", "chosen").whole(spoken(text).strip(" ,.!"))
    chosen = "" if said is None else said["rate"]
    middle = Rate(round((found[0].value + found[1].value) / 2, 3), found[0].unit)
    ends = {"low": found[0], "high": found[1], "middle": middle}
    end = next((rate for name, rate in ends.items() if phrases("label", name).first(chosen)), None)
    if end is not None:
        return rate_line(end, "")
    amount = re.escape(found[0].amount_unit)
    match = re.fullmatch(rf"(?P<number>\d+(?:\.\d+)?)\s*(?:{amount}s?)?", tidy(chosen).strip(" ."))
    return match and rate_line(Rate(float(match["number"]), found[0].unit), "")


def _with_pack(coverage: Coverage | None, label: str) -> Coverage | None:
    """Return what a bag covers with what it weighs, where that was said before."""
    packs = read_label_facts(label).packs if coverage is not None and label else ()
    if coverage is None or coverage.weight is not None or coverage.area is None or len(packs) != 1:
        return coverage
    amount = packs[0].amount
    return replace(coverage, weight=amount.value, unit=amount.unit)


def _but_said_anew(said: str, new: ProductRead) -> str:
    """Return a label without what is said again: ingredients with their strength, a strength."""
    known = read(said).ingredients
    if not new.ingredients and len(new.strengths) == 1 == len(known):
        # "Sorry, it's 0.43 percent" is the one ingredient's.
        said = re.sub(rf"\b({re.escape(known[0].name)})\s+{NUMBER}\s*(?:%|lb/gal|g/L)", r"\1", said)
    if _says("anew").first(new.said):
        rate = None if new.rate is None else read(said).rate
        kept_parts = (part for part in said.split(", ") if not _is_told_anew(part, rate, new))
        said = ", ".join(kept_parts)
    for part in new.ingredients:
        if part.strength is not None:
            said = re.sub(
                rf"\b{re.escape(part.name)}(?:\s+{NUMBER}\s*%)?(?:,\s*|$)", "", said, count=1
            )
    return said


def _is_told_anew(part: str, rate: Rate | None, new: ProductRead) -> bool:
    """Tell whether a piece of a label is the rate or the maximum that is put right."""
    told = read(part)
    is_rate = rate is not None and told.rate == rate and not told.ingredients
    return is_rate or bool(new.limits and told.limits and not told.ingredients)


def _is_another(draft: Draft, text: str, new: ProductRead) -> bool:
    """Tell whether a text begins another product: one with ingredients or strengths of its own."""
    # What adds an ingredient is of this one: a bare name begins another product.
    begun = text.lstrip()
    is_added = begun[:1] in ("+", "&") or _says("added").at_start(begun) is not None
    if draft.awaits == "ingredient" or draft.near or is_added:
        return False
    known = {part.name: part.strength for part in read(draft.said).ingredients}
    if not known:
        return False
    return any(
        part.name not in known
        or (part.strength and known[part.name] and part.strength != known[part.name])
        for part in new.ingredients
    )


def _as_maximum(draft: Draft, text: str) -> str:
    """Return an answer as a maximum; what was missing of one completes it."""
    text = _says("hedge").without(tidy(text), "")
    while _says("reading_off").whole(text.split(" ")[0].rstrip(":")) and " " in text:
        text = text.split(" ", 1)[1].lstrip()
    if _says("is_maximum").at_start(text):
        return text
    if not draft.maximum:
        return f"max {text}"
    figure = draft.maximum.split()[1]
    if re.search(rf"(?<![\d.]){re.escape(figure)}(?![\d.])", text):
        return f"max {text}"
    filled = draft.maximum.replace(_GAP, text)
    completed = read(filled)
    is_completed = bool(completed.limits) or completed.part_maximum is not None
    # Another figure, such as the rate once more, is no answer: the question is put again.
    is_other = re.search(r"\d", _says("rate_like").without(text)) is not None
    return filled if is_completed and not is_other else _without_gap(draft.maximum)


def _as_pack(coverage: Coverage | None, text: str) -> str:
    """Return an answer to what a bag holds with what it covers."""
    typed = tidy(text)
    own, _ = find_coverage(typed)
    if coverage is None or own is not None or is_rate_like(typed):
        return f"{typed}, {coverage.written}" if coverage is not None and own is None else typed
    pack, _ = find_pack_weight(typed if _says("bag").first(typed) else f"{typed} bag")
    if pack is None:
        return f"{typed}, {coverage.written}"
    return replace(coverage, weight=pack.weight, unit=pack.unit).written


def _without_gap(maximum: str) -> str:
    return maximum.replace(f" {_GAP}", "")


def _with_period(said: str, period: str) -> str:
    parts = said.split(", ")
    return ", ".join(
        f"{part} per {period}" if part.startswith("max ") and part.count(" per ") == 1 else part
        for part in parts
    )
