"""The outbox's policy: what becomes of an alert after a try.

=====================  =========================================================================
it arrived             sent
told to wait, refused  sent again after as long as asked, with growing pauses, as often as it takes
it surely never left   the same
it may have arrived    repeated exactly once, two minutes later, and the reader is told that they
                       may have it; only while it is still useful (below) and still true
so may the repeat      left at that, and listed for whoever runs the bot
nobody there           dead: the chat is silent until somebody speaks there again
refused as wrong,      tried again with growing pauses for a week (the mistake is ours and may be
or not to be worded    mended), then dead and listed
=====================  =========================================================================

So no alert is lost, and at most the one that says so is heard twice.
"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime, timedelta
from typing import Final

from jobs.agronomy.season import Kind
from jobs.messenger import ChatMoved, DeliveryTrouble, NobodyThere, TryLater
from storage.alerts import AlertRecord
from storage.outbox import Outcome

#: How long after the first try a repeat is worth it, by kind; for any other the last.
_REPEAT_WITHIN: Final[Mapping[str, timedelta]] = {
    Kind.WATER_IN: timedelta(days=1),
    Kind.WATERED_IN: timedelta(days=1),
    Kind.DATA_STALE: timedelta(days=1),
    Kind.ACT_NOW: timedelta(days=2),
    Kind.WINDOW_OPEN: timedelta(days=3),
    Kind.SECOND_HALF_DUE: timedelta(days=3),
    Kind.BARRIER_FADING: timedelta(days=3),
    Kind.SOIL_WARMING: timedelta(days=7),
    Kind.WINDOW_MISSED: timedelta(days=7),
    Kind.SEASON_OVER: timedelta(days=7),
}
_ANY_REPEAT_WITHIN: Final = timedelta(days=2)

_REPEAT_AFTER: Final = timedelta(minutes=2)
#: Pauses double from the first to the longest.
_FIRST_PAUSE: Final = timedelta(seconds=10)
_LONGEST_PAUSE: Final = timedelta(minutes=15)
#: A failure of our own is put off this long at first, so that it cannot block others.
PUT_OFF: Final = timedelta(minutes=15)
_LONGEST_PUT_OFF: Final = timedelta(hours=6)
_OUR_ERROR_FOR: Final = timedelta(days=7)
_MOST_DOUBLINGS: Final = 10


def outcome_of(alert: AlertRecord, trouble: BaseException | None, now: datetime) -> Outcome:
    """Return what becomes of an alert whose call ended in trouble, or in none."""
    match trouble:
        case None:
            return Outcome("sent")
        case TryLater():
            pause = max(trouble.after, _doubled(_FIRST_PAUSE, alert.tries, _LONGEST_PAUSE))
            return Outcome("later", now + pause, detail=str(trouble))
        case ChatMoved():
            return Outcome("later", now, detail="chat moved")
        case NobodyThere():
            return Outcome("dead", detail=str(trouble))
        case DeliveryTrouble():
            return doubt(alert, now, str(trouble))
    return our_error(alert, now)


def doubt(alert: AlertRecord, now: datetime, detail: str) -> Outcome:
    """Return what becomes of an alert of which nobody knows whether it arrived."""
    if alert.repeat_until is not None:
        return Outcome("uncertain", detail=detail)
    within = _REPEAT_WITHIN.get(alert.kind, _ANY_REPEAT_WITHIN)
    return Outcome("repeat", now + _REPEAT_AFTER, now + within, detail)


def our_error(alert: AlertRecord, now: datetime) -> Outcome:
    """Return what becomes of an alert that we could not put into words, or put wrongly."""
    if now - max(alert.created_at, alert.due_at) > _OUR_ERROR_FOR or alert.tries >= _MOST_TRIES:
        return Outcome("dead", detail="our error")
    pause = _doubled(PUT_OFF, alert.tries, _LONGEST_PUT_OFF)
    return Outcome("later", now + pause, detail="our error")


#: With pauses of up to six hours: about a week.
_MOST_TRIES: Final = 32


def _doubled(first: timedelta, times: int, longest: timedelta) -> timedelta:
    return min(longest, first * float(2 ** min(times, _MOST_DOUBLINGS)))
