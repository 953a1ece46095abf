"""Taking a change back, and putting it back again: rows as they were, then a look at what is true.

What a unit of work changed is put back row by row, never over something newer. A person takes back
their own changes, in the chat in which they said them, on yards they share and have shared since.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Final, Literal

from jobs.agronomy.season import Target
from jobs.standing import standing_of
from jobs.yard_look import look
from storage import crews, journal, putting_back, seasons, yards
from storage.database import Work
from storage.journal import Entry
from storage.putting_back import ChangedSince
from storage.recorder import unrecorded
from storage.seasons import SeasonRecord


class NothingToUndo(LookupError):
    """Raised when there is no change of one's own that can be taken back, or put back.

    `instead` is the newest change of the yard, where that is another person's.
    """

    def __init__(self, instead: Entry | None = None) -> None:
        super().__init__()
        self.instead = instead


class UndoneAlready(LookupError):
    """Raised when a change has been taken back before, or stands already."""


class NotTheNewest(LookupError):
    """Raised when newer changes stand on the one to be taken back; they are `newer`."""

    def __init__(self, newer: Sequence[Entry]) -> None:
        super().__init__(str([each.id for each in newer]))
        self.newer = tuple(newer)


@dataclass(frozen=True, slots=True)
class Asker:
    """Who wants something back: the person, their chat, and the role it has in each yard."""

    person_id: int
    chat_id: int
    role: Callable[[int], str]


@dataclass(frozen=True, slots=True)
class Undoable:
    """A change that can be taken back, and what other people said that hangs on it."""

    entry: Entry
    others: tuple[Entry, ...]


#: What a share that may confirm goes as far as; everything else wants one that may change.
_CONFIRMED: Final = frozenset(
    {"application.add", "watering.add", "reading.add", "sighting.add", "wishes.snooze"}
)
#: What is a person's or a chat's own, whatever their share.
_OWN: Final = frozenset({"person.pace", "person.licence", "wishes.chat", "chat.units"})
_CONFIRMERS: Final = ("confirm", "change", "own")
_CHANGERS: Final = ("change", "own")
#: Tables from which seasons follow.
_MOVES_SEASONS: Final = frozenset({"application", "application_zone", "season"})


def undoable(
    work: Work, asker: Asker, *, entry_id: int | None = None, yard_id: int | None = None
) -> Undoable:
    """Return the change meant: the one named, or the asker's newest of a yard.

    Raises
    ------
    NothingToUndo, UndoneAlready
        If there is none.
    NotTheNewest
        If newer changes of the asker's own stand on it.
    """
    if entry_id is not None:
        found = journal.entry(work, entry_id)
    else:
        own = {"chat_id": asker.chat_id, "person_id": asker.person_id}
        found = journal.newest(work, yard_id=yard_id, **own)
        if found is None:
            raise NothingToUndo(journal.newest(work, yard_id=yard_id))
    if found is None or not _is_theirs(work, found, asker):
        raise NothingToUndo
    if found.undone_in is not None:
        raise UndoneAlready
    hanging = journal.hanging_on(work, found)
    own_newer = [each for each in hanging if each.person_id == asker.person_id]
    if own_newer:
        raise NotTheNewest(own_newer)
    return Undoable(found, tuple(hanging))


def redoable(work: Work, asker: Asker, *, entry_id: int | None = None) -> Entry:
    """Return the change meant: the one named, or what the asker took back last.

    Raises
    ------
    NothingToUndo, UndoneAlready
        If there is none.
    """
    if entry_id is not None:
        found = journal.entry(work, entry_id)
    else:
        own = {"chat_id": asker.chat_id, "person_id": asker.person_id}
        found = journal.newest_undone(work, **own)
    if found is None or not _is_theirs(work, found, asker):
        raise NothingToUndo
    if found.undone_in is None:
        raise UndoneAlready
    return found


@dataclass(frozen=True, slots=True)
class _Way:
    """A way through the journal: back or again; what it is called there and in the season."""

    action: Literal["undo", "redo"]
    why: str
    put: Callable[..., frozenset[str]]


_BACK: Final = _Way("undo", "taken_back", putting_back.put_back)
_AGAIN: Final = _Way("redo", "put_back", putting_back.put_again)


def undo(work: Work, entry: Entry, *, person_id: int, now: datetime) -> None:
    """Take a change back: all of its rows together, and what followed from them.

    Raises
    ------
    UndoneAlready
        If somebody was faster.
    NotTheNewest
        If a row has been changed since: it would be overwritten.
    """
    _go(work, entry, _BACK, person_id=person_id, now=now)


def redo(work: Work, entry: Entry, *, person_id: int, now: datetime) -> None:
    """Put a change back that was taken back; it raises as `undo` does."""
    _go(work, entry, _AGAIN, person_id=person_id, now=now)


def _go(work: Work, entry: Entry, way: _Way, *, person_id: int, now: datetime) -> None:
    is_back = way.action == "undo"
    _hold(work, entry, is_undone=not is_back)
    before = _seasons(work, entry)
    try:
        tables = way.put(work, entry.id, person_id=person_id, now=now)
    except ChangedSince as since:
        raise NotTheNewest(_newer(work, entry, since)) from since
    noted = journal.note(work, entry.yard_id, way.action, entry.id)
    journal.mark_undone(work, entry.id, noted if is_back else None)
    _look_again(work, entry, tables, before, way.why, person_id, now)


def _is_theirs(work: Work, entry: Entry, asker: Asker) -> bool:
    """Tell whether a change is the asker's own, and they may still, and might all along, make it.

    Who came to share a yard again after a removal takes nothing back from before it.
    """
    if (entry.person_id, entry.chat_id) != (asker.person_id, asker.chat_id) or not entry.changes:
        return False
    for change in entry.changes:
        if change.action in _OWN or change.yard_id is None:
            continue
        role = asker.role(change.yard_id)
        if role not in (_CONFIRMERS if change.action in _CONFIRMED else _CHANGERS):
            return False
        since = None if role == "own" else crews.shared_since(work, change.yard_id, asker.chat_id)
        if since is not None and entry.at < since:
            return False
    return True


def _newer(work: Work, entry: Entry, since: ChangedSince) -> list[Entry]:
    newer = journal.changed_since(work, entry, since.table, since.row_id)
    return [] if newer is None else [newer]


def _hold(work: Work, entry: Entry, *, is_undone: bool) -> None:
    """Hold the yards concerned; two may take the same thing back at once."""
    for yard_id in sorted(entry.yard_ids):
        yards.hold(work, yard_id)
    if journal.is_undone(work, entry.id) != is_undone:
        raise UndoneAlready


def _seasons(work: Work, entry: Entry) -> dict[tuple[int, Target], SeasonRecord | None]:
    return {
        (yard_id, target): standing_of(work, yard).season(target)
        for yard_id in entry.yard_ids
        if (yard := yards.yard(work, yard_id)) is not None
        for target in Target
    }


def _look_again(
    work: Work,
    entry: Entry,
    tables: frozenset[str],
    before: dict[tuple[int, Target], SeasonRecord | None],
    why: str,
    person_id: int,
    now: datetime,
) -> None:
    """Note how seasons went, and look at what is true now: time may have moved on since."""
    with unrecorded(work):
        for (yard_id, target), was in before.items():
            yard = yards.yard(work, yard_id)
            season = None if yard is None else standing_of(work, yard).season(target)
            if was is not None and season is not None and was.state != season.state:
                seasons.note_event(
                    work,
                    yard_id=yard_id,
                    target=target,
                    year=season.year,
                    at=now,
                    state_before=was.state,
                    state_after=season.state,
                    why=why,
                    person_id=person_id,
                    facts={},
                )
        for yard_id in entry.yard_ids:
            yard = yards.yard(work, yard_id)
            if yard is not None and tables & _MOVES_SEASONS:
                look(work, yard, {}, None, now, person_id=person_id)
            yards.change(work, yard_id, next_check_at=now)
