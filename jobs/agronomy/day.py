"""Which of the next days suits, judged hour by hour from the forecast.

Every verdict carries its facts: the best hours, the one reason against a day with its number and
its limit, and whether that limit is the label's. Forecasts are forecasts: nothing here is certain.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from datetime import date, datetime, timedelta
from typing import Final

import numpy as np
from numpy.typing import NDArray

from jobs.agronomy.day_hours import HourKey, Hours, Sight, Yard, window_sum
from jobs.agronomy.day_rules import DayRules
from jobs.agronomy.day_verdicts import DayVerdict, LossKey, Reason, ReasonKey, Week
from jobs.agronomy.series import FloatArray

DAYS: Final = 7
#: Days put off count this much of a full penalty each. A setting.
_LATER: Final = 0.1
#: Having to irrigate counts like waiting so many days for rain. A setting.
_IRRIGATION_AS_DAYS: Final = 3.0

#: Reasons one may overlook when nothing better comes before weeds germinate, mildest first. Wind,
#: calm, runoff, frozen or saturated ground and the label are never among them.
_BEARABLE: Final[tuple[ReasonKey, ...]] = (
    "not_your_hours",
    "not_your_day",
    "cold",
    "dry_leaves",
    "rain",
    "wet_leaves",
    "too_late",
    "no_water",
    "hot",
)
#: The limit of the rules each reason stands on, where it stands on one.
_LIMIT: Final[Mapping[str, str]] = {
    "rain": "dry_hours_after",
    "wet_leaves": "leaves",
    "dry_leaves": "leaves",
    "cold": "air_low_c",
    "hot": "air_high_c",
    "calm": "wind_low_m_s",
    "windy": "wind_high_m_s",
    "no_water": "water_in_mm",
    "saturated": "saturated_mm",
    "frozen": "frozen_soil_c",
    "heavy_rain": "heavy_rain_mm",
}


def choose_day(
    hours: Hours,
    yard: Yard,
    rules: DayRules,
    now: datetime,
    soil_c: FloatArray | None = None,
    act_by: date | None = None,
) -> Week:
    """Judge today and the six days after it.

    Parameters
    ----------
    hours
        The forecast; with the two days before ``now`` in front, saturated ground is seen too.
    yard, rules
        The lawn, and the limits of the product in hand.
    now
        Aware. Hours that have begun are over.
    soil_c
        Mean soil temperature of the seven days [°C]; None if unknown.
    act_by
        Last day that is early enough, or None.
    """
    sight = Sight(hours, yard, rules, now)
    today = now.astimezone(yard.zone).date()
    judged = [
        _judge(sight, today + timedelta(days=i), i, None if soil_c is None else soil_c[i], act_by)
        for i in range(DAYS)
    ]
    suitable = sorted((v for v in judged if v.is_suitable), key=lambda v: (v.penalty, v.day))
    best = suitable[0] if suitable else None
    days = tuple(_against_best(v, best, rules) for v in judged)
    by_day = {v.day: v for v in days}
    return Week(
        days=days,
        best=best,
        second=by_day[suitable[1].day] if len(suitable) > 1 else None,
        least_bad=None if suitable else _least_bad(days),
        act_by=act_by,
    )


def _judge(
    sight: Sight, day: date, index: int, soil_c: float | None, act_by: date | None
) -> DayVerdict:
    rules = sight.rules
    at = np.flatnonzero((sight.days == day.toordinal()) & sight.is_ahead)
    start, hour_reason = _hours_of(sight, at)
    first = int(at[0]) if len(at) else sight.count
    done = first if start is None else start + rules.hours_needed
    heavy = _heaviest_day(sight.rain[done : done + rules.heavy_rain_hours])
    waters_in = _watered_at(sight, done)
    can_water = _can_water(sight.yard, day, rules.water_in_hours)
    is_early = act_by is None or day <= act_by
    past = float(sight.rain[max(0, first - 48) : first].sum())

    reason: Reason | None = None
    if heavy > rules.heavy_rain_mm:
        reason = _reason("heavy_rain", heavy, rules.heavy_rain_mm, rules)
    elif soil_c is not None and soil_c <= rules.frozen_soil_c:
        reason = _reason("frozen", soil_c, rules.frozen_soil_c, rules)
    elif past > rules.saturated_mm:
        reason = _reason("saturated", past, rules.saturated_mm, rules)
    elif sight.yard.free_hours is not None and day.weekday() not in sight.yard.free_hours:
        reason = Reason("not_your_day", float("nan"), float("nan"))
    elif hour_reason is not None:
        reason = hour_reason
    elif not is_early and act_by is not None:
        reason = Reason("too_late", float((day - act_by).days), 0.0)
    elif waters_in is None and not can_water:
        got = float(sight.rain[done : done + rules.water_in_hours].sum())
        reason = _reason("no_water", got, rules.water_in_mm, rules)

    hours = slice(done - rules.hours_needed, done)
    wind = float(np.nanmean(sight.wind[hours])) if start is not None else float("nan")
    local = sight.yard.zone
    verdict = DayVerdict(
        day=day,
        is_suitable=reason is None,
        start=None if start is None else sight.starts[start].astimezone(local),
        end=None
        if start is None
        else (sight.starts[start] + timedelta(hours=rules.hours_needed)).astimezone(local),
        against=reason,
        wind_m_s=wind,
        rain_after_mm=heavy,
        rain_waters_in_at=None if waters_in is None else waters_in.astimezone(local),
        needs_irrigation=waters_in is None,
        penalty=0.0,
    )
    penalty = _rain_risk(heavy, rules) + _wait_days(verdict) / 7 + _LATER * index
    return replace(verdict, penalty=penalty if start is None else penalty + sight.wind_loss(start))


def _hours_of(sight: Sight, at: NDArray[np.int64]) -> tuple[int | None, Reason | None]:
    """Best run of a day's hours; or the run one single thing stands against, and that thing."""
    if not len(at):
        return None, Reason("no_forecast", float("nan"), float("nan"))
    start = sight.best_run(at, None)
    if start is not None:
        return start, None
    mildest_first = (*(k for k in _BEARABLE if k in sight.stops), "calm", "windy")
    for key in mildest_first:
        if key in sight.stops:
            start = sight.best_run(at, key)
            if start is not None:
                run = np.arange(start, start + sight.rules.hours_needed)
                return start, _hour_reason(sight, key, run)
    light = at[~sight.stops["dark"][at]]
    if not len(light):
        return None, Reason("dark", float("nan"), float("nan"))
    worst = max(
        (key for key in sight.stops if key != "dark"), key=lambda key: sight.stops[key][light].sum()
    )
    return None, _hour_reason(sight, worst, light)


