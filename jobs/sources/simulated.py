"""An invented climate for any place on land: for trying things out, and said to be invented.

The weather of a cell and day depends on the seed alone, never on when or how it is asked for.
Neighbouring cells share their weather. How it is drawn is told in `jobs.sources.climate`.
"""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Mapping, Sequence
from datetime import UTC, date, datetime, timedelta

import numpy as np

from jobs.agronomy.series import COLUMNS, DailySeries, FloatArray
from jobs.sources.base import Cell, CellRequest, CellWeather, SourceTrouble, newest_known_day
from jobs.sources.climate.forecasts import FORECAST_DAYS, Issued, Truth, issue
from jobs.sources.climate.invented_hours import hours_of
from jobs.sources.climate.under_turf import Ground
from jobs.sources.climate.weather import Air, Block, year_blocks

#: The longest history handed over at once.
_MOST_HISTORY = timedelta(days=30 * 366)
#: Cells answered in one go, and years of cells kept for the next time (some 30 kB each); the
#: longest histories of all cells of one go must fit in.
_AT_ONCE = 32
_KEPT = 1100


class SimulatedSource:
    """The invented climate as a source of weather, with a forecast of its own.

    Parameters
    ----------
    seed
        Another seed is another world with the same normals.
    """

    name = "simulated"
    is_invented = True
    can_move_clock = True
    cheap_days: int | None = None
    credit: str | None = None

    def __init__(self, seed: int = 0) -> None:
        self._seed = seed
        self._blocks: OrderedDict[tuple[Cell, int], Block] = OrderedDict()

    def fetch(
        self, requests: Sequence[CellRequest], now: datetime
    ) -> Mapping[Cell, CellWeather | SourceTrouble]:
        """Return what is known at ``now``, and a forecast, for every requested cell."""
        answers: dict[Cell, CellWeather | SourceTrouble] = {}
        for start in range(0, len(requests), _AT_ONCE):
            answers.update(self._answers(requests[start : start + _AT_ONCE], now))
        return answers

    def _answers(self, requests: Sequence[CellRequest], now: datetime) -> dict[Cell, CellWeather]:
        newest = [newest_known_day(now, request.utc_offset) for request in requests]
        oldest = [
            min(day, max(request.since, day - _MOST_HISTORY))
            for request, day in zip(requests, newest, strict=True)
        ]
        self._work_out(requests, oldest, newest)
        forecasts = self._forecasts([request.cell for request in requests], newest)
        answers = {}
        for request, first, day, ahead in zip(requests, oldest, newest, forecasts, strict=True):
            past = DailySeries(
                first, *(self._column(request.cell, name, first, day) for name in COLUMNS)
            )
            day_end = datetime.combine(day + timedelta(days=1), datetime.min.time(), tzinfo=UTC)
            answers[request.cell] = CellWeather(
                known=past.between(request.since, day),
                forecast=ahead.days,
                hourly=hours_of(ahead.days, ahead.wind_m_s, ahead.rain_begins, request.utc_offset),
                observed_at=day_end - request.utc_offset,
                place=f"invented climate at {request.cell.lat:.2f}, {request.cell.lon:.2f}",
            )
        return answers

    def _work_out(
        self, requests: Sequence[CellRequest], oldest: list[date], newest: list[date]
    ) -> None:
        """Work out all years the requests need, together."""
        wanted = {
            (request.cell, year): None
            for request, first, day in zip(requests, oldest, newest, strict=True)
            for year in range(first.year, (day + timedelta(days=FORECAST_DAYS)).year + 1)
        }
        missing = [key for key in wanted if key not in self._blocks]
        if missing:
            self._blocks.update(zip(missing, year_blocks(self._seed, missing), strict=True))
        for key in wanted:
            self._blocks.move_to_end(key)
        while len(self._blocks) > _KEPT:
            self._blocks.popitem(last=False)

    def _forecasts(self, cells: list[Cell], issued: list[date]) -> list[Issued]:
        def of_coming_days(name: str) -> FloatArray:
            one, last = timedelta(days=1), timedelta(days=FORECAST_DAYS)
            pairs = zip(cells, issued, strict=True)
            return np.array(
                [self._column(cell, name, day + one, day + last) for cell, day in pairs]
            )

        def of_issue_day(name: str) -> FloatArray:
            pairs = zip(cells, issued, strict=True)
            return np.array([self._column(cell, name, day, day) for cell, day in pairs])

        air = Air(*map(of_coming_days, ("tmean_c", "range_c", "rain_mm", "wind_m_s")))
        ground = Ground(*map(of_issue_day, ("top_c", "deep_c", "snow_mm")))
        return issue(self._seed, cells, [day.toordinal() for day in issued], Truth(air, ground))

    def _column(self, cell: Cell, name: str, first: date, last: date) -> FloatArray:
        years = [
            getattr(self._blocks[cell, year], name) for year in range(first.year, last.year + 1)
        ]
        start = (first - date(first.year, 1, 1)).days
        return np.concatenate(years)[start : start + (last - first).days + 1]
