"""When to write, in short: ``quiet 9 pm to 7``, ``later 3 days``, ``not this year``."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import timedelta
from typing import Final, Literal

from bot.hearing.forms.form import Form, pattern, tidied
from bot.hearing.heard import Scene, Slots
from bot.hearing.readers.measurements import read_duration, read_temperature_reading
from bot.hearing.readers.places import read_place
from bot.hearing.readers.reading import Unread
from bot.hearing.readers.targets import find_target
from bot.hearing.readers.wish_words import read_quiet_hours, read_time_of_day
from jobs.agronomy.season import Target

_WAKE: Final = pattern(
    r"(?:wake|tell|write\s+to|message|text|call)\s+me\s+(?:at|from|after)\s+"
    r"(?P<at>any\s*time|whenever|[\w:. ]+)"
)
_ANY_TIME: Final = pattern(r"any\s*time|whenever")
_CAP: Final = pattern(
    r"(?:at\s+most|no\s+more\s+than|max(?:imum)?)\s+(?P<count>\d{1,3})"
    r"(?:\s+(?:messages?|alerts?))?\s+(?:a|per)\s+day"
)
_YARDS: Final = pattern(r"(?:we\s+do\s+|i\s+do\s+)?(?P<count>\d{1,3})\s+yards?\s+(?:a|per)\s+day")
_START: Final = pattern(
    r"(?:we|i)\s+(?:always\s+|usually\s+)?(?:start|begin|set\s+out|leave)\s+(?:the\s+(?:day|round|route)\s+)?"
    r"(?:at|from|in)\s+(?P<where>\S.*)|(?:our\s+)?(?:route|round|shop)\s+(?:starts|begins)\s+"
    r"(?:at|from|in)\s+(?P<where_too>\S.*)"
)
_LATER: Final = pattern(r"(?:snooze|later|not\s+now)(?:,?\s+(?P<rest>.+))?")
_PLACE_WORDS: Final = pattern(r"\d{5}|[a-z][a-z .'-]+,?\s+[a-z]{2}(?:\s+\d{5})?")
_UNTIL_WARMER: Final = pattern(r"(?:until|till|when)\s+(?:it\s+is\s+|it's\s+)?warm(?:er)?")
_UNTIL_SOIL: Final = pattern(r"(?:until|till|at)\s+(?:soil\s+)?(?P<temp>.+)")
_FOR: Final = pattern(r"^(?:for|in)\s+")
_MUTE: Final = pattern(
    r"(?:not|skip|no\s+more)(?P<what>\s+.+?)?\s+this"
    r"\s+(?P<span>season|year|spring|summer|fall|autumn)"
)
_MESSAGES: Final = pattern(r"^(?:messages?|alerts?|calls?)\b|\babout\b")
_UNMUTE: Final = pattern(r"this\s+(?:season|year)\s+after\s+all|unmute")
_TARGET_OF: Final = {
    "spring": Target.SUMMER_ANNUALS,
    "summer": Target.SUMMER_ANNUALS,
    "fall": Target.WINTER_ANNUALS,
    "autumn": Target.WINTER_ANNUALS,
}


@dataclass(frozen=True)
class QuietSaid:
    """Quiet hours [minutes after midnight]; equal ends mean none."""

    quiet_from: int
    quiet_until: int


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
    wake = _WAKE.fullmatch(said)
    if wake is not None:
        if _ANY_TIME.search(wake["at"]):
            return Slots(read=WakeSaid(None))
        at = read_time_of_day(wake["at"])
        return None if at is None else Slots(read=WakeSaid(at))
    cap, yards = _CAP.fullmatch(said), _YARDS.fullmatch(said)
    if cap is not None:
        return Slots(read=CountSaid("daily_cap", int(cap["count"])))
    return None if yards is None else Slots(read=CountSaid("yards_a_day", int(yards["count"])))


def read_start(text: str, _scene: Scene) -> Slots | None:
    """Read ``we start from Wahoo, NE``; None for other texts, such as hours."""
    match = _START.fullmatch(tidied(text))
    if match is None:
        return None
    where = match["where"] or match["where_too"]
    is_place = isinstance(read_place(where), tuple) or _PLACE_WORDS.fullmatch(where) is not None
    return Slots(read=StartSaid(where)) if is_place else None


def read_later(text: str, scene: Scene) -> Slots | None:
    """Read ``later 3 days``, ``snooze until soil 50``; None for other texts."""
    match = _LATER.fullmatch(tidied(text))
    if match is None:
        return None
    rest = (match["rest"] or "").strip()
    if not rest:
        return Slots(read=LaterSaid())
    if _UNTIL_WARMER.fullmatch(rest):
        return Slots(read=LaterSaid(is_until_warmer=True))
    until = _UNTIL_SOIL.fullmatch(rest)
    if until is not None:
        read = read_temperature_reading(until["temp"], "C" if scene.units == "metric" else "F")
        if read is None or isinstance(read, Unread):
            return None
        return Slots(read=LaterSaid(until_c=read.temperature_c))
    span = read_duration(_FOR.sub("", rest))
    return None if isinstance(span, Unread) else Slots(read=LaterSaid(span=span))


def read_mute(text: str, _scene: Scene) -> Slots | None:
    """Read ``not this season``, ``no more about crabgrass this year``; None for other texts."""
    said = tidied(text)
    if _UNMUTE.fullmatch(said):
        return Slots(read=MuteSaid(is_off=True))
    match = _MUTE.fullmatch(said)
    if match is None:
        return None
    target = _TARGET_OF.get(match["span"].casefold())
    what = _MESSAGES.sub("", (match["what"] or "").strip()).strip()
    if what:
        target, rest = find_target(what if find_target(what)[0] else f"against {what}")
        if rest.strip():
            return None
    return Slots(read=MuteSaid(target))


FORMS: Final = (
    Form("set_quiet", read_quiet),
    Form("set_quiet", read_start, is_sure=True),
    Form("snooze", read_later),
    Form("mute", read_mute),
)
