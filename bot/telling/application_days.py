"""Between what days the next application goes down."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Final

from bot.dialogue.talk import Talk
from bot.saying.shown_names import capital
from bot.saying.values import Day
from bot.telling import rounds_said
from jobs.agronomy.season import State, Target
from jobs.agronomy.whats_next import TO_DO
from jobs.local_days import season_day
from jobs.rounds import belongs_to, targets_of
from jobs.season_facts import NextHalf, next_half, round_of
from jobs.uses import soil_report as soil_uses
from jobs.uses.soil_report import SoilReport
from storage.yards import YardRecord, ZoneRecord

#: A second application is told to others as within so long of its day (common practice).
_SECOND_WITHIN: Final = timedelta(days=7)


def days_to_apply(talk: Talk, yard: YardRecord) -> tuple[date, date] | None:
    """Return between what days the next application goes down; None where there is no date."""
    today = talk.today(yard)
    if talk.state(yard) in (State.APPLIED, State.RETREAT_DUE):
        half = next_half_of(talk, yard)
        if half is None or not half.is_allowed:
            return None
        first = max(half.on, today)
        return first, first + _SECOND_WITHIN
    report = report_of(talk, yard)
    opens = None if report is None else report.window_opens
    closes = None if report is None else report.window_closes
    if opens is None or closes is None or closes < today:
        return None
    return max(opens, today), closes


def fit_lines(talk: Talk, yard: YardRecord, day: date, *, only_late: bool = False) -> list[str]:
    """Say whether a day is in time for a first application, or late; nothing where it is early."""
    today = talk.today(yard)
    every = [rounds_said.next_of(talk, yard, target) for target in targets_of(yard)]
    by = min((n.deadline_on for n in every if n.stage in TO_DO and n.deadline_on), default=None)
    if by is None or day < today or (only_late and day <= max(by, today)):
        return []
    key = "in_time" if day <= by else "late" if by >= today else "later"
    return [capital(talk.say(f"timing.day_{key}", day=Day(day, today), by=Day(by, today)))]


def next_half_of(talk: Talk, yard: YardRecord) -> NextHalf | None:
    """Return the second application of a spring as it stands; None where there is none to come."""
    sight = rounds_said.sight_of(talk, yard)
    course = None if sight is None else sight.course
    return next_half(talk.standing(yard), Target.SUMMER_ANNUALS, talk.now, course)


def report_of(talk: Talk, yard: YardRecord) -> SoilReport | None:
    """Return what the soil is reported to be and to become; None before the first look."""
    around = talk.around
    return soil_uses.report(talk.work, yard, around.source, around.outlooks, talk.now)


def wanted_now(talk: Talk, yard: YardRecord, zones: list[ZoneRecord]) -> list[ZoneRecord]:
    """Return those of zones that still want the application at hand."""
    standing, today = talk.standing(yard), talk.today(yard)
    target, _ = belongs_to(standing, today)
    ids = round_of(standing, target, season_day(today, yard.lat)).zones
    return [zone for zone in zones if zone.id in ids]
