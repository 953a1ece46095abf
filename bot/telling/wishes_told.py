"""Wishes of a yard and of a chat, as they are kept."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import time
from typing import Final

from bot.dialogue.talk import Talk
from bot.saying.values import Clock, Depth, Names, Weekday
from bot.turn import Reply
from jobs.manners import opens_at
from jobs.weather_of_day import can_water, weekdays_in
from storage import wishes
from storage.yards import YardRecord


def show(talk: Talk, yard: YardRecord) -> list[Reply]:
    """Show a yard's and this chat's wishes."""
    said, chat = talk.standing(yard).wishes, wishes.of_chat(talk.work, talk.chat.id)
    free = talk.say("wishes.summary_any")
    if said.free_hours is not None:
        spans = {int(day): (span[0], span[1]) for day, span in said.free_hours.items()}
        free = talk.say("wishes.summary_free", hours=spans_in(talk, spans))
    days = weekdays_in(yard.water_days or "")
    if yard.is_water_banned:
        water = talk.say("wishes.summary_banned")
    elif not can_water(yard):
        water = talk.say("wishes.summary_cannot")
    elif days is None:
        water = talk.say("wishes.summary_water_any")
    else:
        water = talk.say("wishes.summary_water_days", days=days_in(talk, days))
    ground = "summary_ground_unknown" if said.ground is None else f"grounds.{said.ground}"
    sprinkler = talk.say("wishes.summary_no_sprinkler")
    if said.sprinkler_mm_h is not None:
        rate = Depth(said.sprinkler_mm_h / 1000)
        sprinkler = talk.say("wishes.summary_sprinkler", rate=rate)
    return [
        talk.reply(
            "wishes.summary",
            yard=yard.name,
            free=free,
            water=water,
            ground=talk.say(f"wishes.{ground}"),
            slope=talk.say("wishes.summary_slope") if said.is_slope else "",
            sprinkler=sprinkler,
            quiet=quiet_words(talk, chat),
            wake=clock(talk, opens_at(chat)),
            cap=chat.daily_cap,
            yards=chat.yards_a_day,
        )
    ]


def spans_in(talk: Talk, spans: Mapping[int, tuple[int, int]]) -> str:
    """Return hours of weekdays in words, days of the same hours together."""
    by_span: dict[tuple[int, int], list[int]] = {}
    for day, span in sorted(spans.items()):
        by_span.setdefault(span, []).append(day)
    parts = []
    for (first, last), days in by_span.items():
        names = days_in(talk, frozenset(days))
        if (first, last) == (0, DAY_MIN):
            parts.append(talk.say("wishes.span_whole", days=names))
            continue
        ends = {"first": clock(talk, first), "last": clock(talk, last)}
        parts.append(talk.say("wishes.span", days=names, **ends))
    return "; ".join(parts)


def days_in(talk: Talk, days: frozenset[int]) -> Names | str:
    """Return weekdays in words."""
    if len(days) == 7:
        return talk.say("wishes.every_day")
    return Names([Weekday(day) for day in sorted(days)])


DAY_MIN: Final = 24 * 60


def quiet_words(talk: Talk, chat: wishes.ChatWishes) -> str:
    """Say a chat's quiet hours."""
    if chat.quiet_from == chat.quiet_until:
        return talk.say("wishes.summary_never_quiet")
    first, last = clock(talk, chat.quiet_from), clock(talk, chat.quiet_until)
    return talk.say("wishes.summary_quiet", first=first, last=last)


def clock(talk: Talk, minutes: int) -> Clock | str:
    """Say minutes after midnight as a time of day."""
    if minutes % DAY_MIN == 0:
        return talk.say("wishes.midnight")
    return Clock(time(minutes // 60 % 24, minutes % 60))
