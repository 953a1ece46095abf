"""Where a turn goes: places, photos and taps at once; words by what was heard."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from typing import Final

from bot.hearing import emergency
from bot.hearing.acts import ACTS
from bot.hearing.hear import hear, hear_as
from bot.hearing.heard import ActHeard, Heard, Slots
from bot.hearing.normal import told_language
from bot.hearing.readers.lexing import plain
from bot.saying.catalogue import is_whole
from bot.talk import (
    every_yard,
    facts,
    inviting,
    many_yards,
    measuring,
    registering,
    sketching,
    topics,
    turning,
    unread_kept,
    walking,
    which_yard,
    yes_or_no,
)
from bot.talk.commands import COMMANDS_BY_WORD, words_of
from bot.talk.scene import asked_of, scene_of
from bot.talk.table import BEFOREHAND, HANDLERS
from bot.talk.talk import Talk
from bot.talk.taps import act_of, tap, with_meanwhile
from bot.talk.typed_buttons import buttons_of
from bot.turn import LONGEST_ACTION, Reply, rows
from jobs.uses.bounds import OutOfBounds
from storage import yards as yard_rows

#: Longest text that is read, and the most figures in one; what is more is refused whole.
LONGEST_TEXT: Final = 2000
MOST_FIGURES: Final = 400
#: What a deep link carries that opens a yard: ``https://t.me/BOT?start=yard_3``.
_YARD_LINK: Final = re.compile(r"yard_(?P<id>\d{1,9})")
_FIGURE: Final = re.compile(r"\d+")

#: So many turns of a person tell which language they write.
_FIRST_TURNS: Final = 6

#: What is kept of zones by reports of work done there.
_ON_ZONES: Final = frozenset(
    {"report_applied", "report_gap", "report_watered", "report_seeded", "report_service"}
)
#: Numbers of rows are no larger on any database.
_LARGEST: Final = 2**31 - 1

Answer = list[Reply]


def route(talk: Talk) -> Answer:
    """Answer a turn."""
    turn = talk.turn
    talk.let_go_of_the_gone()
    place = turn.place
    if place is not None:
        return _bounded(talk, lambda: _place(talk, *place))
    if turn.photo is not None:
        yard = talk.yard()
        if yard is not None and not talk.may(yard, "change"):
            return inviting.refuse(talk, yard)
        return sketching.keep_photo(talk, turn.photo)
    if turn.document is not None:
        return _bounded(talk, lambda: many_yards.take_file(talk, turn.table))
    if turn.tap is not None:
        return _tapped(talk, turn.tap) if is_sound(turn.tap) else [_stale(talk)]
    return said(talk, (turn.text or "").strip())


def is_sound(action: str) -> bool:
    """Tell whether an action can be one of ours: plain characters, and numbers that rows may have.

    Actions come back from people's own programs, which may send anything.
    """
    is_plain = 0 < len(action) <= LONGEST_ACTION and all("!" <= each <= "~" for each in action)
    parts = action.split(":")
    return is_plain and all(int(each) <= _LARGEST for each in parts if each.isdigit())


def _stale(talk: Talk) -> Reply:
    return talk.reply("help.button_stale", hint=talk.say("help.hint_yard"))


def _bounded(talk: Talk, answer: Callable[[], Answer]) -> Answer:
    """Answer, or say which bound there is."""
    try:
        return answer()
    except OutOfBounds as bound:
        return [talk.reply(f"bounds.{bound.bound}", most=bound.most)]


def _place(talk: Talk, lat: float, lon: float) -> Answer:
    corner = walking.place(talk, lat, lon)
    if corner is not None:
        return corner
    meanwhile = registering.said_meanwhile(talk)
    return with_meanwhile(talk, registering.place(talk, lat, lon), meanwhile)


def _tapped(talk: Talk, action: str) -> Answer:
    if not action.startswith("hear:"):
        return _bounded(talk, lambda: tap(talk, action))
    if talk.topic == topics.WHICH_YARD and action.startswith("hear:at:"):
        text, act, number = str(talk.data["said"]), str(talk.data["act"]), action[8:]
        return _at_yard(talk, int(number), text, act) if number.isdigit() else [_stale(talk)]
    if talk.topic != topics.CHOOSE:
        return [_stale(talk)]
    act, text = action.removeprefix("hear:"), str(talk.data["said"])
    if act not in talk.data["between"]:
        return [_stale(talk)]
    talk.settle()
    heard = Heard(acts=(hear_as(act, text, scene_of(talk)),))
    return _where_meant(talk, heard, text, act)


def _where_meant(talk: Talk, heard: Heard, text: str, act: str = "") -> Answer:
    """Do what was heard, a report at the yard it is of; where that is not plain, ask."""
    everywhere = every_yard.answer(talk, heard)
    if everywhere is not None:
        return everywhere
    of = which_yard.of(talk, heard, text, act)
    if isinstance(of, list):
        return of
    at = talk.yard()
    if of is None or at is None or of.id == at.id:
        return _done(talk, heard)
    return _at_yard(talk, of.id, text, act)


def _at_yard(talk: Talk, yard_id: int, text: str, act: str = "") -> Answer:
    """Do what was said, read anew with the zones of a yard; 0 stands for every one."""
    asked = [yard for yard in talk.yards() if yard_id in (0, yard.id)]
    replies: Answer = []
    for yard in asked:
        talk.turn_to(yard.id)
        talk.settle()
        known = Heard(acts=(hear_as(act, text, scene_of(talk)),)) if act else None
        replies += _done(talk, known or _heard(talk, text))
    return _together(replies) if replies else [_stale(talk)]


def said(talk: Talk, text: str) -> Answer:
    """Answer words: a command as it stands, a button's words, and all else by what was heard."""
    too_much = _too_much(talk, text)
    if too_much is not None:
        # Refused whole: of a text that is cut, a size or a dose may be cut in two.
        is_urgent = emergency.speaks_of_one(text[:LONGEST_TEXT])
        return [talk.reply("help.emergency"), too_much] if is_urgent else [too_much]
    _follow(talk, text)
    talk.heard = _heard(talk, text)
    action = talk.heard.acts[0].slots.option if talk.heard.acts else None
    if action is not None:
        return _tapped(talk, action)
    if _is_of_new_place(talk, talk.heard):
        registered = registering.new(talk)
        return [*registered, *_do(talk, hear_as("measure", text, scene_of(talk)))]
    named = _yard_named(talk, talk.heard)
    if named is not None:
        return _at_yard(talk, named, str(talk.data["said"]), str(talk.data["act"]))
    return _where_meant(talk, talk.heard, text)


