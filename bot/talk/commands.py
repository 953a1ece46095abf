"""Commands: one list, of which /help and the platform's menu are made, with the act of each."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final


@dataclass(frozen=True, slots=True)
class Command:
    """One command.

    Attributes
    ----------
    word
        Its word, without the slash.
    act
        The act it stands for.
    act_with_more
        The act where words follow the command; the same one where there is no other.
    """

    word: str
    act: str
    act_with_more: str = ""

    def act_for(self, rest: str) -> str:
        """Return the act, given the words behind the command."""
        return (rest and self.act_with_more) or self.act


#: Every command, in the order of the menu.
COMMANDS: Final = (
    Command("start", "greet", "join"),
    Command("yard", "turn_to_yard"),
    Command("yards", "list_yards", "add_yard"),
    Command("zones", "show_zones", "measure"),
    Command("soil", "ask_soil", "report_soil"),
    Command("product", "enter_product"),
    Command("amounts", "ask_amounts"),
    Command("day", "ask_day"),
    Command("sketch", "show_sketch"),
    Command("buy", "ask_buy"),
    Command("spreader", "ask_spreader", "set_spreader"),
    Command("applied", "report_applied"),
    Command("seed", "ask_seed"),
    Command("export", "export"),
    Command("undo", "undo"),
    Command("today", "ask_today"),
    Command("crew", "share"),
    Command("language", "set_language"),
    Command("help", "help"),
    Command("cancel", "cancel"),
)
COMMANDS_BY_WORD: Final = {each.word: each for each in COMMANDS}


def words_of(text: str) -> tuple[str, str] | None:
    """Return the command's word and what follows it, or None for a text that is no command."""
    if not text.startswith("/"):
        return None
    word, *rest = text[1:].split(maxsplit=1) or [""]
    name = word.partition("@")[0].casefold()
    return (name, " ".join(rest)) if name.replace("_", "").isalpha() else None
