"""The round over many yards: today's share in its order, what to load, and what is left."""

from __future__ import annotations

import math
import re
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta
from statistics import median
from typing import Final

from jobs.agronomy.amounts import Amount
from jobs.agronomy.label_doubts import has_facts
from jobs.agronomy.round_plan import Stop, begins_in, days_needed, in_order
from jobs.agronomy.route import Point, driving_order, length_m
from jobs.agronomy.season import State, Target
from jobs.agronomy.whats_next import Stage
from jobs.local_days import local, season_day
from jobs.record_details import RecordDetails
from jobs.rounds import belongs_to, targets_of
from jobs.season_facts import round_of, whats_next_of
from jobs.standing import Standing, standing_of
from jobs.turf_limits import round_amount
from jobs.weather_of_day import advise, half_life_days
from storage import crews, wishes
from storage.applications import ApplicationRecord
from storage.database import Work
from storage.products import ProductRecord
from storage.yards import YardRecord

#: Yards whose window opens within this belong to the round that is planned.
_SEEN_AHEAD_DAYS: Final = 28
#: A crew's pace is read off so many days, lately (settings).
_PACE_SEEN: Final = timedelta(days=28)
_PACE_DAYS: Final = 3


@dataclass(frozen=True, slots=True)
class Line:
    """One yard of the round.

    Attributes
    ----------
    is_due
        Whether it may be done today.
    by
        Last day that is early enough, or None.
    days_left
        Days to it.
    opens_on
        When its window is expected to open, where it is not due.
    good_days, best_day
        Good days among the next seven, and the best; None where no forecast is at hand.
    product
        Its product, or None where none is chosen.
    amount, most_si
        What it takes; None without a product or zones, or where every zone is stopped. And the most
        the label allows there [kg or L]; None where it names no limit.
    is_stopped
        Whether the label or the grass stops every zone: how is told with the yard's amounts.
    done_at, begun_at, done_by
        When it was done today and by whom, and when that began; or None.
    """

    yard: YardRecord
    is_due: bool
    by: date | None
    days_left: int | None
    opens_on: date | None
    good_days: int | None
    best_day: date | None
    product: ProductRecord | None
    amount: Amount | None
    is_stopped: bool
    lasts_days: float | None
    done_at: datetime | None = None
    begun_at: datetime | None = None
    done_by: str = ""
    most_si: float | None = None
    is_late: bool = False

    @property
    def point(self) -> Point:
        """Where it lies [degrees]."""
        return self.yard.lat, self.yard.lon


@dataclass(frozen=True, slots=True)
class Load:
    """How much of one product to load, and the most its label allows [kg or L]."""

    product: ProductRecord
    amount: Amount
    most_si: float


@dataclass(frozen=True, slots=True)
class Round:
    """A day's round.

    Attributes
    ----------
    done
        Yards done today, in the order they were done.
    left
        Yards of today's share still to do, in order.
    later
        Yards for the days after, in order.
    yards_a_day
        How many a day holds.
    begin_on
        Day by which the round has to begin for its last yard, where that is still ahead.
    is_late
        Whether it should have begun before today for its last yard.
    takes_days
        Calendar days it takes from today on, rain included.
    resting
        Number of yards with nothing due.
    way_m
        How long the way over what is left is, as the crow flies [m].
    has_start
        Whether it is known from where it starts: where one is, else where one said.
    """

    done: tuple[Line, ...]
    left: tuple[Line, ...]
    later: tuple[Line, ...]
    yards_a_day: int
    begin_on: date | None
    is_late: bool
    takes_days: int
    resting: int
    way_m: float = 0.0
    has_start: bool = False

    @property
    def lines(self) -> tuple[Line, ...]:
        """Everything in its order."""
        return (*self.done, *self.left, *self.later)


