"""Heat waves on their way into the ground: damping depth, and the daily wave.

A uniform half-space whose surface swings as a sine (van Wijk & de Vries 1963, in Physics of Plant
Environment, North-Holland; from memory): at depth z the wave is smaller by exp(-z/d) and later by
z/(d omega), with the damping depth d = sqrt(2 D / omega).
"""

from __future__ import annotations

from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from jobs.agronomy.series import FloatArray

#: Thermal diffusivity of moist loam [m²/s]; dry or organic soil 0.2e-6, wet sand 0.8e-6 (from
#: memory; 3.9e-7 measured in the top layer of a Brazilian Nitisol).
MOIST_LOAM_M2_S: Final = 0.5e-6

#: Local solar hour at which the surface is warmest: an hour before the air. Common practice.
WARMEST_HOUR: Final = 14.0
#: The half-day wave in the mean spring day against the whole-day wave: its share, and how many
#: hours earlier it peaks. It makes mornings short and nights long. Measured by us in the hourly air
#: of the open typical year of Greensboro, North Carolina (February-May 0.18, 2.0 h).
_HALF_DAY_SHARE: Final = 0.18
_HALF_DAY_EARLIER_H: Final = 2.0


def damping_depth_m(diffusivity_m2_s: ArrayLike, period_s: ArrayLike) -> FloatArray:
    """Return the depth at which a wave of the given period has shrunk to 37 % [m]."""
    diffusivity = np.asarray(diffusivity_m2_s, dtype=float)
    return np.asarray(np.sqrt(diffusivity * np.asarray(period_s, dtype=float) / np.pi))


def day_wave(
    hour: ArrayLike, depth_m: ArrayLike, diffusivity_m2_s: ArrayLike = MOIST_LOAM_M2_S
) -> FloatArray:
    """Return how far soil stands above its daily mean, for a surface swinging by 1 °C.

    Parameters
    ----------
    hour
        Local solar hour, 0-24.
    depth_m
        Depth [m], 0 at the surface.
    diffusivity_m2_s
        Thermal diffusivity.

    Returns
    -------
    ndarray
        [°C per °C of whole-day amplitude at the surface].
    """
    at = np.asarray(hour, dtype=float)
    first = _wave(at - WARMEST_HOUR, depth_m, 24.0, diffusivity_m2_s)
    second = _wave(at - WARMEST_HOUR + _HALF_DAY_EARLIER_H, depth_m, 12.0, diffusivity_m2_s)
    return np.asarray(first + _HALF_DAY_SHARE * second)


def _wave(
    hours: FloatArray, depth_m: ArrayLike, period_h: float, diffusivity_m2_s: ArrayLike
) -> FloatArray:
    """Return a unit cosine of the surface, as it arrives at the depth."""
    depths = np.asarray(depth_m, dtype=float) / damping_depth_m(diffusivity_m2_s, period_h * 3600)
    return np.asarray(np.exp(-depths) * np.cos(2 * np.pi * hours / period_h - depths))
