"""The soil outlook: many possible courses of the daily mean soil temperature of one place.

A course (member) is the mean year, plus today's departure fading away, plus what happened *beyond*
that fading in a past year around the same date:

    T(t + h) = mean(t + h) + e(s + h) + B(h) · x(t),      e(s + h) = r(s + h) - B(h) · x(s)

with `r` the past departures, `x` what is known on a day (`climatology.running_state`), `B` the
fading (`persistence`), and `s` a day of a past year at about the same date. A weather service's
own soil forecast for the first days is then drawn in, by its skill (`jobs.agronomy.blending`).

Nothing later than the issue date is ever used. Dates are northern ones (see `DailySeries.shifted`).
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from functools import lru_cache
from typing import Final

import numpy as np
from numpy.typing import ArrayLike, NDArray

from jobs.agronomy import blending, regional
from jobs.agronomy.climatology import (
    AIR_DAYS,
    MEMORY_DAYS,
    SLOW_DAYS,
    Basis,
    Climate,
    leap_slots,
)
from jobs.agronomy.series import DailySeries, FloatArray
from jobs.agronomy.soil import last_known

#: Days around the issue date from which past years' courses start.
START_SHIFTS: Final = (-12, -8, -4, 0, 4, 8, 12)

#: Members drawn from the generic noise where a place has too few years of its own.
_GENERIC_MEMBERS: Final = 60

#: Below this many years the generic members stand in for the missing ones.
_ENOUGH_YEARS: Final = 3

#: A past start serves if this share of what is asked of it was measured.
_REAL_SHARE: Final = 0.6

#: What the members share over this many days is the chance of a few years, and taken out [days].
_CENTRING_DAYS: Final = 15

#: Past years' departures from the fading carry the fading's own error twice (there and here), so
#: that the first days spread this much too wide; set on the share of truths inside p10-p90.
_NEAR_EXCESS: Final = 0.2
_NEAR_EXCESS_DAYS: Final = 10.0

#: A late word costs more than an early one, and seeds lie shallower, in warmer ground, than the
#: 5 cm that are measured: members lean this much to the warm side [°C]. Half a day in spring.
_LEAN_EARLY_C: Final = 0.15

#: Days known before 1 January, so that its 5-day mean exists.
_LEAD_IN_DAYS: Final = 4


@dataclass(frozen=True, slots=True, eq=False)
class Outlook:
    """Weighted courses of daily mean soil temperature at 5 cm, after what is known.

    Attributes
    ----------
    issued
        Last day that may be known.
    basis
        What the climate stands on (see `Climate.basis`); ``"regional"`` answers are wide.
    years
        Number of past years behind it.
    known_first_day
        Day of the first entry of `known_c`: 28 December before the year of issue, or earlier.
    known_c
        Soil up to the newest known day, gaps estimated, shape (k,) [°C].
    is_measured
        True where `known_c` was measured.
    paths_c
        Members from the day after `known_c` ends to the end of the season, shape (m, n) [°C].
    weights
        Of the members, summing to one, shape (m,).
    """

    issued: date
    basis: Basis
    years: int
    known_first_day: date
    known_c: FloatArray
    is_measured: NDArray[np.bool_]
    paths_c: FloatArray
    weights: FloatArray

    @property
    def first_day(self) -> date:
        """First day of the members: the day after `issued`, or earlier where data is stale."""
        return self.known_first_day + timedelta(days=len(self.known_c))

    @property
    def last_day(self) -> date:
        """Last day of the members: the end of the season."""
        return self.first_day + timedelta(days=self.paths_c.shape[1] - 1)

    @property
    def spring_year(self) -> int:
        """Year of the spring this outlook speaks of: from August on, the next one."""
        return self.issued.year + (self.issued.month >= 8)


def season_end(issued: date) -> date:
    """Return the 31 July an outlook reaches to: from July on the next, so that autumn is within."""
    return date(issued.year + (issued.month >= 7), 7, 31)


def make_outlook(
    climate: Climate,
    recent: DailySeries,
    issued: date,
    *,
    forecast_soil5_c: ArrayLike | None = None,
    until: date | None = None,
) -> Outlook:
    """Return the outlook of one place.

    Parameters
    ----------
    climate
        The place's usual year, fitted on earlier years.
    recent
        Days known of this year and, if held, before; later ones than ``issued`` are ignored, gaps
        are fine. Four months back from ``issued``, and everything from 1 January, are used.
    issued
        Last day whose mean is known.
    forecast_soil5_c
        A weather service's daily mean soil temperature at 5 cm for the days after ``issued``,
        from the first; NaN where missing.
    until
        Last day of the members; default `season_end`.

    Returns
    -------
    Outlook
    """
    until = max(until or season_end(issued), issued + timedelta(days=1))
    recent = recent.until(issued)
    newest = last_known(recent.soil5_c)
    if newest is None:
        start = issued
        has_state = False
    else:
        start = recent.first_day + timedelta(days=newest)
        has_state = True
    known_first = min(date(issued.year, 1, 1), start) - timedelta(days=_LEAD_IN_DAYS)
    measured_c = recent.on(known_first, start).soil5_c
    slots = leap_slots(known_first, (until - known_first).days + 1)
    mean_c = climate.mean_c[slots]
    count = len(measured_c)

    departure_c = measured_c - mean_c[:count]
    offset_c, offset_sd_c = _place_offset(climate, departure_c)
    departure_c = departure_c - offset_c
    known_c = mean_c[:count] + offset_c + _bridged(departure_c)

    horizon = len(mean_c) - count
    fading = persistence(horizon)
    starts = _past_starts(climate, start, horizon)
    noise = climate.departure_c[starts[:, None] + np.arange(1, horizon + 1)]
    if has_state:
        noise -= climate.state_c[starts] @ fading.T
    if len(climate.years) < _ENOUGH_YEARS:
        noise = np.concatenate([noise, generic_noise(horizon, has_state=has_state)])
    paths_c = _centred(noise, has_state=has_state)
    paths_c += mean_c[count:] + offset_c
    if has_state:
        paths_c += fading @ _state_now(climate, recent, start, offset_c)
    if offset_sd_c > 0.0:
        paths_c += offset_sd_c * _spread_out(len(paths_c))[:, None]
    if forecast_soil5_c is not None:
        lag = (issued - start).days
        paths_c = blending.drawn_to_forecast(paths_c, np.asarray(forecast_soil5_c), lag)
    return Outlook(
        issued=issued,
        basis=climate.basis,
        years=len(climate.years),
        known_first_day=known_first,
        known_c=known_c,
        is_measured=~np.isnan(measured_c),
        paths_c=paths_c,
        weights=np.full(len(paths_c), 1.0 / len(paths_c)),
    )


def make_outlooks(
    climates: Sequence[Climate],
    recents: Iterable[DailySeries],
    issued: date,
    *,
    forecasts_soil5_c: Sequence[ArrayLike | None] | None = None,
    until: date | None = None,
) -> list[Outlook]:
    """Return the outlooks of many places issued on one day, in their order."""
    forecasts = forecasts_soil5_c or [None] * len(climates)
    return [
        make_outlook(climate, recent, issued, forecast_soil5_c=forecast, until=until)
        for climate, recent, forecast in zip(climates, recents, forecasts, strict=True)
    ]


@lru_cache(maxsize=64)
def persistence(horizon: int) -> FloatArray:
    """Return how much of each part of `running_state` is left after 1 .. ``horizon`` days.

    Sums of exponentials drawn by eye through pooled regressions of the departure 1-45 days ahead on
    the three parts (28 stations of the U.S. Climate Reference Network, February to May of
    2015-2023, each year against a climate fitted on earlier ones). Scores of crossing dates change
    by less than 1 % when any amplitude or time scale is changed by a third. Shape (horizon, 3).
    Treat as read-only: it is shared.
    """
    h = np.arange(1, horizon + 1, dtype=np.float64)
    today = 0.6 * np.exp(-h / 4.0) + 0.3 * np.exp(-h / 30.0)
    weeks = 0.4 * -np.expm1(-h / 8.0) * np.exp(-h / 60.0)
    air = 0.25 * np.exp(-h / 3.0)
    out = np.stack([today, weeks, air], axis=1)
    out.setflags(write=False)
    return out


@lru_cache(maxsize=16)
def generic_noise(horizon: int, *, has_state: bool) -> FloatArray:
    """Return courses for a place without past years: what a soil does beyond fading, anywhere.

    Two red noises (time scales of 5 and 40 days), started from rest where today's departure is
    known, from their usual spread where not; seeded, so that the same question gets the same
    answer. Shape (members, horizon). Treat as read-only: it is shared.
    """
    rng = np.random.default_rng(20_260_301)
    out = np.zeros((_GENERIC_MEMBERS, horizon))
    for scale_days, sd_c in ((5.0, 1.8), (40.0, 1.4)):
        keep = float(np.exp(-1.0 / scale_days))
        level = np.zeros(_GENERIC_MEMBERS)
        if not has_state:
            level = sd_c * _spread_out(_GENERIC_MEMBERS)
            rng.shuffle(level)
        for day in range(horizon):
            push = rng.standard_normal(_GENERIC_MEMBERS)
            push -= push.mean()
            level = keep * level + sd_c * np.sqrt(1 - keep**2) * push
            out[:, day] += level
    out.setflags(write=False)
    return out


def _place_offset(climate: Climate, departure_c: FloatArray) -> tuple[float, float]:
    """Return how far this year's days say the mean year is off, and how sure that is [°C]."""
    if climate.curve_sd_c <= 0.0:
        return 0.0, 0.0
    newest = departure_c[-MEMORY_DAYS:]
    newest = newest[~np.isnan(newest)]
    prior = climate.curve_sd_c**2
    if not len(newest):
        return 0.0, climate.curve_sd_c
    facts = max(1.0, len(newest) / regional.DAYS_PER_FACT)
    noise = regional.YEAR_TO_YEAR_SD_C**2 / facts
    return (
        float(newest.mean() * prior / (prior + noise)),
        float(np.sqrt(prior * noise / (prior + noise))),
    )


