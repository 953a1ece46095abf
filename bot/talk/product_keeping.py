"""A product is kept: said back, with the question for what is still missing of its label."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from bot.dialogue import topics
from bot.dialogue.talk import Talk
from bot.hearing import drafts
from bot.hearing.drafts import Draft, ProductSaid
from bot.hearing.label_lines import label_of
from bot.hearing.readers.product_read import ProductRead
from bot.saying.plants import say_ingredient
from bot.saying.values import Day, LabelRate, Names
from bot.talk import fitting, other_yards, rest_of_label
from bot.talk import products_said as product_words
from bot.talk.product_questions import ask_maximum, maximum_buttons, read_as
from bot.talk.products_said import limits_of, say_product
from bot.turn import Reply, rows
from jobs.agronomy.amounts import LabelLimitExceeded
from jobs.agronomy.label_doubts import FactsMissing, key_of, need_facts
from jobs.agronomy.rates import Rate
from jobs.labels import product_of
from jobs.uses import adding_many as many_uses
from jobs.uses import entering_products as uses
from storage import photos, yards
from storage.products import ProductRecord
from storage.yards import YardRecord

#: Kept among what is settled: the label gives no maximum.
NO_MAXIMUM: Final = "no maximum"


def enter(
    talk: Talk, yard: YardRecord, said: ProductSaid, command: uses.Enter, *, is_form_said: bool
) -> list[Reply]:
    """Keep a product, say it back, and ask for what is still missing of it."""
    try:
        record = uses.enter(talk.work, yard, command, person_id=talk.person.id, now=talk.now)
    except LabelLimitExceeded as over:
        talk.expect(topics.PRODUCT, **drafts.kept(said, "rate", with_rate=False).to_json())
        asked, limit = Rate(over.asked, over.unit), Rate(over.limit, over.unit)
        return [
            talk.reply(
                "products.over_limit",
                asked=LabelRate.of_rate(asked),
                limit=LabelRate.of_rate(limit),
            )
        ]
    photos.give_to_product(talk.work, yard.id, record.id)
    others = [each for each in talk.yards() if each.id in said.draft.yards]
    many_uses.use_product(talk.work, others, record, now=talk.now)
    saved_for = Names([each.name for each in (yard, *others)])
    lines = [talk.say("products.kept", product=say_product(record), yard=saved_for)]
    lines += read_as(talk, said)
    buttons: list[list[tuple[str, str]]] = []
    if not is_form_said:
        lines.append(talk.say(f"products.form_taken_{record.form}"))
        other = "spray" if record.form == "granule" else "granule"
        buttons.append([(talk.say(f"products.button_{other}"), f"product:{other}:{yard.id}")])
    if said.unread:
        words = Names(said.unread)
        lines.append(talk.say("products.leftovers", words=words))
    lines += product_words.doubt_lines(talk, record)
    lines += fitting.range_lines(talk, record)
    awaits = _ask_rest(talk, yard, said, record, lines, buttons)
    facts = said.facts
    kept = drafts.kept(ProductSaid(replace(said.draft, label=""), said.read), awaits)
    if awaits or not is_form_said:
        talk.expect(topics.PRODUCT, **replace(kept, awaits=awaits or "form").to_json())
    else:
        talk.settle()
    if not awaits:
        _ask_was_it(talk, yard, lines, buttons)
    lines.append(talk.say("products.law"))
    buttons.append(other_yards.offer_to_others(talk, yard))
    reply = Reply("\n".join(lines), rows(*buttons))
    now = yards.yard(talk.work, yard.id)
    if facts.is_empty or now is None:
        return [reply]
    kept_facts = rest_of_label.keep(talk, now, facts)
    # What a bag weighs is part of what it covers: no word of its own.
    return [reply] if facts.is_pack_alone else [*kept_facts, reply]


def _ask_was_it(
    talk: Talk, yard: YardRecord, lines: list[str], buttons: list[list[tuple[str, str]]]
) -> None:
    """Add the question whether what went down with no product known was this one."""
    unknown = uses.unknown_before(talk.work, yard, talk.today(yard))
    if unknown:
        on = Day(unknown[-1].applied_on, talk.today(yard))
        lines.append(talk.say("products.ask_was_it", on=on))
        buttons.append([(talk.say("products.button_was_it"), f"product:was:{yard.id}")])


def was_it(talk: Talk, yard: YardRecord, _action: str) -> list[Reply]:
    """Answer the button: what went down while no product was known was this one."""
    zones = uses.name_unknown(talk.work, yard, person_id=talk.person.id, now=talk.now)
    if not zones:
        return [talk.stale("products.hint")]
    product = say_product(talk.standing(yard).chosen)
    return [talk.reply("products.was_it", talk.undo(), zones=Names(zones), product=product)]


def _ask_rest(
    talk: Talk,
    yard: YardRecord,
    said: ProductSaid,
    record: ProductRecord,
    lines: list[str],
    buttons: list[list[tuple[str, str]]],
) -> str:
    """Add the question for what is still missing of a kept product; return what is awaited."""
    is_maximum_open = said.read.part_maximum is not None or not record.maxima
    if is_maximum_open and NO_MAXIMUM not in said.draft.sure:
        lines.append(ask_maximum(talk, said))
        buttons += maximum_buttons(talk, said)
        buttons.append([(talk.say("products.button_nomax"), f"product:nomax:{yard.id}")])
        return "maximum"
    if any(maximum["period"] == "unsaid" for maximum in record.maxima):
        lines.append(talk.say("products.ask_period", limits=limits_of(record)))
        buttons.append(
            [
                (talk.say(f"products.button_{period}"), f"product:{period}:{yard.id}")
                for period in ("application", "year", "season")
            ]
        )
        return "period"
    lines.append(talk.say("products.limits", limits=limits_of(record)))
    missing = _missing(record)
    if missing is not None:
        lines.append(
            talk.say(f"products.ask_{missing.lack}", ingredient=say_ingredient(missing.ingredient))
        )
        return "strength"
    more, choices = fitting.fit_lines(talk, yard, record)
    lines += more
    buttons += choices
    buttons.append([(talk.say("yards.button_amounts"), f"amounts:{yard.id}")])
    return ""


def without_maximum(talk: Talk, yard: YardRecord, draft: Draft) -> list[Reply]:
    """Take that the label gives no maximum; go on with the strength where that is missing."""
    talk.settle()
    lines = [talk.say("products.no_maximum", yard=yard.name)]
    buttons = [[(talk.say("yards.button_amounts"), f"amounts:{yard.id}")]]
    missing = None
    if yard.product_id is not None:
        missing = _missing(talk.standing(yard).chosen)
    if missing is not None:
        sure = (*draft.sure, NO_MAXIMUM)
        talk.expect(
            topics.PRODUCT, **replace(draft, awaits="strength", maximum="", sure=sure).to_json()
        )
        lines.append(
            talk.say(f"products.ask_{missing.lack}", ingredient=say_ingredient(missing.ingredient))
        )
        return [Reply("\n".join(lines))]
    _ask_was_it(talk, yard, lines, buttons)
    return [Reply("\n".join(lines), rows(*buttons))]


def _missing(record: ProductRecord) -> FactsMissing | None:
    try:
        need_facts(product_of(record))
    except FactsMissing as missing:
        return missing
    return None


def ask_missing(talk: Talk, yard: YardRecord, missing: FactsMissing) -> list[Reply]:
    """Ask for what an amount of the chosen product waits for."""
    assert yard.product_id is not None
    record = talk.standing(yard).chosen
    sure = (*settled_doubts(record), NO_MAXIMUM)
    said = drafts.reread(Draft(label_said(record), record.said, form=record.form, sure=sure))
    talk.expect(topics.PRODUCT, **drafts.kept(said, "strength").to_json())
    question = talk.say(
        f"products.ask_{missing.lack}", ingredient=say_ingredient(missing.ingredient)
    )
    return [Reply(f"{talk.say('products.no_amounts_yet', yard=yard.name)}\n{question}")]


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
