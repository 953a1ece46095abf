"""Taking back the newest change, exactly."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import date, datetime
from typing import Any, Final

from jobs.agronomy.season import Target
from jobs.seasons import look
from storage import (
    applications,
    chats,
    journal,
    machines,
    photos,
    products,
    readings,
    seasons,
    seedings,
    sightings,
    wishes,
    yards,
)
from storage.database import Work
from storage.journal import JournalEntry
from storage.wishes import ChatWishes, YardWishes
from storage.yards import YardRecord


class NothingToUndo(LookupError):
    """Raised when there is no change that can be taken back."""


class UndoneAlready(LookupError):
    """Raised when a change has been taken back before."""


class NotTheNewest(LookupError):
    """Raised when newer changes stand on the one to be taken back."""


@dataclass(frozen=True, slots=True)
class Undone:
    """What was taken back, and in which yard."""

    entry: JournalEntry
    yard: YardRecord | None


def undo(
    work: Work, chat_id: int, *, entry_id: int | None, person_id: int, now: datetime
) -> Undone:
    """Take back a chat's newest change, or the named one if it is the newest of its yard.

    Raises
    ------
    NothingToUndo, UndoneAlready, NotTheNewest
        If it cannot be done.
    """
    newest = journal.newest(work, chat_id)
    entry = newest if entry_id is None else journal.entry(work, entry_id)
    if entry is None or entry.chat_id != chat_id or entry.action not in _UNDO:
        raise NothingToUndo
    if entry.undone_at is not None:
        raise UndoneAlready
    if newest is None or entry.id != newest.id:
        raise NotTheNewest
    if entry.action == "yard.remove" and entry.yard_id is not None:
        # Anything else about a yard that was given up has to wait until it is back.
        yards.change(work, entry.yard_id, archived_at=None)
    yard = None if entry.yard_id is None else yards.yard(work, entry.yard_id)
    if yard is None:
        raise NothingToUndo
    yards.hold(work, yard.id)
    _UNDO[entry.action](work, yard, entry, person_id, now)
    journal.mark_undone(work, entry.id, person_id=person_id, now=now)
    return Undone(entry, yards.yard(work, yard.id))


def _application(
    work: Work, yard: YardRecord, entry: JournalEntry, person_id: int, now: datetime
) -> None:
    assert entry.subject_id is not None
    applications.undo(work, entry.subject_id, person_id=person_id, now=now)
    if "shelf_si" in entry.after:
        products.set_shelf(work, entry.after["product_id"], entry.after["shelf_si"])
    target = Target(entry.after.get("target", Target.SUMMER_ANNUALS))
    season = seasons.season(work, yard.id, target)
    is_untouched = season is not None and season.version == entry.after.get("season_version")
    if season is not None and is_untouched and entry.before:
        before = entry.before
        restored = replace(
            season,
            year=before["year"],
            state=before["state"],
            since=date.fromisoformat(before["since"]),
            told=before["told"],
        )
        seasons.save(work, restored)
        if restored.state != season.state:
            seasons.note_event(
                work,
                yard_id=yard.id,
                target=target,
                year=restored.year,
                at=now,
                state_before=season.state,
                state_after=restored.state,
                why="taken_back",
                person_id=person_id,
                facts={},
            )
    # Time may have moved on since: what is true now is found by looking.
    look(work, yard, {}, None, now, person_id=person_id)
    yards.change(work, yard.id, next_check_at=now)


def _watering(
    work: Work, yard: YardRecord, entry: JournalEntry, person_id: int, now: datetime
) -> None:
    assert entry.subject_id is not None
    applications.undo_watering(work, entry.subject_id, now)
    for application_id in entry.after.get("watered_in", []):
        applications.set_watered_in(work, application_id, None)


def _reading(
    work: Work, yard: YardRecord, entry: JournalEntry, person_id: int, now: datetime
) -> None:
    assert entry.subject_id is not None
    readings.undo(work, entry.subject_id, now)
    yards.change(work, yard.id, next_check_at=now)


def _seeding(
    work: Work, yard: YardRecord, entry: JournalEntry, person_id: int, now: datetime
) -> None:
    for seeding_id in entry.after["ids"]:
        seedings.undo(work, seeding_id, now)
    _restore_locks(work, entry.before["locks"])
    yards.change(work, yard.id, next_check_at=now)


def _seeding_decided(
    work: Work, yard: YardRecord, entry: JournalEntry, person_id: int, now: datetime
) -> None:
    for seeding_id in entry.before["ids"]:
        if entry.after["is_seed_first"]:
            seedings.set_before_round(work, seeding_id, is_before_round=False)
        else:
            seedings.undo(work, seeding_id, None)
    yards.change(work, yard.id, next_check_at=now)


def _mown(work: Work, yard: YardRecord, entry: JournalEntry, person_id: int, now: datetime) -> None:
    days = entry.before.get("mown_on", {})
    for seeding_id, mowings in entry.before["mowings"].items():
        seedings.set_mowings(work, int(seeding_id), mowings, days.get(seeding_id))
    _restore_locks(work, entry.before["locks"])
    yards.change(work, yard.id, next_check_at=now)


def _restore_locks(work: Work, locks: dict[str, dict[str, Any]]) -> None:
    for zone_id, lock in locks.items():
        on = lock["locked_on"]
        values = {**lock, "locked_on": None if on is None else date.fromisoformat(on)}
        yards.change_zones(work, [int(zone_id)], **values)


def _record_edited(
    work: Work, yard: YardRecord, entry: JournalEntry, person_id: int, now: datetime
) -> None:
    assert entry.subject_id is not None
    details = dict(applications.application(work, entry.subject_id).details)
    for name, value in entry.before.items():
        if value is None:
            details.pop(name, None)
        else:
            details[name] = value
    applications.set_details(work, entry.subject_id, details)


def _record_redated(
    work: Work, yard: YardRecord, entry: JournalEntry, person_id: int, now: datetime
) -> None:
    assert entry.subject_id is not None
    before = entry.before
    watered_in_on = before.get("watered_in_on")
    applications.move(
        work,
        entry.subject_id,
        applied_at=datetime.fromisoformat(before["applied_at"]),
        applied_on=date.fromisoformat(before["applied_on"]),
        year=before["year"],
        watered_in_on=None if watered_in_on is None else date.fromisoformat(watered_in_on),
    )
    look(work, yard, {}, None, now, person_id=person_id)
    yards.change(work, yard.id, next_check_at=now)


def _record_amount(
    work: Work, yard: YardRecord, entry: JournalEntry, person_id: int, now: datetime
) -> None:
    assert entry.subject_id is not None
    before = entry.before
    amounts = {zone_id: (si, unit, is_said) for zone_id, si, unit, is_said in before["amounts"]}
    applications.set_amounts(work, entry.subject_id, amounts)
    if before["shelf_si"] is not None:
        products.set_shelf(work, before["product_id"], before["shelf_si"])
    look(work, yard, {}, None, now, person_id=person_id)
    yards.change(work, yard.id, next_check_at=now)


def _registered(
    work: Work, yard: YardRecord, entry: JournalEntry, person_id: int, now: datetime
) -> None:
    assert entry.subject_id is not None
    products.set_registration(work, entry.subject_id, entry.before["registration"])


def _sighting(
    work: Work, yard: YardRecord, entry: JournalEntry, person_id: int, now: datetime
) -> None:
    for sighting_id in entry.after["ids"]:
        sightings.undo(work, sighting_id, now)


def _zones_kept(
    work: Work, yard: YardRecord, entry: JournalEntry, person_id: int, now: datetime
) -> None:
    yards.remove_zones(work, entry.after["added"], now)
    yards.restore_zones(work, entry.before["replaced"])
    yards.change(work, yard.id, next_check_at=now)


def _zones_removed(
    work: Work, yard: YardRecord, entry: JournalEntry, person_id: int, now: datetime
) -> None:
    yards.restore_zones(work, entry.before["removed"])
    yards.change(work, yard.id, next_check_at=now)


def _zones_changed(
    work: Work, yard: YardRecord, entry: JournalEntry, person_id: int, now: datetime
) -> None:
    for zone_id, was in entry.before.items():
        on = was["locked_on"]
        values = {**was, "locked_on": None if on is None else date.fromisoformat(on)}
        yards.change_zones(work, [int(zone_id)], **values)
    yards.change(work, yard.id, next_check_at=now)


def _product(
    work: Work, yard: YardRecord, entry: JournalEntry, person_id: int, now: datetime
) -> None:
    yards.change(work, yard.id, product_id=entry.before["product_id"])


def _product_changed(
    work: Work, yard: YardRecord, entry: JournalEntry, person_id: int, now: datetime
) -> None:
    assert entry.subject_id is not None
    products.change(work, entry.subject_id, **entry.before)


def _machine_tried(
    work: Work, yard: YardRecord, entry: JournalEntry, person_id: int, now: datetime
) -> None:
    assert entry.subject_id is not None
    machines.undo_try(work, entry.subject_id, now)


def _machine_changed(
    work: Work, yard: YardRecord, entry: JournalEntry, person_id: int, now: datetime
) -> None:
    values = {name: value for name, value in entry.before.items() if name != "kind"}
    machines.keep(work, yard.chat_id, entry.before["kind"], now=now, **values)


def _photo_added(
    work: Work, yard: YardRecord, entry: JournalEntry, person_id: int, now: datetime
) -> None:
    assert entry.subject_id is not None
    photos.undo(work, entry.subject_id, now)


def _person_changed(
    work: Work, yard: YardRecord, entry: JournalEntry, person_id: int, now: datetime
) -> None:
    assert entry.subject_id is not None
    values = dict(entry.before)
    if values.get("licence_until") is not None:
        values["licence_until"] = date.fromisoformat(values["licence_until"])
    chats.change_person(work, entry.subject_id, **values)


def _yard_changed(
    work: Work, yard: YardRecord, entry: JournalEntry, person_id: int, now: datetime
) -> None:
    yards.change(work, yard.id, **entry.before)
    yards.change(work, yard.id, next_check_at=now)


def _yard_added(
    work: Work, yard: YardRecord, entry: JournalEntry, person_id: int, now: datetime
) -> None:
    yards.change(work, yard.id, archived_at=now)


def _yard_removed(
    work: Work, yard: YardRecord, entry: JournalEntry, person_id: int, now: datetime
) -> None:
    yards.change(work, yard.id, next_check_at=now)


def _yard_wished(
    work: Work, yard: YardRecord, entry: JournalEntry, person_id: int, now: datetime
) -> None:
    row = dict(entry.before)
    if row["snoozed_until"] is not None:
        row["snoozed_until"] = datetime.fromisoformat(row["snoozed_until"])
    wishes.keep_yard(work, YardWishes(**row))


def _chat_wished(
    work: Work, yard: YardRecord, entry: JournalEntry, person_id: int, now: datetime
) -> None:
    wishes.keep_chat(work, ChatWishes(**entry.before))
    yards.change(work, yard.id, next_check_at=now)


def _muted(
    work: Work, yard: YardRecord, entry: JournalEntry, person_id: int, now: datetime
) -> None:
    for target in entry.before.get("targets", [Target.SUMMER_ANNUALS]):
        wishes.unmute(work, yard.id, target, entry.before["year"])


def _unmuted(
    work: Work, yard: YardRecord, entry: JournalEntry, person_id: int, now: datetime
) -> None:
    year = entry.before["year"]
    for target in entry.before.get("targets", [Target.SUMMER_ANNUALS]):
        wishes.mute(work, yard.id, target, year, person_id=person_id, now=now)


_UNDO: Final[dict[str, Callable[[Work, YardRecord, JournalEntry, int, datetime], None]]] = {
    "application.add": _application,
    "watering.add": _watering,
    "reading.add": _reading,
    "seeding.add": _seeding,
    "seeding.decide": _seeding_decided,
    "seeding.mow": _mown,
    "record.edit": _record_edited,
    "record.redate": _record_redated,
    "record.amount": _record_amount,
    "record.register": _registered,
    "sighting.add": _sighting,
    "zones.keep": _zones_kept,
    "zones.remove": _zones_removed,
    "zones.change": _zones_changed,
    "product.choose": _product,
    "product.change": _product_changed,
    "machine.try": _machine_tried,
    "machine.change": _machine_changed,
    "photo.add": _photo_added,
    "person.change": _person_changed,
    "yard.change": _yard_changed,
    "yard.add": _yard_added,
    "yard.remove": _yard_removed,
    "wishes.yard": _yard_wished,
    "wishes.chat": _chat_wished,
    "wishes.mute": _muted,
    "wishes.unmute": _unmuted,
}
