"""Today's round in words: a list for the field, ticked off as it is done, page by page."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime, timedelta
from typing import Final

from bot.dialogue import place_first
from bot.dialogue.rights import refuse
from bot.dialogue.talk import Talk
from bot.hearing.heard import ActHeard, Slots
from bot.hearing.readers.dates import WhenRead
from bot.saying.printed_amounts import Quantity
from bot.saying.values import Clock, Day, Names
from bot.telling import water_due, work_hours
from bot.telling.application_days import report_of
from bot.telling.products_said import ingredients_of
from bot.telling.rounds_said import part_down
from bot.telling.soil_lines import coming_line
from bot.telling.spreader_words import carrier_text
from bot.turn import Reply, rows
from jobs.agronomy.rates import Rate
from jobs.agronomy.sprayer import M_PER_MILE, tank_plan
from jobs.agronomy.units import from_si
from jobs.local_days import local
from jobs.uses import field_round as uses
from jobs.uses.calibrating import SPRAYER
from jobs.uses.field_round import Line, Round
from storage import machines
from storage.yards import YardRecord

#: Yards on one page: what a phone shows without scrolling far.
A_PAGE: Final = 6
#: A shorter way is not worth a line [m].
_A_DRIVE_M: Final = 1000.0


def show(talk: Talk, *, is_tonight: bool = False) -> list[Reply]:
    """Answer /today, or ``what is left tonight``."""
    if not talk.yards():
        return place_first.need(talk)
    return [_tonight(talk) if is_tonight else _page(talk, 0)]


def tap(talk: Talk, verb: str, numbers: list[int]) -> list[Reply]:
    """Answer the list's buttons: another page, a tick, what is left."""
    if verb == "tick" and len(numbers) == 2:
        return _tick(talk, *numbers)
    if not talk.yards():
        return place_first.need(talk)
    page = numbers[0] if numbers else 0
    return [replace(_tonight(talk) if verb == "left" else _page(talk, page), replaces=True)]


def _tick(talk: Talk, yard_id: int, page: int) -> list[Reply]:
    yard = talk.yard_by_id(yard_id)
    if yard is None:
        return [talk.stale("rounds_of_work.button_today")]
    if not talk.may(yard, "confirm"):
        return refuse(talk, yard)
    before = _count_today(talk, yard)
    begun = WhenRead(work_hours.begun(talk, yard), has_time=True, is_future=False, said="")
    done = ActHeard("report_applied", Slots(on=begun), said="applied")
    replies = talk.answer("report_applied", yard, done)
    if _count_today(talk, yard) == before:
        # Asked about, or something is missing: what was answered says it.
        return replies
    hours = "".join(f" {line}" for line in work_hours.ticked(talk, yard))
    note = talk.say("rounds_of_work.ticked", yard=yard.name, hours=hours)
    listed = _page(talk, page)
    return [replace(listed, text=f"{note}\n{listed.text}", replaces=True)]


