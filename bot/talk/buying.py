"""Buying: packs for the round or the year, for one yard or all, and products compared by cost."""

from __future__ import annotations

from typing import Any, Final

from bot.dialogue.talk import Talk
from bot.hearing.forms.buy_forms import BuySaid
from bot.hearing.heard import ActHeard
from bot.saying.printed_amounts import Quantity
from bot.saying.values import Area, Day, Names
from bot.telling import amounts_said, crew_told, rounds_said
from bot.telling.amounts_said import amounts_of
from bot.telling.label_facts import say_pack
from bot.telling.products_said import doubt_lines, say_product
from bot.turn import Buttons, Reply, rows
from jobs.agronomy.purchase import Goal, Purchase
from jobs.agronomy.units import to_si
from jobs.turf_limits import round_day
from jobs.uses import how_much
from jobs.uses import packs_to_buy as uses
from storage.yards import YardRecord

#: Questions before the purchase that people are told to expect (the grass is asked with "grass").
_QUESTIONS: Final = 5


def on_ask_buy(talk: Talk, yard: YardRecord, heard: ActHeard) -> list[Reply]:
    """Say what to buy: for the application or the year, for one yard or all, cheapest or least."""
    said = heard.slots.read if isinstance(heard.slots.read, BuySaid) else BuySaid()
    if said.is_comparison:
        return _compare(talk)
    if said.is_list:
        return season_list(talk)
    may_be_screened = yard.screening is None and talk.may(yard, "change")
    if may_be_screened and (said.is_for_all or not _is_finished(talk, yard)):
        # It is asked once, before the first purchase.
        first = talk.answer("ask_need", yard)[0]
        intro = talk.say("screening.intro", count=_QUESTIONS)
        return [Reply(f"{intro}\n{first.text}", first.buttons)]
    span: uses.Span = "year" if said.is_for_year else "round"
    goal: Goal = "least_left_over" if said.is_least_left else "least_cost"
    return _plan(talk, yard, span, goal, is_for_all=said.is_for_all)


def tap(talk: Talk, yard: YardRecord, action: str) -> list[Reply]:
    """Answer the buttons: ``buy:show:<yard>:<one|all>:<round|year>:<cost|left>``."""
    parts = action.split(":")
    if parts[1] == "compare":
        return _compare(talk)
    if parts[1] == "season":
        return season_list(talk)
    if len(parts) != 6:
        return on_ask_buy(talk, yard, ActHeard("ask_buy"))
    span: uses.Span = "year" if parts[4] == "year" else "round"
    goal: Goal = "least_left_over" if parts[5] == "left" else "least_cost"
    return _plan(talk, yard, span, goal, is_for_all=parts[3] == "all")


def season_list(talk: Talk) -> list[Reply]:
    """Answer ``shopping list``: what the season takes, product by product over all yards."""
    mine = talk.yards()
    first_of = {each.product_id: each for each in reversed(mine) if each.product_id is not None}
    lines = [talk.say("buying.season_head", count=len(mine))]
    for yard in first_of.values():
        try:
            plan = uses.plan(talk.work, yard, "year", "least_cost", beside=mine, now=talk.now)
        except (uses.NoProduct, uses.NothingToBuy):
            continue
        need, count = _amount(plan, plan.need_si), len(plan.needs)
        product = say_product(plan.record)
        lines.append(talk.say("buying.season_line", product=product, need=need, count=count))
        lines += _packs(talk, plan, "least_cost")
        lines += doubt_lines(talk, plan.record)
    without = [each.name for each in mine if each.product_id is None]
    if without:
        lines.append(talk.say("buying.season_without", names=Names(without)))
    if len(lines) == 1:
        return [talk.reply("buying.season_nothing")]
    return [Reply("\n".join([*lines, talk.say("buying.law")]))]


def _plan(
    talk: Talk, yard: YardRecord, span: uses.Span, goal: Goal, *, is_for_all: bool
) -> list[Reply]:
    today = talk.today(yard)
    on = round_day(talk.standing(yard), today)
    found = amounts_of(talk, yard, on)
    if isinstance(found, list):
        return [*found, *_in_hand(talk, yard)]
    if found.is_finished and not is_for_all:
        return [amounts_said.finished(talk, yard, found), *_in_hand(talk, yard)]
    try:
        # Who shares one yard of a chat is not told of its others.
        beside = talk.yards() if is_for_all else ()
        plan = uses.plan(talk.work, yard, span, goal, beside=beside, now=talk.now)
    except (uses.NoProduct, uses.NothingToBuy):
        return [talk.reply("buying.nothing", yard=yard.name)]
    names = Names([need.yard.name for need in plan.needs])
    count = max(need.rounds_left for need in plan.needs)
    need = _amount(plan, plan.need_si)
    if span == "round":
        rate = found.plan.rate
        area_m2 = plan.need_si / rate.rate_si * 10_000
        head = talk.say(
            "buying.head_round",
            yards=names,
            number=found.round_number,
            rounds=found.rounds,
            need=need,
            area=Area(area_m2),
        )
    else:
        head = talk.say("buying.head_year", yards=names, count=count, need=need)
    lines = [head]
    if len(plan.needs) > 1:
        lines += [_each(talk, plan, one) for one in plan.needs]
    lines += [
        talk.say("buying.label_stops", yard=one.yard.name, zones=Names(zones), count=count)
        for one in plan.needs
        for count, zones in one.short
        if span == "year"
    ]
    if on > today:
        lines.append(talk.say("buying.not_before", day=Day(on, today)))
    lines += rounds_said.stopped_lines(talk, yard, found)
    lines += _packs(talk, plan, goal)
    lines += doubt_lines(talk, plan.record)
    licence = crew_told.licence_line(talk, yard)
    if licence is not None:
        lines.append(licence)
    lines.append(talk.say("buying.law"))
    return [Reply("\n".join(lines), _buttons(talk, yard, plan, is_for_all=is_for_all))]


