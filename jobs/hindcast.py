"""What the outlook would have said: back-forecasts of a threshold crossing on a measured record.

Row by row only days up to the issue date are looked at, and no other station.
"""

from __future__ import annotations

import csv
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final, TextIO

from jobs.agronomy.climatology import OWN_YEARS, Climate, fit_climate
from jobs.agronomy.outlook import make_outlook
from jobs.agronomy.readout import crossing
from jobs.agronomy.series import DailySeries
from jobs.agronomy.soil import fill_short_gaps, first_at_or_above, trailing_mean

#: Month and day of the first issue of a year, and of the last day a crossing can fall on.
FIRST_ISSUE: Final = (2, 1)
LAST_CROSSING: Final = (7, 31)

NEVER: Final = "never"

COLUMNS: Final = ("station", "year", "issued", "threshold_c", "p10", "p50", "p90")


@dataclass(frozen=True, slots=True)
class HindcastRow:
    """One back-forecast: quantiles of the first day at or above the threshold.

    ``issued`` is the last day whose mean was known; None stands for "not before 31 July".
    """

    station: str
    year: int
    issued: date
    threshold_c: float
    p10: date | None
    p50: date | None
    p90: date | None


def first_crossing(series: DailySeries, threshold_c: float, year: int) -> date | None:
    """Return the first day of a year whose trailing 5-day mean reaches a threshold, or None.

    Gaps of up to four days are filled by a straight line; a window with a longer one has no mean.
    """
    start = date(year, 1, 1)
    soil_c = fill_short_gaps(series.on(start - timedelta(days=10), date(year, 12, 31)).soil5_c)
    there = int(first_at_or_above(trailing_mean(soil_c)[10:], threshold_c))
    return None if there < 0 else start + timedelta(days=there)


def hindcast_rows(
    series: DailySeries,
    *,
    threshold_c: float,
    from_year: int,
    to_year: int,
    every_days: int = 7,
    forecasts: Mapping[date, DailySeries] | None = None,
    station: str = "",
) -> Iterator[HindcastRow]:
    """Yield what the outlook would have said through the springs of some years.

    For each year with at least three full earlier ones: one row for 1 February and every
    ``every_days``-th day after, up to the day before the threshold is first reached.

    Parameters
    ----------
    series
        The station's record.
    threshold_c
        Of the trailing 5-day mean at 5 cm [°C].
    from_year, to_year
        First and last year, inclusive.
    every_days
        Days from one issue to the next, at least 1.
    forecasts
        A weather service's soil forecasts by issue date (the days after it), used for rows with
        the same issue date.
    station
        Name to put into the rows.

    Raises
    ------
    ValueError
        If ``every_days`` is less than 1.
    """
    if every_days < 1:
        raise ValueError(f"every_days must be at least 1, not {every_days}")
    for year in range(from_year, to_year + 1):
        climate = fit_climate(series.until(date(year - 1, 12, 31)))
        if len(climate.years) < OWN_YEARS:
            continue
        last = min(date(year, *LAST_CROSSING), series.last_day)
        issued = date(year, *FIRST_ISSUE)
        while issued < last:
            known = series.until(issued)
            if first_crossing(known, threshold_c, year) is not None:
                break
            forecast = None if forecasts is None else forecasts.get(issued)
            yield _row(climate, known, issued, threshold_c, forecast, station)
            issued += timedelta(days=every_days)


def write_forecasts_csv(rows: Iterable[HindcastRow], file: TextIO) -> int:
    """Write rows as CSV with a header; return how many."""
    writer = csv.writer(file, lineterminator="\n")
    writer.writerow(COLUMNS)
    count = 0
    for count, row in enumerate(rows, start=1):  # noqa: B007 - the count is what is returned
        dates = (NEVER if d is None else d.isoformat() for d in (row.p10, row.p50, row.p90))
        writer.writerow(
            [row.station, row.year, row.issued.isoformat(), f"{row.threshold_c:.4f}", *dates]
        )
    return count


def _row(
    climate: Climate,
    known: DailySeries,
    issued: date,
    threshold_c: float,
    forecast: DailySeries | None,
    station: str,
) -> HindcastRow:
    until = date(issued.year, *LAST_CROSSING)
    soil_c = None
    if forecast is not None:
        tomorrow = issued + timedelta(days=1)
        soil_c = forecast.on(tomorrow, max(tomorrow, forecast.last_day)).soil5_c
    outlook = make_outlook(climate, known, issued, forecast_soil5_c=soil_c, until=until)
    when = crossing(outlook, threshold_c, since=date(issued.year, 1, 1))
    # Where the newest days are missing the members start earlier, and may cross before issue; that
    # it has not been seen to cross is known.
    soonest = issued + timedelta(days=1)
    dates = [None if d is None else max(d, soonest) for d in (when.p10, when.p50, when.p90)]
    return HindcastRow(station, issued.year, issued, threshold_c, *dates)
