"""Whether a source's soil has stepped away from its own past, as when its provider changes a model.

Air tells most of what soil at 5 cm does. What a source's soil stands off the soil that its air
explains (`air.fit_soil_from_air` on earlier years) comes back each year at the same season, give or
take some 0.6 °C. A changed model moves it, and it stays moved.

On the stations of the back-tests 3 % of the springs are told to have stepped where nothing has. Of
those moved by 1.5 °C on 1 January a third and more are told by mid February, two in three by mid
March, half later (`tests/bench/source_bias.py`): weather of a year hides the rest in one place.
It cannot say which of the two is right, the past or the present: a thermometer can.
"""

from __future__ import annotations

from datetime import date
from typing import Final

import numpy as np

from jobs.agronomy.air import fit_soil_from_air
from jobs.agronomy.series import DailySeries, FloatArray

#: Days looked at, and how many of them must be known.
_DAYS: Final = 60
_LEAST_DAYS: Final = 40
#: Past years needed, and after how many a place's own spread counts as much as the usual one.
_LEAST_YEARS: Final = 4
_USUAL_YEARS: Final = 4
_USUAL_SD_C: Final = 0.5
#: It is told from so many standard deviations and so many °C on.
_SURE_SDS: Final = 2.5
_LEAST_C: Final = 1.0


def source_step_c(known: DailySeries, issued: date, latitude: float) -> float | None:
    """Return how much warmer a source's soil stands against its air than in past years [°C].

    None where that is within chance, or too little is known.

    Parameters
    ----------
    known
        The source's days with air and soil, several years of them, in northern days.
    issued
        Last day looked at.
    latitude
        [degrees north].
    """
    known = known.until(issued)
    fitted = fit_soil_from_air(known.until(date(issued.year - 1, 12, 31)), latitude)
    if not fitted.days:
        return None
    left_c = known.soil5_c - fitted.apply(known)
    now_c = _mean(left_c, (issued - known.first_day).days)
    past = [
        _mean(left_c, (_years_ago(issued, years) - known.first_day).days)
        for years in range(1, issued.year - known.first_day.year + 1)
    ]
    past_c = np.array([each for each in past if each is not None])
    if now_c is None or len(past_c) < _LEAST_YEARS:
        return None
    step_c = now_c - float(past_c.mean())
    variance = past_c.var(ddof=1) * len(past_c) + _USUAL_SD_C**2 * _USUAL_YEARS
    variance *= (1 + 1 / len(past_c)) / (len(past_c) + _USUAL_YEARS)
    is_sure = abs(step_c) >= max(_LEAST_C, _SURE_SDS * float(np.sqrt(variance)))
    return step_c if is_sure else None


def _mean(left_c: FloatArray, last: int) -> float | None:
    """Return the mean of the days up to an entry, or None where too few are known."""
    days = left_c[max(0, last + 1 - _DAYS) : max(0, last + 1)]
    days = days[~np.isnan(days)]
    return float(days.mean()) if len(days) >= _LEAST_DAYS else None


def _years_ago(day: date, years: int) -> date:
    return day.replace(
        year=day.year - years, day=28 if (day.month, day.day) == (2, 29) else day.day
    )
