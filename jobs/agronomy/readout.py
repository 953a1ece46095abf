"""What is read from an outlook: crossing dates, chances, degree-days, the fan for a picture."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final, Literal

import numpy as np
from numpy.typing import NDArray

from jobs.agronomy.climatology import SingleArray
from jobs.agronomy.outlook import Outlook, batches
from jobs.agronomy.series import FloatArray
from jobs.agronomy.soil import TRAILING_DAYS, degree_days, first_at_or_above, trailing_mean

Direction = Literal["rising", "falling"]

#: Where the falling (late summer) search starts unless told otherwise: month, day.
_FALLING_FROM: Final = (7, 15)

#: Where a forecast is in hand, a day's error in a rising crossing counts so many times more within
#: these days, when people act on it, than beyond: a crossing there is named from a chance of one in
#: four on. Three is the least that names crossings of the next week within 1.1 days on measured
#: stations; chosen without each station in turn it is 2.75 to 3.5. More would name dates three to
#: five weeks off worse than no forecast does (`tests/bench/outlook_table.py`).
_NEAR_COUNTS: Final = 3.0
_NEAR_DAYS: Final = 7

#: The deadline people are told is the last day on which weeds come before the barrier is in place
#: with no more than this chance.
DEADLINE_CHANCE: Final = 0.2

#: Days of members whose sums are made at once: most have reached theirs long before the last.
_DAYS_AT_ONCE: Final = 16

#: Stands for "not within the horizon" while days are sorted.
_NEVER: Final = int(np.iinfo(np.int32).max)


@dataclass(frozen=True, slots=True)
class DateQuantiles:
    """When something happens; None: not within the horizon.

    ``share`` is the chance that it happens within the horizon at all. ``p10`` and ``p90`` hold four
    chances in five, and as little more as whole days allow; ``p50`` is the date to name: the
    median, but see `crossing`. Up to ``p20`` it has happened with one chance in five.
    """

    p10: date | None
    p50: date | None
    p90: date | None
    share: float
    p20: date | None = None


@dataclass(frozen=True, slots=True, eq=False)
class Fan:
    """Quantiles of the trailing 5-day mean from ``first_day`` on, shape (levels, days)."""

    first_day: date
    levels: tuple[float, ...]
    values_c: FloatArray


def crossing(
    outlook: Outlook,
    threshold_c: float,
    direction: Direction = "rising",
    *,
    since: date | None = None,
    days: int = TRAILING_DAYS,
) -> DateQuantiles:
    """Return when the trailing mean first reaches a threshold.

    ``p50`` is the median; of a rising crossing with a forecast in hand it is the date of least
    expected cost, where a day's error within the next week counts more (see the constants).
    ``p10`` and ``p90`` never lean.

    Parameters
    ----------
    outlook
        The outlook.
    threshold_c
        In °C.
    direction
        ``"rising"``: first day at or above; ``"falling"``: first day at or below.
    since
        First day that counts; default 1 January of `Outlook.spring_year` when rising, 15 July of
        the year of issue when falling.
    days
        Length of the trailing mean.
    """
    # People ask about the same few of a place all day.
    return outlook.once(
        ("crossing", threshold_c, direction, since, days),
        lambda: crossings([outlook], threshold_c, direction, since=since, days=days)[0],
    )


def crossings(
    outlooks: Sequence[Outlook],
    threshold_c: float,
    direction: Direction = "rising",
    *,
    since: date | None = None,
    days: int = TRAILING_DAYS,
) -> list[DateQuantiles]:
    """Return when the trailing mean of each place first reaches a threshold, as `crossing`."""

    def of_part(part: Sequence[Outlook]) -> list[DateQuantiles]:
        first = part[0]
        from_day = since
        if from_day is None:
            is_rising = direction == "rising"
            from_day = (
                date(first.spring_year, 1, 1)
                if is_rising
                else date(first.issued.year, *_FALLING_FROM)
            )
        if from_day > first.last_day:
            return [DateQuantiles(None, None, None, 0.0)] * len(part)
        sign = 1.0 if direction == "rising" else -1.0
        past = trailing_mean(np.stack([each.known_c for each in part]), days)
        past[:, : max(0, (from_day - first.known_first_day).days)] = np.nan
        there = first_at_or_above(sign * past, sign * threshold_c)
        late = max(0, (from_day - first.first_day).days)
        smooth = np.stack([smoothed_paths(each, days)[:, late:] for each in part])
        off = first_at_or_above(sign * smooth, sign * threshold_c)
        ahead = np.where(off < 0, _NEVER, off + late)
        ahead = np.where(there[:, None] < 0, ahead, there[:, None] - len(first.known_c))
        lean = None
        if direction == "rising" and first.forecast_until is not None:
            near = min(first.forecast_until, first.issued + timedelta(days=_NEAR_DAYS))
            lean = np.where(ahead <= (near - first.first_day).days, _NEAR_COUNTS, 1.0)
        return _quantiles(first.first_day, ahead, lean)

    return _each_alike(outlooks, of_part)


def _each_alike(
    outlooks: Sequence[Outlook], read: Callable[[Sequence[Outlook]], list[DateQuantiles]]
) -> list[DateQuantiles]:
    """Read outlooks of the same days and as many members together."""
    alike: dict[tuple[object, ...], list[int]] = {}
    for place, each in enumerate(outlooks):
        dates = each.issued, each.known_first_day, each.first_day, each.forecast_until
        alike.setdefault((*dates, each.paths_c.shape), []).append(place)
    found: dict[int, DateQuantiles] = {}
    for places in alike.values():
        for part in batches(places):
            found.update(zip(part, read([outlooks[place] for place in part]), strict=True))
    return [found[place] for place in range(len(outlooks))]


def degree_days_reaches(
    outlooks: Sequence[Outlook], base_c: float, wanted: float, since: date
) -> list[DateQuantiles]:
    """Return when each place's degree-days over a base, from a day on, first reach a sum [°C d]."""

    def of_part(part: Sequence[Outlook]) -> list[DateQuantiles]:
        first = part[0]
        skip = max(0, (since - first.known_first_day).days)
        past = degree_days(np.stack([each.known_c[skip:] for each in part]), base_c).cumsum(axis=1)
        so_far = past[:, -1] if past.shape[1] else np.zeros(len(part))
        there = first_at_or_above(past, wanted) + skip - len(first.known_c)
        late = max(0, (since - first.first_day).days)
        ahead = _days_until(part, late, base_c, wanted - so_far)
        days = np.where(ahead < 0, _NEVER, ahead + late)
        return _quantiles(
            first.first_day, np.where((so_far >= wanted)[:, None], there[:, None], days)
        )

    return _each_alike(outlooks, of_part)


