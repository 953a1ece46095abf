"""The round a yard comes to next, for subjects that tell how to put it down or buy it."""

from __future__ import annotations

from datetime import date

from bot.talk import amounts_said
from bot.talk.talk import Talk
from bot.turn import Reply
from jobs.uses import how_much as uses
from jobs.uses.how_much import YardAmounts
from storage.yards import YardRecord


def amounts_of(talk: Talk, yard: YardRecord, on: date | None = None) -> YardAmounts | list[Reply]:
    """Return the next round's amounts (put down today, or on a day), or why there are none."""
    try:
        return uses.for_yard(talk.work, yard, on or talk.today(yard))
    except uses.NO_AMOUNTS:
        return amounts_said.show(talk, yard)
