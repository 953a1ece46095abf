"""Questions that need no lawn: what holds anywhere, and then the place where it is not known."""

from __future__ import annotations

from typing import Final

from bot.dialogue import topics
from bot.dialogue.place_first import with_place
from bot.dialogue.scene import asked_of
from bot.dialogue.talk import Talk
from bot.hearing.acts import ACTS
from bot.hearing.heard import ActHeard
from bot.telling import water_due
from bot.turn import Reply
from storage.yards import YardRecord

#: Answered without a lawn as with one, by the act that answers them.
_AS_WITH_A_LAWN: Final = {
    "ask_other_work": "ask_other_work",
    "ask_keep_off": "ask_keep_off",
    "ask_product": "ask_product",
    "ask_buy": "ask_product",
}


def _in_general(talk: Talk, _yard: YardRecord | None, heard: ActHeard) -> list[Reply]:
    """Answer what holds anywhere, and ask for the place."""
    act = _AS_WITH_A_LAWN.get(heard.act)
    if act is not None:
        lines = [reply.text for reply in talk.answer(act, None, heard)]
    else:
        lines = [talk.say(f"beforehand.{heard.act.partition('_')[2] or 'skip'}")]
    return with_place(talk, None, [Reply("\n".join(lines))])


#: What a question was asked for, by what it awaits.
_WHY_ASKED: Final = {topics.PRODUCT: "why_label", topics.GRASS: "why_grass"}


#: How a question is answered, by its words when it is put again.
_HOW_ASKED: Final = {
    "place": "help.greeting",
    "zones": "facts.measure_sizes",
    "rate": "help.how_rate",
    "coverage": "help.how_rate",
    "maximum": "products.ask_maximum",
    "strength": "facts.ingredient",
    "ingredient": "facts.ingredient",
    "form": "help.how_form",
    "grass": "facts.why_grass",
}


def answer_fact(talk: Talk, yard: YardRecord | None, heard: ActHeard) -> list[Reply]:
    """Answer a question about a fact (`Slots.about`); of the lawn itself what bears on it."""
    about = heard.slots.about
    if about == "none_yet":
        # What to buy: there is nothing to enter yet.
        if talk.topic == topics.PRODUCT and not talk.data.get("said"):
            talk.settle()
        return with_place(talk, yard, talk.answer("ask_product", yard))
    if about == "why_asked":
        about = _WHY_ASKED.get(talk.topic or "", "why_place" if yard is None else "why_size")
    if about == "how_asked":
        asked = asked_of(talk)
        return [talk.reply(_HOW_ASKED.get(asked.again if asked else "", "products.ask"))]
    lines = [talk.say(f"facts.{about}")]
    if yard is not None and about in ("away", "will_tell"):
        return [*talk.answer("ask_when", yard, heard), Reply(lines[0])]
    if yard is not None and about == "fall" and yard.has_late_summer_round:
        return talk.answer("ask_when", yard)
    if yard is not None and about == "rain_after" and water_due.water_lines(talk, yard):
        return talk.answer("ask_water", yard)
    if yard is not None and about == "dry":
        lines += water_due.water_lines(talk, yard)
    return with_place(talk, yard, [Reply("\n".join(lines))])


#: Handlers for where there is no yard; they are called with None for it.
HANDLERS: Final = {name: _in_general for name, act in ACTS.items() if act.is_for_anywhere}
