"""When to speak: the day on which waiting costs more than speaking.

Speaking with n days left before first emergence costs nothing while n is between two limits around
the lead. Closer than the late limit the barrier may not be in place; farther than the early limit
it is spent before the weeds. Each day waited adds the chance of being late, `LATE_COST` times over,
and takes off the chance of being early; the word is due when the first outweighs the second
(`days_to_go_by`). The same balance says "soil warming", "last call" and "false start", and moves
with the person's lead, the product and the zone.

Back-tested on 212 station-years of the U.S. Climate Reference Network (28 stations, years with at
least five full earlier ones; `tests/bench/window_open.py`), with a lead of 21 days the first word
comes 10-35 days before modelled first emergence in 97 % of years without a weather forecast (lower
10 % bound over stations 96 %) and in 99 % with an emulated one (98 %), never under 7. The same loss
counted over the members in place of a normal spread has 97 and 99.5 %, the median alone 98 and
100 %, both with one word 5 days ahead: none is better beyond the noise, and only this one keeps its
distance from the last week.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from functools import lru_cache
from math import ceil, erfc, sqrt
from typing import Final

from jobs.agronomy.ingredients import ingredients
from jobs.agronomy.units import c_from_f

#: The barrier must be watered in this long before modelled first emergence [days] (inference).
IN_PLACE_BEFORE_DAYS: Final = 7

#: The late limit, days below the lead: of 21 days 11 are left, a week for the barrier and four days
#: to get round to it. The early limit, days above it: four weeks. Inferences. Any pair that centers
#: the word on 20 to 22 days does as well, within the noise of the back-test.
_LATE_FROM_LEAD_DAYS: Final = 10
_EARLY_FROM_LEAD_DAYS: Final = 7

#: What a day late costs, in days early (inference).
LATE_COST: Final = 2.0

#: From this 5-day mean on the ground is warm enough for a hot week to bring seedlings up [°C], days
#: sooner than members drawn from few past years show. It moves the share of words in time by less
#: than its noise (97.2 % with it, 97.6 without; with a forecast 99.1 and 100), and stands for one
#: year alone: without it, and without a forecast, a record April heat wave was told 5 days before.
#: No cost of a day late up to six times a day early does that without more words too early.
WARM_GROUND_C: Final = c_from_f(53.0)
_WARM_DAYS: Final = 4

#: Below this 5-day mean [°C] what is near is near by warmth that is only forecast, and nothing is
#: lost by waiting for some of it: so many days more are held against the lead. With an emulated
#: forecast one word in eleven came on such ground, at 39-46 °F; with it one in 200, as many come in
#: time (chosen without each station in turn as well), and the 5th percentile of the soil at the
#: word goes from 45.2 to 46.9 °F (lower 10 % bound over stations 46.7). Two days are the fewest
#: that bring it above 46 (bound 45.8); up to ten bring no word into the last ten days.
COLD_GROUND_C: Final = c_from_f(46.0)
_COLD_DAYS: Final = 3

#: Days to go by at which "soil warming" is told: 5-28 days before the window opens in
#: 99 % of the years of the back-test (36 in 99 %, 42 in 94 %).
HEADS_UP_DAYS: Final = 40

#: An open window closes again when the days to go by recede this far beyond the lead: in none of
#: the years of the back-test, and in 2 % with an emulated forecast (9 in 6 %, 7 in 19 %), whose
#: days move more from one issue to the next.
FALSE_START_DAYS: Final = 11

#: Days are whole: no spread is less than this [days].
_LEAST_SPREAD_DAYS: Final = 1.0

#: Between p10 and p90 of a normal spread lie so many standard deviations, on each side of p50.
_SDS_TO_P90: Final = 1.2816


def days_to_go_by(
    median_days: int | None,
    soil_5day_c: float | None,
    *,
    p10_days: int | None = None,
    p90_days: int | None = None,
) -> int | None:
    """Return the shortest lead at which the word is due today.

    The median, moved by what its spread costs: see the module's docstring. The loss is taken over a
    normal spread through p10 and p90, which is steadier from day to day than a count of members.

    Parameters
    ----------
    median_days
        Median modelled days to first emergence; None beyond the horizon.
    soil_5day_c
        Newest trailing 5-day mean at 5 cm [°C]; None where not known.
    p10_days, p90_days
        Its spread; None where not in sight. Without any, the median itself is returned.
    """
    if median_days is None or median_days <= 0:
        return median_days
    days = float(median_days)
    if soil_5day_c is not None and soil_5day_c >= WARM_GROUND_C:
        days -= _WARM_DAYS
    if soil_5day_c is not None and soil_5day_c < COLD_GROUND_C:
        days += _COLD_DAYS
    spread = _spread_days(median_days, p10_days, p90_days)
    if spread is not None:
        days += _balance_days(max(spread, _LEAST_SPREAD_DAYS))
    return max(1, ceil(days))


def _spread_days(median: int, p10: int | None, p90: int | None) -> float | None:
    """Return the standard deviation told by p10 and p90, or by either of them."""
    below = [] if p10 is None else [median - p10]
    above = [] if p90 is None else [p90 - median]
    sides = below + above
    return sum(sides) / len(sides) / _SDS_TO_P90 if sides else None


@lru_cache(maxsize=1024)
def _balance_days(spread: float) -> float:
    """Return how many days the balance lies beyond the median, by bisection.

    At a lead L and a median m: ``LATE_COST * P(n <= L - late) = P(n > L + early)``, which depends
    on m - L alone.
    """
    low, high = -float(_LATE_FROM_LEAD_DAYS), float(_EARLY_FROM_LEAD_DAYS)
    for _ in range(30):
        middle = (low + high) / 2.0  # of m - L
        late = LATE_COST * _normal((-_LATE_FROM_LEAD_DAYS - middle) / spread)
        early = _normal((middle - _EARLY_FROM_LEAD_DAYS) / spread)
        low, high = (middle, high) if late > early else (low, middle)
    return -middle


def _normal(sds: float) -> float:
    return 0.5 * erfc(-sds / sqrt(2.0))


#: Weeks of control from which an ingredient counts as long-lasting, and up to which as short-lived.
LONG_LASTING_WEEKS: Final = 20.0
SHORT_LIVED_WEEKS: Final = 10.0


@dataclass(frozen=True, slots=True)
class Pace:
    """How a product moves the window: days earlier (or later), and days it stays useful longer."""

    lead_shift_days: int = 0
    grace_days: int = 0


def pace_of(names: Iterable[str]) -> Pace:
    """Return how the ingredients of a product move its window.

    A long-lasting one may go down earlier at little cost, so a week; a short-lived one wants to be
    close, so five days later; one that also works on seedlings of up to 2-3 leaves stays useful for
    two weeks after the first are up. Inferences from the lengths of control in the table of
    ingredients; settings, no source of their own.
    """
    known = [ingredients()[name] for name in names if name in ingredients()]
    longest = max((c.high_weeks for item in known for c in item.control), default=None)
    shift = 0
    if longest is not None:
        shift = 7 if longest >= LONG_LASTING_WEEKS else (-5 if longest <= SHORT_LIVED_WEEKS else 0)
    works_on_seedlings = any(item.early_post and item.early_post.value for item in known)
    return Pace(shift, 14 if works_on_seedlings else 0)


def one_year_in(day: date, *, p10: date | None, p20: date | None, p50: date) -> int:
    """Return in one year of how many, 2 to 10, the first weeds come by a day.

    Read off straight lines between the days by which they have come with 10, 20 and 50 % of the
    chances; what is not known is left out, and beyond the ends the ends count.
    """
    known = [(p10, 0.1), (p20, 0.2), (p50, 0.5)]
    points = [(each, share) for each, share in known if each is not None]
    before = [point for point in points if point[0] <= day]
    after = [point for point in points if point[0] > day]
    if not before or not after:
        share = after[0][1] if after else before[-1][1]
        return round(1 / share)
    (first, low), (last, high) = before[-1], after[0]
    share = low + (high - low) * (day - first).days / (last - first).days
    return round(1 / share)
