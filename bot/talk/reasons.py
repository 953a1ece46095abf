"""Why: the figures and their sources behind the newest advice, in words."""

from __future__ import annotations

from datetime import date
from typing import Final

from bot.dialogue.talk import Talk
from bot.hearing.heard import ActHeard
from bot.saying.values import Day, Depth, Temperature
from bot.telling import amounts_said, rounds_said, soil_lines
from bot.telling.application_days import report_of
from bot.turn import Reply
from jobs.agronomy.emergence import LEADING_WEED, weeds
from jobs.agronomy.units import f_from_c_step
from jobs.agronomy.whats_next import Stage
from jobs.uses.soil_report import SoilReport
from jobs.weather_of_day import water_terms
from storage.shown import newest_shown
from storage.yards import YardRecord


def on_ask_why(talk: Talk, yard: YardRecord, heard: ActHeard) -> list[Reply]:
    """Say what the newest advice stands on; where it was none, what the dates stand on."""
    of = _SUBJECTS.get(_answered_last(talk))
    if of == "amounts":
        return amounts_said.why(talk, yard, "")
    if of is not None:
        terms = water_terms(talk.work, yard)
        depth = Depth(terms.depth_mm / 1000)
        return [talk.reply(f"reasons.of_{of}", depth=depth, days=terms.within_days)]
    # "Are you sure" is told in short, with the whole of it a tap away.
    return _of_dates(talk, yard, is_short=heard.why == "pending")


#: What each answer stands on, where that is not the soil and its dates.
_SUBJECTS: Final = {
    "ask_water": "water",
    "report_watered": "water",
    "ask_washed_out": "rain",
    "ask_day": "day",
    "ask_seed": "seed",
    "plan_seed": "seed",
    "ask_other_work": "work",
    "ask_keep_off": "keep_off",
    "ask_buy": "amounts",
    "ask_spreader": "amounts",
}


def _answered_last(talk: Talk) -> str:
    """Return the act that the newest answer was to; nothing where something was tapped or told."""
    turns, told = newest_shown(talk.work, talk.chat.id, 1)
    if not turns or any(at > turns[0].at for _, at in told):
        return ""
    heard = [act["act"] for reply in turns[0].replies for act in reply.get("understood") or ()]
    return str(heard[0]) if len(heard) == 1 else ""


def _of_dates(talk: Talk, yard: YardRecord, *, is_short: bool = False) -> list[Reply]:
    report = report_of(talk, yard)
    if report is None:
        return [talk.reply("soil.nothing_yet", yard=yard.name)]
    now = [soil_lines.now_line(talk, yard, report), soil_lines.own_line(talk, yard, report)]
    first_up, barrier = _first_up(talk, yard, report), _barrier(talk, yard)
    paragraphs = [
        [talk.say("reasons.head", yard=yard.name)],
        now,
        soil_lines.doubt_lines(talk, report),
        [talk.say("reasons.rule", **_warmth(talk))],
        first_up,
        [rounds_said.lead_line(talk, yard)],
        barrier or _compared(talk, yard, report),
        [_source(talk, yard, report), *soil_lines.trouble_lines_of(talk, yard)],
        [talk.say("reasons.law")],
    ]
    if is_short and (first_up or barrier):
        paragraphs = [barrier or first_up[:1], *([] if barrier else [now])]
    lines = [" ".join(filter(None, sentences)) for sentences in paragraphs]
    buttons = talk.row(
        *([("timing.button_why", f"why:{yard.id}")] if is_short else []),
        ("yards.button_soil", f"soil:{yard.id}"),
        ("soil.button_weeds", f"weeds:{yard.id}"),
    )
    return [Reply("\n".join(line for line in lines if line), buttons)]


def tapped(talk: Talk, yard: YardRecord, _action: str) -> list[Reply]:
    """Answer [Why]: tapped it is of its own message, typed of the newest answer."""
    if talk.turn.tap is None:
        return on_ask_why(talk, yard, ActHeard("ask_why"))
    return _of_dates(talk, yard)


def _warmth(talk: Talk) -> dict[str, object]:
    """Return over what warmth is added up, and the sum at which the first crabgrass is up."""
    weed = weeds()[LEADING_WEED]
    warmth = weed.stages[0].at if talk.is_metric else f_from_c_step(weed.stages[0].at)
    return {"base": Temperature(weed.base_c or 0.0), "sum": f"{warmth:.0f}"}


def _first_up(talk: Talk, yard: YardRecord, report: SoilReport) -> list[str]:
    """Return when the first crabgrass is expected, and between what days the window may open."""
    today, judged = talk.today(yard), report.judged
    first, up, last = judged.p10, judged.p50, judged.p90
    if up is not None and up <= today:
        return [talk.say("reasons.was_up", up=Day(up, today))]
    if up is None or first is None or last is None:
        return []
    days = {"first": Day(first, today), "last": Day(last, today)}
    return [
        talk.say("soil.first_up", up=Day(up, today), **days),
        *_range(talk, report, today),
        soil_lines.air_line(talk, yard, report),
    ]


def _compared(talk: Talk, yard: YardRecord, report: SoilReport) -> list[str]:
    """Return what else speaks of dates while an application is to come: rules, past years."""
    return [
        soil_lines.band_line(talk, report, talk.today(yard)),
        talk.say("reasons.band_source"),
        soil_lines.past_line(talk, report),
        soil_lines.regional_line(report),
    ]


def _range(talk: Talk, report: SoilReport, today: date) -> list[str]:
    """Return between what days the window may open, while it is to come."""
    early, late = report.opens_early, report.opens_late
    if report.upcoming.stage is not Stage.AHEAD or early is None or late is None or late <= today:
        return []
    begins = Day(max(early, today), today)
    return [talk.say("reasons.range", early=begins, late=Day(late, today))]


def _barrier(talk: Talk, yard: YardRecord) -> list[str]:
    """Return how long what is down holds, and what that is reckoned from."""
    if not talk.standing(yard).done:
        return []
    found = rounds_said.barrier_lines(talk, yard, rounds_said.sight_of(talk, yard))
    return [*found, talk.say("reasons.barrier")] if found else []


def _source(talk: Talk, yard: YardRecord, report: SoilReport) -> str:
    """Return where the figures come from, and how old they are."""
    fresh = soil_lines.freshness(talk, report.judged, talk.today(yard), report.place)
    credit = talk.around.credit
    return fresh if credit is None else f"{fresh} {credit}"


HANDLERS: Final = {"ask_why": on_ask_why}
