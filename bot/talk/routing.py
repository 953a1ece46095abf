"""Where a turn goes: places, photos and taps at once; words by what was heard."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from bot.dialogue import named_here, place_first, rights, sizes_waiting, topics, unkept
from bot.dialogue.scene import scene_of
from bot.dialogue.talk import Talk
from bot.dialogue.typed_buttons import buttons_of
from bot.hearing import emergency
from bot.hearing.acts import ACTS
from bot.hearing.forms.yard_forms import WhereSaid
from bot.hearing.hear import hear, hear_as
from bot.hearing.heard import ActHeard, Heard, Slots
from bot.hearing.normal import told_language
from bot.hearing.readers.lexing import count_figures
from bot.hearing.readers.whose_place import name_of_place
from bot.hearing.readers.yard_lists import find_list
from bot.saying.catalogue import is_whole
from bot.talk import doing, every_yard, label_photos, many_yards, registering, walking, which_yard
from bot.talk.commands import COMMANDS_BY_WORD, words_of
from bot.talk.meanwhile import with_meanwhile
from bot.talk.taps import act_of, tap
from bot.turn import LONGEST_ACTION, Reply
from jobs.sources.gazetteer import names_town
from storage.yards import YardRecord

#: Longest text that is read, and the most figures in one; what is more is refused whole.
LONGEST_TEXT: Final = 2000
MOST_FIGURES: Final = 400
#: A list of thirty yards is longer: the platform takes so much in one message.
LONGEST_LIST: Final = 4096
#: What a deep link carries that opens a yard: ``https://t.me/BOT?start=yard_3``.
_YARD_LINK: Final = "yard_"

#: So many turns of a person tell which language they write.
_FIRST_TURNS: Final = 6

#: Numbers of rows are no larger on any database.
_LARGEST: Final = 2**31 - 1

Answer = list[Reply]


def route(talk: Talk) -> Answer:
    """Answer a turn."""
    turn = talk.turn
    talk.let_go_of_the_gone()
    place = turn.place
    if place is not None:
        return doing.bounded(talk, lambda: _place(talk, *place))
    if turn.photo is not None:
        yard = talk.yard()
        if yard is not None and not talk.may(yard, "change"):
            return rights.refuse(talk, yard)
        return label_photos.keep_photo(talk, turn.photo)
    if turn.document is not None:
        return doing.bounded(talk, lambda: many_yards.take_file(talk, turn.table))
    if turn.tap is not None:
        return _tapped(talk, turn.tap) if is_sound(turn.tap) else [talk.stale()]
    return said(talk, (turn.text or "").strip())


def is_sound(action: str) -> bool:
    """Tell whether an action can be one of ours: plain characters, and numbers that rows may have.

    Actions come back from people's own programs, which may send anything.
    """
    is_plain = 0 < len(action) <= LONGEST_ACTION and all("!" <= each <= "~" for each in action)
    parts = action.split(":")
    return is_plain and all(int(each) <= _LARGEST for each in parts if each.isdigit())


def _place(talk: Talk, lat: float, lon: float) -> Answer:
    corner = walking.place(talk, lat, lon)
    if corner is not None:
        return corner
    meanwhile = place_first.said_meanwhile(talk)
    return with_meanwhile(talk, registering.place(talk, lat, lon), meanwhile)


def _tapped(talk: Talk, action: str) -> Answer:
    if not action.startswith("hear:"):
        kept = [] if action.startswith("zones:") else unkept.before(talk, act_of(action))
        return unkept.said_first(kept, doing.bounded(talk, lambda: tap(talk, action)))
    if talk.topic == topics.WHICH_YARD and action.startswith("hear:at:"):
        text, act, number = str(talk.data["said"]), str(talk.data["act"]), action[8:]
        return _at_yard(talk, int(number), text, act) if number.isdigit() else [talk.stale()]
    if talk.topic != topics.CHOOSE:
        return [talk.stale()]
    act, text = action.removeprefix("hear:"), str(talk.data["said"])
    if act not in talk.data["between"]:
        return [talk.stale()]
    talk.settle()
    heard = Heard(acts=(hear_as(act, text, scene_of(talk)),))
    return _where_meant(talk, heard, text, act)


def _where_meant(talk: Talk, heard: Heard, text: str, act: str = "") -> Answer:
    """Do what was heard, a report at the yard it is of; where that is not plain, ask."""
    everywhere = every_yard.answer(talk, heard)
    if everywhere is not None:
        return doing.together(everywhere)
    of = which_yard.of(talk, heard, text, act)
    if isinstance(of, list):
        return doing.together(of)
    at = talk.yard()
    if of is None or at is None or of.id == at.id:
        return doing.done(talk, heard)
    return _at_yard(talk, of.id, text, act)


def _at_yard(talk: Talk, yard_id: int, text: str, act: str = "") -> Answer:
    """Do what was said, read anew with the zones of a yard; 0 stands for every one."""
    asked = [yard for yard in talk.yards() if yard_id in (0, yard.id)]
    replies: Answer = []
    for yard in asked:
        talk.turn_to(yard.id)
        talk.settle()
        known = Heard(acts=(hear_as(act, text, scene_of(talk)),)) if act else None
        heard = known or _heard(talk, text)
        replies += doing.done(talk, _said_of(heard, yard))
    return doing.together(replies) if replies else [talk.stale()]


def _said_of(heard: Heard, yard: YardRecord) -> Heard:
    """Return what was heard of a yard, where it was named by a name that others bear as well."""
    acts = [
        replace(act, slots=replace(act.slots, yard=None))
        if act.slots.yard is not None and yard.name.startswith(act.slots.yard)
        else act
        for act in heard.acts
    ]
    return replace(heard, acts=tuple(acts))


def said(talk: Talk, text: str) -> Answer:
    """Answer words: a command as it stands, a button's words, and all else by what was heard."""
    too_much = _too_much(talk, text)
    if too_much is not None:
        # Refused whole: of a text that is cut, a size or a dose may be cut in two.
        is_urgent = emergency.speaks_of_one(text[:LONGEST_TEXT])
        return [talk.reply("help.emergency"), too_much] if is_urgent else [too_much]
    _follow(talk, text)
    talk.heard = _with_place(talk, _heard(talk, text), text)
    action = talk.heard.acts[0].slots.option if talk.heard.acts else None
    if action is not None:
        return _tapped(talk, action)
    if _is_of_new_place(talk, talk.heard):
        registered = registering.new(talk)
        return [*registered, *doing.do(talk, hear_as("measure", text, scene_of(talk)))]
    named = _yard_named(talk, talk.heard)
    if named is not None:
        return _at_yard(talk, named, str(talk.data["said"]), str(talk.data["act"]))
    return _where_meant(talk, talk.heard, text)


