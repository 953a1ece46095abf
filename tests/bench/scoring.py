"""Truths, the five-year curve and scores of crossing forecasts, as the figures are defined."""

from __future__ import annotations

import zlib
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

import numpy as np

from jobs.agronomy.series import DailySeries
from jobs.agronomy.soil import fill_short_gaps, first_at_or_above, trailing_mean
from jobs.agronomy.units import c_from_f
from jobs.hindcast import HindcastRow, first_crossing

THRESHOLD_C = c_from_f(55.0)
YEARS = range(2015, 2024)
BANDS = ((1, 7), (8, 14), (15, 21), (22, 35), (36, 60))
FORECAST_DAYS = 16


@dataclass(frozen=True, slots=True)
class Scored:
    """One forecast beside its truth; errors in days, forecast minus truth."""

    ahead: int
    error: int
    baseline_error: int | None
    is_inside: bool


def lower_bound(names: Sequence[str], values: Sequence[float], level: float = 0.1) -> float:
    """Return a lower bound of a mean over stations: a bootstrap that draws whole stations."""
    place = np.unique(np.asarray(names), return_inverse=True)[1]
    total = np.bincount(place, weights=np.asarray(values, dtype=float))
    count = np.bincount(place)
    draws = np.random.default_rng(20_260_303).integers(0, len(count), (1000, len(count)))
    return float(np.quantile(total[draws].sum(axis=1) / count[draws].sum(axis=1), level))


def truth_of(series: DailySeries, year: int, threshold_c: float = THRESHOLD_C) -> date | None:
    """Return the first crossing, unless it is left out: before 14 February, after 19 July."""
    day = first_crossing(series, threshold_c, year)
    if day is None or not date(year, 2, 14) <= day <= date(year, 7, 19):
        return None
    return day


def baseline_of(series: DailySeries, year: int, threshold_c: float = THRESHOLD_C) -> date | None:
    """Return the day the five-year average curve crosses (at least 4 of the years full)."""
    curves = []
    full = 0
    for past in range(year - 5, year):
        first = date(past, 1, 1)
        soil_c = fill_short_gaps(series.on(first - timedelta(days=10), date(past, 12, 31)).soil5_c)
        full += np.isfinite(soil_c[10:]).mean() >= 0.8
        curves.append(trailing_mean(soil_c)[10:375])
    if full < 4:
        return None
    table = np.array(curves)
    known = np.isfinite(table).sum(axis=0)
    mean = np.where(known >= 3, np.nansum(table, axis=0) / np.maximum(known, 1), np.nan)
    there = int(first_at_or_above(mean, threshold_c))
    return None if there < 0 else date(year, 1, 1) + timedelta(days=there)


def score(rows: Iterable[HindcastRow], series: DailySeries) -> list[Scored]:
    """Return every row whose year has a truth, scored."""
    truths = {y: truth_of(series, y) for y in YEARS}
    baselines = {y: baseline_of(series, y) for y in YEARS}
    out = []
    for row in rows:
        truth = truths[row.year]
        if truth is None or row.issued >= truth:
            continue
        late = date(row.year, 7, 31)
        base = baselines[row.year]
        base_error = (
            None if base is None else (max(base, row.issued + timedelta(days=1)) - truth).days
        )
        out.append(
            Scored(
                ahead=(truth - row.issued).days,
                error=((row.p50 or late) - truth).days,
                baseline_error=base_error,
                is_inside=row.p10 is not None
                and row.p10 <= truth
                and (row.p90 is None or truth <= row.p90),
            )
        )
    return out


def emulated_forecast(station: str, series: DailySeries, issued: date) -> DailySeries:
    """Return a stand-in for a weather service's soil forecast of the 16 days after ``issued``.

    Truth plus an AR(1) error of standard deviation min(0.6 + 0.2 (h - 1), 3) °C on day h and
    correlation 0.85 (the size is from memory), seeded by CRC32 of station and issue date.
    """
    rng = np.random.default_rng(zlib.crc32(f"{station} {issued.isoformat()}".encode()))
    first = issued + timedelta(days=1)
    truth = series.on(first, issued + timedelta(days=FORECAST_DAYS))
    z = np.empty(FORECAST_DAYS)
    z[0] = rng.standard_normal()
    for h in range(1, FORECAST_DAYS):
        z[h] = 0.85 * z[h - 1] + np.sqrt(1 - 0.85**2) * rng.standard_normal()
    sd = np.minimum(0.6 + 0.2 * np.arange(FORECAST_DAYS), 3.0)
    missing = DailySeries.missing(first, FORECAST_DAYS)
    return DailySeries(
        first,
        truth.soil5_c + sd * z,
        missing.tmean_c,
        missing.tmin_c,
        missing.tmax_c,
        missing.rain_mm,
    )


def raw_forecast_error(
    series: DailySeries, forecast: DailySeries, issued: date, truth: date
) -> int | None:
    """Return the error of the raw forecast's own crossing, or None where it has none."""
    joined = series.until(issued).overlaid(forecast)
    day = first_crossing(joined, THRESHOLD_C, issued.year)
    return None if day is None else (day - truth).days


def by_band(scored: Iterable[Scored]) -> Mapping[tuple[int, int], list[Scored]]:
    """Return the scores by days ahead."""
    table: dict[tuple[int, int], list[Scored]] = {band: [] for band in BANDS}
    for one in scored:
        for band in BANDS:
            if band[0] <= one.ahead <= band[1]:
                table[band].append(one)
    return table
