"""Where the simple picture of spring fails, and what to do there instead.

The simple picture: soil falls well below 50 °F in winter and rises through 50-55 °F in two or three
weeks. It fails in mild maritime and Gulf climates (no clear rise), in cold short springs (the rise
is so quick that the heads-up is the real alert), and within a yard on hot strips and in shade.

Day numbers are positions in a leap year from 1 January = 0, as in a mean year of 366 days (see
`climatology.fit_climate`). South of the equator the calendar is shifted by half a year beforehand.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from functools import cache
from typing import Any, Final, Literal

import numpy as np

from jobs.agronomy import tables
from jobs.agronomy.emergence import LEADING_WEED, weeds
from jobs.agronomy.series import FloatArray
from jobs.agronomy.soil import first_at_or_above
from jobs.agronomy.units import c_from_f

SpringKind = Literal["clear", "short", "mild", "none"]
NoSpring = Literal["never_cold", "slow_rise", "never_warm"]
Exposure = Literal["hot_strip", "south_slope", "thin_turf", "shade", "north_slope"]
Speaks = Literal["apply", "germination"]

#: The trade's band in which product should be down (Michigan State Univ. Extension 2020).
BAND_C: Final = (c_from_f(50.0), c_from_f(55.0))
#: Days the mean year may stay in the band and still show a rise one can wait for. The 28 stations
#: of the benches take 10-20; an inference, no source.
_SLOW_BAND_DAYS: Final = 25
#: At or under so many days the spring is short: 0.25 °C a day. An inference, no source.
_SHORT_BAND_DAYS: Final = 11
#: Soil above this on 1 March means seeds have been counting before it. An inference, no source.
_MILD_MARCH_C: Final = BAND_C[0]
_MARCH: Final = 60
_AUGUST: Final = 213


@dataclass(frozen=True, slots=True)
class SpringPicture:
    """What the mean year says about spring at a place.

    Attributes
    ----------
    kind
        ``clear``; ``short`` (told at the heads-up, the rest goes quickly); ``mild`` (a rise, but
        the count of degree-days starts before March); ``none`` (no clear season here: regional date
        and scouting).
    why_none
        For ``none``: the soil never falls to 50 °F, takes weeks on end through 50-55 °F, or never
        gets warm enough for first emergence before August. Else None.
    coldest_c
        Mean soil on the coldest day of the half-year to the end of June [°C].
    band_from, band_days
        Day number on which the rise enters 50-55 °F, and days it stays there; None if it never
        does both.
    emergence
        Day number of first crabgrass emergence in the mean year, or None before August.
    count_from
        Month and day from which degree-days are to be counted.
    """

    kind: SpringKind
    why_none: NoSpring | None
    coldest_c: float
    band_from: int | None
    band_days: int | None
    emergence: int | None
    count_from: tuple[int, int]


def spring_picture(mean_c: FloatArray) -> SpringPicture:
    """Judge a place's spring from its mean year: a batch of one, as `spring_pictures`.

    Parameters
    ----------
    mean_c
        Mean soil temperature at 5 cm by day of a leap year, shape (366,) [°C].

    Raises
    ------
    ValueError
        If the shape is another, or a day is missing.
    """
    return spring_pictures(mean_c[None])[0]


def spring_pictures(mean_c: FloatArray) -> list[SpringPicture]:
    """Judge places' springs from their mean years, shape (places, 366), as `spring_picture`."""
    if mean_c.shape[1:] != (366,) or np.isnan(mean_c).any():
        raise ValueError("a mean year is 366 known days")
    low, high = BAND_C
    day = np.arange(_AUGUST)
    coldest = mean_c[:, :182].argmin(axis=1)
    rise = np.where(day < coldest[:, None], -np.inf, mean_c[:, :_AUGUST])
    enters, leaves = (first_at_or_above(rise, each) for each in (low, high))
    starts = [count_start(each) for each in mean_c]
    emergences = _emergence_days(mean_c, starts)
    coldest_c, lowest_c = mean_c[np.arange(len(mean_c)), coldest], mean_c.min(axis=1)
    return [
        _picture(*each)
        for each in zip(
            coldest_c.tolist(),
            lowest_c.tolist(),
            coldest.tolist(),
            enters.tolist(),
            leaves.tolist(),
            starts,
            emergences,
            strict=True,
        )
    ]


def _picture(
    coldest_c: float,
    lowest_c: float,
    coldest: int,
    enters: int,
    leaves: int,
    count_from: tuple[int, int],
    emergence: int | None,
) -> SpringPicture:
    low, _ = BAND_C
    is_crossed = coldest_c < low and leaves > coldest
    band_days = leaves - enters if is_crossed else None

    why_none: NoSpring | None = None
    if lowest_c >= low:
        why_none = "never_cold"
    elif emergence is None or band_days is None:
        why_none = "never_warm"
    elif band_days > _SLOW_BAND_DAYS:
        why_none = "slow_rise"

    kind: SpringKind = "clear"
    if why_none is not None:
        kind = "none"
    elif count_from != (3, 1):
        kind = "mild"
    elif band_days is not None and band_days <= _SHORT_BAND_DAYS:
        kind = "short"
    return SpringPicture(
        kind=kind,
        why_none=why_none,
        coldest_c=coldest_c,
        band_from=enters if is_crossed else None,
        band_days=band_days,
        emergence=emergence,
        count_from=count_from,
    )


