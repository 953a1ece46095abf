"""Bags that went down, by weight: what so many hold, or the question."""

from __future__ import annotations

from bot.dialogue.talk import Talk
from bot.hearing.readers.quantities import Amount
from bot.saying.printed_amounts import Quantity
from bot.turn import Reply
from jobs.agronomy.units import from_si
from storage.yards import YardRecord


def weighed(talk: Talk, yard: YardRecord, count: float) -> Amount | Reply:
    """Return what so many bags hold, by the one size the product is sold in; else ask (0 too)."""
    record = talk.standing(yard).record
    if record is None or len(record.packs) != 1 or record.form != "granule":
        return talk.reply("applying.bag_how_much")
    unit = "kg" if talk.is_metric else "lb"
    (pack,) = record.packs
    if not count:
        return talk.reply("applying.bag_not_quite", pack=Quantity(pack["size_si"], unit))
    return Amount(round(count * from_si(pack["size_si"], unit), 3), unit)