def _with_place(talk: Talk, heard: Heard, text: str) -> Heard:
    """Return what was heard, the first yard's place told beside it: "no clue, Knoxville TN"."""
    acts = {each.act for each in heard.acts}
    is_option = any(each.slots.option is not None for each in heard.acts)
    if talk.yards() or is_option or acts & _WITHOUT_PLACE or not names_town(text):
        return heard
    slots = Slots(read=WhereSaid(text), name=name_of_place(text))
    place = ActHeard("give_place", slots, text, "grammar", 1.0)
    others = [each for each in heard.acts if each.act not in _COURTESIES]
    return replace(heard, acts=(place, *others), choose=())


#: What has its place already, or no time for one; and what a place answers as well.
_WITHOUT_PLACE: Final = frozenset({"give_place", "add_yard", "emergency", "join", "erase"})
_COURTESIES: Final = frozenset({"greet", "help", "unknown", "other"})


def _is_of_new_place(talk: Talk, heard: Heard) -> bool:
    """Tell whether sizes follow a place of which nobody has said yet that it is a new yard.

    Whoever moves a yard that has its sizes does not say them again.
    """
    yard = talk.yard()
    is_asked = talk.topic == topics.MOVE
    return (
        is_asked
        and yard is not None
        and bool(sizes_waiting.areas(talk, yard))
        and [each.act for each in heard.acts] == ["measure"]
        and heard.acts[0].slots.read is not None
    )


def _yard_named(talk: Talk, heard: Heard) -> int | None:
    """Return the yard that a text names in answer to which of them is meant."""
    act = heard.acts[0] if len(heard.acts) == 1 else None
    if talk.topic != topics.WHICH_YARD or act is None or act.act != "turn_to_yard":
        return None
    found = named_here.find_yard(talk.yards(), act.slots.yard or act.slots.name or "")
    return found[0].id if len(found) == 1 else None


def _follow(talk: Talk, text: str) -> None:
    """Answer who only just came in the language they plainly write; later they say which."""
    has_said = talk.turn.is_group and talk.person.language is not None
    if has_said or talk.dialogue.version >= _FIRST_TURNS:
        return
    language = told_language(text)
    if language is not None and language != talk.chat.language and is_whole(language):
        talk.use_language(language)


def _too_much(talk: Talk, text: str) -> Reply | None:
    is_list = LONGEST_TEXT < len(text) <= LONGEST_LIST and find_list(text) is not None
    if len(text) > LONGEST_TEXT and not is_list:
        return talk.reply("help.too_long", most=LONGEST_TEXT, characters=len(text))
    if count_figures(text) > MOST_FIGURES:
        return talk.reply("bounds.figures", most=MOST_FIGURES)
    return None


def _heard(talk: Talk, text: str) -> Heard:
    slashed = words_of(text)
    if slashed is None:
        return _of_words(talk, text)
    word, rest = slashed
    scene = scene_of(talk)
    if word == "redo":
        # Undo offers it; it needs no place in the menu.
        return Heard(acts=(hear_as("undo", word, scene),))
    number = rest.removeprefix(_YARD_LINK)
    if word == "start" and number != rest and is_sound(number) and number.isdigit():
        # A link opens a yard of this chat, as its button would; of another chat's it is stale.
        opened = Slots(option=f"yard:go:{number}")
        return Heard(acts=(ActHeard("turn_to_yard", opened, text, "command"),))
    found = COMMANDS_BY_WORD.get(word)
    if found is None:
        # What is no command of ours may still be words: /stop, /privacy.
        return _of_words(talk, text[1:])
    act = hear_as(found.act_for(rest), rest, scene, word)
    if act.act == "turn_to_yard" and rest and act.slots.yard is None and act.slots.name is None:
        act = replace(act, slots=replace(act.slots, name=rest))
    is_look = not ACTS[act.act].changes and act.act != "cancel"
    keeps = is_look and talk.topic in topics.STANDING
    if not keeps and act.act != "cancel":
        talk.settle()
    return Heard(acts=(replace(act, why="command"),), keeps_pending=keeps)


def _of_words(talk: Talk, text: str) -> Heard:
    """Return what was heard, the words of a button as the act of that button."""
    heard = hear(text, replace(scene_of(talk), buttons=buttons_of(talk)))
    acts = [
        act if act.slots.option is None else replace(act, act=act_of(act.slots.option))
        for act in heard.acts
    ]
    return replace(heard, acts=tuple(acts))


def understood(replies: Answer, heard: Heard | None) -> Answer:
    """Put what was understood beside the first reply, for those who look at it."""
    if heard is None or not replies:
        return replies
    first, *others = replies
    return [replace(first, understood=tuple(heard.understood())), *others]
