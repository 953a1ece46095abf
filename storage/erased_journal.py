"""The journal of somebody who is erased: what concerns yards of others stays, without words."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from typing import Any, Final

from sqlalchemy import Select, delete, select, update

from storage import models
from storage.database import Work

#: Numbers handed to the database at once: SQLite takes no more than some thousands.
_AT_ONCE: Final = 500


def part(work: Work, chat_id: int, person_id: int) -> None:
    """Delete the journal of a chat and of its yards; hand over what it changed in yards of others.

    What was said there loses its words and its images of rows, so nobody can take it back any more;
    that it was done, and what was put right in a record, stays with the yard.
    """
    journal, change = models.Journal, models.JournalChange
    mine = select(models.Yard.id).where(models.Yard.chat_id == chat_id)
    said_here = set(work.scalars(select(journal.id).where(journal.chat_id == chat_id)))
    of_mine = set(work.scalars(select(change.journal_id).where(change.yard_id.in_(mine))))
    heirs = _heirs(work, chat_id, but=of_mine)
    doomed = (said_here | of_mine) - heirs.keys()
    for entry_id, (yard_id, owner) in heirs.items():
        work.execute(
            update(journal)
            .where(journal.id == entry_id)
            .values(chat_id=owner, yard_id=yard_id, said="")
        )
    theirs = set(work.scalars(select(journal.id).where(journal.person_id == person_id))) - doomed
    _delete(work, models.JournalRow, "journal_id", theirs)
    for some in _some(theirs):
        work.execute(update(journal).where(journal.id.in_(some)).values(said=""))
    _let_go(work, doomed, mine)
    for table in (models.JournalRow, models.JournalChange):
        _delete(work, table, "journal_id", doomed)
    for some in _some(doomed):
        # One of these may have taken back another that is deleted a moment later.
        work.execute(update(journal).where(journal.id.in_(some)).values(undone_in=None))
    _delete(work, journal, "id", doomed)


def _heirs(work: Work, chat_id: int, *, but: Collection[int]) -> dict[int, tuple[int, int]]:
    """Return the units of a chat that changed yards of others, each with the yard and its chat."""
    journal, change, yard = models.Journal, models.JournalChange, models.Yard
    found = work.execute(
        select(change.journal_id, yard.id, yard.chat_id)
        .join(yard, yard.id == change.yard_id)
        .join(journal, journal.id == change.journal_id)
        .where(journal.chat_id == chat_id, yard.chat_id != chat_id)
    )
    heirs = {unit: (yard_id, owner) for unit, yard_id, owner in found if unit not in but}
    # A unit that took one of them back goes with it.
    open_ids = set(heirs)
    while open_ids:
        taken_back: dict[int, int] = {}
        for some in _some(open_ids):
            query = select(journal.id, journal.undone_in).where(journal.id.in_(some))
            taken_back |= {by: unit for unit, by in work.execute(query) if by is not None}
        open_ids = {by for by in taken_back if by not in heirs and by not in but}
        heirs |= {by: heirs[taken_back[by]] for by in open_ids}
    return heirs


def _let_go(work: Work, doomed: Collection[int], mine: Select[Any]) -> None:
    """Let what others did point at nothing that goes."""
    journal = models.Journal
    for some in _some(doomed):
        # Still taken back, though nobody can say any more by what.
        work.execute(
            update(journal).where(journal.undone_in.in_(some)).values(undone_in=journal.id)
        )
    work.execute(update(journal).where(journal.yard_id.in_(mine)).values(yard_id=None))


def _delete(work: Work, table: type[Any], column: str, ids: Collection[int]) -> None:
    for some in _some(ids):
        work.execute(
            delete(table)
            .where(getattr(table, column).in_(some))
            .execution_options(synchronize_session=False)
        )


def _some(ids: Collection[int]) -> Iterator[list[int]]:
    every = sorted(ids)
    for at in range(0, len(every), _AT_ONCE):
        yield every[at : at + _AT_ONCE]
