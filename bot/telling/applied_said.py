"""What is said of an application on record: its rate, the label, the water, the next one."""

from __future__ import annotations

import math
from datetime import date, timedelta
from typing import Final

from bot.dialogue.talk import Talk
from bot.saying.plants import say_ingredient
from bot.saying.printed_amounts import Quantity
from bot.saying.values import Area, Day, Depth, LabelRate, Names
from bot.telling import second_passes, water_due, work_hours
from bot.telling.label_facts import foliar_of
from bot.telling.rounds_said import barrier_lines, lead_of, sight_of
from bot.turn import Reply
from jobs.agronomy.amounts import Amount, rate_of
from jobs.agronomy.label_times import TooManyApplications, TooSoon
from jobs.agronomy.labelled_product import Product
from jobs.agronomy.ledger import UseUnknown
from jobs.agronomy.rates import Rate
from jobs.agronomy.season import Target
from jobs.judged import Judged
from jobs.labels import put_down
from jobs.local_days import season_day
from jobs.uses import confirming as uses
from jobs.uses import weeds_seen
from jobs.weather_of_day import water_terms
from storage.yards import YardRecord


def recorded(
    talk: Talk,
    yard: YardRecord,
    done: uses.Confirmed,
    most_si: float | None = None,
    *,
    is_first_pass: bool = False,
) -> Reply:
    """Say what is on record now, and what follows from it."""
    today = talk.today(yard)
    lines = [
        talk.say(
            "applying.recorded" if done.amount is None else "applying.recorded_amount",
            yard=yard.name,
            zones=Names(done.zones),
            area=Area(done.area_m2),
            on=Day(done.applied_on, today),
            amount="" if done.amount is None else Quantity.of(done.amount, most_si),
        )
    ]
    lines += work_hours.lines(talk, yard, done.application_id)
    lines += second_passes.lines(talk, yard) if is_first_pass else part_lines(talk, done)
    if done.seconds:
        lines.append(talk.say("applying.second_down", zones=Names(done.seconds)))
    if done.over is not None:
        limit = LabelRate(float(f"{done.over.limit:.3g}"), done.over.unit)
        key = "applying.over_with_earlier" if done.over.used else "applying.over"
        used = LabelRate(float(f"{done.over.used:.3g}"), done.over.unit)
        lines.append(talk.say(key, limit=limit, used=used))
    elif done.achieved is not None and done.planned is not None and not is_first_pass:
        lines.append(rate_line(talk, done.achieved, done.planned))
    if done.planned is None:
        lines.append(talk.say("applying.no_product"))
    elif done.amount is None:
        lines.append(talk.say("applying.amount_open", number=done.application_id))
    lines += _doubt_lines(talk, done, today)
    # What is down whole is not left, where it was not planned either.
    whole = set(done.zones) - {part.zone for part in done.parts if part.left_m2 > 0}
    if left := [name for name in done.open_zones if name not in whole or is_first_pass]:
        lines.append(talk.say("applying.still_open", zones=Names(left)))
    leafy = foliar_of(_put_down(talk, yard, done))
    if leafy:
        # Wet leaves and no water for a day against water-in: the label's order, no advice of ours.
        lines.append(talk.say("labels.foliar_recorded", names=leafy))
        return _with_end(talk, yard, done, lines)
    # What the message says of water too is answered beside this.
    if done.water_in_by >= today and not talk.is_told("report_watered"):
        wanted = water_terms(talk.work, yard).depth_mm
        water = Depth(wanted / 1000)
        by = Day(done.water_in_by, today)
        lines.append(talk.say("applying.water_in", depth=water, by=by))
        lines += water_due.after_application(talk, yard, done.application_id)
    return _with_end(talk, yard, done, lines)


def part_lines(talk: Talk, done: uses.Confirmed) -> list[str]:
    """Say which zones had it in part, and how much of them is still to do."""
    lines = []
    for part in done.parts:
        area, left = (Area(m2) for m2 in (part.area_m2, part.left_m2))
        key = "applying.part_left" if part.left_m2 > 0 else "applying.part_whole"
        lines.append(talk.say(key, zone=part.zone, area=area, left=left))
    return lines


def rate_line(talk: Talk, achieved: Rate, planned: Rate) -> str:
    """Say how the rate that was put down compares with the one planned."""
    share = achieved.rate_si / planned.rate_si - 1
    key = "over" if share > 0.05 else ("under" if share < -0.05 else "right")
    percent = f"{abs(share) * 100:.0f}"
    return talk.say(f"applying.rate_{key}", planned=LabelRate.of_rate(planned), percent=percent)


