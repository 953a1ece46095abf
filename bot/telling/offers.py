"""Buttons that let what was said of one yard hold at the chat's others as well."""

from __future__ import annotations

from dataclasses import replace

from bot.dialogue.talk import OWNER, Talk
from bot.turn import Reply, rows
from jobs.uses import adding_many as uses
from storage import yards
from storage.yards import YardRecord


def offer_to_others(talk: Talk, yard: YardRecord) -> list[tuple[str, str]]:
    """Return the button that gives a yard's product to yards of the chat that have none."""
    without = without_product(talk, yard)
    if not without or talk.role(yard) != OWNER:
        return []
    label = talk.say("many.button_product", count=len(without))
    return [(label, f"product:all:{yard.id}")]


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


def without_product(talk: Talk, yard: YardRecord) -> list[YardRecord]:
    """Return the other yards of the chat that have no product."""
    own = yards.of_chat(talk.work, yard.chat_id)
    return [each for each in own if each.product_id is None and each.id != yard.id]
