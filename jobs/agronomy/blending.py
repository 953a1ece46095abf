"""Drawing an ensemble towards a weather service's forecast, by the skill of both."""

from __future__ import annotations

from functools import lru_cache
from typing import Final, TypeVar

import numpy as np
from numpy.typing import NDArray

from jobs.agronomy.series import FloatArray

Members = TypeVar("Members", FloatArray, NDArray[np.float32])

#: Forecast error on day h: min(FIRST + STEP (h - 1), MOST) [°C], and its correlation from one day
#: to the next. Size from memory: modelled soil of a weather service against its later analysis.
ERROR_FIRST_C: Final = 0.6
ERROR_STEP_C: Final = 0.2
ERROR_MOST_C: Final = 3.0
ERROR_CORRELATION: Final = 0.85

#: Spread of members beyond the fading departure, February to May: red noise started from rest, time
#: scale [days] and size [°C]. Of 5 and 7 days the latter names crossings better on stations drawn
#: anew (by 0.5 %, nine draws in ten by more than 0.1 %), and 10 days no better.
_MEMBER_NOISE_DAYS: Final = 7.0
_MEMBER_NOISE_C: Final = 2.3


def forecast_error_sd_c(day: FloatArray) -> FloatArray:
    """Return the usual error of a soil forecast ``day`` days ahead (from 1) [°C]."""
    return np.minimum(ERROR_FIRST_C + ERROR_STEP_C * (day - 1.0), ERROR_MOST_C)


def drawn_to_forecast(paths_c: Members, forecast_c: FloatArray, lag_days: int = 0) -> Members:
    """Return the members drawn towards a forecast.

    Kalman's update of the members' mean, which weighs both by their precision at each lead, with a
    generic covariance in place of the sample's; each day's spread about the mean shrinks to what is
    left of it (deterministic square-root form, Whitaker & Hamill 2002, Mon. Weather Rev.
    130:1913-1924, reduced to its diagonal; from memory).
    Days after the last forecast one follow as far as they hang together with it.

    Parameters
    ----------
    paths_c
        Members, shape (..., m, n) [°C].
    forecast_c
        Forecast daily means, shape (..., days); entry 0 is the day after issue; NaN where missing,
        the same days everywhere [°C].
    lag_days
        Days the members start before the day after issue (stale data).
    """
    days = paths_c.shape[-1]
    usable = forecast_c[..., : max(0, days - lag_days)]
    is_given = ~np.isnan(usable)
    given = np.flatnonzero(is_given.reshape(-1, is_given.shape[-1])[0])
    if not len(given):
        return paths_c
    gain, left = _gain(tuple(int(g) for g in given), lag_days, days)
    mean_c = paths_c.mean(axis=-2)
    moved_c = mean_c + (usable[..., given] - mean_c[..., given + lag_days]) @ gain.T
    out: Members = paths_c * left.astype(paths_c.dtype)
    out += (moved_c - mean_c * left)[..., None, :].astype(out.dtype)
    return out


@lru_cache(maxsize=256)
def _gain(given: tuple[int, ...], lag_days: int, days: int) -> tuple[FloatArray, FloatArray]:
    """Return the gain (days, given), and the share of spread left on each day (days,)."""
    at = np.asarray(given) + lag_days
    lead = np.asarray(given, dtype=np.float64) + 1.0
    error_sd = forecast_error_sd_c(lead)
    error = ERROR_CORRELATION ** np.abs(lead[:, None] - lead) * error_sd[:, None] * error_sd
    day = np.arange(1, days + 1, dtype=np.float64)
    # Red noise started from rest: what two days share is what came before the earlier one.
    apart = np.abs(day[:, None] - day)
    both = np.minimum(day[:, None], day)
    prior = np.exp(-apart / _MEMBER_NOISE_DAYS) * -np.expm1(-2 * both / _MEMBER_NOISE_DAYS)
    prior *= _MEMBER_NOISE_C**2
    between = prior[:, at]
    gain = np.linalg.solve(between[at] + error, between.T).T
    variance = prior.diagonal()
    after = variance - (gain * between).sum(axis=1)
    return gain, np.sqrt(np.clip(after / variance, 0.0, 1.0))
