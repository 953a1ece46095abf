"""What is known of a label, one fact a line, and what a product's companions change."""

from __future__ import annotations

from bot.dialogue.talk import Talk
from bot.hearing.readers.lexing import figures
from bot.saying.catalogue import say
from bot.saying.printed_amounts import Quantity
from bot.saying.values import Names
from jobs.agronomy.ingredient_facts import LEAF_KINDS
from jobs.agronomy.ingredients import ingredients
from jobs.agronomy.labelled_product import Product
from jobs.agronomy.units import from_si
from jobs.labels import product_of
from storage.products import ProductRecord


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
    n = {"lb": f"{from_si(n_kg_ha, 'lb/1000 sq ft'):.2f}", "kg": f"{n_kg_ha:.1f}"}
    return talk.say("labels.analysis", analysis=record.analysis, **n)
