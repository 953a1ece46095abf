"""What is said of a day: a verdict, its hours, and the one reason against it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime
from typing import Literal

from jobs.agronomy.day_hours import HourKey

DayKey = Literal["not_your_day", "too_late", "no_water", "saturated", "frozen", "heavy_rain"]
#: Why a day that would do is not the best: its largest loss against the best day.
LossKey = Literal["windier", "more_rain_risk", "watered_in_later", "later"]
ReasonKey = HourKey | DayKey | LossKey


@dataclass(frozen=True, slots=True)
class Reason:
    """The one reason against a day.

    ``value`` and ``limit`` share the unit the key implies: m/s at 2 m, °C, mm, % humidity (or mm of
    rain) for leaves, days for ``later`` and ``too_late``; NaN where there is no number.
    """

    key: ReasonKey
    value: float
    limit: float
    is_label: bool = False


@dataclass(frozen=True, slots=True)
class DayVerdict:
    """How a day suits.

    Attributes
    ----------
    day
        Local day.
    is_suitable
        Whether it has unbroken hours in which everything is within limits.
    start, end
        Its best hours (aware, in the yard's zone), or the hours in which only ``against`` stands in
        the way, or None.
    against
        The one reason against it; None for the best day.
    wind_m_s
        Mean wind at 2 m in those hours.
    rain_after_mm
        Most rain in any 24 hours within the hours in which heavy rain matters.
    rain_waters_in_at
        When forecast rain will have watered it in, or None.
    needs_irrigation
        Whether it has to be watered by hand or sprinkler.
    penalty
        Smaller is better; comparable between days of one call.
    """

    day: date
    is_suitable: bool
    start: datetime | None
    end: datetime | None
    against: Reason | None
    wind_m_s: float
    rain_after_mm: float
    rain_waters_in_at: datetime | None
    needs_irrigation: bool
    penalty: float


@dataclass(frozen=True, slots=True)
class Week:
    """The next days and the choice among them.

    ``best`` and ``second`` are suitable days or None; ``least_bad`` is given only where there is no
    suitable one, and never breaks the label nor risks drift or runoff. ``act_by`` is as asked.
    """

    days: tuple[DayVerdict, ...]
    best: DayVerdict | None
    second: DayVerdict | None
    least_bad: DayVerdict | None
    act_by: date | None
