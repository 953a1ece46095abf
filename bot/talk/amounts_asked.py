"""Amounts as they are asked for: of zones, of a part of one, of an area, or as a sum."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from bot.dialogue.named_here import names_of, zones_said
from bot.dialogue.talk import Talk
from bot.hearing.heard import ActHeard
from bot.saying.values import Area, LabelRate
from bot.telling import figuring
from bot.telling import products_said as product_talk
from bot.telling.amounts_said import amounts_of, exact, say_amounts
from bot.telling.parts_said import SHARES
from bot.telling.products_said import limits_of
from bot.turn import Reply
from jobs.agronomy.amounts import Amount, amount_for
from jobs.uses.how_much import YardAmounts
from storage.yards import YardRecord, ZoneRecord


def on_ask_amounts(talk: Talk, yard: YardRecord, heard: ActHeard) -> list[Reply]:
    """Say what each zone takes, or those named, a part of one, or an area; answer a sum."""
    slots = heard.slots
    figured = figuring.answer(talk, slots.read)
    if figured is not None:
        return [figured]
    found = amounts_of(talk, yard)
    if isinstance(found, list):
        return found
    named = zones_said(talk.standing(yard).zones, slots)
    share = SHARES.get(slots.part or "")
    if slots.area_m2 is not None and not named:
        return [_for_area(talk, found, slots.area_m2, Area(slots.area_m2))]
    if share is not None and len(named) == 1:
        what = talk.say("amounts.part", part=slots.part, zone=named[0].name)
        return [_for_area(talk, found, named[0].treated_m2 * share, what)]
    if not named or slots.all_zones:
        return say_amounts(talk, yard, found)
    in_plan = [zone for zone in named if zone.id in {each.id for each in found.zones}]
    if not in_plan:
        return [
            talk.reply("amounts.none_now", zones=names_of(named)),
            *say_amounts(talk, yard, found),
        ]
    return say_amounts(talk, yard, _only(found, in_plan))


def _only(found: YardAmounts, zones: Sequence[ZoneRecord]) -> YardAmounts:
    """Return the amounts of some of the zones alone, with their own total."""
    names = {zone.name for zone in zones}
    items = tuple(item for item in found.plan.zones if item.zone.name in names)
    total = Amount(math.fsum(item.amount.si for item in items), found.plan.rate.amount_unit)
    total_m2 = math.fsum(item.zone.treated_m2 for item in items)
    return replace(
        found,
        plan=replace(found.plan, zones=items, total=total, total_m2=total_m2),
        zones=tuple(zone for zone in found.zones if zone.name in names),
        left_out=(),
        stopped=(),
        asked_each_time=(),
        cautions=tuple(each for each in found.cautions if each.zone in names),
    )


def _for_area(talk: Talk, found: YardAmounts, area_m2: float, what: object) -> Reply:
    """Say what an area takes at the label's rate."""
    amount = amount_for(area_m2, found.plan.rate)
    lines = [
        talk.say("amounts.for_area", what=what, amount=exact(found, amount, area_m2)),
        *product_talk.doubt_lines(talk, found.record),
        talk.say(
            "amounts.label", rate=LabelRate.of_rate(found.plan.rate), limits=limits_of(found.record)
        ),
        talk.say("amounts.caution"),
    ]
    return Reply("\n".join(lines))


HANDLERS: Final = {"ask_amounts": on_ask_amounts}
