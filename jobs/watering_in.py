"""The water that carries a barrier in: rain and reported watering, and what to tell of it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any, Final

import numpy as np

from jobs.agronomy.season import Kind
from jobs.agronomy.series import DailySeries
from jobs.labels import product_of_snapshot
from jobs.standing import Standing, standing_of
from jobs.weather_of_day import water_terms
from storage import applications
from storage.applications import ApplicationRecord, WateringRecord, ZoneShare
from storage.database import Work
from storage.yards import YardRecord

#: Days within which the barrier is watered in (Univ. of Arkansas Extension 2009); how much, and the
#: label's own terms, in `jobs.weather_of_day.water_terms`.
WATER_IN_WITHIN_DAYS: Final = 7

#: So long after it was put down something may be told of its water.
STILL_TOLD_FOR: Final = timedelta(days=2 * WATER_IN_WITHIN_DAYS)

#: The last call does not come on the heels of the first, where the label's time is short.
_NOT_AGAIN_BEFORE: Final = timedelta(days=3)

#: Less than a tenth of an inch missing is not worth a message [mm] (a setting).
WORTH_TELLING_MM: Final = 2.54

#: So much of the depth will do: gauges and cans tell no better (common practice, no source).
_ENOUGH: Final = 0.95


def rain_on(known: DailySeries, day: date) -> float:
    """Return the rain a cell knows of a day [mm]; 0 where it knows nothing of it."""
    return float(np.nansum(known.between(day, day).rain_mm))


def is_enough(had_mm: float, wanted_mm: float) -> bool:
    """Tell whether a depth waters in where another is wanted."""
    return had_mm >= _ENOUGH * wanted_mm


def is_hardly_missing(had_mm: float, wanted_mm: float) -> bool:
    """Tell whether so little is missing of a depth, of which some came, that nobody is told."""
    return had_mm > 0 and wanted_mm - had_mm < WORTH_TELLING_MM


@dataclass(frozen=True, slots=True)
class Waters:
    """What fell and what was reported at a yard; nothing fell where no days are at hand."""

    known: DailySeries | None
    reported: tuple[WateringRecord, ...]

    def days(self, done: ApplicationRecord, share: ZoneShare, on: date) -> list[tuple[date, float]]:
        """Return what came down on a zone's share since a day it was put down [mm], by day.

        Rain of the day itself is left out: a day's total does not say whether it fell before the
        product was down. Watering of that day counts if it was told of later than the application.
        """
        came = [
            (each.watered_on, each.depth_mm)
            for each in self.reported
            if (each.grounds is None or share.ground_id in each.grounds)
            and (each.watered_on > on or (each.watered_on == on and each.after_id >= done.id))
        ]
        if self.known is not None and self.known.last_day > on:
            after = self.known.between(on + timedelta(days=1), self.known.last_day)
            rain = enumerate(np.nan_to_num(after.rain_mm))
            came += [(after.first_day + timedelta(days=number), float(mm)) for number, mm in rain]
        return sorted(came)

    def on_share(self, done: ApplicationRecord, share: ZoneShare) -> float:
        """Return what came down on a zone's share since [mm]."""
        return sum(mm for _, mm in self.days(done, share, done.applied_on))


def waters_since(work: Work, yard: YardRecord, known: DailySeries | None, since: date) -> Waters:
    """Return what was reported at a yard since a day, beside the rain."""
    told = standing_of(work, yard).waterings
    return Waters(known, tuple(each for each in told if each.watered_on >= since))


def water_on(
    work: Work, yard: YardRecord, known: DailySeries | None, done: ApplicationRecord
) -> float:
    """Return what came down on an application since, on the zone that had least of it [mm]."""
    waters = waters_since(work, yard, known, done.applied_on)
    return least_on(waters, done)


