"""The US National Weather Service (api.weather.gov): public domain, no key, the United States only.

For a point it names a cell of a forecast office's grid; the grid's raw layers hold air, wind,
humidity and rain for a week ahead, and stations nearby report the week behind. Soil temperature it
has none: soil is estimated from air, and marked so.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, MutableMapping, Sequence
from dataclasses import replace
from datetime import datetime, timedelta

import numpy as np

from jobs.agronomy.air import soil_from_air
from jobs.agronomy.series import DailySeries, FloatArray
from jobs.sources.base import (
    AnswerUnusable,
    Cell,
    CellRequest,
    CellWeather,
    QuotaSpent,
    SourceRefused,
    SourceTrouble,
    SourceUnreachable,
    newest_known_day,
)
from jobs.sources.budget import Budget, Limit
from jobs.sources.hours import Hours, newest_value_at
from jobs.sources.http import Http
from jobs.sources.nws_answers import (
    Grid,
    read_gridpoint,
    read_observations,
    read_point,
    read_stations,
)

BASE_URL = "https://api.weather.gov"

#: No limit is published; this is our own idea of being gentle.
GENTLE_LIMITS = (Limit(60, timedelta(minutes=1)), Limit(1_000, timedelta(hours=1)))

#: Observations are asked for this far back; the service keeps about a week.
_BACK = timedelta(days=7)
#: Without air on any of so many newest known days a station is of no use.
_AIR_WITHIN_DAYS = 3
#: Stations tried in a place before giving up.
_MOST_STATIONS = 3

#: Estimates soil at 5 cm [°C] from days of air at a latitude.
SoilFromAir = Callable[[DailySeries, float], FloatArray]


def _usual_soil(days: DailySeries, lat: float) -> FloatArray:
    return soil_from_air(days.tmean_c, days.tmin_c, days.tmax_c, days.rain_mm, days.first_day, lat)


class NwsSource:
    """The service behind the one protocol.

    Parameters
    ----------
    http
        A session whose User-Agent names a contact (`jobs.sources.http.user_agent`).
    budget
        Calls we may make.
    grids
        Where the grid cell and station of a place are kept: any mapping of texts; one that lasts
        spares two calls a place.
    base_url
        Another address of the service.
    soil
        Estimates soil from air.
    """

    name = "nws"
    is_invented = False
    can_move_clock = False
    cheap_days: int | None = None
    credit: str | None = None

    def __init__(
        self,
        http: Http,
        budget: Budget,
        grids: MutableMapping[str, str],
        *,
        base_url: str = BASE_URL,
        soil: SoilFromAir = _usual_soil,
    ) -> None:
        self._http = http
        self._budget = budget
        self._grids = grids
        self._base_url = base_url.rstrip("/")
        self._soil = soil

    def fetch(
        self, requests: Sequence[CellRequest], now: datetime
    ) -> Mapping[Cell, CellWeather | SourceTrouble]:
        """Return weather or trouble for every requested cell, one after the other.

        Once the service is out of reach, or tells us to wait, the rest is not tried.
        """
        answers: dict[Cell, CellWeather | SourceTrouble] = {}
        stop: SourceTrouble | None = None
        for request in requests:
            if stop is not None:
                answers[request.cell] = stop
                continue
            try:
                answers[request.cell] = self._weather(request, now)
            except SourceTrouble as trouble:
                answers[request.cell] = trouble
                if isinstance(trouble, SourceUnreachable | QuotaSpent):
                    stop = trouble
        return answers

    def _weather(self, request: CellRequest, now: datetime) -> CellWeather:
        cell = request.cell
        grid, station = self._where(cell, now)
        try:
            ahead = read_gridpoint(self._asked(f"/gridpoints/{grid}", now), cell)
        except SourceRefused as refused:
            # Offices redraw their grids: the place is looked up anew next time.
            if not isinstance(refused, QuotaSpent):
                self._grids.pop(_key(cell), None)
            raise
        station, behind = self._observed(request, grid, station, now)
        self._grids[_key(cell)] = f"{grid} {station}"
        newest = newest_known_day(now, request.utc_offset)
        days = _joined(behind, ahead, now).by_day(request.utc_offset)
        days = replace(days, soil5_c=self._soil(days, cell.lat))
        first = newest + timedelta(days=1)
        known = _from_first_air(days.until(newest))
        return CellWeather(
            known=known.between(request.since, newest),
            forecast=_until_last_air(days.between(first, days.last_day)),
            hourly=_joined(behind, ahead, now).forecast_from(first, request.utc_offset),
            observed_at=newest_value_at(behind.first_hour, behind.air_c, now) or now,
            soil_is_modelled=True,
            place=f"station {station} and forecast grid {grid}",
        )

    def _where(self, cell: Cell, now: datetime) -> tuple[str, str]:
        """Return a place's grid cell, and the station that served last or an empty text."""
        kept = self._grids.get(_key(cell))
        if kept is None:
            grid: Grid = read_point(self._asked(f"/points/{cell.lat:.4f},{cell.lon:.4f}", now))
            return str(grid), ""
        grid_text, _, station = kept.partition(" ")
        return grid_text, station

    def _observed(
        self, request: CellRequest, grid: str, station: str, now: datetime
    ) -> tuple[str, Hours]:
        """Return the nearest station that reported lately, and what it reported."""
        if station:
            try:
                return station, self._reports(request, station, now)
            except (AnswerUnusable, SourceRefused) as trouble:
                if isinstance(trouble, QuotaSpent):
                    raise
        names = read_stations(self._asked(f"/gridpoints/{grid}/stations", now))
        for name in names[:_MOST_STATIONS]:
            try:
                return name, self._reports(request, name, now)
            except (AnswerUnusable, SourceRefused) as trouble:
                if isinstance(trouble, QuotaSpent):
                    raise
        raise AnswerUnusable("no station nearby reported lately")

    def _reports(self, request: CellRequest, station: str, now: datetime) -> Hours:
        last = now.replace(minute=0, second=0, microsecond=0)
        first = last - _BACK
        path = f"/stations/{station}/observations"
        span = {"start": f"{first:%Y-%m-%dT%H:%M:%SZ}", "end": f"{now:%Y-%m-%dT%H:%M:%SZ}"}
        hours = read_observations(self._asked(path, now, span), first, last)
        newest = newest_known_day(now, request.utc_offset)
        days = hours.by_day(request.utc_offset)
        latest = days.on(newest - timedelta(days=_AIR_WITHIN_DAYS - 1), newest)
        if np.isnan(latest.tmean_c).all():
            raise AnswerUnusable(f"station {station} reported no temperature lately")
        return hours

    def _asked(self, path: str, now: datetime, params: Mapping[str, str] | None = None) -> bytes:
        try:
            return self._http.get(
                self._base_url + path, params, before_attempt=lambda: self._budget.spend(1, now)
            )
        except QuotaSpent as told:
            if told.retry_after_s is not None:
                self._budget.shut(now + timedelta(seconds=told.retry_after_s))
            raise


