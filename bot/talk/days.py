"""The week ahead in words: the best day and hours, the second best, and why not the others."""

from __future__ import annotations

import math
from datetime import date, datetime
from typing import Final

from bot.hearing.heard import ActHeard
from bot.hearing.readers.dates import say_day
from bot.hearing.readers.times import say_time
from bot.saying.catalogue import say
from bot.saying.figures import say_depth, say_temp
from bot.saying.voice import UnitSystem
from bot.talk import rounds
from bot.talk.talk import Talk
from bot.talk.troubles import trouble_lines
from bot.turn import Reply, rows
from jobs.agronomy.day_rules import DayRules
from jobs.agronomy.day_verdicts import DayVerdict, Reason
from jobs.agronomy.units import M_S_PER_MPH
from jobs.agronomy.whats_next import Stage
from jobs.local_days import local
from jobs.rounds import targets_of
from jobs.uses import days as uses
from jobs.uses.days import DayReport
from jobs.weather_of_day import Advice
from storage.yards import YardRecord

#: Units of the numbers that reasons carry.
_SPEEDS: Final = frozenset({"calm", "windy", "windier"})
_DEPTHS: Final = frozenset({"rain", "no_water", "saturated", "heavy_rain", "more_rain_risk"})
_TEMPERATURES: Final = frozenset({"cold", "hot", "frozen"})


def on_ask_day(talk: Talk, yard: YardRecord, heard: ActHeard) -> list[Reply]:
    """Answer for the day that was named, else with the week's best."""
    when = heard.slots.on
    return show(talk, yard) if when is None else why(talk, yard, when.at.date())


def show(talk: Talk, yard: YardRecord) -> list[Reply]:
    """Answer /day."""
    report = uses.report(talk.work, yard, talk.around.source, talk.now)
    if report is None:
        return [talk.reply("days.nothing_yet", yard=yard.name)]
    advice = report.advice
    lines = [*_not_due(talk, yard), *_lines(talk, yard, report)]
    if not advice.is_form_known:
        lines.append(talk.say("days.no_product"))
    elif advice.has_foliar:
        lines.append(talk.say("days.foliar"))
    lines += trouble_lines(report.trouble, talk.today(yard), talk.unit_system)
    if advice.is_invented:
        lines.append(talk.say("help.invented"))
    elif talk.around.credit is not None:
        lines.append(talk.around.credit)
    buttons = rows(
        [
            (talk.say("yards.button_amounts"), f"amounts:{yard.id}"),
            (talk.say("yards.button_soil"), f"soil:{yard.id}"),
        ]
    )
    return [Reply("\n".join(lines), buttons, data={"day": advice.to_json()})]


def _not_due(talk: Talk, yard: YardRecord) -> list[str]:
    """Say that nothing is due, where nothing is, and when something will be."""
    every = [rounds.next_of(talk, yard, target) for target in targets_of(yard)]
    if any(each.stage in (Stage.OPEN, Stage.LATE, Stage.HALF_DUE) for each in every):
        return []
    opens = min((each.opens_on for each in every if each.opens_on is not None), default=None)
    if opens is None:
        return [talk.say("days.not_due")]
    today = talk.today(yard)
    return [talk.say("days.not_due_before", day=say_day(opens, today))] if opens > today else []


def why(talk: Talk, yard: YardRecord, wanted: date) -> list[Reply]:
    """Answer ``why not Tuesday`` with the facts behind the verdict."""
    report = uses.report(talk.work, yard, talk.around.source, talk.now)
    if report is None:
        return [talk.reply("days.nothing_yet", yard=yard.name)]
    week = report.advice.week
    if week is None:
        return [Reply("\n".join(_lines(talk, yard, report)))]
    today, units = talk.today(yard), talk.unit_system
    verdict = next((each for each in week.days if each.day == wanted), None)
    if verdict is None:
        first, last = (say_day(each.day, today) for each in (week.days[0], week.days[-1]))
        return [talk.reply("days.why_beyond", first=first, last=last)]
    lines = []
    facts = {
        "day": say_day(verdict.day, today),
        "hours": hours_words(verdict, report.advice, units),
        "wind": _speed(verdict.wind_m_s, units),
        "rain": say_depth(float(verdict.rain_after_mm) / 1000, units),
        "water": water_words(report.advice, verdict, report.rules, today, units),
    }
    if verdict.against is not None:
        reason = reason_words(verdict, units)
        lines.append(_capital(talk.say("days.why_not", day=facts["day"], reason=reason)))
        if verdict.is_suitable:
            lines.append(talk.say("days.why_fit", **facts))
    else:
        lines.append(_capital(talk.say("days.why_best", **facts)))
    lines.append(_limits(talk, report.rules))
    lines.append(_tail(talk, yard, report.advice))
    return [Reply("\n".join(lines), data={"day": report.advice.to_json()})]


