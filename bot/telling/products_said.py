"""Products in words: which is used here, which one could use, and the label's figures."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from bot.dialogue import topics
from bot.dialogue.talk import Talk
from bot.hearing import drafts
from bot.hearing.draft import NO_MAXIMUM, Draft
from bot.hearing.label_lines import label_of
from bot.hearing.readers.lexing import figures
from bot.hearing.readers.product_read import ProductRead
from bot.saying.catalogue import say, shown
from bot.saying.plants import say_ingredient
from bot.saying.printed_amounts import Measure
from bot.saying.values import LabelRate, Names, Number
from bot.turn import Button, Buttons, Reply, rows
from jobs.agronomy.ingredients import ingredients
from jobs.agronomy.label_doubts import FactsMissing, key_of
from jobs.agronomy.maxima import LabelMaximum
from jobs.agronomy.rates import Rate
from jobs.agronomy.slips import Slip
from jobs.agronomy.strengths import ActiveIngredient, Strength
from jobs.labels import product_of
from jobs.uses import entering_products as uses
from storage.products import ProductRecord
from storage.yards import YardRecord

#: Products of other yards offered at once.
_MOST_OFFERED: Final = 4
#: Ingredients offered as buttons: those most bags for home lawns hold (common practice, no source).
_LIKELY: Final = (
    ("prodiamine", "dithiopyr", "pendimethalin"),
    ("benefin", "trifluralin", "mesotrione"),
)


def ask_for_bag(talk: Talk, yard: YardRecord) -> list[Reply]:
    """Ask what is in the bag: by button, in words, or nothing yet."""
    talk.expect(topics.PRODUCT, **Draft(awaits="all").to_json())
    last = [(talk.say("products.button_none_yet"), f"product:none:{yard.id}")]
    if yard.screening is None:
        last.append((talk.say("screening.button_start"), f"screen:start:{yard.id}"))
    buttons = (*offered(talk, yard), *ingredient_buttons(talk), *rows(last))
    return [talk.reply("products.ask", buttons)]


def ingredient_buttons(talk: Talk) -> Buttons:
    """Return a button for each of the likeliest ingredients, and one for the list of all."""
    likely = tuple(
        tuple(Button(say_ingredient(name), f"product:name_{name}:0") for name in line)
        for line in _LIKELY
    )
    return (*likely, *talk.row(("products.button_list", "product:list:0")))


def other_ingredient_buttons() -> Buttons:
    """Return a button for each other ingredient that works before weeds come up."""
    likely = {name for line in _LIKELY for name in line}
    names = [
        item.names[0]
        for item in ingredients().values()
        if item.kind == "pre" and item.names[0] not in likely
    ]
    buttons = [Button(say_ingredient(name), f"product:name_{name}:0") for name in names]
    return tuple(tuple(buttons[at : at + 3]) for at in range(0, len(buttons), 3))


def say_product(record: ProductRecord) -> str:
    """Return a product in one phrase: ingredient, strength, form and rate as on the label."""
    return say(
        "products.granule" if record.form == "granule" else "products.spray",
        ingredients=ingredients_of(record),
        rate=LabelRate.of_rate(Rate(record.rate_value, record.rate_unit)),
    )


def ingredients_of(record: ProductRecord) -> str:
    """Return the ingredients of a product with their strengths."""
    return " + ".join(map(say_part, product_of(record).ingredients))


def say_part(part: ActiveIngredient) -> str:
    """Return an ingredient with its strength, where that is known."""
    strength = "" if part.strength is None else f" {say_strength(part.strength)}"
    return f"{say_ingredient(part.name)}{strength}"


def say_strength(strength: Strength) -> str:
    """Return a strength as on the label."""
    if strength.unit == "%":
        return shown(Measure(strength.value, "%"))
    return f"{figures(strength.value)} {strength.unit}"


def limits_of(record: ProductRecord) -> Names | str:
    """Return the label's maxima, one after the other."""
    if not record.maxima:
        return say("products.limit_none")
    return Names(limits_said(product_of(record).maxima))


