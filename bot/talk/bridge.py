"""Acts whose subjects still read their text themselves."""

from __future__ import annotations

from typing import Final

from bot.talk import products, undoing

HANDLERS: Final = {
    "ask_product": lambda talk, yard, heard: products.show(talk, yard),
    "undo": lambda talk, yard, heard: undoing.undo(talk, None),
    "set_language": lambda talk, yard, heard: [talk.reply("help.units_which")],
}