def _page(talk: Talk, page: int) -> Reply:
    found = uses.of_today(talk.work, talk.yards(), talk.chat.id, talk.around.source, talk.now)
    lines = found.lines
    pages = max(1, -(-len(lines) // A_PAGE))
    page = min(max(0, page), pages - 1)
    first = page * A_PAGE
    shown = lines[first : first + A_PAGE]
    text = _head(talk, found)
    is_split = False
    for number, line in enumerate(shown, first + 1):
        if line in found.later and not is_split and (found.done or found.left):
            text.append(talk.say("rounds_of_work.later"))
            is_split = True
        text.append(_line(talk, number, line))
    mine = talk.yards()
    if len(mine) == 1 and not found.left and not found.later:
        text += _what_comes(talk, mine[0])
    elif found.resting:
        text.append(talk.say("rounds_of_work.resting", count=found.resting))
    notes = []
    if pages > 1:
        notes.append(talk.say("rounds_of_work.page", page=page + 1, pages=pages))
    if any(line.done_at is None for line in shown):
        notes.append(talk.say("rounds_of_work.caution"))
    text += [" ".join(notes)] if notes else []
    if talk.around.is_invented:
        text.append(talk.say("help.invented"))
    ticks = [
        (
            talk.say("rounds_of_work.button_tick", yard=_short(line.yard.name)),
            f"round:tick:{line.yard.id}:{page}",
        )
        for line in shown
        if line.done_at is None and (line.is_due or line in found.left)
    ]
    turns = []
    if page > 0:
        turns.append((talk.say("rounds_of_work.button_back"), f"round:page:{page - 1}"))
    if page < pages - 1:
        turns.append((talk.say("rounds_of_work.button_next"), f"round:page:{page + 1}"))
    if lines:
        turns.append((talk.say("rounds_of_work.button_left"), "round:left"))
    pairs = [ticks[at : at + 2] for at in range(0, len(ticks), 2)]
    data = {"round": [line.yard.id for line in lines]}
    return Reply("\n".join(text), rows(*pairs, turns), data=data)


def _head(talk: Talk, found: Round) -> list[str]:
    today_there = local(talk.now, talk.yards()[0].timezone).date()
    # The day by its name, not "today": the list is looked at again in the evening.
    day = Day(today_there, today_there - timedelta(days=2))
    today = len(found.done) + len(found.left)
    if found.left:
        facts = {"left": len(found.left), "done": len(found.done)}
        lines = [talk.say("rounds_of_work.head", day=day, all=today, **facts)]
    elif found.done:
        lines = [talk.say("rounds_of_work.head_all_done", day=day, done=len(found.done))]
    else:
        lines = [talk.say("rounds_of_work.head_none", day=day)]
    rest = len(found.left) + len(found.later)
    if found.begin_on is not None and rest > 1:
        by = Day(found.begin_on, today_there)
        lines.append(talk.say("rounds_of_work.begin", count=found.yards_a_day, by=by, all=rest))
    elif found.later and found.left:
        key = "late" if found.is_late else "takes"
        count = found.yards_a_day
        lines.append(talk.say(f"rounds_of_work.{key}", count=count, days=found.takes_days))
    load = _load(talk, found.left)
    if load:
        lines.append(talk.say("rounds_of_work.load", amounts=load))
    lines += _tanks(talk, found.left)
    owners = [talk.standing(line.yard).chat_wishes for line in found.left]
    if any(each.posts_signs for each in owners):
        lines.append(talk.say("notices.rule_signs"))
    if len(found.left) > 1 and found.way_m > _A_DRIVE_M:
        far = found.way_m / (1000.0 if talk.is_metric else M_PER_MILE)
        key = "drive_metric" if talk.is_metric else "drive"
        lines.append(talk.say(f"rounds_of_work.{key}", far=round(far, 1)))
        if not found.has_start:
            lines.append(talk.say("rounds_of_work.start_hint"))
    return lines


def _what_comes(talk: Talk, yard: YardRecord) -> list[str]:
    """Return what comes next at the only yard, and the water that is still wanted there."""
    report = report_of(talk, yard)
    if report is None:
        return []
    return [*water_due.water_lines(talk, yard), coming_line(report, talk.today(yard))]


def _tanks(talk: Talk, lines: tuple[Line, ...]) -> list[str]:
    """Return the tank loads of the day over all yards, of each product that is sprayed."""
    machine = machines.machine(talk.work, talk.chat.id, SPRAYER)
    if machine is None or machine.tank_l is None or machine.spray_l_ha is None:
        return []
    said = []
    for load in uses.loads(lines):
        product = load.product
        if product.form != "spray" or not load.amount.si > 0:
            continue
        area_m2 = load.amount.si / product.rate_si * 10_000
        gpa = from_si(machine.spray_l_ha, "gal/acre")
        plan = tank_plan(area_m2, machine.tank_l, gpa, Rate(product.rate_value, product.rate_unit))
        each = plan.full if plan.full_loads else plan.last
        assert each is not None
        said.append(
            talk.say(
                "rounds_of_work.tanks",
                product=ingredients_of(product),
                loads=round(plan.loads, 2),
                tank=carrier_text(talk, machine.tank_l),
                amount=Quantity.of(each.product),
                water=carrier_text(talk, each.carrier_l),
            )
        )
    return said


def _tonight(talk: Talk) -> Reply:
    found = uses.of_today(talk.work, talk.yards(), talk.chat.id, talk.around.source, talk.now)
    button = talk.row(("rounds_of_work.button_today", "round:page:0"))
    if not found.left:
        none = talk.say("rounds_of_work.tonight_none")
        if len(talk.yards()) == 1:
            (yard,) = talk.yards()
            lines = [*(part_down(talk, yard) or [none]), *_what_comes(talk, yard)]
        elif found.later:
            first = found.later[0].yard.name
            lines = [none, talk.say("rounds_of_work.tonight_next", yard=first)]
        else:
            lines = [none]
        return Reply("\n".join(lines), button)
    count = len(found.done) + len(found.left)
    lines = [talk.say("rounds_of_work.tonight", count=len(found.left), all=count)]
    lines += [
        talk.say("rounds_of_work.tonight_line", yard=line.yard.name, what=_what(talk, line))
        for line in found.left[:A_PAGE]
    ]
    load = _load(talk, found.left)
    if load:
        lines.append(talk.say("rounds_of_work.tonight_load", amounts=load))
    return Reply("\n".join(lines), button)


def _line(talk: Talk, number: int, line: Line) -> str:
    if line.done_at is None:
        what = _what(talk, line)
        yard, town = line.yard.name, line.yard.town
        if town is None:
            return talk.say("rounds_of_work.line", number=number, yard=yard, what=what)
        key = "rounds_of_work.line_town"
        return talk.say(key, number=number, yard=yard, town=town, what=what)
    at: object = Clock(_to_minute(local(line.done_at, line.yard.timezone)))
    if line.begun_at is not None and line.done_at - line.begun_at >= timedelta(minutes=1):
        begun = Clock(_to_minute(local(line.begun_at, line.yard.timezone)))
        at = talk.say("rounds_of_work.from_to", begun=begun, ended=at)
    by = talk.say("rounds_of_work.by_whom", name=line.done_by) if line.done_by else ""
    return talk.say("rounds_of_work.line_done", number=number, yard=line.yard.name, at=at, by=by)


def _what(talk: Talk, line: Line) -> Names:
    today = talk.today(line.yard)
    parts: list[object] = []
    if line.opens_on is not None and line.by is not None:
        on, by = Day(line.opens_on, today), Day(line.by, today)
        parts.append(talk.say("rounds_of_work.opens", on=on, by=by))
    elif line.by is None:
        parts.append(talk.say("rounds_of_work.due_half"))
    elif line.is_late:
        parts.append(talk.say("rounds_of_work.due_late", by=Day(line.by, today)))
    elif line.days_left == 0:
        parts.append(talk.say("rounds_of_work.due_today"))
    else:
        by = Day(line.by, today)
        parts.append(talk.say("rounds_of_work.due_by", by=by, days=line.days_left))
    if line.good_days is not None and line.is_due:
        parts.append(talk.say("rounds_of_work.good", count=line.good_days))
    if line.is_stopped:
        parts.append(talk.say("rounds_of_work.stopped"))
    elif line.amount is not None:
        parts.append(Quantity.of(line.amount, line.most_si))
    elif line.product is None:
        parts.append(talk.say("rounds_of_work.no_product"))
    else:
        parts.append(talk.say("rounds_of_work.no_amount"))
    return Names(parts)


def _load(talk: Talk, lines: tuple[Line, ...]) -> Names:
    parts = []
    for load in uses.loads(lines):
        amount = Quantity.of(load.amount, load.most_si)
        product = ingredients_of(load.product)
        parts.append(talk.say("rounds_of_work.load_one", amount=amount, product=product))
    return Names(parts)


def _count_today(talk: Talk, yard: YardRecord) -> int:
    today = talk.today(yard)
    return sum(done.applied_on >= today for done in talk.standing(yard).done)


def _to_minute(at: datetime) -> datetime:
    return at.replace(second=0, microsecond=0)


def _short(name: str) -> str:
    return name if len(name) <= 18 else f"{name[:17]}…"


HANDLERS: Final = {
    "ask_today": lambda talk, _yard, _heard: show(talk),
    "ask_left": lambda talk, _yard, _heard: show(talk, is_tonight=True),
}
