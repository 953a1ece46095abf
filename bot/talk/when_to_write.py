"""When the bot may write: quiet hours, a preferred hour, a daily cap; later, not this season."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import timedelta
from typing import Final

from bot.dialogue import rights
from bot.dialogue.named_here import zones_said
from bot.dialogue.talk import Talk
from bot.hearing.forms.grass_forms import FactsSaid
from bot.hearing.forms.manner_forms import (
    CountSaid,
    LaterSaid,
    MuteSaid,
    QuietSaid,
    StartSaid,
    WakeSaid,
)
from bot.hearing.heard import ActHeard, Slots
from bot.hearing.readers.grass_words import ZoneFact
from bot.hearing.readers.places import read_place
from bot.saying.values import Day, Temperature
from bot.telling.wishes_told import clock
from bot.turn import Reply, rows
from jobs.agronomy.season import Target
from jobs.local_days import DATA_KNOWN_MIN, local, season_day
from jobs.manners import opens_at
from jobs.rounds import targets_of
from jobs.sources.gazetteer import places_in
from jobs.uses import keeping_wishes as uses
from jobs.uses.bounds import NotAllowed
from jobs.weather_of_day import act_by_of
from storage import wishes
from storage.yards import YardRecord

_SNOOZE_DAYS: Final = (1, 3, 7)


def on_set_quiet(talk: Talk, yard: YardRecord | None, heard: ActHeard) -> list[Reply]:
    """Keep when and how often this chat is written to."""
    said = heard.slots.read
    if yard is None:
        return [talk.reply("wishes.quiet_early")]
    match said:
        case QuietSaid():
            return _quiet(talk, yard, said)
        case WakeSaid():
            return _wake(talk, yard, said)
        case CountSaid():
            key = "wishes.cap_set" if said.of == "daily_cap" else "wishes.yards_a_day"
            return _number(talk, yard, said.of, said.count, key)
        case StartSaid():
            return _start(talk, yard, said.where)
    return [talk.reply("wishes.quiet_how")]


def _start(talk: Talk, yard: YardRecord, where: str) -> list[Reply]:
    """Keep where the day's round starts."""
    point = read_place(where)
    found = places_in(where)
    if not isinstance(point, tuple):
        if len(found) != 1:
            return [talk.reply("rounds_of_work.start_unknown", said=where)]
        point = (found[0].lat, found[0].lon)
    _change_chat(talk, yard, {"start_lat": point[0], "start_lon": point[1]})
    place = found[0].label if len(found) == 1 else where
    return [talk.reply("rounds_of_work.start_set", place=place)]


def on_snooze(talk: Talk, yard: YardRecord, heard: ActHeard) -> list[Reply]:
    """Put the calls off: for some days, until a day, until the soil is warmer; else ask."""
    said, slots = heard.slots.read, heard.slots
    year = season_day(talk.today(yard), yard.lat).year
    if all(talk.standing(yard).is_muted(each, year) for each in targets_of(yard)):
        # Nothing would come of it: the season was given up.
        return [talk.reply("wishes.is_muted", yard=yard.name)]
    if isinstance(said, LaterSaid):
        if said.until_c is not None or said.is_until_warmer:
            return _snooze(talk, yard, None, said.until_c)
        if said.span is not None:
            return _snooze(talk, yard, said.span, None)
    if slots.on is not None and slots.on.is_future:
        days = (slots.on.at.date() - talk.today(yard)).days
        return _snooze(talk, yard, timedelta(days=max(1, days)), None)
    if slots.days is not None:
        return _snooze(talk, yard, timedelta(days=slots.days), None)
    return ask_later(talk, yard)


def on_mute(talk: Talk, yard: YardRecord, heard: ActHeard) -> list[Reply]:
    """Say no more about a target this year, or take that back."""
    said = heard.slots.read
    if isinstance(said, MuteSaid) and said.is_off:
        state = uses.unmute(talk.work, yard, now=talk.now)
        words = talk.say(f"yards.state_{state.name.lower()}")
        return [talk.reply("wishes.mute_off", yard=yard.name, state=words)]
    zones = talk.standing(yard).programme
    named = [zone for zone in zones_said(zones, heard.slots) if zone in zones]
    if named and len(named) < len(zones):
        if not talk.may(yard, "change"):
            return rights.refuse(talk, yard)
        fact = ZoneFact(zones="", said=heard.said, lock="rest")
        rests = FactsSaid(((fact, tuple(zone.name for zone in named)),))
        return talk.answer("set_grass", yard, ActHeard("set_grass", Slots(read=rests)))
    if isinstance(said, MuteSaid) or heard.why in ("command", "pending", "template"):
        target = said.target if isinstance(said, MuteSaid) else None
        return mute(talk, yard, target)
    # A season's silence is too much for a guess.
    buttons = [(talk.say("letters.button_mute"), f"mute:{yard.id}")]
    return [talk.reply("wishes.mute_sure", rows(buttons), yard=yard.name)]


