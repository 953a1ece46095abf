"""Amounts: what each zone takes, in units one can weigh or measure out."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from bot.hearing.heard import ActHeard
from bot.saying.figures import say_amount, say_decimal
from bot.saying.values import Area, Day, LabelRate
from bot.saying.voice import UnitSystem
from bot.talk import figuring, left_out, product_entry, rest_of_label, rounds_said
from bot.talk import measuring as zone_talk
from bot.talk import products_said as product_talk
from bot.talk.products_said import say_limits
from bot.talk.talk import Talk
from bot.talk.zones_named import names_of, zones_said
from bot.turn import Buttons, Reply, rows
from jobs.agronomy.amounts import Amount, LabelLimitExceeded, amount_for
from jobs.agronomy.label_doubts import FactsMissing
from jobs.agronomy.ledger import UseUnknown
from jobs.agronomy.whats_next import Stage
from jobs.turf_limits import LeftOut
from jobs.uses import how_much as uses
from jobs.uses.how_much import YardAmounts
from storage.yards import YardRecord, ZoneRecord

#: Zones listed one a line; more are left to the next message.
_A_SCREEN: Final = 12
#: Parts of a zone by the words of the slot.
_PARTS: Final = {"half": 0.5, "1/2": 0.5, "1/3": 1 / 3, "2/3": 2 / 3, "1/4": 0.25, "3/4": 0.75}


def on_ask_amounts(talk: Talk, yard: YardRecord, heard: ActHeard) -> list[Reply]:
    """Say what each zone takes, or those named, a part of one, or an area; answer a sum."""
    slots = heard.slots
    figured = figuring.answer(talk, slots.read)
    if figured is not None:
        return [figured]
    found = _found(talk, yard)
    if isinstance(found, list):
        return found
    named = zones_said(talk.standing(yard).zones, slots)
    share = _PARTS.get(slots.part or "")
    if slots.area_m2 is not None and not named:
        return [_for_area(talk, found, slots.area_m2, Area(slots.area_m2))]
    if share is not None and len(named) == 1:
        what = talk.say("amounts.part", part=slots.part, zone=named[0].name)
        return [_for_area(talk, found, named[0].treated_m2 * share, what)]
    if not named or slots.all_zones:
        return _say(talk, yard, found)
    in_plan = [zone for zone in named if zone.id in {each.id for each in found.zones}]
    if not in_plan:
        return [talk.reply("amounts.none_now", zones=names_of(named)), *_say(talk, yard, found)]
    return _say(talk, yard, _only(found, in_plan))


def show(talk: Talk, yard: YardRecord) -> list[Reply]:
    """Say what each zone takes."""
    found = _found(talk, yard)
    return found if isinstance(found, list) else _say(talk, yard, found)


def _found(talk: Talk, yard: YardRecord) -> YardAmounts | list[Reply]:
    """Return the next round's amounts, or why there are none."""
    try:
        return uses.for_yard(talk.work, yard, talk.today(yard))
    except uses.NothingMeasured:
        return zone_talk.show(talk, yard)
    except uses.NoProduct:
        return product_talk.show(talk, yard, begins_anew=False)
    except FactsMissing as missing:
        return product_entry.ask_missing(talk, yard, missing)
    except uses.AllLeftOut as all_out:
        lines = left_out.left_out_lines(talk, yard, all_out.left_out)
        head = talk.say("grass.all_left_out", yard=yard.name)
        return [Reply("\n".join([head, *lines]), _grass_buttons(talk, yard, all_out.left_out))]
    except LabelLimitExceeded as over:
        return [_refused(talk, yard, over)]
    except UseUnknown as unknown:
        zone, day = unknown.entries[0].zone, unknown.entries[0].day
        return [rounds_said.unknown_use(talk, yard, zone, day)]


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
    at_most = None if found.most is None else amount_for(area_m2, found.most).si
    lines = [
        talk.say(
            "amounts.for_area", what=what, amount=amount_text(amount, talk.unit_system, at_most)
        ),
        *product_talk.doubt_lines(talk, found.record),
        talk.say(
            "amounts.label",
            rate=LabelRate.of_rate(found.plan.rate),
            limits=say_limits(talk, found.record),
        ),
        talk.say("amounts.caution"),
    ]
    return Reply("\n".join(lines))


def _when_lines(talk: Talk, yard: YardRecord, found: YardAmounts) -> list[str]:
    """Return when it is to go down, where that is not simply now."""
    upcoming, today = rounds_said.next_of(talk, yard, found.target), talk.today(yard)
    opens = upcoming.opens_on
    if upcoming.stage is Stage.MISSED:
        return [talk.say("amounts.missed")]
    if upcoming.stage not in (Stage.AHEAD, Stage.DOWN) or opens is None or opens <= today:
        return []
    key = "amounts.not_before" if upcoming.stage is Stage.DOWN else "amounts.not_open"
    return [talk.say(key, day=Day(opens, today))]


