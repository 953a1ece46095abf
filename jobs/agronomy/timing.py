"""When to speak: days to emergence, held against the trade's 50-55 °F band.

Back-tested on 212 station-years of the U.S. Climate Reference Network (28 stations, years with at
least five full earlier ones, one look a day, no weather forecast; `tests/bench/window_open.py`):
with a lead of 21 days the first word comes 10-35 days before modelled first emergence in 96 % of
years and never under 7, with soil at 47-54 °F (5th-95th percentile). Without the two guards it is
98 %, but 5 days in the year of a heat wave in early April, and 46-55 °F.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final

from jobs.agronomy.ingredients import ingredients
from jobs.agronomy.units import c_from_f

#: From this 5-day mean on the ground is warm enough for a hot week to bring seedlings up [°C].
WARM_GROUND_C: Final = c_from_f(53.0)

#: Below this the trade would not believe the word yet [°C].
COLD_GROUND_C: Final = c_from_f(46.0)

_WARM_DAYS: Final = 4
_COLD_DAYS: Final = 3

#: Days to go by at which "soil warming" is told: 5-28 days before the window opens in
#: 99 % of the years of the back-test (36 in 96 %, 42 in 98 %).
HEADS_UP_DAYS: Final = 40

#: The barrier must be watered in this long before modelled first emergence [days] (inference).
IN_PLACE_BEFORE_DAYS: Final = 7

#: An open window closes again when the days to go by recede this far beyond the lead: in none of
#: the years of the back-test (the median alone: 7 in 2 %, 5 in 4 %).
FALSE_START_DAYS: Final = 9

#: Closer than this nothing is put off.
_NO_DELAY_DAYS: Final = 14


def days_to_go_by(median_days: int | None, soil_5day_c: float | None) -> int | None:
    """Return the days to emergence that a lead is to be held against.

    The median, a few days less on warm ground (a hot week is quicker than the median), a few more
    on cold ground while there is time.

    Parameters
    ----------
    median_days
        Median modelled days to first emergence; None beyond the horizon.
    soil_5day_c
        Newest trailing 5-day mean at 5 cm [°C]; None where not known.
    """
    if median_days is None or soil_5day_c is None or median_days <= 0:
        return median_days
    if soil_5day_c >= WARM_GROUND_C:
        return max(1, median_days - _WARM_DAYS)
    if soil_5day_c < COLD_GROUND_C and median_days > _NO_DELAY_DAYS:
        return median_days + _COLD_DAYS
    return median_days


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
