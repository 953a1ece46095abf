"""Soil at 5 cm from air: generic with stations left out, and fitted on each station's past.

Run from the repository: ``python -m tests.bench.soil_from_air``. Needs ``../shared/data/soil``.
RMSE in February-June a station, median over the stations. Stations are left out by fours,
neighbours together. The fitted form of a year has seen only that station's earlier years, and a
generic form without the station.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from functools import cache
from pathlib import Path

import numpy as np

from jobs.agronomy.air import (
    GENERIC_TERMS,
    GenericForm,
    fit_soil_from_air,
    is_usable_day,
    ridge,
    soil_from_air,
)
from jobs.agronomy.air_terms import series_terms, stacked
from jobs.agronomy.series import DailySeries
from jobs.sources.recorded import Station, read_station
from tests.bench.published_models import eleven_day_weighted_mean

SOIL = Path(__file__).resolve().parents[3] / "shared" / "data" / "soil"
#: Days left out at the start of a record while the moving averages fill.
FILLING_DAYS = 60
FIRST_YEAR, LAST_YEAR = 2013, 2024
FOLDS = 7
#: Evidence that pulls the weights of the generic form to nothing [days].
GENERIC_PULL_DAYS = 10.0


def fit_generic(places: Sequence[DailySeries], latitudes: Sequence[float]) -> GenericForm:
    """Fit the generic form on pooled records that hold both air and soil, each day weighing alike.

    Raises ValueError if no day has both.
    """
    rows, truths = [], []
    for place, latitude in zip(places, latitudes, strict=True):
        terms = stacked(series_terms(place, latitude), GENERIC_TERMS)
        usable = is_usable_day(terms, place.soil5_c)
        rows.append(terms[usable])
        truths.append(place.soil5_c[usable])
    x, y = np.concatenate(rows), np.concatenate(truths)
    if not len(y):
        raise ValueError("no day has both air and soil")
    centre, spread = x.mean(axis=0), x.std(axis=0)
    spread = np.where(spread > 0, spread, 1.0)
    weights = ridge((x - centre) / spread, y - y.mean(), GENERIC_PULL_DAYS) / spread
    return GenericForm(float(y.mean() - centre @ weights), tuple(float(w) for w in weights))


@cache
def stations() -> tuple[Station, ...]:
    return tuple(read_station(path) for path in sorted(SOIL.glob("*.csv.gz")))


def months_of(station: Station) -> np.ndarray:
    days = np.datetime64(station.series.first_day) + np.arange(len(station.series))
    return days.astype("datetime64[M]").astype(int) % 12 + 1


def is_neighbour(one: Station, other: Station) -> bool:
    return abs(one.lat - other.lat) < 0.5 and abs(one.lon - other.lon) < 0.5


@cache
def folds() -> tuple[frozenset[str], ...]:
    """Stations dealt to `FOLDS` hands, neighbours to the same one."""
    hands: list[set[str]] = [set() for _ in range(FOLDS)]
    dealt = 0
    for station in stations():
        if any(station.name in hand for hand in hands):
            continue
        near = {s.name for s in stations() if is_neighbour(s, station)}
        hands[dealt % FOLDS] |= near
        dealt += 1
    return tuple(frozenset(hand) for hand in hands)


@cache
def _form_of_fold(hand: frozenset[str]) -> GenericForm:
    rest = [s for s in stations() if s.name not in hand]
    return fit_generic([s.series for s in rest], [s.lat for s in rest])


def form_without(name: str) -> GenericForm:
    return _form_of_fold(next(hand for hand in folds() if name in hand))


def generic_estimate(station: Station) -> np.ndarray:
    s = station.series
    return soil_from_air(
        s.tmean_c,
        s.tmin_c,
        s.tmax_c,
        s.rain_mm,
        s.first_day,
        station.lat,
        form=form_without(station.name),
    )


def spring_rmse(station: Station, estimate: np.ndarray) -> float:
    error = (estimate - station.series.soil5_c)[FILLING_DAYS:]
    error = error[np.isin(months_of(station)[FILLING_DAYS:], (2, 3, 4, 5, 6))]
    return float(np.sqrt(np.nanmean(error**2)))


def fitted_estimate(station: Station, years_back: int = 99) -> np.ndarray:
    """Each year from the years before it; NaN where there is less than a year and a half."""
    series = station.series
    out = np.full(len(series), np.nan)
    for year in range(FIRST_YEAR, LAST_YEAR + 1):
        past = series.between(date(year - years_back, 1, 1), date(year - 1, 12, 31))
        fitted = fit_soil_from_air(past, station.lat, form_without(station.name))
        if fitted.days < 220:
            continue
        # The three months before fill the moving averages.
        window = series.between(date(year - 1, 10, 1), date(year, 12, 31))
        estimate = fitted.apply(window)
        start = (date(year, 1, 1) - series.first_day).days
        mine = estimate[(date(year, 1, 1) - window.first_day).days :]
        out[start : start + len(mine)] = mine
    return out


def rows() -> list[tuple[str, str]]:
    weighted = [spring_rmse(s, eleven_day_weighted_mean(s.series.tmean_c)) for s in stations()]
    generic = [spring_rmse(s, generic_estimate(s)) for s in stations()]
    fitted = [spring_rmse(s, fitted_estimate(s)) for s in stations()]
    one_year = [spring_rmse(s, fitted_estimate(s, years_back=1)) for s in stations()]
    return [
        ("soil from air, 11-day weighted mean (published), RMSE", _told(weighted)),
        ("soil from air, generic, stations left out, RMSE", _told(generic)),
        ("soil from air, fitted on the station's earlier years, RMSE", _told(fitted)),
        ("soil from air, fitted on one earlier year, RMSE", _told(one_year)),
    ]


def _told(errors: list[float]) -> str:
    return f"{np.median(errors):.2f} °C (worst station {np.max(errors):.2f})"


if __name__ == "__main__":
    for figure, measured in rows():
        print(f"{figure}: {measured}")
