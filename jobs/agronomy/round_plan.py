"""A round of work over many yards: which first, and when it has to begin for its last yard."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil
from typing import Final

#: Of a week's seven days two are lost to rain and wind: with six yards a day thirty yards then take
#: a week (common practice, no source). A setting.
WORKING_SHARE: Final = 5 / 7

#: Yards whose last days lie this close together are equally pressing [days]; the chance of a good
#: day, then how long the product lasts, decide between them. A setting.
_ALIKE_DAYS: Final = 3
_NO_HURRY_DAYS: Final = 9_999


@dataclass(frozen=True, slots=True)
class Stop:
    """One yard of a round.

    Attributes
    ----------
    key
        Whatever names it to the caller.
    is_due
        Whether it may be done today: its window is open, or its second half is due.
    days_left
        Days to the last day that is early enough (0: today); None where nothing presses.
    good_days
        Days of the next seven that suit it; None where they are not known.
    lasts_days
        Half-life of its product [days]; None where it is not known.
    """

    key: int
    is_due: bool
    days_left: int | None
    good_days: int | None = None
    lasts_days: float | None = None


def in_order(stops: Sequence[Stop]) -> list[Stop]:
    """Return stops in the order of work.

    What is due goes first, by days left, then by how few good days are ahead, then the longer
    lasting product: put down early it loses least. What is not due yet follows, longer lasting
    products first, for those who must begin before every window is open.
    """
    return sorted(stops, key=_urgency)


def days_needed(yards: int, yards_a_day: int, working_share: float = WORKING_SHARE) -> int:
    """Return how many calendar days a number of yards takes, days lost to weather included."""
    return ceil(ceil(yards / yards_a_day) / working_share - 1e-9)


def begins_in(
    stops: Sequence[Stop], yards_a_day: int, working_share: float = WORKING_SHARE
) -> int | None:
    """Return in how many days a round has to begin so that its last yard is early enough.

    The yards are done in the order of their last days, which is the order that fails last (Jackson
    1955; earliest due date first, from memory). Negative: it should have begun; None: nothing
    presses.
    """
    pressing = sorted(stop.days_left for stop in stops if stop.days_left is not None)
    starts = [
        left - (days_needed(number, yards_a_day, working_share) - 1)
        for number, left in enumerate(pressing, 1)
    ]
    return min(starts, default=None)


def _urgency(stop: Stop) -> tuple[int, int, int, float, int, int]:
    left = _NO_HURRY_DAYS if stop.days_left is None else stop.days_left
    lasts = 0.0 if stop.lasts_days is None else stop.lasts_days
    good = 7 if stop.good_days is None else stop.good_days
    if not stop.is_due:
        return 1, 0, 0, -lasts, left, stop.key
    return 0, max(0, left) // _ALIKE_DAYS, good, -lasts, left, stop.key
