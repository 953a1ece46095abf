"""The yard's own thermometer: a reading made a daily mean, and what it says about the yard.

A grid cell is never the yard. Without readings the difference between them is zero with the
spread of `yard_prior`; every reading pulls it by as much as its own noise, its age and its season
deserve. A reading far off what is expected is asked about, not swallowed.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final

import numpy as np

from jobs.agronomy.heat import MOIST_LOAM_M2_S, day_wave
from jobs.agronomy.series import DailySeries, FloatArray
from jobs.agronomy.soil import fill_short_gaps
from jobs.agronomy.yard_prior import Features, covariance, prior_variance, slow_average

#: Depth everything is corrected to [m].
DEPTH_M: Final = 0.05
#: Noise of a household soil thermometer, standing differences within a lawn included [°C].
THERMOMETER_SD_C: Final = 0.6
#: Daily range of the air where nobody tells it [°C]: an ordinary spring day.
USUAL_AIR_RANGE_C: Final = 12.0
#: Whole-day amplitude at the surface per degree of daily range: half the range times 0.78, the
#: share of the whole-day wave in the air of the typical year of Greensboro, North Carolina. That
#: the ground under turf swings as the air above it does is an inference.
_AMPLITUDE_PER_RANGE: Final = 0.39
#: How uncertain that amplitude is (share), and the hour of the wave [h]. Inferences.
_AMPLITUDE_SD: Final = 0.4
_HOUR_SD: Final = 1.0
#: The deeper or shallower the reading, the less sure its daily mean [°C per m].
_DEPTH_SD_C_PER_M: Final = 8.0

#: A reading is asked about when it lies outside what we expect by both of these.
SURPRISING_SDS: Final = 3.0
SURPRISING_C: Final = 3.0
#: Newest readings used; more, and older ones, hardly count.
_MOST_READINGS: Final = 60
_OLDEST_READING: Final = timedelta(days=3 * 365)
#: Days of the cell before the first reading, for its running average.
_WARM_UP: Final = timedelta(days=60)
#: Gaps in the cell's soil bridged when a reading falls into one [days].
_BRIDGED_DAYS: Final = 10


@dataclass(frozen=True, slots=True)
class Reading:
    """A reading made comparable: the daily mean at 5 cm it stands for.

    Attributes
    ----------
    day
        Local day.
    mean_c
        Daily mean at 5 cm [°C].
    sd_c
        How uncertain that is, thermometer included [°C].
    zone
        The zone it was taken in, or None for the yard as a whole.
    """

    day: date
    mean_c: float
    sd_c: float
    zone: str | None = None


@dataclass(frozen=True, slots=True)
class Surprise:
    """Whether a reading should be asked about, and what would have been expected in its place.

    ``low_c`` and ``high_c`` bound what would have been taken without a question, as the thermometer
    would have shown it at its depth and hour [°C].
    """

    is_surprising: bool
    low_c: float
    high_c: float


def day_swing_c(
    depth_m: float, solar_hour: float | None, air_range_c: float | None = None
) -> tuple[float, float]:
    """Return how far soil stands above its daily mean at an hour, and the uncertainty of it [°C].

    Parameters
    ----------
    depth_m
        Depth of the thermometer's tip [m].
    solar_hour
        Local solar hour 0-24, or None if unknown: then 0 with a wide uncertainty.
    air_range_c
        Highest minus lowest air temperature of the day [°C]; an ordinary day if unknown.
    """
    span = USUAL_AIR_RANGE_C if air_range_c is None else air_range_c
    amplitude = _AMPLITUDE_PER_RANGE * span
    if solar_hour is None:
        all_day = amplitude * day_wave(np.arange(24.0), depth_m, MOIST_LOAM_M2_S)
        return 0.0, float(all_day.std())
    before, now, after = amplitude * day_wave(
        solar_hour + np.array([-_HOUR_SD, 0.0, _HOUR_SD]), depth_m, MOIST_LOAM_M2_S
    )
    return float(now), float(np.hypot(_AMPLITUDE_SD * now, (after - before) / 2))


def reading_of(
    day: date,
    measured_c: float,
    depth_m: float = DEPTH_M,
    solar_hour: float | None = None,
    air_range_c: float | None = None,
    zone: str | None = None,
    thermometer_sd_c: float = THERMOMETER_SD_C,
) -> Reading:
    """Correct what the thermometer showed to the daily mean at 5 cm.

    The daily wave of the depth is taken off (`heat.day_wave`). Daily means themselves differ little
    between 2 and 10 cm; what they do differ widens ``sd_c``.

    Raises
    ------
    ValueError
        If the depth is not within 0-0.3 m.
    """
    if not 0 <= depth_m <= 0.3:
        raise ValueError(f"depth of a soil thermometer [m]: {depth_m}")
    swing, swing_sd = day_swing_c(depth_m, solar_hour, air_range_c)
    depth_sd = _DEPTH_SD_C_PER_M * abs(depth_m - DEPTH_M)
    sd = float(np.sqrt(thermometer_sd_c**2 + swing_sd**2 + depth_sd**2))
    return Reading(day, measured_c - swing, sd, zone)


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

    def offset_c(self, first_day: date, cell_c: FloatArray) -> FloatArray:
        """Return yard minus cell [°C] for the cell's daily means, shape (..., days).

        Parameters
        ----------
        first_day
            Day of the first entry.
        cell_c
            The cell's soil, known or forecast, one course or many. A course that begins right after
            the known days carries on from them; else it should begin a few weeks early.
        """
        at = self._features(first_day, cell_c)
        if not self.readings:
            return np.where(np.isnan(at.soil), np.nan, self._expected_c)
        return self._expected_c + covariance(at, self._known, self._cell_sd_c) @ self._weights

    def offset_sd_c(self, first_day: date, cell_c: FloatArray) -> FloatArray:
        """Return the uncertainty of `offset_c` [°C], same shape."""
        at = self._features(first_day, cell_c)
        variance = prior_variance(at, self._cell_sd_c)
        if self.readings:
            shared = covariance(at, self._known, self._cell_sd_c)
            variance = variance - np.einsum("...i,ij,...j->...", shared, self._inverse, shared)
        return np.asarray(np.sqrt(np.maximum(variance, 0)))

    def apply(self, first_day: date, cell_c: FloatArray) -> FloatArray:
        """Return the yard's soil [°C] for the cell's, same shape."""
        return np.asarray(cell_c + self.offset_c(first_day, cell_c))

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
    believed = [0.0 if r.zone is None else expected.get(r.zone, 0.0) for r in taken]
    noise = np.diag([r.sd_c**2 for r in taken]) if taken else np.zeros((0, 0))
    inverse = np.asarray(np.linalg.inv(covariance(known, known, cell_sd_c) + noise), dtype=float)
    apart = np.array([r.mean_c for r in taken]) - soil[days] - np.array(believed)
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
    )
