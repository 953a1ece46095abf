"""Where a turn goes: emergencies, commands, a name that was asked for, plain words, subjects."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Final

from bot.hearing.readers.sizes import looks_like_zones
from bot.talk import (
    applying,
    buying,
    crews,
    days,
    emergency,
    everyday,
    grass,
    labelling,
    machines,
    naming,
    products,
    readings,
    rounds_of_work,
    scouting,
    screening,
    sketching,
    turning,
    walking,
    watering,
    weeds,
    wishes,
    yards,
    year_words,
    zones,
)
from bot.talk.commands import COMMANDS, command, unknown
from bot.talk.talk import OWNER, Talk
from bot.talk.taps import new_yard, tap, with_meanwhile
from bot.turn import Reply
from storage import yards as yard_rows
from storage.yards import YardRecord

#: Longest text that is read; a longer one is no sentence for a bot.
LONGEST_TEXT: Final = 2000

Answer = list[Reply]


def route(talk: Talk) -> Answer:
    """Answer a turn."""
    turn = talk.turn
    talk.let_go_of_the_gone()
    if turn.place is not None:
        corner = walking.place(talk, *turn.place)
        if corner is not None:
            return corner
        meanwhile = yards.said_meanwhile(talk)
        return with_meanwhile(talk, yards.place(talk, *turn.place), meanwhile)
    if turn.photo is not None:
        yard = talk.yard()
        if yard is not None and not talk.may(yard, "change"):
            return crews.refuse(talk, yard)
        return sketching.keep_photo(talk, turn.photo)
    if turn.tap is not None:
        return tap(talk, turn.tap) if is_sound(turn.tap) else [_stale(talk)]
    text = (turn.text or "").strip()
    if len(text) > LONGEST_TEXT:
        # Refused whole: of a text that is cut, a size or a dose may be cut in two.
        too_long = talk.reply("help.too_long", most=LONGEST_TEXT, characters=len(text))
        return (
            [talk.reply("help.emergency"), too_long] if emergency.is_emergency(text) else [too_long]
        )
    if emergency.is_emergency(text):
        first = talk.reply("help.emergency")
        # Sizes of a strip along the storm drain are sizes too; nothing said is lost.
        is_more = looks_like_zones(text) or _is_only_a_zone_name(talk, text)
        return [first, *_text(talk, text)] if is_more else [first]
    return _text(talk, text)


def is_sound(action: str) -> bool:
    """Tell whether an action can be one of ours: plain characters, and numbers that rows may have.

    Actions come back from people's own programs, which may send anything.
    """
    if re.fullmatch(r"[!-~]{1,64}", action) is None:
        return False
    return all(int(number) <= _LARGEST for number in re.findall(r"[0-9]+", action))


#: Numbers of rows are no larger on any database.
_LARGEST: Final = 2**31 - 1


def _stale(talk: Talk) -> Reply:
    return talk.reply("help.button_stale", hint=talk.say("help.hint_yard"))


def _is_only_a_zone_name(talk: Talk, text: str) -> bool:
    """Tell whether it is the name of a zone alone that makes a text look like an emergency."""
    yard = talk.yard()
    if yard is None:
        return False
    named, rest = naming.find_zones(yard_rows.zones(talk.work, yard.id), text)
    return bool(named) and not emergency.is_emergency(rest)


def _text(talk: Talk, text: str) -> Answer:
    if not text:
        return [unknown(talk, text)]
    slashed = re.match(r"^/(?P<word>[A-Za-z_]+)(?:@\w+)?(?:\s+(?P<rest>.*))?$", text, re.DOTALL)
    if slashed is not None:
        return command(talk, slashed["word"].lower(), (slashed["rest"] or "").strip())
    answered = _asked_for(talk, text)
    if answered is not None:
        return answered
    code = crews.code_in(text)
    if code is not None:
        return crews.join(talk, code)
    meanwhile = yards.said_meanwhile(talk)
    place = yards.place_text(talk, text)
    if place is not None:
        return with_meanwhile(talk, place, meanwhile)
    plain = _PLAIN.get(" ".join(text.casefold().rstrip(".!?").split()))
    if plain is not None:
        return command(talk, plain, "")
    everyday_answer = everyday.take(talk, text)
    if everyday_answer is not None:
        return everyday_answer
    if _LEFT.fullmatch(text.strip(" .!?")):
        return rounds_of_work.tonight(talk)
    units = _units(talk, text)
    if units is not None:
        return units
    is_done = applying.is_report(text) or applying.is_watering(text)
    if _KEEP_OFF.search(text) and not is_done:
        return [talk.reply("help.keep_off")]
    turned = turning.take(talk, text)
    if turned is not None:
        return turned
    yard = talk.yard()
    if yard is None or talk.topic == yards.PLACE_TOPIC:
        named = yards.place_named(talk, text)
        if named is not None:
            return with_meanwhile(talk, named, meanwhile)
    elsewhere = _elsewhere(talk, text)
    if elsewhere is not None:
        return with_meanwhile(talk, elsewhere, meanwhile)
    if yard is None:
        return yards.need(talk, text if looks_like_zones(text) else meanwhile)
    if talk.role(yard) != OWNER and not talk.may(yard, _needed_for(talk, yard, text)):
        return crews.refuse(talk, yard)
    if not talk.may(yard, "change") and scouting.is_report(talk, yard, text):
        # A share that may confirm goes this far and no further, whatever else a text could mean.
        return scouting.take(talk, yard, text) or [unknown(talk, text)]
    watered_by = screening.take_water(talk, yard, text)
    if watered_by is not None:
        return watered_by
    if crews.is_about(text):
        return crews.show(talk, yard)
    reading = readings.read(talk, text)
    if reading is not None:
        return readings.take(talk, yard, reading, text)
    if applying.is_watering(text):
        return applying.watered(talk, yard, text)
    if applying.is_report(text):
        return applying.report(talk, yard, text)
    if watering.is_worry(text):
        return watering.worry(talk, yard, text)
    wish = wishes.take(talk, yard, text)
    if wish is not None:
        return wish
    if days.is_question(text):
        return days.why(talk, yard, text)
    for take in _SUBJECTS:
        answer = take(talk, yard, text)
        if answer is not None:
            return answer
    answered = _yes_or_no(talk, yard, text)
    if answered is not None:
        return answered
    awaited = _awaited(talk, text)
    if awaited is not None:
        return awaited
    return _free(talk, yard, text)


def _asked_for(talk: Talk, text: str) -> Answer | None:
    """Answer a question for a name, a time zone or a lead, before a command reads the same words.

    A yard may be called Hill, Grass or Walk Lane. What cannot be the answer is read afresh: a way
    out, a report of something done, words that are no time zone and no number of days.
    """
    if talk.topic not in (yards.NAME_TOPIC, yards.ZONE_TOPIC, yards.LEAD_TOPIC):
        return None
    if _PLAIN.get(" ".join(text.casefold().strip(" .!?").split())) in _WAYS_OUT:
        return None
    topic, yard = talk.topic, talk.yard_by_id(talk.data["yard_id"])
    if yard is None or not talk.may(yard, "change"):
        return None
    if topic == yards.NAME_TOPIC and yards.may_be_name(text):
        is_done = applying.is_report(text) or applying.is_watering(text)
        return None if is_done else yards.take_name(talk, yard, text)
    if topic == yards.ZONE_TOPIC and yards.is_timezone(text):
        return yards.take_timezone(talk, yard, text)
    if topic == yards.LEAD_TOPIC and yards.is_lead(text):
        return yards.take_lead(talk, yard, text)
    return None


def _elsewhere(talk: Talk, text: str) -> Answer | None:
    """Take ``new yard at 38.9, -96.5`` and ``new yard in Lincoln, NE``; None for other texts."""
    match = _NEW_YARD.fullmatch(text)
    if match is None:
        return None
    named = yards.place_text(talk, match["where"])
    if named is None and match["by"]:
        named = yards.place_named(talk, match["where"])
    if named is not None and match["new"] and talk.topic == yards.MOVE_TOPIC:
        return new_yard(talk)
    return named


def _free(talk: Talk, yard: YardRecord, text: str) -> Answer:
    same = _SAME_PRODUCT.fullmatch(text.strip(" .!"))
    if same is not None:
        of = turning.find(talk.yards(), same["yard"]) if same["yard"] else []
        return products.same(talk, yard, of[0] if len(of) == 1 else None)
    if _WEEDS.fullmatch(text):
        return weeds.show(talk, yard)
    if products.names_ingredient(text):
        return products.show(talk, yard, text)
    if products.is_maximum(text):
        return products.take_maximum(talk, yard, text)
    if looks_like_zones(text) or zones.is_removal(text):
        return zones.take(talk, yard, text)
    word = re.match(r"\w+", text.casefold())
    if word is not None and word[0] in _FIRST_WORDS:
        rest = text[word.end() :].strip(" :,?")
        # A yard that is named was turned to before; here "yard" is only the subject.
        return command(talk, _FIRST_WORDS[word[0]], "" if word[0] == "yard" else rest)
    return [unknown(talk, text)]


def _yes_or_no(talk: Talk, yard: YardRecord, text: str) -> Answer | None:
    """Answer a typed yes or no as the buttons under the question would; None for other texts."""
    said = text.casefold().strip(" .!,")
    is_yes = said in _YES
    if not is_yes and said not in _NO:
        return None
    match talk.topic:
        case zones.TOPIC if yard_rows.zones(talk.work, yard.id):
            return zones.keep(talk, yard) if is_yes else zones.fix(talk, yard)
        case zones.DOUBT_TOPIC:
            return zones.settle_doubt(talk, yard, is_right=is_yes)
        case zones.REMOVE_TOPIC:
            return zones.settle_removal(talk, yard, is_sure=is_yes)
        case applying.SURE_TOPIC:
            return applying.confirm_again(talk, yard) if is_yes else applying.confirm_not(talk)
        case readings.SURE_TOPIC:
            return readings.confirm(talk, yard, is_right=is_yes)
        case products.TOPIC:
            return products.yes_or_no(talk, yard, is_yes=is_yes)
    return None


def _awaited(talk: Talk, text: str) -> Answer | None:
    """Answer a text by what is awaited; None where it had better be read afresh."""
    topic = talk.topic
    if topic in (None, yards.PLACE_TOPIC, yards.MOVE_TOPIC, applying.SURE_TOPIC):
        return None
    yard = talk.yard()
    named = talk.data.get("yard_id")
    if named is not None:
        yard = talk.yard_by_id(named)
    if yard is None:
        return None
    if topic == yards.NAME_TOPIC:
        return yards.take_name(talk, yard, text)
    if topic == yards.ZONE_TOPIC:
        return yards.take_timezone(talk, yard, text)
    if topic == yards.LEAD_TOPIC:
        return yards.take_lead(talk, yard, text)
    if topic == products.TOPIC:
        return None if looks_like_zones(text) else products.take(talk, yard, text)
    if topic in (zones.TOPIC, zones.DOUBT_TOPIC):
        is_size = looks_like_zones(text) or re.search(r"\d", text) is not None
        is_zone = is_size and not products.names_ingredient(text)
        return zones.take(talk, yard, text) if is_zone else None
    return None


def _needed_for(talk: Talk, yard: YardRecord, text: str) -> str:
    """Return what somebody must be allowed to for a text to be taken."""
    if watering.is_worry(text) or days.is_question(text) or crews.is_about(text):
        return "see"
    if applying.is_watering(text) or applying.is_report(text):
        return "confirm"
    if scouting.is_report(talk, yard, text):
        return "confirm"
    if readings.read(talk, text) is not None or re.match(
        r"(?:snooze|later)\b", text, re.IGNORECASE
    ):
        return "confirm"
    word = re.match(r"\w+", text.casefold())
    is_command = (
        word is not None and word[0] in _FIRST_WORDS and word.end() == len(text.strip(" ?"))
    )
    return "see" if is_command else "change"


def _units(talk: Talk, text: str) -> Answer | None:
    said = " ".join(text.casefold().split())
    if re.fullmatch(r"(use\s+|in\s+)?(metric|metres|meters|celsius|si)(\s+units)?", said):
        talk.use_units("metric")
        return [talk.reply("help.units_metric")]
    if re.fullmatch(r"(use\s+|in\s+)?(us|imperial|feet|fahrenheit)(\s+units)?", said):
        talk.use_units("us")
        return [talk.reply("help.units_us")]
    return None


_WHO: Final = r"(?:kids?|child(?:ren)?|bab(?:y|ies)|toddlers?|pets?|dogs?|cats?|animals?|people)"
#: A question about people or animals on the lawn; what happened to them is an emergency's.
_KEEP_OFF: Final = re.compile(
    rf"\b{_WHO}\b.*\b(?:safe\w*|harm\w*|hurts?|dangerous)\b"
    rf"|\b(?:safe\w*|harm\w*|hurts?|dangerous)\b.*\b{_WHO}\b"
    rf"|\b{_WHO}\s+(?:\w+\s+){{0,2}}(?:go|be|get|back|play|walk|come|out|allowed)\b"
    r"|\b(?:can|may|could)\s+(?:we|i)\s+(?:walk|play|sit|(?:go|be|get|come)\s+(?:back\s+)?(?:on|out))\b"
    rf"|\b(?:keep|how\s+long|when)\b.*\b{_WHO}\b.*\boff\b"
    r"|\bsafe\s+to\s+(?:walk|play|go|be)\b",
    re.IGNORECASE | re.DOTALL,
)
_NEW_YARD: Final = re.compile(
    r"(?P<new>(?:a\s+)?new\s+|another\s+)?(?:yard|lawn|place)\s*:?\s+"
    r"(?:is\s+)?(?:(?P<by>in|at|near)\s+)?(?P<where>.+)",
    re.IGNORECASE,
)
_SAME_PRODUCT: Final = re.compile(
    r"(?:use\s+)?(?:the\s+)?same\s+(?:product|stuff|bag|herbicide)(?:\s+(?:again|here|too))?"
    r"(?:\s+(?:as|like)\s+(?:on\s+|at\s+|in\s+|for\s+)?(?P<yard>.+))?",
    re.IGNORECASE,
)
_YES: Final = frozenset(
    {"yes", "y", "yep", "yeah", "yup", "ok", "okay", "keep", "keep it", "right", "correct", "sure"}
)
_NO: Final = frozenset({"no", "n", "nope", "fix", "fix it", "wrong", "none"})
_LEFT: Final = re.compile(
    r"(?:what(?:'s|\s+is)\s+)?(?:still\s+)?left(?:\s+(?:to\s+do|today|tonight))*|tonight",
    re.IGNORECASE,
)
_WEEDS: Final = re.compile(
    r"(?:the\s+)?(?:weeds?|emergence|crabgrass|goosegrass|foxtails?)(?:\s+(?:clock|dates?))?\s*\?*",
    re.IGNORECASE,
)

#: Plain words that stand for a command.
_PLAIN: Final = {
    **{each.word: each.word for each in COMMANDS if each.word != "applied"},
    "hi": "start",
    "hello": "start",
    "hey": "start",
    "good morning": "start",
    "take it back": "undo",
    "take that back": "undo",
    "redo": "redo",
    "put it back": "redo",
    "put that back": "redo",
    "how much": "amounts",
    "how much do i need": "amounts",
    "soil temperature": "soil",
    "how is the soil": "soil",
    "when": "soil",
    "when do i put it down": "soil",
    "when should i put it down": "soil",
    "when do i apply": "soil",
    "when should i apply": "soil",
    "is it time": "soil",
    "is it time yet": "soil",
    "which day": "day",
    "which day is best": "day",
    "best day": "day",
    "status": "yard",
    "how long will it hold": "yard",
    "how long does it hold": "yard",
    "how long will it last": "yard",
    "how long does it last": "yard",
    "is the barrier still there": "yard",
    "round": "today",
    "my round": "today",
    "the list": "today",
    "what is to do today": "today",
    "never mind": "cancel",
    "nevermind": "cancel",
    "stop": "cancel",
}
#: Commands that a question for a name leaves room for.
_WAYS_OUT: Final = ("cancel", "undo", "redo", "help")
_FIRST_WORDS: Final = {
    "soil": "soil",
    "amounts": "amounts",
    "amount": "amounts",
    "yard": "yard",
    "zones": "zones",
    "zone": "zones",
    "product": "product",
    "help": "help",
    "undo": "undo",
}

#: Subjects that know their own texts, tried in this order; None where a text is not theirs.
_SUBJECTS: Final[tuple[Callable[[Talk, YardRecord, str], Answer | None], ...]] = (
    screening.take_licence,
    walking.take,
    sketching.take,
    year_words.take,
    grass.take,
    labelling.take,
    buying.take,
    machines.take,
    screening.take,
)
