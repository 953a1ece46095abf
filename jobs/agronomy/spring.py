"""What kind of spring a place has, and from when its degree-days are to be counted."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Final, Literal

import numpy as np

from jobs.agronomy.climatology import Climate
from jobs.agronomy.emergence import LEADING_WEED, MonthDay, weeds
from jobs.agronomy.soil import first_at_or_above

Spring = Literal["clear", "short", "mild", "none"]

#: Above this mean soil temperature on 1 March the count has to start before it [°C].
_MILD_MARCH_C: Final = 10.0

#: A soil that never falls below this in the mean year has no spring to wait for: 50 °F [°C].
_NO_WINTER_C: Final = 10.0

#: A soil still below this four weeks before emergence warms fast and leaves little time: 49 °F
#: [°C]. Of the 28 back-test stations: northern Maine and Minnesota, a high plateau in Colorado.
_COLD_AT_ACTION_C: Final = 9.45
_BEFORE_DAYS: Final = 28


def count_start(climate: Climate) -> MonthDay:
    """Return from which month and day degree-days are to be counted.

    1 March, as in the back-tests, where the mean soil is still below 10 °C then. Where it is
    warmer, seeds have been counting before: from the coldest day of the mean year on (not before
    1 January). An inference, no source.
    """
    if climate.mean_c[60] < _MILD_MARCH_C:
        return (3, 1)
    coldest = int(np.argmin(climate.mean_c[:60]))
    day = date(2000, 1, 1) + timedelta(days=coldest)
    return (day.month, day.day)


def spring_of(climate: Climate) -> Spring:
    """Return what kind of spring a place has.

    ``"none"``: the mean soil never falls below 50 °F, so that no rise can be waited for: regional
    date and scouting. ``"mild"``: the count starts before March (`count_start`). ``"short"``: four
    weeks before mean emergence the soil is below 49 °F, so that the heads-up is the real alert.
    ``"clear"``: the rest. The limits are inferences, no source.
    """
    if climate.mean_c.min() >= _NO_WINTER_C:
        return "none"
    if count_start(climate) != (3, 1):
        return "mild"
    weed = weeds()[LEADING_WEED]
    warmth = np.maximum(climate.mean_c[60:213] - (weed.base_c or 0.0), 0.0).cumsum()
    there = int(first_at_or_above(warmth, weed.stages[0].at))
    if there < 0:
        return "short"
    return "short" if climate.mean_c[60 + there - _BEFORE_DAYS] < _COLD_AT_ACTION_C else "clear"
