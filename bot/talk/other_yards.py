"""What was said of one yard held to be so at the chat's others as well, by one tap."""

from __future__ import annotations

from dataclasses import replace
from typing import get_args

from bot.dialogue import topics
from bot.dialogue.talk import OWNER, Talk
from bot.talk.products_said import say_product
from bot.turn import Reply, rows
from jobs.uses import adding_many as uses
from storage import yards
from storage.yards import YardRecord


def offer_to_others(talk: Talk, yard: YardRecord) -> list[tuple[str, str]]:
    """Return the button that gives a yard's product to yards of the chat that have none."""
    without = _without_product(talk, yard)
    if not without or talk.role(yard) != OWNER:
        return []
    label = talk.say("many.button_product", count=len(without))
    return [(label, f"product:all:{yard.id}")]


def product_for_all(talk: Talk, yard: YardRecord) -> list[Reply]:
    """Answer the button: the product of this yard for every one that has none."""
    without = _without_product(talk, yard)
    # A share in one yard says nothing of the others.
    if yard.product_id is None or not without or talk.role(yard) != OWNER:
        return [talk.stale()]
    if talk.topic == topics.PRODUCT:
        talk.settle()
    record = talk.standing(yard).chosen
    count = uses.use_product(talk.work, without, record, now=talk.now)
    product = say_product(record)
    return [talk.reply("many.product_taken", count=count, product=product)]


def with_offer(talk: Talk, yard: YardRecord, what: uses.What, replies: list[Reply]) -> list[Reply]:
    """Return replies with a button that lets what was just said hold at the other yards too."""
    now = yards.yard(talk.work, yard.id)
    if now is None or talk.role(yard) != OWNER or not replies:
        return replies
    count = len(uses.lacking(talk.work, now, what))
    if count == 0:
        return replies
    button = rows([(talk.say("many.button_same", count=count), f"same:{what}:{yard.id}")])
    *before, last = replies
    return [*before, replace(last, buttons=(*last.buttons, *button))]


def same_tapped(talk: Talk, yard: YardRecord, action: str) -> list[Reply]:
    """Answer that button."""
    said = action.split(":")[1]
    what = next((each for each in get_args(uses.What) if each == said), None)
    if what is None or talk.role(yard) != OWNER:
        return [talk.stale()]
    count = uses.give_to_others(talk.work, yard, what, now=talk.now)
    return [talk.reply("many.same_taken", count=count, yard=yard.name)]


def _without_product(talk: Talk, yard: YardRecord) -> list[YardRecord]:
    own = yards.of_chat(talk.work, yard.chat_id)
    return [each for each in own if each.product_id is None and each.id != yard.id]
