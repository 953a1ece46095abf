"""The soil outlook: many possible courses of the daily mean soil temperature of one place.

A course (member) is the mean year, plus today's departure fading away, plus what happened *beyond*
that fading in a past year around the same date:

    T(t + h) = mean(t + h) + e(s + h) + B(h) · x(t),      e(s + h) = r(s + h) - B(h) · x(s)

with `r` the past departures, `x` what is known on a day (`climatology.running_state`), `B` the
fading (`members.persistence`), and `s` a day of a past year at about the same date. A weather
service's own soil forecast for the first days is then drawn in, by its skill
(`jobs.agronomy.blending`).

Nothing later than the issue date is ever used. Dates are northern ones (see `DailySeries.shifted`).
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final

import numpy as np
from numpy.typing import ArrayLike, NDArray

from jobs.agronomy import blending, regional
from jobs.agronomy.climatology import (
    AIR_DAYS,
    AIR_OF_SOIL,
    MEMORY_DAYS,
    SLOW_DAYS,
    Basis,
    Climate,
    leap_slots,
)
from jobs.agronomy.made_once import MakesOnce
from jobs.agronomy.members import (
    ENOUGH_YEARS,
    START_SHIFTS,
    centred,
    generic_noise,
    past_starts,
    persistence,
    spread_out,
)
from jobs.agronomy.series import DailySeries, FloatArray
from jobs.agronomy.soil import last_known

#: Days known before 1 January, so that its 5-day mean exists.
_LEAD_IN_DAYS: Final = 4


@dataclass(frozen=True, slots=True, eq=False)
class Outlook(MakesOnce):
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
    forecast_until
        Last day a weather service's forecast drew the members, or None without one.
    """

    issued: date
    basis: Basis
    years: int
    known_first_day: date
    known_c: FloatArray
    is_measured: NDArray[np.bool_]
    paths_c: FloatArray
    weights: FloatArray
    forecast_until: date | None = None

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
    fading = persistence(horizon, float(mean_c[count - 1]))
    starts = past_starts(climate, start, horizon)
    noise = climate.departure_c[starts[:, None] + np.arange(1, horizon + 1)]
    if has_state:
        noise -= climate.state_c[starts] @ fading.T
    has_few = len(starts) < ENOUGH_YEARS * len(START_SHIFTS)
    if has_few:
        noise = np.concatenate([noise, generic_noise(horizon, has_state=has_state)])
    paths_c = centred(noise, 0 if has_few else len(climate.years), has_state=has_state)
    paths_c += mean_c[count:] + offset_c
    if has_state:
        paths_c += fading @ _state_now(climate, recent, start, offset_c)
    if offset_sd_c > 0.0:
        paths_c += offset_sd_c * spread_out(len(paths_c))[:, None]
    forecast_until = None
    if forecast_soil5_c is not None:
        lag = (issued - start).days
        forecast_c = np.asarray(forecast_soil5_c, dtype=np.float64)[: max(0, horizon - lag)]
        paths_c = blending.drawn_to_forecast(paths_c, forecast_c, lag)
        reach = last_known(forecast_c)
        if reach is not None:
            forecast_until = issued + timedelta(days=reach + 1)
    return Outlook(
        issued=issued,
        basis=climate.basis,
        years=len(climate.years),
        known_first_day=known_first,
        known_c=known_c,
        is_measured=~np.isnan(measured_c),
        paths_c=paths_c,
        weights=np.full(len(paths_c), 1.0 / len(paths_c)),
        forecast_until=forecast_until,
    )


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
    if climate.air_mean_c is None:
        return np.array([soil_c[-1], slow, 0.0, AIR_OF_SOIL * slow])
    air_c = np.nan_to_num(window.tmean_c - climate.air_mean_c[slots])
    slow_air = float((air_c * kernel).sum() / kernel.sum())
    kernel = np.exp(-age / AIR_DAYS)
    air = float(air_c[-1] - (air_c * kernel).sum() / kernel.sum())
    return np.array([soil_c[-1], slow, air, slow_air])
