"""When to write, in short: ``quiet 9 pm to 7``, ``later 3 days``, ``not this year``."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import timedelta
from functools import partial
from typing import Final, Literal

from bot.hearing.forms.form import Form, hearing, saying, tidied
from bot.hearing.heard import Scene, Slots
from bot.hearing.phrases import Said, phrases
from bot.hearing.readers.measurements import read_duration, read_temperature_reading
from bot.hearing.readers.places import read_place
from bot.hearing.readers.reading import Unread
from bot.hearing.readers.targets import find_target
from bot.hearing.readers.times import half_of, read_time_of_day
from bot.hearing.readers.wish_words import read_quiet_hours
from jobs.agronomy.season import Target

_says: Final = partial(phrases, "manner")
#: Figures of a postal code, and a town with its state.
_PLACE: Final = re.compile(r"\d{5}|[^\W\d][\w .'-]+,?\s+[a-z]{2}(?:\s+\d{5})?", re.IGNORECASE)
_LONGEST_COUNT: Final = 3
_MUTED: Final[tuple[tuple[str, Target | None], ...]] = (
    ("mute", None),
    ("mute_summer", Target.SUMMER_ANNUALS),
    ("mute_winter", Target.WINTER_ANNUALS),
)


_NOON_MIN: Final = 12 * 60


@dataclass(frozen=True)
class QuietSaid:
    """Quiet hours [minutes after midnight]; equal ends mean none, None an end that stays."""

    quiet_from: int | None
    quiet_until: int | None


@dataclass(frozen=True)
class WakeSaid:
    """The time of day from which to write [minutes after midnight]; None for any."""

    at: int | None


@dataclass(frozen=True)
class CountSaid:
    """How many messages, or how many yards, a day."""

    of: Literal["daily_cap", "yards_a_day"]
    count: int


@dataclass(frozen=True)
class StartSaid:
    """Where the day's round starts: a place in words."""

    where: str


@dataclass(frozen=True)
class LaterSaid:
    """How long to wait: a span, a soil temperature, or just until it is warmer."""

    span: timedelta | None = None
    until_c: float | None = None
    is_until_warmer: bool = False


@dataclass(frozen=True)
class MuteSaid:
    """Which weeds to say no more of this year; `is_off` where that is taken back."""

    target: Target | None = None
    is_off: bool = False


def read_quiet(text: str, _scene: Scene) -> Slots | None:
    """Read when to write and how often; None for other texts."""
    said = tidied(text)
    hours = read_quiet_hours(said)
    if hours is not None:
        return Slots(read=QuietSaid(hours.quiet_from, hours.quiet_until))
    wake = _says("wake").whole(said)
    if wake is not None:
        if _says("any_time").first(wake["at"]):
            return Slots(read=WakeSaid(None))
        at = read_time_of_day(wake["at"])
        return None if at is None else Slots(read=WakeSaid(at))
    cap, yards = _says("cap").whole(said), _says("yards").whole(said)
    counted = cap or yards
    if counted is None or len(counted["count"]) > _LONGEST_COUNT:
        return None
    return Slots(read=CountSaid("daily_cap" if cap else "yards_a_day", int(counted["count"])))


def edge_said(text: str) -> QuietSaid | None:
    """Return the hour before which, or after which, somebody wants no messages."""
    for name in ("before", "after"):
        edge = phrases("times", name).first(text)
        at = None if edge is None else read_time_of_day(edge["at"])
        if edge is not None and at is not None:
            # "Not after 9" is the evening's nine.
            is_bare = half_of(edge["at"]) is None and ":" not in edge["at"]
            is_evening = is_bare and name == "after" and at < _NOON_MIN
            at += _NOON_MIN if is_evening else 0
            return QuietSaid(None, at) if name == "before" else QuietSaid(at, None)
    return None


def read_start(found: Said, _scene: Scene) -> Slots | None:
    """Read ``we start from Wahoo, NE``; None for other texts, such as hours."""
    where = found["where"]
    is_place = isinstance(read_place(where), tuple) or _PLACE.fullmatch(where) is not None
    return Slots(read=StartSaid(where)) if is_place else None


def read_later(found: Said, scene: Scene) -> Slots | None:
    """Read ``later 3 days``, ``snooze until soil 50``; None for other texts."""
    rest = found["rest"]
    if not rest:
        return Slots(read=LaterSaid())
    if _says("until_warmer").whole(rest):
        return Slots(read=LaterSaid(is_until_warmer=True))
    until = _says("until_soil").whole(rest)
    if until is not None:
        read = read_temperature_reading(until["temp"], "C" if scene.units == "metric" else "F")
        if read is None or isinstance(read, Unread):
            return None
        return Slots(read=LaterSaid(until_c=read.temperature_c))
    start = _says("for").at_start(rest)
    span = read_duration(rest if start is None else start.after.strip())
    return None if isinstance(span, Unread) else Slots(read=LaterSaid(span=span))


def read_mute(text: str, _scene: Scene) -> Slots | None:
    """Read ``not this season``, ``no more about crabgrass this year``; None for other texts."""
    said = tidied(text)
    muted = ((_says(name).whole(said), target) for name, target in _MUTED)
    found, target = next((each for each in muted if each[0]), (None, None))
    if found is None:
        return None
    what = _says("messages").without(found["what"], "").strip()
    if what:
        target, rest = find_target(what if find_target(what)[0] else f"against {what}")
        if rest.strip():
            return None
    return Slots(read=MuteSaid(target))


FORMS: Final = (
    Form("set_quiet", read_quiet),
    hearing("set_quiet", "manner.start", read_start, is_sure=True),
    hearing("snooze", "manner.later", read_later),
    saying("mute", "manner.unmute", MuteSaid(is_off=True)),
    Form("mute", read_mute),
)