def _is_finished(talk: Talk, yard: YardRecord) -> bool:
    try:
        return how_much.for_yard(talk.work, yard, talk.today(yard)).is_finished
    except how_much.NO_AMOUNTS:
        return False


def _in_hand(talk: Talk, yard: YardRecord) -> list[Reply]:
    """Return what is on the shelf, where nothing is to be put down."""
    record = None if yard.product_id is None else talk.standing(yard).chosen
    if record is None or record.shelf_si is None:
        return []
    amount = Quantity(record.shelf_si, record.rate_unit.split("/")[0])
    return [talk.reply("labels.shelf", amount=amount)]


def _packs(talk: Talk, plan: uses.Plan, wanted: Goal) -> list[str]:
    lines = []
    if plan.shelf_si:
        shelf = _amount(plan, plan.shelf_si)
        if plan.shelf_si >= plan.need_si:
            left = _amount(plan, plan.shelf_si - plan.need_si)
            return [talk.say("buying.shelf_does", amount=shelf, left=left)]
        lines.append(talk.say("buying.shelf", amount=shelf))
    if plan.best is None:
        return [*lines, talk.say("buying.ask_packs", form=plan.record.form)]
    lines.append(talk.say("buying.best", **_bought(talk, plan, plan.best)))
    lines += [talk.say("buying.or", **_bought(talk, plan, one)) for one in plan.others[:3]]
    if plan.goal != wanted:
        lines.append(talk.say("buying.goal_no_price"))
    else:
        lines.append(talk.say("buying.goal_cost" if wanted == "least_cost" else "buying.goal_left"))
    if plan.span == "round" and any(need.rounds_left > 1 for need in plan.needs):
        if plan.next_si > 0:
            lines.append(talk.say("buying.next", amount=_amount(plan, plan.next_si)))
        else:
            lines.append(talk.say("buying.next_covered"))
    return lines


def _bought(talk: Talk, plan: uses.Plan, one: Purchase) -> dict[str, object]:
    rows_by_size = {row["size_si"]: row for row in plan.record.packs}
    packs = [
        talk.say(
            "buying.pack",
            count=item.count,
            size=say_pack({**rows_by_size[item.offer.size_si], "price": None}),
        )
        for item in one.packs
    ]
    cost = (
        ""
        if one.cost is None
        else talk.say("buying.cost", money=_money(one.cost, plan.record.packs))
    )
    return {"packs": " + ".join(packs), "cost": cost, "left": _amount(plan, one.left_over_si)}


def _each(talk: Talk, plan: uses.Plan, one: uses.YardNeed) -> str:
    amount = _amount(plan, one.amount_si(plan.span))
    return talk.say("buying.each", yard=one.yard.name, amount=amount)


def _compare(talk: Talk) -> list[Reply]:
    offers = uses.compare(talk.work, talk.chat.id)
    if not offers:
        return [talk.reply("buying.compare_none")]
    factor = 100.0 / to_si(1000.0, "sq ft") if talk.is_metric else 1.0
    lines = [
        talk.say(
            "buying.compare_line",
            money=_money(offer.cents * factor, offer.record.packs),
            product=say_product(offer.record),
            size=say_pack({**offer.row, "price": None}),
        )
        for offer in offers
    ]
    key = "buying.compare_metric" if talk.is_metric else "buying.compare"
    return [talk.reply(key, lines="\n".join(lines))]


def _buttons(talk: Talk, yard: YardRecord, plan: uses.Plan, *, is_for_all: bool) -> Buttons:
    who = "all" if is_for_all else "one"
    how = "left" if plan.goal == "least_left_over" else "cost"
    start = f"buy:show:{yard.id}"
    other_span = "year" if plan.span == "round" else "round"
    first = [(talk.say(f"buying.button_{other_span}"), f"{start}:{who}:{other_span}:{how}")]
    if len(talk.yards()) > 1:
        other_who = "one" if is_for_all else "all"
        label = talk.say(f"buying.button_{other_who}", yard=yard.name[:20])
        first.append((label, f"{start}:{other_who}:{plan.span}:{how}"))
    second = []
    if len(plan.record.packs) > 1:
        other_how = "cost" if how == "left" else "left"
        label = talk.say(f"buying.button_{other_how}")
        second.append((label, f"{start}:{who}:{plan.span}:{other_how}"))
    second.append((talk.say("buying.button_compare"), f"buy:compare:{yard.id}"))
    return rows(first, second)


def _amount(plan: uses.Plan, si: float) -> Quantity:
    return Quantity(si, plan.record.rate_unit.split("/")[0])


def _money(cents: float, packs: list[Any]) -> str:
    sign = next((row["currency"] for row in packs if row.get("currency")), "")
    return f"{sign}{cents / 100:,.2f}"


HANDLERS: Final = {"ask_buy": on_ask_buy}
