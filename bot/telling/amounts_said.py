"""Amounts: what each zone takes, in units one can weigh or measure out."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import Final

from bot.dialogue.named_here import names_of
from bot.dialogue.talk import Talk
from bot.saying.printed_amounts import Quantity, ToWeigh
from bot.saying.values import Area, Day, LabelRate
from bot.telling import label_facts, left_out, products_said, rounds_said, second_passes
from bot.turn import Buttons, Reply
from jobs.agronomy.amounts import Amount, LabelLimitExceeded, ZoneAmount, amount_for
from jobs.agronomy.label_doubts import FactsMissing
from jobs.agronomy.ledger import UseUnknown
from jobs.agronomy.whats_next import Stage
from jobs.turf_limits import LeftOut
from jobs.uses import how_much as uses
from jobs.uses.how_much import YardAmounts
from storage.yards import YardRecord

#: Zones listed one a line; more are left to the next message.
_A_SCREEN: Final = 12
#: A granule goes down in two crossing passes, each of which is weighed out.
_PASSES: Final = 2


def show(talk: Talk, yard: YardRecord) -> list[Reply]:
    """Say what each zone takes."""
    found = amounts_of(talk, yard)
    return found if isinstance(found, list) else say_amounts(talk, yard, found)


def amounts_of(talk: Talk, yard: YardRecord, on: date | None = None) -> YardAmounts | list[Reply]:
    """Return the next round's amounts (put down today, or on a day), or why there are none."""
    found = _found(talk, yard, on or talk.today(yard))
    return show(talk, yard) if on is not None and isinstance(found, list) else found


def _found(talk: Talk, yard: YardRecord, on: date) -> YardAmounts | list[Reply]:
    try:
        return uses.for_yard(talk.work, yard, on)
    except uses.NothingMeasured:
        return talk.answer("show_zones", yard)
    except uses.NoProduct:
        return talk.answer("show_product", yard)
    except FactsMissing as missing:
        return products_said.ask_missing(talk, yard, missing)
    except uses.AllLeftOut as all_out:
        lines = left_out.left_out_lines(talk, yard, all_out.left_out)
        head = talk.say("grass.all_left_out", yard=yard.name)
        return [Reply("\n".join([head, *lines]), _grass_buttons(talk, yard, all_out.left_out))]
    except LabelLimitExceeded as over:
        return [_refused(talk, yard, over)]
    except UseUnknown as unknown:
        zone = unknown.entries[0].zone
        return [Reply(rounds_said.unknown_use(talk, yard, zone, unknown))]


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


def say_amounts(talk: Talk, yard: YardRecord, found: YardAmounts) -> list[Reply]:
    """Say what the zones of a round take; that all of it is down where it is."""
    if found.is_finished:
        return [finished(talk, yard, found)]
    zone_key = "amounts.zone_granule" if found.product.form == "granule" else "amounts.zone_spray"
    lines = [
        talk.say(zone_key, zone=item.zone.name, amount=weighed(talk, found, item))
        for item in found.plan.zones
    ]
    lines += [
        talk.say("grass.each_time", zone=item.zone.name, amount=_to_weigh(talk, found, item, 1))
        for item in found.asked_each_time
    ]
    lines += left_out.left_out_lines(talk, yard, found.left_out)
    lines += rounds_said.stopped_lines(talk, yard, found)
    screens = [lines[at : at + _A_SCREEN] for at in range(0, len(lines), _A_SCREEN)]
    head = talk.say(
        "amounts.head_rounds" if found.rounds > 1 else "amounts.head",
        yard=yard.name,
        total=exact(found, found.plan.total, found.plan.total_m2),
        number=found.round_number,
        rounds=found.rounds,
    )
    head = "\n".join([head, *_when_lines(talk, yard, found), *second_passes.lines(talk, yard)])
    tail = products_said.doubt_lines(talk, found.record)
    tail += left_out.note_lines(talk, found.zones)
    tail += label_facts.tail_lines(talk, found.product)
    if found.cautions:
        tail.append(left_out.caution_line(talk, found.cautions))
    tail += rounds_said.unknown_lines(talk, yard, [zone.name for zone in found.zones])
    if not found.record.maxima:
        tail.append(talk.say("amounts.no_maximum"))
    tail.append(talk.say("amounts.caution_short"))
    buttons = talk.row(
        ("amounts.button_applied", f"apply:all:{yard.id}"),
        ("timing.button_why", f"amounts:why:{yard.id}"),
    )
    buttons = (*second_passes.buttons(talk, yard), *buttons)
    buttons += _grass_buttons(talk, yard, found.left_out)
    first, *others = screens
    if not others:
        return [Reply("\n".join([head, *first, *tail]), buttons)]
    replies = [Reply("\n".join([head, *first]))]
    replies += [Reply("\n".join(screen)) for screen in others]
    return [*replies, Reply("\n".join(tail), buttons)]