def of_today(
    work: Work, mine: Sequence[YardRecord], chat_id: int, source: str, now: datetime
) -> Round:
    """Return today's round over the yards of a chat."""
    wished = wishes.of_chat(work, chat_id)
    a_day = _pace(work, mine, wished.yards_a_day, now)
    done: list[Line] = []
    todo: dict[int, Line] = {}
    resting = 0
    for yard in mine:
        line = _line(work, yard, source, now)
        if line is None:
            resting += 1
        elif line.done_at is not None:
            done.append(line)
        else:
            todo[yard.id] = line
    stops = [_stop(line) for line in todo.values()]
    order = in_order(stops)
    start_in = begins_in(stops, a_day)
    is_time = start_in is not None and start_in <= 0
    room = max(0, a_day - len(done))
    # Before its window opens a yard is done only where the round could not end in time otherwise.
    today = [stop for stop in order if stop.is_due or is_time][:room]
    keys = {stop.key for stop in today}
    first = local(now, mine[0].timezone).date() if mine else now.date()
    begin_on = None
    if start_in is not None and start_in > 0 and not any(stop.is_due for stop in stops):
        begin_on = first + timedelta(days=start_in)
    done.sort(key=lambda line: line.done_at or now)
    start = None
    if done:
        start = done[-1].point
    elif wished.start_lat is not None and wished.start_lon is not None:
        start = (wished.start_lat, wished.start_lon)
    left = _driven([todo[stop.key] for stop in today], start)
    return Round(
        done=tuple(done),
        left=left,
        way_m=length_m([line.point for line in left], start),
        has_start=start is not None,
        later=tuple(todo[stop.key] for stop in order if stop.key not in keys),
        yards_a_day=a_day,
        begin_on=begin_on,
        is_late=start_in is not None and start_in < 0,
        takes_days=days_needed(len(order), a_day) if order else 0,
        resting=resting,
    )


def _driven(lines: Sequence[Line], start: Point | None) -> tuple[Line, ...]:
    """Return a day's lines in a driving order; those whose last day is today go first."""
    pressing = [line for line in lines if line.days_left is not None and line.days_left <= 0]
    order: list[Line] = []
    for group in (pressing, [line for line in lines if line not in pressing]):
        at = order[-1].point if order else start
        order += [group[place] for place in driving_order([line.point for line in group], at)]
    return tuple(order)


def _pace(work: Work, mine: Sequence[YardRecord], wished: int, now: datetime) -> int:
    """Return how many yards a day holds: as was said, else as the last full days went."""
    if wished != wishes.YARDS_A_DAY:
        return wished
    days: Counter[date] = Counter()
    for yard in mine:
        today = local(now, yard.timezone).date()
        days.update(
            {
                done.applied_on
                for done in standing_of(work, yard).done
                if today - _PACE_SEEN <= done.applied_on < today
            }
        )
    # A day with one yard or two says nothing of what a day holds.
    full = [count for count in days.values() if count > 2]
    return round(median(full)) if len(full) >= _PACE_DAYS else wished


def loads(lines: Sequence[Line]) -> tuple[Load, ...]:
    """Sum what lines take, product by product."""
    found: dict[int, Load] = {}
    for line in lines:
        if line.amount is None or line.product is None:
            continue
        most_si = math.inf if line.most_si is None else line.most_si
        one = Load(line.product, line.amount, most_si)
        so_far = found.get(line.product.id)
        if so_far is not None:
            amount = Amount(so_far.amount.si + one.amount.si, one.amount.unit)
            one = Load(one.product, amount, so_far.most_si + most_si)
        found[line.product.id] = one
    return tuple(found.values())


