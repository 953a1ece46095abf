"""Open-Meteo: forecasts and ten years of history for any place on land, open data.

Two services are asked. The *forecast* gives hours: soil at 6 cm, air, rain, wind and humidity for
16 days ahead and up to 92 days back; its past days are what is "known" lately. The *archive* gives
daily values of a reanalysis, five days behind, and is asked only for history older than that.

The archive's soil is a layer of 0-7 cm, the forecast's a point at 6 cm in another model. The
archive is therefore shifted by the median difference over the days both cover (some eight weeks
before now), so that past years and this one speak of the same ground. One constant a place: a
difference that changes with the season stays in.

The data is under CC BY 4.0; the credit line goes where it is shown. The service without a key is
for non-commercial use.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta

import numpy as np

from jobs.agronomy.series import DailySeries
from jobs.sources.base import (
    AnswerUnusable,
    Cell,
    CellRequest,
    CellWeather,
    QuotaSpent,
    SourceTrouble,
    newest_known_day,
)
from jobs.sources.budget import Budget
from jobs.sources.hours import newest_value_at
from jobs.sources.http import Http
from jobs.sources.open_meteo_answers import DAILY, HOURLY, GridHours, read_archive, read_forecast
from jobs.sources.open_meteo_costs import cost

FORECAST_URL = "https://api.open-meteo.com/v1/forecast"
ARCHIVE_URL = "https://archive-api.open-meteo.com/v1/archive"

#: Days ahead, and the most days back, of the forecast service.
_AHEAD_DAYS = 16
_MOST_PAST_DAYS = 92
#: Days back asked for when the archive is asked too: what both cover tells their difference.
_OVERLAP_DAYS = 60
#: The archive is this far behind, with a day to spare [d].
_ARCHIVE_BEHIND_DAYS = 6
#: Fewer days in common than this tell no difference.
_FEWEST_IN_COMMON = 10
#: Without soil on any of so many newest known days an answer is of no use.
_SOIL_WITHIN_DAYS = 7
#: Past days of a place that is new: a hundredth of what its years cost.
_CHEAP_DAYS = 57
#: Places in one request, after the service's own limit.
_MOST_PLACES = 1_000
#: Longer addresses than this are posted [characters].
_LONGEST_ADDRESS = 1_800


@dataclass(frozen=True, slots=True)
class _Wish:
    """A request, and whether the archive is needed for it."""

    request: CellRequest
    newest: datetime
    needs_archive: bool
    past_days: int


class OpenMeteoSource:
    """The services of Open-Meteo behind one protocol.

    Parameters
    ----------
    http
        The session.
    budget
        Calls we may make; every attempt is charged to it before it is made.
    forecast_url, archive_url, key
        Other addresses and a key for paying customers.
    history_years
        How many whole years before this one the archive is asked for.
    """

    name = "open-meteo"
    is_invented = False
    can_move_clock = False
    cheap_days: int | None = _CHEAP_DAYS
    credit: str | None = "Weather data by Open-Meteo.com"

    def __init__(
        self,
        http: Http,
        budget: Budget,
        *,
        forecast_url: str = FORECAST_URL,
        archive_url: str = ARCHIVE_URL,
        key: str | None = None,
        history_years: int = 10,
    ) -> None:
        self._http = http
        self._budget = budget
        self._forecast_url = forecast_url
        self._archive_url = archive_url
        self._key = key
        self._history_years = history_years

    def fetch(
        self, requests: Sequence[CellRequest], now: datetime
    ) -> Mapping[Cell, CellWeather | SourceTrouble]:
        """Return weather or trouble for every requested cell.

        All cells that the budget allows share one forecast request, the first of them where it does
        not allow all; a cell whose history cannot be had gets no weather at all, so that it is
        asked for again.
        """
        answers: dict[Cell, CellWeather | SourceTrouble] = {}
        wishes = sorted((_wish(r, now) for r in requests), key=lambda wish: wish.needs_archive)
        affordable = self._affordable(wishes, now)
        for wish in wishes[affordable:]:
            answers[wish.request.cell] = self._too_dear(wish, now)
        wishes = wishes[:affordable]
        for start in range(0, len(wishes), _MOST_PLACES):
            part = wishes[start : start + _MOST_PLACES]
            try:
                grids = self._forecasts(part, now)
            except SourceTrouble as trouble:
                answers.update((wish.request.cell, trouble) for wish in part)
                continue
            answers.update(self._joined(part, grids, now))
        return answers

    def _affordable(self, wishes: Sequence[_Wish], now: datetime) -> int:
        """Return how many wishes, from the first, the budget allows."""
        left = {share: self._budget.left(now, share) for share in {w.request.share for w in wishes}}
        archive, past_days = 0.0, 0
        for count, wish in enumerate(wishes):
            archive += self._archive_cost(wish) if wish.needs_archive else 0.0
            past_days = max(past_days, wish.past_days)
            if archive + _forecast_cost(count + 1, past_days) > left[wish.request.share]:
                return count
        return len(wishes)

    def _too_dear(self, wish: _Wish, now: datetime) -> QuotaSpent:
        archive = self._archive_cost(wish) if wish.needs_archive else 0.0
        wait_s = self._budget.wait_s(archive + _forecast_cost(1, wish.past_days), now)
        if wait_s == float("inf"):
            return QuotaSpent("this history costs more calls than the budget ever allows")
        return QuotaSpent("our own budget of calls is spent for now", max(1.0, wait_s))

    def _archive_cost(self, wish: _Wish) -> float:
        first, last = self._archive_span(wish)
        return cost(1, len(DAILY), (last - first).days + 1)

    def _archive_span(self, wish: _Wish) -> tuple[datetime, datetime]:
        last = wish.newest - timedelta(days=_ARCHIVE_BEHIND_DAYS)
        since = datetime.combine(wish.request.since, datetime.min.time())
        oldest = wish.newest.replace(year=wish.newest.year - self._history_years, month=1, day=1)
        return min(last, max(since, oldest)), last

    def _forecasts(
        self, wishes: Sequence[_Wish], now: datetime
    ) -> list[GridHours | AnswerUnusable]:
        cells = [wish.request.cell for wish in wishes]
        past_days = max(wish.past_days for wish in wishes)
        form = _places(cells) | {
            "hourly": ",".join(theirs for _, theirs, _ in HOURLY),
            "past_days": str(past_days),
            "forecast_days": str(_AHEAD_DAYS),
            "timezone": "GMT",
            "wind_speed_unit": "ms",
        }
        body = self._asked(self._forecast_url, form, _forecast_cost(len(wishes), past_days), now)
        return read_forecast(body, cells)

    def _joined(
        self, wishes: Sequence[_Wish], grids: Sequence[GridHours | AnswerUnusable], now: datetime
    ) -> dict[Cell, CellWeather | SourceTrouble]:
        answers: dict[Cell, CellWeather | SourceTrouble] = {}
        for wish, grid in zip(wishes, grids, strict=True):
            cell = wish.request.cell
            try:
                if isinstance(grid, AnswerUnusable):
                    raise grid
                history = self._archived(wish, now) if wish.needs_archive else None
                answers[cell] = _weather(wish.request, grid, history, now)
            except SourceTrouble as trouble:
                answers[cell] = trouble
        return answers

    def _archived(self, wish: _Wish, now: datetime) -> DailySeries:
        first, last = self._archive_span(wish)
        whole_hours = round(wish.request.utc_offset / timedelta(hours=1))
        form = _places([wish.request.cell]) | {
            "daily": ",".join(theirs for _, theirs, _ in DAILY),
            "start_date": f"{first:%Y-%m-%d}",
            "end_date": f"{last:%Y-%m-%d}",
            # Standard time without summer time, to the hour; signs are reversed after POSIX.
            "timezone": "GMT" if whole_hours == 0 else f"Etc/GMT{-whole_hours:+d}",
        }
        body = self._asked(self._archive_url, form, self._archive_cost(wish), now)
        days = read_archive(body, [wish.request.cell], timedelta(hours=whole_hours))[0]
        if isinstance(days, AnswerUnusable):
            raise days
        return days.until(last.date())

    def _asked(self, url: str, form: dict[str, str], calls: float, now: datetime) -> bytes:
        form["timeformat"] = "unixtime"
        if self._key:
            form["apikey"] = self._key
        ask = self._http.get if sum(map(len, form.values())) < _LONGEST_ADDRESS else self._http.post
        try:
            return ask(url, form, before_attempt=lambda: self._budget.spend(calls, now))
        except QuotaSpent as told:
            if told.retry_after_s is not None:
                self._budget.shut(now + timedelta(seconds=told.retry_after_s))
            raise


def soil_offset_c(recent: DailySeries, archive: DailySeries) -> float:
    """Return how much warmer the forecast's soil is than the archive's [°C].

    The median over the days both know; 0 where they share fewer than ten.
    """
    first = max(recent.first_day, archive.first_day)
    last = min(recent.last_day, archive.last_day)
    if first > last:
        return 0.0
    gaps = recent.on(first, last).soil5_c - archive.on(first, last).soil5_c
    gaps = gaps[~np.isnan(gaps)]
    return float(np.median(gaps)) if len(gaps) >= _FEWEST_IN_COMMON else 0.0


def _wish(request: CellRequest, now: datetime) -> _Wish:
    newest_day = newest_known_day(now, request.utc_offset)
    newest = datetime.combine(newest_day, datetime.min.time())
    # A day to spare on each side: days there and in UTC begin at different hours.
    back = (newest_day - request.since).days + 3
    needs_archive = back > _MOST_PAST_DAYS
    past_days = _OVERLAP_DAYS if needs_archive else min(_MOST_PAST_DAYS, max(2, back))
    return _Wish(request, newest, needs_archive, past_days)


def _forecast_cost(places: int, past_days: int) -> float:
    return cost(places, len(HOURLY), past_days + _AHEAD_DAYS)


def _places(cells: Sequence[Cell]) -> dict[str, str]:
    return {
        "latitude": ",".join(f"{cell.lat:.2f}" for cell in cells),
        "longitude": ",".join(f"{cell.lon:.2f}" for cell in cells),
    }


def _weather(
    request: CellRequest, grid: GridHours, history: DailySeries | None, now: datetime
) -> CellWeather:
    newest = newest_known_day(now, request.utc_offset)
    days = grid.hours.by_day(request.utc_offset)
    known = days.until(newest)
    latest = known.on(newest - timedelta(days=_SOIL_WITHIN_DAYS - 1), newest)
    if np.isnan(latest.soil5_c).all():
        raise AnswerUnusable("the answer holds no soil temperature for the last days")
    if history is not None:
        known = _on_one_scale(history, known)
    ahead = days.between(newest + timedelta(days=1), newest + timedelta(days=_AHEAD_DAYS))
    observed_at = newest_value_at(grid.hours.first_hour, grid.hours.soil5_c, now)
    return CellWeather(
        known=known.between(request.since, newest),
        forecast=_without_empty_end(ahead),
        hourly=grid.hours.forecast_from(newest + timedelta(days=1), request.utc_offset),
        observed_at=observed_at or now,
        place=f"grid cell {grid.lat:.2f}, {grid.lon:.2f}",
    )


def _on_one_scale(history: DailySeries, recent: DailySeries) -> DailySeries:
    shifted = DailySeries(
        history.first_day,
        history.soil5_c + soil_offset_c(recent, history),
        history.tmean_c,
        history.tmin_c,
        history.tmax_c,
        history.rain_mm,
    )
    return shifted.overlaid(recent)


def _without_empty_end(ahead: DailySeries) -> DailySeries:
    full = np.flatnonzero(~np.isnan(ahead.soil5_c))
    last = int(full[-1]) if len(full) else -1
    return ahead.until(ahead.first_day + timedelta(days=last))
