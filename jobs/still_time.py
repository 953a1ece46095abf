"""Between the last call and the first seedlings: once, what the product is still good for."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any, Final

from jobs.agronomy.barrier import SPRING_SOIL_C, weeks_of_control
from jobs.agronomy.labelled_product import ai_kg_ha
from jobs.agronomy.season import STATE_CHANGE, Kind, State, Target
from jobs.agronomy.strengths import StrengthUnknown
from jobs.barriers import Course
from jobs.judged import Judged
from jobs.local_days import season_day
from jobs.season_facts import plan_of
from jobs.standing import Standing
from jobs.year_round import Word

#: So long after the deadline, and after the call, nobody is pressed; then it is said once. Ours.
_AFTER: Final = timedelta(days=2)
_AFTER_CALL: Final = timedelta(days=5)


def words(
    standing: Standing, target: Target, today: date, judged: Judged | None, course: Course | None
) -> list[Word]:
    """Return the word that it is not too late, on a local day; the outbox drops what was told.

    It is so only while the label leaves another round: that is dear to find out.
    """
    season, up = standing.season(target), None if judged is None else judged.p50
    if judged is None or up is None or judged.deadline_on is None or season is None:
        return []
    day = season_day(today, standing.yard.lat)
    is_open = season.state == State.WINDOW_OPEN and Kind.ACT_NOW in season.told
    is_between = judged.deadline_on + _AFTER <= today < up and season.since + _AFTER_CALL <= day
    is_to_do = target is Target.SUMMER_ANNUALS
    if not (is_open and is_between and is_to_do) or standing.of_season(target, day.year):
        return []
    is_north = course is not None and standing.yard.lat >= 0
    ends = course.sprouting_ends(target, day.year) if course is not None and is_north else None
    facts = {
        "is_still_time": True,
        "was": judged.deadline_on.isoformat(),
        "up": up.isoformat(),
        "ends": None if ends is None else ends.isoformat(),
        "acts_on_seedlings": plan_of(standing, target).grace_days > 0,
        "lasts": _lasts(standing),
    }
    return [Word(STATE_CHANGE, day.year, "still_time", facts)]


def is_so(standing: Standing, year: int) -> bool:
    """Tell whether the word is still so: nothing is down, and no seedling is due yet."""
    season = standing.season(Target.SUMMER_ANNUALS)
    is_open = season is not None and season.state == State.WINDOW_OPEN
    return is_open and not standing.of_season(Target.SUMMER_ANNUALS, year)


def _lasts(standing: Standing) -> list[Any] | None:
    """Return the ingredient that lasts longest at the chosen rate, and its weeks by decay."""
    product = standing.product
    if product is None or product.rate is None:
        return None
    found = []
    for part in product.ingredients:
        try:
            weeks = weeks_of_control(part.name, ai_kg_ha(product.rate, part), soil_c=SPRING_SOIL_C)
        except StrengthUnknown:
            continue
        if weeks is not None:
            found.append((weeks, part.name))
    if not found:
        return None
    (low, high), name = max(found)
    return [name, low, high]
