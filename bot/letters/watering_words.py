"""Watering in, in words: minutes and cycles, what rain is forecast, a washout ahead."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, datetime
from typing import Any

from bot.saying.catalogue import say
from bot.saying.values import Depth, Moment
from jobs.agronomy.watering import Cycles
from jobs.local_days import local


def later_call(facts: Mapping[str, Any]) -> str:
    """Return the end of a sentence's key for a later call to water in; empty for the first."""
    stage = facts.get("stage")
    return f"_{stage}" if stage in ("last", "over") else ""


def water_lines(facts: Mapping[str, Any], timezone: str, today: date) -> list[str]:
    """Return what an alert about watering in adds: a washout ahead, a ban, minutes, rain."""
    missing = max(0.0, float(facts.get("wanted_mm", 0.0)) - float(facts.get("had_mm", 0.0)))
    lines = []
    storm = facts.get("washout")
    if storm is not None:
        lines.append(washout_words(storm["rain_mm"], storm["from"], timezone, today))
    ahead = facts.get("rain_ahead_mm")
    is_enough = ahead is not None and ahead >= missing
    rain = Depth((ahead or 0.0) / 1000)
    if facts.get("is_banned"):
        key = "watering.banned" if is_enough else "watering.banned_short"
        lines.append(say(key, rain=rain))
    elif "run" in facts:
        lines.append(run_words(Cycles(**facts["run"])))
    if ahead is not None and not (facts.get("is_banned") and not is_enough):
        lines.append(say("watering.rain_enough" if is_enough else "watering.rain_ahead", rain=rain))
    return lines


def run_words(run: Cycles) -> str:
    """Return how to run a sprinkler."""
    minutes = round(run.count * run.minutes_each)
    if run.count == 1:
        return say("watering.run_once", minutes=minutes)
    return say(
        "watering.run_cycles",
        minutes=minutes,
        count=run.count,
        each=max(1, round(run.minutes_each)),
        soak=run.soak_minutes,
    )


def washout_words(rain_mm: float, from_: str, timezone: str, today: date) -> str:
    """Return the warning before heavy rain."""
    begins = local(datetime.fromisoformat(from_), timezone)
    when = Moment(begins, today)
    rain = Depth(rain_mm / 1000)
    return say("watering.washout", rain=rain, **{"from": when})
