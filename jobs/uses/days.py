"""The week ahead of a yard, with the limits it was judged by and what is wrong with the data."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from jobs.agronomy.day_rules import DayRules
from jobs.data_trouble import Trouble, trouble_of
from jobs.weather_of_day import Advice, advise, rules_of
from storage.database import Work
from storage.yards import YardRecord


@dataclass(frozen=True, slots=True)
class DayReport:
    """The week, its limits, and the data's trouble."""

    advice: Advice
    rules: DayRules
    trouble: Trouble


def report(work: Work, yard: YardRecord, source: str, now: datetime) -> DayReport | None:
    """Return the week ahead of a yard, or None while nothing is held for its place."""
    advice = advise(work, yard, source, now)
    if advice is None:
        return None
    return DayReport(advice, rules_of(work, yard), trouble_of(work, yard, source, now))
