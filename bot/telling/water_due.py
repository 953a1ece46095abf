"""What lies down and still waits for its water."""

from __future__ import annotations

from datetime import date

from bot.dialogue.talk import Talk
from bot.letters import watering_words
from bot.letters.watering_words import run_words, washout_words
from bot.saying.catalogue import say
from bot.saying.values import Day, Depth
from jobs import packed_cells
from jobs.digests import of_watering
from jobs.sources.base import Cell
from jobs.standing import standing_of
from jobs.uses import water_reports
from jobs.uses import water_so_far as uses
from jobs.watering_in import waiting_for_water, water_on
from jobs.weather_of_day import water_terms
from storage.database import Work
from storage.yards import YardRecord


def water_lines(talk: Talk, yard: YardRecord) -> list[str]:
    """Return what what is down still lacks of its water, and by when; nothing where it has it."""
    return water_lines_of(talk.work, yard, talk.around.source, talk.today(yard))


def water_lines_of(work: Work, yard: YardRecord, source: str, today: date) -> list[str]:
    """Return the same where nobody is talking."""
    waiting = waiting_for_water(standing_of(work, yard), today)
    if not waiting:
        return []
    held = packed_cells.held(work, source, Cell.at(yard.lat, yard.lon))
    had_mm = water_on(work, yard, None if held is None else held.known, waiting[0])
    wanted_mm = water_terms(work, yard).depth_mm
    by = water_reports.water_in_by(work, yard, waiting[0].applied_on)
    return [
        say(
            "yards.detail_water" if by >= today else "yards.detail_water_over",
            missing=Depth(max(0.0, wanted_mm - had_mm) / 1000),
            by=Day(by, today),
        )
    ]


def how_to_water(talk: Talk, yard: YardRecord) -> list[str]:
    """Return how the water that is lacking comes there: minutes, rain in the forecast, a storm."""
    done = waiting_for_water(talk.standing(yard), talk.today(yard))[0]
    facts = {
        "application_id": done.id,
        "wanted_mm": water_terms(talk.work, yard).depth_mm,
        "by": water_reports.water_in_by(talk.work, yard, done.applied_on).isoformat(),
    }
    facts |= of_watering(talk.work, yard, facts, talk.now, talk.around.source)
    lines = watering_words.water_lines(facts, yard.timezone, talk.today(yard))
    is_told = "run" in facts or yard.is_water_banned
    return lines if is_told else [*lines, talk.say("watering.run_unknown")]


def after_application(talk: Talk, yard: YardRecord, application_id: int) -> list[str]:
    """Return what a fresh application's record adds: a washout ahead, a ban, minutes."""
    found = uses.outlook_of(talk.work, yard, talk.around.source, application_id, talk.now)
    today = talk.today(yard)
    lines = []
    if found.storm is not None:
        begins = found.storm.from_.isoformat()
        lines.append(washout_words(found.storm.rain_mm, begins, yard.timezone, today))
    if found.is_banned:
        lines.append(talk.say("watering.banned"))
    elif found.run is not None:
        lines.append(run_words(found.run))
    return lines


def missing_words(talk: Talk, yard: YardRecord, missing_mm: float) -> str:
    """Return how many minutes a missing depth is, where the sprinkler is known."""
    if yard.is_water_banned:
        return talk.say("watering.banned")
    run = uses.run_for(talk.work, yard, missing_mm)
    return "" if run is None else run_words(run)
