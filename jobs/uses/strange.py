"""What is strange about a report of work: told, and asked about, before it is kept."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final, TypeAlias

from jobs.agronomy.labelled_product import Product
from jobs.agronomy.rates import Rate
from jobs.agronomy.season import Target
from jobs.judged import Judged
from jobs.local_days import season_day
from jobs.rounds import is_dormant_half
from jobs.season_facts import plan_of
from jobs.standing import Standing
from jobs.uses.parts import Piece

#: A second application on one zone within this time is asked about: two people, one spreader.
_ASKED_ABOUT_WITHIN: Final = timedelta(days=14)
#: So is a half so much before the plan has it: the label's year is soon used up.
_EARLY_BY: Final = timedelta(days=14)

#: A lasting product may go down 4 to 8 weeks before its window at little cost (inference); three
#: months before the weeds is asked about.
_EARLY_DAYS: Final = 70
#: The day of first emergence is known within about so much (the outlook's own bench).
#: By then the weeds of spring are up wherever they come up in spring (inference).
_WEEDS_UP_BY: Final = (7, 1)
_LATE_DAYS: Final = 10

#: A rate this many times the label's, or this part of it, is likelier a slip of the tongue.
_TOO_MUCH: Final = 2.0
_TOO_LITTLE: Final = 0.25

#: A day so long past is likelier of another year. Our choice.
_LONG_AGO: Final = timedelta(days=300)


@dataclass(frozen=True, slots=True)
class AppliedAgain:
    """Zones had an application so lately that a slip is likelier than a plan."""

    zones: tuple[str, ...]
    on: date
    record_id: int


@dataclass(frozen=True, slots=True)
class LongBefore:
    """Put down so many days before its weeds are expected that much of it is spent by then."""

    expected_on: date
    days: int


@dataclass(frozen=True, slots=True)
class AfterEmergence:
    """Put down for the first time so many days after its weeds were expected."""

    expected_on: date
    days: int


@dataclass(frozen=True, slots=True)
class FarOff:
    """A rate so many times the label's."""

    said: Rate
    label: Rate
    times: float


@dataclass(frozen=True, slots=True)
class LongAgo:
    """A day so many days ago."""

    on: date
    days: int


Oddity: TypeAlias = AppliedAgain | LongBefore | AfterEmergence | FarOff | LongAgo


class Strange(ValueError):
    """Raised for a report with something strange about it; whoever is sure says it again.

    Attributes
    ----------
    oddities
        What is strange, each with its figure; at least one.
    """

    def __init__(self, oddities: tuple[Oddity, ...]) -> None:
        super().__init__(", ".join(str(each) for each in oddities))
        self.oddities = oddities


@dataclass(frozen=True, slots=True)
class Report:
    """What somebody says was put down: where, when (local days), what for, and at which rate."""

    pieces: Sequence[Piece]
    applied_on: date
    today: date
    target: Target
    year: int
    product: Product | None
    achieved: Rate | None


def ask_if_strange(standing: Standing, report: Report) -> None:
    """Pass a report, or stop it until somebody is sure.

    Raises
    ------
    Strange
        With everything that is strange about it.
    """
    found = (
        _again(standing, report),
        _out_of_time(standing, report),
        _far_off(report),
        _long_ago(report),
    )
    oddities = tuple(each for each in found if each is not None)
    if oddities:
        raise Strange(oddities)


def _again(standing: Standing, report: Report) -> AppliedAgain | None:
    split_days = plan_of(standing, report.target).split_days
    within = max(_ASKED_ABOUT_WITHIN, timedelta(days=split_days) - _EARLY_BY)
    for done in reversed(standing.done):
        zones = [
            piece.zone.name
            for piece in report.pieces
            if done.id not in piece.beside and standing.covered(piece.zone, done)
        ]
        of_round = within if done.target == report.target else _ASKED_ABOUT_WITHIN
        if zones and abs(report.applied_on - done.applied_on) < of_round:
            return AppliedAgain(tuple(zones), done.applied_on, done.id)
    return None


def _out_of_time(standing: Standing, report: Report) -> LongBefore | AfterEmergence | None:
    record = standing.season(report.target)
    if record is None or record.outlook is None or not _makes_barrier(report.product):
        return None
    expected_on, lat = Judged.from_json(record.outlook).p50, standing.yard.lat
    if expected_on is None:
        return None
    plan, day = plan_of(standing, report.target), season_day(report.applied_on, lat)
    year = season_day(expected_on, lat).year
    # Once a season is over, or its weeds long up, the next weeds are those of the next one.
    over = plan.season_ends if report.target is Target.WINTER_ANNUALS else _WEEDS_UP_BY
    is_next = year == report.year + 1 and (day.month, day.day) >= over
    if year != report.year and not is_next:
        return None
    days = (expected_on - report.applied_on).days
    if days > plan.lead_days + _EARLY_DAYS:
        # A half in November is an ordinary plan (K-State Extension).
        is_dormant = is_dormant_half(report.applied_on, report.year, lat)
        return None if is_dormant else LongBefore(expected_on, days)
    is_first = any(
        not standing.progress(piece.zone, report.target, report.year).had for piece in report.pieces
    )
    if is_first and -days > plan.grace_days + _LATE_DAYS:
        return AfterEmergence(expected_on, -days)
    return None


def _makes_barrier(product: Product | None) -> bool:
    return product is None or product.makes_barrier


def _far_off(report: Report) -> FarOff | None:
    label = None if report.product is None else report.product.rate
    if report.achieved is None or label is None:
        return None
    times = report.achieved.rate_si / label.rate_si
    is_odd = times > _TOO_MUCH or times < _TOO_LITTLE
    return FarOff(report.achieved, label, times) if is_odd else None


def _long_ago(report: Report) -> LongAgo | None:
    ago = report.today - report.applied_on
    return LongAgo(report.applied_on, ago.days) if ago > _LONG_AGO else None
