"""What a first outlook leans on: the usual year of the region, or the years of a neighbour.

    python -m tests.bench.first_outlook

A new place knows eight weeks. Of stations that stand for neighbours, by how far they are apart:
mean days off of the 55 °F crossing, named on four days of each spring, with the place's own years;
with the region's usual year; with the neighbour's years, moved by how far the eight weeks differ.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import date, timedelta

import numpy as np

from jobs.agronomy.climatology import fit_climate
from jobs.agronomy.outlook import make_outlook
from jobs.agronomy.readout import crossing
from jobs.agronomy.series import DailySeries
from jobs.sources.answers import distance_km
from jobs.sources.recorded import Station
from tests.bench.scoring import THRESHOLD_C, YEARS, truth_of
from tests.bench.soil_from_air import stations

_KNOWN_DAYS = 56
_ISSUED = ((2, 15), (3, 1), (3, 15), (4, 1))
#: Pairs by how far they are apart [km], and at most so many of each.
_APART_KM = ((0, 30), (30, 200), (200, 300))
_PAIRS = 12


def pairs(low_km: float, high_km: float) -> Iterator[tuple[Station, Station]]:
    """Return stations with a neighbour so far away, the nearest pairs first."""
    found = [
        (distance_km((one.lat, one.lon), (other.lat, other.lon)), one, other)
        for one in stations()
        for other in stations()
        if one is not other
    ]
    near = sorted((each for each in found if low_km <= each[0] < high_km), key=lambda each: each[0])
    return ((one, other) for _, one, other in near[:_PAIRS])


def errors(one: Station, other: Station) -> Iterator[tuple[int, int, int]]:
    """Return the days off on each day of issue: by own years, the region's, and a neighbour's."""
    series = one.series
    for year in YEARS:
        truth = truth_of(series, year)
        if truth is None:
            continue
        for month, day in _ISSUED:
            issued = date(year, month, day)
            since = issued - timedelta(days=_KNOWN_DAYS - 1)
            before, lately = since - timedelta(days=1), series.on(since, issued)
            theirs = other.series.until(before)
            is_known = np.isfinite(lately.soil5_c).mean() > 0.8
            if issued >= truth or not is_known or len(theirs) < 3 * 365:
                continue
            differs = lately.soil5_c - other.series.on(since, issued).soil5_c
            if not np.isfinite(differs).any():
                continue
            moved = replace(theirs, soil5_c=theirs.soil5_c + np.nanmean(differs))
            found = []
            for history, known in (
                (series.until(before), series.until(issued)),
                (DailySeries.empty(since), lately),
                (moved, lately),
            ):
                outlook = make_outlook(fit_climate(history, lat=one.lat), known, issued)
                named = crossing(outlook, THRESHOLD_C).p50 or date(year, 7, 31)
                found.append(abs((named - truth).days))
            yield found[0], found[1], found[2]


def main() -> None:
    """Print a line for each distance."""
    for low_km, high_km in _APART_KM:
        every = [each for pair in pairs(low_km, high_km) for each in errors(*pair)]
        own, region, neighbour = np.mean(every, axis=0) if every else (np.nan,) * 3
        print(
            f"{low_km}-{high_km} km apart: {len(every)} outlooks, days off by own years {own:.1f}, "
            f"by the region {region:.1f}, by the neighbour's years {neighbour:.1f}"
        )


if __name__ == "__main__":
    main()
