"""Questions about a product being entered: each one thing, with a right way to answer."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from bot.dialogue import topics
from bot.dialogue.product_commands import OF_FORM, without_percent
from bot.dialogue.talk import Talk
from bot.hearing import drafts
from bot.hearing.draft import Draft, ProductSaid
from bot.hearing.readers.lexing import figures
from bot.hearing.readers.reading import Unread
from bot.saying.plants import say_ingredient
from bot.saying.printed_amounts import Measure
from bot.saying.values import LabelRate, Names
from bot.telling.products_said import (
    doubt_words,
    ingredient_buttons,
    other_ingredient_buttons,
    say_strength,
)
from bot.turn import Buttons, Reply, rows
from jobs.agronomy.ingredients import find_ingredient, ingredients
from jobs.agronomy.rates import Rate
from jobs.agronomy.slips import Slip

EXAMPLE: Final = "prodiamine 0.38% granule, 3.2 lb per 1000 sq ft, max 6.4 lb per 1000 a year"
#: What an answer to a question about a line is taken for, where it is not the rate.
_AWAITS: Final = {
    "reading.limit_period": "maximum",
    "reading.coverage_weight": "coverage",
    "reading.strength": "strength",
    "reading.strengths": "strength",
    "reading.strength_code": "strength",
}


def ask_maximum(talk: Talk, said: ProductSaid) -> str:
    """Ask for the most the label allows, or for what is missing of it."""
    part = said.read.part_maximum
    if part is None:
        return talk.say("products.ask_maximum")
    key = "products.ask_maximum_area" if part.has_unit else "products.ask_maximum_unit"
    return talk.say(key, said=part.said)


def ask_ingredient(
    talk: Talk,
    draft: Draft,
    misspelt: str | None,
    leftovers: tuple[str, ...],
    *,
    is_of_all: bool = False,
) -> Reply:
    """Ask for the ingredient, or whether a word is meant for one that is near it."""
    for word in (misspelt,) if misspelt is not None else leftovers:
        near = find_ingredient(word).candidates
        if near:
            names = Names([say_ingredient(key) for key in near], "or")
            buttons = [(say_ingredient(key), f"product:is_{key}:0") for key in near[:3]]
            draft = replace(draft, awaits="ingredient", near=word)
            talk.expect(topics.PRODUCT, **draft.to_json())
            return talk.reply("products.near", rows(buttons), said=word, names=names)
    talk.expect(topics.PRODUCT, **replace(draft, awaits="ingredient").to_json())
    # Nothing of it could be an ingredient: what was said may still hold a rate worth keeping.
    offered = other_ingredient_buttons() if is_of_all else ingredient_buttons(talk)
    return talk.reply("products.ask_ingredient", offered)


#: Kept among what is settled: the label gives no strength.
NO_STRENGTH: Final = "no strength"
#: What is asked about a product of which its ingredient alone is known.
_WHERE_NOTHING_IS_SAID: Final = frozenset(
    {"reading.product_rate", "reading.strength", "reading.form"}
)
#: Percentages offered as buttons, and in a row.
_MOST_PERCENTS: Final = 6
_IN_A_ROW: Final = 3


def is_strength_open(said: ProductSaid) -> bool:
    """Tell whether the strength is asked first: it stands beside the ingredient on the bag.

    Where a rate or what a bag covers was said already, it waits.
    """
    read = said.read
    is_asked_about = any(each.reason not in _WHERE_NOTHING_IS_SAID for each in read.questions)
    is_begun = read.rate is not None or read.coverage is not None or is_asked_about
    has_any = any(part.strength for part in read.ingredients) or bool(read.strengths)
    return not is_begun and not has_any and NO_STRENGTH not in said.draft.sure


def ask_strength(talk: Talk, said: ProductSaid) -> Reply:
    """Ask for the percentage beside the ingredient, with those that bags often have."""
    name = said.read.ingredients[0].name
    if said.read.is_liquid and len(said.read.ingredients) == 1:
        return ask_by_volume(talk, said, name)
    talk.expect(topics.PRODUCT, **drafts.kept(said, "strength").to_json())
    item = ingredients().get(name)
    common = () if item is None or len(said.read.ingredients) > 1 else item.bag_percents
    said_as = [figures(each) for each in common[:_MOST_PERCENTS]]
    pairs = [
        (talk.say("products.button_percent", said=each), f"product:pct_{each}:0")
        for each in said_as
    ]
    percents = [pairs[at : at + _IN_A_ROW] for at in range(0, len(pairs), _IN_A_ROW)]
    skip = [(talk.say("products.button_nostrength"), "product:nostrength:0")]
    return talk.reply(
        "products.ask_strength_first", rows(*percents, skip), ingredient=say_ingredient(name)
    )


def maximum_buttons(talk: Talk, said: ProductSaid) -> list[list[tuple[str, str]]]:
    """Return buttons that complete a bare figure for a maximum by the unit of the rate."""
    part, rate = said.read.part_maximum, said.read.rate
    if part is None or part.has_unit or rate is None:
        return []
    return [
        [(talk.say(f"products.button_max_{period}", unit=rate.unit), f"product:max_{period}:0")]
        for period in ("year", "application")
    ]


def ask_next(talk: Talk, said: ProductSaid, blocking: list[Unread]) -> Reply:
    """Ask the first question that stands in the way, the rate where there is none."""
    question = blocking[0] if blocking else Unread(said.draft.said, "reading.product_rate", EXAMPLE)
    awaits = _AWAITS.get(question.reason, "rate")
    talk.expect(topics.PRODUCT, **drafts.kept(said, awaits).to_json())
    if awaits == "rate" and said.read.rate is None and said.draft.rate_range is not None:
        return ask_of_range(talk, said.draft.rate_range)
    packs = said.facts.packs
    if question.reason == "reading.product_rate" and len(packs) == 1:
        pack = f"{figures(packs[0].amount.value)} {packs[0].amount.unit}"
        return talk.reply("products.ask_covers", pack=pack)
    return Reply("\n".join([*read_as(talk, said), question.sentence()]))


def ask_of_range(talk: Talk, rates: tuple[Rate, Rate], over: Rate | None = None) -> Reply:
    """Ask which rate of a range it is; `over` is one that stands above it."""
    low, high = (LabelRate.of_rate(each) for each in rates)
    buttons = rows(
        [(talk.say("products.button_rate", rate=low), "product:rate_low:0")],
        [(talk.say("products.button_rate", rate=high), "product:rate_high:0")],
    )
    lowest = figures(rates[0].value)
    if over is None:
        return talk.reply("products.ask_range", buttons, low=lowest, high=high)
    asked = LabelRate.of_rate(over)
    return talk.reply("products.over_range", buttons, asked=asked, low=lowest, high=high)


def read_as(talk: Talk, said: ProductSaid) -> list[str]:
    """Say back what codes, bare figures and a bag's coverage were read as."""
    lines = [
        talk.say("products.code_taken", said=code, strength=say_strength(strength))
        for code, strength in said.read.codes
    ]
    coverage = said.read.coverage
    if coverage is not None and coverage.rate is not None:
        rate = LabelRate.of_rate(coverage.rate)
        bag = {
            "weight": Measure(coverage.weight or 0.0, coverage.unit),
            "area": Measure(coverage.area or 0.0, coverage.of),
        }
        lines.append(talk.say("products.coverage_taken", **bag, rate=rate))
    return lines


