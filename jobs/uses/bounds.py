"""How much there may be: names, zones a yard, yards a chat, new places a person and day.

Whoever can write to the bot can make it keep things; what everybody has to share is bounded, far
above what a person looking after lawns needs. Each is checked before anything is changed.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime, timedelta
from typing import Final

from jobs.sources.base import Cell
from jobs.standing import standing_of
from storage import journal, yards
from storage.database import Work
from storage.yards import YardRecord

#: Longest name of a yard or zone.
LONGEST_NAME: Final = 40
MOST_ZONES: Final = 60
MOST_YARDS: Final = 300
#: A new weather cell costs some hundred calls of the weather service; all live on one budget. So
#: many let a round of thirty yards be set up in one day, each at a place of its own, and put right.
PLACES_A_DAY: Final = 60
_A_DAY: Final = timedelta(days=1)


class OutOfBounds(ValueError):
    """Raised where there would be too much of something: which bound, and what it is."""

    def __init__(self, bound: str, most: int) -> None:
        super().__init__(f"{bound}: at most {most}")
        self.bound = bound
        self.most = most


class NotAllowed(ValueError):
    """Raised for a setting outside its range, which it carries."""

    def __init__(self, allowed: range) -> None:
        super().__init__(f"{allowed.start} to {allowed.stop - 1}")
        self.allowed = allowed


def check_name(name: str) -> None:
    """Refuse a name that is too long.

    Raises
    ------
    OutOfBounds
        If it is.
    """
    if len(name) > LONGEST_NAME:
        raise OutOfBounds("name", LONGEST_NAME)


def check_zones(
    work: Work, yard: YardRecord, new: Sequence[str], instead_of: Sequence[str] = ()
) -> None:
    """Refuse names that are too long, and more zones than a yard may have.

    Parameters
    ----------
    new
        Names to be kept; a zone of the same name is replaced.
    instead_of
        Names of zones that go.

    Raises
    ------
    OutOfBounds
        If there are too many, or a name is too long.
    """
    for name in new:
        check_name(name)
    names = {zone.name.casefold() for zone in standing_of(work, yard).zones}
    after = names - {name.casefold() for name in instead_of} | {name.casefold() for name in new}
    if len(after) > max(MOST_ZONES, len(names)):
        raise OutOfBounds("zones", MOST_ZONES)


def check_place(
    work: Work, chat_id: int, person_id: int, lat: float, lon: float, now: datetime
) -> None:
    """Refuse a new place to whoever has named many within a day.

    A place in the weather cell of another yard of the chat is none: it costs nothing.

    Raises
    ------
    OutOfBounds
        If it is one too many.
    """
    cell = Cell.at(lat, lon)
    if any(Cell.at(yard.lat, yard.lon) == cell for yard in yards.of_chat(work, chat_id)):
        return
    named = journal.count(work, ("yard.add", "yard.move"), person_id=person_id, since=now - _A_DAY)
    if named >= PLACES_A_DAY:
        raise OutOfBounds("places", PLACES_A_DAY)


def check_yards(work: Work, chat_id: int) -> None:
    """Refuse one yard more where a chat has many.

    Raises
    ------
    OutOfBounds
        If it is one too many.
    """
    if len(yards.of_chat(work, chat_id)) >= MOST_YARDS:
        raise OutOfBounds("yards", MOST_YARDS)