def alert_lines(advice: Advice, today: date, units: UnitSystem) -> list[str]:
    """Return what an alert says of the days ahead: the best, else the least bad."""
    week = advice.week
    if week is None:
        return []
    if week.best is not None:
        best = week.best
        key = "days.alert_best" if advice.basis == "hourly" else "days.alert_best_by_day"
        parts = [
            say(
                key,
                day=say_day(best.day, today),
                hours=hours_words(best, advice, units),
                water=water_words(advice, best, None, today, units),
            )
        ]
        if week.second is not None:
            parts.append(say("days.alert_second", day=say_day(week.second.day, today)))
        return [" ".join(part.strip() for part in parts if part)]
    parts = [say("days.alert_none")]
    if _is_dry(week.least_bad):
        parts.append(say("days.better_not"))
    elif week.least_bad is not None:
        reason = reason_words(week.least_bad, units)
        day = say_day(week.least_bad.day, today)
        parts.append(say("days.alert_least_bad", day=day, reason=reason))
    return [" ".join(parts)]


def reason_words(verdict: DayVerdict, units: UnitSystem) -> str:
    """Return the one reason against a day, in words with its number and its limit."""
    reason = verdict.against
    if reason is None:
        return ""
    key = reason.key
    if key == "watered_in_later" and verdict.needs_irrigation:
        return say("days.reason.needs_water")
    text = say(
        f"days.reason.{key}",
        value=_figure(reason, reason.value, units),
        limit=_figure(reason, reason.limit, units),
    )
    return say("days.of_label", reason=text) if reason.is_label else text


def hours_words(verdict: DayVerdict, advice: Advice, units: UnitSystem) -> str:
    """Return a day's best hours, or nothing where hours are not known."""
    if verdict.start is None or verdict.end is None or advice.basis != "hourly":
        return ""
    start, end = say_time(verdict.start, units), say_time(verdict.end, units)
    return say("days.hours", start=start, end=end)


def water_words(
    advice: Advice,
    verdict: DayVerdict,
    rules: DayRules | None,
    today: date,
    units: UnitSystem,
) -> str:
    """Return how it will be watered in: by forecast rain, or by hand."""
    if verdict.rain_waters_in_at is not None:
        day = say_day(verdict.rain_waters_in_at.date(), today)
        return say("days.water_rain", day=day)
    if rules is None:
        return ""
    against = verdict.against
    if against is not None and against.key == "no_water":
        return say("days.water_none")
    return say("days.water_self", depth=say_depth(rules.water_in_mm / 1000, units))


