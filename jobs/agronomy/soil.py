"""Daily soil temperature as arrays: trailing means, short gaps, degree-days.

Every function works along the last axis, so one series and thousands run the same code.
"""

from __future__ import annotations

from typing import Final

import numpy as np
from numpy.typing import ArrayLike, NDArray

from jobs.agronomy.series import FloatArray

#: Days of the trailing mean that thresholds are held against.
TRAILING_DAYS: Final = 5

#: Gaps up to this many days are filled by a straight line.
LONGEST_FILLED_GAP_DAYS: Final = 4


def trailing_mean(values: ArrayLike, days: int = TRAILING_DAYS) -> FloatArray:
    """Return the mean of each day and the ``days - 1`` before it.

    Parameters
    ----------
    values
        Daily values, shape (..., n).
    days
        Length of the window.

    Returns
    -------
    array, shape (..., n)
        NaN where the window is not complete, or holds a missing value.
    """
    array = np.asarray(values, dtype=np.float64)
    out = np.full(array.shape, np.nan)
    count = array.shape[-1]
    if count >= days:
        total = array[..., days - 1 :].copy()
        for back in range(1, days):
            total += array[..., days - 1 - back : count - back]
        out[..., days - 1 :] = total / days
    return out


def fill_short_gaps(values: ArrayLike, longest: int = LONGEST_FILLED_GAP_DAYS) -> FloatArray:
    """Return a copy of one series with gaps of up to ``longest`` days filled by a straight line.

    Longer gaps, and gaps at either end (nothing known on one side), stay missing.

    Parameters
    ----------
    values
        Daily values, shape (n,), NaN where missing.
    longest
        Longest gap to fill [days].
    """
    out = np.array(values, dtype=np.float64)
    known = np.flatnonzero(~np.isnan(out))
    if len(known) < 2:
        return out
    gap = np.diff(known) - 1
    for left in np.flatnonzero((gap > 0) & (gap <= longest)):
        a, b = known[left], known[left + 1]
        out[a : b + 1] = np.linspace(out[a], out[b], b - a + 1)
    return out


def last_known(values: ArrayLike) -> int | None:
    """Return the index of the newest value of one series that is not missing, or None."""
    known = np.flatnonzero(~np.isnan(np.asarray(values, dtype=np.float64)))
    return int(known[-1]) if len(known) else None


def first_at_or_above(values: ArrayLike, threshold: ArrayLike) -> NDArray[np.int64]:
    """Return the first index at which ``values`` reaches the threshold, or -1.

    Parameters
    ----------
    values
        Shape (..., n); a missing value never reaches anything.
    threshold
        In the unit of the values.

    Returns
    -------
    integer array, shape (...)
    """
    reached = np.asarray(values) >= threshold
    if not reached.shape[-1]:
        return np.full(reached.shape[:-1], -1)
    first = reached.argmax(axis=-1)
    there = np.take_along_axis(reached, first[..., None], axis=-1)[..., 0]
    return np.where(there, first, -1)


def degree_days(mean_c: ArrayLike, base_c: float) -> FloatArray:
    """Return each day's degree-days above a base [°C d], cold days counting nothing."""
    return np.maximum(np.asarray(mean_c, dtype=np.float64) - base_c, 0.0)


def degree_days_max_min(max_c: ArrayLike, min_c: ArrayLike, base_c: float) -> FloatArray:
    """Return each day's degree-days from the daily extremes, ``(max + min) / 2`` over the base.

    The form of the air-temperature rules of turf extension (Virginia Tech 2007): the day's mean is
    clamped at the base, the extremes are not.
    """
    middle = (np.asarray(max_c, dtype=np.float64) + np.asarray(min_c, dtype=np.float64)) / 2
    return np.maximum(middle - base_c, 0.0)
