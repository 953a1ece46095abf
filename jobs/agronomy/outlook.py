"""The soil outlook: many possible courses of the daily mean soil temperature of one place.

A course (member) is the mean year, plus today's departure fading away, plus what happened *beyond*
that fading in a past year around the same date:

    T(t + h) = mean(t + h) + e(s + h) + B(h) · x(t),      e(s + h) = r(s + h) - B(h) · x(s)

with `r` the past departures, `x` what is known on a day (`running_state.running_state`), `B` the
fading (`members.persistence`), and `s` a day of a past year at about the same date. A weather
service's own soil forecast for the first days is then drawn in, by its skill
(`jobs.agronomy.blending`).

Nothing later than the issue date is ever used. Dates are northern ones (see `DailySeries.shifted`).
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final, TypeVar

import numpy as np
from numpy.lib.stride_tricks import sliding_window_view
from numpy.typing import ArrayLike, NDArray

from jobs.agronomy import blending, regional
from jobs.agronomy.climatology import Basis, Climate, SingleArray, leap_slots
from jobs.agronomy.made_once import MakesOnce
from jobs.agronomy.members import (
    ENOUGH_YEARS,
    START_SHIFTS,
    generic_noise,
    past_starts,
    persistence,
    shared_by_chance,
    spread_of,
    spread_out,
)
from jobs.agronomy.running_state import MEMORY_DAYS, SLOW_DAYS, running_state, states_on
from jobs.agronomy.series import DailySeries, FloatArray, Together
from jobs.agronomy.soil import last_known

#: Days known before 1 January, so that its 5-day mean exists.
_LEAD_IN_DAYS: Final = 4


@dataclass(frozen=True, slots=True, eq=False)
class Outlook(MakesOnce):
    """Equally likely courses of daily mean soil temperature at 5 cm, after what is known.

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
    forecast_until
        Last day a weather service's forecast drew the members, or None without one.
    """

    issued: date
    basis: Basis
    years: int
    known_first_day: date
    known_c: FloatArray
    is_measured: NDArray[np.bool_]
    paths_c: SingleArray
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


#: So many places are reckoned at once: their members stay near the processor.
_AT_ONCE: Final = 50

One = TypeVar("One")


def batches(each: Iterable[One], most: int = _AT_ONCE) -> Iterator[list[One]]:
    """Cut places that are alike into batches."""
    every = list(each)
    return (every[start : start + most] for start in range(0, len(every), most))


def make_outlook(
    climate: Climate,
    recent: DailySeries,
    issued: date,
    *,
    forecast_soil5_c: ArrayLike | None = None,
    until: date | None = None,
) -> Outlook:
    """Return the outlook of one place: a batch of one, as `make_outlooks`."""
    forecast_c = None
    if forecast_soil5_c is not None:
        forecast_c = np.asarray(forecast_soil5_c, dtype=np.float64)
    return make_outlooks([climate], Together.of([recent]), issued, [forecast_c], until=until)[0]


def make_outlooks(
    climates: Sequence[Climate],
    recent: Together,
    issued: date,
    forecasts_soil5_c: Sequence[FloatArray | None],
    *,
    until: date | None = None,
) -> list[Outlook]:
    """Return the outlooks of places, each as it would be made alone.

    Parameters
    ----------
    climates
        Each place's usual year, fitted on earlier years.
    recent
        Days known of this year and, if held, before; later ones than ``issued`` are ignored, gaps
        are fine. Four months back from ``issued``, and everything from 1 January, are used.
    issued
        Last day whose mean is known.
    forecasts_soil5_c
        A weather service's daily mean soil temperature at 5 cm for the days after ``issued``,
        from the first; NaN where missing, None for no forecast.
    until
        Last day of the members; default `season_end`.
    """
    until = max(until or season_end(issued), issued + timedelta(days=1))
    # Those of one batch have the same newest day, past starts, and days forecast.
    alike: dict[tuple[object, ...], list[int]] = {}
    past: dict[tuple[object, ...], NDArray[np.int64]] = {}
    soil_c = recent.on(recent.first_day, max(recent.first_day, issued)).soil5_c
    newest = _last_known(soil_c)
    for place, (climate, forecast_c) in enumerate(zip(climates, forecasts_soil5_c, strict=True)):
        start = issued if newest[place] < 0 else recent.first_day + timedelta(int(newest[place]))
        key = climate.first_day, climate.known_days, id(climate.real_before), start
        if key not in past:
            past[key] = past_starts(climate, start, (until - start).days)
        alike.setdefault(
            (
                start,
                newest[place] < 0,
                climate.first_day,
                past[key].tobytes(),
                len(climate.years),
                climate.air_mean_c is None,
                None if forecast_c is None else np.isnan(forecast_c).tobytes(),
            ),
            [],
        ).append(place)
    found: dict[int, Outlook] = {}
    for places in alike.values():
        for part in batches(places):
            last = newest[part[0]]
            start = issued if last < 0 else recent.first_day + timedelta(days=int(last))
            made = _made(
                [climates[place] for place in part],
                Together(recent.first_day, recent.soil5_c[part], recent.tmean_c[part]),
                start,
                issued,
                until,
                [forecasts_soil5_c[place] for place in part],
                has_state=bool(last >= 0),
            )
            found.update(zip(part, made, strict=True))
    return [found[place] for place in range(len(climates))]


def _last_known(soil_c: FloatArray) -> NDArray[np.int64]:
    """Return the index of each place's newest known day, or -1."""
    known = ~np.isnan(soil_c)
    days = known.shape[1]
    if not days:
        return np.full(len(soil_c), -1)
    back = known[:, ::-1].argmax(axis=1)
    return np.where(known.any(axis=1), days - 1 - back, -1)


