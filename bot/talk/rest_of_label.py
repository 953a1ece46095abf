"""The rest of a label: times, intervals, seeding, home lawns, packs, stock, fertiliser."""

from __future__ import annotations

from typing import Any, Final

from bot.dialogue.talk import Talk
from bot.hearing.forms.product_forms import FactsOfLabel
from bot.hearing.forms.stock_forms import StockShare
from bot.hearing.heard import ActHeard
from bot.hearing.readers.label_words import LabelFacts
from bot.hearing.readers.quantities import Amount as AmountSaid
from bot.talk.product_keeping import keep
from bot.telling.parts_said import SHARES
from bot.turn import Reply
from storage.yards import YardRecord

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
    share = said.share if isinstance(said, StockShare) else SHARES.get(slots.part or "")
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


HANDLERS: Final = {"set_stock": on_set_stock}
