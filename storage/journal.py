"""Who changed what, when and by which words; the newest changes can be taken back.

The session itself keeps the rows (see `storage.recorder`); here stands what a change was, in a word
and its figures, and which unit of work it was part of.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any, Final

from sqlalchemy import ColumnElement, exists, func, or_, select
from sqlalchemy.orm import aliased

from storage import models
from storage.database import Work
from storage.journalled import TABLES
from storage.plain import plain
from storage.recorder import Unsigned, recorder_of

#: Tables of what people say, as against what follows from it.
_SAID: Final = tuple(name for name, kept in TABLES.items() if not kept.is_derived)


@dataclass(frozen=True, slots=True)
class Change:
    """One change: a word such as ``application.add``, what it is about, and the figures to say."""

    id: int
    journal_id: int
    yard_id: int | None
    action: str
    subject_id: int | None
    figures: dict[str, Any]


@dataclass(frozen=True, slots=True)
class Entry:
    """A unit of work in which a person changed something, with its changes in order."""

    id: int
    at: datetime
    chat_id: int
    person_id: int
    yard_id: int | None
    turn: str | None
    said: str
    undone_in: int | None
    changes: tuple[Change, ...] = ()

    @property
    def yard_ids(self) -> tuple[int, ...]:
        """The yards it changed something of."""
        return tuple(dict.fromkeys(c.yard_id for c in self.changes if c.yard_id is not None))


def note(
    work: Work,
    yard_id: int | None,
    action: str,
    subject_id: int | None = None,
    *,
    hangs_on: Sequence[tuple[str, int]] = (),
    **figures: Any,
) -> int:
    """Note what a unit of work changes; return the unit's number, for taking it back.

    Parameters
    ----------
    hangs_on
        Rows, by table and number, that the change says something of: taking them back would leave
        it hanging.
    figures
        What it is said with.

    Raises
    ------
    Unsigned
        If the unit of work was opened without its author.
    """
    recorder = recorder_of(work)
    if recorder is None:
        raise Unsigned(f"{action}: who changes this? Open the unit of work with its author.")
    unit_id = recorder.unit(work, models.Base.metadata)
    work.add(
        models.JournalChange(
            journal_id=unit_id,
            yard_id=yard_id,
            action=action,
            subject_id=subject_id,
            hangs_on=[f"{table} {row_id}" for table, row_id in hangs_on],
            figures=figures,
        )
    )
    work.flush()
    return unit_id


def end_entry(work: Work) -> None:
    """Let what a unit of work changes from here on be an entry of its own, taken back by itself."""
    recorder = recorder_of(work)
    if recorder is not None:
        recorder.write(work)
        recorder.unit_id = None


def entry_now(work: Work) -> int | None:
    """Return this unit of work's own number, or None before anything is noted in it."""
    recorder = recorder_of(work)
    return None if recorder is None else recorder.unit_id


def entry(work: Work, entry_id: int) -> Entry | None:
    """Return a unit of work by its number."""
    row = work.get(models.Journal, entry_id, populate_existing=True)
    return None if row is None else _entries(work, [row])[0]


def newest(
    work: Work, *, yard_id: int | None, chat_id: int | None = None, person_id: int | None = None
) -> Entry | None:
    """Return the newest change of a yard (None: of none) that stands and can be put into words.

    Parameters
    ----------
    chat_id, person_id
        Only what was said in this chat, by this person.
    """
    where = [models.Journal.undone_in.is_(None), _is_about(yard_id), _has_rows()]
    if chat_id is not None:
        where.append(models.Journal.chat_id == chat_id)
    if person_id is not None:
        where.append(models.Journal.person_id == person_id)
    return _first(work, where, models.Journal.id)


def count(work: Work, actions: Sequence[str], *, person_id: int, since: datetime) -> int:
    """Return how many changes of some kinds a person made since an instant, undone or not."""
    return (
        work.scalar(
            select(func.count())
            .select_from(models.JournalChange)
            .join(models.Journal, models.Journal.id == models.JournalChange.journal_id)
            .where(
                models.Journal.person_id == person_id,
                models.Journal.at > since,
                models.JournalChange.action.in_(actions),
            )
        )
        or 0
    )


def newest_undone(work: Work, *, chat_id: int, person_id: int) -> Entry | None:
    """Return what a person took back last in a chat and has not put back."""
    where = [
        models.Journal.undone_in.is_not(None),
        models.Journal.undone_in != models.Journal.id,
        models.Journal.chat_id == chat_id,
        models.Journal.person_id == person_id,
    ]
    return _first(work, where, models.Journal.undone_in)


