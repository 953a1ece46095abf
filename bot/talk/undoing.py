"""Undo and redo: a change taken back or put back again, in words; what is old is asked first."""

from __future__ import annotations

from datetime import date
from typing import Any, Final

from bot.dialogue import sizes_waiting
from bot.dialogue.named_here import zones_said
from bot.dialogue.talk import OWNER, Talk
from bot.hearing.forms.word_forms import RedoSaid
from bot.hearing.heard import ActHeard
from bot.saying.catalogue import shown
from bot.saying.values import Area, Day, Names
from bot.telling import zones_out
from bot.telling.products_said import say_product
from bot.telling.yard_overview import state_words
from bot.turn import Buttons, Reply, rows
from jobs.local_days import local
from jobs.uses import undo as uses
from storage import chats, crews, journal, yards
from storage.journal import Change, Entry
from storage.yards import YardRecord

#: "Scratch that please" takes back all of it; in more words one of several may be meant.
_PLAIN_WORDS: Final = 5


def undo(
    talk: Talk, entry_id: int | None = None, *, is_sure: bool = False, is_loose: bool = False
) -> list[Reply]:
    """Take back one's own newest change to the yard at hand, or the one a button names.

    What is older than the last thing said, or has something of other people hanging on it, is
    asked first; so are sizes where a loose sentence (`is_loose`) may mean one of them.
    """
    yard = talk.yard()
    try:
        found = uses.undoable(
            talk.work, _asker(talk), entry_id=entry_id, yard_id=None if yard is None else yard.id
        )
        are_sizes = any(change.action == "zones.keep" for change in found.entry.changes)
        if is_loose and are_sizes and not found.others:
            buttons = _choice(talk, "undo.button_take_back", "undo", found.entry)
            return [talk.reply("undo.ask_sizes", buttons, what=_what(talk, found.entry))]
        if not is_sure and (found.others or not _is_last_said(talk, found.entry)):
            return [_ask(talk, found)]
        uses.undo(talk.work, found.entry, person_id=talk.person.id, now=talk.now)
    except uses.NothingToUndo as nothing:
        return [_nothing(talk, yard, nothing.instead)]
    except uses.UndoneAlready:
        return [talk.reply("undo.already")]
    except uses.NotTheNewest as stuck:
        return [_stuck(talk, stuck)]
    put_back = talk.row(("undo.button_put_back", f"redo:{found.entry.id}"))
    return [_done(talk, found.entry, "undo.done", put_back)]


def redo(talk: Talk, entry_id: int | None = None, *, is_sure: bool = False) -> list[Reply]:
    """Put back what one took back last, or what a button names."""
    try:
        entry = uses.redoable(talk.work, _asker(talk), entry_id=entry_id)
        if entry_id is None and not is_sure and not _is_last_undone(talk, entry):
            buttons = _choice(talk, "undo.button_put_back", "redo", entry)
            return [talk.reply("undo.ask_redo", buttons, what=_what(talk, entry))]
        uses.redo(talk.work, entry, person_id=talk.person.id, now=talk.now)
    except uses.NothingToUndo:
        return [talk.reply("undo.nothing_to_redo")]
    except uses.UndoneAlready:
        return [talk.reply("undo.already_put_back")]
    except uses.NotTheNewest as stuck:
        return [_stuck(talk, stuck)]
    return [_done(talk, entry, "undo.redone", talk.undo(entry.id))]


def tap(talk: Talk, subject: str, verb: str, entry_id: int | None) -> list[Reply]:
    """Answer a button: a change to take or put back, a yes to that (``sure``), or ``leave``."""
    if verb == "newest":
        return undo(talk, is_sure=True)
    if verb == "leave" or entry_id is None:
        return [talk.reply("undo.left")]
    answer = undo if subject == "undo" else redo
    return answer(talk, entry_id, is_sure=verb == "sure")


def _asker(talk: Talk) -> uses.Asker:
    def role(yard_id: int) -> str:
        if yards.chat_of(talk.work, yard_id) == talk.chat.id:
            return OWNER
        return next((talk.role(each) for each in talk.yards() if each.id == yard_id), "")

    return uses.Asker(talk.person.id, talk.chat.id, role)


def _is_last_said(talk: Talk, entry: Entry) -> bool:
    last = chats.newest_turn_of(talk.work, talk.chat.id, talk.person.id)
    return entry.turn is not None and entry.turn == last


def _is_last_undone(talk: Talk, entry: Entry) -> bool:
    undone_in = None if entry.undone_in is None else journal.entry(talk.work, entry.undone_in)
    return undone_in is not None and _is_last_said(talk, undone_in)


def _ask(talk: Talk, found: uses.Undoable) -> Reply:
    entry = found.entry
    buttons = _choice(talk, "undo.button_take_back", "undo", entry)
    what, when = _what(talk, entry), _when(talk, entry)
    if not found.others:
        if any("on" in change.figures for change in entry.changes):
            # What it was names its day itself.
            return talk.reply("undo.ask_dated", buttons, what=what)
        return talk.reply("undo.ask", buttons, what=what, when=when)
    others = Names(
        [
            talk.say("undo.of_other", what=_what(talk, each), who=_who(talk, each))
            for each in found.others
        ]
    )
    return talk.reply("undo.ask_others", buttons, what=what, when=when, others=others)


