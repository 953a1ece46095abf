"""What is told of a yard unasked: the pinned message, and what the first look at it shows."""

from __future__ import annotations

from datetime import datetime

from bot.dialogue.talk import Surroundings
from bot.saying.catalogue import say
from bot.saying.values import Day, ShortDay, Temperature
from bot.telling import soil_lines, water_due
from jobs.local_days import local
from jobs.standing import standing_of
from jobs.uses import soil_report as uses
from storage import yards
from storage.database import Work


def card_of(work: Work, yard_id: int, around: Surroundings, now: datetime) -> str:
    """Return how a yard stands, in a few lines; nothing while there is nothing to say of it."""
    yard = yards.yard(work, yard_id)
    if yard is None:
        return ""
    standing = standing_of(work, yard)
    if not standing.zones:
        return ""
    report = uses.report(work, yard, around.source, around.outlooks, now)
    if report is None:
        return ""
    today = local(now, yard.timezone).date()
    lines = [
        say("pinned.head", yard=yard.name, day=ShortDay(today)),
        soil_lines.coming_line(report, today),
        *water_due.water_lines_of(work, yard, around.source, today),
    ]
    if standing.done:
        lines.append(say("yards.detail_applied", on=Day(standing.done[-1].applied_on, today)))
    if report.judged.soil_5day_c is not None:
        lines.append(say("pinned.soil", soil=Temperature(report.judged.soil_5day_c)))
    return "\n".join(lines)


def first_line_of(work: Work, yard_id: int, around: Surroundings, now: datetime) -> str:
    """Return the soil now and what is to come in one line; nothing where nothing is known yet."""
    yard = yards.yard(work, yard_id)
    if yard is None:
        return ""
    report = uses.report(work, yard, around.source, around.outlooks, now)
    if report is None or report.judged.soil_5day_c is None:
        return ""
    parts = [say("soil.first_look", soil=Temperature(report.judged.soil_5day_c))]
    if report.spring.kind == "none":
        parts.append(soil_lines.regional_line(report))
    if report.stands_in is not None:
        parts.append(say(f"soil.first_by_{report.stands_in}"))
    parts.append(soil_lines.coming_line(report, local(now, yard.timezone).date()))
    if report.spring.kind == "none":
        parts.append(say("letters.rough"))
    return " ".join(part for part in parts if part)
