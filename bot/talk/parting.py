"""Parting: a yard given up, no more messages, what is kept, all of it as a file, all deleted."""

from __future__ import annotations

import json
from dataclasses import replace
from typing import Final

from bot.dialogue import named_here, topics
from bot.dialogue.talk import OWNER, Talk
from bot.hearing.forms.parting_forms import (
    KEEP_NO_UNREAD,
    KEEP_UNREAD,
    EraseSaid,
    EverythingAsked,
    StartAgainSaid,
)
from bot.hearing.heard import ActHeard
from bot.saying import shown_names
from bot.telling import yard_overview
from bot.turn import Buttons, Reply, rows
from jobs import tidy
from jobs.uses import crew_changes as crew_uses
from jobs.uses import giving_up as uses
from jobs.watering_in import waiting_for_water
from storage import chats, pins
from storage.yards import YardRecord


def on_remove_yard(talk: Talk, yard: YardRecord, heard: ActHeard) -> list[Reply]:
    """Ask whether to give the yard up; of a shared one whether to leave it."""
    if (
        heard.slots.yard is not None
        and len(named_here.find_yard(talk.yards(), heard.slots.yard)) != 1
    ):
        return talk.answer("list_yards", None)
    talk.expect(topics.REMOVE_YARD, yard_id=yard.id)
    is_own = talk.role(yard) == OWNER
    key = "parting.button_remove" if is_own else "crews.button_leave"
    label = talk.say(key, yard=shown_names.short(yard.name))
    keep = (talk.say("parting.button_keep"), f"yard:keep:{yard.id}")
    buttons = rows([(label, f"yard:remove:{yard.id}"), keep])
    if not is_own:
        return [talk.reply("parting.leave_ask", buttons, yard=yard.name)]
    standing = talk.standing(yard)
    lines = [
        talk.say("parting.remove_ask", yard=yard.name),
        talk.say("parting.remove_kept", applications=len(standing.done), zones=len(standing.zones)),
    ]
    if standing.members:
        lines.append(talk.say("parting.remove_shared"))
    return [Reply("\n".join(lines), buttons)]


def settle_removal(talk: Talk, yard: YardRecord, *, is_sure: bool) -> list[Reply]:
    """Answer whether the yard is given up."""
    is_asked = talk.topic == topics.REMOVE_YARD and talk.data.get("yard_id") == yard.id
    if not is_asked:
        return [talk.stale()]
    talk.settle()
    if not is_sure:
        return [talk.reply("parting.kept", yard=yard.name)]
    person_id = talk.person.id
    if talk.role(yard) != OWNER:
        crew_uses.leave(talk.work, yard, talk.chat.id, person_id=person_id, now=talk.now)
        talk.yard_id = None
        return [talk.reply("crews.left", yard=yard.name)]
    uses.give_up(talk.work, yard, now=talk.now)
    talk.yard_id = None
    undo = talk.undo()
    return [talk.reply("parting.removed", undo, yard=yard.name)]


def on_stop_alerts(talk: Talk, yard: YardRecord | None, heard: ActHeard) -> list[Reply]:
    """Write no more unasked; or again, where that is what was said."""
    if isinstance(heard.slots.read, StartAgainSaid):
        return start_again(talk)
    if yard is not None and heard.slots.yard is not None and len(talk.yards()) > 1:
        # "No more alerts for the church": of the others they go on.
        return talk.answer("mute", yard)
    uses.stop(talk.work, talk.chat.id, talk.now)
    talk.settle()
    buttons = talk.row(
        ("parting.button_again", "parting:again"), ("parting.button_privacy", "parting:privacy")
    )
    is_dry = any(waiting_for_water(talk.standing(each), talk.today(each)) for each in talk.yards())
    lines = [talk.say("parting.stopped_dry")] if is_dry else []
    return [Reply("\n".join([talk.say("parting.stopped"), *lines]), buttons)]


def start_again(talk: Talk) -> list[Reply]:
    """Write again, and say where things stand: what was told meanwhile was told nobody."""
    was_stopped = chats.chat(talk.work, talk.chat.id).stopped_at is not None
    uses.start_again(talk.work, talk.chat.id, talk.now)
    key = "parting.again" if was_stopped else "parting.never_stopped"
    return [
        talk.reply(key),
        *(talk.answer("list_yards", None) if talk.yards() else yard_overview.start(talk)),
    ]


def on_ask_privacy(talk: Talk, _yard: YardRecord | None, heard: ActHeard) -> list[Reply]:
    """Say what is kept, why, how long and who sees it; or give all of it as a file."""
    if isinstance(heard.slots.read, EverythingAsked):
        return _everything(talk)
    chat = chats.chat(talk.work, talk.chat.id)
    lines = [talk.say(f"parting.privacy_{about}") for about in _ABOUT]
    how_long = talk.say("parting.privacy_how_long", days=tidy.KEPT_FOR.days)
    lines.insert(_ABOUT.index("why") + 1, how_long)
    is_kept = chat.keeps_unread and talk.around.keeps_unread
    key = "parting.privacy_unread" if is_kept else "parting.privacy_no_unread"
    lines.append(talk.say(key, days=tidy.UNREAD_KEPT_FOR.days))
    lines.append(talk.say("parting.privacy_how"))
    return [Reply("\n".join(lines), _privacy_buttons(talk, keeps_unread=chat.keeps_unread))]


