"""What a source that is off does to the word, and what a few readings of a thermometer mend.

Run from the repository: ``python -m tests.bench.source_bias``. Needs ``../shared/data/soil``.
The replay sees true soil; people see a model's. Each station's record is bent in history and
present alike, except for the step, which comes with the year that is played (a provider has changed
its model); emergence and the 55 °F crossing are those of the true record. The readings (0.6 °C
noise, seeded) are taken on days spread over the five weeks up to five weeks before emergence, and
each counts from its day on. Every third station-year that counts.

Besides, how often a source is told to have stepped away from its own past where nothing has
changed, and where it is 1.5 °C warmer or colder from 1 January of the year on.
"""

from __future__ import annotations

import zlib
from collections.abc import Callable
from dataclasses import replace
from datetime import date, timedelta

import numpy as np

from jobs.agronomy.climatology import Climate, fit_climate, leap_slots
from jobs.agronomy.emergence import emergence
from jobs.agronomy.outlook import Outlook, make_outlook
from jobs.agronomy.readout import crossing
from jobs.agronomy.series import DailySeries, FloatArray
from jobs.agronomy.soil import fill_short_gaps, trailing_mean
from jobs.agronomy.source_step import SourceStep, shared_step_c, source_step
from jobs.agronomy.thermometer import THERMOMETER_SD_C, Reading
from jobs.agronomy.timing import days_to_go_by
from jobs.agronomy.yard_shift import fit_yard
from jobs.sources.recorded import Station
from tests.bench.scoring import BANDS, THRESHOLD_C, baseline_of, lower_bound, truth_of
from tests.bench.soil_from_air import stations
from tests.bench.window_open import (
    EARLIER_YEARS,
    LAST_YEAR,
    LEAD_DAYS,
    emerged_on,
    in_days,
    is_in_time,
)

Bend = Callable[[DailySeries, int], FloatArray]
READINGS = (0, 3, 8)
EVERY = 3
STEP_MONTHS = (2, 3, 4, 5)
STEPS = {"nothing changed": 0.0, "1.5 °C warmer": 1.5, "colder": -1.5}
PLACES = 8
#: Looks start so many days before the true emergence: nothing is told before.
LOOKS_FROM = 80
#: Crossings are named once a week from so many days before the true one.
CROSSINGS_FROM = 60
#: Standing error of a modelled cell, as for people (`jobs.yard_soil`).
MODELLED_SD_C = 1.2


def _by_season(series: DailySeries, _: int) -> FloatArray:
    angle = 2 * np.pi * leap_slots(series.first_day, len(series)) / 366
    return np.asarray(series.soil5_c + np.sin(angle))


def _damped(series: DailySeries, _: int) -> FloatArray:
    smooth = trailing_mean(fill_short_gaps(series.soil5_c), 5)
    return np.asarray(0.5 * series.soil5_c + 0.5 * np.where(np.isnan(smooth), np.nan, smooth))


def _step(series: DailySeries, year: int) -> FloatArray:
    days = (date(year, 1, 1) - series.first_day).days
    return np.asarray(series.soil5_c + 1.5 * (np.arange(len(series)) >= days))


BENDS: dict[str, Bend] = {
    "true": lambda series, _: series.soil5_c,
    "1.5 °C warm": lambda series, _: series.soil5_c + 1.5,
    "1.5 °C cold": lambda series, _: series.soil5_c - 1.5,
    "a degree warm in spring, cold in autumn": _by_season,
    "damped peaks": _damped,
    "1.5 °C warmer from this year on": _step,
}


def days_ahead(station: Station, year: int, emerged: date, bend: Bend, count: int) -> int:
    """Return how many days before true emergence the word is given; -1 for never."""
    seen, climate = _as_seen(station, year, bend)
    readings = _readings(station, year, emerged, count)
    for ahead in range(LOOKS_FROM, -1, -1):
        told_on = emerged - timedelta(days=ahead)
        outlook = _outlook(climate, seen, told_on - timedelta(days=1), readings)
        days = in_days(emergence(outlook), told_on)
        soil_c = float(trailing_mean(outlook.known_c[-5:])[-1])
        to_go_by = days_to_go_by(days.p50, soil_c, p10_days=days.p10, p90_days=days.p90)
        if to_go_by is not None and to_go_by <= LEAD_DAYS:
            return ahead
    return -1


def crossing_errors(
    station: Station, year: int, emerged: date, bend: Bend, count: int
) -> list[tuple[int, int, int]]:
    """Return days ahead, days off and the five-year curve's days off for each week's outlook.

    Truth and curve are those of the true record.
    """
    truth = truth_of(station.series, year)
    curve = baseline_of(station.series, year)
    if truth is None or curve is None:
        return []
    seen, climate = _as_seen(station, year, bend)
    readings = _readings(station, year, emerged, count)
    found = []
    for ahead in range(CROSSINGS_FROM, 0, -7):
        issued = truth - timedelta(days=ahead)
        outlook = _outlook(climate, seen, issued, readings)
        named = crossing(outlook, THRESHOLD_C).p50 or date(year, 7, 31)
        # A source that is warm may have it behind it: said for tomorrow at the earliest, as truth
        # is still to come.
        off, curve_off = (
            abs((max(day, issued + timedelta(days=1)) - truth).days) for day in (named, curve)
        )
        found.append((ahead, off, curve_off))
    return found


