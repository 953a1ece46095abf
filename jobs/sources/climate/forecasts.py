"""The invented climate's own forecast: the truth, less of it with every day ahead.

A forecast is made of what will happen and of what happens in another invented world with the same
normals; the further ahead, the more of the other world. The same day always issues the same
forecast, whenever it is asked for.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

import numpy as np

from jobs.agronomy.series import DailySeries, FloatArray
from jobs.sources.base import Cell
from jobs.sources.climate.fields import derived_seed
from jobs.sources.climate.normals import IntArray
from jobs.sources.climate.under_turf import Ground, ground_under
from jobs.sources.climate.weather import Air, Places, air_on, site_offset_c

#: Days ahead.
FORECAST_DAYS = 16
#: Days ahead after which skill is down to 1/e. With the spread of the lowlands of North America
#: the error of daily means then grows from 1 °C on the first day over some 2.5 °C on the fifth to
#: the climate's own spread, as those of weather services do (rough figures from memory).
_SKILL_DAYS = 9.0
#: What the other world contributes is damped: forecasters hedge towards the normal.
_HEDGE = 0.6
#: Error of the first day that no forecast avoids, as a share of the spread.
_FIRST_DAY_ERROR = 0.12

_OTHER_WORLD = 77
_RAIN_SEEN = 78


@dataclass(frozen=True, slots=True)
class Truth:
    """What will happen after the issue, and the ground's state at its end of day.

    Attributes
    ----------
    air
        The `FORECAST_DAYS` days after the issue, shape (places, days).
    ground
        The state on the issue day, shape (places, 1).
    """

    air: Air
    ground: Ground


@dataclass(frozen=True, slots=True)
class Issued:
    """A forecast for one place.

    Attributes
    ----------
    days
        Daily values.
    wind_m_s
        Mean wind of each day.
    rain_begins
        A number from 0 to 1 a day: how late its rain begins.
    """

    days: DailySeries
    wind_m_s: FloatArray
    rain_begins: FloatArray


def issue(seed: int, cells: list[Cell], issued: list[int], truth: Truth) -> list[Issued]:
    """Return the forecasts made for cells at the end of their issue days (ordinals)."""
    worlds = [derived_seed(seed, _OTHER_WORLD, day) for day in issued]
    other_places = Places.at(cells, worlds)
    first = np.array(issued, np.int64) + 1
    other = air_on(other_places, first, FORECAST_DAYS)
    ordinals = first[:, None] + np.arange(FORECAST_DAYS)
    tmean_c = _blended_air(other_places, truth.air, other, ordinals)

    skill = np.exp(-((np.arange(1, FORECAST_DAYS + 1) / _SKILL_DAYS) ** 2))
    is_seen = _even(seed, _RAIN_SEEN, cells, issued) < skill
    rain_mm = np.where(is_seen, truth.air.rain_mm, other.rain_mm)
    range_c = np.where(is_seen, truth.air.range_c, other.range_c)
    wind_m_s = np.where(is_seen, truth.air.wind_m_s, other.wind_m_s)
    warmest_day = other_places.normals.warmest_day
    ground = ground_under(truth.ground, tmean_c, rain_mm, ordinals, warmest_day)
    soil_c = ground.top_c + site_offset_c(Places.at(cells, [seed] * len(cells)))
    begins = _even(seed, _RAIN_SEEN + 1, cells, issued)
    return [
        Issued(
            DailySeries(
                date.fromordinal(int(first[row])),
                soil5_c=_tenths(soil_c[row]),
                tmean_c=_tenths(tmean_c[row]),
                tmin_c=_tenths(tmean_c[row] - range_c[row] / 2),
                tmax_c=_tenths(tmean_c[row] + range_c[row] / 2),
                rain_mm=_tenths(rain_mm[row]),
            ),
            wind_m_s[row],
            begins[row],
        )
        for row in range(len(cells))
    ]


def _blended_air(places: Places, truth: Air, other: Air, ordinals: IntArray) -> FloatArray:
    normal_c = places.normals.air_c(ordinals)
    ahead = np.arange(1, FORECAST_DAYS + 1)
    skill = np.exp(-((ahead / _SKILL_DAYS) ** 2))
    error_share = _HEDGE * np.sqrt(1 - skill**2 + _FIRST_DAY_ERROR**2)
    anomaly_c = skill * (truth.tmean_c - normal_c) + error_share * (other.tmean_c - normal_c)
    return normal_c + anomaly_c


def _even(seed: int, purpose: int, cells: list[Cell], issued: list[int]) -> FloatArray:
    """Return evenly distributed numbers a place, issue day and day ahead."""
    rows = []
    for cell, day in zip(cells, issued, strict=True):
        key = derived_seed(seed, purpose, day, cell.lat_e2 // 50, cell.lon_e2 // 50)
        rows.append(np.random.Generator(np.random.PCG64(key)).random(FORECAST_DAYS))
    return np.array(rows)


def _tenths(values: FloatArray) -> FloatArray:
    return np.round(values, 1) + 0.0
