"""What became of an application: its water so far, storms ahead and behind, and dry weeks."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta
from typing import Any, Final

import numpy as np

from jobs import packed_cells
from jobs.agronomy.season import Target
from jobs.agronomy.series import DailySeries
from jobs.agronomy.watering import (
    AfterRain,
    Catch,
    Cycles,
    DrySpell,
    Washout,
    Water,
    WateringState,
    after_heavy_rain,
    catch_test,
    dry_spell,
    watering_state,
)
from jobs.judged import Judged
from jobs.labels import put_down
from jobs.local_days import local, zone
from jobs.sources.base import Cell
from jobs.standing import standing_of
from jobs.weather_of_day import half_life_days, rules_of, run_of, washout
from storage.applications import ApplicationRecord
from storage.database import Work
from storage.yards import YardRecord

#: An application older than this is not what people worry about.
_LATELY: Final = timedelta(days=60)


@dataclass(frozen=True, slots=True)
class WaterAhead:
    """What a fresh application has before it: a storm, a ban, and the sprinkler's run."""

    storm: Washout | None
    is_banned: bool
    run: Cycles | None


@dataclass(frozen=True, slots=True)
class RainJudged:
    """An application after heavy rain."""

    state: WateringState
    after: AfterRain

    def to_json(self) -> dict[str, Any]:
        """Return the facts the answer stands on."""
        return {
            "answer": self.after.answer,
            "rain_mm": round(self.after.rain_mm, 1),
            "limit_mm": self.after.limit_mm,
            "was_watered_in": self.after.was_watered_in,
        }


@dataclass(frozen=True, slots=True)
class DroughtJudged:
    """An application after dry weeks."""

    state: WateringState
    spell: DrySpell

    def to_json(self) -> dict[str, Any]:
        """Return the facts the answer stands on."""
        return {
            "answer": self.spell.answer,
            "days_dry": round(self.spell.days_dry, 1),
            "missing_mm": round(self.spell.missing_mm, 1),
            "share_left": self.spell.share_left,
            "by": self.state.by.isoformat(),
        }


def outlook_of(
    work: Work, yard: YardRecord, source: str, application_id: int, now: datetime
) -> WaterAhead:
    """Return what lies before a fresh application."""
    done = standing_of(work, yard).application(application_id)
    assert done is not None
    return WaterAhead(
        storm=washout(work, yard, source, done.applied_at, now),
        is_banned=bool(yard.is_water_banned),
        run=run_for(work, yard, rules_of(work, yard).water_in_mm),
    )


def run_for(work: Work, yard: YardRecord, depth_mm: float) -> Cycles | None:
    """Return how to run the yard's sprinkler for a depth, or None before its rate is known."""
    return run_of(standing_of(work, yard).wishes, depth_mm)


def depth_of_minutes(work: Work, yard: YardRecord, minutes: float) -> float | None:
    """Return the depth of so many minutes [mm], or None before the sprinkler's rate is known."""
    rate = standing_of(work, yard).wishes.sprinkler_mm_h
    return None if rate is None else rate * minutes / 60


def caught(depths_mm: list[float], minutes: float) -> Catch:
    """Return what a tuna-can test says of a sprinkler.

    Raises
    ------
    ValueError
        If it says nothing: no water, or no time.
    """
    return catch_test(depths_mm, minutes)


def after_rain(
    work: Work, yard: YardRecord, source: str, said_mm: float | None, now: datetime
) -> RainJudged | None:
    """Judge heavy rain on the last application; what the person saw counts before the record."""
    done = _last(work, yard, now)
    if done is None:
        return None
    known = _known(work, yard, source)
    state = _state(work, yard, done, known, now)
    rain_mm, fell_on = _heaviest(known, done.applied_on)
    if said_mm is not None:
        # "Overnight": the last night, which the record does not hold yet.
        rain_mm, fell_on = said_mm, local(now, yard.timezone).date()
    fell_from = datetime.combine(fell_on, time(), tzinfo=zone(yard.timezone))
    judged = after_heavy_rain(state, rain_mm, max(fell_from, done.applied_at), rules_of(work, yard))
    return RainJudged(state, judged)


def after_drought(work: Work, yard: YardRecord, source: str, now: datetime) -> DroughtJudged | None:
    """Judge the last application after dry weeks."""
    done = _last(work, yard, now)
    if done is None:
        return None
    state = _state(work, yard, done, _known(work, yard, source), now)
    began_at = _weeds_began_at(work, yard)
    half_life = half_life_days(put_down(done))
    return DroughtJudged(state, dry_spell(state, done.applied_at, now, began_at, half_life))


def _last(work: Work, yard: YardRecord, now: datetime) -> ApplicationRecord | None:
    since = (now - _LATELY).date()
    newest = standing_of(work, yard).done[-1:]
    return next((done for done in newest if done.applied_on >= since), None)


def _known(work: Work, yard: YardRecord, source: str) -> DailySeries | None:
    held = packed_cells.held(work, source, Cell.at(yard.lat, yard.lon))
    return None if held is None else held.known


def _state(
    work: Work, yard: YardRecord, done: ApplicationRecord, known: DailySeries | None, now: datetime
) -> WateringState:
    here = zone(yard.timezone)
    # What was watered on the day itself was watered after it: people say it in that order.
    after_it = done.applied_at + timedelta(seconds=1)
    now = max(now, after_it)

    def end_of(day: date) -> datetime:
        return datetime.combine(day + timedelta(days=1), time(), tzinfo=here).astimezone(UTC)

    water = [
        Water(max(min(end_of(on), now), after_it), mm, "irrigation")
        for on, mm in _reported(work, yard, done)
    ]
    if known is not None:
        # Rain of the day itself may have fallen before the product was down.
        after = known.between(done.applied_on + timedelta(days=1), known.last_day)
        water += [
            Water(end_of(after.first_day + timedelta(days=i)), float(mm), "rain")
            for i, mm in enumerate(after.rain_mm)
            if not np.isnan(mm) and mm > 0
        ]
    return watering_state(done.applied_at, rules_of(work, yard), water, now)


def _reported(work: Work, yard: YardRecord, done: ApplicationRecord) -> list[tuple[date, float]]:
    """Return the water reported on the zone of an application that had least of it."""
    told = standing_of(work, yard).waterings
    every = [each for each in told if each.watered_on >= done.applied_on]
    on_each = [
        [
            (each.watered_on, each.depth_mm)
            for each in every
            if each.grounds is None or share.ground_id in each.grounds
        ]
        for share in done.shares
    ]
    return min(on_each, key=lambda came: sum(mm for _, mm in came), default=[])


def _heaviest(known: DailySeries | None, applied_on: date) -> tuple[float, date]:
    if known is None:
        return 0.0, applied_on
    after = known.between(applied_on, known.last_day)
    if not len(after) or np.isnan(after.rain_mm).all():
        return 0.0, applied_on
    worst = int(np.nanargmax(after.rain_mm))
    return float(after.rain_mm[worst]), after.first_day + timedelta(days=worst)


def _weeds_began_at(work: Work, yard: YardRecord) -> datetime | None:
    season = standing_of(work, yard).season(Target.SUMMER_ANNUALS)
    if season is None or season.outlook is None:
        return None
    event = Judged.from_json(season.outlook).p50
    if event is None:
        return None
    return datetime.combine(event, time(), tzinfo=zone(yard.timezone)).astimezone(UTC)
