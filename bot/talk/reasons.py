"""Why: the figures and their sources behind the newest advice, in words."""

from __future__ import annotations

from typing import Final

from bot.hearing.heard import ActHeard
from bot.saying.values import Day, Temperature
from bot.talk import rounds_said, soil_now
from bot.talk.talk import Talk
from bot.turn import Reply, rows
from jobs.agronomy.emergence import LEADING_WEED, weeds
from jobs.agronomy.season import Target
from jobs.agronomy.timing import IN_PLACE_BEFORE_DAYS
from jobs.agronomy.units import f_from_c_step
from jobs.season_facts import plan_of
from jobs.uses import soil_report as uses
from jobs.uses.soil_report import SoilReport
from storage.yards import YardRecord


def on_ask_why(talk: Talk, yard: YardRecord, _heard: ActHeard) -> list[Reply]:
    """Say what the advice stands on."""
    around = talk.around
    report = uses.report(talk.work, yard, around.source, around.outlooks, talk.now)
    if report is None:
        return [talk.reply("soil.nothing_yet", yard=yard.name)]
    today = talk.today(yard)
    lines = [
        talk.say("reasons.head", yard=yard.name),
        soil_now.now_line(talk, yard, report),
        soil_now.own_line(talk, yard, report),
        *soil_now.doubt_lines(talk, report),
        *_rule(talk, yard, report),
        soil_now.band_line(talk, report, today),
        talk.say("reasons.band_source"),
        soil_now.past_line(talk, report),
        soil_now.regional_line(report),
        soil_now.air_line(talk, yard, report),
        *_barrier(talk, yard),
        _source(talk, yard, report),
        *soil_now.trouble_lines_of(talk, yard),
        talk.say("reasons.law"),
    ]
    buttons = rows(
        [
            (talk.say("yards.button_soil"), f"soil:{yard.id}"),
            (talk.say("soil.button_weeds"), f"weeds:{yard.id}"),
        ]
    )
    return [Reply("\n".join(line for line in lines if line), buttons)]


def tapped(talk: Talk, yard: YardRecord, _action: str) -> list[Reply]:
    """Answer [Why]."""
    return on_ask_why(talk, yard, ActHeard("ask_why"))


def _rule(talk: Talk, yard: YardRecord, report: SoilReport) -> list[str]:
    """Return how the first crabgrass is reckoned, when it is expected, and the days kept to it."""
    today, judged = talk.today(yard), report.judged
    weed = weeds()[LEADING_WEED]
    base = Temperature(weed.base_c or 0.0)
    warmth = weed.stages[0].at if talk.is_metric else f_from_c_step(weed.stages[0].at)
    lines = [talk.say("reasons.rule", base=base, sum=f"{warmth:.0f}")]
    first, up, last = judged.p10, judged.p50, judged.p90
    if up is not None and up <= today:
        lines.append(talk.say("reasons.was_up", up=Day(up, today)))
    elif up is not None and first is not None and last is not None:
        days = {"first": Day(first, today), "last": Day(last, today)}
        lines.append(talk.say("soil.first_up", up=Day(up, today), **days))
    plan = plan_of(talk.standing(yard), Target.SUMMER_ANNUALS)
    lines.append(
        talk.say("reasons.lead", lead=plan.lead_days, before=IN_PLACE_BEFORE_DAYS)
        + (talk.say("reasons.lead_set") if yard.is_lead_set else "")
    )
    return lines


def _barrier(talk: Talk, yard: YardRecord) -> list[str]:
    """Return how long what is down holds, and what that is reckoned from."""
    if not talk.standing(yard).done:
        return []
    found = rounds_said.barrier_lines(talk, yard, rounds_said.sight_of(talk, yard))
    return [*found, talk.say("reasons.barrier")] if found else []


def _source(talk: Talk, yard: YardRecord, report: SoilReport) -> str:
    """Return where the figures come from, and how old they are."""
    fresh = soil_now.freshness(talk, report.judged, talk.today(yard), report.place)
    credit = talk.around.credit
    return fresh if credit is None else f"{fresh} {credit}"


HANDLERS: Final = {"ask_why": on_ask_why}
