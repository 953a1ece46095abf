"""How much five readings help a yard: one station as the cell, its neighbour as the yard.

Run from the repository: ``python -m tests.bench.yard_correction``. Needs ``../shared/data/soil``.
Every Wednesday from January to May with five readings on random days of the last 30 (0.6 °C noise,
seeded): error of the cell over the next 14 days as it is, and corrected; February-May, pooled over
both pairs each way. Of the days to come only the cell's own soil and air are used, in place of a
forecast; what its air explains comes from a generic form fitted without both stations.

As a check on stations that had no part in choosing the prior, every other station plays the yard of
a cell whose soil is estimated from its air by the generic form.
"""

from __future__ import annotations

import zlib
from collections.abc import Mapping
from dataclasses import replace
from datetime import timedelta

import numpy as np

from jobs.agronomy.series import DailySeries
from jobs.agronomy.soil import fill_short_gaps
from jobs.agronomy.thermometer import Reading
from jobs.agronomy.yard_shift import fit_yard
from jobs.sources.recorded import Station
from tests.bench.soil_from_air import generic_estimate, stations

PAIRS = (
    ("NH_Durham_2_N", "NH_Durham_2_SSW"),
    ("NH_Durham_2_SSW", "NH_Durham_2_N"),
    ("NE_Lincoln_8_ENE", "NE_Lincoln_11_SW"),
    ("NE_Lincoln_11_SW", "NE_Lincoln_8_ENE"),
)
NOISE_C = 0.6
READINGS = 5
BACK_DAYS, AHEAD_DAYS = 30, 14
#: Standing error of a cell that knows only air, beyond the ordinary [°C]: its spread between
#: stations.
FROM_AIR_SD_C = 1.2


def errors(
    name: str,
    cell: DailySeries,
    yard: DailySeries,
    cell_sd_c: float = 0.0,
    explained_c: np.ndarray | None = None,
    is_air_forecast: bool = True,
) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Raw and corrected errors [°C] and standardised errors of the correction, pooled.

    ``explained_c`` is what the cell's air explains of its soil, by day of ``cell``.
    """
    first = max(cell.first_day, yard.first_day)
    last = min(cell.last_day, yard.last_day)
    known = cell.on(first, last).soil5_c
    truth = yard.on(first, last).soil5_c
    raw, corrected, standard = [], [], []
    for at in range(90, len(known) - AHEAD_DAYS):
        today = first + timedelta(days=at)
        if today.weekday() != 2 or today.month > 5:
            continue
        back = np.arange(at - BACK_DAYS + 1, at + 1)
        back = back[~np.isnan(known[back] + truth[back])]
        ahead = np.arange(at + 1, at + 1 + AHEAD_DAYS)
        is_counted = ~np.isnan(known[ahead] + truth[ahead]) & np.array(
            [2 <= (first + timedelta(days=int(d))).month <= 5 for d in ahead]
        )
        if len(back) < BACK_DAYS // 2 or is_counted.sum() < AHEAD_DAYS // 2:
            continue
        rng = np.random.default_rng(zlib.crc32(f"{name} {today}".encode()))
        days = np.sort(rng.choice(back, READINGS, replace=False))
        read = truth[days] + rng.normal(0, NOISE_C, READINGS)
        readings = [
            Reading(first + timedelta(days=int(d)), float(c), NOISE_C)
            for d, c in zip(days, read, strict=True)
        ]
        past = cell.between(first, today)
        offset = (past.first_day - cell.first_day).days
        known_air = None if explained_c is None else explained_c[offset : offset + len(past)]
        shift = fit_yard(readings, past, cell_sd_c=cell_sd_c, explained_c=known_air)
        course = fill_short_gaps(known[ahead], AHEAD_DAYS)
        tomorrow = today + timedelta(days=1)
        coming = None
        if explained_c is not None and is_air_forecast:
            coming = explained_c[offset + len(past) :][:AHEAD_DAYS]
        left = truth[ahead] - shift.apply(tomorrow, course, coming)
        raw.append((truth - known)[ahead][is_counted])
        corrected.append(left[is_counted])
        standard.append((left / shift.offset_sd_c(tomorrow, course))[is_counted])
    return np.concatenate(raw), np.concatenate(corrected), np.concatenate(standard)


def ratio(raw: np.ndarray, corrected: np.ndarray) -> float:
    return float(np.sqrt(np.mean(corrected**2) / np.mean(raw**2)))


def paired_errors(
    by_name: Mapping[str, Station], *, is_air_forecast: bool = True
) -> list[tuple[np.ndarray, np.ndarray, np.ndarray]]:
    return [
        errors(
            yard,
            by_name[cell].series,
            by_name[yard].series,
            explained_c=generic_estimate(by_name[cell]),
            is_air_forecast=is_air_forecast,
        )
        for cell, yard in PAIRS
    ]


def rows() -> list[tuple[str, str]]:
    by_name = {s.name: s for s in stations()}
    pairs = paired_errors(by_name)
    raw, corrected, standard = (np.concatenate(part) for part in zip(*pairs, strict=True))
    no_forecast, no_air = (
        ratio(*(np.concatenate(part) for part in list(zip(*other, strict=True))[:2]))
        for other in (
            paired_errors(by_name, is_air_forecast=False),
            [errors(yard, by_name[cell].series, by_name[yard].series) for cell, yard in PAIRS],
        )
    )
    paired = {name for pair in PAIRS for name in pair}
    others = []
    for station in stations():
        if station.name not in paired:
            air = replace(station.series, soil5_c=generic_estimate(station))
            others.append(errors(station.name, air, station.series, FROM_AIR_SD_C)[:2])
    each = ", ".join(f"{ratio(*pair[:2]):.2f}" for pair in pairs)
    return [
        (
            "yard correction on the paired stations, corrected over raw",
            f"{ratio(raw, corrected):.3f} ({each})",
        ),
        (
            "the same without the cell's air in the days to come / without its air at all",
            f"{no_forecast:.3f} / {no_air:.3f}",
        ),
        (
            "yard correction, share of days within its own 80 % range",
            f"{np.mean(np.abs(standard) < 1.2816):.2f}",
        ),
        (
            "yard correction on the other stations, cell from air, median corrected over raw",
            f"{np.median([ratio(*pair) for pair in others]):.2f}",
        ),
    ]


if __name__ == "__main__":
    for figure, measured in rows():
        print(f"{figure}: {measured}")
