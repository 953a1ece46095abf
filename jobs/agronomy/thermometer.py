"""A reading of the yard's own thermometer, corrected to the daily mean at 5 cm."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Final

import numpy as np

from jobs.agronomy.heat import MOIST_LOAM_M2_S, day_wave

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