def _days_until(
    outlooks: Sequence[Outlook], late: int, base_c: float, wanted: FloatArray
) -> NDArray[np.int64]:
    """Return on which day, from the ``late``-th on, members' degree-days reach a sum, or -1."""
    members, horizon = outlooks[0].paths_c.shape
    found = np.zeros((len(outlooks), members), dtype=np.int64)
    so_far = np.zeros((len(outlooks), members), dtype=np.float32)
    sums = wanted.astype(np.float32)[:, None]
    for start in range(late, horizon, _DAYS_AT_ONCE):
        stop = min(horizon, start + _DAYS_AT_ONCE)
        # Day by day, each day's members side by side: sums run along the days.
        warmth = np.empty((stop - start, len(outlooks), members), dtype=np.float32)
        for place, each in enumerate(outlooks):
            warmth[:, place] = each.paths_c[:, start:stop].T
        warmth -= np.float32(base_c)
        np.maximum(warmth, 0.0, out=warmth)
        for day in warmth:
            day += so_far
            so_far = day
        # Sums never fall: the day is how many there are before it.
        found += (warmth < sums).sum(axis=0, dtype=np.int16)
        if (so_far >= sums).all():
            return found
    return np.where(so_far >= sums, found, -1)


def chance_holds(outlook: Outlook, threshold_c: float, days: int) -> float:
    """Return the chance that the trailing 5-day mean stays at or above a threshold.

    The first ``days`` days after issue are looked at: is this warm spell real?
    """
    late = (outlook.issued - outlook.first_day).days + 1
    smooth = smoothed_paths(outlook)[:, late : late + days]
    return float((smooth >= threshold_c).all(axis=1).mean())


