"""What the soil of one place usually does: a smooth year, and the past years' departures from it.

Fitted from all earlier days, of many places at once (`fit_climates`, `Climate`).

The mean year is a sum of harmonics fitted to every known day at once, so that missing days and
part years do no harm. Departures (residuals) are kept as one unbroken series; a long gap borrows
the departures of the same days in the nearest other year, so that each past year can serve as one
possible future.

Where a place has less than `OWN_YEARS` years, the harmonics lean on a curve from latitude and
elevation, and are wide: see `jobs.agronomy.regional`.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from functools import lru_cache
from typing import Final, Literal, TypeAlias

import numpy as np
from numpy.typing import NDArray

from jobs.agronomy import regional
from jobs.agronomy.series import DailySeries, FloatArray, Together

Basis = Literal["own", "own and regional", "regional"]

#: Departures and members are kept in half the room: it moves no figure by 0.01 day.
SingleArray: TypeAlias = NDArray[np.float32]

#: From this many years of its own a place needs no regional curve.
OWN_YEARS: Final = 3

#: A year with at least this share of its days known counts as one.
FULL_YEAR_SHARE: Final = 0.8

HARMONICS: Final = 4

#: Gaps in the departures up to this long are bridged by a straight line [days].
_BRIDGED_GAP_DAYS: Final = 20

#: Departures borrowed past the end of the history, so that the last year can serve too [days].
_BORROWED_DAYS: Final = 420

_YEAR_DAYS: Final = 365

#: From this many days on a mean year of the air is fitted.
_ENOUGH_AIR_DAYS: Final = 300


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
        Day of the first entry of the series below.
    known_days
        How many entries come from the history; later ones are borrowed.
    departure_c
        Departures of soil from the mean year, no gaps, shape (n,) [°C].
    air_departure_c
        Departures of air of the known days [°C], zero where missing; None where no air is known.
    real_before
        How many entries before each one are real, shape (n + 1,): measured, or a bridge over a gap
        of up to three weeks. Places without gaps share it.
    """

    basis: Basis
    years: tuple[int, ...]
    mean_c: FloatArray
    air_mean_c: FloatArray | None
    curve_sd_c: float
    first_day: date
    known_days: int
    departure_c: SingleArray
    air_departure_c: SingleArray | None
    real_before: NDArray[np.int64]

    @property
    def is_real(self) -> NDArray[np.bool_]:
        """True where the departure is real (see `real_before`)."""
        return np.diff(self.real_before) > 0


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


def fit_climate(
    history: DailySeries, *, lat: float | None = None, elevation_m: float | None = None
) -> Climate:
    """Fit the usual year of one place: a batch of one, as `fit_climates`."""
    return fit_climates(Together.of([history]), [lat], [elevation_m])[0]


def fit_climates(
    history: Together,
    lats: Sequence[float | None],
    elevations_m: Sequence[float | None] | None = None,
) -> list[Climate]:
    """Fit the usual year of places from all their earlier days.

    Parameters
    ----------
    history
        Every earlier day, as far as known; may be empty. Dates are northern ones: shift a series
        from south of the equator by half a year first (`DailySeries.shifted`).
    lats
        Latitude of each [degrees], sign ignored; used only with less than `OWN_YEARS` years.
    elevations_m
        Elevation of each [m]; likewise.

    Returns
    -------
    list of Climate
    """
    soil_c, air_c = history.soil5_c, history.tmean_c
    days = soil_c.shape[1]
    slots = leap_slots(history.first_day, days)
    design = regional.harmonics(HARMONICS)
    of_days, normal = _design_of_days(history.first_day, days)
    known, air_known = ~np.isnan(soil_c), ~np.isnan(air_c)
    years = _full_years(history.first_day, known)
    soil_fit = _fit(of_days, normal, soil_c, known)
    air_fit = _fit(of_days, normal, air_c, air_known)
    has_air = air_known.sum(axis=1) >= _ENOUGH_AIR_DAYS
    bases: list[Basis] = []
    curve_sd_c = np.zeros(len(soil_c))
    for place, (own_years, lat) in enumerate(zip(years, lats, strict=True)):
        if len(own_years) >= OWN_YEARS:
            bases.append("own")
            continue
        elevation_m = None if elevations_m is None else elevations_m[place]
        prior = regional.curve(lat, elevation_m, HARMONICS)
        count = int(known[place].sum())
        bases.append("own and regional" if count else "regional")
        soil_fit[place] = prior.coefficients
        curve_sd_c[place] = prior.error_c / np.sqrt(1.0 + 2.0 * count / 365.25)
        if count:
            soil_fit[place] = _fit_leaning(of_days, soil_c[place], known[place], prior)
    mean_c, air_mean_c = soil_fit @ design.T, air_fit @ design.T
    bank, real_before = _unbroken(soil_c - _on(mean_c, slots, soil_c), known)
    air_departure_c = (air_c - _on(air_mean_c, slots, air_c)).astype(np.float32, copy=False)
    if not air_known.all():
        air_departure_c[~air_known] = 0.0
    return [
        Climate(
            basis=bases[place],
            years=years[place],
            mean_c=mean_c[place],
            air_mean_c=air_mean_c[place] if has_air[place] else None,
            curve_sd_c=float(curve_sd_c[place]),
            first_day=history.first_day,
            known_days=days,
            departure_c=bank[place],
            air_departure_c=air_departure_c[place] if has_air[place] else None,
            real_before=real_before[place],
        )
        for place in range(len(soil_c))
    ]


