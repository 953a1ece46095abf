"""Days of the week ahead in words: their hours, their water, and what stands against one."""

from __future__ import annotations

import math
from datetime import date
from typing import Final

from bot.saying.catalogue import say
from bot.saying.values import Clock, Day, Depth, Speed, Temperature
from jobs.agronomy.day_rules import DayRules
from jobs.agronomy.day_verdicts import DayVerdict, Reason
from jobs.weather_of_day import Advice

#: Units of the numbers that reasons carry.
_SPEEDS: Final = frozenset({"calm", "windy", "windier"})
_DEPTHS: Final = frozenset({"rain", "no_water", "saturated", "heavy_rain", "more_rain_risk"})
_TEMPERATURES: Final = frozenset({"cold", "hot", "frozen"})


def alert_lines(advice: Advice, today: date) -> list[str]:
    """Return what an alert says of the days ahead: the best, else the least bad."""
    week = advice.week
    if week is None:
        return []
    if week.best is not None:
        best = week.best
        key = "days.alert_best" if advice.basis == "hourly" else "days.alert_best_by_day"
        return [say(key, day=Day(best.day, today), hours=hours_words(best, advice))]
    parts = [say("days.alert_none")]
    if is_dry(week.least_bad):
        parts.append(say("days.better_not"))
    elif week.least_bad is not None:
        reason = reason_words(week.least_bad)
        day = Day(week.least_bad.day, today)
        parts.append(say("days.alert_least_bad", day=day, reason=reason))
    return [" ".join(parts)]


def reason_words(verdict: DayVerdict) -> str:
    """Return the one reason against a day, in words with its number and its limit."""
    reason = verdict.against
    if reason is None:
        return ""
    key = reason.key
    if key == "watered_in_later" and verdict.needs_irrigation:
        return say("days.reason.needs_water")
    text = say(
        f"days.reason.{key}",
        value=_figure(reason, reason.value),
        limit=_figure(reason, reason.limit),
    )
    return say("days.of_label", reason=text) if reason.is_label else text


def hours_words(verdict: DayVerdict, advice: Advice) -> str:
    """Return a day's best hours, or nothing where hours are not known."""
    if verdict.start is None or verdict.end is None or advice.basis != "hourly":
        return ""
    start, end = Clock(verdict.start), Clock(verdict.end)
    return say("days.hours", start=start, end=end)


def water_words(verdict: DayVerdict, rules: DayRules | None, today: date) -> str:
    """Return how it will be watered in: by forecast rain, or by hand."""
    if verdict.rain_waters_in_at is not None:
        day = Day(verdict.rain_waters_in_at.date(), today)
        return say("days.water_rain", day=day)
    if rules is None:
        return ""
    against = verdict.against
    if against is not None and against.key == "no_water":
        return say("days.water_none")
    return say("days.water_self", depth=Depth(rules.water_in_mm / 1000))


def is_dry(least: DayVerdict | None) -> bool:
    """Tell whether even the least bad day would leave it dry: then better not."""
    return least is not None and least.against is not None and least.against.key == "no_water"


def _figure(reason: Reason, value: float) -> object:
    value = float(value)
    if math.isnan(value):
        return ""
    if reason.key in _SPEEDS:
        return Speed(value)
    if reason.key in _DEPTHS:
        return Depth(value / 1000)
    if reason.key in _TEMPERATURES:
        return Temperature(value)
    return round(value)
