"""Parting: giving a yard up, hearing no more, taking everything along, being forgotten."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import Any

from storage import chats, erasing, journal, yards
from storage.database import Work
from storage.erasing import Kept
from storage.yards import YardRecord


@dataclass(frozen=True, slots=True)
class Erased:
    """What was deleted: how many rows, and what still lies in files.

    Attributes
    ----------
    rows
        How many rows are gone.
    photos
        Photos that nobody else keeps.
    drawings
        Pictures that were drawn, as they were told.
    yard_ids
        The yards, which have a folder of exported files each.
    """

    rows: int
    photos: tuple[Path, ...]
    drawings: tuple[dict[str, Any], ...]
    yard_ids: tuple[int, ...]


def give_up(work: Work, yard: YardRecord, *, now: datetime) -> None:
    """Look after a yard no more; all that is on record stays."""
    journal.note(work, None, "yard.remove", yard.id, name=yard.name)
    yards.change(work, yard.id, archived_at=now)


def stop(work: Work, chat_id: int, now: datetime) -> None:
    """Tell a chat nothing unasked any more; what waits to be told is withdrawn when it is due."""
    chats.stop(work, chat_id, now)


def start_again(work: Work, chat_id: int, now: datetime) -> None:
    """Tell a chat again; its yards are looked at anew at once."""
    chats.stop(work, chat_id, None)
    for yard in yards.of_chat(work, chat_id):
        yards.change(work, yard.id, next_check_at=now)


def keep_unread(work: Work, chat_id: int, *, keeps: bool) -> None:
    """Say whether texts that were not understood may be kept, without names and places."""
    chats.keep_unread(work, chat_id, keeps=keeps)


def kept(work: Work, chat_id: int) -> Kept:
    """Count what is kept of a chat."""
    return erasing.count(work, chat_id)


def everything(work: Work, chat_id: int, person_id: int | None) -> dict[str, list[dict[str, Any]]]:
    """Return all that is kept of a chat, and of its person if one is given, table by table."""
    return erasing.everything(work, chat_id, person_id)


def erase(work: Work, chat_id: int, person_id: int, now: datetime) -> Erased:
    """Delete all that is kept of a chat and its person; the files are left to the caller.

    What lies in files may only go once the rows are gone for good.
    """
    lying = (
        tuple(erasing.files(work, chat_id)),
        tuple(erasing.drawings(work, chat_id)),
        tuple(erasing.yard_ids(work, chat_id)),
    )
    rows = erasing.erase(work, chat_id, person_id, now)
    return Erased(rows, *lying)