def _made(
    climates: Sequence[Climate],
    recent: Together,
    start: date,
    issued: date,
    until: date,
    forecasts_c: Sequence[FloatArray | None],
    *,
    has_state: bool,
) -> Iterator[Outlook]:
    """Make the outlooks of places that are alike; members have the shape (places, m, n)."""
    known_first = min(date(issued.year, 1, 1), start) - timedelta(days=_LEAD_IN_DAYS)
    measured_c = recent.on(known_first, start).soil5_c
    slots = leap_slots(known_first, (until - known_first).days + 1)
    mean_c = np.stack([climate.mean_c for climate in climates])[:, slots]
    count = measured_c.shape[1]

    departure_c = measured_c - mean_c[:, :count]
    offsets = np.array([_place_offset(*each) for each in zip(climates, departure_c, strict=True)])
    offset_c, offset_sd_c = offsets[:, :1], offsets[:, 1:]
    departure_c -= offset_c
    for at in np.flatnonzero(np.isnan(departure_c).any(axis=1)):
        departure_c[at] = _bridged(departure_c[at])
    known_c = mean_c[:, :count] + offset_c + departure_c

    horizon, years = mean_c.shape[1] - count, len(climates[0].years)
    starts = past_starts(climates[0], start, horizon)
    ahead = np.stack([climate.departure_c for climate in climates])
    paths_c = sliding_window_view(ahead, horizon, axis=1)[:, starts + 1]
    shift_c = mean_c[:, count:] + offset_c
    has_few = len(starts) < ENOUGH_YEARS * len(START_SHIFTS)
    if has_state:
        fading = np.stack([persistence(horizon, float(c)) for c in mean_c[:, count - 1]])
        states = states_on(climates, starts)
        paths_c -= states @ fading.astype(np.float32).transpose(0, 2, 1)
        now = _states_now(climates, recent, start, offset_c)
        shift_c += (fading @ now[..., None])[..., 0]
    if has_few:
        generic = generic_noise(horizon, has_state=has_state).astype(np.float32)
        generic = np.broadcast_to(generic, (len(climates), *generic.shape))
        paths_c = np.concatenate([paths_c, generic], axis=1)
    spread = spread_of(horizon, 0 if has_few else years, has_state=has_state).astype(np.float32)
    shared = shared_by_chance(paths_c.mean(axis=1)) * spread
    paths_c *= spread
    paths_c += (shift_c - shared)[:, None].astype(np.float32)
    if offset_sd_c.any():
        paths_c += (offset_sd_c * spread_out(paths_c.shape[1])).astype(np.float32)[..., None]
    forecast_until = None
    if forecasts_c[0] is not None:
        lag = (issued - start).days
        given_c = np.stack([each for each in forecasts_c if each is not None])
        given_c = given_c[:, : max(0, horizon - lag)]
        paths_c = blending.drawn_to_forecast(paths_c, given_c, lag)
        given_days = last_known(given_c[0])
        if given_days is not None:
            forecast_until = issued + timedelta(days=given_days + 1)
    for place, climate in enumerate(climates):
        yield Outlook(
            issued=issued,
            basis=climate.basis,
            years=years,
            known_first_day=known_first,
            known_c=known_c[place],
            is_measured=~np.isnan(measured_c[place]),
            paths_c=paths_c[place],
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


def _states_now(
    climates: Sequence[Climate], recent: Together, start: date, offset_c: FloatArray
) -> SingleArray:
    """Return the running state of each place on the newest known day, as `running_state` has it."""
    since = start - timedelta(days=MEMORY_DAYS - 1)
    window = recent.on(since, start)
    slots = leap_slots(since, MEMORY_DAYS)
    soil_c = window.soil5_c - np.stack([each.mean_c for each in climates])[:, slots] - offset_c
    for place in np.flatnonzero(np.isnan(soil_c).any(axis=1)):
        row = soil_c[place]
        known = np.flatnonzero(~np.isnan(row))
        row[known[0] :] = np.interp(np.arange(known[0], MEMORY_DAYS), known, row[known])
        row[: known[0]] = 0.0
    if climates[0].air_mean_c is None:
        return running_state(soil_c, None)
    mean_c = np.stack([each.air_mean_c for each in climates if each.air_mean_c is not None])
    air_c = np.nan_to_num(window.tmean_c - mean_c[:, slots])
    return running_state(soil_c, air_c.astype(np.float32))
