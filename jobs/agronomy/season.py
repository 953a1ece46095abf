"""The season of one yard and one target as a state machine.

              emergence outlook says: act                every programme zone confirmed
  waiting ------------------------------> window open ----------------------------> applied
    ^  ^ |                                  |     ^                                 |  |  ^
    |  | |  window missed, or false start   |     |            taken back           |  |  |
    |  +-|----------------------------------+     +---------------------------------+  |  |
    |    |                                                                             |  |
    |    +------------- confirmed before the window, or after it ----------------------|--+
    |                                                                                  |  |
    |                        2nd half due, or barrier fading while weeds germinate     |  |
    |                     +------------------------------------------------------------+  |
    |                     v                                                               |
    |                re-treat due ---------------- confirmed again -----------------------+
    |                     |
    +---------------------+---- season over, or a new year (from any state)

Times are the yard's own local days; south of the equator the caller shifts them by half a year, so
that spring is spring. Nothing here knows a clock: `step` is told what day it is.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection
from dataclasses import dataclass, replace
from datetime import date, timedelta
from enum import StrEnum
from typing import Final

from jobs.agronomy.timing import FALSE_START_DAYS, HEADS_UP_DAYS


class State(StrEnum):
    """Where a yard stands with one target."""

    WAITING = "waiting"
    WINDOW_OPEN = "window open"
    APPLIED = "applied"
    RETREAT_DUE = "re-treat due"


class Target(StrEnum):
    """The weeds a round is meant for, and with them the time of year."""

    SUMMER_ANNUALS = "summer_annuals"
    WINTER_ANNUALS = "winter_annuals"


class Kind(StrEnum):
    """What an alert is about."""

    SOIL_WARMING = "soil_warming"
    WINDOW_OPEN = "window_open"
    ACT_NOW = "act_now"
    WINDOW_MISSED = "window_missed"
    WATER_IN = "water_in"
    WATERED_IN = "watered_in"
    SECOND_HALF_DUE = "second_half_due"
    BARRIER_FADING = "barrier_fading"
    SEASON_OVER = "season_over"
    DATA_STALE = "data_stale"
    SEEDING_POSSIBLE = "seeding_possible"


#: Why a window closed again: what it was opened for has receded. Kept among what was told, so that
#: a second one in a year is not told.
FALSE_START: Final = "false_start"

#: A bare change of state, where a history of changes and alerts is written in one column.
STATE_CHANGE: Final = "state"

#: The arrows of the drawing above; a test walks them.
ARROWS: Final[frozenset[tuple[State, State]]] = frozenset(
    {
        (State.WAITING, State.WINDOW_OPEN),
        (State.WAITING, State.APPLIED),
        (State.WINDOW_OPEN, State.WAITING),
        (State.WINDOW_OPEN, State.APPLIED),
        (State.APPLIED, State.WINDOW_OPEN),
        (State.APPLIED, State.WAITING),
        (State.APPLIED, State.RETREAT_DUE),
        (State.RETREAT_DUE, State.APPLIED),
        (State.RETREAT_DUE, State.WAITING),
        (State.RETREAT_DUE, State.WINDOW_OPEN),
    }
)


@dataclass(frozen=True, slots=True)
class Plan:
    """A yard's settings for one target, in days.

    Attributes
    ----------
    lead_days
        The window opens when the days to go come down to this. The default of 21 keeps people told
        10-35 days ahead of modelled first emergence (inference, back-tested in `tests/bench`).
    heads_up_days
        "Soil warming" is told when the days to go come down to this.
    act_now_days
        From here on there is no time to spare: the barrier must be watered in 7 days before.
    grace_days
        An open window stays open so long after first emergence: for an ingredient that also works
        on small seedlings.
    false_start_days
        An open window closes again when the days to go recede this far beyond the lead.
    split_days
        Second half after the first: 6-8 weeks is common practice; 8 weeks by Warren, Yelverton &
        Gannon 2008 (SWSS Proc. 61:119).
    rounds
        2 for a split, 1 for a single application.
    season_ends
        Month and day from which nothing more is put down against this target.
    """

    lead_days: int = 21
    heads_up_days: int = HEADS_UP_DAYS
    act_now_days: int = 12
    grace_days: int = 0
    false_start_days: int = FALSE_START_DAYS
    split_days: int = 56
    rounds: int = 2
    season_ends: tuple[int, int] = (9, 1)


#: What differs by target. Summer annuals: "most by early July, some to September" (Dernoeden, Univ.
#: of Maryland TT-43, 2008). Winter annuals: half to seven tenths emerge between late September and
#: mid October (Kaminski & Dernoeden 2007, Crop Sci. 47:775-781); one round (common practice); the
#: lead of spring, so that there is time to act before soil has fallen through 70 °F.
PLANS: Final[dict[Target, Plan]] = {
    Target.SUMMER_ANNUALS: Plan(),
    Target.WINTER_ANNUALS: Plan(
        lead_days=21, heads_up_days=35, act_now_days=12, rounds=1, season_ends=(12, 1)
    ),
}


@dataclass(frozen=True, slots=True)
class Confirmed:
    """One confirmed application: its day and the zones that got it."""

    on: date
    zones: frozenset[int]


@dataclass(frozen=True, slots=True)
class Facts:
    """What is known on a day.

    Attributes
    ----------
    days_to_go
        Days to the event that a lead is held against (first emergence: the balance of early and
        late, or of soil falling through 70 °F, see `jobs.agronomy.timing`); negative once it is
        past, None while beyond the horizon or without an outlook. Where zones
        come in turns, those of the first without a first round whose day is still to come.
    days_to_first
        Those of the earliest zone, done or not; None where `days_to_go` are those.
    zones
        The programme's zones.
    confirmed
        Applications of this season that stand.
    is_retreat_allowed
        False where the label's maximum for the period is used up.
    barrier_ends_on
        First day the barrier is no longer expected to hold while weeds still sprout, or None where
        it outlasts them or no product says.
    splits_from
        Day the split interval counts from at the earliest: for a first half put down in the
        dormant season, the day this spring's window opens. None for any other.
    is_heads_up_due, is_window_due, is_last_call_due
        True where another sign than the days to go calls for it (a published date of the region).
    """

    days_to_go: int | None
    zones: frozenset[int]
    confirmed: tuple[Confirmed, ...] = ()
    is_retreat_allowed: bool = True
    barrier_ends_on: date | None = None
    splits_from: date | None = None
    is_heads_up_due: bool = False
    is_window_due: bool = False
    is_last_call_due: bool = False
    days_to_first: int | None = None


@dataclass(frozen=True, slots=True)
class Season:
    """State of one target: the year it belongs to, since when, and what was told in that year."""

    year: int
    state: State
    since: date
    told: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class Step:
    """The outcome of one look: the season after it, what to tell, and why it moved."""

    season: Season
    alerts: tuple[Kind, ...] = ()
    why: str = ""


def step(season: Season, facts: Facts, plan: Plan, today: date) -> Step:
    """Return what a day's facts make of a season.

    Calling it again with the same facts changes nothing and tells nothing: each kind is told once
    a year (once a round for what belongs to a round), or twice where a window closed again.
    """
    if today.year > season.year:
        return _after(_new_year(season, today), facts, plan, today, why="new_year")
    return _after(season, facts, plan, today, why="")


@dataclass(frozen=True, slots=True)
class RoundNow:
    """What comes next: rounds all zones have had, zones still to have the next, and those too late.

    Too late is a zone without a first round once weeds are up there, unless no zone has one.
    `completed_on` is the day on which the last zone got the newest of the rounds that all have had.
    """

    done: int
    completed_on: date | None
    zones: frozenset[int]
    late: frozenset[int]


def round_now(facts: Facts, told: Collection[str] = ()) -> RoundNow:
    """Return the round a programme comes to next, by what was told of its season."""
    whole, facts = facts.zones, programme_now(facts, told)
    done = rounds_done(facts)
    counts = Counter(zone for application in facts.confirmed for zone in application.zones)
    completed_on = round_completed_on(facts, done) if done else None
    return RoundNow(
        done,
        completed_on,
        frozenset(zone for zone in facts.zones if counts[zone] <= done),
        whole - facts.zones,
    )


def programme_now(facts: Facts, told: Collection[str]) -> Facts:
    """Return the facts of the zones that still count for a season, by what was told of it.

    Once weeds are up, a zone without its first round no longer holds back the others' second.
    """
    if Kind.WINDOW_MISSED not in told:
        return facts
    begun = _of_zones_begun(facts)
    return begun if begun.zones else facts


def rounds_done(facts: Facts) -> int:
    """Return how many rounds every programme zone has had."""
    if not facts.zones:
        return 0
    counts = Counter(zone for application in facts.confirmed for zone in application.zones)
    return min(counts[zone] for zone in facts.zones)


def round_completed_on(facts: Facts, number: int) -> date | None:
    """Return the day on which the last programme zone got its round of this number, or None."""
    days = []
    for zone in facts.zones:
        had = sorted(done.on for done in facts.confirmed if zone in done.zones)
        if len(had) < number:
            return None
        days.append(had[number - 1])
    return max(days, default=None)


def retreat_due_on(facts: Facts, plan: Plan) -> date | None:
    """Return the day the next half falls due after the rounds done so far, or None if none does.

    By the split interval, or by the end of the barrier where that comes first; none is due once the
    season is over.
    """
    done = rounds_done(facts)
    if not 0 < done < plan.rounds:
        return None
    last = round_completed_on(facts, done)
    if last is None:
        return None
    if facts.splits_from is not None:
        last = max(last, facts.splits_from)
    due = last + timedelta(days=plan.split_days)
    if facts.barrier_ends_on is not None:
        due = min(due, facts.barrier_ends_on)
    return None if last < date(last.year, *plan.season_ends) <= due else due


def _new_year(season: Season, today: date) -> Season:
    if season.state is State.WAITING:
        return Season(today.year, State.WAITING, season.since)
    return Season(today.year, State.WAITING, today)


def _after(season: Season, facts: Facts, plan: Plan, today: date, *, why: str) -> Step:
    facts = programme_now(facts, season.told)
    match season.state:
        case State.WAITING:
            return _from_waiting(season, facts, plan, today, why)
        case State.WINDOW_OPEN:
            return _from_window_open(season, facts, plan, today)
        case State.APPLIED:
            return _from_applied(season, facts, plan, today)
        case State.RETREAT_DUE:
            return _from_retreat_due(season, facts, plan, today)


def _of_zones_begun(facts: Facts) -> Facts:
    begun = frozenset(zone for done in facts.confirmed for zone in done.zones)
    return replace(facts, zones=facts.zones & begun)


def _from_waiting(season: Season, facts: Facts, plan: Plan, today: date, why: str) -> Step:
    if rounds_done(facts) and not _has_ended(plan, today) and Kind.SEASON_OVER not in season.told:
        return _move(season, State.APPLIED, today, "all_zones_confirmed")
    days = facts.days_to_go
    if days is None or Kind.WINDOW_MISSED in season.told or _has_ended(plan, today):
        return Step(season, why=why)
    if days <= -plan.grace_days:
        # Never opened this year (a yard registered late): the year's window is quietly closed.
        return Step(_telling(season, Kind.WINDOW_MISSED), why="emergence_before_first_look")
    if days <= plan.lead_days or facts.is_window_due:
        why = "emergence_within_lead" if days <= plan.lead_days else "regional_date"
        opened = _move(season, State.WINDOW_OPEN, today, why, Kind.WINDOW_OPEN)
        if not _is_last_call(facts, plan):
            return opened
        # Opened late: one message says it all.
        return replace(opened, season=_telling(opened.season, Kind.ACT_NOW))
    is_near = days <= plan.heads_up_days or facts.is_heads_up_due
    if is_near and Kind.SOIL_WARMING not in season.told:
        return Step(_telling(season, Kind.SOIL_WARMING), (Kind.SOIL_WARMING,), "emergence_nearing")
    return Step(season, why=why)


def _from_window_open(season: Season, facts: Facts, plan: Plan, today: date) -> Step:
    if rounds_done(facts):
        return _move(season, State.APPLIED, today, "all_zones_confirmed")
    days = facts.days_to_go
    if _has_ended(plan, today) or (days is not None and days <= -plan.grace_days):
        is_begun = bool(rounds_done(_of_zones_begun(facts)))
        after = State.APPLIED if is_begun else State.WAITING
        return _move(season, after, today, "emergence_reached", Kind.WINDOW_MISSED)
    if _is_receding(facts, plan):
        return _closed_again(season, today)
    if _is_last_call(facts, plan) and Kind.ACT_NOW not in season.told:
        return Step(_telling(season, Kind.ACT_NOW), (Kind.ACT_NOW,), "emergence_close")
    return Step(season)


def _is_last_call(facts: Facts, plan: Plan) -> bool:
    days = facts.days_to_go
    return facts.is_last_call_due or (days is not None and days <= plan.act_now_days)


def _is_receding(facts: Facts, plan: Plan) -> bool:
    """Tell whether the earliest zone's day is so far off that an open window was a false start."""
    if facts.is_window_due:
        return False
    days = facts.days_to_go if facts.days_to_first is None else facts.days_to_first
    return days is not None and days > plan.lead_days + plan.false_start_days


