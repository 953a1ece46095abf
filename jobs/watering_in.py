"""The water that carries a barrier in: rain and reported watering, and what to tell of it."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any, Final

import numpy as np

from jobs.agronomy.season import Kind
from jobs.agronomy.series import DailySeries
from jobs.labels import product_of_snapshot
from jobs.weather_of_day import water_terms
from storage import applications
from storage.applications import ApplicationRecord
from storage.database import Work
from storage.yards import YardRecord

#: Days within which the barrier is watered in (Univ. of Arkansas Extension 2009); how much, and the
#: label's own terms, in `jobs.weather_of_day.water_terms`.
WATER_IN_WITHIN_DAYS: Final = 7

#: The last call does not come on the heels of the first, where the label's time is short.
_NOT_AGAIN_BEFORE: Final = timedelta(days=3)

#: So much of the depth will do: gauges and cans tell no better (common practice, no source).
_ENOUGH: Final = 0.95


def rain_on(known: DailySeries, day: date) -> float:
    """Return the rain a cell knows of a day [mm]; 0 where it knows nothing of it."""
    return float(np.nansum(known.between(day, day).rain_mm))


def is_enough(had_mm: float, wanted_mm: float) -> bool:
    """Tell whether a depth waters in where another is wanted."""
    return had_mm >= _ENOUGH * wanted_mm


def water_on(
    work: Work, yard: YardRecord, known: DailySeries | None, done: ApplicationRecord
) -> float:
    """Return what fell on an application since: rain, and watering reported [mm].

    Rain of the day itself is left out: a day's total does not say whether it fell before the
    product was down. Watering of that day counts if it was told of later than the application.
    """
    reported = applications.watered_mm(work, yard.id, done.applied_on, after=done.id)
    if known is None:
        return reported
    rain = known.between(done.applied_on + timedelta(days=1), known.last_day).rain_mm
    return reported + float(np.nansum(rain))


def watered_in_day(
    work: Work, yard: YardRecord, known: DailySeries | None, day: date
) -> date | None:
    """Return the day by which what went down on ``day`` had its water; None: not yet.

    Water counts as in `water_on`.
    """
    came = applications.waterings(work, yard.id, day)
    if known is not None and known.last_day > day:
        after = known.between(day + timedelta(days=1), known.last_day)
        rain = enumerate(np.nan_to_num(after.rain_mm))
        came += [(after.first_day + timedelta(days=number), float(mm)) for number, mm in rain]
    had_mm, wanted_mm = 0.0, water_terms(work, yard).depth_mm
    for each, mm in sorted(came):
        had_mm += mm
        if is_enough(had_mm, wanted_mm):
            return each
    return None


def look_at_watering(
    work: Work, yard: YardRecord, known: DailySeries | None, today: date
) -> list[tuple[Kind, ApplicationRecord, dict[str, Any]]]:
    """Note what has been watered in; return what to tell.

    What went down on one day is spoken of together. What lacks water is told of on the day after,
    shortly before its time is over, and when it is over: its `stage`.
    """
    since = today - timedelta(days=2 * WATER_IN_WITHIN_DAYS)
    waiting = [
        done
        for done in applications.of_yard(work, yard.id, since=since)
        if done.watered_in_on is None and makes_barrier(done)
    ]
    if not waiting:
        return []
    wanted = water_terms(work, yard)
    found: dict[tuple[Kind, date], tuple[Kind, ApplicationRecord, dict[str, Any]]] = {}
    for done in waiting:
        had_mm = water_on(work, yard, known, done)
        facts: dict[str, Any] = {"had_mm": had_mm, "wanted_mm": wanted.depth_mm}
        if is_enough(had_mm, wanted.depth_mm):
            applications.set_watered_in(work, done.id, today)
            found[Kind.WATERED_IN, today] = (Kind.WATERED_IN, done, facts)
        elif not _is_label_alone(done) and today > done.applied_on:
            by = done.applied_on + timedelta(days=wanted.within_days)
            stage = _stage(done.applied_on, by, today)
            facts |= {"by": by.isoformat(), "stage": stage}
            found[Kind.WATER_IN, done.applied_on] = (Kind.WATER_IN, done, facts)
    return list(found.values())


def _stage(applied_on: date, by: date, today: date) -> str:
    if today > by:
        return "over"
    is_near = today >= by - timedelta(days=1) and today >= applied_on + _NOT_AGAIN_BEFORE
    return "last" if is_near else "first"


def makes_barrier(done: ApplicationRecord) -> bool:
    """Tell whether anything put down is to be watered in; True where nobody knows what it was."""
    return done.product is None or product_of_snapshot(done.product).makes_barrier


def _is_label_alone(done: ApplicationRecord) -> bool:
    """Tell whether a leaf herbicide in the bag leaves watering to the label's order."""
    return done.product is not None and product_of_snapshot(done.product).has_foliar