def _is_of_new_place(talk: Talk, heard: Heard) -> bool:
    """Tell whether sizes follow a place of which nobody has said yet that it is a new yard.

    Whoever moves a yard that has its sizes does not say them again.
    """
    yard = talk.yard()
    is_asked = talk.topic == topics.MOVE
    return (
        is_asked
        and yard is not None
        and bool(yard_rows.zones(talk.work, yard.id))
        and [each.act for each in heard.acts] == ["measure"]
        and heard.acts[0].slots.read is not None
    )


def _yard_named(talk: Talk, heard: Heard) -> int | None:
    """Return the yard that a text names in answer to which of them is meant."""
    act = heard.acts[0] if len(heard.acts) == 1 else None
    if talk.topic != topics.WHICH_YARD or act is None or act.act != "turn_to_yard":
        return None
    found = turning.find(talk.yards(), act.slots.yard or act.slots.name or "")
    return found[0].id if len(found) == 1 else None


def _follow(talk: Talk, text: str) -> None:
    """Answer who only just came in the language they plainly write; later they say which."""
    if talk.turn.is_group or talk.dialogue.version >= _FIRST_TURNS:
        return
    language = told_language(text)
    if language is not None and language != talk.chat.language and is_whole(language):
        talk.use_language(language)


def _too_much(talk: Talk, text: str) -> Reply | None:
    if len(text) > LONGEST_TEXT:
        return talk.reply("help.too_long", most=LONGEST_TEXT, characters=len(text))
    if len(_FIGURE.findall(plain(text).text)) > MOST_FIGURES:
        return talk.reply("bounds.figures", most=MOST_FIGURES)
    return None


def _heard(talk: Talk, text: str) -> Heard:
    scene = replace(scene_of(talk), buttons=buttons_of(talk))
    slashed = words_of(text)
    if slashed is None:
        return _of_button(hear(text, scene))
    word, rest = slashed
    if word == "redo":
        # Undo offers it; it needs no place in the menu.
        return Heard(acts=(hear_as("undo", word, scene),))
    linked = _YARD_LINK.fullmatch(rest) if word == "start" else None
    if linked is not None:
        # A link opens a yard of this chat, as its button would; of another chat's it is stale.
        opened = Slots(option=f"yard:go:{linked['id']}")
        return Heard(acts=(ActHeard("turn_to_yard", opened, text, "command"),))
    found = COMMANDS_BY_WORD.get(word)
    if found is None:
        # What is no command of ours may still be words: /stop, /privacy.
        return _of_button(hear(text[1:], scene))
    act = hear_as(found.act_for(rest), rest, scene, word)
    if act.act == "turn_to_yard" and rest and act.slots.yard is None and act.slots.name is None:
        act = replace(act, slots=replace(act.slots, name=rest))
    is_look = not ACTS[act.act].changes and act.act != "cancel"
    keeps = is_look and talk.topic in topics.STANDING
    if not keeps and act.act != "cancel":
        talk.settle()
    return Heard(acts=(replace(act, why="command"),), keeps_pending=keeps)


