"""Everyday questions about the yard: other work on the lawn, water, people and pets, weeds seen."""

from __future__ import annotations

from typing import Final

from bot.dialogue.talk import Talk
from bot.hearing.heard import ActHeard
from bot.saying.values import Day, Depth
from bot.telling import figuring, label_facts, water_due
from bot.turn import Reply
from jobs.agronomy.season import State
from jobs.weather_of_day import water_terms
from storage.yards import YardRecord

#: Kinds of work there is an answer for.
KINDS_OF_WORK: Final = (
    "mow",
    "aerate",
    "dethatch",
    "rake",
    "feed",
    "lime",
    "sod",
    "edge",
    "burn",
    "topdress",
    "roll",
    "weed",
    "spray",
)


def on_ask_water(talk: Talk, yard: YardRecord, heard: ActHeard) -> list[Reply]:
    """Answer with what waits for water; where nothing does, with what will be wanted; a sum."""
    figured = figuring.answer(talk, heard.slots.read)
    if figured is not None:
        return [figured]
    waiting = water_due.water_lines(talk, yard)
    if waiting:
        told = "\n".join([*waiting, *water_due.how_to_water(talk, yard)])
        return [talk.reply("everyday.water_now", yard=yard.name, waiting=told)]
    done = talk.standing(yard).done
    if talk.state(yard) is State.APPLIED and done and done[-1].watered_in_on is not None:
        on = Day(done[-1].watered_in_on, talk.today(yard))
        return [talk.reply("everyday.water_had", yard=yard.name, on=on)]
    if yard.product_id is not None:
        names = label_facts.foliar_names(talk.standing(yard).label)
        if names:
            return [talk.reply("labels.foliar", names=names)]
    terms = water_terms(talk.work, yard)
    depth = Depth(terms.depth_mm / 1000)
    text = talk.say("everyday.water", yard=yard.name, depth=depth, days=terms.within_days)
    if yard.is_water_banned:
        text += f"\n{talk.say('watering.banned')}"
    return [Reply(text)]


def on_ask_other_work(talk: Talk, yard: YardRecord | None, heard: ActHeard) -> list[Reply]:
    """Answer whether other work on the lawn goes with the pre-emergent, and when."""
    work = heard.slots.work
    if work not in KINDS_OF_WORK:
        return [talk.reply("everyday.which_work")]
    lines = [talk.say(f"everyday.{work}")]
    waiting = [] if yard is None else water_due.water_lines(talk, yard)
    if work in ("mow", "aerate", "dethatch", "rake") and waiting:
        lines.append(waiting[0])
    return [Reply("\n".join(lines))]


def on_ask_identify(talk: Talk, yard: YardRecord | None, _heard: ActHeard) -> list[Reply]:
    """Say how crabgrass is told from what is taken for it; nobody can tell it from words."""
    buttons = () if yard is None else talk.row(("soil.button_weeds", f"weeds:{yard.id}"))
    return [talk.reply("everyday.identify", buttons)]


HANDLERS: Final = {
    "ask_water": on_ask_water,
    "ask_other_work": on_ask_other_work,
    "ask_keep_off": lambda talk, _yard, _heard: [talk.reply("help.keep_off")],
    "ask_identify": on_ask_identify,
    "emergency": lambda talk, _yard, _heard: [talk.reply("help.emergency")],
}