def _on(mean_c: FloatArray, slots: NDArray[np.int64], like: FloatArray) -> FloatArray:
    """Return mean years on some days, as wide as what they are held against."""
    return np.take(mean_c.astype(like.dtype, copy=False), slots, axis=1)


@lru_cache(maxsize=8)
def _design_of_days(first_day: date, days: int) -> tuple[FloatArray, FloatArray]:
    """Return the harmonics on each of some days, and their normal matrix; for reading only."""
    matrix = regional.harmonics(HARMONICS)[leap_slots(first_day, days)]
    normal = matrix.T @ matrix
    for each in (matrix, normal):
        each.setflags(write=False)
    return matrix, normal


def _full_years(first_day: date, known: NDArray[np.bool_]) -> list[tuple[int, ...]]:
    """Return the calendar years of each place that are (nearly) fully known."""
    if not known.shape[1]:
        return [()] * len(known)
    numbers, starts, counts = _years_of(first_day, known.shape[1])
    if known.all():
        counts = np.broadcast_to(counts, (len(known), len(counts)))
    else:
        counts = np.add.reduceat(known, starts, axis=1, dtype=np.int64)
    is_full = (counts >= FULL_YEAR_SHARE * 365).tolist()
    return [tuple(y for y, full in zip(numbers, row, strict=True) if full) for row in is_full]


@lru_cache(maxsize=8)
def _years_of(first_day: date, days: int) -> tuple[list[int], NDArray[np.int64], NDArray[np.int64]]:
    """Return the calendar years of some days, the first entry of each, and its days."""
    day = np.datetime64(first_day, "D") + np.arange(days)
    numbers, starts, counts = np.unique(
        day.astype("datetime64[Y]").astype(np.int64) + 1970, return_index=True, return_counts=True
    )
    return numbers.tolist(), starts, counts


def _fit(
    of_days: FloatArray, normal: FloatArray, values: FloatArray, known: NDArray[np.bool_]
) -> FloatArray:
    """Return the harmonics' coefficients of each place by least squares, shape (places, k).

    ``normal`` is the normal matrix where every day is known.
    """
    ridge = 1e-3 * np.eye(len(normal))
    is_whole = np.asarray(known.all(axis=1))
    right = (values if is_whole.all() else np.where(known, values, 0.0)) @ of_days.astype(
        values.dtype, copy=False
    )
    normals = np.stack(
        [
            normal if is_known else of_days[row].T @ of_days[row]
            for row, is_known in zip(known, is_whole, strict=True)
        ]
    )
    return np.asarray(np.linalg.solve(normals + ridge, right[..., None])[..., 0])


def _fit_leaning(
    of_days: FloatArray, values: FloatArray, known: NDArray[np.bool_], prior: regional.Curve
) -> FloatArray:
    """Least squares that leans on the regional curve as far as the days known leave it open.

    Days in a row tell the same story: one in `regional.DAYS_PER_FACT` counts.
    """
    weight = 1.0 / (regional.YEAR_TO_YEAR_SD_C**2 * regional.DAYS_PER_FACT)
    precision = np.diag(1.0 / prior.coefficient_sd**2)
    normal = weight * (of_days[known].T @ of_days[known]) + precision
    right = weight * (of_days[known].T @ values[known]) + precision @ prior.coefficients
    return np.asarray(np.linalg.solve(normal, right))


def _unbroken(
    departure_c: FloatArray, known: NDArray[np.bool_]
) -> tuple[SingleArray, list[NDArray[np.int64]]]:
    """Bridge short gaps, borrow other years' departures for long ones and past the end.

    Returns the departures, and how many entries before each are real.
    """
    places, days = departure_c.shape
    total = days + _BORROWED_DAYS
    out = np.empty((places, total), dtype=np.float32)
    out[:, :days] = departure_c
    without_gaps = _real_before(days, total)
    real_before = [without_gaps] * places
    is_whole = known.all(axis=1) if days >= _YEAR_DAYS else np.zeros(places, dtype=bool)
    # The days after the last are those of a year before, and of two.
    for start in range(days, total, _YEAR_DAYS) if is_whole.any() else ():
        stop = min(total, start + _YEAR_DAYS)
        out[:, start:stop] = out[:, start - _YEAR_DAYS : stop - _YEAR_DAYS]
    for place in np.flatnonzero(~is_whole):
        out[place], is_real = _unbroken_one(departure_c[place])
        real_before[place] = np.concatenate([[0], np.cumsum(is_real)])
    return out, real_before


@lru_cache(maxsize=8)
def _real_before(days: int, total: int) -> NDArray[np.int64]:
    return np.minimum(np.arange(total + 1), days)


def _unbroken_one(departure_c: FloatArray) -> tuple[FloatArray, NDArray[np.bool_]]:
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
    for years in range(1, days // _YEAR_DAYS + 2):
        for shift in (-_YEAR_DAYS * years, _YEAR_DAYS * years):
            missing = np.isnan(whole)
            if not missing.any():
                return whole, is_real
            source = index + shift
            there = missing & (source >= 0) & (source < days)
            whole[there] = out[source[there]]
    return np.nan_to_num(whole), is_real
