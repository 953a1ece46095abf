"""Rows put back to what they were before a unit of work, or again to what they were after it.

What has been changed since is never overwritten: nothing is put back then. A row that was added is
struck out, so that its number is not given to another; where its table knows no such mark it is
removed. Running totals are put back by their difference. What only follows from other rows is left
alone where time has moved it on.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any, Final

from sqlalchemy import Table, select

from storage import models
from storage.database import Work
from storage.journalled import TABLES, Image, Kept, decoded, encoded
from storage.recorder import unrecorded


class ChangedSince(Exception):
    """Raised where a row is not any more what a unit of work left; it says which."""

    def __init__(self, table: str, row_id: int) -> None:
        super().__init__(f"{table} {row_id}")
        self.table = table
        self.row_id = row_id


def put_back(work: Work, entry_id: int, *, person_id: int, now: datetime) -> frozenset[str]:
    """Put every row of a unit of work back to what it was; return the tables concerned.

    Raises
    ------
    ChangedSince
        If a row has been changed since; nothing is put back then.
    """
    rows = reversed(_rows(work, entry_id))
    return _walk(work, [_Step.of(row, row.after, row.before) for row in rows], person_id, now)


def put_again(work: Work, entry_id: int, *, person_id: int, now: datetime) -> frozenset[str]:
    """Put every row of a unit of work that was taken back to what that unit had made of it.

    Raises
    ------
    ChangedSince
        If a row has been changed since; nothing is put back then.
    """
    rows = _rows(work, entry_id)
    return _walk(work, [_Step.of(row, row.before, row.after) for row in rows], person_id, now)


@dataclass(frozen=True, slots=True)
class _Step:
    """One row, from what it is held to be (`was`) to what it is to be (`to`); None: not there."""

    model: type[models.Base]
    kept: Kept
    row_id: int
    was: Image | None
    to: Image | None

    @classmethod
    def of(cls, row: models.JournalRow, was: Image | None, to: Image | None) -> _Step:
        model = _MODELS[row.table_name]
        # Columns of an older schema are gone, with what was in them.
        held = {column.key for column in model.__table__.columns}
        known = [
            None if image is None else {name: image[name] for name in image if name in held}
            for image in (was, to)
        ]
        return cls(model, TABLES[row.table_name], row.row_id, *known)

    @property
    def table(self) -> Table:
        table = self.model.__table__
        assert isinstance(table, Table)
        return table

    @property
    def is_coming_or_going(self) -> bool:
        return self.was is None or self.to is None

    def column_is(self, row: Any, name: str, image: Image) -> bool:
        return bool(encoded(getattr(row, name)) == image[name])


def _walk(work: Work, steps: Sequence[_Step], person_id: int, now: datetime) -> frozenset[str]:
    with unrecorded(work):
        for step in steps:
            if not step.kept.is_derived and not _is_as_left(step, _row(work, step)):
                raise ChangedSince(step.table.name, step.row_id)
        for step in steps:
            row = _row(work, step)
            if _is_as_left(step, row):
                _take(work, step, row, person_id, now)
                work.flush()
    return frozenset(step.table.name for step in steps)


def _is_as_left(step: _Step, row: Any | None) -> bool:
    """Tell whether a row is still as it was left, as far as it is to be put to something else."""
    kept, was = step.kept, step.was
    if step.is_coming_or_going:
        if kept.is_part:
            return True
        if kept.mark is not None:
            there = step.was or step.to or {}
            is_struck = was is None or there[kept.mark] is not None
            return row is not None and (getattr(row, kept.mark) is not None) == is_struck
        if was is None and not kept.is_blanked:
            return row is None
    if row is None:
        return False
    if was is None:
        return all(getattr(row, name) is None for name in _blank(step))
    names = kept.compared & was.keys() or was.keys() - kept.counted
    return all(step.column_is(row, name, was) for name in names)


def _take(work: Work, step: _Step, row: Any | None, person_id: int, now: datetime) -> None:
    kept, was, to = step.kept, step.was, step.to
    if step.is_coming_or_going and kept.is_part:
        return
    if step.is_coming_or_going and kept.mark is not None:
        there = was or to or {}
        if there[kept.mark] is None:
            setattr(row, kept.mark, now if to is None else None)
            if kept.mark_by is not None:
                setattr(row, kept.mark_by, person_id if to is None else None)
    elif to is None and kept.is_blanked:
        for name in _blank(step):
            setattr(row, name, None)
    elif to is None:
        work.delete(row)
    elif row is None:
        columns = step.table.columns
        work.add(step.model(**{name: decoded(columns[name], to[name]) for name in to}))
    else:
        _set(step, row, was or {}, to)
    if row is not None and hasattr(row, "version"):
        # Whoever holds the row as it was before must look again.
        row.version += 1


def _set(step: _Step, row: Any, was: Image, to: Image) -> None:
    for name in to:
        value = decoded(step.table.columns[name], to[name])
        is_same = not was or step.column_is(row, name, was)
        if is_same:
            setattr(row, name, value)
        elif name in step.kept.counted and not (was[name] is None or value is None):
            held = getattr(row, name)
            if held is not None:
                setattr(row, name, max(0.0, held + value - was[name]))


def _blank(step: _Step) -> list[str]:
    """Return the columns of a row in which somebody said something."""
    return [column.key for column in step.kept.columns(step.table) if column.nullable]


def _row(work: Work, step: _Step) -> Any | None:
    return work.get(step.model, step.row_id, populate_existing=True, with_for_update=_HELD)


def _rows(work: Work, entry_id: int) -> list[models.JournalRow]:
    query = select(models.JournalRow).where(models.JournalRow.journal_id == entry_id)
    return list(work.scalars(query.order_by(models.JournalRow.id)))


#: Rows that name the row may still be written meanwhile, hence not a full lock.
_HELD: Final = {"key_share": True}

_MODELS: Final = {
    mapper.local_table.name: mapper.class_
    for mapper in models.Base.registry.mappers
    if isinstance(mapper.local_table, Table)
}
