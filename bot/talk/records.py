"""The record: seen, put right and completed."""

from __future__ import annotations

import math
from collections.abc import Container
from dataclasses import replace
from datetime import datetime
from typing import Final

from bot.dialogue import rights
from bot.dialogue.named_here import zones_said
from bot.dialogue.talk import Talk
from bot.hearing.forms.notice_forms import PostingSaid
from bot.hearing.forms.record_fields import FieldsSaid
from bot.hearing.forms.record_forms import (
    EditSaid,
    FigureAnew,
    LicenceSaid,
    RecordsAsked,
    RegistrationSaid,
    UnderSaid,
)
from bot.hearing.heard import ActHeard, Slots
from bot.hearing.readers.dates import WhenRead
from bot.hearing.readers.quantities import Amount as AmountSaid
from bot.hearing.readers.reading import Unread
from bot.saying.printed_amounts import Quantity
from bot.saying.values import Clock, Day, Names, ShortDay
from bot.talk import record_filling
from bot.talk.putting_on_record import is_long_ago
from bot.telling import looking_back, packs_used, rounds_said, zones_out
from bot.telling.applied_said import rate_line
from bot.telling.rounds_said import sight_of
from bot.telling.soil_lines import next_line
from bot.turn import Reply
from jobs.agronomy.amounts import Amount
from jobs.agronomy.rates import WeightAgainstVolume
from jobs.agronomy.whats_next import Stage
from jobs.local_days import local
from jobs.record_details import SAID_FIELDS, RecordDetails
from jobs.uses import amending
from jobs.uses import eligibility as licences
from jobs.uses import recording as uses
from storage import chats, journal
from storage.applications import ApplicationRecord
from storage.yards import YardRecord

_SHOWN: Final = 5


def on_look_back(talk: Talk, yard: YardRecord, heard: ActHeard) -> list[Reply]:
    """Answer ``records`` with the newest ones, and what was years ago with the years compared."""
    if isinstance(heard.slots.read, RecordsAsked) or heard.slots.zones or heard.slots.all_zones:
        # What a zone got is on record, not in the years' course.
        return show(talk, yard)
    shown, done = looking_back.show(talk, yard), talk.standing(yard).done
    if len({each.year for each in done}) != 1:
        return shown
    # Where no years are compared, what went down is told with its amounts.
    newest = sorted(done, key=lambda each: each.id)[-_SHOWN:]
    text = "\n".join([shown[0].text, *(_line(talk, yard, each) for each in newest)])
    return [replace(shown[0], text=text), *shown[1:]]


def on_change_record(talk: Talk, yard: YardRecord, heard: ActHeard) -> list[Reply]:
    """Put one field of a record right: the one named, else the newest that fits."""
    slots = heard.slots
    if slots.unread is not None:
        return [Reply(slots.unread.sentence())]
    if isinstance(slots.read, FieldsSaid | EditSaid):
        yard = _holding(talk, yard, slots.read.number)
    if isinstance(slots.read, FieldsSaid):
        return record_filling.fill(talk, yard, slots.read)
    newest = uses.newest(talk.work, yard)
    is_used = slots.read is None and (slots.amount is not None or slots.packs is not None)
    named = _named(talk, yard, slots)
    had = {share.zone_id for done in talk.standing(yard).done for share in done.shares}
    if is_used and (newest is None or (named and not named & had)):
        # "All done, used 11 pounds", of which nothing is on record, is the report.
        return talk.answer("report_applied", yard, heard)
    if slots.packs is not None and slots.amount is None:
        weighed = packs_used.weighed(talk, yard, slots.packs)
        if isinstance(weighed, Reply):
            return [weighed]
        slots = replace(slots, amount=weighed)
    said = slots.read if isinstance(slots.read, EditSaid) else _meant(talk, yard, heard, slots)
    if slots.depth_m is not None and slots.amount is None and slots.read is None:
        # "No, 0.45", of water: the handler puts its own report right.
        is_rain = talk.said_before == "report_rain"
        return talk.answer("report_rain" if is_rain else "report_watered", yard, heard)
    if newest is None:
        return [talk.reply("records.none", yard=yard.name)]
    if said is None:
        return _other_zones(talk, yard, heard) or show(talk, yard)
    record_id = newest.id if said.number is None else said.number
    try:
        if said.when is not None:
            # A record of two zones has one day; one of them apart is told how.
            apart = _other_zones(talk, yard, heard)
            return apart or _redate(talk, yard, record_id, said.when)
        if said.amount is not None:
            return _amend(talk, yard, record_id, said.amount, named)
        if said.field is not None:
            return _set(talk, yard, record_id, said.field, said.value)
    except uses.NoSuchRecord:
        return [talk.reply("records.no_record", number=record_id, yard=yard.name)]
    fields = Names([talk.say(f"records.field_{name}") for name in SAID_FIELDS])
    return [talk.reply("records.no_field", said=said.value, fields=fields, number=record_id)]


