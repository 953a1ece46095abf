"""Which of several yards a report is of: the one that is plainly talked about, else it is asked."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import timedelta
from typing import Final

from bot.dialogue import topics
from bot.dialogue.talk import Talk
from bot.dialogue.typed_buttons import newest_yards
from bot.hearing.acts import ACTS
from bot.hearing.heard import ActHeard, Heard
from bot.hearing.held_back import REPORTS
from bot.hearing.words import bare
from bot.saying import shown_names
from bot.talk import every_yard
from bot.turn import Reply, rows
from storage.yards import YardRecord

#: What may be so of every yard at once.
_OF_ALL: Final = frozenset({"report_applied", "report_watered", "report_rain"})
#: After so long nobody goes on talking of the same yard without naming it.
_LATELY: Final = timedelta(hours=24)
#: Yards that are offered as buttons; of more the name is asked.
_MOST: Final = 8


def of(talk: Talk, heard: Heard, text: str, act: str = "") -> YardRecord | list[Reply] | None:
    """Return the yard a report is of where that is plain, else the question; None for no report.

    `act` is what the text was said to be, where that was asked.
    """
    reports = [each for each in heard.acts if _is_report(each)]
    mine = [yard for yard in talk.yards() if talk.may(yard, "confirm")]
    if not reports or len(mine) < 2 or any(each.slots.yard is not None for each in heard.acts):
        return None
    fitting = _with_zones(talk, mine, reports)
    newest = newest_yards(talk, fitting, _LATELY)
    plain = fitting if len(fitting) == 1 else newest
    if all(each.act == "report_watered" and each.slots.all_zones for each in reports) and (
        len(plain) != 1 or every_yard.are_many_waiting(talk, mine)
    ):
        # "Watered everything" on a round: whatever waits for water got it.
        return every_yard.at_all(talk, reports[0])
    if len(plain) == 1:
        return plain[0]
    is_of_all = {each.act for each in reports} <= _OF_ALL and len(fitting) == len(mine) <= _MOST
    return ask(talk, fitting, text, act, is_of_all=is_of_all)


def ask(
    talk: Talk, between: Sequence[YardRecord], text: str, act: str, *, is_of_all: bool = False
) -> list[Reply]:
    """Ask of which yard something was said; `act` is what it is, where that is known."""
    at = talk.yard()
    first = sorted(between, key=lambda yard: at is not None and yard.id != at.id)
    talk.expect(topics.WHICH_YARD, said=text, act=act)
    lines = [[(shown_names.short(each.name), f"hear:at:{each.id}")] for each in first[:_MOST]]
    if is_of_all:
        lines.append([(talk.say("hearing.at_all", count=len(between)), "hear:at:0")])
    key = "hearing.which_yard" if act == "" or ACTS[act].changes else "yards.which_of"
    return [talk.reply(key, rows(*lines))]


def _is_report(heard: ActHeard) -> bool:
    """Tell whether an act is a report in one's own words; a record named by its number is none."""
    is_by_number = heard.act == "change_record" and heard.slots.read is not None
    return heard.act in REPORTS and heard.why != "pending" and not is_by_number


def _with_zones(talk: Talk, mine: list[YardRecord], reports: list[ActHeard]) -> list[YardRecord]:
    """Return the yards that have every zone a report names; all of them where none has."""
    named = {
        bare(name)
        for each in reports
        if not each.slots.all_zones
        for name in (*each.slots.zones, *each.slots.strangers)
    }
    having = [
        yard for yard in mine if named <= {bare(zone.name) for zone in talk.standing(yard).zones}
    ]
    return having or list(mine)
