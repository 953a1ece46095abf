"""When somebody may be written to: quiet hours and the hour asked for, on the yard's own clock.

Times of day are wall-clock wishes; instants are UTC. Where a clock change leaves a wall time out,
the next one counts; where it comes twice, either does.
"""

from __future__ import annotations

from datetime import UTC, datetime, time, timedelta
from typing import Final

from jobs.local_days import begins, local, zone
from storage.wishes import ChatWishes

_DAY_MIN: Final = 24 * 60
#: An hour asked for may lie so long before the end of the quiet hours [min].
MOST_EARLY_MIN: Final = 4 * 60


def is_quiet(at: datetime, timezone: str, wishes: ChatWishes) -> bool:
    """Tell whether nobody is to be written to at an instant."""
    here = local(at, timezone)
    minute = here.hour * 60 + here.minute
    opens = opens_at(wishes)
    if wishes.quiet_from == wishes.quiet_until:
        return minute < opens if wishes.wake_at is not None else False
    return not _within(minute, opens, wishes.quiet_from)


def first_awake(at: datetime, timezone: str, wishes: ChatWishes) -> datetime:
    """Return ``at``, or the next instant at which writing is welcome (UTC)."""
    if not is_quiet(at, timezone, wishes):
        return at
    opens = opens_at(wishes)
    here = local(at, timezone)
    for days in range(3):
        day = here.date() + timedelta(days=days)
        for fold in (0, 1):
            wall = datetime.combine(
                day, time(opens // 60 % 24, opens % 60, fold=fold), tzinfo=zone(timezone)
            )
            instant = wall.astimezone(UTC)
            if instant > at and not is_quiet(instant, timezone, wishes):
                return instant
    return at + timedelta(hours=1)


def day_begins(at: datetime, timezone: str) -> datetime:
    """Return when the local day of an instant began (UTC)."""
    return begins(local(at, timezone).date(), timezone)


def next_day(at: datetime, timezone: str, wishes: ChatWishes) -> datetime:
    """Return the first welcome instant of the local day after the one of ``at`` (UTC)."""
    tomorrow = local(at, timezone).date() + timedelta(days=1)
    return first_awake(begins(tomorrow, timezone), timezone, wishes)


def opens_at(wishes: ChatWishes) -> int:
    """Return the minute of the day from which writing is welcome.

    The hour asked for, unless it lies deep in the quiet hours, which then win.
    """
    wake_at = wishes.wake_at
    if wake_at is None:
        return wishes.quiet_until
    is_in_quiet = _within(wake_at, wishes.quiet_from, wishes.quiet_until)
    early_by = (wishes.quiet_until - wake_at) % _DAY_MIN
    return wishes.quiet_until if is_in_quiet and early_by > MOST_EARLY_MIN else wake_at


def _within(minute: int, first: int, last: int) -> bool:
    """Tell whether a minute of the day lies in a span that may run over midnight."""
    return (minute - first) % _DAY_MIN < (last - first) % _DAY_MIN
