"""Fading memory along the last axis: exponentially weighted sums and averages that bear gaps."""

from __future__ import annotations

import numpy as np

from jobs.agronomy.series import FloatArray

#: Weights smaller than this are as good as forgotten.
_FORGOTTEN = 1e-12


def faded_sum(values: FloatArray, keep: float) -> FloatArray:
    """Return ``out[t] = values[t] + keep * out[t - 1]`` along the last axis, without a loop.

    Doubling: after j rounds each entry holds the 2**j newest values (Hillis & Steele 1986, Commun.
    ACM 29:1170-1183).

    Parameters
    ----------
    values
        Shape (..., days), no NaN.
    keep
        Share kept from one day to the next, 0-1.
    """
    out = np.array(values, dtype=float)
    step = 1
    while step < out.shape[-1] and keep**step > _FORGOTTEN:
        out[..., step:] += keep**step * out[..., :-step].copy()
        step *= 2
    return out


def faded_mean(values: FloatArray, days: float, start: float = float("nan")) -> FloatArray:
    """Return the average of the known values, each weighing exp(-age / ``days``).

    Parameters
    ----------
    values
        Shape (..., days), NaN where missing.
    days
        Memory [days].
    start
        The average up to the day before the first, as if long established; NaN for none.

    Returns
    -------
    ndarray
        NaN until something is known.
    """
    keep = float(np.exp(-1 / days))
    is_known = ~np.isnan(values)
    total = faded_sum(np.where(is_known, values, 0.0), keep)
    weight = faded_sum(is_known.astype(float), keep)
    if not np.isnan(start):
        before = keep ** np.arange(1, values.shape[-1] + 1) / (1 - keep)
        total = total + start * before
        weight = weight + before
    out = np.full(values.shape, np.nan)
    np.divide(total, weight, out=out, where=weight > _FORGOTTEN)
    return out


def days_since_known(values: FloatArray) -> FloatArray:
    """Return how many days ago the newest known value is, 0 for today; inf before the first."""
    count = np.arange(values.shape[-1], dtype=float)
    last = np.maximum.accumulate(np.where(np.isnan(values), -np.inf, count), axis=-1)
    return np.asarray(count - last)
