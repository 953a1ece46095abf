"""Which day was that: asked of work that was reported in the rough, before it is on record."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date, datetime, time, timedelta
from typing import Final

from bot.dialogue import topics
from bot.dialogue.scene import scene_of
from bot.dialogue.talk import Talk
from bot.hearing.hear import hear_as
from bot.hearing.heard import ActHeard
from bot.hearing.readers.dates import WhenRead
from bot.saying.catalogue import shown
from bot.saying.shown_names import capital
from bot.saying.values import Day
from bot.turn import Reply, rows
from storage.yards import YardRecord

#: Days that are offered as buttons; more of them are offered in even steps.
_MOST_BUTTONS: Final = 7
#: What the buttons begin with, by the act that was reported.
_BUTTON: Final = {"report_applied": "apply", "report_service": "service"}
_Handler = Callable[[Talk, YardRecord, ActHeard], list[Reply]]


def ask(talk: Talk, yard: YardRecord, heard: ActHeard) -> list[Reply] | None:
    """Ask between the days that a report may mean; None where it means one."""
    when = heard.slots.on
    if when is None or not when.days:
        return None
    at = scene_of(talk).now.isoformat()
    talk.expect(topics.WHICH_DAY, yard_id=yard.id, step=heard.act, said=heard.said, at=at)
    talk.data["days"] = [when.days[0].isoformat(), when.days[-1].isoformat()]
    today = talk.today(yard)
    offered = _in_steps(when.days)
    start = f"{_BUTTON[heard.act]}:on:{yard.id}"
    labels = [shown(Day(day, today)) for day in offered]
    buttons = [
        (capital(label), f"{start}:{day.isoformat()}")
        for label, day in zip(labels, offered, strict=True)
    ]
    in_threes = [buttons[first : first + 3] for first in range(0, len(buttons), 3)]
    first, last = Day(when.days[0], today), Day(when.days[-1], today)
    return [talk.reply("applying.which_day", rows(*in_threes), first=first, last=last)]


def answered(talk: Talk, yard: YardRecord, heard: ActHeard) -> ActHeard:
    """Return the report that waited, on the day that is said now; else what is heard."""
    is_asked = talk.topic == topics.WHICH_DAY and talk.data.get("yard_id") == yard.id
    if not is_asked or heard.why != "pending" or heard.slots.on is None:
        return heard
    when = heard.slots.on
    first, last = (date.fromisoformat(day) for day in talk.data["days"])
    if not first <= when.at.date() <= last and not any(map(str.isdigit, heard.said)):
        # "Tuesday", said on a Tuesday of last week's work, is last week's.
        asked = [first + timedelta(days=n) for n in range((last - first).days + 1)]
        alike = [day for day in asked if day.weekday() == when.at.weekday()]
        if len(alike) == 1:
            when = replace(when, at=datetime.combine(alike[0], when.at.timetz()), is_future=False)
    return _on(talk, when)


def tapped(report: _Handler) -> Callable[[Talk, YardRecord, str], list[Reply]]:
    """Return what answers a button with a day of a report."""

    def answer(talk: Talk, yard: YardRecord, action: str) -> list[Reply]:
        if talk.topic != topics.WHICH_DAY or talk.data.get("yard_id") != yard.id:
            return [talk.stale()]
        now = scene_of(talk).now
        try:
            day = date.fromisoformat(action.rsplit(":", 1)[1])
        except ValueError:
            return [talk.stale()]
        at = min(datetime.combine(day, time(12), tzinfo=now.tzinfo), now)
        when = WhenRead(at, has_time=False, is_future=False, said=day.isoformat())
        return report(talk, yard, _on(talk, when))

    return answer


def _on(talk: Talk, when: WhenRead) -> ActHeard:
    at = datetime.fromisoformat(talk.data["at"])
    scene = replace(scene_of(talk), now=at, pending=None)
    before = hear_as(talk.data["step"], talk.data["said"], scene)
    talk.settle()
    return replace(before, slots=replace(before.slots, on=when))


def _in_steps(days: tuple[date, ...]) -> list[date]:
    if len(days) <= _MOST_BUTTONS:
        return list(days)
    step = (len(days) - 1) / (_MOST_BUTTONS - 1)
    return [days[round(step * place)] for place in range(_MOST_BUTTONS)]