def _hour_reason(sight: Sight, key: HourKey, at: NDArray[np.int64]) -> Reason:
    rules = sight.rules
    nan = float("nan")
    match key:
        case "windy":
            value, limit = float(np.nanmax(sight.wind[at])), rules.wind_high_m_s
        case "calm":
            value, limit = float(np.nanmin(sight.wind[at])), rules.wind_low_m_s
        case "cold":
            value, limit = float(np.nanmin(sight.air[at])), rules.air_low_c
        case "hot":
            value, limit = float(np.nanmax(sight.air[at])), rules.air_high_c
        case "rain":
            value, limit = float((sight.rain + sight.after)[at].max()), 0.0
        case "wet_leaves":
            value, limit = float(np.nan_to_num(sight.humidity[at]).max()), rules.wet_humidity_pct
        case "dry_leaves":
            value, limit = float(np.nan_to_num(sight.humidity[at]).min()), rules.wet_humidity_pct
        case _:
            value, limit = nan, nan
    return _reason(key, value, limit, rules)


def _reason(key: ReasonKey, value: float, limit: float, rules: DayRules) -> Reason:
    return Reason(key, value, limit, _LIMIT.get(key) in rules.from_label)


def _heaviest_day(rain_mm: FloatArray) -> float:
    """Most rain in any 24 hours."""
    return float((rain_mm + window_sum(rain_mm, 23)).max()) if len(rain_mm) else 0.0


def _watered_at(sight: Sight, done: int) -> datetime | None:
    """When rain after the work reaches the depth that waters in, or None within its time."""
    sums = np.cumsum(sight.rain[done : done + sight.rules.water_in_hours])
    there = np.flatnonzero(sums >= sight.rules.water_in_mm)
    return sight.starts[done + int(there[0])] + timedelta(hours=1) if len(there) else None


def _can_water(yard: Yard, day: date, within_hours: int) -> bool:
    if not yard.can_irrigate or yard.is_watering_banned:
        return False
    if yard.watering_weekdays is None:
        return True
    days = range(within_hours // 24 + 1)
    return any((day + timedelta(days=i)).weekday() in yard.watering_weekdays for i in days)


def _against_best(verdict: DayVerdict, best: DayVerdict | None, rules: DayRules) -> DayVerdict:
    """Give a suitable day that is not the best its largest loss against the best."""
    if best is None or not verdict.is_suitable or verdict is best:
        return verdict
    later = (verdict.day - best.day).days
    span = max(rules.wind_high_m_s - rules.wind_low_m_s, 0.1)
    losses: dict[LossKey, tuple[float, float, float]] = {
        "windier": ((verdict.wind_m_s - best.wind_m_s) / span, verdict.wind_m_s, best.wind_m_s),
        "more_rain_risk": (
            _rain_risk(verdict.rain_after_mm, rules) - _rain_risk(best.rain_after_mm, rules),
            verdict.rain_after_mm,
            best.rain_after_mm,
        ),
        "watered_in_later": (
            (_wait_days(verdict) - _wait_days(best)) / 7,
            _wait_days(verdict),
            _wait_days(best),
        ),
        "later": (_LATER * later, float(later), 0.0),
    }
    key = max(losses, key=lambda name: losses[name][0])
    return replace(verdict, against=Reason(key, losses[key][1], losses[key][2]))


def _rain_risk(rain_mm: float, rules: DayRules) -> float:
    """0 up to the depth that waters in, 1 at the depth that washes off."""
    room = rules.heavy_rain_mm - rules.water_in_mm
    return float(np.clip((rain_mm - rules.water_in_mm) / room, 0, 1)) if room > 0 else 0.0


def _wait_days(verdict: DayVerdict) -> float:
    """Days until rain waters it in; where it must be irrigated, what that counts for."""
    if verdict.rain_waters_in_at is None or verdict.end is None:
        return _IRRIGATION_AS_DAYS
    return (verdict.rain_waters_in_at - verdict.end) / timedelta(days=1)


def _least_bad(days: tuple[DayVerdict, ...]) -> DayVerdict | None:
    """The day with the mildest reason against it that may be overlooked at all."""
    bearable = [
        (_BEARABLE.index(v.against.key), v.penalty, v.day, v)
        for v in days
        if v.against is not None
        and v.start is not None
        and v.against.key in _BEARABLE
        and not v.against.is_label
    ]
    return min(bearable)[3] if bearable else None
