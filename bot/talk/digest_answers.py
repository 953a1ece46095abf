"""A message about several yards, answered as it stands: watered, none seen, later; all, or each."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import timedelta
from typing import Final

from bot.dialogue import rights
from bot.dialogue.talk import Talk
from bot.hearing.forms.weed_forms import SightingSaid
from bot.hearing.heard import ActHeard, Slots
from bot.letters.digest_letters import PUT_OFF
from bot.saying import shown_names
from bot.saying.shown_names import first_named
from bot.turn import Reply, rows
from jobs.agronomy.season import Kind
from storage import alerts
from storage.alerts import AlertRecord
from storage.yards import YardRecord

#: Days for which [Later] puts the calls off.
LATER_DAYS: Final = 3
#: Yards on one page.
_A_PAGE: Final = 8

#: The act that each answer is, whose right it needs.
_ACTS: Final = {"watered": "report_watered", "none": "report_weeds", "later": "snooze"}


def _act(talk: Talk, what: str) -> ActHeard:
    """Return an answer as it is said at one yard."""
    act = _ACTS[what]
    match what:
        case "none":
            none = Slots(read=SightingSaid(is_seen=False))
            return ActHeard(act, none, said=talk.say("year.button_none"))
        case "later":
            return ActHeard(act, Slots(days=LATER_DAYS))
    return ActHeard(act)


def tap(talk: Talk, what: str, numbers: Sequence[int]) -> list[Reply]:
    """Answer a button under a message about several yards: for all it was about, or for one.

    The numbers are the message's, then a yard's and the page it stands on, or the page alone.
    """
    lead = alerts.of_chat(talk.work, talk.chat.id, numbers[0])
    if lead is None or what not in (*_ACTS, "each"):
        return [talk.stale()]
    told = [lead, *alerts.told_together(talk.work, lead.id)]
    if what == "each":
        page = numbers[1] if len(numbers) > 1 else None
        return [_page(talk, lead, told, page or 0, "", is_same=page is not None)]
    only = numbers[1] if len(numbers) > 1 else None
    done = _answer(talk, what, told, only)
    if not done:
        return [talk.stale()]
    said = talk.say(f"letters.digest_done_{what}", yards=first_named(done), days=LATER_DAYS)
    if only is None:
        return [Reply(said)]
    return [_page(talk, lead, told, numbers[2] if len(numbers) > 2 else 0, said, is_same=True)]


def _answer(talk: Talk, what: str, told: Sequence[AlertRecord], only: int | None) -> list[str]:
    """Give an answer at the yards it is about, or at one; return their names."""
    act = _act(talk, what)
    mine = {yard.id: yard for yard in talk.yards()}
    about = [each.yard_id for each in told if what != "watered" or each.kind == Kind.WATER_IN]
    done: list[str] = []
    at = talk.yard_id
    for yard_id in dict.fromkeys(about):
        yard = mine.get(yard_id)
        if yard is None or rights.refuse_act(talk, yard, act.act) is not None:
            continue
        if only in (None, yard_id):
            talk.answer(act.act, yard, act)
            done.append(yard.name)
    talk.yard_id = at
    return done


def _page(
    talk: Talk,
    lead: AlertRecord,
    told: Sequence[AlertRecord],
    page: int,
    note: str,
    *,
    is_same: bool,
) -> Reply:
    """Offer each yard's own answers, those given already left out; in place of the same page."""
    mine = {yard.id: yard for yard in talk.yards()}
    waiting: dict[int, list[str]] = {}
    for alert in told:
        yard = mine.get(alert.yard_id)
        if yard is not None:
            waiting.setdefault(yard.id, []).extend(_open(talk, yard, alert))
    left = [(mine[yard_id], answers) for yard_id, answers in waiting.items() if answers]
    pages = max(1, -(-len(left) // _A_PAGE))
    page = min(page, pages - 1)
    shown = left[page * _A_PAGE : (page + 1) * _A_PAGE]
    key = "letters.each_head" if left else "letters.each_done"
    lines = [line for line in (note, talk.say(key, count=len(left))) if line]
    buttons = [
        [
            (
                talk.say(f"letters.each_{what}", yard=shown_names.short(yard.name)),
                f"digest:{what}:{lead.id}:{yard.id}:{page}",
            )
            for what in dict.fromkeys(answers)
        ]
        for yard, answers in shown
    ]
    turns = [
        (talk.say(f"rounds_of_work.button_{name}"), f"digest:each:{lead.id}:{to}")
        for name, to in (("back", page - 1), ("next", page + 1))
        if 0 <= to < pages
    ]
    return Reply("\n".join(lines), rows(*buttons, turns), replaces=is_same)


def _open(talk: Talk, yard: YardRecord, alert: AlertRecord) -> list[str]:
    """Return the answers an alert of a yard still waits for."""
    standing = talk.standing(yard)
    if alert.kind == Kind.WATER_IN:
        done = standing.application(alert.facts.get("application_id"))
        is_open = done is not None and done.watered_in_on is None
        return ["watered"] if is_open else []
    if alert.facts.get("is_seen_any"):
        since = alert.due_at.date() - timedelta(days=1)
        looked = any(each.seen_on > since for each in standing.sightings)
        return [] if looked else ["none"]
    if alert.kind not in PUT_OFF:
        return []
    until = standing.snooze(talk.chat.id).until
    is_off = until is not None and until > talk.now
    is_done = any(each.recorded_at >= alert.due_at for each in standing.done)
    return [] if is_off or is_done else ["later"]