def _say(talk: Talk, yard: YardRecord, found: YardAmounts) -> list[Reply]:
    plan, is_granule = found.plan, found.product.form == "granule"

    def said(amount: Amount, area_m2: float) -> str:
        # Rounding never lifts an amount above what the label still allows.
        at_most = None if found.most is None else amount_for(area_m2, found.most).si
        return amount_text(amount, talk.unit_system, at_most)

    zone_key = "amounts.zone_granule" if is_granule else "amounts.zone_spray"
    lines = [
        talk.say(
            zone_key,
            zone=item.zone.name,
            area=Area(item.zone.treated_m2),
            amount=said(item.amount, item.zone.treated_m2),
            half=said(item.amount.times(0.5), item.zone.treated_m2 / 2),
        )
        for item in plan.zones
    ]
    lines += [
        talk.say(
            "grass.each_time",
            zone=item.zone.name,
            amount=said(item.amount, item.zone.treated_m2),
        )
        for item in found.asked_each_time
    ]
    lines += left_out.left_out_lines(talk, yard, found.left_out)
    lines += rounds_said.stopped_lines(talk, yard, found)
    screens = [lines[at : at + _A_SCREEN] for at in range(0, len(lines), _A_SCREEN)]
    head = talk.say(
        "amounts.head_rounds" if found.rounds > 1 else "amounts.head",
        yard=yard.name,
        total=said(plan.total, plan.total_m2),
        area=Area(plan.total_m2),
        number=found.round_number,
        rounds=found.rounds,
    )
    head = "\n".join([head, *_when_lines(talk, yard, found)])
    tail = product_talk.doubt_lines(talk, found.record)
    tail += [
        *left_out.note_lines(talk, found.zones),
        *rest_of_label.tail_lines(talk, found.product),
    ]
    if found.cautions:
        tail.append(left_out.caution_line(talk, found.cautions))
    tail += [
        talk.say(
            "amounts.how_granule" if is_granule else "amounts.how_spray",
            half=said(plan.total.times(0.5), plan.total_m2 / 2),
        ),
        talk.say(
            "amounts.label",
            rate=LabelRate.of_rate(plan.rate),
            limits=say_limits(talk, found.record),
        ),
        *rounds_said.tightest_lines(talk, found),
        *rounds_said.unknown_lines(talk, yard, [zone.name for zone in found.zones]),
        talk.say("amounts.caution"),
    ]
    buttons = rows([(talk.say("amounts.button_applied"), f"apply:all:{yard.id}")])
    buttons += _grass_buttons(talk, yard, found.left_out)
    first, *others = screens
    if not others:
        return [Reply("\n".join([head, *first, *tail]), buttons)]
    replies = [Reply("\n".join([head, *first]))]
    replies += [Reply("\n".join(screen)) for screen in others]
    return [*replies, Reply("\n".join(tail), buttons)]


def _grass_buttons(talk: Talk, yard: YardRecord, items: Sequence[LeftOut]) -> Buttons:
    """Return the buttons that help where a zone is left out for its unknown grass."""
    if all(item.why != "may_harm_unknown_turf" for item in items):
        return ()
    return rows(
        [
            (talk.say("grass.button_ask"), f"grass:ask:{yard.id}"),
            (talk.say("grass.button_none_of_them"), f"grass:none:{yard.id}"),
        ]
    )


def _refused(talk: Talk, yard: YardRecord, over: LabelLimitExceeded) -> Reply:
    """Say what the label stops, with the arithmetic; the dose itself is not printed."""
    left = max(0.0, over.limit - over.used)
    key = "amounts.used_up" if over.used else "amounts.over_limit"
    period = talk.say(f"amounts.period_{over.period}")
    buttons: Buttons = ()
    if over.period == "unsaid":
        buttons = rows([(talk.say("yards.button_product"), f"product:show:{yard.id}")])
    return talk.reply(
        key,
        buttons,
        yard=yard.name,
        limit=_rate(over.limit, over.unit, over.of),
        used=_rate(over.used, over.unit),
        left=_rate(left, over.unit),
        period=period,
    )


def _rate(value: float, unit: str, of: str = "product") -> LabelRate:
    return LabelRate(float(f"{value:.4g}"), unit, of)


def amount_text(amount: Amount, system: UnitSystem, at_most: float | None = None) -> str:
    """Return an amount to weigh or measure out, in the family of units the label uses.

    Pounds are given as one decimal number too, for scales that show it; to those who think in
    metric units ounces and gallons are given in grams and millilitres as well. Nothing above
    ``at_most`` [kg or L] is printed.
    """
    text = say_amount(amount.si, amount.unit, at_most=at_most)
    if system == "metric" and amount.unit not in ("g", "kg", "mL", "L"):
        unit = "g" if amount.dimension == "mass" else "mL"
        return f"{text} ({say_amount(amount.si, unit, at_most=at_most)})"
    if " lb " not in text:
        return text
    return f"{text} ({say_decimal(amount.si, 'lb')})"


HANDLERS: Final = {"ask_amounts": on_ask_amounts}