def _as_seen(station: Station, year: int, bend: Bend) -> tuple[DailySeries, Climate]:
    true = station.series
    seen = replace(true, soil5_c=np.asarray(bend(true, year), dtype=np.float64))
    return seen, fit_climate(seen.until(date(year - 1, 12, 31)))


def _outlook(climate: Climate, seen: DailySeries, issued: date, readings: list[Reading]) -> Outlook:
    outlook = make_outlook(climate, seen, issued)
    taken = [reading for reading in readings if reading.day <= issued]
    if not taken:
        return outlook
    shift = fit_yard(taken, seen.until(issued), cell_sd_c=MODELLED_SD_C)
    return replace(
        outlook,
        known_c=shift.apply(outlook.known_first_day, outlook.known_c),
        paths_c=shift.apply(outlook.first_day, outlook.paths_c.astype(float)).astype(np.float32),
    )


def _readings(station: Station, year: int, emerged: date, count: int) -> list[Reading]:
    rng = np.random.default_rng(zlib.crc32(f"{station.name} {year}".encode()))
    noise = rng.normal(0, THERMOMETER_SD_C, max(READINGS))
    found = []
    for number in range(count):
        day = emerged - timedelta(days=70 - round(35 * (number + 0.5) / count))
        value = station.series.on(day, day).soil5_c[0]
        if np.isfinite(value):
            found.append(Reading(day, float(value + noise[number]), THERMOMETER_SD_C))
    return found


def station_years() -> list[tuple[Station, int, date]]:
    """Return every `EVERY`-th station-year that counts, and its emergence."""
    found = []
    for station in stations():
        for year in range(station.series.first_day.year + EARLIER_YEARS, LAST_YEAR + 1):
            emerged = emerged_on(station.series, year)
            if emerged is not None:
                found.append((station, year, emerged))
    return found[::EVERY]


def rows() -> list[tuple[str, str]]:
    found = []
    played = station_years()
    names = [station.name for station, _, _ in played]
    for label, bend in BENDS.items():
        for count in READINGS:
            days = np.array([days_ahead(*one, bend, count) for one in played])
            hits = [is_in_time(int(d)) for d in days]
            figure = f"10-35 days, source {label}, {count} readings ({len(played)} years)"
            measured = (
                f"{np.mean(hits):.3f} (lower bound {lower_bound(names, hits):.3f}), "
                f"early {(days > 35).sum()}, late {(days < 10).sum()}, days {np.median(days):.0f}"
            )
            found.append((figure, measured))
            weeks = np.array([w for one in played for w in crossing_errors(*one, bend, count)])
            figure = f"55 °F crossing, source {label}, {count} readings: days off (over the curve)"
            found.append((figure, " / ".join(_off(weeks, band) for band in BANDS)))
    return found


def _off(weeks: np.ndarray, band: tuple[int, int]) -> str:
    mine = weeks[(weeks[:, 0] >= band[0]) & (weeks[:, 0] <= band[1])]
    return f"{mine[:, 1].mean():.1f} ({mine[:, 1].sum() / mine[:, 2].sum():.2f})"


def step_rows() -> list[tuple[str, str]]:
    """Return how often a step is told, by the day looked at: at one place, and over places."""
    found_rows = []
    for month in STEP_MONTHS:
        steps = _steps(month)
        names = [name for name, _ in steps]
        single, shared = [], []
        for what, step_c in STEPS.items():
            told = [_is_told(found[step_c], step_c) for found in steps.values()]
            single.append(
                f"{what} {np.mean(told):.3f} (lower bound {lower_bound(names, told):.2f})"
            )
            hits = [_is_shared(steps, year, step_c) for year in sorted({y for _, y in steps})]
            known = [hit for hit in hits if hit is not None]
            shared.append(f"{what} {sum(known)} of {len(known)}")
        at = f"a step told by the 15th of month {month}"
        found_rows += [
            (f"{at}, one place ({len(steps)} years)", ", ".join(single)),
            (f"{at}, eight of the places, drawn, of a year", ", ".join(shared)),
        ]
    return found_rows


def _steps(month: int) -> dict[tuple[str, int], dict[float, SourceStep]]:
    """Return what is found at each station-year, by the step it was given."""
    found = {}
    for station in stations():
        series = station.series
        for year in range(series.first_day.year + EARLIER_YEARS, LAST_YEAR + 1):
            from_here = np.arange(len(series)) >= (date(year, 1, 1) - series.first_day).days
            here = {}
            for step_c in STEPS.values():
                seen = replace(series, soil5_c=series.soil5_c + step_c * from_here)
                step = source_step(seen, date(year, month, 15), station.lat)
                if step is not None:
                    here[step_c] = step
            if len(here) == len(STEPS):
                found[station.name, year] = here
    return found


def _is_told(step: SourceStep, given_c: float) -> bool:
    return step.is_sure and (given_c == 0.0 or step.step_c * given_c > 0)


def _is_shared(
    steps: dict[tuple[str, int], dict[float, SourceStep]], year: int, given_c: float
) -> bool | None:
    mine = [found[given_c] for (_, played), found in steps.items() if played == year]
    if len(mine) < PLACES:
        return None
    drawn = np.random.default_rng(year).permutation(len(mine))[:PLACES]
    shared_c = shared_step_c([mine[n] for n in drawn])
    return shared_c is not None and (given_c == 0.0 or shared_c * given_c > 0)


if __name__ == "__main__":
    for figure, measured in [*step_rows(), *rows()]:
        print(f"{figure}: {measured}", flush=True)
