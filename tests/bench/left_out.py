"""What the outlook and the word are worth where nothing was fitted to the place.

Run from the repository: ``python -m tests.bench.left_out``. Needs ``../shared/data/soil``. Six
minutes of one core.

Two things are pooled over the stations: how departures of the soil persist (`members.persistence`)
and the settings of the word (`timing`). Here both are fitted anew for each station, on the others,
and on those more than `BLOCK_KM` away, and then scored on the station alone. The persistence is
least squares of the departure 1-60 days ahead on `running_state`, February to May, each
year against a climate fitted on earlier ones. The settings are the best of `SETTINGS`, by the share
of words in time less the share under 7 days: lead, late and early limit, cost of a day late, days
for warm and for cold ground.
"""

from __future__ import annotations

import itertools
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import date
from functools import cache
from math import cos, hypot, radians

import numpy as np
from numpy.lib.stride_tricks import sliding_window_view
from scipy.special import ndtr

from jobs.agronomy import members
from jobs.agronomy.climatology import OWN_YEARS, fit_climate, leap_slots
from jobs.agronomy.running_state import MEMORY_DAYS, running_state
from jobs.agronomy.series import DailySeries
from jobs.agronomy.timing import COLD_GROUND_C, WARM_GROUND_C
from jobs.sources.recorded import Station
from tests.bench import outlook_table, window_open
from tests.bench.scoring import BANDS, by_band, lower_bound
from tests.bench.soil_from_air import stations
from tests.bench.window_open import StationYear, is_in_time

BLOCK_KM = 400.0
YEARS = range(2012, 2025)
AHEAD_DAYS = 60
#: Late and early limit, cost of a day late, days for warm ground, for cold ground, lead.
SETTINGS = tuple(
    itertools.product((8, 10, 12), (5, 7, 9), (1.0, 2.0, 3.0), (0, 2, 4, 6), (0, 3), range(18, 25))
)
SDS_TO_P90 = 1.2816

Fit = tuple[np.ndarray, np.ndarray]


def near(station: Station, within_km: float) -> frozenset[str]:
    """Return the stations within a distance, itself among them."""

    def apart_km(other: Station) -> float:
        east = (other.lon - station.lon) * cos(radians((other.lat + station.lat) / 2))
        return 111.2 * hypot(other.lat - station.lat, east)

    return frozenset(other.name for other in stations() if apart_km(other) <= within_km)


#: Whose records are kept from a station's fit.
APART: dict[str, Callable[[Station], frozenset[str]]] = {
    "on all": lambda _: frozenset(),
    "without the station": lambda station: frozenset({station.name}),
    f"without all within {BLOCK_KM:.0f} km": lambda station: near(station, BLOCK_KM),
}


@cache
def _sums() -> dict[str, Fit]:
    return {station.name: _sums_of(station.series) for station in stations()}


def _sums_of(series: DailySeries) -> Fit:
    """Return the normal equations of one station: parts of the state by ground and time scale."""
    fading = np.exp(-np.arange(1, AHEAD_DAYS + 1)[:, None] / np.array(members._FADING_DAYS))
    cold_c, warm_c = members._COLD_AND_WARM_C
    square, right = np.zeros((16, 16)), np.zeros(16)
    for year in YEARS:
        climate = fit_climate(series.until(date(year - 1, 12, 31)))
        if len(climate.years) < OWN_YEARS or climate.air_mean_c is None:
            continue
        first = date(year - 1, 9, 1)
        seen = series.on(first, date(year, 7, 31))
        slots = leap_slots(first, len(seen))
        departure_c = seen.soil5_c - climate.mean_c[slots]
        days = np.arange((date(year, 2, 1) - first).days, (date(year, 6, 1) - first).days)
        days = days[np.isfinite(departure_c[days])]
        air_c = seen.tmean_c - climate.air_mean_c[slots]
        before = days - MEMORY_DAYS + 1
        soil_before_c, air_before_c = (
            sliding_window_view(np.nan_to_num(each), MEMORY_DAYS)[before]
            for each in (departure_c, air_c)
        )
        state = running_state(soil_before_c, air_before_c.astype(np.float32))
        warmth = np.clip((climate.mean_c[slots][days] - cold_c) / (warm_c - cold_c), 0.0, 1.0)
        parts = np.hstack([state * (1.0 - warmth)[:, None], state * warmth[:, None]])
        left_c = departure_c[days[:, None] + np.arange(1, AHEAD_DAYS + 1)]
        known = np.isfinite(left_c).astype(float)
        kept = np.einsum("th,hk,hl->tkl", known, fading, fading)
        square += np.einsum("ti,tj,tkl->ikjl", parts, parts, kept).reshape(16, 16)
        right += np.einsum("ti,th,hk->ik", parts, np.nan_to_num(left_c), fading).ravel()
    return square, right


@contextmanager
def persistence_without(out: frozenset[str]) -> Iterator[None]:
    """Let departures persist as they do on the stations that are not left out."""
    kept = members._ON_COLD_GROUND, members._ON_WARM_GROUND
    mine = [fit for name, fit in _sums().items() if name not in out]
    square, right = (np.sum([fit[part] for fit in mine], axis=0) for part in (0, 1))
    cold, warm = np.linalg.solve(square, right).reshape(2, 4, 2).tolist()
    try:
        _go_by(cold, warm)
        yield
    finally:
        _go_by(*kept)


