"""What is read from an outlook: crossing dates, chances, degree-days, the fan for a picture."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final, Literal

import numpy as np
from numpy.typing import NDArray

from jobs.agronomy.outlook import Outlook
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

#: Stands for "not within the horizon" while days are sorted.
_NEVER: Final = np.iinfo(np.int64).max


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


@dataclass(frozen=True, slots=True)
class DayQuantiles:
    """In how many days something happens (negative: ago); None: not within the horizon."""

    p10: int | None
    p50: int | None
    p90: int | None


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
    if since is None:
        is_rising = direction == "rising"
        since = (
            date(outlook.spring_year, 1, 1)
            if is_rising
            else date(outlook.issued.year, *_FALLING_FROM)
        )
    known_c = outlook.known_c
    sign = 1.0 if direction == "rising" else -1.0
    skip = (since - outlook.known_first_day).days
    past = trailing_mean(known_c, days)
    past[: max(0, skip)] = np.nan
    there = int(first_at_or_above(sign * past, sign * threshold_c))
    if there >= 0:
        return _certain(outlook.known_first_day + timedelta(days=there))
    smooth = smoothed_paths(outlook, days)
    late = max(0, (since - outlook.first_day).days)
    ahead = first_at_or_above(sign * smooth[:, late:], sign * threshold_c)
    days_off = np.where(ahead < 0, _NEVER, ahead + late)
    lean: FloatArray | float = 1.0
    if direction == "rising" and outlook.forecast_until is not None:
        near = min(outlook.forecast_until, outlook.issued + timedelta(days=_NEAR_DAYS))
        lean = np.where(days_off <= (near - outlook.first_day).days, _NEAR_COUNTS, 1.0)
    return _quantiles(outlook, days_off, lean)


def degree_days_reach(outlook: Outlook, base_c: float, wanted: float, since: date) -> DateQuantiles:
    """Return when degree-days over a base, counted from a day, first reach a sum [°C d]."""
    return _quantiles(outlook, _degree_day_days(outlook, base_c, wanted, since))


def chance_holds(outlook: Outlook, threshold_c: float, days: int) -> float:
    """Return the chance that the trailing 5-day mean stays at or above a threshold.

    The first ``days`` days after issue are looked at: is this warm spell real?
    """
    late = (outlook.issued - outlook.first_day).days + 1
    smooth = smoothed_paths(outlook)[:, late : late + days]
    return float(outlook.weights @ (smooth >= threshold_c).all(axis=1))


def fan(outlook: Outlook, levels: tuple[float, ...] = (0.1, 0.25, 0.5, 0.75, 0.9)) -> Fan:
    """Return quantiles of the trailing 5-day mean, day by day, for a picture."""
    smooth = smoothed_paths(outlook)
    return Fan(outlook.first_day, levels, np.quantile(smooth, levels, axis=0))


def smoothed_paths(outlook: Outlook, days: int = TRAILING_DAYS) -> FloatArray:
    """Return the members' trailing means, reaching back into what is known, shape (m, n) [°C].

    Made once; for reading only.
    """
    return outlook.once(("smoothed", days), lambda: _smoothed(outlook, days))


def _smoothed(outlook: Outlook, days: int) -> FloatArray:
    tail = outlook.known_c[len(outlook.known_c) - (days - 1) :]
    members, horizon = outlook.paths_c.shape
    joined = np.empty((members, len(tail) + horizon))
    joined[:, : len(tail)] = tail
    joined[:, len(tail) :] = outlook.paths_c
    if len(tail) < days - 1:
        return trailing_mean(joined, days)[:, days - 1 :]
    total = outlook.paths_c.copy()
    for back in range(1, days):
        total += joined[:, days - 1 - back : days - 1 - back + horizon]
    total /= days
    total.setflags(write=False)
    return total


def in_days(when: DateQuantiles, today: date) -> DayQuantiles:
    """Return dates as days counted from ``today``."""
    return DayQuantiles(
        *(None if d is None else (d - today).days for d in (when.p10, when.p50, when.p90))
    )


def _degree_day_days(
    outlook: Outlook, base_c: float, wanted: float, since: date
) -> NDArray[np.int64]:
    """Return, for each member, the day (0: first of the members, negative: known) of a sum."""
    skip = max(0, (since - outlook.known_first_day).days)
    past = degree_days(outlook.known_c[skip:], base_c).cumsum()
    so_far = float(past[-1]) if len(past) else 0.0
    members = len(outlook.paths_c)
    if so_far >= wanted:
        there = int(first_at_or_above(past, wanted)) + skip - len(outlook.known_c)
        return np.full(members, there)
    late = max(0, (since - outlook.first_day).days)
    ahead = degree_days(outlook.paths_c[:, late:], base_c).cumsum(axis=1)
    days = first_at_or_above(ahead, wanted - so_far)
    return np.where(days < 0, _NEVER, days + late)


def _certain(day: date) -> DateQuantiles:
    return DateQuantiles(day, day, day, 1.0, day)


def _quantiles(
    outlook: Outlook, days: NDArray[np.int64], costs: FloatArray | float = 1.0
) -> DateQuantiles:
    """Return weighted quantiles of members' days (0: first day of the members).

    ``costs`` is how much each member counts for the middle one.
    """
    found, member = np.unique(days, return_inverse=True)
    weight = np.asarray(np.bincount(member, weights=outlook.weights), dtype=np.float64)
    middle = np.bincount(member, weights=outlook.weights * costs).cumsum()
    first, last = _narrowest(weight)
    # A share of weights that sums up to just below the level counts as having reached it.
    named = int(np.searchsorted(middle, 0.5 * middle[-1] - 1e-9))
    share = float(outlook.weights[days != _NEVER].sum())
    if share < 0.5 - 1e-9:
        named = len(found) - 1  # More likely not within the horizon at all.
    fifth = int(np.searchsorted(weight.cumsum(), DEADLINE_CHANCE - 1e-9))
    p10, p20, p50, p90 = (
        None if found[i] == _NEVER else outlook.first_day + timedelta(days=int(found[i]))
        for i in (first, max(fifth, first), max(named, first), last)
    )
    return DateQuantiles(p10, p50, p90, min(share, 1.0), p20)


def _narrowest(weight: FloatArray) -> tuple[int, int]:
    """Return the first and last of some sorted days that hold four chances in five.

    From the 10th to the 90th percentile, less the day at either end, or both, that is not needed:
    the end days count in full, so that near, where days are few, they hold far more.
    """
    reached = weight.cumsum()
    low, high = (int(np.searchsorted(reached, level - 1e-9)) for level in (0.1, 0.9))
    high = min(high, len(weight) - 1)
    ends = [(low, high), (low, high - 1), (low + 1, high), (low + 1, high - 1)]
    enough = [(float(weight[a : z + 1].sum()), n, a, z) for n, (a, z) in enumerate(ends) if a <= z]
    _, _, first, last = min(one for one in enough if one[0] >= 0.8 - 1e-9 or one[1] == 0)
    return first, last