def finished(talk: Talk, yard: YardRecord, found: YardAmounts) -> Reply:
    """Say that all of the plan is down, and what comes next: no further amount is to be had."""
    lines = [
        talk.say("amounts.finished", yard=yard.name, zones=names_of(found.zones)),
        *rounds_said.stopped_lines(talk, yard, found),
        *(
            rounds_said.late_summer_lines(talk, yard, found.target)
            or [talk.say("amounts.next_spring")]
        ),
        talk.say("amounts.one_more"),
    ]
    return Reply("\n".join(lines))


def why(talk: Talk, yard: YardRecord, _action: str) -> list[Reply]:
    """Answer [Why]: the exact figures, how to put them down, and what the label allows."""
    found = amounts_of(talk, yard)
    if isinstance(found, list):
        return found
    is_granule = found.product.form == "granule"
    lines = [
        talk.say(
            "amounts.exact_granule" if is_granule else "amounts.exact_spray",
            zone=item.zone.name,
            area=Area(item.zone.treated_m2),
            amount=exact(found, item.amount, item.zone.treated_m2),
            half=exact(found, item.amount.times(0.5), item.zone.treated_m2 / 2),
        )
        for item in found.plan.zones[:_A_SCREEN]
    ]
    lines += [
        talk.say("amounts.how_granule" if is_granule else "amounts.how_spray"),
        talk.say(
            "amounts.label",
            rate=LabelRate.of_rate(found.plan.rate),
            limits=products_said.limits_of(found.record),
        ),
        *rounds_said.tightest_lines(talk, found),
    ]
    if found.plan.rate.is_weight:
        scale = talk.scale
        lines.append(
            talk.say("amounts.scale_unknown")
            if scale is None
            else talk.say("amounts.scale", step=scale)
        )
    lines.append(talk.say("amounts.caution"))
    return [Reply("\n".join(lines))]


def weighed(talk: Talk, found: YardAmounts, item: ZoneAmount) -> str:
    """Return what is weighed out for a zone: a pass of a granule, else all of it."""
    if found.product.form == "granule":
        return talk.say("amounts.per_pass", half=_to_weigh(talk, found, item, _PASSES))
    return str(_to_weigh(talk, found, item, 1))


def _to_weigh(talk: Talk, found: YardAmounts, item: ZoneAmount, passes: int) -> ToWeigh:
    """Return what a zone takes in one of so many passes."""
    return to_weigh(talk, found, item.amount.times(1 / passes), item.zone.treated_m2 / passes)


def to_weigh(talk: Talk, found: YardAmounts, amount: Amount, area_m2: float) -> ToWeigh:
    """Return what an area takes as it is weighed out, by the person's scale."""
    return ToWeigh(amount.si, amount.unit, _most_si(found, area_m2), talk.scale)


def exact(found: YardAmounts, amount: Amount, area_m2: float) -> Quantity:
    """Return what an area takes, never above what its label still allows."""
    return Quantity.of(amount, _most_si(found, area_m2))


def _most_si(found: YardAmounts, area_m2: float) -> float | None:
    """Return what the label still allows on an area; no amount is printed above it."""
    return None if found.most is None else amount_for(area_m2, found.most).si


def _grass_buttons(talk: Talk, yard: YardRecord, items: Sequence[LeftOut]) -> Buttons:
    """Return the buttons that help where a zone is left out for its unknown grass."""
    if all(item.why != "may_harm_unknown_turf" for item in items):
        return ()
    return talk.row(
        ("grass.button_ask", f"grass:ask:{yard.id}"),
        ("grass.button_none_of_them", f"grass:none:{yard.id}"),
    )


def _refused(talk: Talk, yard: YardRecord, over: LabelLimitExceeded) -> Reply:
    """Say what the label stops, with the arithmetic; the dose itself is not printed."""
    left = max(0.0, over.limit - over.used)
    key = "amounts.used_up" if over.used else "amounts.over_limit"
    period = talk.say(f"amounts.period_{over.period}")
    buttons: Buttons = ()
    if over.period == "unsaid":
        buttons = talk.row(("yards.button_product", f"product:show:{yard.id}"))
    return talk.reply(
        key,
        buttons,
        yard=yard.name,
        limit=rounds_said.limit_rate(over.limit, over.unit, over.of),
        used=rounds_said.limit_rate(over.used, over.unit),
        left=rounds_said.limit_rate(left, over.unit),
        period=period,
    )
