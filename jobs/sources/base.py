"""The one protocol behind which every source of weather stands.

SourceTrouble                  something about the source, not about us
├── SourceUnreachable          time-out, refused, 5xx: worth trying again later
├── SourceRefused              it understood and said no (bad request, unknown place)
│   └── QuotaSpent             told to wait; `retry_after_s` where it said so
└── AnswerUnusable             malformed, absurd, or for another place
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from typing import Protocol

from jobs.agronomy.series import DailySeries

#: A day's mean is taken as known from this hour of local standard time on the day after.
DAY_KNOWN_AFTER = timedelta(hours=6)


class SourceTrouble(Exception):
    """Base of everything a source may raise or return in place of weather."""


class SourceUnreachable(SourceTrouble):
    """The source gave no answer, or broke while answering."""


class SourceRefused(SourceTrouble):
    """The source understood the request and refused it."""


class QuotaSpent(SourceRefused):
    """The source told us to wait."""

    def __init__(self, reason: str, retry_after_s: float | None = None) -> None:
        super().__init__(reason)
        self.retry_after_s = retry_after_s


class AnswerUnusable(SourceTrouble):
    """The answer could not be read, or cannot be true."""


@dataclass(frozen=True, slots=True, order=True)
class Cell:
    """A weather cell: a place rounded to 0.01 degree, in hundredths of a degree."""

    lat_e2: int
    lon_e2: int

    @classmethod
    def at(cls, lat: float, lon: float) -> Cell:
        """Return the cell that holds a point given in degrees."""
        return cls(round(lat * 100), round(lon * 100))

    @property
    def lat(self) -> float:
        """Latitude [degrees north]."""
        return self.lat_e2 / 100

    @property
    def lon(self) -> float:
        """Longitude [degrees east]."""
        return self.lon_e2 / 100


@dataclass(frozen=True, slots=True)
class CellRequest:
    """What is wanted for one cell.

    Attributes
    ----------
    cell
        The place.
    utc_offset
        Local standard time of the place, for cutting days.
    since
        First day wanted; days before it are held already.
    share
        Of the calls a source may make, the share that may be spent for this: what can wait leaves
        the rest to what cannot.
    """

    cell: Cell
    utc_offset: timedelta
    since: date
    share: float = 1.0


@dataclass(frozen=True, slots=True)
class HourlyForecast:
    """Hourly forecast values from ``first_hour`` on (UTC, whole hours); NaN where missing.

    Wind in m/s at 10 m, rain in mm in the hour, air temperature in °C, relative humidity in %.
    """

    first_hour: datetime
    air_c: tuple[float, ...]
    rain_mm: tuple[float, ...]
    wind_m_s: tuple[float, ...]
    humidity_pct: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class CellWeather:
    """One cell's answer.

    Attributes
    ----------
    known
        Days that are over and known, from the request's ``since`` or later.
    forecast
        The service's own forecast for the days after, or None where it has none.
    hourly
        The forecast by the hour, or None.
    observed_at
        When the newest value was true (UTC): what "how fresh" is measured from.
    soil_is_modelled
        True where soil temperature was estimated from air.
    place
        What the source calls the place, for people ("station ...", "grid cell 39.10, -96.60").
    disagrees_by_c
        How much warmer its soil is than another source's on the same days [°C], where that is too
        much to pass over; None where the two agree or none was compared.
    """

    known: DailySeries
    forecast: DailySeries | None
    hourly: HourlyForecast | None
    observed_at: datetime
    soil_is_modelled: bool = False
    place: str = ""
    disagrees_by_c: float | None = None


class Source(Protocol):
    """A source of daily weather.

    Attributes
    ----------
    name
        Stable name, stored beside what came from it.
    is_invented
        True where the weather is made up; every screen that shows it says so.
    can_move_clock
        True where the clock may be moved (simulated and recorded climates).
    credit
        The credit line its licence asks for, or None.
    cheap_days
        So many past days cost next to nothing beside the years before them, which may have to wait;
        None where all are as cheap.
    """

    name: str
    is_invented: bool
    can_move_clock: bool
    credit: str | None
    cheap_days: int | None

    def fetch(
        self, requests: Sequence[CellRequest], now: datetime
    ) -> Mapping[Cell, CellWeather | SourceTrouble]:
        """Return weather or trouble for every requested cell, in as few calls as possible.

        Nothing later than ``now`` is known, save forecasts made at or before ``now``. The method
        raises nothing of its own: trouble with the whole request is given for each cell.
        """
        ...


def newest_known_day(now: datetime, utc_offset: timedelta) -> date:
    """Return the last local standard day whose mean is known at ``now`` (aware, UTC or other)."""
    local = now.astimezone(UTC) + utc_offset - DAY_KNOWN_AFTER
    return local.date() - timedelta(days=1)
