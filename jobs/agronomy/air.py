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

from dataclasses import dataclass
from datetime import date
from typing import Final

import numpy as np
from numpy.typing import ArrayLike, NDArray

from jobs.agronomy.air_terms import air_terms, series_terms, stacked
from jobs.agronomy.series import DailySeries, FloatArray

#: Terms of the generic form; what they are is told in `air_terms`.
GENERIC_TERMS: Final = (
    "air_2",
    "air_8",
    "air_30",
    "frost_8",
    "frost_30",
    "sun",
    "sun_rise",
    "sun_air",
    "cover_air_8",
)
#: Terms of the correction fitted to one place.
PLACE_TERMS: Final = (
    *GENERIC_TERMS,
    "air_1",
    "air_4",
    "air_15",
    "air_60",
    "range_2",
    "range_15",
    "clear_2",
    "clear_15",
    "cover",
    "cover_air_2",
    "cover_air_30",
)
#: Days at the start of a record left out of fits while the moving averages fill.
_FILLING_DAYS: Final = 60
#: Every weight is pulled to 0 (ridge) as strongly as so many days would hold it there.
_PLACE_PULL_DAYS: Final = 50.0
#: A place's term that hardly varied there is not trusted: its spread counts as at least this.
_LEAST_SPREAD: Final = 1.0


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

    def of(self, terms: dict[str, FloatArray]) -> FloatArray:
        """Return soil temperature [°C], shape (..., days)."""
        return np.asarray(self.intercept_c + stacked(terms, GENERIC_TERMS) @ np.array(self.weights))


#: Fitted by `tests.bench.soil_from_air.fit_generic` on the 28 station records of the benches (U.S.
#: Climate Reference Network, Diamond et al. 2013, Bull. Amer. Meteor. Soc. 94:485-498), 32-48
#: degrees north.
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
    """Estimate daily mean soil temperature at 5 cm under open grass from daily weather.

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
        The constants; others than the shipped ones when stations are left out for a test.

    Returns
    -------
    ndarray
        [°C], shape (..., days). NaN where air has been missing for more than
        `air_terms.LONGEST_GAP_DAYS` days. The first month is poorer: longer memories still fill.

    Notes
    -----
    At stations left out of the fit the median RMSE in February-June is 1.5 °C, most of it a steady
    offset of the place (sun, grass, soil). Outside 30-50 degrees of latitude it is untested.
    """
    return form.of(air_terms(tmean_c, tmin_c, tmax_c, rain_mm, first_day, latitude, elevation))


@dataclass(frozen=True, slots=True, eq=False)
class FittedSoil:
    """The generic form with the correction of one place; made by `fit_soil_from_air`.

    Attributes
    ----------
    latitude
        [degrees north].
    form
        The generic form underneath.
    days
        Days with air and soil the correction stands on; 0 means the generic form alone.
    offset_c, weights
        The correction: [°C], and one weight per name of `PLACE_TERMS`.
    """

    latitude: float
    form: GenericForm
    days: int
    offset_c: float
    weights: FloatArray

    def apply(self, series: DailySeries) -> FloatArray:
        """Estimate daily mean soil temperature at 5 cm [°C] from the air of a series.

        The series should begin a month before the first day wanted, so that the longer memories
        are filled. NaN as for `soil_from_air`.
        """
        terms = series_terms(series, self.latitude)
        correction = self.offset_c + stacked(terms, PLACE_TERMS) @ self.weights
        return np.asarray(self.form.of(terms) + correction)


def fit_soil_from_air(
    history: DailySeries, latitude: float, form: GenericForm = GENERIC
) -> FittedSoil:
    """Fit a place's own correction to the generic form, by ridge regression.

    The less history there is, the closer the result stays to the generic form.

    Parameters
    ----------
    history
        Earlier days with air and soil; gaps are tolerated.
    latitude
        [degrees north].
    form
        The generic form to start from.

    Notes
    -----
    Median RMSE in February-June, stations left out of the generic form, every year from its
    earlier years only: 1.1 °C; from one earlier year 1.2 °C (tests/bench/soil_from_air.py).
    """
    terms = series_terms(history, latitude)
    x = stacked(terms, PLACE_TERMS)
    is_usable = is_usable_day(x, history.soil5_c)
    x = x[is_usable]
    y = (history.soil5_c - form.of(terms))[is_usable]
    days = len(y)
    if not days:
        return FittedSoil(latitude, form, 0, 0.0, np.zeros(len(PLACE_TERMS)))
    centre = x.mean(axis=0)
    spread = np.maximum(x.std(axis=0), _LEAST_SPREAD)
    scaled = np.column_stack([np.ones(days), (x - centre) / spread])
    solved = ridge(scaled, y, _PLACE_PULL_DAYS)
    weights = solved[1:] / spread
    return FittedSoil(latitude, form, days, float(solved[0] - centre @ weights), weights)


def is_usable_day(terms: FloatArray, truth_c: FloatArray) -> NDArray[np.bool_]:
    """Tell which days have all terms and the truth, once the longer memories are filled."""
    is_known = ~np.isnan(terms).any(axis=-1) & ~np.isnan(truth_c)
    is_known[:_FILLING_DAYS] = False
    return is_known


def ridge(x: FloatArray, y: FloatArray, pull_days: float) -> FloatArray:
    """Return weights by least squares, pulled to nothing by so many days' worth of evidence."""
    return np.asarray(np.linalg.solve(x.T @ x + pull_days * np.eye(x.shape[1]), x.T @ y))