def is_undone(work: Work, entry_id: int) -> bool:
    """Tell whether a change has been taken back; nobody else can take it back until the end."""
    held = select(models.Journal.undone_in).where(models.Journal.id == entry_id)
    return work.scalar(held.with_for_update(key_share=True)) is not None


def mark_undone(work: Work, entry_id: int, undone_in: int | None) -> None:
    """Note in which unit of work a change was taken back; None: it stands again."""
    work.get_one(models.Journal, entry_id).undone_in = undone_in
    work.flush()


def of_yard(work: Work, yard_id: int, actions: Sequence[str]) -> list[tuple[Entry, Change]]:
    """Return a yard's changes of some kinds that stand, oldest first."""
    rows = work.execute(
        select(models.Journal, models.JournalChange)
        .join(models.JournalChange, models.JournalChange.journal_id == models.Journal.id)
        .where(
            models.JournalChange.yard_id == yard_id,
            models.JournalChange.action.in_(actions),
            models.Journal.undone_in.is_(None),
        )
        .order_by(models.JournalChange.id)
    )
    return [(_entry(unit, ()), plain(change, Change)) for unit, change in rows]


def hanging_on(work: Work, of: Entry) -> list[Entry]:
    """Return later changes that stand on what a unit of work added or changed, oldest first."""
    rows = {
        (row.table_name, row.row_id)
        for row in work.scalars(select(models.JournalRow).where(_of_unit(of.id)))
        if row.before is None and TABLES[row.table_name].mark is not None
    }
    if not rows:
        return []
    later = select(models.Journal).where(
        models.Journal.id > of.id, models.Journal.undone_in.is_(None), _has_rows()
    )
    touched = [
        (models.JournalRow.table_name == table) & (models.JournalRow.row_id == row_id)
        for table, row_id in rows
    ]
    touching = later.join(
        models.JournalRow, models.JournalRow.journal_id == models.Journal.id
    ).where(or_(*touched))
    found = {unit.id: unit for unit in work.scalars(touching)}
    about = later.join(
        models.JournalChange, models.JournalChange.journal_id == models.Journal.id
    ).add_columns(models.JournalChange.hangs_on)
    names = {f"{table} {row_id}" for table, row_id in rows}
    yards = of.yard_ids
    for unit, hangs_on in work.execute(about.where(models.JournalChange.yard_id.in_(yards))):
        if names.intersection(hangs_on):
            found[unit.id] = unit
    return [each for each in _entries(work, [found[i] for i in sorted(found)]) if each.changes]


def changed_since(work: Work, of: Entry, table: str, row_id: int) -> Entry | None:
    """Return the newest later change of a row that stands, or None where nobody changed it."""
    row = work.scalar(
        select(models.Journal)
        .join(models.JournalRow, models.JournalRow.journal_id == models.Journal.id)
        .where(
            models.Journal.id > of.id,
            models.Journal.undone_in.is_(None),
            models.JournalRow.table_name == table,
            models.JournalRow.row_id == row_id,
        )
        .order_by(models.Journal.id.desc())
        .limit(1)
    )
    return None if row is None else _entries(work, [row])[0]


def _is_about(yard_id: int | None) -> ColumnElement[bool]:
    change = aliased(models.JournalChange)
    is_of_yard = change.yard_id.is_(None) if yard_id is None else change.yard_id == yard_id
    return exists().where(change.journal_id == models.Journal.id, is_of_yard)


def _has_rows() -> ColumnElement[bool]:
    row = aliased(models.JournalRow)
    return exists().where(row.journal_id == models.Journal.id, row.table_name.in_(_SAID))


def _of_unit(entry_id: int) -> ColumnElement[bool]:
    return models.JournalRow.journal_id == entry_id


def _first(work: Work, where: Sequence[ColumnElement[bool]], by: Any) -> Entry | None:
    query = select(models.Journal).where(*where).order_by(by.desc()).limit(1)
    found = _entries(work, list(work.scalars(query)))
    return found[0] if found else None


def _entries(work: Work, rows: Sequence[models.Journal]) -> list[Entry]:
    changes: dict[int, list[Change]] = {row.id: [] for row in rows}
    query = (
        select(models.JournalChange)
        .where(models.JournalChange.journal_id.in_(changes))
        .order_by(models.JournalChange.id)
    )
    for change in work.scalars(query):
        changes[change.journal_id].append(plain(change, Change))
    return [_entry(row, tuple(changes[row.id])) for row in rows]


def _entry(row: models.Journal, changes: tuple[Change, ...]) -> Entry:
    return Entry(
        id=row.id,
        at=row.at,
        chat_id=row.chat_id,
        person_id=row.person_id,
        yard_id=row.yard_id,
        turn=row.turn,
        said=row.said,
        undone_in=row.undone_in,
        changes=changes,
    )
