"""Soil: now, trend, past years, the window to come, and how fresh all of it is."""

from __future__ import annotations

from typing import Final

from bot.dialogue.talk import Talk
from bot.letters.letter_facts import turn_lines
from bot.pictures.render import PictureSpec
from bot.pictures.soil_words import soil_chart
from bot.saying.values import Temperature
from bot.telling.application_days import report_of
from bot.telling.soil_lines import (
    coming_line,
    doubt_lines,
    doubts_of_data,
    next_line,
    now_line,
    own_line,
    regional_line,
    trouble_lines_of,
)
from bot.turn import Reply
from jobs.agronomy.whats_next import TO_DO
from jobs.uses.chart_values import soil_chart_values
from jobs.uses.soil_report import BAND_C, SoilReport
from storage.yards import YardRecord


def show(talk: Talk, yard: YardRecord) -> list[Reply]:
    """Answer /soil."""
    report = report_of(talk, yard)
    if report is None:
        return [talk.reply("soil.nothing_yet", yard=yard.name)]
    lines = [
        now_line(talk, yard, report),
        talk.say(f"soil.first_by_{report.stands_in}") if report.stands_in else "",
        own_line(talk, yard, report),
        *doubt_lines(talk, report),
        *_window(talk, yard, report),
        *turn_lines(report.judged),
        *doubts_of_data(talk, report.judged, talk.today(yard)),
        *trouble_lines_of(talk, yard),
    ]
    if talk.around.credit is not None:
        lines.append(talk.around.credit)
    buttons = talk.row(
        ("yards.button_amounts", f"amounts:{yard.id}"),
        ("soil.button_weeds", f"weeds:{yard.id}"),
        ("timing.button_why", f"why:{yard.id}"),
    )
    text = "\n".join(line for line in lines if line)
    return [Reply(text, buttons, drawing=_chart(talk, yard))]


def _chart(talk: Talk, yard: YardRecord) -> PictureSpec | None:
    around = talk.around
    values = soil_chart_values(talk.work, yard, around.source, around.outlooks, talk.now)
    if values is None:
        return None
    chart = soil_chart(values, yard.name, talk.unit_system)
    return PictureSpec.of(chart)


def _window(talk: Talk, yard: YardRecord, report: SoilReport) -> list[str]:
    today = talk.today(yard)
    if report.late_summer is not None:
        return [coming_line(report, today)]
    lines = []
    if report.chance_spell_holds is not None:
        chance = 5 * round(report.chance_spell_holds * 20)
        lines.append(talk.say("soil.warm_spell", chance=chance, band=Temperature(BAND_C[0])))
    kind = report.spring.kind
    if kind == "none":
        why = talk.say(f"soil.no_spring_{report.spring.why_none}")
        lines += [talk.say("soil.no_clear_spring", why=why), regional_line(report)]
    lines.append(next_line(report.upcoming, today))
    if kind in ("mild", "short") and report.upcoming.stage in TO_DO:
        lines.append(talk.say(f"soil.spring_{kind}"))
    return lines


HANDLERS: Final = {"ask_soil": lambda talk, yard, _heard: show(talk, yard)}
