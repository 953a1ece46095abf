"""The rest of a label: times, intervals, seeding, home lawns, packs, stock, fertiliser."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Final

from bot.dialogue.talk import Talk
from bot.hearing.forms.product_forms import FactsOfLabel
from bot.hearing.forms.stock_forms import StockShare
from bot.hearing.forms.wish_forms import TermsSaid
from bot.hearing.heard import ActHeard
from bot.hearing.readers.label_words import LabelFacts
from bot.hearing.readers.lexing import figures
from bot.hearing.readers.quantities import Amount as AmountSaid
from bot.saying.catalogue import say
from bot.saying.printed_amounts import Quantity
from bot.saying.values import Depth, Names, Speed
from bot.talk.products_said import say_product
from bot.turn import Reply
from jobs.agronomy.ingredient_facts import LEAF_KINDS
from jobs.agronomy.ingredients import ingredients
from jobs.agronomy.labelled_product import Product
from jobs.agronomy.rates import WeightAgainstVolume
from jobs.agronomy.units import from_si
from jobs.labels import product_of
from jobs.uses import keeping_wishes
from jobs.uses import labelling as uses
from jobs.weather_of_day import rules_of
from storage.products import ProductRecord
from storage.yards import YardRecord

#: Parts of a pack by the words of the slot.
_SHARES: Final = {"half": 0.5, "1/2": 0.5, "1/3": 1 / 3, "2/3": 2 / 3, "1/4": 0.25, "3/4": 0.75}
#: A bare number up to this counts packs.
_MOST_PACKS: Final = 50.0


def on_set_stock(talk: Talk, yard: YardRecord, heard: ActHeard) -> list[Reply]:
    """Keep what is on the shelf: an amount, or a part of a pack of known size."""
    said, slots = heard.slots.read, heard.slots
    if slots.unread is not None:
        return [Reply(slots.unread.sentence())]
    if isinstance(said, FactsOfLabel):
        return keep(talk, yard, said.facts)
    if slots.amount is not None:
        return keep(talk, yard, LabelFacts(shelf=slots.amount))
    share = said.share if isinstance(said, StockShare) else _SHARES.get(slots.part or "")
    if share is None and slots.number is not None and 0 < slots.number <= _MOST_PACKS:
        share = slots.number
    pack = None if share is None else _pack(talk, yard)
    if share is None or pack is None:
        return [talk.reply("labels.stock_ask")]
    amount = AmountSaid(round(share * float(pack["value"]), 3), str(pack["unit"]))
    return keep(talk, yard, LabelFacts(shelf=amount))


def _pack(talk: Talk, yard: YardRecord) -> dict[str, Any] | None:
    """Return the one pack the product is sold in; None where there is none, or several."""
    if yard.product_id is None:
        return None
    packs = talk.standing(yard).chosen.packs
    return packs[0] if len(packs) == 1 else None


def keep(talk: Talk, yard: YardRecord, facts: LabelFacts) -> list[Reply]:
    """Keep facts of the chosen product's label."""
    stock = None
    if facts.shelf is not None:
        stock = uses.Stock(facts.shelf.value, facts.shelf.unit)
    elif facts.bought is not None:
        stock = uses.Stock(facts.bought.value, facts.bought.unit, is_added=True)
    try:
        record = uses.keep(
            talk.work,
            yard,
            facts.values,
            packs=[
                uses.PackSaid(p.amount.value, p.amount.unit, p.price, p.currency)
                for p in facts.packs
            ],
            stock=stock,
        )
    except uses.NoProduct:
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


def tail_lines(talk: Talk, product: Product) -> list[str]:
    """Return what a product's companions change about a round: leaf herbicides, fertiliser."""
    lines = []
    if product.has_foliar:
        lines.append(talk.say("labels.foliar", names=foliar_names(product)))
    if product.nitrogen_fraction and product.rate is not None and product.rate.is_weight:
        n_lb = from_si(product.rate.rate_si * product.nitrogen_fraction, "lb/1000 sq ft")
        lines.append(talk.say("labels.feeds", n=f"{n_lb:.2f} lb"))
    return lines


def foliar_names(product: Product) -> Names:
    """Return the names of what in a product works through leaves."""
    table = ingredients()
    return Names(
        [
            name
            for name in product.ingredient_names
            if name in table and table[name].kind in LEAF_KINDS
        ]
    )


def foliar_of(product: Product | None) -> Names | str:
    """Return what of an applied product works through leaves, or an empty text."""
    return "" if product is None else foliar_names(product)


def fact_lines(talk: Talk, record: ProductRecord, names: set[str] | None = None) -> list[str]:
    """Return what is known of a label, one fact a line; only the named columns if any are."""
    lines: dict[str, str] = {}
    if record.max_applications is not None:
        key = f"labels.times_{record.applications_period or 'unsaid'}"
        lines["max_applications"] = talk.say(key, count=record.max_applications)
    for name, key in (
        ("smallest_interval_days", "interval"),
        ("seeding_interval_days", "seeding"),
        ("turf_age_days", "age"),
    ):
        days = getattr(record, name)
        if days is not None:
            lines[name] = talk.say(f"labels.{key}", days=days)
    if record.is_residential_allowed is not None:
        word = "yes" if record.is_residential_allowed else "no"
        lines["is_residential_allowed"] = talk.say(f"labels.homes_{word}")
    if record.analysis is not None:
        lines["analysis"] = _analysis(talk, record)
    if record.packs:
        packs = Names([say_pack(row) for row in record.packs])
        lines["packs"] = talk.say("labels.packs", packs=packs)
    if record.shelf_si is not None:
        unit = record.rate_unit.split("/")[0]
        amount = Quantity(record.shelf_si, unit)
        lines["shelf_si"] = talk.say("labels.shelf", amount=amount)
    return [line for name, line in lines.items() if names is None or name in names]


def say_pack(row: dict[str, object]) -> str:
    """Return a pack in words: ``25 lb at $38.00``."""
    size = f"{figures(float(str(row['value'])))} {row['unit']}"
    if row["price"] is None:
        return size
    price = f"{row.get('currency', '')}{int(str(row['price'])) / 100:.2f}"
    return say("labels.pack_at", size=size, price=price)


def _analysis(talk: Talk, record: ProductRecord) -> str:
    product = product_of(record)
    if product.rate is None or not product.rate.is_weight or product.nitrogen_fraction is None:
        return str(record.analysis)
    n_kg_ha = product.rate.rate_si * product.nitrogen_fraction
    if talk.is_metric:
        return talk.say("labels.analysis_metric", analysis=record.analysis, n=f"{n_kg_ha:.1f}")
    n_lb = from_si(n_kg_ha, "lb/1000 sq ft")
    return talk.say("labels.analysis", analysis=record.analysis, n=f"{n_lb:.2f}")


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


HANDLERS: Final = {"set_stock": on_set_stock}