def count_start(mean_c: FloatArray) -> tuple[int, int]:
    """Return month and day from which degree-days are to be counted.

    1 March where the mean soil is still below 50 °F then; where it is warmer, the coldest day of
    the mean year before that, not before 1 January.
    """
    if mean_c[_MARCH] < _MILD_MARCH_C:
        return (3, 1)
    day = date(2000, 1, 1) + timedelta(days=int(np.argmin(mean_c[:_MARCH])))
    return (day.month, day.day)


def emergence_day(mean_c: FloatArray, count_from: tuple[int, int] = (3, 1)) -> int | None:
    """Return the day number on which the mean year reaches first crabgrass emergence.

    None if not before August. Single years run earlier than their mean: warm days count, cold ones
    do not subtract.
    """
    return _emergence_days(mean_c[None], [count_from])[0]


def _emergence_days(mean_c: FloatArray, counts_from: Sequence[tuple[int, int]]) -> list[int | None]:
    weed = weeds()[LEADING_WEED]
    start = np.array([(date(2000, *each) - date(2000, 1, 1)).days for each in counts_from])
    warmth = np.maximum(mean_c[:, :_AUGUST] - (weed.base_c or 0.0), 0)
    warmth[np.arange(_AUGUST) < start[:, None]] = 0.0
    there = first_at_or_above(warmth.cumsum(axis=1), weed.stages[0].at)
    return [None if day < 0 else day for day in there.tolist()]


def degrees_of_days(mean_c: FloatArray, days_ahead: float, around: int) -> float:
    """Return how much warmer a zone is that runs ``days_ahead`` days ahead of its yard [°C].

    Parameters
    ----------
    mean_c
        The mean year, shape (366,) [°C].
    days_ahead
        Days ahead of the yard; negative for later.
    around
        Day number at which the zone is compared, usually that of emergence.
    """
    day = np.arange(366.0)
    there, here = np.interp([around + days_ahead, around], day, mean_c, period=366)
    return float(there - here)


@dataclass(frozen=True, slots=True)
class ExposureLead:
    """By how many days an exposure runs ahead (negative: behind), and where that comes from."""

    days_ahead: float
    source: str
    certainty: str


@cache
def exposure_leads() -> Mapping[str, ExposureLead]:
    """Return the usual leads of exposures on the person's word. Treat as read-only."""
    rows = tables.load("regional_dates")["exposures"]
    return {name: ExposureLead(**row) for name, row in rows.items()}


def zone_offset_c(mean_c: FloatArray, exposure: Exposure) -> float:
    """Return what to believe of a zone before its own readings [°C above the yard].

    The lead in days of the exposure, in degrees of the mean year at first emergence (or at the end
    of April where there is none).
    """
    around = emergence_day(mean_c, count_start(mean_c))
    lead = exposure_leads()[exposure].days_ahead
    return degrees_of_days(mean_c, lead, 120 if around is None else around)


@dataclass(frozen=True, slots=True)
class Turn:
    """Zones to be treated together, and the days left of the earliest of them."""

    zones: tuple[str, ...]
    days_left: float


def turns(days_left: Mapping[str, float], together_days: float = 7.0) -> tuple[Turn, ...]:
    """Group a yard's zones by when they are due: "the strip now, the rest in about ten days".

    Parameters
    ----------
    days_left
        Days left by zone.
    together_days
        Zones due within so many days of the earliest of a turn go with it. A setting; common
        practice, no source.
    """
    out: list[Turn] = []
    for zone, days in sorted(days_left.items(), key=lambda item: (item[1], item[0])):
        if out and days - out[-1].days_left <= together_days:
            out[-1] = Turn((*out[-1].zones, zone), out[-1].days_left)
        else:
            out.append(Turn((zone,), days))
    return tuple(out)


@dataclass(frozen=True, slots=True)
class RegionalDate:
    """A published date for a region: the fall-back without temperatures.

    Attributes
    ----------
    region
        Name of the region.
    speaks
        Whether the dates are for the application or for germination.
    first, last
        Month and day of the span; ``first`` is None where only a latest date is given.
    source, certainty
        Of the dates. The region's outline is always ours, from memory.
    """

    region: str
    speaks: Speaks
    first: tuple[int, int] | None
    last: tuple[int, int]
    source: str
    certainty: str


def regional_date(lat: float, lon: float) -> RegionalDate | None:
    """Return the published date of the smallest listed region around a point, or None."""
    around = [row for row in tables.load("regional_dates")["regions"] if _holds(row, lat, lon)]
    if not around:
        return None
    row = min(around, key=lambda row: _extent(row["box"]))
    first = row.get("first")
    return RegionalDate(
        region=row["region"],
        speaks=row["speaks"],
        first=None if first is None else (first[0], first[1]),
        last=(row["last"][0], row["last"][1]),
        source=row["source"],
        certainty=row["certainty"],
    )


def _holds(row: Mapping[str, Any], lat: float, lon: float) -> bool:
    south, west, north, east = row["box"]
    return bool(south <= lat < north and west <= lon < east)


def _extent(box: tuple[float, float, float, float]) -> float:
    south, west, north, east = box
    return (north - south) * (east - west)
