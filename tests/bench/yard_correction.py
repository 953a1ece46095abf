"""How much five readings help a yard: one station as the cell, its neighbour as the yard.

Run from the repository: ``python -m tests.bench.yard_correction``. Needs ``../shared/data/soil``.
Every Wednesday from January to May with five readings on random days of the last 30 (0.6 °C noise,
seeded): error of the cell over the next 14 days as it is, and corrected; February-May, pooled over
both pairs each way. Beyond the cell's course nothing later than the issue date is used.

As a check on stations that had no part in choosing the prior, every other station plays the yard of
a cell whose soil is estimated from its air by the generic form.
"""

from __future__ import annotations

import zlib
from dataclasses import replace
from datetime import timedelta

import numpy as np

from jobs.agronomy.series import DailySeries
from jobs.agronomy.soil import fill_short_gaps
from jobs.agronomy.thermometer import Reading, fit_yard
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
    name: str, cell: DailySeries, yard: DailySeries, cell_sd_c: float = 0.0
) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Raw and corrected errors [°C] and standardised errors of the correction, pooled."""
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
        shift = fit_yard(readings, cell.between(first, today), cell_sd_c=cell_sd_c)
        course = fill_short_gaps(known[ahead], AHEAD_DAYS)
        tomorrow = today + timedelta(days=1)
        left = truth[ahead] - shift.apply(tomorrow, course)
        raw.append((truth - known)[ahead][is_counted])
        corrected.append(left[is_counted])
        standard.append((left / shift.offset_sd_c(tomorrow, course))[is_counted])
    return np.concatenate(raw), np.concatenate(corrected), np.concatenate(standard)


def ratio(raw: np.ndarray, corrected: np.ndarray) -> float:
    return float(np.sqrt(np.mean(corrected**2) / np.mean(raw**2)))


def rows() -> list[tuple[str, str]]:
    by_name = {s.name: s for s in stations()}
    pairs = [errors(yard, by_name[cell].series, by_name[yard].series) for cell, yard in PAIRS]
    raw, corrected, standard = (np.concatenate(part) for part in zip(*pairs, strict=True))
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
