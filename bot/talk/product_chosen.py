"""Which product is used here: shown or asked for, and what of it is on the shelf."""

from __future__ import annotations

from typing import Any, Final

from bot.dialogue import topics, typed_buttons
from bot.dialogue.talk import Talk
from bot.hearing.draft import Draft
from bot.hearing.drafts import reread
from bot.hearing.forms.product_forms import FactsOfLabel, LabelAsked, PriceSaid
from bot.hearing.heard import ActHeard
from bot.hearing.readers.label_words import LabelFacts, PackRead
from bot.hearing.readers.quantities import Amount as AmountSaid
from bot.hearing.readers.stock_words import StockSaid
from bot.saying.catalogue import shown
from bot.saying.values import LabelRate, Names
from bot.talk.product_keeping import keep
from bot.telling import fitting
from bot.telling.label_facts import fact_lines
from bot.telling.products_said import (
    ask_for_bag,
    doubt_lines,
    limits_of,
    limits_said,
    offered,
    say_part,
    say_product,
)
from bot.turn import Reply, rows
from storage import photos
from storage.products import ProductRecord
from storage.yards import YardRecord


def show(talk: Talk, yard: YardRecord, *, begins_anew: bool = True) -> list[Reply]:
    """Say which product is used, and ask for one or another; what is half entered may stay."""
    is_half_entered = talk.topic == topics.PRODUCT and bool(talk.data.get("said"))
    if is_half_entered and not begins_anew:
        return [_so_far(talk)]
    if begins_anew or talk.topic != topics.PRODUCT:
        talk.expect(topics.PRODUCT, **Draft(awaits="all").to_json())
    if yard.product_id is None:
        return ask_for_bag(talk, yard)
    record = talk.standing(yard).chosen
    known = talk.say("products.known", product=say_product(record), limits=limits_of(record))
    fit, choices = fitting.fit_lines(talk, yard, record)
    lines = [known, *fitting.range_lines(talk, record), *doubt_lines(talk, record), *fit]
    lines.append(talk.say("products.ask_another"))
    if photos.of_product(talk.work, record.id) is not None:
        choices = [*choices, [(talk.say("sketching.button_label"), f"product:photo:{yard.id}")]]
    return [Reply("\n".join(lines), rows(*choices) + offered(talk, yard))]


def _so_far(talk: Talk) -> Reply:
    """Say what is half entered, and put the question that waits once more."""
    read = reread(Draft.from_json(talk.data)).read
    named = " + ".join(map(say_part, read.ingredients))
    rate = [] if read.rate is None else [shown(LabelRate.of_rate(read.rate))]
    known = [each for each in (named, *rate, *limits_said(read.limits)) if each]
    said = Names(known) if known else str(talk.data["said"])
    lines = [talk.say("products.so_far", said=said)]
    waiting = topics.asked(topics.PRODUCT, str(talk.data.get("awaits", "")))
    if waiting is not None:
        lines.append(talk.say(f"hearing.back.{waiting.again}"))
        talk.data = {**talk.data, "put_again": talk.now.date().isoformat()}
    return Reply("\n".join(lines), typed_buttons.of_question(talk))


def on_show_product(talk: Talk, yard: YardRecord, heard: ActHeard) -> list[Reply]:
    """Say which product is used, or all that is known of its label, and what is not."""
    if yard.product_id is None or not isinstance(heard.slots.read, LabelAsked):
        return show(talk, yard, begins_anew=heard.why == "command")
    record = talk.standing(yard).chosen
    missing = [name for name, is_known in _known(record).items() if not is_known]
    lines = fact_lines(talk, record)
    if missing:
        names = Names([talk.say(f"labels.missing_{name}") for name in missing])
        lines.append(talk.say("labels.missing", missing=names, example=talk.say("labels.example")))
    return [
        talk.reply(
            "labels.show",
            product=say_product(record),
            limits=limits_of(record),
            lines="\n".join(lines),
        )
    ]


def _known(record: ProductRecord) -> dict[str, bool]:
    return {
        "times": record.max_applications is not None,
        "interval": record.smallest_interval_days is not None,
        "seeding": record.seeding_interval_days is not None,
        "age": record.turf_age_days is not None,
        "homes": record.is_residential_allowed is not None,
        "packs": bool(record.packs),
    }


def on_set_stock(talk: Talk, yard: YardRecord, heard: ActHeard) -> list[Reply]:
    """Keep what is on the shelf: an amount, or a part of a pack of known size."""
    said, slots = heard.slots.read, heard.slots
    if slots.unread is not None:
        return [Reply(slots.unread.sentence())]
    if isinstance(said, FactsOfLabel):
        return keep(talk, yard, said.facts)
    pack = _pack(talk, yard)
    size = None if pack is None else AmountSaid(float(pack["value"]), str(pack["unit"]))
    if isinstance(said, PriceSaid):
        if size is None:
            return [talk.reply("labels.price_ask")]
        return keep(talk, yard, LabelFacts(packs=(PackRead(size, said.cents, said.sign),)))
    if not isinstance(said, StockSaid):
        return [talk.reply("labels.stock_ask")]
    amount = said.size
    if amount is None and said.packs:
        amount = size
    elif amount is None and yard.product_id is not None:
        amount = AmountSaid(0.0, talk.standing(yard).chosen.rate_unit.split("/")[0])
    if amount is None:
        return [talk.reply("labels.stock_ask")]
    amount = AmountSaid(round(said.packs * amount.value, 3), amount.unit)
    told = LabelFacts(bought=amount) if said.is_added else LabelFacts(shelf=amount)
    return keep(talk, yard, told)


def _pack(talk: Talk, yard: YardRecord) -> dict[str, Any] | None:
    """Return the one pack the product is sold in; None where there is none, or several."""
    if yard.product_id is None:
        return None
    packs = talk.standing(yard).chosen.packs
    return packs[0] if len(packs) == 1 else None


HANDLERS: Final = {"show_product": on_show_product, "set_stock": on_set_stock}
