"""Published simple forms of soil temperature from air, as references beside our own.

Constants as agreed with the sources named; step forms of SWAT and Zheng partly from memory.
"""

from __future__ import annotations

import numpy as np


def eleven_day_weighted_mean(air_c):
    """Biome-BGC 4.1.1 (Thornton 2000): weights 1 (oldest) to 11 (today) over 66; for 10 cm."""
    air = np.asarray(air_c, dtype=float)
    out = np.full(len(air), np.nan)
    weights = np.arange(1.0, 12.0) / 66
    out[10:] = np.lib.stride_tricks.sliding_window_view(air, 11) @ weights
    return out


def zheng_step(before_c, air_mean_c, k=0.45, leaf_area=2.0, m=0.25):
    """Zheng, Hunt & Running 1993 (Clim. Res. 2:183-191): one day; warming is damped by leaves."""
    pull = m * np.exp(-k * leaf_area) if air_mean_c > before_c else m
    return before_c + (air_mean_c - before_c) * pull


def swat_damping_depth_mm(bulk_density, soil_water_mm, total_depth_mm):
    """SWAT (Neitsch et al. 2011, TR-406): damping depth [mm]."""
    deepest = 1000 + 2500 * bulk_density / (bulk_density + 686 * np.exp(-5.63 * bulk_density))
    wet = soil_water_mm / ((0.356 - 0.144 * bulk_density) * total_depth_mm)
    return deepest * np.exp(np.log(500 / deepest) * ((1 - wet) / (1 + wet)) ** 2)


def swat_bare_surface_c(mean_c, max_c, min_c, radiation_mj, albedo=0.23):
    """SWAT: bare soil surface [°C] from the day's air and radiation."""
    return mean_c + 0.5 * (max_c - min_c) * (radiation_mj * (1 - albedo) - 14) / 20


def swat_step(before_c, surface_c, annual_c, depth_mm, damping_mm):
    """SWAT: one day at a depth, lag 0.8."""
    ratio = depth_mm / damping_mm
    factor = ratio / (ratio + np.exp(-0.8669 - 2.0775 * ratio))
    return 0.8 * before_c + 0.2 * (factor * (annual_c - surface_c) + surface_c)
