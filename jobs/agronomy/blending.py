"""Drawing an ensemble towards a weather service's forecast, by the skill of both."""

from __future__ import annotations

from functools import lru_cache
from typing import Final

import numpy as np

from jobs.agronomy.series import FloatArray

#: Forecast error on day h: min(FIRST + STEP (h - 1), MOST) [°C], and its correlation from one day
#: to the next. Size from memory: modelled soil of a weather service against its later analysis.
ERROR_FIRST_C: Final = 0.6
ERROR_STEP_C: Final = 0.2
ERROR_MOST_C: Final = 3.0
ERROR_CORRELATION: Final = 0.85

#: Spread of members beyond the fading departure: two red noises, time scale [days] and size [°C].
_MEMBER_NOISE: Final = ((4.0, 1.9), (25.0, 1.6))


def forecast_error_sd_c(day: FloatArray) -> FloatArray:
    """Return the usual error of a soil forecast ``day`` days ahead (from 1) [°C]."""
    return np.minimum(ERROR_FIRST_C + ERROR_STEP_C * (day - 1.0), ERROR_MOST_C)


def drawn_to_forecast(paths_c: FloatArray, forecast_c: FloatArray, lag_days: int = 0) -> FloatArray:
    """Return the members drawn towards a forecast.

    The update is Kalman's with perturbed forecasts (Evensen 1994, J. Geophys. Res. 99:10143-10162;
    perturbed observations: Burgers et al. 1998, Mon. Weather Rev. 126:1719-1724, from memory),
    with a generic covariance of the members in place of the sample's. Days after the last
    forecast one follow as far as they hang together with it.

    Parameters
    ----------
    paths_c
        Members, shape (m, n) [°C].
    forecast_c
        Forecast daily means; entry 0 is the day after issue; NaN where missing [°C].
    lag_days
        Days the members start before the day after issue (stale data).
    """
    members, days = paths_c.shape
    usable = forecast_c[: max(0, days - lag_days)]
    given = np.flatnonzero(~np.isnan(usable))
    if not len(given):
        return paths_c
    gain, error = _gain(tuple(int(g) for g in given), lag_days, days)
    noise = _error_paths(members, len(error)) @ error.T
    gap_c = usable[given] + noise - paths_c[:, given + lag_days]
    return np.asarray(paths_c + gap_c @ gain.T)


@lru_cache(maxsize=64)
def _gain(given: tuple[int, ...], lag_days: int, days: int) -> tuple[FloatArray, FloatArray]:
    """Return the gain (days, given) and a square root of the forecast's error covariance."""
    lead = np.asarray(given, dtype=np.float64) + 1.0
    error_sd = forecast_error_sd_c(lead)
    covariance = ERROR_CORRELATION ** np.abs(lead[:, None] - lead) * error_sd[:, None] * error_sd
    a = np.arange(1, days + 1, dtype=np.float64)
    b = lead + lag_days
    prior = np.zeros((days, len(given)))
    for scale_days, sd_c in _MEMBER_NOISE:
        # Red noise started from rest: what both days share is what came before the earlier one.
        apart = np.abs(a[:, None] - b)
        both = np.minimum(a[:, None], b)
        prior += sd_c**2 * np.exp(-apart / scale_days) * -np.expm1(-2 * both / scale_days)
    at = np.asarray(given) + lag_days
    gain = np.linalg.solve((prior[at] + covariance).T, prior.T).T
    root = np.asarray(np.linalg.cholesky(covariance), dtype=np.float64)
    return np.asarray(gain, dtype=np.float64), root


@lru_cache(maxsize=64)
def _error_paths(members: int, days: int) -> FloatArray:
    """Return standard normal numbers, seeded, centred over the members, shape (members, days)."""
    noise = np.random.default_rng(20_260_303).standard_normal((members, days))
    return np.asarray(noise - noise.mean(axis=0))
