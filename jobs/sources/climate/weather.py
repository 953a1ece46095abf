"""Daily weather drawn over the normals, the same for a day whenever it is asked for."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from enum import IntEnum

import numpy as np

from jobs.agronomy.series import FloatArray
from jobs.sources.base import Cell
from jobs.sources.climate.fields import derived_seed, local, regional, remembered
from jobs.sources.climate.normals import YEAR_DAYS, IntArray, Normals, normals_at
from jobs.sources.climate.under_turf import bare_ground, ground_under

#: Day-to-day memory of air temperature: a second-order autoregression with these coefficients,
#: which gives correlations of 0.71, 0.40 and 0.20 after one, two and three days; measured, with
#: the slow part: 0.63-0.78 after one and 0.15-0.39 after three.
_AR1, _AR2 = 0.85, -0.20
#: Share of the variance of air temperature that lasts for weeks (gives months and years their
#: character), and the interval over which it changes [d].
_SLOW_SHARE = 0.18
_SLOW_DAYS = 30
#: Memory of the variable that decides on wet and dry: with 30 % wet days a wet day follows a wet
#: one in 46 of 100 cases (measured: 40-58).
_WET_MEMORY = 0.45
#: Share of a place's own in wetness, its own scatter of air and soil [°C], its lasting soil
#: offset [°C].
_LOCAL_WET_SHARE = 0.06
_LOCAL_AIR_C = 0.3
_LOCAL_SOIL_C = 0.5
_SITE_SOIL_C = 0.4

#: Days before a block over which the ground forgets how it was started, and days before those
#: that the weather's memory reaches.
_SPIN_UP = 184
_MEMORY = 16


class _Channel(IntEnum):
    """What a random field is for."""

    AIR = 1
    SLOW = 2
    WET = 3
    AMOUNT = 4
    RANGE = 5
    LOCAL_AIR = 6
    LOCAL_WET = 7
    LOCAL_SOIL = 8
    SITE = 9
    WIND = 10


@dataclass(frozen=True, slots=True)
class Places:
    """Several places, each with a seed; one value a place in every array."""

    seeds: tuple[int, ...]
    cells: IntArray
    lat: FloatArray
    lon: FloatArray
    normals: Normals

    @classmethod
    def at(cls, cells: list[Cell], seeds: list[int]) -> Places:
        """Return the places of cells, each under its own seed."""
        lat = np.array([cell.lat for cell in cells])
        lon = np.array([cell.lon for cell in cells])
        keys = np.array([cell.lat_e2 * 100_000 + cell.lon_e2 for cell in cells], np.int64)
        return cls(tuple(seeds), keys, lat, lon, normals_at(lat, lon))

    def field(self, channel: _Channel, steps: IntArray) -> FloatArray:
        """Return a field shared with the neighbours, shape of ``steps``."""
        return regional(self._keys(channel), self.lat, self.lon, steps)

    def own(self, channel: _Channel, steps: IntArray) -> FloatArray:
        """Return a field of each place alone, shape of ``steps``."""
        return local(self._keys(channel), self.cells, steps)

    def _keys(self, channel: _Channel) -> np.ndarray:
        keys = {seed: derived_seed(seed, channel) for seed in set(self.seeds)}
        return np.array([keys[seed] for seed in self.seeds], np.uint64)


@dataclass(frozen=True, slots=True)
class Air:
    """Weather above ground on days: each array has shape (places, days)."""

    tmean_c: FloatArray
    range_c: FloatArray
    rain_mm: FloatArray
    wind_m_s: FloatArray


@dataclass(frozen=True, slots=True)
class Block:
    """A calendar year of one place: weather and ground, from 1 January on."""

    soil5_c: FloatArray
    tmean_c: FloatArray
    tmin_c: FloatArray
    tmax_c: FloatArray
    rain_mm: FloatArray
    range_c: FloatArray
    wind_m_s: FloatArray
    top_c: FloatArray
    deep_c: FloatArray
    snow_mm: FloatArray


def air_on(places: Places, first: IntArray, days: int) -> Air:
    """Return the weather above ground for ``days`` days from a first ordinal a place."""
    normals = places.normals
    with_memory = first[:, None] + np.arange(-_MEMORY, days)
    ordinals = with_memory[:, _MEMORY:]
    weights = [1.0, _AR1]
    while len(weights) <= _MEMORY:
        weights.append(_AR1 * weights[-1] + _AR2 * weights[-2])
    fast = remembered(places.field(_Channel.AIR, with_memory), weights)
    anomaly = np.sqrt(1 - _SLOW_SHARE) * fast + np.sqrt(_SLOW_SHARE) * _slow(places, ordinals)
    anomaly = anomaly + _warm_snap(anomaly, normals, ordinals)
    tmean_c = normals.air_c(ordinals) + normals.spread_c(ordinals) * anomaly
    tmean_c = tmean_c + _LOCAL_AIR_C * places.own(_Channel.LOCAL_AIR, ordinals)
    rain_mm = _rain(places, with_memory)
    scatter = np.clip(1 + 0.22 * places.field(_Channel.RANGE, ordinals), 0.4, 1.6)
    range_c = normals.range_c[:, None] * scatter * np.where(rain_mm > 0, 0.72, 1.1)
    wind_m_s = 3.2 * np.exp(0.4 * places.field(_Channel.WIND, ordinals))
    return Air(tmean_c, range_c, rain_mm, wind_m_s)


def site_offset_c(places: Places) -> FloatArray:
    """Return each place's lasting soil offset [°C], shape (places, 1)."""
    return _SITE_SOIL_C * places.own(_Channel.SITE, np.zeros((len(places.lat), 1), np.int64))


