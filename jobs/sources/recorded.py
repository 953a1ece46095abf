"""Measured climates: station records from CSV files, played back as if they were happening.

A record is a plain or gzip-compressed CSV with the columns ``date`` and ``soil5_c`` and, where
they were measured, ``tmean_c, tmin_c, tmax_c, rain_mm``; other columns are left alone, an empty
field is a missing value, and days may be missing. Its place stands in a file ``INDEX.csv`` beside
it (columns ``station, lat, lon``), or is given by hand.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np

from jobs.agronomy.series import COLUMNS, DailySeries
from jobs.sources.answers import POSSIBLE, distance_km
from jobs.sources.base import (
    Cell,
    CellRequest,
    CellWeather,
    SourceRefused,
    SourceTrouble,
    newest_known_day,
)
from jobs.sources.csv_files import RecordUnreadable, Table, read_table
from jobs.sources.timezones import standard_offset_at

if TYPE_CHECKING:
    import pandas as pd

#: Days a service's forecast reaches ahead.
FORECAST_DAYS = 16

#: A station farther off than this is named with its distance.
_FAR_KM = 30.0


class PlaceUnknown(RecordUnreadable):
    """A record whose latitude and longitude are neither in INDEX.csv nor given."""


@dataclass(frozen=True, slots=True, eq=False)
class Station:
    """One station's record.

    Attributes
    ----------
    name
        The file's name without ``.csv`` or ``.csv.gz``.
    lat, lon
        Degrees north and east.
    series
        The record by local standard day.
    utc_offset
        Local standard time.
    """

    name: str
    lat: float
    lon: float
    series: DailySeries
    utc_offset: timedelta


def read_station(path: Path | str, at: tuple[float, float] | None = None) -> Station:
    """Read a station's record.

    Parameters
    ----------
    path
        The CSV file, compressed or not.
    at
        Latitude and longitude [degrees], used when ``INDEX.csv`` beside the file does not list
        the station.

    Raises
    ------
    PlaceUnknown
        When the place is neither listed nor given.
    RecordUnreadable
        When the file is missing or malformed; the message names line and column.
    """
    path = Path(path)
    name = _station_name(path)
    listed = _places_beside(path.parent).get(name)
    place = listed or at
    if place is None:
        raise PlaceUnknown(
            f"where is {path.name}? No INDEX.csv beside it lists {name!r}; give its place as "
            "LAT,LON"
        )
    if not _is_on_globe(*place):
        raise PlaceUnknown(f"{place[0]}, {place[1]} is no place on the globe (LAT,LON in degrees)")
    return Station(name, *place, _read_series(path), standard_offset_at(*place))


def read_forecasts(path: Path | str) -> dict[date, DailySeries]:
    """Read soil forecasts made on past days.

    Parameters
    ----------
    path
        A CSV file, compressed or not, with the columns ``issued, date, soil5_c``.

    Returns
    -------
    dict
        By issue date (the last day whose mean was known), the `FORECAST_DAYS` days after it;
        days the file lacks are NaN, and rows outside those days are left out.

    Raises
    ------
    RecordUnreadable
        When the file is missing or malformed; the message names line and column.
    """
    table = read_table(Path(path), required=("issued", "date", "soil5_c"))
    issued, soil_c = table.days("issued"), _possible(table, "soil5_c")
    lead = (table.days("date") - issued).dt.days
    near = soil_c[lead.between(1, FORECAST_DAYS)].groupby([issued.dt.date, lead]).last()
    by_lead = near.unstack().reindex(columns=range(1, FORECAST_DAYS + 1))
    out = {}
    for day, soil in zip(by_lead.index, by_lead.to_numpy(np.float64), strict=True):
        unknown = (np.full(FORECAST_DAYS, np.nan) for _ in COLUMNS[1:])
        out[day] = DailySeries(day + timedelta(days=1), soil, *unknown)
    return out


class RecordedSource:
    """A measured climate: one station for every place, or the nearest of a folder of stations.

    Nothing later than ``now`` is visible: a day is known from 06:00 local standard time on the
    day after. There is no forecast.

    Parameters
    ----------
    where
        A `Station`, a station's file, or a folder holding ``INDEX.csv`` and station files.
    at
        Latitude and longitude of a file that no ``INDEX.csv`` lists.

    Raises
    ------
    RecordUnreadable
        When a file cannot be read, or a folder lists no station.
    """

    name = "recorded"
    is_invented = False
    can_move_clock = True
    cheap_days: int | None = None
    credit: str | None = None

    def __init__(self, where: Station | Path | str, at: tuple[float, float] | None = None) -> None:
        if not isinstance(where, Station) and Path(where).is_dir():
            self._read: dict[str, Station] = {}
            self._files, self._places = _stations_in(Path(where))
            return
        station = where if isinstance(where, Station) else read_station(where, at)
        self._read = {station.name: station}
        self._files = {}
        self._places = {station.name: (station.lat, station.lon)}

    def fetch(
        self, requests: Sequence[CellRequest], now: datetime
    ) -> Mapping[Cell, CellWeather | SourceTrouble]:
        """Return what the nearest station's record held by ``now`` for every requested cell."""
        answers: dict[Cell, CellWeather | SourceTrouble] = {}
        for request in requests:
            try:
                station = self.station_near(request.cell.lat, request.cell.lon)
                answers[request.cell] = _seen_so_far(station, request, now)
            except SourceTrouble as trouble:
                answers[request.cell] = trouble
        return answers

    def station_near(self, lat: float, lon: float) -> Station:
        """Return the station that speaks for a place.

        Raises
        ------
        RecordUnreadable
            When its file cannot be read.
        """
        name = min(self._places, key=lambda name: distance_km(self._places[name], (lat, lon)))
        if name not in self._read:
            self._read[name] = read_station(self._files[name])
        return self._read[name]