def on_erase(talk: Talk, _yard: YardRecord | None, heard: ActHeard) -> list[Reply]:
    """Delete everything once it is confirmed by the word; before that count and ask."""
    if talk.turn.is_group:
        return [talk.reply("parting.erase_group")]
    if isinstance(heard.slots.read, EraseSaid) and talk.topic == topics.ERASE:
        pinned = tuple(pins.messages_of(talk.work, talk.chat.id))
        talk.erased = uses.erase(talk.work, talk.chat.id, talk.person.id, talk.now)
        return [replace(talk.reply("parting.erased"), unpins=pinned)]
    kept = uses.kept(talk.work, talk.chat.id)
    talk.expect(topics.ERASE)
    lines = [
        talk.say(
            "parting.erase_ask",
            yards=kept.yards,
            records=kept.records,
            photos=kept.photos,
            messages=kept.messages,
        )
    ]
    mine = [yard for yard in talk.yards() if talk.role(yard) == OWNER]
    if any(talk.standing(yard).members for yard in mine):
        lines.append(talk.say("parting.erase_shared"))
    if len(mine) < len(talk.yards()):
        lines.append(talk.say("parting.erase_others"))
    if kept.records:
        lines.append(talk.say("parting.erase_records"))
    lines.append(talk.say("parting.erase_word"))
    buttons = talk.row(
        ("parting.button_file", "parting:file"), ("parting.button_keep", "parting:keep")
    )
    return [Reply("\n".join(lines), buttons)]


def settle_erase(talk: Talk, *, is_sure: bool) -> list[Reply]:
    """Answer a yes or no to the question: a yes is not enough."""
    if is_sure:
        return [talk.reply("parting.erase_word")]
    talk.settle()
    return [talk.reply("parting.not_erased")]


def tap(talk: Talk, action: str) -> list[Reply]:
    """Answer the buttons that are about this chat and no yard."""
    match action:
        case "parting:again":
            return start_again(talk)
        case "parting:stop" if not talk.turn.is_group:
            return on_stop_alerts(talk, None, ActHeard("stop_alerts"))
        case "parting:privacy":
            return on_ask_privacy(talk, None, ActHeard("ask_privacy"))
        case "parting:file":
            return _everything(talk)
        case "parting:erase":
            return on_erase(talk, None, ActHeard("erase"))
        case "parting:keep":
            return settle_erase(talk, is_sure=False)
        case "parting:unread_on" | "parting:unread_off":
            return _keep_unread(talk, keeps=action == KEEP_UNREAD)
    return [talk.stale()]


# --- inside ---------------------------------------------------------------------------------------

#: The lines on what is kept, in their order.
_ABOUT: Final = ("yard", "person", "why", "weather", "seen", "others")


def _privacy_buttons(talk: Talk, *, keeps_unread: bool) -> Buttons:
    last = []
    if talk.around.keeps_unread:
        key, action = ("unread_off", KEEP_NO_UNREAD) if keeps_unread else ("unread_on", KEEP_UNREAD)
        last = [(talk.say(f"parting.button_{key}"), action)]
    first = [
        (talk.say("parting.button_file"), "parting:file"),
        (talk.say("parting.button_erase"), "parting:erase"),
    ]
    return rows(first, last)


def _keep_unread(talk: Talk, *, keeps: bool) -> list[Reply]:
    if keeps and not talk.around.keeps_unread:
        return [talk.reply("parting.unread_not_here")]
    uses.keep_unread(talk.work, talk.chat.id, keeps=keeps)
    key = "parting.unread_on" if keeps else "parting.unread_off"
    return [talk.reply(key, days=tidy.UNREAD_KEPT_FOR.days)]


def _everything(talk: Talk) -> list[Reply]:
    """Write all that is kept into one file; in a group what is the group's alone."""
    person_id = None if talk.turn.is_group else talk.person.id
    found = uses.everything(talk.work, talk.chat.id, person_id)
    folder = talk.around.files / f"chat-{talk.chat.id}"
    path = folder / f"everything-{talk.now.date().isoformat()}.json"
    whole = {"made_at": talk.now.isoformat(), **found}
    text = json.dumps(whole, ensure_ascii=False, indent=1)

    def write() -> None:
        folder.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")

    talk.afterwards.append(write)
    count = sum(len(each) for each in found.values())
    return [Reply(talk.say("parting.everything", count=count), file=str(path))]


HANDLERS: Final = {
    "remove_yard": on_remove_yard,
    "stop_alerts": on_stop_alerts,
    "ask_privacy": on_ask_privacy,
    "erase": on_erase,
}
