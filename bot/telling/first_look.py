"""What the first look at a new yard's soil shows: one line, as soon as somebody has a yard."""

from __future__ import annotations

from datetime import datetime

from bot.dialogue.talk import Surroundings
from bot.saying.catalogue import say
from bot.saying.values import Temperature
from bot.telling import soil_lines
from jobs.local_days import local
from jobs.uses import soil_report as uses
from storage import yards
from storage.database import Work


def line_of(work: Work, yard_id: int, around: Surroundings, now: datetime) -> str:
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
