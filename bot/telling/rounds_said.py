"""Rounds: what is planned, where each target stands, how long the barrier holds."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import Final

from bot.dialogue.talk import Talk
from bot.saying.values import Day, LabelRate, Names
from bot.turn import Reply
from jobs.agronomy.allowance import Allowance
from jobs.agronomy.amounts import LabelLimitExceeded
from jobs.agronomy.label_times import TooManyApplications, TooSoon
from jobs.agronomy.ledger import UseUnknown
from jobs.agronomy.season import State, Target
from jobs.agronomy.timing import IN_PLACE_BEFORE_DAYS
from jobs.agronomy.whats_next import Next
from jobs.barriers import ZoneBarrier
from jobs.local_days import season_day
from jobs.rounds import planned_for
from jobs.season_facts import Sight, is_more_allowed, plan_of, sight_now, whats_next_of
from jobs.uses import choosing_rounds as uses
from jobs.uses import confirming
from jobs.uses.how_much import YardAmounts
from storage.yards import YardRecord

_NAMES: Final = {
    Target.SUMMER_ANNUALS: "rounds.name_summer",
    Target.WINTER_ANNUALS: "rounds.name_winter",
}


def lead_line(talk: Talk, yard: YardRecord) -> str:
    """Return how long before the first crabgrass the window opens, and whose setting that is."""
    is_set = "yes" if yard.is_lead_set else "no"
    lead = lead_of(talk, yard)
    return talk.say("reasons.lead", lead=lead, before=IN_PLACE_BEFORE_DAYS, is_set=is_set)


def lead_of(talk: Talk, yard: YardRecord) -> int:
    """Return how many days before the first crabgrass the window of a yard opens."""
    return plan_of(talk.standing(yard), Target.SUMMER_ANNUALS).lead_days


def allowed(talk: Talk, yard: YardRecord, first: Sequence[str] = ()) -> list[Reply]:
    """Answer ``what is still allowed``, behind what is said `first`."""
    try:
        found = uses.still_allowed(talk.work, yard, talk.now)
    except LookupError:
        return [talk.reply("yards.product_none")]
    lines = [*first, talk.say("rounds.allowed_head", yard=yard.name)]
    for item in found:
        lines += _allowed_lines(talk, yard, item)
    lines += unknown_lines(talk, yard, [item.zone for item in found])
    return [Reply("\n".join([*lines, talk.say("rounds.allowed_law")]))]


def sight_of(talk: Talk, yard: YardRecord) -> Sight | None:
    """Return what can be seen of a yard just now."""
    return sight_now(talk.work, yard, talk.around.source, talk.around.outlooks, talk.now)


def next_of(talk: Talk, yard: YardRecord, target: Target = Target.SUMMER_ANNUALS) -> Next:
    """Return what a target of a yard comes to next."""
    sight = sight_of(talk, yard)
    course = None if sight is None else sight.course
    return whats_next_of(talk.standing(yard), target, talk.now, course)


def standing_lines(talk: Talk, yard: YardRecord) -> list[str]:
    """Return one line a target where a yard has several; none where spring is all there is."""
    if not yard.has_late_summer_round:
        return []
    return [_standing(talk, yard, each) for each in uses.standings(talk.work, yard, talk.now)]


def late_summer_lines(talk: Talk, yard: YardRecord, target: Target) -> list[str]:
    """Return where the late-summer application stands, where it comes after what is down."""
    if not yard.has_late_summer_round or target is Target.WINTER_ANNUALS:
        return []
    found = uses.standings(talk.work, yard, talk.now)
    return [_standing(talk, yard, each) for each in found if each.target is Target.WINTER_ANNUALS]


def beside_lines(talk: Talk, yard: YardRecord) -> list[str]:
    """Return how the other target stands where it wants something too.

    A message speaks of one window: what only waits, or is down, stands in the plan.
    """
    if not yard.has_late_summer_round:
        return []
    head, _ = planned_for(talk.standing(yard), talk.today(yard))
    return [
        _standing(talk, yard, each)
        for each in uses.standings(talk.work, yard, talk.now)
        if each.target != head and each.state in (State.WINDOW_OPEN, State.RETREAT_DUE)
    ]


def barrier_lines(
    talk: Talk,
    yard: YardRecord,
    sight: Sight | None,
    *,
    names_all: bool = True,
    is_just_down: bool = False,
) -> list[str]:
    """Return how long the barrier holds on a yard's zones, zones alike in one line.

    Where all of them are alike they need no names, unless `names_all`. Of what `is_just_down` the
    weeks are enough: the next day to do something is said beside it.
    """
    lines: list[str] = []
    for barriers in uses.barriers(talk.work, yard, sight, talk.now).values():
        by_words: dict[tuple[object, ...], list[ZoneBarrier]] = {}
        for each in barriers:
            key = (each.since, each.outlook, each.hold.weeks_from(each.since))
            by_words.setdefault(key, []).append(each)
        is_named = names_all or len(by_words) > 1
        for alike in by_words.values():
            is_short = is_just_down and not is_named
            lines.append(_barrier(talk, yard, alike, is_named=is_named, is_short=is_short))
            noted = dict.fromkeys(note for each in alike for note in each.notes)
            lines += [talk.say(f"rounds.note_{note}") for note in noted]
    return list(dict.fromkeys(lines))


def _barrier(
    talk: Talk, yard: YardRecord, alike: Sequence[ZoneBarrier], *, is_named: bool, is_short: bool
) -> str:
    first, today = alike[0], talk.today(yard)
    zones = Names([each.zone for each in alike])
    ends = Day(first.sprouting_ends, today)
    verdict, due = first.outlook.verdict, first.outlook.due
    weeks = first.hold.weeks_from(first.since)
    if verdict == "no_barrier" or (weeks is not None and weeks[1] < 1):
        return talk.say("rounds.barrier_none", zones=zones)
    if verdict == "fading" and due is not None and due <= today:
        return talk.say("rounds.barrier_gone", zones=zones, ends=ends)
    if verdict in ("fading", "may_fade") and due is not None and weeks is not None:
        low, high = weeks
        return talk.say(
            "rounds.barrier_holds" if is_short else f"rounds.barrier_{verdict}",
            zones=zones,
            low=low,
            high=high,
            since=Day(first.since, today),
            due=Day(due, today),
            ends=ends,
            is_all="no" if is_named else "yes",
        )
    return talk.say("rounds.barrier_lasts", zones=zones, ends=ends)


def _standing(talk: Talk, yard: YardRecord, each: uses.TargetStanding) -> str:
    name = talk.say(_NAMES[each.target])
    event = "" if each.event is None else Day(each.event, talk.today(yard))
    match each.state:
        case State.WINDOW_OPEN:
            key = (
                "rounds.standing_open"
                if is_round_left_now(talk, yard)
                else "rounds.standing_capped"
            )
        case State.APPLIED:
            key = "rounds.standing_applied"
        case State.RETREAT_DUE:
            key = "rounds.standing_retreat"
        case State.WAITING if each.event is None:
            key = "rounds.standing_waiting_far"
        case State.WAITING:
            key = "rounds.standing_past" if each.is_over else "rounds.standing_waiting"
    return talk.say(key, name=name, event=event)


def is_round_left_now(talk: Talk, yard: YardRecord) -> bool:
    """Tell whether the label leaves a whole round on any zone today."""
    return is_more_allowed(talk.standing(yard), season_day(talk.today(yard), yard.lat))


def part_down(talk: Talk, yard: YardRecord) -> list[str]:
    """Return what is still to do where only a part of the round is down."""
    today = talk.today(yard)
    year = season_day(today, yard.lat).year
    target = Target.SUMMER_ANNUALS
    done = talk.standing(yard).done
    is_begun = any(each.year == year and each.target == target for each in done)
    # Once the season is over, the next round is a new year's: nothing of this one is to do.
    is_over = planned_for(talk.standing(yard), today)[1] > year
    if not is_begun or is_over or talk.state(yard) not in (State.WAITING, State.WINDOW_OPEN):
        return []
    left = confirming.open_zones(talk.standing(yard), target, today)
    return [talk.say("timing.part_down", zones=Names(left))] if left else []


def _allowed_lines(talk: Talk, yard: YardRecord, item: uses.ZoneAllowed) -> list[str]:
    zone = talk.say("rounds.rest_of", zone=item.zone) if item.is_rest else item.zone
    today = talk.today(yard)
    match item.stopped:
        case UseUnknown() as unknown:
            return [unknown_use(talk, yard, zone, unknown)]
        case TooSoon() as soon:
            day = Day(soon.allowed_from, today)
            return [talk.say("rounds.allowed_too_soon", zone=zone, day=day)]
        case TooManyApplications() as many:
            used, limit = many.used, many.limit
            return [talk.say("rounds.allowed_too_many", zone=zone, used=used, limit=limit)]
        case LabelLimitExceeded() | None:
            pass
    if not item.allowances:
        return [talk.say("rounds.allowed_free", zone=zone)]
    return [allowance_line(talk, zone, each) for each in item.allowances]


def allowance_line(talk: Talk, zone: str, each: Allowance) -> str:
    """Return the arithmetic of one maximum in one line."""
    return talk.say(
        "rounds.allowed_line",
        zone=zone,
        left=limit_rate(each.left, each.unit, each.of),
        limit=limit_rate(each.limit, each.unit),
        used=limit_rate(each.used, each.unit),
        period=talk.say(f"amounts.period_{each.period}"),
    )


def tightest_lines(talk: Talk, found: YardAmounts) -> list[str]:
    """Return what the label still allows where it leaves least; nothing while nothing is used."""
    if found.tightest is None:
        return []
    line = allowance_line(talk, found.tightest.zone, found.tightest.allowance)
    return [talk.say("rounds.allowed_least", line=line)]


def stopped_lines(talk: Talk, yard: YardRecord, found: YardAmounts) -> list[str]:
    """Return why zones get nothing this time: the label, down already, too late, seed first."""
    lines = []
    for each in found.stopped:
        if isinstance(each.why, UseUnknown):
            lines.append(unknown_use(talk, yard, each.zone, each.why))
            continue
        lines.append(
            talk.say(
                "rounds.stopped",
                zone=each.zone,
                limit=limit_rate(each.why.limit, each.why.unit, each.why.of),
                used=limit_rate(each.why.used, each.why.unit),
                period=talk.say(f"amounts.period_{each.why.period}"),
            )
        )
    if found.down:
        lines.append(talk.say("rounds.down", zones=Names(found.down)))
    if found.late:
        lines.append(talk.say("rounds.late", zones=Names(found.late)))
    if found.given_to_seed:
        lines.append(talk.say("rounds.given_to_seed", zones=Names(found.given_to_seed)))
    return lines


def unknown_lines(talk: Talk, yard: YardRecord, zones: Sequence[str]) -> list[str]:
    """Say on which of the zones something unknown went down, which may well count."""
    today = talk.today(yard)
    by_day: dict[date, list[str]] = {}
    standing = talk.standing(yard)
    for zone in standing.zones:
        day = standing.unknown_on(zone, today)
        if zone.name in zones and day is not None:
            by_day.setdefault(day, []).append(zone.name)
    return [
        talk.say(
            "rounds.allowed_unknown_product", zones=Names(names), zone=names[0], day=Day(day, today)
        )
        for day, names in by_day.items()
    ]


def unknown_use(talk: Talk, yard: YardRecord, zone: str, unknown: UseUnknown) -> str:
    """Say that an earlier use counts whose amount nobody knows, and how to tell it."""
    entry = unknown.entries[0]
    done = talk.standing(yard).application(entry.record)
    is_ours = done is not None and done.product is not None
    key = "rounds.allowed_unknown_amount" if is_ours else "rounds.allowed_unknown"
    return talk.say(key, zone=zone, day=Day(entry.day, talk.today(yard)), number=entry.record)


def limit_rate(value: float, unit: str, of: str = "product") -> LabelRate:
    """Return a figure of a label's maximum, to four digits."""
    return LabelRate(float(f"{value:.4g}"), unit, of)