def _bridged(departure_c: FloatArray) -> FloatArray:
    """Bridge every gap by a straight line; before the first known day the departure fades out."""
    known = np.flatnonzero(~np.isnan(departure_c))
    if not len(known):
        return np.zeros(len(departure_c))
    index = np.arange(len(departure_c))
    out = np.interp(index, known, departure_c[known])
    early = index < known[0]
    out[early] *= np.exp((index[early] - known[0]) / SLOW_DAYS)
    return np.asarray(out)


def _state_now(climate: Climate, recent: DailySeries, start: date, offset_c: float) -> FloatArray:
    """Return the running state on the newest known day, as `running_state` has it."""
    since = start - timedelta(days=MEMORY_DAYS - 1)
    window = recent.on(since, start)
    slots = leap_slots(since, MEMORY_DAYS)
    age = np.arange(MEMORY_DAYS)[::-1]
    soil_c = window.soil5_c - climate.mean_c[slots] - offset_c
    known = np.flatnonzero(~np.isnan(soil_c))
    soil_c[known[0] :] = np.interp(np.arange(known[0], MEMORY_DAYS), known, soil_c[known])
    kernel = np.exp(-age / SLOW_DAYS)
    slow = float((np.nan_to_num(soil_c) * kernel).sum() / kernel.sum())
    air = 0.0
    if climate.air_mean_c is not None:
        kernel = np.exp(-age / AIR_DAYS)
        air_c = np.nan_to_num(window.tmean_c - climate.air_mean_c[slots])
        air = float(air_c[-1] - (air_c * kernel).sum() / kernel.sum())
    return np.array([soil_c[-1], slow, air])