def newest_rate(talk: Talk, yard: YardRecord) -> list[str]:
    """Say what the newest application came to against the label's rate; nothing without one."""
    done = talk.standing(yard).done
    product = put_down(done[-1]) if done else None
    if product is None or product.rate is None:
        return []
    record, today = done[-1], talk.today(yard)
    got = [share.amount_si or 0.0 for share in record.shares if share.is_amount_said]
    on, area_m2 = Day(record.applied_on, today), math.fsum(e.area_m2 for e in record.shares)
    if len(got) < len(record.shares) or not area_m2:
        return [talk.say("applying.newest_open", on=on, number=record.id)]
    amount = Amount(math.fsum(got), product.rate.amount_unit)
    rate = rate_of(amount, area_m2, product.rate.unit)
    what = {"amount": Quantity.of(amount), "area": Area(area_m2)}
    compared = second_passes.lines(talk, yard) or [rate_line(talk, rate, product.rate)]
    return [talk.say("applying.newest", on=on, **what), *compared]


def _doubt_lines(talk: Talk, done: uses.Confirmed, today: date) -> list[str]:
    """Return what else the label has against what is down, beside its maxima."""
    match done.doubt:
        case TooSoon() as soon:
            day, last = Day(soon.allowed_from, today), Day(soon.last, today)
            return [talk.say("applying.too_soon", day=day, last=last)]
        case TooManyApplications() as many:
            return [talk.say("applying.too_many", limit=many.limit)]
        case UseUnknown() as unknown:
            entry = unknown.entries[0]
            day = Day(entry.day, today)
            return [talk.say("applying.unchecked", day=day, zone=entry.zone)]
    return []


def _with_end(talk: Talk, yard: YardRecord, done: uses.Confirmed, lines: list[str]) -> Reply:
    today = talk.today(yard)
    if not done.is_of_a_round:
        lines.append(talk.say("applying.for_no_round"))
    elif done.target == Target.WINTER_ANNUALS:
        lines.append(talk.say("applying.for_late_summer"))
    elif done.year > season_day(done.applied_on, yard.lat).year:
        lines.append(talk.say("applying.for_next_spring", year=done.year))
    else:
        lines += _timing_lines(talk, yard, done)
    half = done.next_half
    if half is not None and not half.is_allowed:
        lines.append(talk.say("applying.half_capped"))
    elif half is not None and half.on > today:
        key = "soil.next_half_of" if half.zones else "soil.next_half"
        lines.append(talk.say(key, opens=Day(half.on, today), zones=Names(half.zones)))
    lines.append(talk.say("applying.caution"))
    if talk.standing(yard).chat_wishes.posts_signs:
        lines.append(talk.say("notices.rule_posted"))
    return Reply("\n".join(lines), talk.undo())


#: Days before the window on which what goes down counts as early, and says what that means.
_EARLY_DAYS: Final = 14


def _timing_lines(talk: Talk, yard: YardRecord, done: uses.Confirmed) -> list[str]:
    """Say what it means that a first application went down early or late, by its ingredients.

    How long it holds is reckoned with each ingredient's decay; what is up already is told apart.
    """
    season = talk.season(yard)
    year = season_day(done.applied_on, yard.lat).year
    earlier = [
        each
        for each in talk.standing(yard).done
        if each.year == year and each.id != done.application_id
    ]
    if season is None or season.outlook is None or earlier:
        return []
    judged = Judged.from_json(season.outlook)
    up, closes = judged.p50, judged.deadline_on
    if up is None or closes is None or season_day(up, yard.lat).year != year:
        return []
    today = talk.today(yard)
    said = Day(up, today)
    lead = lead_of(talk, yard)
    if done.applied_on < up - timedelta(days=lead + _EARLY_DAYS):
        days = (up - done.applied_on).days
        return [talk.say("applying.early", days=days, up=said), *_holds(talk, yard)]
    if done.applied_on <= closes:
        return []
    if done.applied_on < up:
        return [talk.say("applying.nearly_late", up=said)]
    product = _put_down(talk, yard, done)
    names = () if product is None else product.ingredient_names
    working = [name for name in names if name in weeds_seen.helps_on_seedlings()]
    key = "late_on_small" if working else "late_on_seed"
    return [
        talk.say(
            f"applying.{key}", up=said, names=Names([say_ingredient(each) for each in working])
        ),
        *_holds(talk, yard),
    ]


def _holds(talk: Talk, yard: YardRecord) -> list[str]:
    return barrier_lines(talk, yard, sight_of(talk, yard), names_all=False, is_just_down=True)


def _put_down(talk: Talk, yard: YardRecord, done: uses.Confirmed) -> Product | None:
    record = talk.standing(yard).application(done.application_id)
    return None if record is None else put_down(record)