def ask_later(talk: Talk, yard: YardRecord) -> list[Reply]:
    """Answer [Later]: ask until when."""
    today = talk.today(yard)
    by = act_by_of(talk.standing(yard), talk.now)
    limit = "" if by is None else talk.say("wishes.later_limit", by=Day(by, today))
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
    return _snooze(talk, yard, timedelta(days=int(action.rsplit(":", 1)[1])), None)


def later_warmer(talk: Talk, yard: YardRecord) -> list[Reply]:
    """Answer [When it is warmer]."""
    return _snooze(talk, yard, None, None)


def mute_tapped(talk: Talk, yard: YardRecord, action: str) -> list[Reply]:
    """Answer [Not this season]; the action may name the target."""
    named = action.split(":")[2:]
    return mute(talk, yard, Target(named[0]) if named else None)


def mute(talk: Talk, yard: YardRecord, target: Target | None) -> list[Reply]:
    """Say no more about a target this year; the one last spoken of where none is named."""
    muted = uses.mute(talk.work, yard, target, person_id=talk.person.id, now=talk.now)
    return [talk.reply(f"wishes.mute_{muted}", yard=yard.name)]


def _quiet(talk: Talk, yard: YardRecord, said: QuietSaid) -> list[Reply]:
    kept = wishes.of_chat(talk.work, talk.chat.id)
    begins = kept.quiet_from if said.quiet_from is None else said.quiet_from
    ends = kept.quiet_until if said.quiet_until is None else said.quiet_until
    is_none = begins == ends
    changes: dict[str, int | None] = {
        "quiet_from": begins,
        "quiet_until": ends,
        **({"wake_at": None} if is_none else {}),
    }
    _change_chat(talk, yard, changes)
    if is_none:
        return [talk.reply("wishes.quiet_none")]
    first, last = clock(talk, begins), clock(talk, ends)
    return [talk.reply("wishes.quiet_set", first=first, last=last)]


def _wake(talk: Talk, yard: YardRecord, said: WakeSaid) -> list[Reply]:
    if said.at is None:
        _change_chat(talk, yard, {"wake_at": None})
        return [talk.reply("wishes.wake_any")]
    chat = wishes.of_chat(talk.work, talk.chat.id)
    after = wishes.ChatWishes(chat.chat_id, chat.quiet_from, chat.quiet_until, said.at)
    if opens_at(after) != said.at or said.at == chat.quiet_from:
        first, last = clock(talk, chat.quiet_from), clock(talk, chat.quiet_until)
        at_words = clock(talk, said.at)
        return [talk.reply("wishes.wake_deep", at=at_words, first=first, last=last)]
    _change_chat(talk, yard, {"wake_at": said.at})
    if said.at < DATA_KNOWN_MIN:
        known = clock(talk, DATA_KNOWN_MIN)
        return [talk.reply("wishes.wake_data", at=clock(talk, said.at), known=known)]
    return [talk.reply("wishes.wake_set", at=clock(talk, said.at))]


def _number(talk: Talk, yard: YardRecord, name: str, value: int, key: str) -> list[Reply]:
    try:
        _change_chat(talk, yard, {name: value})
    except NotAllowed as refused:
        low, high = refused.allowed.start, refused.allowed.stop - 1
        return [talk.reply("wishes.number_range", low=low, high=high)]
    return [talk.reply(key, count=value)]


def _snooze(
    talk: Talk, yard: YardRecord, span: timedelta | None, until_c: float | None
) -> list[Reply]:
    try:
        done = uses.snooze(talk.work, yard, span, until_c, chat_id=talk.chat.id, now=talk.now)
    except NotAllowed as refused:
        return [talk.reply("wishes.later_range", high=refused.allowed.stop - 1)]
    today = talk.today(yard)
    if done.until is None:
        assert done.until_c is not None
        warm = Temperature(done.until_c)
        return [talk.reply("wishes.later_warmer", yard=yard.name, warm=warm)]
    warning = ""
    if done.is_too_long and done.act_by is not None:
        warning = talk.say("wishes.later_too_long", by=Day(done.act_by, today))
    when = Day(local(done.until, yard.timezone).date(), today)
    text = talk.say("wishes.later_set", yard=yard.name, when=when, warning=warning)
    return [Reply(text.strip())]


def _change_chat(talk: Talk, yard: YardRecord, changes: Mapping[str, float | None]) -> None:
    uses.change_chat(talk.work, yard, talk.chat.id, changes, now=talk.now)


HANDLERS: Final = {"set_quiet": on_set_quiet, "snooze": on_snooze, "mute": on_mute}
