"""What a yard's thermometer readings say about the yard, beside its grid cell.

A grid cell is never the yard. Without readings the difference between them has the spread of
`yard_prior`; every reading pulls it by as much as its own noise, its age and its season deserve. A
reading far off what is expected is asked about, not swallowed.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final

import numpy as np

from jobs.agronomy.series import DailySeries, FloatArray
from jobs.agronomy.soil import fill_short_gaps
from jobs.agronomy.thermometer import DEPTH_M, Reading, reading_of
from jobs.agronomy.yard_prior import (
    CELL_OWN_SHARE,
    EXCESS_DAYS,
    Features,
    covariance,
    prior_variance,
    slow_average,
)

#: A reading is asked about when it lies outside what we expect by both of these.
SURPRISING_SDS: Final = 3.0
SURPRISING_C: Final = 3.0
#: Newest readings used; more, and older ones, hardly count.
_MOST_READINGS: Final = 60
_OLDEST_READING: Final = timedelta(days=3 * 365)
#: Days of the cell before the first reading, for its running average.
_WARM_UP: Final = timedelta(days=60)
#: Days over which the usual excess of the cell over its air is taken.
_EXCESS_USUAL_DAYS: Final = 30
#: Gaps in the cell's soil bridged when a reading falls into one [days].
_BRIDGED_DAYS: Final = 10


@dataclass(frozen=True, slots=True)
class Surprise:
    """Whether a reading should be asked about, and what would have been expected in its place.

    ``low_c`` and ``high_c`` bound what would have been taken without a question, as the thermometer
    would have shown it at its depth and hour [°C].
    """

    is_surprising: bool
    low_c: float
    high_c: float


@dataclass(frozen=True, slots=True, eq=False)
class YardShift:
    """What a yard's (or zone's) readings say about its difference from the cell.

    Made by `fit_yard`; without readings it knows the prior alone.

    Attributes
    ----------
    zone
        The zone it speaks of, or None for the yard.
    readings
        How many readings it stands on.
    """

    zone: str | None
    readings: int
    _zone_code: int
    _origin: date
    _known: Features
    _weights: FloatArray
    _inverse: FloatArray
    _expected_c: float
    _cell_sd_c: float
    _slow_c: float
    _slow_on: date
    _excess_now_c: float
    _excess_usual_c: float
    _excess_on: date

    def offset_c(
        self, first_day: date, cell_c: FloatArray, explained_c: FloatArray | None = None
    ) -> FloatArray:
        """Return yard minus cell [°C] for the cell's daily means, shape (..., days).

        Parameters
        ----------
        first_day
            Day of the first entry.
        cell_c
            The cell's soil, known or forecast, one course or many. A course that begins right after
            the known days carries on from them; else it should begin a few weeks early.
        explained_c
            What the cell's air explains of it on those days (see `fit_yard`), where air is known or
            forecast; else the newest excess fades.
        """
        at = self._features(first_day, cell_c)
        offset = self._expected_c - CELL_OWN_SHARE * self._excess(first_day, cell_c, explained_c)
        if self.readings:
            offset = offset + covariance(at, self._known, self._cell_sd_c) @ self._weights
        return np.where(np.isnan(cell_c), np.nan, offset)

    def offset_sd_c(self, first_day: date, cell_c: FloatArray) -> FloatArray:
        """Return the uncertainty of `offset_c` [°C], same shape."""
        at = self._features(first_day, cell_c)
        variance = prior_variance(at, self._cell_sd_c)
        if self.readings:
            shared = covariance(at, self._known, self._cell_sd_c)
            variance = variance - np.einsum("...i,ij,...j->...", shared, self._inverse, shared)
        return np.asarray(np.sqrt(np.maximum(variance, 0)))

    def apply(
        self, first_day: date, cell_c: FloatArray, explained_c: FloatArray | None = None
    ) -> FloatArray:
        """Return the yard's soil [°C] for the cell's, same shape; parameters as `offset_c`."""
        return np.asarray(cell_c + self.offset_c(first_day, cell_c, explained_c))

    def check(
        self,
        day: date,
        cell_c: float,
        measured_c: float,
        depth_m: float = DEPTH_M,
        solar_hour: float | None = None,
        air_range_c: float | None = None,
    ) -> Surprise:
        """Judge a new reading before it is taken: whether it is so far off that one should ask.

        Parameters
        ----------
        day
            Day of the reading.
        cell_c
            The cell's (estimated) daily mean of that day [°C].
        measured_c, depth_m, solar_hour, air_range_c
            As for `reading_of`.
        """
        reading = reading_of(day, measured_c, depth_m, solar_hour, air_range_c, self.zone)
        one = np.array([cell_c])
        expected = float(self.apply(day, one)[0])
        spread = float(np.hypot(self.offset_sd_c(day, one)[0], reading.sd_c))
        margin = max(SURPRISING_SDS * spread, SURPRISING_C)
        swing = measured_c - reading.mean_c
        return Surprise(
            is_surprising=not abs(reading.mean_c - expected) <= margin,
            low_c=expected + swing - margin,
            high_c=expected + swing + margin,
        )

    def _excess(
        self, first_day: date, cell_c: FloatArray, explained_c: FloatArray | None
    ) -> FloatArray:
        """Excess of the cell over what its air explains: as told, else the newest one fading."""
        age = (first_day - self._excess_on).days + np.arange(cell_c.shape[-1])
        fading = np.exp(-np.maximum(age, 0) / EXCESS_DAYS)
        fades = self._excess_usual_c + (self._excess_now_c - self._excess_usual_c) * fading
        if explained_c is None:
            return np.broadcast_to(fades, cell_c.shape)
        told = cell_c - explained_c
        return np.where(np.isnan(told), fades, told)

    def _features(self, first_day: date, cell_c: FloatArray) -> Features:
        follows = first_day == self._slow_on + timedelta(days=1)
        # A single later day is taken to stand at its own average unless it follows the known days.
        slow = slow_average(cell_c, self._slow_c if follows else np.nan)
        start = (first_day - self._origin).days
        return Features(
            day=np.arange(start, start + cell_c.shape[-1], dtype=float),
            soil=np.maximum(cell_c, 0),
            quick=cell_c - slow,
            zone=np.full(cell_c.shape[-1], self._zone_code),
        )


def fit_yard(
    readings: Sequence[Reading],
    cell: DailySeries,
    zone: str | None = None,
    expected_c: Mapping[str, float] | None = None,
    cell_sd_c: float = 0.0,
    explained_c: FloatArray | None = None,
) -> YardShift:
    """Learn how a yard, or one of its zones, differs from its cell.

    Readings of the yard as a whole inform every zone; readings of a zone inform that zone fully and
    the yard in part; readings of other zones inform a zone as far as they speak of the yard.

    Parameters
    ----------
    readings
        The yard's readings, any order, all zones. Those on days for which the cell's soil is
        unknown, and those over three years old, are left out.
    cell
        The cell's soil as far as known.
    zone
        The zone wanted, or None for the yard.
    expected_c
        What is believed of zones before any reading [°C above the yard], such as a hot strip on the
        person's word (see `place.zone_offset_c`).
    cell_sd_c
        Standing error of the cell beyond the ordinary [°C]: 0 for measured or modelled soil, about
        1.2 where the soil was estimated from air.
    explained_c
        What the cell's own air explains of its soil (`air.soil_from_air`), one value a day of
        ``cell``; None to do without. Of what the cell stands off that, only a part is shared by the
        yards in it (see `yard_prior.CELL_OWN_SHARE`).
    """
    newest = sorted(readings, key=lambda reading: reading.day)[-_MOST_READINGS:]
    oldest_day = max(
        min((r.day for r in newest), default=cell.last_day), cell.last_day - _OLDEST_READING
    )
    recent = cell.between(oldest_day - _WARM_UP, cell.last_day)
    origin = recent.first_day
    expected = {} if expected_c is None else expected_c
    codes: dict[str | None, int] = {None: 0}
    for name in (zone, *(r.zone for r in newest)):
        codes.setdefault(name, len(codes))
    soil = fill_short_gaps(recent.soil5_c, _BRIDGED_DAYS)
    slow = slow_average(soil, np.nan)
    at = np.array([(r.day - origin).days for r in newest], dtype=int)
    usable = [
        i
        for i, day in enumerate(at)
        if newest[i].day >= oldest_day and 0 <= day < len(soil) and not np.isnan(soil[day])
    ]
    taken = [newest[i] for i in usable]
    days = at[usable]
    known = Features(
        day=days.astype(float),
        soil=np.maximum(soil[days], 0),
        quick=(soil - slow)[days],
        zone=np.array([codes[r.zone] for r in taken], dtype=int),
    )
    excess = np.zeros(len(soil))
    if explained_c is not None:
        told = fill_short_gaps(soil - explained_c[len(explained_c) - len(soil) :], _BRIDGED_DAYS)
        usual = float(np.nanmean(told)) if np.isfinite(told).any() else 0.0
        excess = np.where(np.isnan(told), usual, told)
    believed = [0.0 if r.zone is None else expected.get(r.zone, 0.0) for r in taken]
    noise = np.diag([r.sd_c**2 for r in taken]) if taken else np.zeros((0, 0))
    inverse = np.asarray(np.linalg.inv(covariance(known, known, cell_sd_c) + noise), dtype=float)
    apart = np.array([r.mean_c for r in taken]) - soil[days] - np.array(believed)
    apart = apart + CELL_OWN_SHARE * excess[days]
    last = np.flatnonzero(~np.isnan(slow))
    slow_at = int(last[-1]) if len(last) else 0
    return YardShift(
        zone=zone,
        _zone_code=codes[zone],
        readings=len(taken),
        _origin=origin,
        _known=known,
        _weights=inverse @ apart,
        _inverse=inverse,
        _expected_c=0.0 if zone is None else expected.get(zone, 0.0),
        _cell_sd_c=cell_sd_c,
        _slow_c=float(slow[slow_at]) if len(last) else float("nan"),
        _slow_on=origin + timedelta(days=slow_at),
        _excess_now_c=float(excess[slow_at]) if len(last) else 0.0,
        _excess_usual_c=float(excess[-_EXCESS_USUAL_DAYS:].mean()) if len(last) else 0.0,
        _excess_on=origin + timedelta(days=slow_at),
    )