def _holding(talk: Talk, at: YardRecord, number: int | None) -> YardRecord:
    """Return the yard that holds a record of a number: this one, else another of the round."""
    every = (at, *(each for each in talk.yards() if talk.may(each, "confirm")))
    holding = (each for each in every if number in {done.id for done in talk.standing(each).done})
    found = next(holding, at)
    if found.id != at.id:
        talk.turn_to(found.id)
    return found


def on_set_licence(talk: Talk, yard: YardRecord, heard: ActHeard) -> list[Reply]:
    """Keep a licence, with its last day where it was said, or a product's registration number."""
    said = heard.slots.read
    if isinstance(said, RegistrationSaid):
        if not talk.may(yard, "change"):
            return rights.refuse(talk, yard)
        return _register(talk, yard, said.number)
    if isinstance(said, PostingSaid):
        return record_filling.keep_rule(talk, yard, said)
    if isinstance(said, UnderSaid):
        return record_filling.works_under(talk, yard, said)
    if not isinstance(said, LicenceSaid):
        return [talk.reply("records.licence_how")]
    if not said.is_until_said:
        chats.change_person(talk.work, talk.person.id, licence=said.number)
        journal.note(talk.work, yard.id, "person.licence", talk.person.id, number=said.number)
        return [talk.reply("records.licensed", talk.undo(), number=said.number)]
    if said.until is None:
        return [talk.reply("screening.licence_no_day", number=said.number)]
    until, today = said.until.at.date(), talk.today(yard)
    talk.person = licences.set_licence(talk.work, yard, talk.person, said.number, until)
    key = "screening.licence_past" if until < today else "screening.licence"
    return [talk.reply(key, number=said.number, day=Day(until, today))]


def show(talk: Talk, yard: YardRecord) -> list[Reply]:
    """Answer ``records``: the newest ones, with their numbers."""
    done = talk.standing(yard).done
    if not done:
        return [talk.reply("records.none", yard=yard.name)]
    newest = sorted(done, key=lambda each: each.id)[-_SHOWN:]
    lines = [talk.say("records.head", yard=yard.name)]
    lines += [_line(talk, yard, each) for each in newest]
    lines.append(talk.say("records.how", number=newest[-1].id))
    return [Reply("\n".join(lines))]


def _other_zones(talk: Talk, yard: YardRecord, heard: ActHeard) -> list[Reply]:
    """Ask whether a record has fewer zones: "I only did the front" of several."""
    newest = max(talk.standing(yard).done, key=lambda each: each.id, default=None)
    named = _named(talk, yard, heard.slots)
    had = {share.zone_id for share in newest.shares} if newest is not None else set()
    if newest is None or not named or not named < had:
        return []
    others = [share for share in newest.shares if share.zone_id not in named]
    return [zones_out.ask(talk, yard, (newest, others))]


def _named(talk: Talk, yard: YardRecord, slots: Slots) -> set[int]:
    return {zone.id for zone in zones_said(talk.standing(yard).zones, slots)}


def _meant(talk: Talk, yard: YardRecord, heard: ActHeard, slots: Slots) -> EditSaid | None:
    """Return what a sentence such as ``it was 7 lb not 8`` puts right, None where that is open."""
    ids = _named(talk, yard, slots)
    done = sorted(talk.standing(yard).done, key=lambda each: each.id)
    fitting = [d for d in done if not ids or ids & {share.zone_id for share in d.shares}]
    if not fitting:
        return None
    number = fitting[-1].id
    if slots.amount is not None:
        return EditSaid(number, "amount", heard.said, amount=slots.amount)
    share = fitting[-1].shares[0]
    if isinstance(slots.read, FigureAnew) and share.is_amount_said and share.amount_unit:
        amount = AmountSaid(slots.read.value, share.amount_unit)
        return EditSaid(number, "amount", heard.said, amount=amount)
    if slots.on is not None:
        return EditSaid(number, "date", heard.said, when=slots.on)
    return None


def _set(talk: Talk, yard: YardRecord, record_id: int, field: str, value: str) -> list[Reply]:
    done = uses.edit(talk.work, yard, record_id, field, value)
    before = done.before or talk.say("records.edited_nothing")
    name = talk.say(f"records.field_{field}")
    return [
        talk.reply(
            "records.edited", talk.undo(), number=record_id, field=name, value=value, before=before
        )
    ]