def _of_button(heard: Heard) -> Heard:
    """Return what was heard, the words of a button as the act of that button."""
    acts = [
        act if act.slots.option is None else replace(act, act=act_of(act.slots.option))
        for act in heard.acts
    ]
    return replace(heard, acts=tuple(acts))


def _done(talk: Talk, heard: Heard) -> Answer:
    topic, data = talk.topic, dict(talk.data)
    replies: Answer = []
    for act in heard.acts:
        replies += _do(talk, act)
    replies = _together(replies)
    if heard.choose and not talk.yards():
        # Neither of two changes can be meant of a yard that is not there; a place makes the first.
        placed = [
            each
            for each in heard.choose
            if each.act in ("give_place", "add_yard") and isinstance(each.slots.read, str | tuple)
        ]
        if placed and not replies:
            return _do(talk, replace(placed[0], act="give_place"))
        return replies or registering.need(talk)
    if heard.choose:
        return [*replies, _which(talk, heard.choose)]
    is_overtaken = topic in _REPORTS and any(act.act in _RECORDED for act in heard.acts)
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


#: Questions about a report, and what puts something else on record in their place.
_REPORTS: Final = frozenset({topics.RAN_OUT, topics.APPLY_SURE})
_RECORDED: Final = frozenset({"report_applied", "report_gap", "change_record", "undo"})


def _together(replies: Answer) -> Answer:
    """Return what answers several acts of one message as one message, where it fits into one."""
    if len(replies) < 2 or any(not _is_words(each) for each in replies):
        return replies
    text = "\n\n".join(dict.fromkeys(each.text for each in replies))
    # What a message changed is taken back together, by any of its buttons.
    buttons = {each.label: each for reply in replies for row in reply.buttons for each in row}
    if len(text) > _LONGEST_TOGETHER or len(buttons) > _MOST_TOGETHER:
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
    return [*before, replace(last, text=f"{last.text}\n{talk.say(f'hearing.back.{asked.again}')}")]


def _do(talk: Talk, act: ActHeard) -> Answer:
    """Do one act, within what there may be."""
    return _bounded(talk, lambda: _do_it(talk, act))


def _do_it(talk: Talk, act: ActHeard) -> Answer:
    """Do one act: on the yard it names, by whoever may."""
    if act.act in ("confirm", "deny"):
        settled = yes_or_no.settle(talk, is_yes=act.act == "confirm")
        if settled is not None:
            return settled
    if act.act == "unknown" and act.why != "command":
        unread_kept.note(talk, act.said)
    there = _there(talk, act)
    if isinstance(there, list):
        return there
    act, yard = there, talk.yard()
    if act.slots.about is not None:
        return facts.answer(talk, yard, act)
    refused = inviting.refuse_act(talk, yard, act.act)
    if refused is not None:
        return refused
    if yard is None:
        return _without_yard(talk, act)
    if act.slots.strangers and act.act in _ON_ZONES:
        # A report of ground we do not know is none of the ground we know.
        asked = measuring.no_such(talk, yard, act.slots.strangers)
        return [*HANDLERS[act.act](talk, yard, act), asked] if act.slots.zones else [asked]
    return HANDLERS[act.act](talk, yard, act)


def _without_yard(talk: Talk, act: ActHeard) -> Answer:
    """Answer where there is no yard yet: what needs none, what has a general answer, else ask."""
    if ACTS[act.act].needs == "none":
        meanwhile = registering.said_meanwhile(talk)
        return with_meanwhile(talk, HANDLERS[act.act](talk, None, act), meanwhile)
    if ACTS[act.act].is_for_anywhere:
        return BEFOREHAND[act.act](talk, None, act)
    return registering.need(talk, act)


def _there(talk: Talk, act: ActHeard) -> ActHeard | Answer:
    """Turn to the yard an act names, and read its zones there; ask where the name is of several."""
    name = act.slots.yard
    if name is None or act.act == "turn_to_yard":
        return act
    mine = talk.yards()
    found = [yard for yard in mine if yard.name == name] or turning.find(mine, name)
    if len(found) > 1:
        return turning.which(talk, found)
    at = talk.yard()
    if not found or at is None or found[0].id == at.id:
        return act
    talk.turn_to(found[0].id)
    slots = act.slots
    if act.act == "report_applied" and slots.read is not None:
        # Its zones and parts are those of that yard.
        return replace(act, slots=hear_as(act.act, act.said, scene_of(talk)).slots)
    if slots.zones and slots.read is None:
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


def understood(replies: Answer, heard: Heard | None) -> Answer:
    """Put what was understood beside the first reply, for those who look at it."""
    if heard is None or not replies:
        return replies
    first, *others = replies
    return [replace(first, understood=tuple(heard.understood())), *others]