def year_blocks(seed: int, wanted: list[tuple[Cell, int]]) -> list[Block]:
    """Return whole years of places.

    A year is always worked out from 1 July of the year before, so that its days do not depend on
    which other years were asked for.
    """
    places = Places.at([cell for cell, _ in wanted], [seed] * len(wanted))
    new_year = np.array([date(year, 1, 1).toordinal() for _, year in wanted], np.int64)
    first = new_year - _SPIN_UP
    air = air_on(places, first, _SPIN_UP + 366)
    ordinals = first[:, None] + np.arange(_SPIN_UP + 366)
    start = bare_ground(air.tmean_c[:, :30].mean(axis=1))
    ground = ground_under(start, air.tmean_c, air.rain_mm, ordinals, places.normals.warmest_day)
    soil_c = ground.top_c + site_offset_c(places)
    # Frozen ground is quiet.
    scatter_c = np.where(ground.top_c > 0.3, _LOCAL_SOIL_C, _LOCAL_SOIL_C / 3)
    soil_c = soil_c + scatter_c * places.own(_Channel.LOCAL_SOIL, ordinals)
    blocks = []
    for row, (_, year) in enumerate(wanted):
        days = slice(_SPIN_UP, _SPIN_UP + (date(year + 1, 1, 1) - date(year, 1, 1)).days)
        tmean_c, range_c = air.tmean_c[row, days], air.range_c[row, days]
        blocks.append(
            Block(
                soil5_c=_tenths(soil_c[row, days]),
                tmean_c=_tenths(tmean_c),
                tmin_c=_tenths(tmean_c - range_c / 2),
                tmax_c=_tenths(tmean_c + range_c / 2),
                rain_mm=_tenths(air.rain_mm[row, days]),
                range_c=range_c.copy(),
                wind_m_s=air.wind_m_s[row, days].copy(),
                top_c=ground.top_c[row, days].copy(),
                deep_c=ground.deep_c[row, days].copy(),
                snow_mm=ground.snow_mm[row, days].copy(),
            )
        )
    return blocks


def _slow(places: Places, ordinals: IntArray) -> FloatArray:
    """Return weather's slow part, unit variance: knots joined by cosine and sine."""
    knots, within = np.divmod(ordinals, _SLOW_DAYS)
    span = np.arange(int((knots[:, -1] - knots[:, 0]).max()) + 2)
    values = places.field(_Channel.SLOW, knots[:, :1] + span)
    index = knots - knots[:, :1]
    angle = np.pi / 2 * within / _SLOW_DAYS
    before = np.take_along_axis(values, index, axis=1)
    after = np.take_along_axis(values, index + 1, axis=1)
    return before * np.cos(angle) + after * np.sin(angle)


def _warm_snap(anomaly: FloatArray, normals: Normals, ordinals: IntArray) -> FloatArray:
    """Return what late winter adds to warm spells inland: false springs, stronger than cold ones.

    Largest some seven weeks after the coldest day. The factor is a choice of this simulation.
    """
    since_coldest = (ordinals - normals.warmest_day[:, None]) % YEAR_DAYS - YEAR_DAYS / 2
    late_winter = np.exp(-(((since_coldest - 48.0) / 25.0) ** 2))
    return 0.3 * normals.continentality[:, None] * late_winter * np.maximum(0.0, anomaly - 0.6)


def _rain(places: Places, with_memory: IntArray) -> FloatArray:
    """Return rain [mm]: wet where a remembered field is high, gamma amounts (shape 1/2).

    The square of a standard normal variable has a gamma distribution of shape 1/2 (chi-squared,
    one degree of freedom); measured shapes of wet days' amounts are 0.3-0.7.
    """
    normals = places.normals
    ordinals = with_memory[:, _MEMORY:]
    memory = [_WET_MEMORY**back for back in range(_MEMORY + 1)]
    wetness = remembered(places.field(_Channel.WET, with_memory), memory)
    own = places.own(_Channel.LOCAL_WET, ordinals)
    wetness = np.sqrt(1 - _LOCAL_WET_SHARE) * wetness + np.sqrt(_LOCAL_WET_SHARE) * own
    wave = 1 + 0.45 * (normals.continentality[:, None]) * normals.summer_share(ordinals)
    amount_mm = normals.wet_day_mm[:, None] * wave * places.field(_Channel.AMOUNT, ordinals) ** 2
    return np.where(wetness > normals.wet_threshold[:, None], amount_mm, 0.0)


def _tenths(values: FloatArray) -> FloatArray:
    # + 0.0 turns -0.0 into 0.0.
    return np.round(values, 1) + 0.0