def _line(work: Work, yard: YardRecord, source: str, now: datetime) -> Line | None:
    """Return a yard's line; None where nothing is due nor was done today."""
    standing, today = standing_of(work, yard), local(now, yard.timezone).date()
    # What was put down for no round, such as a leaf herbicide, is not the day's work.
    done = [
        each for each in standing.done if each.applied_on == today and each.target in tuple(Target)
    ]
    due = _due(standing, now)
    if due is None and not done:
        return None
    by, opens_on, is_due = (
        (None, None, False) if due is None else (due.by, due.opens_on, due.is_now)
    )
    target = belongs_to(standing, today)[0] if due is None else due.target
    amount, most_si, is_stopped = _amount(standing, target, today)
    good_days, best_day = None, None
    if not done:
        advice = advise(work, yard, source, now)
        if advice is not None and advice.week is not None:
            week = advice.week
            good_days = sum(verdict.is_suitable for verdict in week.days)
            best_day = None if week.best is None else week.best.day
    line = Line(
        yard=yard,
        is_due=is_due,
        by=by,
        days_left=None if by is None else (by - today).days,
        opens_on=opens_on,
        good_days=good_days,
        best_day=best_day,
        product=standing.record,
        amount=amount,
        is_stopped=is_stopped,
        lasts_days=half_life_days(standing.product),
        most_si=most_si,
        is_late=due is not None and due.is_late,
    )
    # A yard of which a zone is still to do stays on the list, and is not done out of season either.
    if done and not _is_open(standing) and _is_whole(standing, done[-1], today):
        names = crews.person_names(work, {done[-1].person_id})
        by_whom = names.get(done[-1].person_id, "")
        ended_at, begun_at = _ended_at(done[-1], yard), done[-1].applied_at
        return replace(line, done_at=ended_at, begun_at=begun_at, done_by=by_whom)
    return line if due is not None else None


def _ended_at(done: ApplicationRecord, yard: YardRecord) -> datetime:
    """Return when an application was over, where that is known; else when it began."""
    ended = RecordDetails.from_json(done.details).ended
    match = None if ended is None else re.fullmatch(r"([01]?\d|2[0-3]):([0-5]\d)", ended)
    if match is None:
        return done.applied_at
    begun = local(done.applied_at, yard.timezone)
    return max(begun, begun.replace(hour=int(match[1]), minute=int(match[2])))


@dataclass(frozen=True, slots=True)
class _Due:
    """What makes a line due: the target, its last and its opening day, if it is due now or late."""

    target: Target
    by: date | None
    opens_on: date | None
    is_now: bool
    is_late: bool = False


def _due(standing: Standing, now: datetime) -> _Due | None:
    """Return what is due of the most pressing target, or None."""
    found: list[_Due] = []
    today = local(now, standing.yard.timezone).date()
    seen_to = today + timedelta(days=_SEEN_AHEAD_DAYS)
    for target in targets_of(standing.yard):
        season = standing.season(target)
        if season is None or standing.is_muted(target, season.year):
            continue
        upcoming = whats_next_of(standing, target, now)
        opens_on = upcoming.opens_on
        if upcoming.stage in (Stage.HALF_DUE, Stage.OPEN, Stage.LATE):
            is_late = upcoming.stage is Stage.LATE
            found.append(_Due(target, upcoming.by, None, is_now=True, is_late=is_late))
        if upcoming.stage is Stage.AHEAD and opens_on is not None and opens_on <= seen_to:
            found.append(_Due(target, upcoming.by, opens_on, is_now=False))
    found.sort(key=lambda each: (not each.is_now, each.by or date.max))
    return found[0] if found else None


def _is_open(standing: Standing) -> bool:
    """Tell whether a target's round is still open today."""
    return any(
        season is not None
        and State(season.state) in (State.WINDOW_OPEN, State.RETREAT_DUE)
        and not standing.is_muted(target, season.year)
        for target in targets_of(standing.yard)
        for season in [standing.season(target)]
    )


def _is_whole(standing: Standing, done: ApplicationRecord, today: date) -> bool:
    """Tell whether what went down today was the last of a round on the whole yard."""
    here = season_day(today, standing.yard.lat)
    day = max(here, date(done.year, 1, 1))
    return round_of(standing, Target(done.target), day).completed_on == here


def _amount(
    standing: Standing, target: Target, today: date
) -> tuple[Amount | None, float | None, bool]:
    """Return what a target's zones still to do take, the most allowed, and if all are stopped.

    Zones that the label or their grass stops get nothing, as with the yard's amounts; of a label
    not told whole nobody knows.
    """
    product = standing.product
    if product is None or not has_facts(product) or not standing.programme:
        return None, None, False
    ids = round_of(standing, target, season_day(today, standing.yard.lat)).zones
    still = [zone for zone in standing.programme if zone.id in ids]
    found = round_amount(standing, still, today)
    return (None, None, True) if found is None else (*found, False)


def _stop(line: Line) -> Stop:
    return Stop(line.yard.id, line.is_due, line.days_left, line.good_days, line.lasts_days)