def ask_doubt(talk: Talk, said: ProductSaid, slip: Slip, *, is_again: bool = False) -> Reply:
    """Ask about a figure that does not go with the others or with what is published.

    Asked again, behind an answer to something else, it takes one line.
    """
    key = f"products.slip_{slip.kind}"
    words = doubt_words(slip)
    if slip.kind in ("above_range", "below_range") and not words["usual"]:
        key = "products.slip_too_much_of_anything"
    first = [(talk.say("products.button_sure"), "product:sure:0")]
    if slip.kind in OF_FORM:
        first = [
            (talk.say(f"products.button_{form}"), f"product:{form}:0")
            for form in ("granule", "spray")
        ]
    elif slip.suggestion is not None:
        first = [
            (talk.say("products.button_rate", rate=words["asked"]), "product:sure:0"),
            (
                talk.say("products.button_rate", rate=LabelRate.of_rate(slip.suggestion)),
                "product:suggested:0",
            ),
        ]
    others = [
        (talk.say("products.button_reread"), "product:reread:0"),
        (talk.say("products.button_unsaid"), "product:norate:0"),
    ]
    if is_again:
        key = "products.slip_again"
    # What was read of a bag comes first: it is the bag's figures that people have before them.
    lines = [] if is_again else read_as(talk, said)
    return Reply("\n".join([*lines, talk.say(key, **words)]), rows(first, others))


def stopped(talk: Talk, said: ProductSaid) -> Reply | None:
    """Stop an ingredient that is for certified applicators; None where there is none."""
    table = ingredients()
    for part in said.read.ingredients:
        item = table.get(part.name)
        is_restricted = item is not None and item.certified_only and item.certified_only.value
        if is_restricted and not said.draft.is_certified:
            draft = replace(said.draft, awaits="certified")
            talk.expect(topics.PRODUCT, **draft.to_json())
            buttons: Buttons = talk.rows(
                [("products.button_certified", "product:certified:0")],
                [("products.button_change", "product:change:0")],
            )
            return talk.reply(
                "products.certified_only", buttons, ingredient=say_ingredient(part.name)
            )
    return None


def ask_percent(talk: Talk, said: ProductSaid, ingredient: str, number: float) -> Reply:
    """Ask whether a bare figure beside an ingredient is its percentage."""
    shown = figures(number)
    talk.expect(topics.PRODUCT, **drafts.kept(said, "strength").to_json(), percent=shown)
    buttons = rows(
        [(talk.say("products.button_percent", said=shown), f"product:name_{shown}%:0")],
        [(talk.say("products.button_change"), "product:change:0")],
    )
    return talk.reply(
        "products.ask_percent", buttons, said=shown, ingredient=say_ingredient(ingredient)
    )


def ask_by_volume(talk: Talk, said: ProductSaid, name: str) -> Reply:
    """Ask for a liquid's strength by volume: a percentage by weight says nothing of an ounce."""
    unknown = replace(said.read, ingredients=tuple(map(without_percent, said.read.ingredients)))
    kept = drafts.kept(ProductSaid(said.draft, unknown), "strength")
    talk.expect(topics.PRODUCT, **kept.to_json())
    return talk.reply("products.ask_strength_by_volume", ingredient=say_ingredient(name))
