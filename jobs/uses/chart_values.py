"""The values behind the soil chart of a yard: this year, past years and what is to come."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime, timedelta
from typing import Final

import numpy as np

from jobs import packed_cells
from jobs.agronomy.past_band import past_band
from jobs.agronomy.place import spring_picture
from jobs.agronomy.readout import fan
from jobs.agronomy.season import State, Target
from jobs.agronomy.series import FloatArray
from jobs.agronomy.soil import TRAILING_DAYS, fill_short_gaps, trailing_mean
from jobs.agronomy.whats_next import TO_DO, Next, Stage, whats_next, window_opens
from jobs.judged import Judged
from jobs.local_days import calendar_day, local, season_day
from jobs.outlooks import CellOutlook, Outlooks, judge
from jobs.season_facts import plan_of
from jobs.sources.base import Cell, newest_known_day
from jobs.sources.timezones import standard_offset
from jobs.standing import standing_of
from jobs.uses.soil_report import BAND_C, report
from jobs.yard_soil import of_yard
from storage.database import Work
from storage.yards import YardRecord

#: Shares of the possible courses that lie below each line of the fan.
LEVELS: Final = (0.1, 0.25, 0.5, 0.75, 0.9)

#: How much of the season is shown [days]: back from today, ahead of it, and around the window.
_BACK_DAYS: Final = 60
_FURTHEST_BACK_DAYS: Final = 120
_AHEAD_DAYS: Final = 45
_FURTHEST_AHEAD_DAYS: Final = 270
_AROUND_DAYS: Final = 16


@dataclass(frozen=True, slots=True, eq=False)
class SoilChartValues:
    """Trailing 5-day means at 5 cm [°C] in local calendar days, NaN where not known.

    Attributes
    ----------
    first_day, today
        First day of the arrays, and the day the chart is for.
    this_year_c
        Measured so far, shape (n,).
    past_mean_c, past_low_c, past_high_c
        Past years' mean and the range of four years in five, shape (n,).
    fan_c
        Courses below which a tenth, a quarter, a half, three quarters and nine tenths of the
        possible ones lie, shape (5, n); NaN before the outlook begins.
    band_c
        The trade's band.
    upcoming
        What comes next, and until when.
    window_opens, window_closes
        When the window is expected to open, and the day by which the barrier must be in place; None
        where what was to be put down first is down.
    first_up
        First emergence: early, middle and late day (four chances in five), or None.
    judged
        The figures people are told beside it.
    past_years, basis, spring, place
        As in `jobs.uses.soil_report.SoilReport`.
    """

    first_day: date
    today: date
    this_year_c: FloatArray
    past_mean_c: FloatArray
    past_low_c: FloatArray
    past_high_c: FloatArray
    fan_c: FloatArray
    band_c: tuple[float, float]
    upcoming: Next
    window_opens: date | None
    window_closes: date | None
    first_up: tuple[date, date, date] | None
    judged: Judged
    past_years: int
    basis: str
    spring: str
    place: str


def soil_chart_values(
    work: Work, yard: YardRecord, source: str, outlooks: Outlooks, now: datetime
) -> SoilChartValues | None:
    """Return the values of a yard's chart, or None while nothing is held for its place."""
    held = packed_cells.held(work, source, Cell.at(yard.lat, yard.lon))
    found = report(work, yard, source, outlooks, now)
    if held is None or found is None:
        return None
    grid = outlooks.of(held, newest_known_day(now, standard_offset(yard.timezone)))
    cell = of_yard(grid, yard, standing_of(work, yard).readings).outlook
    lead_days = plan_of(standing_of(work, yard), Target.SUMMER_ANNUALS).lead_days
    today = local(now, yard.timezone).date()
    return chart_values(cell, lead_days, today, found.judged, found.upcoming)


def chart_values(
    cell: CellOutlook,
    lead_days: int,
    today: date,
    judged: Judged | None = None,
    upcoming: Next | None = None,
) -> SoilChartValues:
    """Return the chart's values for an outlook, a lead [days] and a local day.

    Without what is known of a yard they are those of a place where nothing is down.
    """
    lat = cell.lat
    judged = judged or judge(cell, Target.SUMMER_ANNUALS)
    first_up, opens = None, None
    if judged.p10 is not None and judged.p50 is not None and judged.p90 is not None:
        first_up = (judged.p10, judged.p50, judged.p90)
    if judged.p50 is not None:
        opens = window_opens(judged.p50, judged.deadline_on, lead_days)
    is_open = opens is not None and judged.p50 is not None and opens <= today < judged.p50
    upcoming = upcoming or whats_next(
        State.WINDOW_OPEN if is_open else State.WAITING,
        today,
        event_on=judged.p50,
        deadline_on=judged.deadline_on,
        lead_days=lead_days,
    )
    is_shown = upcoming.stage in TO_DO | {Stage.MISSED}
    opens, closes = (opens, judged.deadline_on) if is_shown else (None, None)
    first, last = _span(today, opens, first_up, calendar_day(cell.outlook.last_day, lat))
    days = (last - first).days + 1
    season_first = season_day(first, lat)
    band = cell.once(
        ("band", season_first, days), lambda: past_band(cell.climate, season_first, days)
    )
    return SoilChartValues(
        first_day=first,
        today=today,
        this_year_c=_this_year(cell, season_first, days),
        past_mean_c=band.mean_c,
        past_low_c=band.p10_c,
        past_high_c=band.p90_c,
        fan_c=_fan(cell, season_first, days),
        band_c=BAND_C,
        upcoming=upcoming,
        window_opens=opens,
        window_closes=closes,
        first_up=first_up,
        judged=judged,
        past_years=band.years,
        basis=str(cell.climate.basis),
        spring=spring_picture(cell.climate.mean_c).kind,
        place=cell.held.record.place,
    )


def _span(
    today: date, opens: date | None, first_up: tuple[date, date, date] | None, last_day: date
) -> tuple[date, date]:
    """Return the first and last day shown: today's surroundings and, if near, the window's."""
    around = timedelta(days=_AROUND_DAYS)
    first = today - timedelta(days=_BACK_DAYS)
    if opens is not None and opens - around < first:
        first = max(opens - around, today - timedelta(days=_FURTHEST_BACK_DAYS))
    last = today + timedelta(days=_AHEAD_DAYS)
    if first_up is not None:
        last = max(last, min(first_up[2] + around, today + timedelta(days=_FURTHEST_AHEAD_DAYS)))
    return first, max(min(last, last_day), today)


def _this_year(cell: CellOutlook, first: date, days: int) -> FloatArray:
    before = timedelta(days=TRAILING_DAYS - 1)
    last = first + timedelta(days=days - 1)
    known = cell.known.until(cell.outlook.issued).on(first - before, last)
    return trailing_mean(fill_short_gaps(known.soil5_c))[TRAILING_DAYS - 1 :]


def _fan(cell: CellOutlook, first: date, days: int) -> FloatArray:
    out = np.full((len(LEVELS), days), np.nan)
    ahead = fan(cell.outlook, LEVELS)
    skip = (first - ahead.first_day).days
    values = ahead.values_c[:, max(0, skip) : max(0, skip + days)]
    out[:, max(0, -skip) : max(0, -skip) + values.shape[1]] = values
    return out
