"""The week ahead in words: the best day and hours, the second best, and why not the others."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date
from typing import Final

from bot.dialogue.talk import Talk
from bot.hearing.heard import ActHeard
from bot.letters.days_in_words import alert_lines, hours_words, is_dry, reason_words, water_words
from bot.letters.letter_facts import trouble_lines
from bot.saying.shown_names import capital
from bot.saying.values import Day, Depth, Moment, Speed, Temperature
from bot.telling import rounds_said, water_due
from bot.telling.application_days import fit_lines
from bot.turn import Reply, rows
from jobs.agronomy.day_rules import DayRules
from jobs.agronomy.day_verdicts import DayVerdict
from jobs.agronomy.whats_next import Next, Stage
from jobs.local_days import local
from jobs.rounds import targets_of
from jobs.uses import days as uses
from jobs.uses.days import DayReport
from jobs.weather_of_day import Advice
from storage.yards import YardRecord

#: Where an application is to be made now.
_DUE: Final = (Stage.OPEN, Stage.LATE, Stage.HALF_DUE)


def on_ask_day(talk: Talk, yard: YardRecord, heard: ActHeard) -> list[Reply]:
    """Answer for the day that was named, else with the week's best."""
    when = heard.slots.on
    waits = _not_due(talk, yard)
    if waits and water_due.water_lines(talk, yard):
        # "No rain all week, what now": what is down wants its water.
        first, *more = talk.answer("ask_water", yard)
        return [replace(first, text="\n".join([first.text, *waits])), *more]
    return show(talk, yard) if when is None else why(talk, yard, when.at.date())


def show(talk: Talk, yard: YardRecord, *, is_whole: bool = False) -> list[Reply]:
    """Answer /day: the best day; the second best and the others where the whole week is asked."""
    report = uses.report(talk.work, yard, talk.around.source, talk.now)
    if report is None:
        return [talk.reply("days.nothing_yet", yard=yard.name)]
    advice = report.advice
    waits = _not_due(talk, yard)
    lines = [*waits, *_lines(talk, yard, report, is_whole=is_whole, is_due=not waits)]
    if not advice.is_form_known:
        lines.append(talk.say("days.no_product"))
    elif advice.has_foliar:
        lines.append(talk.say("days.foliar"))
    lines += trouble_lines(report.trouble, talk.today(yard))
    if advice.is_invented:
        lines.append(talk.say("help.invented"))
    elif talk.around.credit is not None:
        lines.append(talk.around.credit)
    pairs = [
        (talk.say("yards.button_amounts"), f"amounts:{yard.id}"),
        (talk.say("yards.button_soil"), f"soil:{yard.id}"),
    ]
    if advice.week is not None and not is_whole:
        pairs.insert(0, (talk.say("days.button_all"), f"day:all:{yard.id}"))
    return [Reply("\n".join(lines), rows(pairs), data={"day": advice.to_json()})]


def _not_due(talk: Talk, yard: YardRecord) -> list[str]:
    """Say that nothing is due, where nothing is, and when something will be."""
    every = _next_of_all(talk, yard)
    if any(each.stage in _DUE for each in every):
        return []
    opens = _opens_on(every)
    if opens is None:
        return [talk.say("days.not_due")]
    today = talk.today(yard)
    return [talk.say("days.not_due_before", day=Day(opens, today))] if opens > today else []


def _not_due_that_day(talk: Talk, yard: YardRecord, wanted: date) -> list[str]:
    """Say that a day is too early, before its weather is spoken of."""
    every = _next_of_all(talk, yard)
    opens = None if any(each.stage in _DUE for each in every) else _opens_on(every)
    if opens is None or opens <= wanted:
        return []
    return [talk.say("days.not_due_day", day=Day(opens, talk.today(yard)))]


def _next_of_all(talk: Talk, yard: YardRecord) -> list[Next]:
    return [rounds_said.next_of(talk, yard, target) for target in targets_of(yard)]


def _opens_on(every: Sequence[Next]) -> date | None:
    return min((each.opens_on for each in every if each.opens_on is not None), default=None)


