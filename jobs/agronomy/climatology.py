"""What the soil of one place usually does: a smooth year, and the past years' departures from it.

Fitted once per cell from all earlier days and reused every day (`fit_climate`, `Climate`).

The mean year is a sum of harmonics fitted to every known day at once, so that missing days and
part years do no harm. Departures (residuals) are kept as one unbroken series; a long gap borrows
the departures of the same days in the nearest other year, so that each past year can serve as one
possible future.

Where a place has less than `OWN_YEARS` years, the harmonics lean on a curve from latitude and
elevation, and are wide: see `jobs.agronomy.regional`.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from functools import lru_cache
from typing import Final, Literal

import numpy as np
from numpy.typing import NDArray

from jobs.agronomy import regional
from jobs.agronomy.memory import faded_sum
from jobs.agronomy.series import DailySeries, FloatArray
from jobs.agronomy.soil import TRAILING_DAYS, trailing_mean

Basis = Literal["own", "own and regional", "regional"]

#: From this many years of its own a place needs no regional curve.
OWN_YEARS: Final = 3

#: A year with at least this share of its days known counts as one.
FULL_YEAR_SHARE: Final = 0.8

HARMONICS: Final = 4

#: Gaps in the departures up to this long are bridged by a straight line [days].
_BRIDGED_GAP_DAYS: Final = 20

#: Departures borrowed past the end of the history, so that the last year can serve too [days].
_BORROWED_DAYS: Final = 420

#: Time scale of the "slow" part of a departure [days].
SLOW_DAYS: Final = 30.0

#: Time scale of the past air that today's air is held against [days].
AIR_DAYS: Final = 3.0

#: Slow departure of the air for each degree of the soil's: pooled regression, February to May.
AIR_OF_SOIL: Final = 0.8

#: How far back the running averages look [days].
MEMORY_DAYS: Final = 120


@dataclass(frozen=True, slots=True, eq=False)
class Climate:
    """The usual year of one place and its past departures.

    Attributes
    ----------
    basis
        What it stands on: the place's own years, those leaning on a regional curve, or the
        regional curve alone.
    years
        Calendar years that are (nearly) fully known.
    mean_c
        Mean soil temperature at 5 cm by day of a leap year, shape (366,) [°C]. Never NaN.
    air_mean_c
        The same for mean air temperature, or None where no air is known.
    curve_sd_c
        How far the mean year itself may be off [°C], standard deviation.
    first_day
        Day of the first entry of the three series below.
    known_days
        How many entries come from the history; later ones are borrowed.
    departure_c
        Departures of soil from the mean year, no gaps, shape (n,) [°C].
    is_real
        True where the departure was measured, or bridges a gap of up to three weeks.
    real_before
        How many entries before each one are real, shape (n + 1,).
    state_c
        What was to be known on each day (see `running_state`), shape (n, 4) [°C].
    """

    basis: Basis
    years: tuple[int, ...]
    mean_c: FloatArray
    air_mean_c: FloatArray | None
    curve_sd_c: float
    first_day: date
    known_days: int
    departure_c: FloatArray
    is_real: NDArray[np.bool_]
    real_before: NDArray[np.int64]
    state_c: FloatArray


@dataclass(frozen=True, slots=True, eq=False)
class Band:
    """Past years' trailing 5-day means, day by day from ``first_day`` [°C].

    ``p10_c`` and ``p90_c`` hold four years in five; ``low_c`` and ``high_c`` are the extremes.
    """

    first_day: date
    years: int
    mean_c: FloatArray
    p10_c: FloatArray
    p90_c: FloatArray
    low_c: FloatArray
    high_c: FloatArray


@lru_cache(maxsize=64)
def leap_slots(first_day: date, days: int) -> NDArray[np.int64]:
    """Return each day's place in a leap year, 0 (1 January) to 365 (31 December).

    For reading only: cells of one batch share it.
    """
    day = np.datetime64(first_day, "D") + np.arange(days)
    year = day.astype("datetime64[Y]")
    slot = (day - year.astype("datetime64[D]")).astype(np.int64)
    number = year.astype(np.int64) + 1970
    is_leap = (number % 4 == 0) & ((number % 100 != 0) | (number % 400 == 0))
    slots = np.asarray(slot + (~is_leap & (slot >= 59)), dtype=np.int64)
    slots.setflags(write=False)
    return slots


def running_state(departure_c: FloatArray, air_departure_c: FloatArray) -> FloatArray:
    """Return what is known on each day about its departure, shape (n, 4) [°C].

    Columns: today's departure of the soil; its average over the past weeks (weights falling off
    with `SLOW_DAYS`); how much warmer today's air is, against its mean year, than the past days'
    (`AIR_DAYS`): that is still on its way into the soil; and the air's departure over the past
    weeks. Missing values count as no departure; where no air is known at all, the share of the
    soil's own past weeks that air usually has stands for the last.
    """
    days = len(departure_c)
    out = np.zeros((days, 4))
    if not days:
        return out
    out[:, 0] = np.nan_to_num(departure_c)
    out[:, 1] = _running_average(departure_c, SLOW_DAYS)
    if np.isfinite(air_departure_c).any():
        out[:, 2] = np.nan_to_num(air_departure_c) - _running_average(air_departure_c, AIR_DAYS)
        out[:, 3] = _running_average(air_departure_c, SLOW_DAYS)
    else:
        out[:, 3] = AIR_OF_SOIL * out[:, 1]
    return out


def _running_average(values: FloatArray, scale_days: float) -> FloatArray:
    """Average the past with exponential weights; what is missing pulls towards zero."""
    keep = float(np.exp(-1.0 / scale_days))
    summed = faded_sum(np.nan_to_num(values), keep)
    # What is older than the memory is out of it.
    summed[MEMORY_DAYS:] -= keep**MEMORY_DAYS * summed[:-MEMORY_DAYS].copy()
    return np.asarray(summed / np.exp(-np.arange(MEMORY_DAYS) / scale_days).sum())


def fit_climate(
    history: DailySeries, *, lat: float | None = None, elevation_m: float | None = None
) -> Climate:
    """Fit the usual year of one place from all its earlier days.

    Parameters
    ----------
    history
        Every earlier day, as far as known; may be empty. Dates are northern ones: shift a series
        from south of the equator by half a year first (`DailySeries.shifted`).
    lat
        Latitude [degrees], sign ignored; used only with less than `OWN_YEARS` years.
    elevation_m
        Elevation [m]; likewise.

    Returns
    -------
    Climate
    """
    days = len(history)
    soil_c = np.asarray(history.soil5_c, dtype=np.float64)
    slots = leap_slots(history.first_day, days)
    years = _full_years(history)
    design = regional.harmonics(HARMONICS)
    prior = regional.curve(lat, elevation_m, HARMONICS)
    known = ~np.isnan(soil_c)
    year_count = float(known.sum()) / 365.25

    basis: Basis
    if len(years) >= OWN_YEARS:
        basis, mean_c, curve_sd_c = "own", design @ _fit(design, slots, soil_c, known), 0.0
    elif known.any():
        basis = "own and regional"
        coefficients = _fit_leaning(design, slots, soil_c, known, prior)
        mean_c = design @ coefficients
        curve_sd_c = prior.error_c / np.sqrt(1.0 + 2.0 * year_count)
    else:
        basis, mean_c, curve_sd_c = "regional", design @ prior.coefficients, prior.error_c

    air_c = np.asarray(history.tmean_c, dtype=np.float64)
    air_known = ~np.isnan(air_c)
    air_mean_c = None
    if air_known.sum() >= 300:
        air_mean_c = design @ _fit(design, slots, air_c, air_known)

    departure_c = soil_c - mean_c[slots]
    air_departure_c = np.full(days, np.nan) if air_mean_c is None else air_c - air_mean_c[slots]
    bank, is_real = _unbroken(departure_c)
    state_c = np.zeros((len(bank), 4))
    state_c[:days] = running_state(bank[:days], air_departure_c)
    return Climate(
        basis=basis,
        years=years,
        mean_c=mean_c,
        air_mean_c=air_mean_c,
        curve_sd_c=curve_sd_c,
        first_day=history.first_day,
        known_days=days,
        departure_c=bank,
        is_real=is_real,
        real_before=np.concatenate([[0], np.cumsum(is_real)]),
        state_c=state_c,
    )


def past_band(climate: Climate, first_day: date, days: int) -> Band:
    """Return the past years' mean and band of the trailing 5-day mean for some days.

    Where the place has no years of its own the band is a normal one around the regional curve,
    of the regional curve's error and the usual spread of a soil between years.
    """
    slots = leap_slots(first_day, days)
    mean_c = trailing_mean(np.concatenate([climate.mean_c[-TRAILING_DAYS:], climate.mean_c]))
    mean_c = mean_c[TRAILING_DAYS:][slots]
    five_c = trailing_mean(np.where(climate.is_real, climate.departure_c, np.nan))
    five_c = five_c[: climate.known_days]
    own = leap_slots(climate.first_day, climate.known_days)
    if np.isfinite(five_c).sum() < 300:
        spread_c = float(np.hypot(climate.curve_sd_c, regional.YEAR_TO_YEAR_SD_C))
        sides = [np.full(days, z * spread_c) for z in (-1.2816, 1.2816, -2.0, 2.0)]
    else:
        bank = np.full((5, 366), np.nan)
        half = 5  # neighbouring days widen a small sample
        for slot in np.unique(slots):
            near = np.abs((own - slot + 183) % 366 - 183) <= half
            sample = five_c[near]
            sample = sample[~np.isnan(sample)]
            if len(sample):
                bank[:, slot] = [*np.quantile(sample, (0.1, 0.9)), sample.min(), sample.max(), 0]
        sides = [bank[i][slots] for i in range(4)]
    return Band(first_day, len(climate.years), mean_c, *(mean_c + side for side in sides))


def _full_years(history: DailySeries) -> tuple[int, ...]:
    day = np.datetime64(history.first_day, "D") + np.arange(len(history))
    year = day.astype("datetime64[Y]").astype(np.int64) + 1970
    number, count = np.unique(year[~np.isnan(history.soil5_c)], return_counts=True)
    return tuple(int(y) for y in number[count >= FULL_YEAR_SHARE * 365])


def _fit(
    design: FloatArray, slots: NDArray[np.int64], values: FloatArray, known: NDArray[np.bool_]
) -> FloatArray:
    """Least squares on the mean of each day of the year, weighted by how often it is known."""
    count = np.bincount(slots[known], minlength=366).astype(np.float64)
    total = np.bincount(slots[known], weights=values[known], minlength=366)
    normal = design.T @ (design * count[:, None])
    ridge = 1e-3 * np.eye(len(normal))
    return np.asarray(np.linalg.solve(normal + ridge, design.T @ total))


def _fit_leaning(
    design: FloatArray,
    slots: NDArray[np.int64],
    values: FloatArray,
    known: NDArray[np.bool_],
    prior: regional.Curve,
) -> FloatArray:
    """Least squares that leans on the regional curve as far as the days known leave it open.

    Days in a row tell the same story: one in `regional.DAYS_PER_FACT` counts.
    """
    count = np.bincount(slots[known], minlength=366).astype(np.float64)
    total = np.bincount(slots[known], weights=values[known], minlength=366)
    weight = 1.0 / (regional.YEAR_TO_YEAR_SD_C**2 * regional.DAYS_PER_FACT)
    precision = np.diag(1.0 / prior.coefficient_sd**2)
    normal = design.T @ (design * (count * weight)[:, None]) + precision
    right = design.T @ (total * weight) + precision @ prior.coefficients
    return np.asarray(np.linalg.solve(normal, right))


def _unbroken(departure_c: FloatArray) -> tuple[FloatArray, NDArray[np.bool_]]:
    """Bridge short gaps, borrow other years' departures for long ones and past the end."""
    days = len(departure_c)
    out = np.full(days + _BORROWED_DAYS, np.nan)
    out[:days] = departure_c
    known = np.flatnonzero(~np.isnan(departure_c))
    if not len(known):
        return np.zeros(days + _BORROWED_DAYS), np.zeros(days + _BORROWED_DAYS, dtype=bool)
    gap = np.diff(known) - 1
    for left in np.flatnonzero((gap > 0) & (gap <= _BRIDGED_GAP_DAYS)):
        a, b = known[left], known[left + 1]
        out[a : b + 1] = np.linspace(out[a], out[b], b - a + 1)
    is_real = ~np.isnan(out)
    whole = out.copy()
    index = np.arange(len(out))
    for years in range(1, days // 365 + 2):
        for shift in (-365 * years, 365 * years):
            missing = np.isnan(whole)
            if not missing.any():
                return whole, is_real
            source = index + shift
            there = missing & (source >= 0) & (source < days)
            whole[there] = out[source[there]]
    return np.nan_to_num(whole), is_real
