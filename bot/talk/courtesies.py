"""Good manners, help, and what is none of a lawn's business."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from bot.dialogue import sizes_waiting, topics
from bot.dialogue.scene import asked_of
from bot.dialogue.talk import Talk
from bot.hearing.forms.label_answers import AnswerSaid
from bot.hearing.forms.parting_forms import StartAgainSaid
from bot.hearing.forms.wish_forms import SettingsAsked
from bot.hearing.heard import ActHeard, Slots
from bot.saying.catalogue import languages
from bot.talk.commands import COMMANDS
from bot.telling import water_due, wishes_told, yard_overview
from bot.turn import Reply, rows
from jobs.agronomy.season import State
from storage import chats
from storage.yards import YardRecord

#: An unread text is shown back up to so many letters.
_SHOWN_BACK: Final = 60


def on_help(talk: Talk, yard: YardRecord | None, heard: ActHeard) -> list[Reply]:
    """Say what can be said; of settings show them."""
    if isinstance(heard.slots.read, AnswerSaid):
        return talk.answer("enter_product", yard, heard)
    if isinstance(heard.slots.read, SettingsAsked) and yard is not None:
        return wishes_told.show(talk, yard)
    lines = "\n".join(f"/{each.word}  {talk.say(f'commands.{each.word}')}" for each in COMMANDS)
    text = talk.say("help.commands", lines=lines)
    if talk.around.is_invented:
        text += f"\n{talk.say('help.invented')}"
    return [Reply(text)]


def on_greet(talk: Talk, _yard: YardRecord | None, heard: ActHeard) -> list[Reply]:
    """Begin, or begin again; the command also takes a stop back."""
    if heard.why == "command" and talk.chat.stopped_at is not None:
        again = ActHeard("stop_alerts", Slots(read=StartAgainSaid()))
        return talk.answer("stop_alerts", None, again)
    return yard_overview.start(talk)


def on_thanks(talk: Talk, yard: YardRecord | None, heard: ActHeard) -> list[Reply]:
    """Answer thanks; a nod with what we wait to be told."""
    if heard.why != "pending":
        return [Reply(talk.say("help.welcome"), reaction="👍")]
    state = None if yard is None else talk.state(yard)
    if yard is None or not sizes_waiting.areas(talk, yard):
        key = "help.noted_new" if yard is None else "help.noted_placed"
    elif asked_of(talk) is not None:
        key = "help.noted"
    elif state in _CALLED:
        key = "help.noted_open"
    else:
        key = "help.noted_applied" if water_due.water_lines(talk, yard) else "help.noted"
    return [Reply(talk.say(key), reaction="👍")]


def on_cancel(talk: Talk, yard: YardRecord | None, heard: ActHeard) -> list[Reply]:
    """Leave what we were at, sizes that wait for [Keep] too; what is kept stays, and is said to."""
    if sizes_waiting.forget(talk):
        talk.settle()
        return [talk.reply("zones.dropped")]
    if yard is None and heard.why == "ranker":
        # "I want to stop crabgrass", of somebody who just came in, leaves nothing.
        return on_greet(talk, yard, heard)
    key = "help.cancelled" if talk.topic is not None else "help.nothing_to_cancel"
    if yard is not None and (
        (talk.topic == topics.ZONES and talk.standing(yard).zones)
        or (talk.topic == topics.PRODUCT and yard.product_id is not None)
    ):
        key = "help.cancelled_kept"
    talk.settle()
    # "Stop" leaves a question; whoever means all messages finds that here too.
    is_left = talk.heard is not None and talk.heard.answers_pending and not talk.turn.is_group
    stop = talk.row(("parting.button_stop", "parting:stop"))
    return [talk.reply(key, stop if is_left else ())]


def on_unknown(talk: Talk, yard: YardRecord | None, heard: ActHeard) -> list[Reply]:
    """Say that it could not be read, with what fits the moment."""
    said = heard.said
    said = said if len(said) <= _SHOWN_BACK else f"{said[: _SHOWN_BACK - 1]}…"
    if yard is None:
        return [Reply(talk.say("help.unknown_new", said=said or "…"), asks_place=True)]
    if asked_of(talk) is not None:
        # The question that waits fits the moment best; it is put again below.
        return [talk.reply("help.unknown_asked", said=said)]
    state = talk.state(yard)
    if state in _CALLED:
        asked = _called(talk, yard, state)
        return [replace(asked, text=f"{talk.say('help.unknown_asked', said=said)}\n{asked.text}")]
    if not sizes_waiting.areas(talk, yard):
        return [talk.reply("help.unknown_placed", said=said)]
    key = "help.unknown_applied" if water_due.water_lines(talk, yard) else "help.unknown_ready"
    return [talk.reply(key, said=said)]


def _called(talk: Talk, yard: YardRecord, state: State) -> Reply:
    """Ask whether it is down, where somebody was called to put it down."""
    buttons = [
        (talk.say("help.button_all_of_it"), f"apply:all:{yard.id}"),
        (talk.say("help.button_part"), f"apply:part:{yard.id}"),
        (talk.say("help.button_not_yet"), f"apply:not_yet:{yard.id}"),
    ]
    key = "help.is_it_down" if state is State.WINDOW_OPEN else "help.is_second_down"
    return talk.reply(key, rows(buttons), yard=yard.name)


#: Where somebody was called, and may answer that.
_CALLED: Final = (State.WINDOW_OPEN, State.RETREAT_DUE)


def on_set_units(talk: Talk, _yard: YardRecord | None, heard: ActHeard) -> list[Reply]:
    """Answer this person in other units from now on."""
    units = heard.slots.units
    if units not in ("us", "metric"):
        return [talk.reply("help.units_which")]
    talk.use_units(units)
    return [_told_too(talk, f"help.units_{units}", f"units:{units}")]


def on_set_language(talk: Talk, _yard: YardRecord | None, heard: ActHeard) -> list[Reply]:
    """Answer this person in another language from now on, if there is a catalogue of it."""
    last = heard.said.casefold().split()[-1:]
    language = heard.slots.language or next((code for code in last if code in languages()), None)
    if language is None:
        buttons = [(talk.say(f"help.language_{each}"), f"language:{each}") for each in languages()]
        return [talk.reply("help.language_which", rows(buttons))]
    return speak(talk, language)


def speak(talk: Talk, language: str) -> list[Reply]:
    """Answer this person in a language from now on, and say so in it."""
    if language not in languages():
        return [talk.reply("help.language_heard")]
    talk.use_language(language)
    return [_told_too(talk, "help.language_set", f"language:{language}")]


def _told_too(talk: Talk, key: str, action: str) -> Reply:
    """Say that somebody is answered in another way; in a group, that its alerts are not yet."""
    subject, _, how = action.partition(":")
    if getattr(chats.chat(talk.work, talk.chat.id), subject) == how:
        return talk.reply(key)
    button = [(talk.say("help.button_alerts_too"), f"{action}:alerts")]
    text = f"{talk.say(key)}\n{talk.say('help.alerts_as_before')}"
    return Reply(text, rows(button if talk.turn.runs_chat else []))


def tap(talk: Talk, action: str) -> list[Reply]:
    """Answer the buttons of languages and units; what a whole group is told is for its admins."""
    subject, how, *rest = action.split(":")
    if rest != ["alerts"]:
        return speak(talk, how) if subject == "language" else [talk.stale()]
    if not talk.turn.runs_chat:
        return [talk.reply("crews.admins_only")]
    if how not in (languages() if subject == "language" else ("us", "metric")):
        return [talk.stale()]
    chats.tell_in(talk.work, talk.chat.id, **{subject: how})
    return [talk.reply("help.alerts_too")]


def on_confirm(talk: Talk, yard: YardRecord | None, heard: ActHeard) -> list[Reply]:
    """Take a yes where nothing that waits is settled by one: say what was asked, if anything."""
    asked = asked_of(talk)
    if yard is None:
        return on_unknown(talk, yard, heard)
    if asked is None and (state := talk.state(yard)) in _CALLED:
        return [_called(talk, yard, state)]
    key = "help.nothing_asked" if asked is None else f"hearing.back.{asked.again}"
    if asked is not None:
        talk.data = {**talk.data, "put_again": talk.now.date().isoformat()}
    return [talk.reply(key)]


def on_deny(talk: Talk, _yard: YardRecord | None, _heard: ActHeard) -> list[Reply]:
    """Take a no where nothing that waits is settled by one."""
    key = "help.left" if talk.topic in (None, topics.PLACE) else "help.cancelled"
    if talk.topic not in (None, topics.PLACE):
        talk.settle()
    return [talk.reply(key)]


HANDLERS: Final = {
    "help": on_help,
    "greet": on_greet,
    "thanks": on_thanks,
    "cancel": on_cancel,
    "other": lambda talk, _yard, _heard: [talk.reply("help.other")],
    "unknown": on_unknown,
    "set_units": on_set_units,
    "set_language": on_set_language,
    "confirm": on_confirm,
    "deny": on_deny,
}
