"""Local days of a yard, quiet hours, and the half-year shift south of the equator."""

from __future__ import annotations

from datetime import UTC, date, datetime, time, timedelta
from functools import cache
from typing import Final
from zoneinfo import ZoneInfo

from babel.core import get_global

_UNITED_STATES: Final = frozenset({"US", "PR", "VI", "GU", "AS", "MP"})
_UNKNOWN_TERRITORY: Final = "ZZ"
#: South of the equator the season's rules are read half a year later, so that spring is spring.
HALF_A_YEAR_DAYS: Final = 182

#: When a yard is looked at: late enough for yesterday's mean, early enough for a working day.
LOOK_AT: Final = time(8)
#: Yesterday is known from 6 in standard time, 7 on a clock set forward [minutes after midnight].
DATA_KNOWN_MIN: Final = 7 * 60


@cache
def zone(timezone: str) -> ZoneInfo:
    """Return the time zone of this IANA name."""
    return ZoneInfo(timezone)


def local(now: datetime, timezone: str) -> datetime:
    """Return an instant as local time."""
    return now.astimezone(zone(timezone))


def is_abroad(timezone: str) -> bool:
    """Tell whether a time zone is known to lie outside the United States (Unicode CLDR)."""
    territory = get_global("zone_territories").get(timezone, _UNKNOWN_TERRITORY)
    return territory != _UNKNOWN_TERRITORY and territory not in _UNITED_STATES


def season_shift_days(lat: float) -> int:
    """Return how many days later than the calendar the season's dates are read."""
    return HALF_A_YEAR_DAYS if lat < 0 else 0


def season_day(day: date, lat: float) -> date:
    """Return the northern day that a local day stands for."""
    return day + timedelta(days=season_shift_days(lat))


def calendar_day(day: date, lat: float) -> date:
    """Return the local day that a northern day stands for: the inverse of `season_day`."""
    return day - timedelta(days=season_shift_days(lat))


def begins(day: date, timezone: str) -> datetime:
    """Return when a local day begins (UTC)."""
    return datetime.combine(day, time(), tzinfo=zone(timezone)).astimezone(UTC)


def next_look_at(now: datetime, timezone: str, look_at_min: int | None = None) -> datetime:
    """Return the next regular look (UTC): the coming `LOOK_AT` on the yard's wall clock.

    Parameters
    ----------
    now, timezone
        The instant, and the yard's zone.
    look_at_min
        Another time of day [minutes after midnight], for those who want to hear earlier.
    """
    here = local(now, timezone)
    at = LOOK_AT if look_at_min is None else time(look_at_min // 60 % 24, look_at_min % 60)
    look = datetime.combine(here.date(), at, tzinfo=here.tzinfo)
    if look <= here:
        look = datetime.combine(here.date() + timedelta(days=1), at, tzinfo=here.tzinfo)
    return look.astimezone(UTC)