def limits_said(maxima: Sequence[LabelMaximum]) -> list[str]:
    """Return maxima of a label, each in words."""
    return [
        say(f"products.limit_{each.period}", rate=LabelRate.of_rate(each.rate, each.of))
        for each in maxima
    ]


def doubt_lines(talk: Talk, record: ProductRecord) -> list[str]:
    """Return what is doubtful about a product, one doubt a line: it stays beside every amount."""
    return [
        talk.say(f"products.doubt_{slip.kind}", **doubt_words(slip))
        for slip in uses.doubts_of(record)
    ]


def doubt_words(slip: Slip) -> dict[str, object]:
    """Return the figures of a doubt in words, as far as there are any."""
    words: dict[str, object] = {
        "ingredient": say_ingredient(slip.ingredient),
        "asked": LabelRate.of_rate(slip.asked),
        "usual": "",
        "range": "",
        "suggestion": "",
    }
    if slip.low is not None and slip.high is not None:
        words["usual"] = say(
            "units.range",
            low=Number(_short(slip.low).value),
            high=LabelRate.of_rate(_short(slip.high)),
        )
        # In the unit of the figure it stands beside.
        low, high = (Number(_short(each).value) for each in (slip.low, slip.high))
        words["range"] = say("units.range", low=low, high=high)
    elif slip.high is not None:
        words["usual"] = words["range"] = LabelRate.of_rate(_short(slip.high))
    if slip.suggestion is not None:
        words["suggestion"] = LabelRate.of_rate(_short(slip.suggestion))
    return words


def offered(talk: Talk, yard: YardRecord) -> Buttons:
    """Return a button for each product that other yards of the chat use."""
    found = uses.others_in_use(talk.work, yard)[:_MOST_OFFERED]
    labels = [talk.say("products.button_use", product=_short_name(each)) for each in found]
    actions = [f"product:use:{yard.id}:{each.id}" for each in found]
    return rows(*([pair] for pair in zip(labels, actions, strict=True)))


def _short_name(record: ProductRecord) -> str:
    names = " + ".join(say_ingredient(part.name) for part in product_of(record).ingredients)
    return f"{names}, {shown(LabelRate(record.rate_value, record.rate_unit))}"


def _short(rate: Rate) -> Rate:
    return Rate(float(f"{rate.value:.3g}"), rate.unit)


def ask_missing(talk: Talk, yard: YardRecord, missing: FactsMissing) -> list[Reply]:
    """Ask for what an amount of the chosen product waits for."""
    assert yard.product_id is not None
    record = talk.standing(yard).chosen
    sure = (*settled_doubts(record), NO_MAXIMUM)
    said = drafts.reread(Draft(label_said(record), record.said, form=record.form, sure=sure))
    talk.expect(topics.PRODUCT, **drafts.kept(said, "strength").to_json())
    question = ask_lacking(talk, missing)
    return [Reply(f"{talk.say('products.no_amounts_yet', yard=yard.name)}\n{question}")]


def ask_lacking(talk: Talk, missing: FactsMissing) -> str:
    """Ask for the strength that an ingredient lacks."""
    ingredient = say_ingredient(missing.ingredient)
    return talk.say(f"products.ask_{missing.lack}", ingredient=ingredient)


def label_said(record: ProductRecord, new: ProductRead | None = None) -> str:
    """Return a kept product in our own writing, without what is said anew of it."""
    product = product_of(record)
    rate = None if new is not None and new.rate is not None else product.rate
    said = {(limit.period, limit.of) for limit in new.limits} if new is not None else set()
    own = product.maxima[: len(record.maxima)]
    maxima = [each for each in own if (each.period, each.of) not in said]
    is_dry = record.form == "spray" and Rate(record.rate_value, record.rate_unit).is_weight
    return label_of(product.ingredients, "powder" if is_dry else record.form, rate, maxima)


def settled_doubts(record: ProductRecord) -> tuple[str, ...]:
    """Return the doubts of a kept product: they were asked about when it was kept."""
    return tuple(key_of(slip) for slip in uses.doubts_of(record))