def _lines(talk: Talk, yard: YardRecord, report: DayReport) -> list[str]:
    advice, rules = report.advice, report.rules
    today, units = talk.today(yard), talk.unit_system
    form = talk.say(f"days.form_{advice.form}")
    week = advice.week
    if week is None:
        return [
            talk.say(
                "days.no_forecast",
                yard=yard.name,
                form=form,
                rain=say_depth(advice.rain_behind_mm / 1000, units),
                low=_speed(rules.wind_low_m_s, units),
                high=_speed(rules.wind_high_m_s, units),
                heavy=say_depth(rules.heavy_rain_mm / 1000, units),
                depth=say_depth(rules.water_in_mm / 1000, units),
                days=max(1, rules.water_in_hours // 24),
            )
        ]
    suffix = "" if advice.basis == "hourly" else "_by_day"

    def facts(verdict: DayVerdict) -> dict[str, str]:
        return {
            "day": say_day(verdict.day, today),
            "hours": hours_words(verdict, advice, units),
            "reason": reason_words(verdict, units),
        }

    lines, least = [], week.least_bad
    if week.best is not None:
        water = water_words(advice, week.best, rules, today, units)
        head = {"yard": yard.name, "form": form, "water": water, **facts(week.best)}
        lines.append(talk.say(f"days.best{suffix}", **head))
        if week.second is not None:
            lines.append(talk.say(f"days.second{suffix}", **facts(week.second)))
    else:
        lines.append(_none(talk, yard, report))
        if _is_dry(least):
            lines.append(talk.say("days.better_not"))
            least = None
        elif least is None:
            lines.append(talk.say("days.no_least_bad"))
        else:
            lines.append(talk.say(f"days.least_bad{suffix}", **facts(least)))
    lines += [
        _capital(talk.say("days.line", **facts(verdict)))
        for verdict in week.days
        if verdict is not week.best and verdict is not least
    ]
    if week.best is not None and week.act_by is not None and week.act_by <= week.days[-1].day:
        lines.append(talk.say("days.last_day", by=say_day(week.act_by, today)))
    lines.append(_tail(talk, yard, advice))
    return lines


def _is_dry(least: DayVerdict | None) -> bool:
    """Tell whether even the least bad day would leave it dry: then better not."""
    return least is not None and least.against is not None and least.against.key == "no_water"


def _none(talk: Talk, yard: YardRecord, report: DayReport) -> str:
    advice = report.advice
    form = talk.say(f"days.form_{advice.form}")
    week = advice.week
    assert week is not None
    if week.act_by is not None and week.act_by <= week.days[-1].day:
        by = say_day(week.act_by, talk.today(yard))
        return talk.say("days.none_before", yard=yard.name, form=form, by=by)
    return talk.say("days.none", yard=yard.name, form=form)


def _tail(talk: Talk, yard: YardRecord, advice: Advice) -> str:
    at = talk.now if advice.fetched_at is None else advice.fetched_at
    here = local(at, yard.timezone)
    when = (
        f"{say_day(here.date(), talk.today(yard))} {say_time(_to_minute(here), talk.unit_system)}"
    )
    return talk.say(f"days.tail_{advice.basis}", at=when)


def _limits(talk: Talk, rules: DayRules) -> str:
    units = talk.unit_system
    return talk.say(
        "days.why_limits",
        form=talk.say(f"days.form_{rules.form}"),
        low=_speed(rules.wind_low_m_s, units),
        high=_speed(rules.wind_high_m_s, units),
        cold=say_temp(rules.air_low_c, units),
        hot=say_temp(rules.air_high_c, units),
        heavy=say_depth(rules.heavy_rain_mm / 1000, units),
        hours=rules.heavy_rain_hours,
        depth=say_depth(rules.water_in_mm / 1000, units),
        whose=talk.say("days.whose_label" if rules.from_label else "days.whose_ours"),
    )


def _figure(reason: Reason, value: float, units: UnitSystem) -> str:
    value = float(value)
    if math.isnan(value):
        return ""
    if reason.key in _SPEEDS:
        return _speed(value, units)
    if reason.key in _DEPTHS:
        return say_depth(value / 1000, units)
    if reason.key in _TEMPERATURES:
        return say_temp(value, units)
    return f"{value:.0f}"


def _speed(value_m_s: float, units: UnitSystem) -> str:
    value_m_s = float(value_m_s)
    if math.isnan(value_m_s):
        return "?"
    if units == "metric":
        return say("days.speed_metric", value=f"{value_m_s:.1f}")
    return say("days.speed_us", value=f"{value_m_s / M_S_PER_MPH:.0f}")


def _to_minute(at: datetime) -> datetime:
    return at.replace(second=0, microsecond=0)


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]


HANDLERS: Final = {"ask_day": on_ask_day}