def _closed_again(season: Season, today: date) -> Step:
    # Those who were called are told to wait again, and called anew; once a year, lest it flap.
    if FALSE_START in season.told:
        return _move(season, State.WAITING, today, FALSE_START)
    told = season.told - {Kind.WINDOW_OPEN, Kind.ACT_NOW} | {Kind.SOIL_WARMING, FALSE_START}
    closed = _move(replace(season, told=told), State.WAITING, today, FALSE_START)
    return replace(closed, alerts=(Kind.SOIL_WARMING,))


def _from_applied(season: Season, facts: Facts, plan: Plan, today: date) -> Step:
    if _has_ended(plan, today):
        return _move(season, State.WAITING, today, "season_over", Kind.SEASON_OVER)
    if not rounds_done(facts):
        return _taken_back(season, facts, plan, today)
    if not facts.is_retreat_allowed:
        return Step(season)
    due_on = retreat_due_on(facts, plan)
    if due_on is not None and today >= due_on:
        return _move(season, State.RETREAT_DUE, today, "split_interval", Kind.SECOND_HALF_DUE)
    ends_on = facts.barrier_ends_on
    if due_on is None and ends_on is not None and today >= ends_on:
        return _move(season, State.RETREAT_DUE, today, "barrier_fading", Kind.BARRIER_FADING)
    return Step(season)