def _amend(
    talk: Talk, yard: YardRecord, record_id: int, read: AmountSaid | Unread, named: Container[int]
) -> list[Reply]:
    """Put the amount of a record right: of the zones that are named, where it has others too."""
    if isinstance(read, Unread):
        problem = read.sentence()
        return [talk.reply("records.amount_unread", problem=problem)]
    whole = uses.record_of(talk.work, yard, record_id)
    shares = tuple(share for share in whole.shares if share.zone_id in named)
    is_part = 0 < len(shares) < len(whole.shares)
    record = replace(whole, shares=shares) if is_part else whole
    had_si = sum(share.amount_si or 0.0 for share in record.shares)
    if math.isclose(had_si, read.amount_si, rel_tol=1e-6):
        amount = Quantity.of(Amount(read.amount_si, read.unit))
        return [talk.reply("records.amended_same", number=record_id, amount=amount)]
    try:
        done = amending.set_amount(
            talk.work,
            yard,
            record,
            Amount(read.amount_si, read.unit),
            sight=sight_of(talk, yard),
            person_id=talk.person.id,
            now=talk.now,
        )
    except amending.NoProductOnRecord:
        return [talk.reply("records.amount_no_product", number=record_id)]
    except WeightAgainstVolume as mixed:
        return [talk.reply("applying.wrong_kind", said=mixed.unit, wanted=mixed.other)]
    after = Quantity.of(done.after)
    before = None if done.before is None else Quantity.of(done.before)
    key = "amended_first" if done.before is None else "amended_on" if is_part else "amended"
    zones = Names([share.zone_name for share in record.shares])
    params = {"number": record_id, "amount": after, "before": before or after, "zones": zones}
    lines = [talk.say(f"records.{key}", **params)]
    lines.append(rate_line(talk, done.achieved, done.planned))
    if done.is_over:
        lines.append(talk.say("records.amended_over"))
    return [Reply("\n".join(lines), talk.undo())]


def _redate(talk: Talk, yard: YardRecord, record_id: int, when: WhenRead | Unread) -> list[Reply]:
    if isinstance(when, Unread):
        return [Reply(when.sentence())]
    if when.is_future:
        return [talk.reply("records.future", said=when.said)]
    if is_long_ago(when.at, talk.now):
        return [talk.reply("records.long_ago", said=when.said, number=record_id)]
    sight = sight_of(talk, yard)
    done = uses.redate(
        talk.work, yard, record_id, when.at, sight=sight, person_id=talk.person.id, now=talk.now
    )
    after = local(when.at, yard.timezone).date()
    before = datetime.fromisoformat(done.before or after.isoformat()).date()
    key = "redated" if after != before else "redated_same"
    days = {"on": ShortDay(after), "before": ShortDay(before)}
    lines = [talk.say(f"records.{key}", number=record_id, **days)]
    upcoming = rounds_said.next_of(talk, yard)
    if upcoming.stage is Stage.DOWN and upcoming.opens_on is not None:
        lines.append(next_line(upcoming, talk.today(yard)))
    return [Reply("\n".join(lines), talk.undo())]


def _register(talk: Talk, yard: YardRecord, number: str) -> list[Reply]:
    if not uses.register(talk.work, yard, number):
        return [talk.reply("records.no_product")]
    product = talk.standing(yard).chosen.said
    return [talk.reply("records.registered", talk.undo(), number=number, product=product)]


def _line(talk: Talk, yard: YardRecord, each: ApplicationRecord) -> str:
    total = sum(share.amount_si or 0.0 for share in each.shares)
    unit = each.shares[0].amount_unit if each.shares else None
    amount: object = talk.say("records.no_amount")
    if total and unit is not None:
        amount = Quantity(total, unit)
    at = Clock(local(each.applied_at, yard.timezone))
    is_hour_open = RecordDetails.from_json(each.details).is_hour_open
    return talk.say(
        "records.line",
        number=each.id,
        on=Day(each.applied_on, talk.today(yard)),
        at="" if is_hour_open else talk.say("records.line_at", at=at),
        zones=Names([share.zone_name for share in each.shares]),
        amount=amount,
        by="" if each.by_whom is None else talk.say("records.line_by", who=each.by_whom),
    )


HANDLERS: Final = {
    "look_back": on_look_back,
    "change_record": on_change_record,
    "set_licence": on_set_licence,
}
