"""The year's plan: how many applications, how far apart, how early the first one is called."""

from __future__ import annotations

from typing import Final

from bot.dialogue.talk import Talk
from bot.hearing.forms.plan_forms import PlanSaid
from bot.hearing.forms.yard_forms import LeadSaid, TimezoneSaid
from bot.hearing.heard import ActHeard
from bot.talk import registering, rounds_said
from bot.turn import Reply
from jobs.uses.yard_settings import SPLITS_DAYS
from storage.yards import YardRecord


def on_set_timing(talk: Talk, yard: YardRecord, heard: ActHeard) -> list[Reply]:
    """Take a lead, a time zone or a choice of the plan; show the plan where none was said."""
    said, slots = heard.slots.read, heard.slots
    if isinstance(said, TimezoneSaid):
        return registering.set_timezone(talk, yard, said.zone)
    if isinstance(said, LeadSaid):
        return registering.set_lead(talk, yard, said.days)
    if isinstance(said, PlanSaid):
        return _plan(talk, yard, said)
    if slots.days is not None:
        return registering.set_lead(talk, yard, slots.days)
    if slots.number in (1, 2):
        return rounds_said.choose(talk, yard, {"rounds": int(slots.number)})
    return rounds_said.show(talk, yard)


def _plan(talk: Talk, yard: YardRecord, said: PlanSaid) -> list[Reply]:
    if said.is_asked:
        return rounds_said.show(talk, yard)
    if said.as_last_year:
        return rounds_said.copy(talk, yard)
    values = said.values()
    split = values.get("split_days")
    if split is not None and split not in SPLITS_DAYS:
        low, high = SPLITS_DAYS.start, SPLITS_DAYS.stop - 1
        return [talk.reply("rounds.split_range", low=low, high=high)]
    return rounds_said.choose(talk, yard, values)


HANDLERS: Final = {"set_timing": on_set_timing}