def _from_retreat_due(season: Season, facts: Facts, plan: Plan, today: date) -> Step:
    if _has_ended(plan, today):
        return _move(season, State.WAITING, today, "season_over", Kind.SEASON_OVER)
    if not rounds_done(facts):
        return _taken_back(season, facts, plan, today)
    due_on = retreat_due_on(facts, plan)
    is_half_due = due_on is not None and today >= due_on
    ends_on = facts.barrier_ends_on
    is_fading = due_on is None and ends_on is not None and today >= ends_on
    if not facts.is_retreat_allowed or not (is_half_due or is_fading):
        return _move(season, State.APPLIED, today, "all_zones_confirmed")
    return Step(season)


def _taken_back(season: Season, facts: Facts, plan: Plan, today: date) -> Step:
    days = facts.days_to_go
    is_open = days is not None and -plan.grace_days < days and not _is_receding(facts, plan)
    if is_open and Kind.WINDOW_MISSED not in season.told:
        return _move(season, State.WINDOW_OPEN, today, "taken_back")
    return _move(season, State.WAITING, today, "taken_back")


def _move(season: Season, state: State, today: date, why: str, alert: Kind | None = None) -> Step:
    moved = replace(season, state=state, since=today)
    if alert is None:
        return Step(moved, why=why)
    is_per_round = alert in (Kind.SECOND_HALF_DUE, Kind.BARRIER_FADING)
    if alert in season.told and not is_per_round:
        return Step(moved, why=why)
    return Step(_telling(moved, alert), (alert,), why)


def _telling(season: Season, kind: Kind) -> Season:
    return replace(season, told=season.told | {kind})


def _has_ended(plan: Plan, today: date) -> bool:
    return (today.month, today.day) >= plan.season_ends
