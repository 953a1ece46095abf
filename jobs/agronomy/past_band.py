"""Past years of one place, day by day: their mean, the range of four in five, and the extremes."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

import numpy as np

from jobs.agronomy import regional
from jobs.agronomy.climatology import Climate, leap_slots
from jobs.agronomy.series import FloatArray
from jobs.agronomy.soil import TRAILING_DAYS, trailing_mean


@dataclass(frozen=True, slots=True, eq=False)
class Band:
    """Past years' trailing 5-day means, day by day from ``first_day`` [°C].

    ``p10_c`` and ``p90_c`` hold four years in five; ``low_c`` and ``high_c`` are the extremes.
    """

    first_day: date
    years: int
    mean_c: FloatArray
    p10_c: FloatArray
    p90_c: FloatArray
    low_c: FloatArray
    high_c: FloatArray


def past_band(climate: Climate, first_day: date, days: int) -> Band:
    """Return the past years' mean and band of the trailing 5-day mean for some days.

    Where the place has no years of its own the band is a normal one around the regional curve,
    of the regional curve's error and the usual spread of a soil between years.
    """
    slots = leap_slots(first_day, days)
    mean_c = trailing_mean(np.concatenate([climate.mean_c[-TRAILING_DAYS:], climate.mean_c]))
    mean_c = mean_c[TRAILING_DAYS:][slots]
    five_c = trailing_mean(np.where(climate.is_real, climate.departure_c, np.nan))
    five_c = five_c[: climate.known_days]
    own = leap_slots(climate.first_day, climate.known_days)
    if np.isfinite(five_c).sum() < 300:
        spread_c = float(np.hypot(climate.curve_sd_c, regional.YEAR_TO_YEAR_SD_C))
        sides = [np.full(days, z * spread_c) for z in (-1.2816, 1.2816, -2.0, 2.0)]
    else:
        bank = np.full((5, 366), np.nan)
        half = 5  # neighbouring days widen a small sample
        for slot in np.unique(slots):
            near = np.abs((own - slot + 183) % 366 - 183) <= half
            sample = five_c[near]
            sample = sample[~np.isnan(sample)]
            if len(sample):
                bank[:, slot] = [*np.quantile(sample, (0.1, 0.9)), sample.min(), sample.max(), 0]
        sides = [bank[i][slots] for i in range(4)]
    return Band(first_day, len(climate.years), mean_c, *(mean_c + side for side in sides))
