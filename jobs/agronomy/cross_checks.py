"""Rules on air temperature, held beside the emergence clock: they decide nothing.

Counted from 1 January they are passed in midwinter where winters are mild. Constants, their
sources and certainty: ``weeds.toml``.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta

import numpy as np

from jobs.agronomy import tables
from jobs.agronomy.series import DailySeries, FloatArray
from jobs.agronomy.soil import degree_days_max_min, first_at_or_above
from jobs.agronomy.units import c_from_f


@dataclass(frozen=True, slots=True)
class AirCheck:
    """What a rule on air temperature says by a day.

    Attributes
    ----------
    name
        Of the rule in the table.
    sum_f
        Degree-days so far [°F d]; missing days were bridged.
    low_f, high_f
        The band in which crabgrass begins to emerge [°F d].
    low_on, high_on
        Days on which the ends of the band were reached, or None.
    missing_days
        Days of the count without air data.
    source, certainty
        Of the constants.
    """

    name: str
    sum_f: float
    low_f: float
    high_f: float
    low_on: date | None
    high_on: date | None
    missing_days: int
    source: str
    certainty: str


def air_checks(recent: DailySeries, today: date) -> tuple[AirCheck, ...]:
    """Return what the rules on air temperature say by ``today``, for the year of ``today``.

    They are cross-checks only: counted from 1 January they are passed in midwinter where winters
    are mild. Missing days are bridged by a straight line and counted.
    """
    found = []
    for name, row in tables.load("weeds")["air"].items():
        start = date(today.year, *row["count_from"])
        window = recent.until(today).on(start, max(start, today))
        middle = (window.tmax_c + window.tmin_c) / 2
        bridged, missing = _bridged(middle)
        sums = 1.8 * degree_days_max_min(bridged, bridged, c_from_f(row["base_f"])).cumsum()
        found.append(
            AirCheck(
                name=name,
                sum_f=float(sums[-1]),
                low_f=row["low_f"],
                high_f=row["high_f"],
                low_on=_day_of(sums, row["low_f"], start),
                high_on=_day_of(sums, row["high_f"], start),
                missing_days=missing,
                source=row["source"],
                certainty=row["certainty"],
            )
        )
    return tuple(found)


def _bridged(values: FloatArray) -> tuple[FloatArray, int]:
    known = np.flatnonzero(~np.isnan(values))
    missing = len(values) - len(known)
    if not len(known):
        return np.full(len(values), -np.inf), missing
    return np.interp(np.arange(len(values)), known, values[known]), missing


def _day_of(sums: FloatArray, wanted: float, start: date) -> date | None:
    there = int(first_at_or_above(sums, wanted))
    return None if there < 0 else start + timedelta(days=there)
