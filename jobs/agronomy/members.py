"""Where the members of an outlook come from: past years around the same date, or generic noise."""

from __future__ import annotations

from datetime import date
from functools import lru_cache
from typing import Final

import numpy as np
from numpy.typing import NDArray

from jobs.agronomy.climatology import Climate, SingleArray
from jobs.agronomy.series import FloatArray

#: Days around the issue date from which past years' courses start.
START_SHIFTS: Final = (-12, -8, -4, 0, 4, 8, 12)

#: Members drawn from the generic noise where a place has too few years of its own.
_GENERIC_MEMBERS: Final = 60

#: Below this many years the generic members stand in for the missing ones.
ENOUGH_YEARS: Final = 3

#: A past start serves if this share of what is asked of it was measured.
_REAL_SHARE: Final = 0.6

#: What the members share over this many days is the chance of a few years, and taken out [days].
_CENTRING_DAYS: Final = 15

#: Past years' departures from the fading carry the fading's own error twice (there and here), so
#: that the first days spread this much too wide; set on the share of truths inside p10-p90.
_NEAR_EXCESS: Final = 0.2
_NEAR_EXCESS_DAYS: Final = 10.0

#: What three or four years leave out: variance is widened by 1 + this / years².
_FEW_YEARS: Final = 4.0


#: How much of each part of `running_state` is left: sums of two exponentials [days], on ground
#: whose mean year stands at or below the first temperature, and at or above the second [°C].
_FADING_DAYS: Final = (4.0, 60.0)
_COLD_AND_WARM_C: Final = (2.0, 8.0)
_ON_COLD_GROUND: Final = ((0.88, 0.29), (-0.34, 0.39), (0.08, 0.02), (-0.35, 0.26))
_ON_WARM_GROUND: Final = ((0.56, 0.23), (-0.99, 1.00), (0.31, -0.07), (1.08, -0.76))


def persistence(horizon: int, ground_c: float) -> FloatArray:
    """Return how much of each part of `running_state` is left after 1 .. ``horizon`` days.

    Winter ground keeps what it has, whatever its cause: it lies under snow or is frozen. On spring
    ground a departure that the air explains is gone in days, and one that it does not explain (a
    wet or dry spring, the surface, the probe) stays for weeks.

    Pooled least squares of the departure 1-60 days ahead on the four parts, 28 stations of the U.S.
    Climate Reference Network, February to May of 2012-2024, each year against a climate fitted on
    earlier ones. Of years left out it explains more than one curve for all ground does: the error
    of a day's mean falls by a tenth 1-3 days ahead on cold ground, by 1-2 % 20-45 days ahead.

    Parameters
    ----------
    horizon
        Days.
    ground_c
        Mean year's soil temperature on the day of issue [°C].

    Returns
    -------
    ndarray
        Shape (horizon, 4). Treat as read-only: it is shared.
    """
    cold_c, warm_c = _COLD_AND_WARM_C
    warmth = min(max((ground_c - cold_c) / (warm_c - cold_c), 0.0), 1.0)
    return _fading(horizon, round(20.0 * warmth) / 20.0)


@lru_cache(maxsize=256)
def _fading(horizon: int, warmth: float) -> FloatArray:
    h = np.arange(1, horizon + 1, dtype=np.float64)
    parts = (1.0 - warmth) * np.array(_ON_COLD_GROUND) + warmth * np.array(_ON_WARM_GROUND)
    out = np.exp(-h[:, None] / np.array(_FADING_DAYS)) @ parts.T
    out.setflags(write=False)
    return np.asarray(out)


def past_starts(climate: Climate, start: date, horizon: int) -> NDArray[np.int64]:
    """Return the entries of the climate's series from which past years' courses start."""
    asked = min(horizon, 120)
    starts = _starts(
        climate.first_day, climate.known_days, len(climate.departure_c), start, horizon
    )
    real = climate.real_before[starts + asked + 1] - climate.real_before[starts]
    return np.asarray(starts[real >= _REAL_SHARE * (asked + 1)])


@lru_cache(maxsize=16)
def _starts(
    first_day: date, known_days: int, total: int, start: date, horizon: int
) -> NDArray[np.int64]:
    last = min(known_days, total - horizon) - 1
    anchors = [
        (_same_day(start, year) - first_day).days for year in range(first_day.year, start.year)
    ]
    starts = (np.asarray(anchors, dtype=np.int64)[:, None] + np.asarray(START_SHIFTS)).ravel()
    return np.asarray(starts[(starts >= 0) & (starts <= last)])


def _same_day(day: date, year: int) -> date:
    is_leap_day = day.month == 2 and day.day == 29
    return day.replace(year=year, day=28) if is_leap_day else day.replace(year=year)


@lru_cache(maxsize=16)
def generic_noise(horizon: int, *, has_state: bool) -> FloatArray:
    """Return courses for a place without past years: what a soil does beyond fading, anywhere.

    Two red noises (time scales of 5 and 40 days), started from rest where today's departure is
    known, from their usual spread where not; seeded, so that the same question gets the same
    answer. Shape (members, horizon). Treat as read-only: it is shared.
    """
    rng = np.random.default_rng(20_260_301)
    out = np.zeros((_GENERIC_MEMBERS, horizon))
    for scale_days, sd_c in ((5.0, 2.2), (40.0, 1.6)):
        keep = float(np.exp(-1.0 / scale_days))
        level = np.zeros(_GENERIC_MEMBERS)
        if not has_state:
            level = sd_c * spread_out(_GENERIC_MEMBERS)
            rng.shuffle(level)
        for day in range(horizon):
            push = rng.standard_normal(_GENERIC_MEMBERS)
            push -= push.mean()
            level = keep * level + sd_c * np.sqrt(1 - keep**2) * push
            out[:, day] += level
    out.setflags(write=False)
    return out


def shared_by_chance(mean_c: SingleArray) -> SingleArray:
    """Return what members share by chance on each day, of their means, shape (..., horizon)."""
    horizon = mean_c.shape[-1]
    half = min(_CENTRING_DAYS, horizon) // 2
    ends = [np.repeat(mean_c[..., :1], half + 1, axis=-1), np.repeat(mean_c[..., -1:], half, -1)]
    padded = np.concatenate([ends[0], mean_c, ends[1]], axis=-1, dtype=np.float64)
    total = padded.cumsum(axis=-1)
    shared = (total[..., 2 * half + 1 :] - total[..., :horizon]) / (2 * half + 1)
    return np.asarray(shared, dtype=np.float32)


@lru_cache(maxsize=64)
def spread_of(horizon: int, years: int, *, has_state: bool) -> FloatArray:
    """Return by what the members' noise is multiplied on each day (see the constants)."""
    scale = np.full(horizon, np.sqrt(1.0 + _FEW_YEARS / years**2) if years else 1.0)
    if has_state:
        h = np.arange(1, horizon + 1)
        scale *= 1.0 - _NEAR_EXCESS * np.exp(-h / _NEAR_EXCESS_DAYS)
    return scale


@lru_cache(maxsize=16)
def spread_out(count: int) -> FloatArray:
    """Return evenly likely points of the standard normal, shuffled the same way every time."""
    rank = (np.arange(count) + 0.5) / count
    # Tukey's lambda: a closed form of the normal quantile, within 0.01 inside the 1st-99th.
    points = (rank**0.135 - (1 - rank) ** 0.135) / 0.1975
    np.random.default_rng(20_260_302).shuffle(points)
    points.setflags(write=False)
    return np.asarray(points)
