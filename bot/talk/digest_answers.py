"""A message about several yards, answered as it stands: watered, none seen, later, at all."""

from __future__ import annotations

from collections.abc import Callable
from typing import Final

from bot.saying.values import Names
from bot.talk import inviting, scouting, watered, when_to_write
from bot.talk.talk import Talk
from bot.turn import Reply
from jobs.agronomy.season import Kind
from storage import alerts
from storage.yards import YardRecord

#: Days for which [Later, all of them] puts the calls off.
LATER_DAYS: Final = 3

#: What each answer does at one yard, the act whose right it needs, and the kinds it is about.
_ANSWERS: Final[dict[str, tuple[str, Callable[[Talk, YardRecord], list[Reply]]]]] = {
    "watered": ("report_watered", lambda talk, yard: watered.all_of_it(talk, yard)),
    "none": ("report_weeds", lambda talk, yard: scouting.tapped(talk, yard, "seen:none")),
    "later": (
        "snooze",
        lambda talk, yard: when_to_write.later_days(talk, yard, f"later:days:{LATER_DAYS}"),
    ),
}


def tap(talk: Talk, what: str, alert_id: int) -> list[Reply]:
    """Answer a button under a message about several yards; each yard it was about is answered."""
    found = _ANSWERS.get(what)
    lead = alerts.of_chat(talk.work, talk.chat.id, alert_id)
    if found is None or lead is None:
        return [talk.reply("help.button_stale", hint=talk.say("help.hint_yard"))]
    act, answer = found
    told = [lead, *alerts.told_together(talk.work, lead.id)]
    mine = {yard.id: yard for yard in talk.yards()}
    done: list[str] = []
    at = talk.yard_id
    for yard_id in dict.fromkeys(each.yard_id for each in told if _is_about(what, each.kind)):
        yard = mine.get(yard_id)
        if yard is None or inviting.refuse_act(talk, yard, act) is not None:
            continue
        answer(talk, yard)
        done.append(yard.name)
    talk.yard_id = at
    if not done:
        return [talk.reply("help.button_stale", hint=talk.say("help.hint_yard"))]
    return [talk.reply(f"letters.digest_done_{what}", yards=Names(done), days=LATER_DAYS)]


def _is_about(what: str, kind: str) -> bool:
    return what != "watered" or kind == Kind.WATER_IN
