"""Where the members of an outlook come from: past years around the same date, or generic noise."""

from __future__ import annotations

from datetime import date
from functools import lru_cache
from typing import Final

import numpy as np
from numpy.typing import NDArray

from jobs.agronomy.climatology import Climate
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


@lru_cache(maxsize=64)
def persistence(horizon: int) -> FloatArray:
    """Return how much of each part of `running_state` is left after 1 .. ``horizon`` days.

    Sums of exponentials drawn by eye through pooled regressions of the departure 1-45 days ahead on
    the three parts (28 stations of the U.S. Climate Reference Network, February to May of
    2015-2023, each year against a climate fitted on earlier ones). Scores of crossing dates change
    by less than 1 % when any amplitude or time scale is changed by a third. Shape (horizon, 3).
    Treat as read-only: it is shared.
    """
    h = np.arange(1, horizon + 1, dtype=np.float64)
    today = 0.6 * np.exp(-h / 4.0) + 0.3 * np.exp(-h / 30.0)
    weeks = 0.4 * -np.expm1(-h / 8.0) * np.exp(-h / 60.0)
    air = 0.25 * np.exp(-h / 3.0)
    out = np.stack([today, weeks, air], axis=1)
    out.setflags(write=False)
    return out


def past_starts(climate: Climate, start: date, horizon: int) -> NDArray[np.int64]:
    """Return the entries of the climate's series from which past years' courses start."""
    total = len(climate.departure_c)
    real_before = climate.real_before
    asked = min(horizon, 120)
    last = min(climate.known_days, total - horizon) - 1
    shifts = np.asarray(START_SHIFTS)
    anchors = [
        (_same_day(start, year) - climate.first_day).days
        for year in range(climate.first_day.year, start.year)
    ]
    starts = (np.asarray(anchors, dtype=np.int64)[:, None] + shifts).ravel()
    starts = starts[(starts >= 0) & (starts <= last)]
    real = real_before[starts + asked + 1] - real_before[starts]
    return np.asarray(starts[real >= _REAL_SHARE * (asked + 1)])


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


def centred(noise: FloatArray, years: int, *, has_state: bool) -> FloatArray:
    """Take out what the members share by chance, and set the spread (see the constants)."""
    horizon = noise.shape[1]
    shared = noise.mean(axis=0)
    half = min(_CENTRING_DAYS, horizon) // 2
    padded = np.concatenate([np.full(half + 1, shared[0]), shared, np.full(half, shared[-1])])
    total = padded.cumsum()
    shared = (total[2 * half + 1 :] - total[:horizon]) / (2 * half + 1)
    noise = noise - shared
    if years:
        noise *= np.sqrt(1.0 + _FEW_YEARS / years**2)
    if has_state:
        h = np.arange(1, horizon + 1)
        noise *= 1.0 - _NEAR_EXCESS * np.exp(-h / _NEAR_EXCESS_DAYS)
    return noise


def spread_out(count: int) -> FloatArray:
    """Return evenly likely points of the standard normal, shuffled the same way every time."""
    rank = (np.arange(count) + 0.5) / count
    # Tukey's lambda: a closed form of the normal quantile, within 0.01 inside the 1st-99th.
    points = (rank**0.135 - (1 - rank) ** 0.135) / 0.1975
    np.random.default_rng(20_260_302).shuffle(points)
    return np.asarray(points)