def least_on(waters: Waters, done: ApplicationRecord) -> float:
    """Return what came down on an application, on those of its zones that wait that had least."""
    waiting = [share for share in done.shares if share.watered_in_on is None] or done.shares
    return min((waters.on_share(done, share) for share in waiting), default=0.0)


def watered_in_days(
    work: Work, yard: YardRecord, known: DailySeries | None, done: ApplicationRecord, day: date
) -> dict[int, date | None]:
    """Return by zone when what went down, if it was on ``day``, had its water; None: not yet."""
    waters = waters_since(work, yard, known, day)
    wanted_mm = water_terms(work, yard).depth_mm
    found: dict[int, date | None] = {}
    for share in done.shares:
        had_mm = 0.0
        found[share.zone_id] = None
        for each, mm in waters.days(done, share, day):
            had_mm += mm
            if is_enough(had_mm, wanted_mm):
                found[share.zone_id] = each
                break
    return found


def _is_waiting(done: ApplicationRecord) -> bool:
    """Tell whether an application lacks its water on any of its zones."""
    return done.watered_in_on is None and makes_barrier(done)


def may_want_water(standing: Standing, today: date) -> bool:
    """Tell whether anything put down lately may still be told of for its water."""
    return bool(waiting_for_water(standing, today))


def waiting_for_water(standing: Standing, today: date) -> list[ApplicationRecord]:
    """Return applications of the last two weeks that have not had their water, oldest first."""
    since = today - STILL_TOLD_FOR
    return [each for each in standing.done if each.applied_on >= since and _is_waiting(each)]


def look_at_watering(
    work: Work, standing: Standing, known: DailySeries | None, today: date
) -> list[tuple[Kind, ApplicationRecord, dict[str, Any]]]:
    """Note what has been watered in, zone by zone; return what to tell.

    What went down on one day is spoken of together. What lacks water is told of on the day after,
    shortly before its time is over, and when it is over: its `stage`; by its zones, where others
    lack none or were treated on another day.
    """
    waiting = waiting_for_water(standing, today)
    if not waiting:
        return []
    yard = standing.yard
    wanted = water_terms(work, yard)
    waters = waters_since(work, yard, known, min(each.applied_on for each in waiting))
    is_rain_known = known is not None and known.last_day >= today - timedelta(days=1)
    found: dict[tuple[Kind, date], tuple[Kind, ApplicationRecord, dict[str, Any]]] = {}
    names = {zone.ground_id: zone.name for zone in standing.programme}
    dry: dict[date, dict[int, str]] = {}
    for done in waiting:
        had = {
            share.zone_id: waters.on_share(done, share)
            for share in done.shares
            if share.watered_in_on is None
        }
        wet = {zone_id for zone_id, mm in had.items() if is_enough(mm, wanted.depth_mm)}
        if wet:
            applications.set_watered_in(work, done.id, dict.fromkeys(wet, today))
        had_mm = min((mm for zone_id, mm in had.items() if zone_id not in wet), default=None)
        facts: dict[str, Any] = {"wanted_mm": wanted.depth_mm}
        if had_mm is None:
            facts["had_mm"] = min(had.values(), default=0.0)
            found[Kind.WATERED_IN, today] = (Kind.WATERED_IN, done, facts)
        elif not _is_label_alone(done) and today > done.applied_on:
            by = done.applied_on + timedelta(days=wanted.within_days)
            stage = _stage(done.applied_on, by, today)
            if stage == "first" and not is_rain_known:
                # What fell yesterday is told of once it is known, not taken for nothing.
                continue
            if is_hardly_missing(had_mm, wanted.depth_mm):
                continue
            facts |= {"had_mm": had_mm, "by": by.isoformat(), "stage": stage}
            lacking = dry.setdefault(done.applied_on, {})
            lacking |= {
                share.ground_id: names.get(share.ground_id, share.zone_name)
                for share in done.shares
                if share.watered_in_on is None and share.zone_id not in wet
            }
            if not names.keys() <= lacking.keys():
                facts["dry"] = list(lacking.values())
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
