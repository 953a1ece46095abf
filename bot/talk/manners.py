"""When the bot may write: quiet hours, a preferred hour, a daily cap; later, not this season."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from datetime import time, timedelta
from typing import Final

from bot.hearing.readers.dates import say_day
from bot.hearing.readers.reading import Unread
from bot.hearing.readers.readings import read_duration, read_temperature_reading
from bot.hearing.readers.targets import find_target
from bot.hearing.readers.times import say_time
from bot.hearing.readers.wishes import read_quiet_hours, read_time_of_day
from bot.saying.figures import say_temp
from bot.talk.talk import Talk
from bot.turn import Reply, rows
from jobs.agronomy.season import Target
from jobs.local_days import local
from jobs.manners import opens_at
from jobs.uses import wishes as uses
from jobs.weather_of_day import act_by_of
from storage import wishes
from storage.yards import YardRecord

DAY_MIN: Final = 24 * 60
_SNOOZE_DAYS: Final = (1, 3, 7)
_UNTIL_WARMER: Final = re.compile(
    r"(?:until|till|when)\s+(?:it\s+is\s+|it's\s+)?warm(?:er)?", re.IGNORECASE
)

_Answer = Callable[[Talk, YardRecord, re.Match[str], str], list[Reply] | None]
#: What wishes look like, and what takes each.
Patterns = tuple[tuple[re.Pattern[str], _Answer], ...]


def take(talk: Talk, yard: YardRecord, said: str, text: str) -> list[Reply] | None:
    """Take a wish about when to write; None where it is none. `said` is the text made tidy."""
    return answered(_PATTERNS, talk, yard, said, text)


def answered(
    patterns: Patterns, talk: Talk, yard: YardRecord, said: str, text: str
) -> list[Reply] | None:
    """Answer by the first pattern that fits and has an answer; None where none has."""
    for pattern, answer in patterns:
        match = pattern.fullmatch(said)
        if match is not None:
            replies = answer(talk, yard, match, text)
            if replies is not None:
                return replies
    return None


def pattern_of(text: str) -> re.Pattern[str]:
    """Return the pattern of a wish, whatever the case of its letters."""
    return re.compile(text, re.IGNORECASE)


def ask_later(talk: Talk, yard: YardRecord) -> list[Reply]:
    """Answer [Later]: ask until when."""
    today = talk.today(yard)
    by = act_by_of(talk.work, yard, today)
    limit = "" if by is None else talk.say("wishes.later_limit", by=say_day(by, today))
    days = [
        (
            talk.say("wishes.button_day" if count == 1 else "wishes.button_days", count=count),
            f"later:days:{yard.id}:{count}",
        )
        for count in _SNOOZE_DAYS
    ]
    warmer = (talk.say("wishes.button_warmer"), f"later:warmer:{yard.id}")
    text = talk.say("wishes.later_ask", yard=yard.name, limit=limit).strip()
    return [Reply(text, rows(days, [warmer]))]


def later_days(talk: Talk, yard: YardRecord, action: str) -> list[Reply]:
    """Answer [In 3 days]."""
    return _snooze(talk, yard, timedelta(days=int(action.rsplit(":", 1)[1])), None, action)


def later_warmer(talk: Talk, yard: YardRecord) -> list[Reply]:
    """Answer [When it is warmer]."""
    return _snooze(talk, yard, None, None, "until warmer")


def mute_tapped(talk: Talk, yard: YardRecord, action: str) -> list[Reply]:
    """Answer [Not this season]; the action may name the target."""
    named = action.split(":")[2:]
    return mute(talk, yard, Target(named[0]) if named else None, "not this season")


def mute(talk: Talk, yard: YardRecord, target: Target | None, said: str) -> list[Reply]:
    """Say no more about a target this year; the one last spoken of where none is named."""
    muted = uses.mute(talk.work, yard, target, person_id=talk.person.id, now=talk.now, said=said)
    return [talk.reply(f"wishes.mute_{muted}", yard=yard.name)]


def quiet_words(talk: Talk, chat: wishes.ChatWishes) -> str:
    """Say a chat's quiet hours."""
    if chat.quiet_from == chat.quiet_until:
        return talk.say("wishes.summary_never_quiet")
    first, last = clock(talk, chat.quiet_from), clock(talk, chat.quiet_until)
    return talk.say("wishes.summary_quiet", first=first, last=last)