def why(talk: Talk, yard: YardRecord, wanted: date) -> list[Reply]:
    """Answer ``why not Tuesday`` with the facts behind the verdict."""
    report = uses.report(talk.work, yard, talk.around.source, talk.now)
    if report is None:
        return [talk.reply("days.nothing_yet", yard=yard.name)]
    week = report.advice.week
    if week is None:
        return [Reply("\n".join(_lines(talk, yard, report, is_whole=True)))]
    today = talk.today(yard)
    verdict = next((each for each in week.days if each.day == wanted), None)
    told = _not_due_that_day(talk, yard, wanted)
    told = told or fit_lines(talk, yard, wanted, only_late=verdict is not None)
    if verdict is None:
        first, last = (Day(each.day, today) for each in (week.days[0], week.days[-1]))
        beyond = talk.say("days.why_beyond", first=first, last=last)
        return [Reply("\n".join([*told, beyond]))]
    facts = {
        "day": Day(verdict.day, today),
        "hours": hours_words(verdict, report.advice),
        "reason": reason_words(verdict),
        "wind": Speed(verdict.wind_m_s),
        "rain": Depth(float(verdict.rain_after_mm) / 1000),
        "water": water_words(verdict, report.rules, today),
    }
    fits = "best" if verdict.against is None else "fit" if verdict.is_suitable else "not"
    is_late = verdict.against is not None and verdict.against.key == "too_late"
    lines = [*told, *([] if is_late else [capital(talk.say(f"days.why_{fits}", **facts))])]
    if verdict.against is not None:
        instead = alert_lines(report.advice, today)
        instead += [talk.say("days.why_against", **facts)] if verdict.is_suitable else []
        lines.append(" ".join(instead))
    lines += [
        _limits(talk, report.rules),
        _tail(talk, yard, report.advice),
    ]
    return [Reply("\n".join(lines), data={"day": report.advice.to_json()})]


def _lines(
    talk: Talk, yard: YardRecord, report: DayReport, *, is_whole: bool, is_due: bool = True
) -> list[str]:
    advice, rules = report.advice, report.rules
    today = talk.today(yard)
    form = talk.say(f"days.form_{advice.form}")
    week = advice.week
    if week is None:
        return [
            talk.say(
                "days.no_forecast",
                yard=yard.name,
                form=form,
                rain=Depth(advice.rain_behind_mm / 1000),
                low=Speed(rules.wind_low_m_s),
                high=Speed(rules.wind_high_m_s),
                heavy=Depth(rules.heavy_rain_mm / 1000),
                depth=Depth(rules.water_in_mm / 1000),
                days=max(1, rules.water_in_hours // 24),
            )
        ]
    suffix = "" if advice.basis == "hourly" else "_by_day"

    def facts(verdict: DayVerdict) -> dict[str, object]:
        return {
            "day": Day(verdict.day, today),
            "hours": hours_words(verdict, advice),
            "reason": reason_words(verdict),
        }

    lines, least = [], week.least_bad
    is_last = week.act_by is not None and week.act_by <= week.days[-1].day
    by = Day(week.act_by or today, today)
    if week.best is not None:
        water = water_words(week.best, rules, today)
        head = {"yard": yard.name, "form": form, "water": water, **facts(week.best)}
        lines.append(talk.say(f"days.best{suffix}", **head))
        if week.second is not None and is_whole:
            lines.append(talk.say(f"days.second{suffix}", **facts(week.second)))
    else:
        key = "none_before" if is_last else "none"
        lines.append(talk.say(f"days.{key}", yard=yard.name, form=form, by=by))
        if is_dry(least):
            lines.append(talk.say("days.better_not"))
            least = None
        elif least is None:
            lines += [talk.say("days.no_least_bad")] if is_due else []
        else:
            lines.append(talk.say(f"days.least_bad{suffix}", **facts(least)))
    if is_whole:
        lines += [
            capital(talk.say("days.line", **facts(verdict)))
            for verdict in week.days
            if verdict is not week.best and verdict is not least
        ]
    if week.best is not None and is_last:
        lines.append(talk.say("days.last_day", by=by))
    if is_whole or advice.basis != "hourly":
        lines.append(_tail(talk, yard, advice))
    return lines


def _tail(talk: Talk, yard: YardRecord, advice: Advice) -> str:
    at = talk.now if advice.fetched_at is None else advice.fetched_at
    here = local(at, yard.timezone)
    when = Moment(here, talk.today(yard))
    return talk.say(f"days.tail_{advice.basis}", at=when)


def _limits(talk: Talk, rules: DayRules) -> str:
    return talk.say(
        "days.why_limits",
        form=talk.say(f"days.form_{rules.form}"),
        low=Speed(rules.wind_low_m_s),
        high=Speed(rules.wind_high_m_s),
        cold=Temperature(rules.air_low_c),
        hot=Temperature(rules.air_high_c),
        heavy=Depth(rules.heavy_rain_mm / 1000),
        hours=rules.heavy_rain_hours,
        depth=Depth(rules.water_in_mm / 1000),
        whose=talk.say("days.whose_label" if rules.from_label else "days.whose_ours"),
    )


HANDLERS: Final = {"ask_day": on_ask_day}
