"""The soil in lines: now, trend, past years, what is to come, and how fresh all of it is."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import Final

from bot.dialogue.talk import Talk
from bot.letters.letter_facts import trouble_lines
from bot.saying.catalogue import say
from bot.saying.values import Day, Degrees, Names, ShortDay, Temperature
from jobs.agronomy.whats_next import Next, Stage
from jobs.data_trouble import trouble_of
from jobs.judged import Judged
from jobs.uses.soil_report import BAND_C, SoilReport
from storage.yards import YardRecord

#: A week's change below this is called steady [°C].
_STEADY_C = 0.5


#: From this age on the data's age leads its line [days].
_OLD_DAYS = 2


def trouble_lines_of(talk: Talk, yard: YardRecord) -> list[str]:
    """Return what is wrong with the source; the age of what is known is said already."""
    found = trouble_of(talk.work, yard, talk.around.source, talk.now)
    told = replace(found, old_days=None)
    return trouble_lines(told, talk.today(yard))


def freshness(talk: Talk, judged: Judged, today: date, place: str) -> str:
    """Return one line on where the figures come from and how old they are."""
    parts = doubts_of_data(talk, judged, today)
    if judged.known_until is not None and not _is_old(judged.known_until, today):
        parts.insert(0, talk.say("soil.fresh", day=Day(judged.known_until, today)))
    if place and not judged.is_invented:
        parts.append(talk.say("soil.place", place=place))
    return " ".join(parts)


def doubts_of_data(talk: Talk, judged: Judged, today: date) -> list[str]:
    """Return what speaks against the figures: their age, or that nobody measured them."""
    lines = []
    if judged.known_until is None:
        lines.append(talk.say("soil.no_data"))
    elif _is_old(judged.known_until, today):
        age = (today - judged.known_until).days
        lines.append(talk.say("soil.old", day=Day(judged.known_until, today), days=age))
    if judged.is_invented:
        lines.append(talk.say("help.invented"))
    if judged.soil_is_modelled:
        lines.append(talk.say("soil.modelled"))
    return lines


def _is_old(known_until: date, today: date) -> bool:
    return (today - known_until).days > _OLD_DAYS


def now_line(talk: Talk, yard: YardRecord, report: SoilReport) -> str:
    """Return the soil's temperature now, and its trend."""
    judged = report.judged
    if judged.soil_5day_c is None:
        return talk.say("soil.unknown_now", yard=yard.name)
    trend = talk.say("soil.trend_unknown")
    change_c = judged.change_7day_c
    if change_c is not None:
        key = "steady" if abs(change_c) < _STEADY_C else ("up" if change_c > 0 else "down")
        trend = talk.say(f"soil.trend_{key}", change=Degrees(abs(change_c)))
    return talk.say("soil.now", yard=yard.name, soil=Temperature(judged.soil_5day_c), trend=trend)


def own_line(talk: Talk, yard: YardRecord, report: SoilReport) -> str:
    """Return what the yard's own thermometer says beside the grid; nothing without one."""
    own = report.own
    if own is None or own.grid_5day_c is None or report.judged.soil_5day_c is None:
        return ""
    return talk.say(
        "soil.own",
        grid=Temperature(own.grid_5day_c),
        reading=Temperature(own.reading_c),
        on=Day(own.read_on, talk.today(yard)),
        blend=Temperature(report.judged.soil_5day_c),
        count=own.count,
    )


def doubt_lines(talk: Talk, report: SoilReport) -> list[str]:
    """Return what speaks against the source: the yard's thermometer, and the source's own past."""
    lines = []
    own, step_c = report.own, report.source_step_c
    if own is not None and own.apart_c is not None:
        side = "warmer" if own.apart_c > 0 else "colder"
        lines.append(talk.say(f"soil.thermometer_{side}", apart=Degrees(abs(own.apart_c))))
        if own.moves_days:
            side = "earlier" if own.moves_days < 0 else "later"
            lines.append(talk.say(f"soil.thermometer_{side}", days=abs(own.moves_days)))
    if step_c is not None and not talk.around.is_invented:
        side = "warmer" if step_c > 0 else "colder"
        lines.append(talk.say(f"soil.source_{side}", apart=Degrees(abs(step_c))))
    return lines


def past_line(talk: Talk, report: SoilReport) -> str:
    """Return what past years had on this date."""
    if report.past_mean_c is None or report.past_low_c is None or report.past_high_c is None:
        return ""
    key = "soil.past" if report.past_years else "soil.past_regional"
    return talk.say(
        key,
        mean=Temperature(report.past_mean_c),
        low=Temperature(report.past_low_c),
        high=Temperature(report.past_high_c),
        years=report.past_years,
    )


def coming_line(report: SoilReport, today: date) -> str:
    """Return what is to be done next; in late summer, where that round is planned, of that."""
    if report.late_summer is not None:
        return next_line(report.late_summer, today, is_late_summer=True)
    return next_line(report.upcoming, today)


def next_line(upcoming: Next, today: date, *, is_late_summer: bool = False) -> str:
    """Return what is to be done next, and until when, with the chance that weeds come first."""
    key = str(upcoming.stage)
    if upcoming.stage is Stage.DOWN and upcoming.opens_on is not None:
        key = "half"
    days = {
        "opens": upcoming.opens_on,
        "closes": upcoming.by,
        "up": upcoming.event_on,
        "was": upcoming.deadline_on,
    }
    said = {name: Day(day, today) for name, day in days.items() if day is not None}
    if upcoming.zones and key in ("half", "half_due"):
        # Others have had it.
        return say(f"soil.next_{key}_of", **said, zones=Names(upcoming.zones))
    round_ = "late_summer" if is_late_summer and upcoming.stage is not Stage.HALF_DUE else "next"
    return say(f"soil.{round_}_{key}", **said, one_in=upcoming.one_in or 0)


#: A year with 29 February, where only day and month are shown.
_ANY_YEAR: Final = 2024


def regional_line(report: SoilReport) -> str:
    """Return the published date of the region, with its source."""
    date_ = report.regional
    if date_ is None:
        return ""
    month, day = date_.last
    return say(
        f"soil.regional_{date_.speaks}",
        region=date_.region,
        last=ShortDay(date(_ANY_YEAR, month, day)),
        source=date_.source,
    )


def band_line(talk: Talk, report: SoilReport, today: date) -> str:
    """Return when the soil is in the trade's band."""
    low_on, high_on = report.band_low_on, report.band_high_on
    if low_on is None or high_on is None:
        return ""
    low, high = (Temperature(edge) for edge in BAND_C)
    if high_on <= today:
        return talk.say("soil.band_passed", low=low, high=high)
    key = "soil.band" if low_on > today else "soil.band_inside"
    return talk.say(key, low=low, high=high, low_on=Day(low_on, today), high_on=Day(high_on, today))


def air_line(talk: Talk, yard: YardRecord, report: SoilReport) -> str:
    """Return what a rule on air temperature says where it disagrees."""
    up, since = report.judged.p50, report.air_rule_since
    if up is None or since is None:
        return ""
    today = talk.today(yard)
    return talk.say("weeds.disagree", on=Day(since, today), up=Day(up, today))