def _seen_so_far(station: Station, request: CellRequest, now: datetime) -> CellWeather:
    """Return a record as it lay there at ``now``; days are the station's own."""
    so_far = station.series.until(newest_known_day(now, station.utc_offset))
    measured = np.flatnonzero(~np.isnan(so_far.soil5_c))
    if not len(measured):
        raise SourceRefused(
            f"the record of {station.name} holds nothing before {now:%Y-%m-%d}; it begins on "
            f"{station.series.first_day}"
        )
    newest = so_far.first_day + timedelta(days=int(measured[-1]))
    day_end = datetime.combine(newest + timedelta(days=1), datetime.min.time(), tzinfo=UTC)
    km = distance_km((station.lat, station.lon), (request.cell.lat, request.cell.lon))
    return CellWeather(
        known=so_far.between(request.since, so_far.last_day),
        forecast=None,
        hourly=None,
        observed_at=day_end - station.utc_offset,
        place=f"station {station.name.replace('_', ' ')}"
        + (f", {km:.0f} km away" if km > _FAR_KM else ""),
    )


def _stations_in(folder: Path) -> tuple[dict[str, Path], dict[str, tuple[float, float]]]:
    places = {}
    files = {}
    for name, place in _places_beside(folder).items():
        for suffix in (".csv", ".csv.gz"):
            if (file := folder / f"{name}{suffix}").is_file():
                files[name], places[name] = file, place
    if not places:
        raise RecordUnreadable(f"{folder}: no INDEX.csv there that lists station files")
    return files, places


def _station_name(path: Path) -> str:
    return path.name.removesuffix(".gz").removesuffix(".csv")


def _places_beside(folder: Path) -> dict[str, tuple[float, float]]:
    index = folder / "INDEX.csv"
    if not index.is_file():
        return {}
    table = read_table(index, required=("station", "lat", "lon"))
    lats, lons = table.numbers("lat"), table.numbers("lon")
    for line, lat, lon in zip(table.rows.index, lats, lons, strict=True):
        if not _is_on_globe(lat, lon):
            raise table.unreadable(line, f": {lat}, {lon} is not on the globe")
    return dict(zip(table.rows["station"], zip(lats, lons, strict=True), strict=True))


def _is_on_globe(lat: float, lon: float) -> bool:
    return -90 <= lat <= 90 and -180 <= lon <= 180


def _read_series(path: Path) -> DailySeries:
    table = read_table(path, required=("date", "soil5_c"))
    days = table.days("date")
    if days.empty:
        raise RecordUnreadable(f"{path.name}: no day in it")
    if days.duplicated().any():
        line = days.index[days.duplicated()][0]
        raise table.unreadable(line, f": {days[line]:%Y-%m-%d} stands there twice")
    daily = [_possible(table, name).set_axis(days).asfreq("D") for name in COLUMNS]
    return DailySeries(days.min().date(), *(np.asarray(each, dtype=np.float64) for each in daily))


def _possible(table: Table, column: str) -> pd.Series[float]:
    """Return a column's values; what cannot be true is missing, as gaps are marked by -9999."""
    values = table.numbers(column)
    return values.where(values.between(*POSSIBLE[column]))