def fan(outlook: Outlook, levels: tuple[float, ...] = (0.1, 0.25, 0.5, 0.75, 0.9)) -> Fan:
    """Return quantiles of the trailing 5-day mean, day by day, for a picture."""
    smooth = smoothed_paths(outlook)
    return Fan(outlook.first_day, levels, np.quantile(smooth, levels, axis=0))


def smoothed_paths(outlook: Outlook, days: int = TRAILING_DAYS) -> SingleArray:
    """Return the members' trailing means, reaching back into what is known, shape (m, n) [°C].

    Made once; for reading only.
    """
    return outlook.once(("smoothed", days), lambda: _smoothed(outlook, days))


def _smoothed(outlook: Outlook, days: int) -> SingleArray:
    tail = outlook.known_c[len(outlook.known_c) - (days - 1) :]
    members, horizon = outlook.paths_c.shape
    joined = np.empty((members, len(tail) + horizon), dtype=outlook.paths_c.dtype)
    joined[:, : len(tail)] = tail
    joined[:, len(tail) :] = outlook.paths_c
    if len(tail) < days - 1:
        return trailing_mean(joined, days)[:, days - 1 :].astype(joined.dtype)
    total = outlook.paths_c.copy()
    for back in range(1, days):
        total += joined[:, days - 1 - back : days - 1 - back + horizon]
    total /= days
    total.setflags(write=False)
    return total


def _quantiles(
    first_day: date, days: NDArray[np.int64], costs: FloatArray | None = None
) -> list[DateQuantiles]:
    """Return quantiles of members' days (0: ``first_day``), shape (places, members).

    ``costs`` is how much each member counts for the middle one.
    """
    members = days.shape[1]
    order = np.sort(days, axis=1)
    low, fifth, middle, high = (
        order[:, math.ceil((level - 1e-9) * members) - 1]
        for level in (0.1, DEADLINE_CHANCE, 0.5, 0.9)
    )
    if costs is not None:
        by_day = np.argsort(days, axis=1, kind="stable")
        reached = np.take_along_axis(costs, by_day, axis=1).cumsum(axis=1)
        at = (reached >= 0.5 * reached[:, -1:] - 1e-9).argmax(axis=1)
        middle = np.take_along_axis(order, at[:, None], axis=1)[:, 0]
    share = (days != _NEVER).mean(axis=1)
    # More likely not within the horizon at all: then the last day speaks.
    middle = np.where(share < 0.5 - 1e-9, order[:, -1], middle)
    first, last = _narrowest(order, low, high)
    table = np.stack([first, np.maximum(middle, first), last, np.maximum(fifth, first)])

    def day(off: int) -> date | None:
        return None if off == _NEVER else first_day + timedelta(days=off)

    return [
        DateQuantiles(day(p10), day(p50), day(p90), chance, day(p20))
        for p10, p50, p90, p20, chance in zip(*table.tolist(), share.tolist(), strict=True)
    ]


def _narrowest(
    order: NDArray[np.int64], low: NDArray[np.int64], high: NDArray[np.int64]
) -> tuple[NDArray[np.int64], NDArray[np.int64]]:
    """Return the first and last of sorted days, by place, that hold four chances in five.

    From the 10th to the 90th percentile, less the day at either end, or both, that is not needed:
    the end days count in full, so that near, where days are few, they hold far more.
    """
    before, upto_low = ((order < low[:, None]).sum(axis=1), (order <= low[:, None]).sum(axis=1))
    upto_high, upto_last = ((order < high[:, None]).sum(axis=1), (order <= high[:, None]).sum(1))
    # What is left with both end days, without the last, without the first, without either. Of two
    # that hold as much the one with the earlier days is told.
    held = np.stack(
        [upto_last - before, upto_high - before, upto_last - upto_low, upto_high - upto_low]
    )
    is_enough = held >= (0.8 - 1e-9) * order.shape[1]
    is_enough[0] = True
    best = np.where(is_enough, held, order.shape[1] + 1).argmin(axis=0)
    rows = np.arange(len(order))
    after_low = order[rows, np.minimum(upto_low, order.shape[1] - 1)]
    before_high = order[rows, np.maximum(upto_high - 1, 0)]
    return np.where(best >= 2, after_low, low), np.where(best % 2 == 1, before_high, high)
