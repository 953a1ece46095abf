"""What was heard is done: each act on the yard it names, by whoever may, in one answer."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Final, TypeAlias

from bot.dialogue import (
    named_here,
    place_first,
    rights,
    sizes_waiting,
    topics,
    typed_buttons,
    unkept,
)
from bot.dialogue.scene import asked_of, scene_of
from bot.dialogue.talk import Talk
from bot.hearing.acts import ACTS
from bot.hearing.forms.yard_forms import WhereSaid
from bot.hearing.hear import hear_as
from bot.hearing.heard import ActHeard, Heard
from bot.paging import is_one_page
from bot.talk import applying, beforehand, unread_kept, which_yard
from bot.talk.meanwhile import with_meanwhile
from bot.telling import parts_said
from bot.turn import Reply, rows
from jobs.sources.gazetteer import find_places
from jobs.uses.bounds import OutOfBounds
from storage.yards import YardRecord

#: What is kept of zones by reports of work done there.
_ON_ZONES: Final = frozenset({"report_applied", "report_gap", "report_watered", "report_seeded"})

Answer: TypeAlias = list[Reply]


def bounded(talk: Talk, answer: Callable[[], Answer]) -> Answer:
    """Answer, or say which bound there is."""
    try:
        return answer()
    except OutOfBounds as bound:
        return [talk.reply(f"bounds.{bound.bound}", most=bound.most)]


def done(talk: Talk, heard: Heard) -> Answer:
    """Do all that was heard, ask what is still open, and take up again what waits."""
    topic, data, had_sizes = talk.topic, dict(talk.data), sizes_waiting.are_there(talk)
    replies: Answer = []
    for act in heard.acts:
        replies += do(talk, act)
    replies = together(replies)
    if heard.choose and not talk.yards():
        # Neither of two changes can be meant of a yard that is not there; a place makes the first.
        placed = [
            each
            for each in heard.choose
            if each.act in ("give_place", "add_yard") and _is_place(each.slots.read)
        ]
        if placed and not replies:
            return do(talk, replace(placed[0], act="give_place"))
        # "What is this", to somebody who just came in, means the bot.
        helps = [each for each in heard.choose if each.act == "help"]
        return replies or (do(talk, helps[0]) if helps else place_first.need(talk))
    if heard.choose:
        return [*replies, _which(talk, heard.choose)]
    is_overtaken = any(act.act in _OVERTAKEN_BY.get(topic or "", ()) for act in heard.acts)
    # Sizes that were kept by going on need no [Keep] any more.
    is_overtaken = is_overtaken or (had_sizes and not sizes_waiting.are_there(talk))
    if heard.keeps_pending and topic is not None and talk.topic is None and not is_overtaken:
        talk.topic, talk.data = topic, data
    is_waiting = heard.keeps_pending and topic is not None and talk.topic == topic
    is_waiting = is_waiting and not talk.has_asked
    asked = asked_of(talk)
    if asked is not None and any(act.act == asked.act for act in heard.acts):
        # What was said about it has been answered with the next question.
        return replies
    is_courtesy = {act.act for act in heard.acts} <= _NO_INTERRUPTION
    return replies if is_courtesy or not is_waiting else _taken_up_again(talk, replies)


def _is_place(read: object) -> bool:
    """Tell whether what was heard is a place, or words that are one: "Springfield"."""
    return isinstance(read, str | tuple) or (
        isinstance(read, WhereSaid) and bool(find_places(read.words))
    )


_RECORDED: Final = ("report_applied", "report_gap", "change_record", "undo")
#: Questions about a report, and what puts something else on record in their place.
_OVERTAKEN_BY: Final = {
    topics.RAN_OUT: _RECORDED,
    topics.APPLY_SURE: _RECORDED,
    topics.WATER_DEPTH: ("report_watered", "set_sprinkler"),
}


def together(replies: Answer) -> Answer:
    """Return what answers several acts of one message as one message, where it fits into one."""
    if len(replies) < 2 or any(not _is_words(each) for each in replies):
        return replies
    text = "\n\n".join(dict.fromkeys(each.text for each in replies))
    # What a message changed is taken back together, by any of its buttons.
    buttons = {each.label: each for reply in replies for row in reply.buttons for each in row}
    is_long = len(text) > _LONGEST_TOGETHER or not is_one_page(text)
    if is_long or len(buttons) > _MOST_TOGETHER:
        return replies
    every = list(buttons.values())
    in_rows = tuple(tuple(every[at : at + 3]) for at in range(0, len(every), 3))
    return [replace(replies[0], text=text, buttons=in_rows)]


#: Longer, or with more buttons, answers are read more easily one by one.
_LONGEST_TOGETHER: Final = 1500
_MOST_TOGETHER: Final = 6


def _is_words(reply: Reply) -> bool:
    is_more = reply.picture or reply.file or reply.drawing or reply.replaces or reply.asks_place
    return not is_more and reply.data is None


#: What needs no word on the question that waits: it was hardly left, or there is no time for it.
_NO_INTERRUPTION: Final = frozenset({"emergency", "greet", "thanks", "cancel", "deny"})


def _taken_up_again(talk: Talk, replies: Answer) -> Answer:
    """Put the question that waits once more, in one line under the answer to something else.

    Once a day is enough: it goes on waiting, without a word under everything that is said.
    """
    asked = asked_of(talk)
    day = talk.now.date().isoformat()
    is_put = talk.data.get("put_again") == day
    if asked is None or is_put or not replies or any(reply.asks_place for reply in replies):
        return replies
    talk.data = {**talk.data, "put_again": day}
    *before, last = replies
    text = f"{last.text}\n{talk.say(f'hearing.back.{asked.again}')}"
    room = not last.buttons or _is_words(last)
    again = typed_buttons.of_question(talk) if room else ()
    return [*before, replace(last, text=text, buttons=(*last.buttons, *again))]


def do(talk: Talk, act: ActHeard) -> Answer:
    """Do one act, within what there may be."""
    return bounded(talk, lambda: _do_it(talk, act))


def _do_it(talk: Talk, act: ActHeard) -> Answer:
    """Do one act: on the yard it names, by whoever may."""
    if act.act in ("confirm", "deny"):
        settled = talk.answers.yes_or_no(talk, act.act == "confirm")
        if settled is not None:
            return settled
    if act.act == "unknown" and act.why != "command":
        unread_kept.note(talk, act.said)
    there = _there(talk, act)
    if isinstance(there, list):
        return there
    act, yard = there, talk.yard()
    if act.slots.about is not None:
        return beforehand.answer_fact(talk, yard, act)
    kept = unkept.before(talk, act.act)
    return unkept.said_first(kept, _handled(talk, yard, act))


def _handled(talk: Talk, yard: YardRecord | None, act: ActHeard) -> Answer:
    refused = rights.refuse_act(talk, yard, act.act)
    if refused is not None:
        return refused
    if yard is None:
        return _without_yard(talk, act)
    if act.slots.strangers and act.act in _ON_ZONES:
        # A report of ground we do not know is none of the ground we know.
        if act.act == "report_applied":
            return applying.ask_ground(talk, yard, act)
        asked = parts_said.no_such(talk, yard, act.slots.strangers)
        return [*talk.answer(act.act, yard, act), asked] if act.slots.zones else [asked]
    return talk.answer(act.act, yard, act)


def _without_yard(talk: Talk, act: ActHeard) -> Answer:
    """Answer where there is no yard yet: what needs none, what has a general answer, else ask."""
    if act.act == "ask_identify" and act.slots.weed is None:
        # "What is this", to somebody who just came in, means the bot.
        act = replace(act, act="greet")
    if act.act == "add_yard" and act.why == "ranker" and isinstance(act.slots.read, WhereSaid):
        # "I have two lawns to look after" names no place of the first.
        return place_first.need(talk, act)
    if ACTS[act.act].needs == "none":
        meanwhile = place_first.said_meanwhile(talk)
        return with_meanwhile(talk, talk.answer(act.act, None, act), meanwhile)
    if ACTS[act.act].is_for_anywhere:
        return talk.answers.beforehand[act.act](talk, None, act)
    return place_first.need(talk, act)


def _there(talk: Talk, act: ActHeard) -> ActHeard | Answer:
    """Turn to the yard an act names, and read its zones there; ask where the name is of several."""
    name = act.slots.yard
    if name is None or act.act == "turn_to_yard":
        return act
    mine = talk.yards()
    found = named_here.named_like(mine, name)
    if len(found) > 1:
        return which_yard.ask(talk, found, act.said, act.act)
    at = talk.yard()
    if not found or at is None or found[0].id == at.id:
        return act
    talk.turn_to(found[0].id)
    slots = act.slots
    if act.act == "report_applied" and slots.read is not None:
        # Its zones and parts are those of that yard.
        return replace(act, slots=hear_as(act.act, act.said, scene_of(talk)).slots)
    if (slots.zones or slots.strangers) and slots.read is None:
        # Words like "front" or "all of it" mean the zones of that yard, not of the one before.
        read = hear_as(act.act, act.said, scene_of(talk)).slots
        slots = replace(slots, zones=read.zones, all_zones=read.all_zones, strangers=read.strangers)
    return replace(act, slots=slots)


def _which(talk: Talk, between: tuple[ActHeard, ...]) -> Reply:
    """Ask which of two readings is meant; nothing is changed until that is said."""
    acts = list(dict.fromkeys(each.act for each in between))
    talk.expect(topics.CHOOSE, said=between[0].said, between=acts)
    lines = [[(talk.say(f"hearing.do.{act}"), f"hear:{act}")] for act in acts]
    return talk.reply("hearing.which", rows(*lines))
