"""Acts whose subjects still read their text themselves."""

from __future__ import annotations

from typing import Final

from bot.hearing.forms.wish_forms import TermsSaid
from bot.talk import amounts, labelling, machines, products, spreaders, topics, undoing, wishes


def _enter(talk, yard, heard):
    if isinstance(heard.slots.read, TermsSaid):
        return wishes.set_label_terms(talk, yard, heard.slots.read, heard.said)
    if talk.topic == topics.PRODUCT:
        return products.take(talk, yard, heard.said)
    if not products.names_ingredient(heard.said) and products.is_maximum(heard.said):
        return products.take_maximum(talk, yard, heard.said)
    return labelling.take(talk, yard, heard.said) or labelling.enter(talk, yard, heard.said)


def _machine(talk, yard, heard):
    return machines.take(talk, yard, heard.said) or spreaders.show(talk, yard)


HANDLERS: Final = {
    "enter_product": _enter,
    "show_product": lambda talk, yard, heard: labelling.enter(talk, yard, ""),
    "ask_product": lambda talk, yard, heard: labelling.enter(talk, yard, ""),
    "set_stock": lambda talk, yard, heard: labelling.take(talk, yard, heard.said) or labelling.show(talk, yard),
    "ask_amounts": lambda talk, yard, heard: amounts.show(talk, yard),
    "set_spreader": _machine,
    "ask_spreader": _machine,
    "report_gap": lambda talk, yard, heard: spreaders.take(talk, yard, heard.said) or [talk.reply("machines.ran_out_ask")],
    "undo": lambda talk, yard, heard: undoing.undo(talk, None),
    "set_language": lambda talk, yard, heard: [talk.reply("help.units_which")],
}
