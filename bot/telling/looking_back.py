"""Look back: seasons side by side, in one paragraph and one picture."""

from __future__ import annotations

from datetime import date

from bot.dialogue.talk import Talk
from bot.pictures.render import PictureSpec
from bot.pictures.years_chart import YearLane, YearsChart, lane_begins
from bot.saying.values import Day, LabelRate, Temperature
from bot.telling.rounds_said import sight_of
from bot.turn import Reply
from jobs.agronomy.units import from_si
from jobs.uses import past_years as uses
from jobs.uses.past_years import YearBack
from storage.yards import YardRecord

#: Seasons shown; more is in the export.
_SHOWN = 5


def show(talk: Talk, yard: YardRecord) -> list[Reply]:
    """Answer ``look back``."""
    found = uses.years(talk.work, yard, sight_of(talk, yard))
    if not found:
        return [talk.reply("scouting.back_none", yard=yard.name)]
    lines = [talk.say("scouting.back_head", yard=yard.name)]
    lines += [_line(talk, each) for each in found[-_SHOWN:]]
    lines += _beside(talk, found)
    return [Reply("\n".join(lines), drawing=PictureSpec.of(_chart(talk, yard, found[-_SHOWN:])))]


def _chart(talk: Talk, yard: YardRecord, found: list[YearBack]) -> YearsChart:
    first_month = 9 if yard.lat >= 0 else 3

    def number(year: int, day: date | None) -> int | None:
        return None if day is None else (day - lane_begins(year, first_month)).days

    lanes = tuple(
        YearLane(
            each.year,
            number(each.year, each.opened_on),
            tuple((day - lane_begins(each.year, first_month)).days for day in each.applied_on),
            number(each.year, each.first_seen_on),
        )
        for each in found
    )
    return YearsChart(
        talk.say("pictures.years.head", yard=yard.name),
        lanes,
        first_month,
        is_invented=talk.around.is_invented,
    )


def _line(talk: Talk, each: YearBack) -> str:
    opened = talk.say("scouting.back_never") if each.opened_on is None else _day(each.opened_on)
    facts = {"year": each.year, "opened": opened, "control": _control(talk, each)}
    if not each.applied_on:
        return talk.say("scouting.back_line_none", **facts)
    soil = ""
    if each.soil_c is not None:
        soil = talk.say("scouting.back_soil", soil=Temperature(each.soil_c))
    amount = talk.say("records.no_amount")
    if each.ai_kg_ha is not None:
        unit = "kg/ha" if talk.is_metric else "lb/acre"
        rate = LabelRate(round(from_si(each.ai_kg_ha, unit), 2), unit)
        amount = talk.say("scouting.back_amount", rate=rate)
    return talk.say(
        "scouting.back_line",
        applied=[_day(day) for day in each.applied_on],
        soil=soil,
        amount=amount,
        **facts,
    )


def _control(talk: Talk, each: YearBack) -> str:
    if each.days_of_control is not None and each.control_from is not None:
        after = _day(each.control_from)
        return talk.say("scouting.back_control", days=each.days_of_control, after=after)
    if each.first_seen_on is not None:
        return talk.say("scouting.back_seen", on=_day(each.first_seen_on))
    return talk.say("scouting.back_clean")


def _beside(talk: Talk, found: list[YearBack]) -> list[str]:
    applied = [each for each in found if each.applied_on]
    if len(applied) < 2:
        return []
    this, before = applied[-1], applied[-2]
    later = this.applied_on[0].timetuple().tm_yday - before.applied_on[0].timetuple().tm_yday
    if later == 0:
        return []
    key = "scouting.back_later" if later > 0 else "scouting.back_earlier"
    return [talk.say(key, days=abs(later), year=before.year)]


def _day(day: date) -> Day:
    """Return a day of another year without its year: the line begins with it."""
    return Day(day, day.replace(day=1) if day.day > 2 else day.replace(day=28))
