"""When to put it down, whether it is too late, and how long it holds: the answer first."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Final

from bot.dialogue.talk import Talk
from bot.hearing.forms.plan_forms import AllowedAsked
from bot.hearing.heard import ActHeard
from bot.letters.letter_facts import turn_lines
from bot.saying.values import Day, Names
from bot.telling import rounds_said, soil_lines, water_due
from bot.telling.application_days import fit_lines, next_half_of, report_of
from bot.telling.applied_said import newest_rate
from bot.turn import Buttons, Reply
from jobs.agronomy.season import State, Target
from jobs.agronomy.whats_next import Stage
from jobs.local_days import season_day
from jobs.rounds import planned_for
from jobs.season_facts import plan_of
from jobs.uses import weeds_seen
from jobs.uses.soil_report import SoilReport
from storage.yards import YardRecord

#: From this northern month on weeds are grown, and only little helps against them (common
#: practice, no source).
_GROWN_FROM_MONTH: Final = 8

#: A late one is worth it while seed sprouts for so long yet (our inference).
_WORTH_IT: Final = timedelta(days=28)


def on_ask_when(talk: Talk, yard: YardRecord, heard: ActHeard) -> list[Reply]:
    """Say when to put it down, until when, and how likely weeds come first; of a day if it fits."""
    report = report_of(talk, yard)
    if report is None:
        return [talk.reply("soil.nothing_yet", yard=yard.name)]
    lines = [*_that_day(talk, yard, heard, report), _when(talk, yard, report)]
    lines += [*_rough(talk, report), *turn_lines(report.judged)]
    lines += rounds_said.part_down(talk, yard)
    if talk.state(yard) in (State.WINDOW_OPEN, State.APPLIED, State.RETREAT_DUE):
        lines += water_due.water_lines(talk, yard)
    lines += rounds_said.beside_lines(talk, yard)
    lines += soil_lines.doubts_of_data(talk, report.judged, talk.today(yard))
    return [_reply(talk, yard, lines)]


def on_ask_late(talk: Talk, yard: YardRecord, _heard: ActHeard) -> list[Reply]:
    """Say plainly whether it is too late, what a late one still does, and what else helps."""
    report = report_of(talk, yard)
    if report is None:
        return [talk.reply("soil.nothing_yet", yard=yard.name)]
    if (state := talk.state(yard)) in (State.APPLIED, State.RETREAT_DUE):
        is_due = state is State.RETREAT_DUE
        down = talk.say("timing.late_no_down", last=_last(talk, yard))
        lines = [_second(talk, yard) if is_due else down]
        lines += rounds_said.barrier_lines(talk, yard, rounds_said.sight_of(talk, yard))
        return [_reply(talk, yard, [*lines, *_on_seedlings(talk, yard)])]
    return [_reply(talk, yard, [*_late(talk, yard, report), *_rough(talk, report)])]


def on_ask_barrier(talk: Talk, yard: YardRecord, heard: ActHeard) -> list[Reply]:
    """Say how long it holds on each zone, when the second application is due, what is allowed."""
    if isinstance(heard.slots.read, AllowedAsked):
        return rounds_said.allowed(talk, yard, newest_rate(talk, yard))
    done = talk.standing(yard).done
    if not done:
        key = "timing.barrier_none_yet" if yard.product_id is None else "timing.barrier_not_down"
        plan = plan_of(talk.standing(yard), Target.SUMMER_ANNUALS)
        return [talk.reply(key, yard=yard.name, count=plan.rounds, split=plan.split_days)]
    if done[-1].year < season_day(talk.today(yard), yard.lat).year:
        return [talk.reply("timing.barrier_spent", yard=yard.name, last=_last(talk, yard))]
    sight = rounds_said.sight_of(talk, yard)
    lines = rounds_said.barrier_lines(talk, yard, sight, names_all=False)
    upcoming = rounds_said.next_of(talk, yard)
    is_next = lines and upcoming.stage is Stage.DOWN and upcoming.opens_on is not None
    second = soil_lines.next_line(upcoming, talk.today(yard)) if is_next else _second(talk, yard)
    lines.insert(0, second)
    lines += [*water_due.water_lines(talk, yard), *_of_fall(talk, yard)]
    return [_reply(talk, yard, lines)]


def _of_fall(talk: Talk, yard: YardRecord) -> list[str]:
    """Return what an application late in summer is for, where none is planned and it is time."""
    month = season_day(talk.today(yard), yard.lat).month
    is_time = month >= _GROWN_FROM_MONTH and not yard.has_late_summer_round
    return [talk.say("timing.fall")] if is_time else []


# --- when -----------------------------------------------------------------------------------------


def _when(talk: Talk, yard: YardRecord, report: SoilReport) -> str:
    if report.late_summer is not None:
        return soil_lines.coming_line(report, talk.today(yard))
    match talk.state(yard):
        case State.APPLIED | State.RETREAT_DUE:
            return _second(talk, yard)
        case State.WINDOW_OPEN if not rounds_said.is_round_left_now(talk, yard):
            return talk.say("timing.capped", yard=yard.name)
        case _ as state:
            return _first(talk, yard, report, is_open=state is State.WINDOW_OPEN)


def _that_day(talk: Talk, yard: YardRecord, heard: ActHeard, report: SoilReport) -> list[str]:
    """Say whether a day that was named is in time: "can it wait a week"; not where it is early."""
    slots, opens = heard.slots, report.window_opens
    if slots.on is None and not slots.days:
        return []
    day = talk.today(yard) + timedelta(days=slots.days or 0)
    day = day if slots.on is None else slots.on.at.date()
    return [] if opens is not None and day < opens else fit_lines(talk, yard, day)


def _first(talk: Talk, yard: YardRecord, report: SoilReport, *, is_open: bool) -> str:
    """Say when the first application goes down, as long as nothing is down."""
    today = talk.today(yard)
    up, opens, closes = report.judged.p50, report.window_opens, report.window_closes
    if up is None or opens is None or closes is None or not _is_this_year(yard, up, today):
        return talk.say("timing.far", yard=yard.name)
    days = {
        "yard": yard.name,
        "up": Day(up, today),
        "opens": Day(opens, today),
        "closes": Day(closes, today),
        "one_in": report.judged.one_in,
    }
    if up <= today:
        return talk.say("timing.passed", **days)
    if closes < today:
        return talk.say("timing.at_once", **days)
    if is_open:
        return talk.say("timing.now", **days)
    return talk.say("timing.not_yet" if opens > today else "timing.any_day", **days)


def _second(talk: Talk, yard: YardRecord) -> str:
    """Say that it is down, and when the second application is due."""
    state, today = talk.state(yard), talk.today(yard)
    if state is State.RETREAT_DUE:
        ends = _sprouting_ends(talk, yard, today)
        if ends is not None and ends < today:
            return talk.say("timing.second_hardly", yard=yard.name, ends=Day(ends, today))
        half = next_half_of(talk, yard)
        zones = half.zones if half is not None else ()
        key = "timing.second_now_of" if zones else "timing.second_now"
        return talk.say(key, yard=yard.name, zones=Names(zones))
    if state is not State.APPLIED and (part := rounds_said.part_down(talk, yard)):
        return part[0]
    last, half = _last(talk, yard), next_half_of(talk, yard)
    if half is None:
        _, planned = planned_for(talk.standing(yard), today)
        key = "down_over" if planned > season_day(today, yard.lat).year else "down_last"
        return talk.say(f"timing.{key}", last=last, yard=yard.name)
    if not half.is_allowed:
        return talk.say("timing.down_capped", last=last, yard=yard.name)
    on = Day(half.on, today)
    if half.zones:
        return talk.say("soil.next_half_of", opens=on, zones=Names(half.zones))
    return talk.say("timing.down_second", last=last, on=on, yard=yard.name)


# --- late -----------------------------------------------------------------------------------------


def _late(talk: Talk, yard: YardRecord, report: SoilReport) -> list[str]:
    today = talk.today(yard)
    up, opens, closes = report.judged.p50, report.window_opens, report.window_closes
    if up is None or closes is None or not _is_this_year(yard, up, today):
        is_autumn = season_day(today, yard.lat).month >= _GROWN_FROM_MONTH
        key = "timing.late_over" if is_autumn else "timing.late_unknown"
        grown = [_grown(talk), *_of_fall(talk, yard)] if is_autumn else []
        return [talk.say(key, yard=yard.name), *grown]
    days = {"up": Day(up, today), "closes": Day(closes, today), "one_in": report.judged.one_in}
    if opens is not None and today < opens:
        return [talk.say("timing.late_no_early", **days, opens=Day(opens, today))]
    if today <= closes:
        return [talk.say("timing.late_no", **days)]
    if today < up:
        return [talk.say("timing.late_nearly", **days), talk.say("timing.late_does")]
    ends = _sprouting_ends(talk, yard, today)
    if season_day(today, yard.lat).month >= _GROWN_FROM_MONTH or (ends and today > ends):
        return [talk.say("timing.late_over_since", **days), _grown(talk), *_of_fall(talk, yard)]
    until = Day(ends, today) if ends else talk.say("timing.summer")
    is_worth_it = ends is None or ends - today >= _WORTH_IT
    return [
        talk.say("timing.late_up", **days),
        talk.say("timing.late_part" if is_worth_it else "timing.late_little", ends=until),
        talk.say("timing.late_helps", names=Names(weeds_seen.helps_on_seedlings())),
        talk.say("timing.late_next"),
    ]


def _on_seedlings(talk: Talk, yard: YardRecord) -> list[str]:
    """Return what helps where weeds were seen since the newest application."""
    standing = talk.standing(yard)
    seen = [each for each in standing.sightings if each.is_seen]
    if not any(each.seen_on >= standing.done[-1].applied_on for each in seen):
        return []
    return [talk.say("timing.late_helps", names=Names(weeds_seen.helps_on_seedlings()))]


def _grown(talk: Talk) -> str:
    return talk.say("timing.late_grown")


def _sprouting_ends(talk: Talk, yard: YardRecord, today: date) -> date | None:
    sight = rounds_said.sight_of(talk, yard)
    if sight is None or yard.lat < 0:
        return None
    year = season_day(today, yard.lat).year
    return sight.course.sprouting_ends(Target.SUMMER_ANNUALS, year)


# --- inside ---------------------------------------------------------------------------------------


def _is_this_year(yard: YardRecord, up: date, today: date) -> bool:
    return season_day(up, yard.lat).year == season_day(today, yard.lat).year


def _last(talk: Talk, yard: YardRecord) -> Day | str:
    done = talk.standing(yard).done
    return Day(done[-1].applied_on, talk.today(yard)) if done else ""


def _rough(talk: Talk, report: SoilReport) -> list[str]:
    """Return a warning where the place has no clear spring."""
    if report.spring.kind != "none":
        return []
    why = talk.say(f"soil.no_spring_{report.spring.why_none}")
    lines = [talk.say("soil.no_clear_spring", why=why), soil_lines.regional_line(report)]
    return [line for line in lines if line]


def _reply(talk: Talk, yard: YardRecord, lines: list[str]) -> Reply:
    return Reply("\n".join(line for line in lines if line), _buttons(talk, yard))


def _buttons(talk: Talk, yard: YardRecord) -> Buttons:
    return talk.row(
        ("timing.button_why", f"why:{yard.id}"),
        ("yards.button_soil", f"soil:{yard.id}"),
        ("yards.button_amounts", f"amounts:{yard.id}"),
    )


HANDLERS: Final = {"ask_when": on_ask_when, "ask_late": on_ask_late, "ask_barrier": on_ask_barrier}
