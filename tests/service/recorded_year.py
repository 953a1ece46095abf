"""A made-up station record as a file, and records spoilt after a day."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import numpy as np

from jobs.agronomy.series import COLUMNS, DailySeries
from jobs.sources.recorded import Station
from tests.unit.made_soil import made_series

#: A made-up station near the middle of the continent.
NAME = "XX_Elm_Hollow_1_N"
PLACE = (39.18, -96.57)
SERIES = made_series(first=date(2011, 1, 1), last=date(2018, 12, 31), noise_c=2.0, seed=7)
STATION = Station(NAME, *PLACE, SERIES, timedelta(hours=-6))


def write_record(folder, series=SERIES, name=NAME, *, place=PLACE):
    """Write a series as a station's file; with a place, list it in INDEX.csv beside it."""
    path = folder / f"{name}.csv"
    lines = [",".join(["date", *COLUMNS])]
    for i in range(len(series)):
        values = (getattr(series, column)[i] for column in COLUMNS)
        told = ("" if np.isnan(value) else f"{value:.2f}" for value in values)
        lines.append(",".join([(series.first_day + timedelta(days=i)).isoformat(), *told]))
    path.write_text("\n".join(lines) + "\n")
    if place is not None:
        index = folder / "INDEX.csv"
        listed = index.read_text() if index.exists() else "station,lat,lon\n"
        index.write_text(f"{listed}{name},{place[0]},{place[1]}\n")
    return path


def _shuffled(values):
    out = values.copy()
    np.random.default_rng(5).shuffle(out)
    return out


#: What later days are replaced by.
NONSENSE = {
    "huge": lambda values: np.full(len(values), 1e9),
    "very cold": lambda values: np.full(len(values), -60.0),
    "a heat that never came": lambda values: np.full(len(values), 15.0),
    "missing": lambda values: np.full(len(values), np.nan),
    "shuffled": _shuffled,
}


def spoilt_after(series: DailySeries, day: date, kind: str) -> DailySeries:
    """Return a series whose every value after a day is nonsense."""
    at = (day - series.first_day).days + 1
    columns = {}
    for name in COLUMNS:
        values = getattr(series, name).copy()
        values[at:] = NONSENSE[kind](values[at:])
        columns[name] = values
    return replace(series, **columns)