def _go_by(cold: object, warm: object) -> None:
    members._ON_COLD_GROUND, members._ON_WARM_GROUND = cold, warm  # type: ignore[assignment,misc]
    members._fading.cache_clear()


def crossing_rows(label: str, apart: Callable[[Station], frozenset[str]]) -> list[tuple[str, str]]:
    """Return the rows on the 55 °F crossing, the persistence fitted without each station."""
    names, plain, drawn = [], [], []
    for station in stations():
        with persistence_without(apart(station)):
            found = outlook_table.scored_rows([station])
        names += found.stations
        plain += found.plain
        drawn += found.drawn
    bounds = " / ".join(f"{outlook_table.bound(names, plain, *band):.2f}" for band in BANDS[:3])
    near_bands = [by_band(plain)[band] for band in BANDS[:3]]
    rows = [
        (
            f"55 °F crossing over the five-year curve (and 90 % bound), fitted {label}",
            f"{outlook_table.each(near_bands, outlook_table.over_baseline)} ({bounds})",
        )
    ]
    for kind, scored in (("no forecast", plain), ("emulated forecast", drawn)):
        bands = by_band(scored).values()
        days = outlook_table.each(bands, outlook_table.days_off)
        held = outlook_table.each(bands, outlook_table.inside)
        rows.append((f"days off, and truths inside p10-p90, {kind}", f"{days}; {held}"))
    return rows


def word_rows(label: str, apart: Callable[[Station], frozenset[str]]) -> list[tuple[str, str]]:
    """Return the share of words in time: persistence, then settings too, fitted without each."""
    found = []
    for with_forecast, kind in ((False, "no forecast"), (True, "emulated forecast")):
        played: list[StationYear] = []
        window_open.station_years.cache_clear()
        for station in stations():
            with persistence_without(apart(station)):
                played += window_open.station_years(
                    with_forecast=with_forecast, names=frozenset({station.name})
                )
        names = [one.station for one in played]
        figures = []
        for days in (np.array([one.days_ahead() for one in played]), _days_chosen(played, apart)):
            hits = [is_in_time(int(n)) for n in days]
            figures.append(
                f"{np.mean(hits):.3f} (lower bound {lower_bound(names, hits):.3f}, "
                f"under 7 days {(days < 7).sum()})"
            )
        found.append(
            (
                f"word in time, {kind}, fitted {label}: persistence; every setting as well",
                "; ".join(figures),
            )
        )
    return found


def _days_chosen(
    played: list[StationYear], apart: Callable[[Station], frozenset[str]]
) -> np.ndarray:
    """Return days from the word to emergence by the settings that are best elsewhere."""
    by_setting = _days_by_setting(played)
    worth = ((by_setting >= 10) & (by_setting <= 35)).astype(float) - (by_setting < 7)
    names = np.array([one.station for one in played])
    out = np.zeros(len(played))
    for station in stations():
        mine = names == station.name
        others = ~np.isin(names, list(apart(station)))
        if mine.any():
            out[mine] = by_setting[int(np.argmax(worth[:, others].mean(axis=1)))][mine]
    return out


def _days_by_setting(played: list[StationYear]) -> np.ndarray:
    """Return days from the word to emergence, -1 for never, shape (settings, years)."""
    looks = [(n, one, look) for n, one in enumerate(played) for look in one.looks if look.median]
    year = np.array([n for n, _, _ in looks])
    left = np.array([(one.emerged_on - look.told_on).days for _, one, look in looks])
    median = np.array([look.median for _, _, look in looks], dtype=float)
    soil_c = np.array([look.soil_5day_c for _, _, look in looks])
    spread = np.maximum(np.array([look.spread for _, _, look in looks]) / SDS_TO_P90, 1.0)
    out = np.full((len(SETTINGS), len(played)), -1)
    balance = cache(lambda *loss: _balance(spread, *loss))
    for n, (late, early, cost, warm, cold, lead) in enumerate(SETTINGS):
        days = median - warm * (soil_c >= WARM_GROUND_C) + cold * (soil_c < COLD_GROUND_C)
        is_due = np.ceil(days + balance(late, early, cost)) <= lead
        np.maximum.at(out[n], year[is_due], left[is_due])
    return out


def _balance(spread: np.ndarray, late: float, early: float, cost: float) -> np.ndarray:
    """Return how far the balance lies beyond the median (`timing`), by bisection."""
    low, high = np.full(len(spread), -float(late)), np.full(len(spread), float(early))
    for _ in range(30):
        middle = (low + high) / 2.0
        is_late = cost * ndtr((-late - middle) / spread) > ndtr((middle - early) / spread)
        low, high = np.where(is_late, middle, low), np.where(is_late, high, middle)
    return np.asarray(-middle)


if __name__ == "__main__":
    for about, left in APART.items():
        rows = crossing_rows(about, left)
        if left(stations()[0]):
            rows += word_rows(about, left)
        for figure, measured in rows:
            print(f"{figure}: {measured}", flush=True)
