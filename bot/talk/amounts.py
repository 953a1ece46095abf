"""Amounts: what each zone takes, in units one can weigh or measure out."""

from __future__ import annotations

from typing import Final

from bot.language.saying import print_amount, say_amount, say_area, say_rate
from bot.talk import products as product_talk
from bot.talk import zones as zone_talk
from bot.talk.products import say_limits
from bot.talk.talk import Talk
from bot.turn import Reply, rows
from jobs.agronomy.amounts import Amount, LabelLimitExceeded
from jobs.agronomy.rates import Rate
from jobs.uses import amounts as uses
from jobs.uses.amounts import YardAmounts
from storage.yards import YardRecord

#: Zones listed one a line; more are left to the next message.
_A_SCREEN: Final = 12


def show(talk: Talk, yard: YardRecord) -> list[Reply]:
    """Answer /amounts."""
    try:
        found = uses.for_yard(talk.work, yard, talk.now)
    except uses.NothingMeasured:
        return zone_talk.show(talk, yard, "")
    except uses.NoProduct:
        return product_talk.show(talk, yard, "")
    except LabelLimitExceeded as over:
        asked, limit = Rate(over.asked, over.unit), Rate(over.limit, over.unit)
        return [talk.reply("amounts.over_limit", asked=say_rate(asked), limit=say_rate(limit))]
    return _say(talk, yard, found)


def _say(talk: Talk, yard: YardRecord, found: YardAmounts) -> list[Reply]:
    plan, is_granule = found.plan, found.product.form == "granule"
    zone_key = "amounts.zone_granule" if is_granule else "amounts.zone_spray"
    lines = [
        talk.say(
            zone_key,
            zone=item.zone.name,
            area=say_area(item.zone.area_m2, talk.unit_system),
            amount=amount_text(item.amount),
            half=amount_text(item.amount.times(0.5)),
        )
        for item in plan.zones
    ]
    screens = [lines[at : at + _A_SCREEN] for at in range(0, len(lines), _A_SCREEN)]
    head = talk.say(
        "amounts.head_rounds" if found.rounds > 1 else "amounts.head",
        yard=yard.name,
        total=amount_text(plan.total),
        area=say_area(plan.total_m2, talk.unit_system),
        number=found.round_number,
        rounds=found.rounds,
    )
    tail = [
        talk.say(
            "amounts.how_granule" if is_granule else "amounts.how_spray",
            half=amount_text(plan.total.times(0.5)),
        ),
        talk.say("amounts.label", rate=say_rate(plan.rate), limits=say_limits(talk, found.record)),
        talk.say("amounts.caution"),
    ]
    buttons = rows([(talk.say("amounts.button_applied"), f"apply:all:{yard.id}")])
    first, *others = screens
    if not others:
        return [Reply("\n".join([head, *first, *tail]), buttons)]
    replies = [Reply("\n".join([head, *first]))]
    replies += [Reply("\n".join(screen)) for screen in others]
    return [*replies, Reply("\n".join(tail), buttons)]


def amount_text(amount: Amount) -> str:
    """Return an amount to weigh or measure out, in pounds also as one decimal number."""
    text = say_amount(amount.si, amount.unit, at_most=amount.si)
    if " lb " not in text:
        return text
    pounds = print_amount(amount.si, amount.unit, at_most=amount.si).amount_si / 0.45359237
    return f"{text} ({pounds:.2f} lb)"