def _key(cell: Cell) -> str:
    return f"{cell.lat:.2f},{cell.lon:.2f}"


def _joined(behind: Hours, ahead: Hours, now: datetime) -> Hours:
    """Join reports with the forecast; where both speak, the report counts until now."""
    hour = timedelta(hours=1)
    first = behind.first_hour
    size = max(len(behind.air_c), (ahead.first_hour - first) // hour + len(ahead.air_c))
    start = (ahead.first_hour - first) // hour

    def column(name: str) -> FloatArray:
        out = np.full(size, np.nan)
        theirs = getattr(ahead, name)[max(0, -start) :]
        out[max(0, start) : max(0, start) + len(theirs)] = theirs
        ours = getattr(behind, name)
        np.copyto(out[: len(ours)], ours, where=~np.isnan(ours))
        return out

    return Hours(
        first,
        *(column(name) for name in ("air_c", "rain_mm", "wind_m_s", "humidity_pct", "soil5_c")),
    )


def _from_first_air(days: DailySeries) -> DailySeries:
    full = np.flatnonzero(~np.isnan(days.tmean_c))
    return days.between(days.first_day + timedelta(days=int(full[0])), days.last_day)


def _until_last_air(days: DailySeries) -> DailySeries | None:
    full = np.flatnonzero(~np.isnan(days.tmean_c))
    if not len(full):
        return None
    return days.until(days.first_day + timedelta(days=int(full[-1])))
