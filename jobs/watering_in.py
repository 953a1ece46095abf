"""The water that carries a barrier in: rain and reported watering, and what to tell of it."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any, Final

import numpy as np

from jobs.agronomy.season import (
    Kind,
)
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


def water_since(work: Work, yard: YardRecord, known: DailySeries | None, day: date) -> float:
    """Return rain after a day, and watering reported since it [mm].

    Rain of the day itself is left out: a day's total does not say whether it fell before the
    product was down.
    """
    reported = applications.watered_mm(work, yard.id, day)
    if known is None:
        return reported
    rain = known.between(day + timedelta(days=1), known.last_day).rain_mm
    return reported + float(np.nansum(rain))


def look_at_watering(
    work: Work, yard: YardRecord, known: DailySeries | None, today: date
) -> list[tuple[Kind, ApplicationRecord, dict[str, Any]]]:
    """Note what has been watered in; return at most one thing to tell of each kind.

    Zones done on neighbouring days wait for the same rain: the newest that is done, and the oldest
    that is not, speak for the others.
    """
    since = today - timedelta(days=2 * WATER_IN_WITHIN_DAYS)
    done_with: dict[Kind, tuple[Kind, ApplicationRecord, dict[str, Any]]] = {}
    waiting = [
        done
        for done in applications.of_yard(work, yard.id, since=since)
        if done.watered_in_on is None and makes_barrier(done)
    ]
    if not waiting:
        return []
    wanted = water_terms(work, yard)
    for done in waiting:
        had_mm = water_since(work, yard, known, done.applied_on)
        facts = {"had_mm": had_mm, "wanted_mm": wanted.depth_mm}
        if had_mm >= wanted.depth_mm:
            applications.set_watered_in(work, done.id, today)
            done_with[Kind.WATERED_IN] = (Kind.WATERED_IN, done, facts)
        elif _is_label_alone(done):
            continue
        elif today > done.applied_on and Kind.WATER_IN not in done_with:
            by = done.applied_on + timedelta(days=wanted.within_days)
            done_with[Kind.WATER_IN] = (Kind.WATER_IN, done, {**facts, "by": by.isoformat()})
    return list(done_with.values())


def makes_barrier(done: ApplicationRecord) -> bool:
    """Tell whether anything put down is to be watered in; True where nobody knows what it was."""
    return done.product is None or product_of_snapshot(done.product).makes_barrier


def _is_label_alone(done: ApplicationRecord) -> bool:
    """Tell whether a leaf herbicide in the bag leaves watering to the label's order."""
    return done.product is not None and product_of_snapshot(done.product).has_foliar