def clock(talk: Talk, minutes: int) -> str:
    """Say minutes after midnight as a time of day."""
    if minutes % DAY_MIN == 0:
        return talk.say("wishes.midnight")
    return say_time(time(minutes // 60 % 24, minutes % 60), talk.unit_system)


def _quiet(talk: Talk, yard: YardRecord, match: re.Match[str], said: str) -> list[Reply] | None:
    read = read_quiet_hours(match[0])
    if read is None:
        return None
    is_none = read.quiet_from == read.quiet_until
    changes: dict[str, int | None] = {
        "quiet_from": read.quiet_from,
        "quiet_until": read.quiet_until,
        **({"wake_at": None} if is_none else {}),
    }
    _change_chat(talk, yard, changes, said)
    if is_none:
        return [talk.reply("wishes.quiet_none")]
    first, last = clock(talk, read.quiet_from), clock(talk, read.quiet_until)
    return [talk.reply("wishes.quiet_set", first=first, last=last)]


def _wake(talk: Talk, yard: YardRecord, match: re.Match[str], said: str) -> list[Reply] | None:
    if re.search(r"any\s*time|whenever", match["at"], re.IGNORECASE):
        _change_chat(talk, yard, {"wake_at": None}, said)
        return [talk.reply("wishes.wake_any")]
    at = read_time_of_day(match["at"])
    if at is None:
        return None
    chat = wishes.of_chat(talk.work, talk.chat.id)
    after = wishes.ChatWishes(chat.chat_id, chat.quiet_from, chat.quiet_until, at)
    if opens_at(after) != at or at == chat.quiet_from:
        first, last = clock(talk, chat.quiet_from), clock(talk, chat.quiet_until)
        at_words = clock(talk, at)
        return [talk.reply("wishes.wake_deep", at=at_words, first=first, last=last)]
    _change_chat(talk, yard, {"wake_at": at}, said)
    return [talk.reply("wishes.wake_set", at=clock(talk, at))]


def _cap(talk: Talk, yard: YardRecord, match: re.Match[str], said: str) -> list[Reply]:
    return _number(talk, yard, "daily_cap", int(match["count"]), "wishes.cap_set", said)


def _yards_a_day(talk: Talk, yard: YardRecord, match: re.Match[str], said: str) -> list[Reply]:
    return _number(talk, yard, "yards_a_day", int(match["count"]), "wishes.yards_a_day", said)


def _number(
    talk: Talk, yard: YardRecord, name: str, value: int, key: str, said: str
) -> list[Reply]:
    try:
        _change_chat(talk, yard, {name: value}, said)
    except uses.NotAllowed as refused:
        low, high = refused.allowed.start, refused.allowed.stop - 1
        return [talk.reply("wishes.number_range", low=low, high=high)]
    return [talk.reply(key, count=value)]


def _later(talk: Talk, yard: YardRecord, match: re.Match[str], said: str) -> list[Reply] | None:
    rest = (match["rest"] or "").strip()
    if not rest:
        return ask_later(talk, yard)
    if _UNTIL_WARMER.fullmatch(rest):
        return later_warmer(talk, yard)
    until = re.fullmatch(r"(?:until|till|at)\s+(?:soil\s+)?(?P<temp>.+)", rest, re.IGNORECASE)
    if until is not None:
        read = read_temperature_reading(until["temp"], "C" if talk.is_metric else "F")
        if read is None or isinstance(read, Unread):
            return None
        return _snooze(talk, yard, None, read.temperature_c, said)
    span = read_duration(re.sub(r"^(?:for|in)\s+", "", rest, flags=re.IGNORECASE))
    return None if isinstance(span, Unread) else _snooze(talk, yard, span, None, said)


def _mute(talk: Talk, yard: YardRecord, match: re.Match[str], said: str) -> list[Reply] | None:
    named = {"spring": Target.SUMMER_ANNUALS, "summer": Target.SUMMER_ANNUALS}
    named |= {"fall": Target.WINTER_ANNUALS, "autumn": Target.WINTER_ANNUALS}
    target = named.get(match["span"].casefold())
    what = re.sub(
        r"^(?:messages?|alerts?|calls?)\b|\babout\b", "", (match["what"] or "").strip()
    ).strip()
    if what:
        target, rest = find_target(what if find_target(what)[0] else f"against {what}")
        if rest.strip():
            return None
    return mute(talk, yard, target, said)


def _unmute(talk: Talk, yard: YardRecord, match: re.Match[str], said: str) -> list[Reply]:
    state = uses.unmute(talk.work, yard, person_id=talk.person.id, now=talk.now, said=said)
    words = talk.say(f"yards.state_{_STATES[state]}")
    return [talk.reply("wishes.mute_off", yard=yard.name, state=words)]


def _snooze(
    talk: Talk, yard: YardRecord, span: timedelta | None, until_c: float | None, said: str
) -> list[Reply]:
    try:
        done = uses.snooze(
            talk.work,
            yard,
            span,
            until_c,
            chat_id=talk.chat.id,
            person_id=talk.person.id,
            now=talk.now,
            said=said,
        )
    except uses.NotAllowed as refused:
        return [talk.reply("wishes.later_range", high=refused.allowed.stop - 1)]
    today = talk.today(yard)
    if done.until is None:
        assert done.until_c is not None
        warm = say_temp(done.until_c, talk.unit_system)
        return [talk.reply("wishes.later_warmer", yard=yard.name, warm=warm)]
    warning = ""
    if done.is_too_long and done.act_by is not None:
        warning = talk.say("wishes.later_too_long", by=say_day(done.act_by, today))
    when = say_day(local(done.until, yard.timezone).date(), today)
    text = talk.say("wishes.later_set", yard=yard.name, when=when, warning=warning)
    return [Reply(text.strip())]


def _change_chat(
    talk: Talk, yard: YardRecord, changes: Mapping[str, int | None], said: str
) -> None:
    uses.change_chat(
        talk.work,
        yard,
        talk.chat.id,
        changes,
        person_id=talk.person.id,
        now=talk.now,
        said=said,
    )


_STATES: Final = {
    "waiting": "waiting",
    "window open": "window_open",
    "applied": "applied",
    "re-treat due": "retreat_due",
}


_PATTERNS: Final[Patterns] = (
    (pattern_of(r"(?:be\s+|no\s+|never\s+)?quiet\b.*"), _quiet),
    (
        pattern_of(
            r"(?:wake|tell|write\s+to|message|text|call)\s+me\s+(?:at|from|after)\s+"
            r"(?P<at>any\s*time|whenever|[\w:. ]+)"
        ),
        _wake,
    ),
    (
        pattern_of(
            r"(?:at\s+most|no\s+more\s+than|max(?:imum)?)\s+(?P<count>\d{1,3})"
            r"(?:\s+(?:messages?|alerts?))?\s+(?:a|per)\s+day"
        ),
        _cap,
    ),
    (
        pattern_of(r"(?:we\s+do\s+|i\s+do\s+)?(?P<count>\d{1,3})\s+yards?\s+(?:a|per)\s+day"),
        _yards_a_day,
    ),
    (pattern_of(r"(?:snooze|later|not\s+now)(?:,?\s+(?P<rest>.+))?"), _later),
    (
        pattern_of(
            r"(?:not|skip|no\s+more)(?P<what>\s+.+?)?\s+this"
            r"\s+(?P<span>season|year|spring|summer|fall|autumn)"
        ),
        _mute,
    ),
    (pattern_of(r"this\s+(?:season|year)\s+after\s+all|unmute"), _unmute),
)
