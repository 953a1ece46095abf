"""Random fields over the globe and time that are pure functions of seed, place and day.

Every value is hashed from its key, so that a day's value never depends on what was asked before,
for which span, or when. Values hang on a coarse lattice; a place mixes the four nodes around it,
so neighbours share their weather.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from jobs.agronomy.series import FloatArray
from jobs.sources.climate.normals import IntArray

_Words: TypeAlias = NDArray[np.uint64]

#: Distance of the lattice's nodes [degrees]: the size of a weather system, some 600 km.
_NODE_LAT = 6
_NODE_LON = 8

_GOLDEN = 0x9E3779B97F4A7C15
_WORD = 0xFFFFFFFFFFFFFFFF


def derived_seed(seed: int, *parts: int) -> int:
    """Return a seed that depends on all parts, for a purpose of its own."""
    word = _mixed(np.array([seed & _WORD], np.uint64))
    for part in parts:
        word = _mixed(word ^ np.array([part & _WORD], np.uint64))
    return int(word[0])


def regional(seeds: _Words, lat: FloatArray, lon: FloatArray, steps: IntArray) -> FloatArray:
    """Return independent standard normal values shared by neighbouring places.

    Parameters
    ----------
    seeds
        One seed a place.
    lat, lon
        Degrees, one value a place.
    steps
        Consecutive step numbers, shape (places, steps): days, or longer intervals.

    Returns
    -------
    array
        Shape (places, steps).
    """
    north, up = np.divmod(lat / _NODE_LAT, 1.0)
    east, right = np.divmod(lon / _NODE_LON, 1.0)
    out = np.zeros(steps.shape)
    for add_north in (0, 1):
        for add_east in (0, 1):
            # Cosine and sine, not straight weights: their squares sum to one, and with them the
            # variance between the nodes stays what it is on them.
            weight = (np.sin if add_north else np.cos)(np.pi / 2 * up)
            weight = weight * (np.sin if add_east else np.cos)(np.pi / 2 * right)
            row = (north.astype(np.int64) + add_north).astype(np.uint64)
            column = (east.astype(np.int64) + add_east) % (360 // _NODE_LON)
            keys = _mixed(_mixed(seeds ^ row) ^ column.astype(np.uint64))
            out += weight[:, None] * _shared_normals(keys, steps)
    return out


def local(seeds: _Words, cells: IntArray, steps: IntArray) -> FloatArray:
    """Return independent standard normal values of each place alone, shape (places, steps)."""
    return _normals(_mixed(seeds ^ cells.astype(np.uint64)), steps)


def remembered(noise: FloatArray, weights: Sequence[float]) -> FloatArray:
    """Return a moving average of unit variance; it is shorter by ``len(weights) - 1`` steps."""
    size = noise.shape[1] - len(weights) + 1
    newest = len(weights) - 1
    total = float(np.sqrt(np.sum(np.square(weights))))
    out = np.zeros((noise.shape[0], size))
    for back, weight in enumerate(weights):
        out += weight / total * noise[:, newest - back : newest - back + size]
    return out


def _shared_normals(keys: _Words, steps: IntArray) -> FloatArray:
    """Draw once for all places that hang on the same node over the same span."""
    rows = np.stack([keys, steps[:, 0].astype(np.uint64)], axis=1)
    unique, first, where = np.unique(rows, axis=0, return_index=True, return_inverse=True)
    drawn = _normals(unique[:, 0], steps[first])
    return drawn[where.reshape(-1)]


def _normals(keys: _Words, steps: IntArray) -> FloatArray:
    """Return standard normal values by the transform of Box and Muller (1958)."""
    word = _mixed(keys[:, None] + steps.astype(np.uint64) * np.uint64(_GOLDEN))
    radius = np.sqrt(-2 * np.log(_uniform(word)))
    normal: FloatArray = radius * np.cos(2 * np.pi * _uniform(_mixed(word)))
    return normal


def _uniform(word: _Words) -> FloatArray:
    return ((word >> np.uint64(11)).astype(np.float64) + 0.5) * 2.0**-53


def _mixed(word: _Words) -> _Words:
    """Return well stirred bits: the finalizer of the SplitMix64 generator (Steele et al. 2014)."""
    word = word + np.uint64(_GOLDEN)
    word = (word ^ (word >> np.uint64(30))) * np.uint64(0xBF58476D1CE4E5B9)
    word = (word ^ (word >> np.uint64(27))) * np.uint64(0x94D049BB133111EB)
    return word ^ (word >> np.uint64(31))
