"""Products in a list of yards: a whole label, or one that the chat has already."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from bot.dialogue.product_commands import command_of, form_of
from bot.dialogue.talk import Talk
from bot.hearing import drafts
from jobs.agronomy.amounts import LabelLimitExceeded, check_rate
from jobs.agronomy.ingredients import ingredients
from jobs.agronomy.rates import Rate
from jobs.labels import product_of
from jobs.uses import entering_products as product_uses
from storage import products


def reading(talk: Talk) -> Callable[[str], product_uses.Enter | None]:
    """Return what reads a product, each text once: a whole label, or one that is kept already."""
    read: dict[str, product_uses.Enter | None] = {}

    def of(text: str) -> product_uses.Enter | None:
        if text not in read:
            read[text] = _product(talk, text)
        return read[text]

    return of


def _product(talk: Talk, text: str) -> product_uses.Enter | None:
    """Return a product that leaves nothing to ask; None for every other text."""
    said = drafts.begun(text)
    table = ingredients()
    if not said.read.ingredients or said.unread:
        return None
    if said.read.rate is None:
        return _kept(talk, said.read.ingredients)
    for part in said.read.ingredients:
        item = table.get(part.name)
        if item is not None and item.certified_only and item.certified_only.value:
            return None
    if any(not each.reason.startswith("reading.form") for each in said.read.questions):
        return None
    form, is_said = form_of(said, said.read.rate)
    command = command_of(said, form) if is_said else None
    if command is None or product_uses.doubts_about(command):
        return None
    try:
        check_rate(command.rate, command.as_product())
    except LabelLimitExceeded:
        return None
    return command


def _kept(talk: Talk, parts: Sequence[object]) -> product_uses.Enter | None:
    """Return the only product of the chat with these ingredients, None where there is not one."""
    found = [
        each
        for each in products.of_chat(talk.work, talk.chat.id)
        if list(product_of(each).ingredients) == list(parts)
    ]
    if len(found) != 1:
        return None
    (record,) = found
    product = product_of(record)
    rate = Rate(record.rate_value, record.rate_unit)
    own = product.maxima[: len(record.maxima)]
    rates = None if record.rates is None else tuple(record.rates)
    return product_uses.Enter(record.said, product.form, product.ingredients, rate, own, rates)
