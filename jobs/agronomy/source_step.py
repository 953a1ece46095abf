"""Whether a source's soil has stepped away from its own past, as when its provider changes a model.

Air tells most of what soil at 5 cm does. What a source's soil stands off the soil that its air
explains (`air.fit_soil_from_air` on earlier years) comes back each year at the same season, give or
take some 0.6 °C. A changed model moves it, and it stays moved.

On the stations of the back-tests 3 % of the springs are told to have stepped where nothing has. Of
those moved by 1.5 °C on 1 January a third and more are told by mid February, two in three by mid
March, half later (`tests/bench/source_bias.py`): weather of a year hides the rest in one place.
Over eight places and more the weather of a year averages out, and such a step is always seen
(`shared_step_c`). Which of the two is right, the past or the present, neither can say: a
thermometer can.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
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


#: Places over which a step is one of the source, and from how many °C of their mean on. Of eight of
#: the back-test's stations where nothing changed, the mean stayed below in 99 of 100 draws.
_SHARED_PLACES: Final = 8
_SHARED_C: Final = 0.75


@dataclass(frozen=True, slots=True)
class SourceStep:
    """How much warmer a soil stands against its air than in past years, and its spread [°C]."""

    step_c: float
    sd_c: float

    @property
    def is_sure(self) -> bool:
        """Whether it is beyond chance at this one place."""
        return abs(self.step_c) >= max(_LEAST_C, _SURE_SDS * self.sd_c)


def source_step(known: DailySeries, issued: date, latitude: float) -> SourceStep | None:
    """Return how a source's soil stands against its air, beside past years.

    None where too little is known.

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
    variance = past_c.var(ddof=1) * len(past_c) + _USUAL_SD_C**2 * _USUAL_YEARS
    variance *= (1 + 1 / len(past_c)) / (len(past_c) + _USUAL_YEARS)
    return SourceStep(now_c - float(past_c.mean()), float(np.sqrt(variance)))


def shared_step_c(steps: Sequence[SourceStep]) -> float | None:
    """Return the step that many places of one source share [°C]; None within chance, or of few."""
    if len(steps) < _SHARED_PLACES:
        return None
    mean_c = float(np.mean([step.step_c for step in steps]))
    return mean_c if abs(mean_c) >= _SHARED_C else None


def _mean(left_c: FloatArray, last: int) -> float | None:
    """Return the mean of the days up to an entry, or None where too few are known."""
    days = left_c[max(0, last + 1 - _DAYS) : max(0, last + 1)]
    days = days[~np.isnan(days)]
    return float(days.mean()) if len(days) >= _LEAST_DAYS else None


def _years_ago(day: date, years: int) -> date:
    return day.replace(
        year=day.year - years, day=28 if (day.month, day.day) == (2, 29) else day.day
    )
