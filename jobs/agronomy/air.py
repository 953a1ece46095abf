"""Soil temperature at 5 cm from the weather above it, for places or days without soil data.

Air temperature reaches 5 cm within days, so the daily mean there is close to a sum of moving
averages of the air with different memories, lifted by the sun, held near zero while water freezes
or melts, and cut off from frost by snow. Both forms here are such sums, linear in their constants:

* `soil_from_air` is the generic form: nine terms and an intercept for anywhere, fitted once on
  pooled station records;
* `fit_soil_from_air` starts from the generic form and fits what a place's own earlier years add.

The form follows Plauborg 2002 (Eur. J. Agron. 17:173-179: soil under short grass from today's and
previous days' air and an annual wave; citation from memory) with extraterrestrial radiation in
place of the annual wave, so that latitude and hemisphere need no constants of their own.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from jobs.agronomy.series import DailySeries, FloatArray

#: Memories of the moving averages of air temperature [days].
_MEMORIES: Final = (1.0, 2.0, 4.0, 8.0, 15.0, 30.0, 60.0)
#: Days without air temperature after which there is no estimate.
LONGEST_GAP_DAYS: Final = 5
#: Snow falls whole below, and not at all above, these daily means [°C]. Common practice, no source.
_SNOW_C: Final = (-1.0, 2.0)
#: Melt per degree and day above 0.5 °C [mm water]: middle of the usual range 1.6-6 mm for
#: degree-day factors (Hock 2003, J. Hydrol. 282:104-115; from memory).
_MELT_MM: Final = 3.0
#: Water in the snow at which its cover counts for 63 % [mm].
_COVER_MM: Final = 10.0
#: Solar constant over a day [MJ/m²]: 0.0820 MJ/m²/min (FAO-56, Allen et al. 1998, eq. 21).
_SOLAR_MJ: Final = 0.0820 * 1440
#: Elevation [m] for which the generic constants stand when none is given.
_USUAL_ELEVATION_M: Final = 300.0


@dataclass(frozen=True, slots=True)
class GenericForm:
    """Constants of the generic form.

    Attributes
    ----------
    intercept_c
        [°C].
    weights
        One per name of `GENERIC_TERMS`, in °C per unit of the term.
    """

    intercept_c: float
    weights: tuple[float, ...]


#: Terms of the generic form. ``air_N`` is the moving average of air with a memory of N days;
#: ``frost_N`` is the same where below zero, else 0; ``sun`` is extraterrestrial radiation
#: [MJ/m²/day], ``sun_rise`` its gain over 60 days, ``sun_air`` its product with ``air_8``;
#: ``cover_air`` is the product of ``air_8``
#: with how far snow covers the ground (0-1).
GENERIC_TERMS: Final = (
    "air_2",
    "air_8",
    "air_30",
    "frost_8",
    "frost_30",
    "sun",
    "sun_rise",
    "sun_air",
    "cover_air",
)

#: Fitted by `fit_generic` on the 28 station records of the benches (U.S. Climate Reference Network,
#: Diamond et al. 2013, Bull. Amer. Meteor. Soc. 94:485-498), 32-48 degrees north. Left-out
#: stations: median RMSE in February-June 1.6 °C (tests/bench/soil_from_air.py).
GENERIC: Final = GenericForm(
    -0.622, (0.4166, 0.1176, 0.3369, -0.3502, 0.1652, 0.06634, 0.04467, 0.003504, -0.4548)
)


def soil_from_air(
    tmean_c: ArrayLike,
    tmin_c: ArrayLike,
    tmax_c: ArrayLike,
    rain_mm: ArrayLike,
    first_day: date,
    latitude: ArrayLike,
    elevation: ArrayLike | None = None,
    form: GenericForm = GENERIC,
) -> FloatArray:
    """Estimate daily mean soil temperature at 5 cm under grass from daily weather.

    Parameters
    ----------
    tmean_c, tmin_c, tmax_c
        Mean, lowest and highest air temperature [°C], shape (..., days); NaN where missing. A
        missing mean is taken as half the sum of the extremes.
    rain_mm
        Precipitation as water [mm], same shape; a missing amount counts as none.
    first_day
        Day of the first entry.
    latitude
        [degrees north], broadcast against the leading axes.
    elevation
        [m], likewise. It only scales radiation by FAO-56 eq. 37 and was not part of the fit.
    form
        The constants; the shipped ones unless a test leaves stations out.

    Returns
    -------
    ndarray
        [°C], shape (..., days). NaN where air has been missing for more than `LONGEST_GAP_DAYS`
        days. The first month is poorer: the longer memories are still filling.

    Notes
    -----
    Expect 1.6 °C RMSE at a place it was not fitted on, most of it a steady offset of the place
    (sun, grass, soil), and worse outside 30-50 degrees of latitude.
    """
    terms = _terms(tmean_c, tmin_c, tmax_c, rain_mm, first_day, latitude, elevation)
    weights = np.asarray(form.weights)
    return np.asarray(form.intercept_c + _stack(terms, GENERIC_TERMS) @ weights)


def fit_generic(places: Sequence[DailySeries], latitudes: Sequence[float]) -> GenericForm:
    """Fit the generic form on pooled records, each place weighing by its days.

    Parameters
    ----------
    places
        Records with both air and soil.
    latitudes
        [degrees north], one a place.

    Raises
    ------
    ValueError
        If no day has both.
    """
    rows, truths = [], []
    for place, latitude in zip(places, latitudes, strict=True):
        terms = _stack(_series_terms(place, latitude), GENERIC_TERMS)
        is_usable = _is_usable(terms, place.soil5_c)
        rows.append(terms[is_usable])
        truths.append(place.soil5_c[is_usable])
    intercept, weights = _ridge(np.concatenate(rows), np.concatenate(truths), _GENERIC_PULL)
    return GenericForm(intercept, tuple(float(w) for w in weights))


_GENERIC_PULL: Final = 10.0
#: Days at the start of a record left out of fits while the moving averages fill.
_FILLING_DAYS: Final = 60


def extraterrestrial_radiation(first_day: date, days: int, latitude: ArrayLike) -> FloatArray:
    """Return daily radiation on a level plane above the atmosphere [MJ/m²], shape (..., days).

    FAO-56 (Allen et al. 1998), equations 21-25.
    """
    day_numbers = np.arange(days) + first_day.timetuple().tm_yday
    return _radiation(day_numbers.astype(float), np.asarray(latitude, dtype=float))


def _radiation(day_number: FloatArray, latitude: FloatArray) -> FloatArray:
    """Radiation for a day number that may run past the year (..., days)."""
    year_angle = 2 * np.pi * day_number / 365.25
    distance = 1 + 0.033 * np.cos(year_angle)
    declination = 0.409 * np.sin(year_angle - 1.39)
    phi = np.radians(latitude)[..., None]
    sunset = np.arccos(np.clip(-np.tan(phi) * np.tan(declination), -1, 1))
    height = sunset * np.sin(phi) * np.sin(declination)
    height = height + np.cos(phi) * np.cos(declination) * np.sin(sunset)
    return np.asarray(_SOLAR_MJ / np.pi * distance * height)


def _stack(terms: dict[str, FloatArray], names: Sequence[str]) -> FloatArray:
    return np.stack([terms[name] for name in names], axis=-1)


def _series_terms(series: DailySeries, latitude: float) -> dict[str, FloatArray]:
    return _terms(
        series.tmean_c,
        series.tmin_c,
        series.tmax_c,
        series.rain_mm,
        series.first_day,
        latitude,
        None,
    )


def _terms(
    tmean_c: ArrayLike,
    tmin_c: ArrayLike,
    tmax_c: ArrayLike,
    rain_mm: ArrayLike,
    first_day: date,
    latitude: ArrayLike,
    elevation: ArrayLike | None,
) -> dict[str, FloatArray]:
    """Return every term of both forms by name, each of shape (..., days)."""
    low = np.asarray(tmin_c, dtype=float)
    high = np.asarray(tmax_c, dtype=float)
    air = np.asarray(tmean_c, dtype=float)
    air = np.where(np.isnan(air), (low + high) / 2, air)
    rain = np.nan_to_num(np.asarray(rain_mm, dtype=float))
    air, rain, low, high = np.broadcast_arrays(air, rain, low, high)

    terms = dict(zip((f"air_{m:g}" for m in _MEMORIES), _moving(air, _MEMORIES), strict=True))
    for memory in (4, 8, 30):
        terms[f"frost_{memory}"] = np.minimum(terms[f"air_{memory}"], 0)

    sun = _sun(first_day, air.shape[-1], latitude, elevation)
    terms["sun"] = np.broadcast_to(sun[0], air.shape)
    terms["sun_rise"] = np.broadcast_to(sun[0] - sun[1], air.shape)
    terms["sun_air"] = terms["sun"] * terms["air_8"]

    terms["cover"] = 1 - np.exp(-_snow_mm(air, rain) / _COVER_MM)
    terms["cover_air"] = terms["cover"] * terms["air_8"]
    return terms


def _sun(
    first_day: date, days: int, latitude: ArrayLike, elevation: ArrayLike | None
) -> tuple[FloatArray, FloatArray]:
    """Return radiation of each day and of the day 60 days before, scaled for elevation."""
    degrees = np.asarray(latitude, dtype=float)
    numbers: FloatArray = np.arange(days, dtype=np.float64) + first_day.timetuple().tm_yday
    scale = np.ones(())
    if elevation is not None:
        height = np.asarray(elevation, dtype=float)[..., None]
        scale = (0.75 + 2e-5 * height) / (0.75 + 2e-5 * _USUAL_ELEVATION_M)
    return np.asarray(scale * _radiation(numbers, degrees)), np.asarray(
        scale * _radiation(numbers - 60, degrees)
    )


def _moving(values: FloatArray, memories: Sequence[float]) -> list[FloatArray]:
    """Return exponentially weighted averages of the known values, one a memory [days].

    NaN once nothing has been known for more than `LONGEST_GAP_DAYS` days.
    """
    keep = np.exp(-1 / np.asarray(memories))[:, None]
    by_day = np.moveaxis(values, -1, 0)
    is_known = ~np.isnan(by_day)
    filled = np.where(is_known, by_day, 0.0)
    flat = filled.reshape(len(filled), -1)
    known = is_known.reshape(len(filled), -1).astype(float)
    total = np.zeros((len(memories), flat.shape[1]))
    weight = np.zeros_like(total)
    since = np.full(flat.shape[1], np.inf)
    out = np.empty((len(filled), *total.shape))
    with np.errstate(invalid="ignore"):
        for day in range(len(filled)):
            total = total * keep + flat[day]
            weight = weight * keep + known[day]
            since = np.where(known[day] > 0, 0, since + 1)
            out[day] = np.where(since <= LONGEST_GAP_DAYS, total / weight, np.nan)
    shape = by_day.shape
    return [np.moveaxis(out[:, i].reshape(shape), 0, -1) for i in range(len(memories))]


def _snow_mm(air_c: FloatArray, rain_mm: FloatArray) -> FloatArray:
    """Return water lying as snow at the end of each day [mm], by degree-days."""
    air = np.moveaxis(air_c, -1, 0)
    rain = np.moveaxis(rain_mm, -1, 0)
    cold, warm = _SNOW_C
    falls = np.nan_to_num(rain * np.clip((warm - air) / (warm - cold), 0, 1))
    melts = np.nan_to_num(_MELT_MM * np.maximum(air - 0.5, 0))
    lying = np.zeros(air.shape[1:])
    out = np.empty(air.shape)
    for day in range(len(air)):
        lying = np.maximum(lying + falls[day] - melts[day], 0)
        out[day] = lying
    return np.moveaxis(out, 0, -1)


def _is_usable(
    terms: FloatArray, truth_c: FloatArray
) -> np.ndarray[tuple[int], np.dtype[np.bool_]]:
    is_known: np.ndarray[tuple[int], np.dtype[np.bool_]]
    is_known = ~np.isnan(terms).any(axis=-1) & ~np.isnan(truth_c)
    is_known[:_FILLING_DAYS] = False
    return is_known


def _ridge(terms: FloatArray, truth: FloatArray, pull: float) -> tuple[float, FloatArray]:
    """Least squares on standardised terms, each weight pulled to 0 as ``pull`` days would."""
    if not len(truth):
        raise ValueError("no day has both air and soil")
    centre = terms.mean(axis=0)
    spread = terms.std(axis=0)
    spread = np.where(spread > 0, spread, 1.0)
    scaled = (terms - centre) / spread
    gram = scaled.T @ scaled + pull * np.eye(scaled.shape[1])
    weights = np.linalg.solve(gram, scaled.T @ (truth - truth.mean())) / spread
    return float(truth.mean() - centre @ weights), weights
