"""A typed yes or no, as the buttons under the question would answer it."""

from __future__ import annotations

from bot.dialogue import rights, sizes_waiting, topics
from bot.dialogue.talk import Talk
from bot.talk import (
    applying,
    many_yards,
    measuring,
    own_thermometer,
    parting,
    product_entry,
    screening,
    sowing,
    taking_out,
)
from bot.turn import Reply


def settle(talk: Talk, is_yes: bool) -> list[Reply] | None:
    """Answer the question that waits; None where a yes or no settles nothing."""
    topic = talk.topic
    if topic == topics.ERASE:
        return parting.settle_erase(talk, is_sure=is_yes)
    if topic == topics.YARD_LIST:
        return many_yards.settle(talk, is_yes=is_yes)
    named = talk.data.get("yard_id")
    yard = talk.yard() if named is None else talk.yard_by_id(named)
    asked = None if topic is None else topics.asked(topic, "")
    if yard is None or asked is None:
        return None
    # Its questions are asked by what only looks, and settled by what changes.
    act = "set_timing" if topic == topics.SCREENING else asked.act
    refused = rights.refuse_act(talk, yard, act)
    if refused is not None:
        return refused
    match topic:
        case topics.ZONES if sizes_waiting.areas(talk, yard):
            return measuring.keep(talk, yard) if is_yes else measuring.fix(talk, yard)
        case topics.ZONE_DOUBT:
            return measuring.settle_doubt(talk, yard, is_right=is_yes)
        case topics.ZONES_REMOVE:
            return taking_out.settle_removal(talk, yard, is_sure=is_yes)
        case topics.REMOVE_YARD:
            return parting.settle_removal(talk, yard, is_sure=is_yes)
        case topics.APPLY_SURE:
            return applying.confirm_again(talk, yard) if is_yes else applying.confirm_not(talk)
        case topics.READING_SURE:
            return own_thermometer.confirm(talk, yard, is_right=is_yes)
        case topics.PRODUCT:
            return product_entry.yes_or_no(talk, yard, is_yes=is_yes)
        case topics.SCREENING:
            return screening.yes_or_no(talk, yard, is_yes=is_yes)
        case topics.SEEDING if is_yes and "zones" in talk.data:
            return sowing.tapped(talk, yard, f"seed:plan:{yard.id}")
    return None
