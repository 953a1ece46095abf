"""Undo: the newest change, taken back and said in words."""

from __future__ import annotations

from datetime import date
from typing import Final

from bot.hearing.readers.dates import say_day
from bot.saying.figures import say_area
from bot.talk.products import say_product
from bot.talk.talk import Talk
from bot.talk.yards import state_words
from bot.turn import Reply
from jobs.uses import undo as uses
from storage import applications, journal, products, yards
from storage.journal import JournalEntry
from storage.yards import YardRecord


def undo(talk: Talk, entry_id: int | None) -> list[Reply]:
    """Answer /undo, or the button of one change."""
    try:
        chat_id, entry_id = _meant(talk, entry_id)
        done = uses.undo(
            talk.work, chat_id, entry_id=entry_id, person_id=talk.person.id, now=talk.now
        )
    except uses.NothingToUndo:
        return [talk.reply("applying.nothing_to_undo")]
    except uses.UndoneAlready:
        return [talk.reply("applying.undone_already")]
    except uses.NotTheNewest:
        return [talk.reply("applying.not_newest")]
    talk.settle()
    entry, yard = done.entry, done.yard
    if yard is None:
        name = str(entry.after.get("name", ""))
        return [talk.reply("applying.undone_yard_added", yard=name)]
    return [_say(talk, yard, entry)]


def _meant(talk: Talk, entry_id: int | None) -> tuple[int, int | None]:
    """Return the chat and the change that are meant; None for the chat's newest.

    While a shared yard is talked about that is its newest change. Of a shared yard only what this
    person did is theirs to take back, unless they may change it.

    Raises
    ------
    NothingToUndo
        If it is not theirs to take back.
    """
    yard = talk.yard()
    if entry_id is not None:
        entry = journal.entry(talk.work, entry_id)
    elif yard is not None and yard.chat_id != talk.chat.id:
        entry = journal.newest_of_yard(talk.work, yard.id)
    else:
        return talk.chat.id, None
    if entry is None:
        raise uses.NothingToUndo
    if entry.chat_id == talk.chat.id:
        return entry.chat_id, entry.id
    for each in talk.yards():
        is_mine = entry.person_id == talk.person.id and talk.may(each, "confirm")
        if each.id == entry.yard_id and (is_mine or talk.may(each, "change")):
            return entry.chat_id, entry.id
    raise uses.NothingToUndo


def _say(talk: Talk, yard: YardRecord, entry: JournalEntry) -> Reply:
    if entry.action == "application.add" and entry.subject_id is not None:
        was = applications.application(talk.work, entry.subject_id)
        return talk.reply(
            "applying.undone_application",
            zones=", ".join(share.zone_name for share in was.shares),
            on=_day(talk, yard, was.applied_on),
            yard=yard.name,
            state=state_words(talk, yard),
        )
    if entry.action == "watering.add":
        return talk.reply("applying.undone_watering", yard=yard.name)
    if entry.action == "reading.add":
        return talk.reply("readings.undone")
    if entry.action in ("seeding.add", "seeding.mow"):
        return talk.reply("seeding.undone", names=", ".join(entry.after["names"]))
    if entry.action == "seeding.decide":
        return talk.reply("seeding.undone_decision")
    if entry.action in ("record.edit", "record.redate", "record.amount"):
        return talk.reply("records.undone_edit", number=entry.subject_id)
    if entry.action == "sighting.add":
        return talk.reply("scouting.undone")
    if entry.action == "zones.change":
        return talk.reply("grass.undone", names=", ".join(entry.after["names"]))
    if entry.action.startswith("zones."):
        zones = yards.zones(talk.work, yard.id)
        if not zones:
            names = ", ".join(entry.after["names"])
            return talk.reply("applying.undone_all_zones", names=names, yard=yard.name)
        total = say_area(sum(zone.area_m2 for zone in zones), talk.unit_system)
        names = ", ".join(entry.after["names"])
        return talk.reply("applying.undone_zones", names=names, yard=yard.name, total=total)
    if entry.action == "yard.remove":
        talk.turn_to(yard.id)
        return talk.reply("parting.undone_removal", yard=yard.name, state=state_words(talk, yard))
    if entry.action == "product.choose":
        product = talk.say("yards.product_none")
        if yard.product_id is not None:
            product = say_product(talk, products.product(talk.work, yard.product_id))
        return talk.reply("applying.undone_product", yard=yard.name, product=product)
    return talk.reply("applying.undone_yard", yard=yard.name)


def _day(talk: Talk, yard: YardRecord, day: date) -> str:
    return say_day(day, talk.today(yard))


HANDLERS: Final = {"undo": lambda talk, _yard, _heard: undo(talk, None)}
