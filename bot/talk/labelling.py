"""The rest of a label: times, intervals, seeding, home lawns, packs, stock, fertiliser."""

from __future__ import annotations

from bot.hearing.readers.label_words import LabelFacts, read_label_facts
from bot.hearing.readers.lexing import figures
from bot.saying.figures import say_amount
from bot.talk import products as product_talk
from bot.talk.products import names_ingredient, say_limits, say_product
from bot.talk.talk import Talk
from bot.turn import Reply, rows
from jobs.agronomy.ingredient_facts import LEAF_KINDS
from jobs.agronomy.ingredients import ingredients
from jobs.agronomy.products import Product
from jobs.agronomy.rates import WeightAgainstVolume
from jobs.agronomy.units import from_si
from jobs.labels import product_of, product_of_snapshot
from jobs.uses import labelling as uses
from storage import applications, products, yards
from storage.products import ProductRecord
from storage.yards import YardRecord


def show(talk: Talk, yard: YardRecord) -> list[Reply]:
    """Answer "label": all that is known of the chosen product's label, and what is not."""
    if yard.product_id is None:
        return product_talk.show(talk, yard, "")
    record = products.product(talk.work, yard.product_id)
    missing = [name for name, is_known in _known(record).items() if not is_known]
    lines = _lines(talk, record)
    if missing:
        names = ", ".join(talk.say(f"labels.missing_{name}") for name in missing)
        lines.append(talk.say("labels.missing", missing=names, example=talk.say("labels.example")))
    return [
        talk.reply(
            "labels.show",
            product=say_product(talk, record),
            limits=say_limits(talk, record),
            lines="\n".join(lines),
        )
    ]


def enter(talk: Talk, yard: YardRecord, rest: str) -> list[Reply]:
    """Answer /product: a product, with whatever else of its label stands in the same line."""
    facts = read_label_facts(rest)
    if facts.is_empty or not names_ingredient(rest):
        return product_talk.show(talk, yard, rest)
    return _with_product(talk, yard, facts)


def take(talk: Talk, yard: YardRecord, text: str) -> list[Reply] | None:
    """Take facts of a label; with a product in the same line, both. None for other texts."""
    if text.casefold().strip(" .?!") in ("label", "the label", "my label"):
        return show(talk, yard)
    facts = read_label_facts(text)
    if facts.is_empty:
        return None
    if names_ingredient(text):
        return _with_product(talk, yard, facts)
    if facts.rest:
        return None
    return _keep(talk, yard, facts)


def tail_lines(talk: Talk, product: Product) -> list[str]:
    """Return what a product's companions change about a round: leaf herbicides, fertiliser."""
    lines = []
    if product.has_foliar:
        lines.append(talk.say("labels.foliar", names=foliar_names(product)))
    if product.nitrogen_fraction and product.rate is not None and product.rate.is_weight:
        n_lb = from_si(product.rate.rate_si * product.nitrogen_fraction, "lb/1000 sq ft")
        lines.append(talk.say("labels.feeds", n=f"{n_lb:.2f} lb"))
    return lines


def foliar_names(product: Product) -> str:
    """Return the names of what in a product works through leaves."""
    table = ingredients()
    return ", ".join(
        name
        for name in product.ingredient_names
        if name in table and table[name].kind in LEAF_KINDS
    )


def foliar_of(talk: Talk, application_id: int) -> str:
    """Return what of an applied product works through leaves, or an empty text."""
    row = applications.application(talk.work, application_id).product
    return "" if row is None else foliar_names(product_of_snapshot(row))


def _with_product(talk: Talk, yard: YardRecord, facts: LabelFacts) -> list[Reply]:
    before = yard.product_id
    replies = product_talk.show(talk, yard, facts.rest)
    now = yards.yard(talk.work, yard.id)
    if now is None or now.product_id == before or now.product_id is None:
        # A question is open; the rest of the label belongs to a product not kept yet.
        return replies
    return [*_keep(talk, now, facts), *replies]


def _keep(talk: Talk, yard: YardRecord, facts: LabelFacts) -> list[Reply]:
    stock = None
    if facts.shelf is not None:
        stock = uses.Stock(facts.shelf.value, facts.shelf.unit)
    elif facts.bought is not None:
        stock = uses.Stock(facts.bought.value, facts.bought.unit, is_added=True)
    try:
        record, journal_id = uses.keep(
            talk.work,
            yard,
            facts.values,
            packs=[
                uses.PackSaid(p.amount.value, p.amount.unit, p.price, p.currency)
                for p in facts.packs
            ],
            stock=stock,
            person_id=talk.person.id,
            now=talk.now,
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
    buttons = rows([(talk.say("labels.button_undo"), f"undo:{journal_id}")])
    lines = "\n".join(_lines(talk, record, names))
    return [talk.reply("labels.kept", buttons, product=say_product(talk, record), lines=lines)]


def _known(record: ProductRecord) -> dict[str, bool]:
    return {
        "times": record.max_applications is not None,
        "interval": record.smallest_interval_days is not None,
        "seeding": record.seeding_interval_days is not None,
        "age": record.turf_age_days is not None,
        "homes": record.is_residential_allowed is not None,
        "packs": bool(record.packs),
    }


def _lines(talk: Talk, record: ProductRecord, names: set[str] | None = None) -> list[str]:
    """Return what is known of a label, one fact a line; only the named columns if any are."""
    lines: dict[str, str] = {}
    if record.max_applications is not None:
        key = f"labels.times_{record.applications_period or 'unsaid'}"
        most = record.max_applications
        count = talk.say("labels.application" if most == 1 else "labels.applications", count=most)
        lines["max_applications"] = talk.say(key, count=count)
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
        packs = ", ".join(say_pack(row) for row in record.packs)
        lines["packs"] = talk.say("labels.packs", packs=packs)
    if record.shelf_si is not None:
        unit = record.rate_unit.split("/")[0]
        amount = say_amount(record.shelf_si, unit)
        lines["shelf_si"] = talk.say("labels.shelf", amount=amount)
    return [line for name, line in lines.items() if names is None or name in names]


def say_pack(row: dict[str, object]) -> str:
    """Return a pack in words: ``25 lb at $38.00``."""
    size = f"{figures(float(str(row['value'])))} {row['unit']}"
    if row["price"] is None:
        return size
    return f"{size} at {row.get('currency', '')}{int(str(row['price'])) / 100:.2f}"


def _analysis(talk: Talk, record: ProductRecord) -> str:
    product = product_of(record)
    if product.rate is None or not product.rate.is_weight or product.nitrogen_fraction is None:
        return str(record.analysis)
    n_kg_ha = product.rate.rate_si * product.nitrogen_fraction
    if talk.is_metric:
        return talk.say("labels.analysis_metric", analysis=record.analysis, n=f"{n_kg_ha:.1f}")
    n_lb = from_si(n_kg_ha, "lb/1000 sq ft")
    return talk.say("labels.analysis", analysis=record.analysis, n=f"{n_lb:.2f}")
