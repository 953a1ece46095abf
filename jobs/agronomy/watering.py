"""Watering in: what is still missing, how to give it, and what went wrong when rain was unkind.

Depths in mm of water over the treated ground. Half an inch within seven days activates the barrier
unless the label says otherwise (Univ. of Arkansas).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from math import ceil, isinf
from typing import Final, Literal

import numpy as np

from jobs.agronomy.day_rules import DayRules

Soil = Literal["sand", "sandy_loam", "loam", "clay_loam", "clay"]
WaterKind = Literal["rain", "irrigation"]

#: Water a soil takes in steadily [mm/h]: low ends of the ranges for sandy loam to clay, and the
#: figure for sand, in Brouwer et al. 1988, FAO Irrigation Water Management Training Manual 5 (from
#: memory).
INTAKE_MM_H: Final[dict[Soil, float]] = {
    "sand": 30.0,
    "sandy_loam": 20.0,
    "loam": 10.0,
    "clay_loam": 5.0,
    "clay": 1.0,
}
#: Water that may stand among the grass before it runs [mm], level and on a slope. Common practice,
#: no source.
_STANDING_MM: Final = 5.0
_STANDING_ON_SLOPE_MM: Final = 2.5
#: Soak between cycles [min]: long enough to be worth it, short enough for a day. Common practice.
_LEAST_SOAK_MIN: Final = 30
_MOST_SOAK_MIN: Final = 120
#: Amounts closer than this are the same [mm]: a hundredth of an inch.
_SAME_MM: Final = 0.254


@dataclass(frozen=True, slots=True)
class Water:
    """Water that fell.

    Attributes
    ----------
    at
        When it ended, aware.
    mm
        Depth [mm].
    kind
        Rain or irrigation.
    """

    at: datetime
    mm: float
    kind: WaterKind


@dataclass(frozen=True, slots=True)
class WateringState:
    """Where an application stands.

    Attributes
    ----------
    wanted_mm, rain_mm, irrigated_mm, missing_mm
        Depth wanted, what came of either kind since the application, and what is missing.
    by
        When it should be in.
    done_at
        When the depth was reached, or None.
    is_overdue
        Whether the time has passed without it.
    """

    wanted_mm: float
    rain_mm: float
    irrigated_mm: float
    missing_mm: float
    by: datetime
    done_at: datetime | None
    is_overdue: bool

    @property
    def is_watered_in(self) -> bool:
        """Whether the depth has been reached."""
        return self.done_at is not None


def watering_state(
    applied_at: datetime, rules: DayRules, water: Sequence[Water], now: datetime
) -> WateringState:
    """Return what has come since an application, and what is missing by when.

    Water that ended at or before the application, or after ``now``, does not count.
    """
    wanted = rules.water_in_mm
    counted = sorted((w for w in water if applied_at < w.at <= now), key=lambda w: w.at)
    total = 0.0
    done_at = None
    for fall in counted:
        total += fall.mm
        if done_at is None and total >= wanted - _SAME_MM:
            done_at = fall.at
    by = applied_at + timedelta(hours=rules.water_in_hours)
    return WateringState(
        wanted_mm=wanted,
        rain_mm=sum(w.mm for w in counted if w.kind == "rain"),
        irrigated_mm=sum(w.mm for w in counted if w.kind == "irrigation"),
        missing_mm=0.0 if done_at is not None else wanted - total,
        by=by,
        done_at=done_at,
        is_overdue=done_at is None and now > by,
    )


@dataclass(frozen=True, slots=True)
class Catch:
    """A tuna-can test: how fast a sprinkler waters, and how evenly.

    ``evenness`` is the mean of the driest quarter of cans over the mean of all (distribution
    uniformity of the low quarter, the usual measure of irrigation audits); 1 is even.
    """

    rate_mm_h: float
    evenness: float


def catch_test(depths_mm: Sequence[float], minutes: float) -> Catch:
    """Return the sprinkler's rate from the depths in straight-sided cans after some minutes.

    Raises
    ------
    ValueError
        If there is no can, no water in any, a negative depth, or no time.
    """
    if not depths_mm or minutes <= 0 or min(depths_mm) < 0 or sum(depths_mm) <= 0:
        raise ValueError("a catch test needs cans with water and minutes")
    mean = float(np.mean(depths_mm))
    driest = sorted(depths_mm)[: max(1, len(depths_mm) // 4)]
    return Catch(rate_mm_h=mean * 60 / minutes, evenness=float(np.mean(driest)) / mean)


def sprinkler_minutes(depth_mm: float, rate_mm_h: float) -> float:
    """Return how long a sprinkler runs for a depth [min].

    Raises
    ------
    ValueError
        If the rate is not above zero.
    """
    if rate_mm_h <= 0:
        raise ValueError("a sprinkler's rate is above zero")
    return 60 * depth_mm / rate_mm_h


@dataclass(frozen=True, slots=True)
class Cycles:
    """How to run a sprinkler: so many times so many minutes, with a soak between."""

    count: int
    minutes_each: float
    soak_minutes: int


def cycles(depth_mm: float, rate_mm_h: float, soil: Soil, *, is_slope: bool = False) -> Cycles:
    """Split watering so that nothing runs off.

    A sprinkler faster than the soil's intake leaves water standing; a cycle ends before more stands
    than the turf holds, and the soak lets that go in.

    Parameters
    ----------
    depth_mm
        Water wanted [mm].
    rate_mm_h
        Rate of the sprinkler [mm/h], above zero.
    soil, is_slope
        The ground.
    """
    minutes = sprinkler_minutes(depth_mm, rate_mm_h)
    intake = INTAKE_MM_H[soil]
    standing = _STANDING_ON_SLOPE_MM if is_slope else _STANDING_MM
    longest = 60 * standing / (rate_mm_h - intake) if rate_mm_h > intake else float("inf")
    count = 1 if isinf(longest) else max(1, ceil(minutes / longest - 1e-9))
    if count == 1:
        return Cycles(1, minutes, 0)
    left_standing = (rate_mm_h - intake) * minutes / count / 60
    soak = min(max(60 * left_standing / intake, _LEAST_SOAK_MIN), _MOST_SOAK_MIN)
    return Cycles(count, minutes / count, round(soak))


@dataclass(frozen=True, slots=True)
class Washout:
    """Heavy rain ahead: the most in any 24 hours, and when those begin."""

    is_likely: bool
    rain_mm: float
    limit_mm: float
    from_: datetime


def washout_ahead(rain_mm: Sequence[float], first_hour: datetime, rules: DayRules) -> Washout:
    """Judge whether forecast rain is likely to carry fresh product off.

    Parameters
    ----------
    rain_mm
        Forecast rain by the hour from ``first_hour`` on [mm]; NaN counts as none. Only the hours in
        which heavy rain matters (`DayRules.heavy_rain_hours`) are looked at.
    first_hour
        Aware.
    rules
        Limits of the product on this ground.
    """
    hours = np.nan_to_num(np.asarray(rain_mm[: rules.heavy_rain_hours], dtype=float))
    if not len(hours):
        return Washout(False, 0.0, rules.heavy_rain_mm, first_hour)
    sums = np.convolve(hours, np.ones(24))[23:] if len(hours) > 24 else np.array([hours.sum()])
    sums = sums[: max(1, len(hours) - 23)]
    worst = int(np.argmax(sums))
    most = float(sums[worst])
    return Washout(
        is_likely=most > rules.heavy_rain_mm,
        rain_mm=most,
        limit_mm=rules.heavy_rain_mm,
        from_=first_hour + timedelta(hours=worst),
    )


Aftermath = Literal["keep", "keep_watered_in", "look_for_washed_spots"]


@dataclass(frozen=True, slots=True)
class AfterRain:
    """Answer to "it poured, do I redo it?": never a second full dose by itself.

    ``keep``: not enough fell to carry product off. ``keep_watered_in``: it was bound to the soil
    before the rain; the ingredients bind strongly (in Baird et al. 2000, ACS Symp. Ser. 743, 51-64
    mm/h on a 6 % slope moved under 1 % of a strongly bound active). ``look_for_washed_spots``:
    granules may have moved with the water: look downhill and along paving; a dose again only where
    it is bare of product, within the label's yearly maximum.
    """

    answer: Aftermath
    rain_mm: float
    limit_mm: float
    was_watered_in: bool


def after_heavy_rain(
    state: WateringState, rain_mm: float, fell_from: datetime, rules: DayRules
) -> AfterRain:
    """Judge heavy rain after an application.

    Parameters
    ----------
    state
        The application's watering as known now.
    rain_mm, fell_from
        How much fell within 24 hours [mm], and when it began.
    rules
        Limits of the product on this ground.
    """
    was_in = state.done_at is not None and state.done_at <= fell_from
    answer: Aftermath = "look_for_washed_spots"
    if rain_mm <= rules.heavy_rain_mm:
        answer = "keep"
    elif was_in:
        answer = "keep_watered_in"
    return AfterRain(answer, rain_mm, rules.heavy_rain_mm, was_in)


DryAnswer = Literal["in_time", "water_now", "partly_late", "watered_in"]


@dataclass(frozen=True, slots=True)
class DrySpell:
    """Answer to "three dry weeks, is it wasted?".

    ``watered_in``: it is in. ``in_time``: still within its time, nothing lost. ``water_now``: past
    its time, weeds have not begun: water now. ``partly_late``: weeds began while it lay dry; what
    is up is not stopped, water now for what is to come.

    ``share_left`` is what a half-life leaves of the dose, None where the half-life is unknown; on a
    dry surface some ingredients go faster by light and vapour.
    """

    answer: DryAnswer
    days_dry: float
    missing_mm: float
    share_left: float | None


def dry_spell(
    state: WateringState,
    applied_at: datetime,
    now: datetime,
    weeds_began_at: datetime | None = None,
    half_life_days: float | None = None,
) -> DrySpell:
    """Judge an application that has lain dry.

    Parameters
    ----------
    state
        Its watering as known now.
    applied_at, now
        Aware.
    weeds_began_at
        First emergence, modelled or seen, or None while it has not come.
    half_life_days
        Of the ingredient, or None.
    """
    days = (now - applied_at) / timedelta(days=1)
    answer: DryAnswer = "water_now"
    if state.is_watered_in:
        answer = "watered_in"
    elif weeds_began_at is not None and weeds_began_at <= now:
        answer = "partly_late"
    elif not state.is_overdue:
        answer = "in_time"
    share = None if half_life_days is None else float(0.5 ** (days / half_life_days))
    return DrySpell(answer, days, state.missing_mm, share)