def _past_starts(climate: Climate, start: date, horizon: int) -> NDArray[np.int64]:
    """Return the entries of the climate's series from which past years' courses start."""
    total = len(climate.departure_c)
    usable = np.concatenate([[0], np.cumsum(climate.is_real)])
    asked = min(horizon, 120)
    found = []
    first_year, last_year = climate.first_day.year, start.year - 1
    for year in range(first_year, last_year + 1):
        same_day = date(year, start.month, min(start.day, 28) if start.month == 2 else start.day)
        at = (same_day - climate.first_day).days
        for shift in START_SHIFTS:
            s = at + shift
            if s < 0 or s >= climate.known_days or s + horizon >= total:
                continue
            if usable[s + asked + 1] - usable[s] >= _REAL_SHARE * (asked + 1):
                found.append(s)
    return np.array(found, dtype=np.int64)


def _centred(noise: FloatArray, *, has_state: bool) -> FloatArray:
    """Take out what the members share by chance, and set spread and lean (see the constants)."""
    horizon = noise.shape[1]
    shared = noise.mean(axis=0)
    half = min(_CENTRING_DAYS, horizon) // 2
    padded = np.concatenate([np.full(half + 1, shared[0]), shared, np.full(half, shared[-1])])
    total = padded.cumsum()
    shared = (total[2 * half + 1 :] - total[:horizon]) / (2 * half + 1)
    noise = noise - shared
    if has_state:
        h = np.arange(1, horizon + 1)
        noise *= 1.0 - _NEAR_EXCESS * np.exp(-h / _NEAR_EXCESS_DAYS)
        noise += _LEAN_EARLY_C * -np.expm1(-h / 4.0)
    return noise


def _spread_out(count: int) -> FloatArray:
    """Return evenly likely points of the standard normal, shuffled the same way every time."""
    rank = (np.arange(count) + 0.5) / count
    # Tukey's lambda: a closed form of the normal quantile, within 0.01 inside the 1st-99th.
    points = (rank**0.135 - (1 - rank) ** 0.135) / 0.1975
    np.random.default_rng(20_260_302).shuffle(points)
    return np.asarray(points)
