"""Made-up daily series for tests: an annual wave, with or without weather on it."""

from __future__ import annotations

from datetime import date

import numpy as np

from jobs.agronomy.series import DailySeries

MEAN_C, SWING_C, COLDEST = 11.0, 14.0, 20


def wave_c(first, days):
    """The annual wave of daily mean soil on each day: closed form, coldest on 20 January.

    Temperature of a half-space under a sine at its surface keeps the sine's form at any depth
    (van Wijk & de Vries 1963, from memory).
    """
    day = np.datetime64(first) + np.arange(days)
    into = (day - day.astype("datetime64[Y]")).astype(int)
    return MEAN_C - SWING_C * np.cos(2 * np.pi * (into - COLDEST) / 365.25)


def made_series(first=date(2009, 6, 1), last=date(2016, 12, 31), *, noise_c=0.0, seed=1):
    days = (last - first).days + 1
    soil = wave_c(first, days)
    rng = np.random.default_rng(seed)
    for scale, share in ((5.0, 1.0), (40.0, 0.7)):
        keep = np.exp(-1 / scale)
        push = rng.standard_normal(days) * noise_c * share * np.sqrt(1 - keep**2)
        level = 0.0
        for i in range(days):
            level = keep * level + push[i]
            soil[i] += level
    air = soil + rng.standard_normal(days) * noise_c
    return DailySeries(first, soil, air, air - 6.0, air + 6.0, np.zeros(days))


def with_soil(series, soil_c):
    return DailySeries(
        series.first_day, soil_c, series.tmean_c, series.tmin_c, series.tmax_c, series.rain_mm
    )


def nonsense_after(series, day, value=55.0):
    """The same series with everything after a day replaced by nonsense."""
    at = (day - series.first_day).days + 1
    columns = []
    for name in ("soil5_c", "tmean_c", "tmin_c", "tmax_c", "rain_mm"):
        column = getattr(series, name).copy()
        column[at:] = value
        columns.append(column)
    return DailySeries(series.first_day, *columns)
