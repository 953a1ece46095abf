"""What is known on a day of how far a soil is off its mean year, as far as it tells what comes."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from typing import Final

import numpy as np
from numpy.lib.stride_tricks import sliding_window_view
from numpy.typing import NDArray

from jobs.agronomy.climatology import Climate, SingleArray
from jobs.agronomy.series import FloatArray

#: Time scale of the "slow" part of a departure [days].
SLOW_DAYS: Final = 30.0

#: Time scale of the past air that today's air is held against [days].
AIR_DAYS: Final = 3.0

#: Slow departure of the air for each degree of the soil's: pooled regression, February to May.
AIR_OF_SOIL: Final = 0.8

#: How far back the running averages look [days].
MEMORY_DAYS: Final = 120


@lru_cache(maxsize=1)
def _kernels() -> tuple[SingleArray, SingleArray]:
    """Return the weights of the slow averages and of the air's quick one, the oldest day first."""
    age = np.arange(MEMORY_DAYS)[::-1]
    slow, quick = (np.exp(-age / scale) for scale in (SLOW_DAYS, AIR_DAYS))
    return (slow / slow.sum()).astype(np.float32), (quick / quick.sum()).astype(np.float32)


def running_state(departure_c: FloatArray | SingleArray, air_c: SingleArray | None) -> SingleArray:
    """Return what is known on a day about its departure, shape (..., 4) [°C].

    The columns are today's departure of the soil; its average over the past weeks (weights falling
    off with `SLOW_DAYS`); how much warmer today's air is, against its mean year, than the past
    days' (`AIR_DAYS`): that is still on its way into the soil; and the air's departure over the
    past weeks. Where no air is known at all, the share of the soil's own past weeks that air
    usually has stands for the last.

    Parameters
    ----------
    departure_c, air_c
        Departures of soil and air on `MEMORY_DAYS` days up to this one, shape (..., MEMORY_DAYS)
        [°C]; zero where missing.
    """
    slow, quick = _kernels()
    soil_c = np.asarray(departure_c, dtype=np.float32)
    out = np.zeros((*soil_c.shape[:-1], 4), dtype=np.float32)
    out[..., 0] = soil_c[..., -1]
    out[..., 1] = soil_c @ slow
    if air_c is None:
        out[..., 3] = AIR_OF_SOIL * out[..., 1]
    else:
        out[..., 2] = air_c[..., -1] - air_c @ quick
        out[..., 3] = air_c @ slow
    return out


def states_on(climates: Sequence[Climate], at: NDArray[np.int64]) -> SingleArray:
    """Return what was to be known on past days, shape (places, days, 4) [°C].

    Parameters
    ----------
    climates
        Places whose series begin on the same day, all with known air or all without.
    at
        Entries of their series, all of them known days.
    """
    soil_c = _windows([each.departure_c for each in climates], at)
    air = [each.air_departure_c for each in climates]
    with_air = [each for each in air if each is not None]
    return running_state(soil_c, _windows(with_air, at) if with_air else None)


def _windows(series: Sequence[SingleArray], at: NDArray[np.int64]) -> SingleArray:
    """Return the `MEMORY_DAYS` days up to each entry; days before the first are zero."""
    if not len(at):
        return np.zeros((len(series), 0, MEMORY_DAYS), dtype=np.float32)
    first, stop = int(at.min()) - MEMORY_DAYS + 1, int(at.max()) + 1
    lead = max(0, -first)
    table = np.zeros((len(series), stop - first), dtype=np.float32)
    for row, values in zip(table, series, strict=True):
        row[lead:] = values[first + lead : stop]
    windows = sliding_window_view(table, MEMORY_DAYS, axis=1)
    return np.asarray(windows[:, at - MEMORY_DAYS + 1 - first])
