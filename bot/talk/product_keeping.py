"""A product is kept: said back, with the question for what is still missing of its label."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from bot.dialogue import topics
from bot.dialogue.talk import Talk
from bot.hearing import drafts
from bot.hearing.draft import NO_MAXIMUM, Draft, ProductSaid
from bot.hearing.forms.wish_forms import TermsSaid
from bot.hearing.readers.label_words import LabelFacts
from bot.saying.values import Day, Depth, LabelRate, Names, Speed
from bot.telling import fitting, offers
from bot.telling import products_said as product_words
from bot.telling.label_facts import fact_lines
from bot.telling.product_questions import ask_maximum, maximum_buttons, read_as
from bot.telling.products_said import limits_of, say_product
from bot.turn import Reply, rows
from jobs.agronomy.amounts import LabelLimitExceeded
from jobs.agronomy.label_doubts import FactsMissing, need_facts
from jobs.agronomy.rates import Rate, WeightAgainstVolume
from jobs.labels import product_of
from jobs.uses import adding_many as many_uses
from jobs.uses import entering_products as uses
from jobs.uses import keeping_wishes, labelling
from jobs.weather_of_day import rules_of
from storage import photos, yards
from storage.products import ProductRecord
from storage.yards import YardRecord


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
    buttons.append(offers.offer_to_others(talk, yard))
    reply = Reply("\n".join(lines), rows(*buttons))
    now = yards.yard(talk.work, yard.id)
    if facts.is_empty or now is None:
        return [reply]
    kept_facts = keep(talk, now, facts)
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
        lines.append(product_words.ask_lacking(talk, missing))
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
        lines.append(product_words.ask_lacking(talk, missing))
        return [Reply("\n".join(lines))]
    _ask_was_it(talk, yard, lines, buttons)
    return [Reply("\n".join(lines), rows(*buttons))]


def _missing(record: ProductRecord) -> FactsMissing | None:
    try:
        need_facts(product_of(record))
    except FactsMissing as missing:
        return missing
    return None


def keep(talk: Talk, yard: YardRecord, facts: LabelFacts) -> list[Reply]:
    """Keep facts of the chosen product's label."""
    stock = None
    if facts.shelf is not None:
        stock = labelling.Stock(facts.shelf.value, facts.shelf.unit)
    elif facts.bought is not None:
        stock = labelling.Stock(facts.bought.value, facts.bought.unit, is_added=True)
    try:
        record = labelling.keep(
            talk.work,
            yard,
            facts.values,
            packs=[
                labelling.PackSaid(p.amount.value, p.amount.unit, p.price, p.currency)
                for p in facts.packs
            ],
            stock=stock,
        )
    except labelling.NoProduct:
        return [talk.reply("labels.no_product")]
    except WeightAgainstVolume as mixed:
        return [talk.reply("labels.wrong_kind", said=mixed.unit, wanted=mixed.other)]
    names = set(facts.values)
    if facts.packs:
        names.add("packs")
    if stock is not None:
        names.add("shelf_si")
    buttons = talk.undo(key="labels.button_undo")
    lines = "\n".join(fact_lines(talk, record, names))
    return [talk.reply("labels.kept", buttons, product=say_product(record), lines=lines)]


def set_label_terms(talk: Talk, yard: YardRecord, said: TermsSaid) -> list[Reply]:
    """Keep what the label wants of water, wind and leaves, or clear it."""
    try:
        kept = keeping_wishes.change_label(talk.work, yard, said.terms)
    except keeping_wishes.NoProductForLabel:
        return [talk.reply("wishes.label_product")]
    if not kept:
        return [talk.reply("wishes.label_cleared")]
    assert yard.product_id is not None
    product = say_product(talk.standing(yard).chosen)
    return [talk.reply("wishes.label_set", product=product, terms=_day_terms(talk, yard, kept))]


def _day_terms(talk: Talk, yard: YardRecord, kept: Mapping[str, Any]) -> Names:
    rules = rules_of(talk.work, yard)
    parts = []
    if "water_in_mm" in kept:
        depth = Depth(rules.water_in_mm / 1000)
        parts.append(talk.say("wishes.label_water", depth=depth))
    if "water_in_hours" in kept:
        parts.append(talk.say("wishes.label_within", hours=rules.water_in_hours))
    if "wind_high_m_s" in kept:
        parts.append(talk.say("wishes.label_wind", wind=Speed(rules.wind_high_m_s)))
    if "leaves" in kept:
        parts.append(talk.say("wishes.label_leaves", leaves=rules.leaves))
    if "dry_hours_after" in kept:
        parts.append(talk.say("wishes.label_dry", hours=rules.dry_hours_after))
    return Names(parts)
