"""What a target's programme comes to next, and until when: one rule for all that speak of it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date, timedelta
from enum import StrEnum
from typing import Final

from jobs.agronomy.season import State


class Stage(StrEnum):
    """Where a programme is, as people are told it."""

    #: No date in sight this season.
    FAR = "far"
    #: The window is to come.
    AHEAD = "ahead"
    #: To be put down now.
    OPEN = "open"
    #: Its day has passed; put down at once it still helps against what is to come up.
    LATE = "late"
    #: Weeds are up, nothing is down, and nothing is put down any more.
    MISSED = "missed"
    #: The window is open, but the label leaves nothing.
    CAPPED = "capped"
    #: What was to do is down; another half may fall due later.
    DOWN = "down"
    #: The next half is due.
    HALF_DUE = "half_due"


#: From the first to the last day of a window still to come, at the least [days]: a week with
#: all its weekdays. Where its spread is so wide that the deadline comes close to the lead, the word
#: comes sooner than the lead as well (`timing.days_to_go_by`).
_ROOM: Final = timedelta(days=6)

#: A window that closed does so within this time of its event; the next event is a year off.
_THIS_SEASON: Final = timedelta(days=120)

#: Where a first application is still to come, or due.
TO_DO = frozenset({Stage.AHEAD, Stage.OPEN, Stage.LATE})


@dataclass(frozen=True, slots=True)
class Next:
    """What comes next, in local days.

    Attributes
    ----------
    opens_on
        When the window opens, or the next half falls due; None where neither is to come.
    by
        The last day on which it is worth it: the deadline, or once that has passed, the day weeds
        come up.
    deadline_on
        The day by which it is early enough, past where it is late.
    event_on
        When weeds come up.
    one_in
        In one year of how many they come before what goes down on the deadline is in place.
    zones
        Names of the zones that the next half is still due on, where others have had it; else empty.
    """

    stage: Stage
    opens_on: date | None = None
    by: date | None = None
    deadline_on: date | None = None
    event_on: date | None = None
    one_in: int | None = None
    zones: tuple[str, ...] = ()


def window_opens(event_on: date, deadline_on: date | None, lead_days: int) -> date:
    """Return the day a window opens as far as can be seen: at the lead, with room for the work."""
    opens_on = event_on - timedelta(days=lead_days)
    return opens_on if deadline_on is None else min(opens_on, deadline_on - _ROOM)


def last_day(
    deadline_on: date | None, event_on: date, today: date, grace_days: int = 0
) -> tuple[date, bool]:
    """Return the last day on which a first application is worth it, and whether it is late.

    After the deadline it still helps against what is to come, up to the first seedlings, and with
    an ingredient that works on small ones its days of grace longer.
    """
    by = deadline_on or event_on
    if by >= today:
        return by, False
    return max(event_on + timedelta(days=grace_days), today), True


def whats_next(
    state: State,
    today: date,
    *,
    event_on: date | None,
    deadline_on: date | None,
    lead_days: int,
    one_in: int | None = None,
    grace_days: int = 0,
    is_missed: bool = False,
    is_round_left: bool = True,
    half_on: date | None = None,
) -> Next:
    """Return what a target comes to next on a day.

    Parameters
    ----------
    state
        Where its season stands.
    event_on, deadline_on
        This season's event (first emergence, or soil falling through 70 °F) and the day by which
        it is to be down; None while there is no date.
    one_in
        The chance that goes with the deadline (see `Next`).
    lead_days, grace_days
        Of the plan.
    is_missed
        Whether the window closed this season with nothing down.
    is_round_left
        Whether the label leaves another round.
    half_on
        When the next half falls due, where one is to come.
    """
    found = Next(Stage.FAR, deadline_on=deadline_on, event_on=event_on)
    if state is State.RETREAT_DUE:
        return replace(found, stage=Stage.HALF_DUE)
    if state is State.APPLIED:
        return replace(found, stage=Stage.DOWN, opens_on=half_on)
    if event_on is None:
        return Next(Stage.FAR)
    if state is State.WAITING:
        # What was missed this season says nothing of the next one's event.
        if event_on <= today or (is_missed and event_on <= today + _THIS_SEASON):
            return replace(found, stage=Stage.MISSED)
        by, _ = last_day(deadline_on, event_on, today)
        # Today it was looked at and is not open.
        opens_on = max(window_opens(event_on, by, lead_days), today + timedelta(days=1))
        by = max(opens_on, by)
        return replace(found, stage=Stage.AHEAD, opens_on=opens_on, by=by, one_in=one_in)
    if not is_round_left:
        return replace(found, stage=Stage.CAPPED)
    by, is_late = last_day(deadline_on, event_on, today, grace_days)
    stage = Stage.LATE if is_late else Stage.OPEN
    return replace(found, stage=stage, by=by, one_in=one_in)