def _choice(talk: Talk, key: str, subject: str, entry: Entry) -> Buttons:
    yes = (talk.say(key), f"{subject}:sure:{entry.id}")
    return rows([yes, (talk.say("undo.button_leave"), f"{subject}:leave:{entry.id}")])


def _nothing(talk: Talk, yard: YardRecord | None, instead: Entry | None) -> Reply:
    if yard is None or instead is None or instead.person_id == talk.person.id:
        return talk.reply("undo.nothing")
    who, what = _who(talk, instead), _what(talk, instead)
    return talk.reply("undo.not_yours", yard=yard.name, who=who, what=what)


def _stuck(talk: Talk, stuck: uses.NotTheNewest) -> Reply:
    newer = [each for each in stuck.newer if each.changes]
    if not newer:
        return talk.reply("undo.newer_unknown")
    what = _what(talk, newer[-1])
    if newer[-1].person_id == talk.person.id:
        return talk.reply("undo.newer", what=what)
    return talk.reply("undo.newer_of", who=_who(talk, newer[-1]), what=what)


def _done(talk: Talk, entry: Entry, key: str, buttons: Buttons) -> Reply:
    talk.settle()
    now = "".join(_now(talk, entry, yard_id) for yard_id in entry.yard_ids)
    return talk.reply(key, buttons, what=_what(talk, entry), now=now)


def _now(talk: Talk, entry: Entry, yard_id: int) -> str:
    """Say how a yard stands after it, as far as the change was about that."""
    changes = [change for change in entry.changes if change.yard_id == yard_id]
    actions = {change.action for change in changes}
    yard = yards.yard(talk.work, yard_id)
    if yard is None:
        name = str(changes[0].figures.get("name", ""))
        return talk.say("undo.now_yard_gone", yard=name)
    if actions & _OF_RECORDS:
        return talk.say("undo.now_state", yard=yard.name, state=state_words(talk, yard))
    if actions & {"zones.keep", "zones.remove", "zones.split", "zones.merge"}:
        zones = talk.standing(yard).zones
        if not zones:
            return talk.say("undo.now_no_zones", yard=yard.name)
        total = Area(sum(zone.area_m2 for zone in zones))
        return talk.say("undo.now_zones", yard=yard.name, total=total)
    if "product.choose" in actions:
        product = talk.say("yards.product_none")
        if yard.product_id is not None:
            product = say_product(talk.standing(yard).chosen)
        return talk.say("undo.now_product", yard=yard.name, product=product)
    return ""


#: Changes on which the state of a yard hangs.
_OF_RECORDS: Final = frozenset(
    {
        *("application.add", "watering.add"),
        *("record.redate", "record.amount", "record.area", "record.zones"),
    }
)


def _what(talk: Talk, entry: Entry) -> Names:
    """Say what a unit of work changed, each kind of change in its own words."""
    # What was put right took something back first: it is known by what it left.
    left = [change for change in entry.changes if change.action not in ("undo", "redo")]
    said = [_words(talk, change) for change in left or entry.changes]
    return Names(list(dict.fromkeys(said)))


def _words(talk: Talk, change: Change) -> str:
    yard = None if change.yard_id is None else yards.yard(talk.work, change.yard_id)
    params: dict[str, Any] = {"number": change.subject_id, **change.figures}
    if "on" in params and yard is not None:
        params["on"] = Day(date.fromisoformat(params["on"]), talk.today(yard))
    return talk.say(f"undo.what_{change.action.replace('.', '_')}", **params)


def _when(talk: Talk, entry: Entry) -> Day | str:
    yard = None if entry.yard_id is None else yards.yard(talk.work, entry.yard_id)
    yard = yard or talk.yard()
    if yard is None:
        return entry.at.date().isoformat()
    return Day(local(entry.at, yard.timezone).date(), talk.today(yard))


def _who(talk: Talk, entry: Entry) -> str:
    name = crews.person_names(talk.work, {entry.person_id}).get(entry.person_id)
    return name or talk.say("sharing.somebody")


def on_undo(talk: Talk, yard: YardRecord | None, heard: ActHeard) -> list[Reply]:
    """Take back what was said last: sizes that wait for [Keep], else the newest change.

    Where it names some zones of what is just on record, these alone are asked about.
    """
    if isinstance(heard.slots.read, RedoSaid):
        return redo(talk)
    if yard is not None and sizes_waiting.are_there(talk):
        names = Names([each.name for each in sizes_waiting.step_back(talk)])
        if names:
            total = shown(Area(sum(sizes_waiting.areas(talk, yard).values())))
            return [talk.reply("zones.stepped_back", names=names, total=total)]
        talk.settle()
        return [talk.reply("zones.dropped")]
    zones = [] if yard is None else zones_said(talk.standing(yard).zones, heard.slots)
    if yard is not None and zones_out.of_newest(talk, yard, zones) is not None:
        return talk.answer("report_not_done", yard, heard)
    is_loose = heard.why == "ranker" and len(heard.said.split()) > _PLAIN_WORDS
    return undo(talk, is_loose=is_loose)


HANDLERS: Final = {"undo": on_undo}
