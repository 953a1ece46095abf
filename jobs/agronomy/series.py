"""Daily weather and soil of one place, or of several together, as contiguous arrays."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, fields, replace
from datetime import date, timedelta
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

FloatArray: TypeAlias = NDArray[np.float64]

#: The columns of a `DailySeries`, in their storage order.
COLUMNS = ("soil5_c", "tmean_c", "tmin_c", "tmax_c", "rain_mm")


@dataclass(frozen=True, slots=True, eq=False)
class DailySeries:
    """Daily values of one place: entry ``i`` is the local standard day ``first_day + i``.

    The calendar has no gaps; a missing value is NaN. All arrays share one length.

    Attributes
    ----------
    first_day
        Day of the first entry.
    soil5_c
        Mean soil temperature at 5 cm (2 in) [°C].
    tmean_c, tmin_c, tmax_c
        Mean, lowest and highest air temperature at 1.5-2 m [°C].
    rain_mm
        Precipitation total [mm].
    """

    first_day: date
    soil5_c: FloatArray
    tmean_c: FloatArray
    tmin_c: FloatArray
    tmax_c: FloatArray
    rain_mm: FloatArray

    def __post_init__(self) -> None:
        days = len(self.soil5_c)
        others = self.tmean_c, self.tmin_c, self.tmax_c, self.rain_mm
        if any(len(column) != days for column in others):
            lengths = {days, *(len(column) for column in others)}
            raise ValueError(f"columns differ in length: {sorted(lengths)}")

    def __len__(self) -> int:
        return len(self.soil5_c)

    @property
    def last_day(self) -> date:
        """Day of the last entry (the day before `first_day` when empty)."""
        return self.first_day + timedelta(days=len(self) - 1)

    @classmethod
    def empty(cls, first_day: date) -> DailySeries:
        """Return a series of no days."""
        return cls(first_day, *(np.empty(0) for _ in COLUMNS))

    @classmethod
    def missing(cls, first_day: date, days: int) -> DailySeries:
        """Return a series of ``days`` days with every value missing."""
        return cls(first_day, *(np.full(days, np.nan) for _ in COLUMNS))

    def between(self, first: date, last: date) -> DailySeries:
        """Return the days from ``first`` to ``last`` inclusive, as far as the series holds them."""
        start = max(0, (first - self.first_day).days)
        stop = max(start, min(len(self), (last - self.first_day).days + 1))
        day = self.first_day + timedelta(days=start)
        return DailySeries(day, *(getattr(self, name)[start:stop] for name in COLUMNS))

    def until(self, last: date) -> DailySeries:
        """Return the days up to and including ``last``."""
        return self.between(self.first_day, last)

    def on(self, first: date, last: date) -> DailySeries:
        """Return exactly the days ``first`` to ``last``, padded with missing values."""
        out = DailySeries.missing(first, max(0, (last - first).days + 1))
        known = self.between(first, last)
        if len(known):
            at = (known.first_day - first).days
            for name in COLUMNS:
                getattr(out, name)[at : at + len(known)] = getattr(known, name)
        return out

    def overlaid(self, other: DailySeries) -> DailySeries:
        """Return a series over both spans in which the other's known values win."""
        if not len(other):
            return self
        if not len(self):
            return other
        first = min(self.first_day, other.first_day)
        last = max(self.last_day, other.last_day)
        columns = []
        for name in COLUMNS:
            out = np.full((last - first).days + 1, np.nan)
            at = (self.first_day - first).days
            out[at : at + len(self)] = getattr(self, name)
            at = (other.first_day - first).days
            theirs = getattr(other, name)
            span = out[at : at + len(other)]
            np.copyto(span, theirs, where=~np.isnan(theirs))
            columns.append(out)
        return DailySeries(first, *columns)

    def shifted(self, days: int) -> DailySeries:
        """Return the same values on days ``days`` later.

        South of the equator the calendar is shifted by half a year once, so that every rule of the
        season can be written for northern dates.
        """
        return replace(self, first_day=self.first_day + timedelta(days=days))


@dataclass(frozen=True, slots=True, eq=False)
class Together:
    """Soil and air of several places on the same days, shape (places, days) [°C]; NaN: missing.

    What is reckoned of one place is reckoned of a batch of one.
    """

    first_day: date
    soil5_c: FloatArray
    tmean_c: FloatArray

    @classmethod
    def of(cls, series: Sequence[DailySeries]) -> Together:
        """Return series of the same days side by side."""
        soil_c = np.stack([each.soil5_c for each in series])
        return cls(series[0].first_day, soil_c, np.stack([each.tmean_c for each in series]))

    @property
    def last_day(self) -> date:
        """Day of the last entries (the day before `first_day` when empty)."""
        return self.first_day + timedelta(days=self.soil5_c.shape[1] - 1)

    def on(self, first: date, last: date) -> Together:
        """Return exactly the days ``first`` to ``last``, padded with missing values."""
        days, at = (last - first).days + 1, (first - self.first_day).days
        length = self.soil5_c.shape[1]
        if at >= 0 and at + days <= length:
            inside = slice(at, at + days)
            return Together(first, self.soil5_c[:, inside], self.tmean_c[:, inside])
        columns = []
        for values in (self.soil5_c, self.tmean_c):
            out = np.full((len(values), days), np.nan)
            start, stop = min(max(0, at), length), max(0, min(length, at + days))
            if start < stop:
                out[:, start - at : stop - at] = values[:, start:stop]
            columns.append(out)
        return Together(first, *columns)


assert tuple(f.name for f in fields(DailySeries))[1:] == COLUMNS
