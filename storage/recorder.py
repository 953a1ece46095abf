"""What a person's unit of work changed, kept by the session itself: each row before and after.

A unit of work is opened with its `Author`: who, in which chat, when, by which words, on which yard.
The session then keeps every row of a journalled table that it adds, changes or removes, by
flush or by a bulk statement, and writes them into the journal when the unit of work ends. Units of
work without an author (the clock's own) are not journalled.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, field
from datetime import datetime
from typing import Any

from sqlalchemy import Column, Delete, MetaData, Table, Update, event, inspect, select
from sqlalchemy.engine import Result
from sqlalchemy.orm import Mapper, ORMExecuteState, Session

from storage.journalled import TABLES, Image, Kept, encoded, image_of


@dataclass(frozen=True, slots=True)
class Author:
    """Who changes something, and how they came to it; kept with every change.

    Attributes
    ----------
    person_id, chat_id
        Who, and where they said it.
    at
        When.
    said
        Their words, or the button.
    turn
        The turn's own key, where it was said in a turn.
    yard_id
        The yard being talked about.
    """

    person_id: int
    chat_id: int
    at: datetime
    said: str = ""
    turn: str | None = None
    yard_id: int | None = None


class Unsigned(LookupError):
    """Raised where a change is noted in a unit of work that was opened without its author."""


@dataclass(slots=True)
class Recorder:
    """What one unit of work changed so far; `unit_id` is its journal row once there is one."""

    author: Author
    unit_id: int | None = None
    is_paused: bool = False
    _rows: dict[tuple[str, int], tuple[Image | None, Image | None]] = field(default_factory=dict)
    _metadata: MetaData | None = None

    def see(self, table: Table, key: int, before: Image | None, after: Image | None) -> None:
        """Take note of a row before and after; of a changed one only what changed is given."""
        self._metadata = table.metadata
        earlier = self._rows.get((table.name, key))
        if earlier is not None:
            was, _ = earlier
            if was is None and after is None:
                del self._rows[table.name, key]
                return
            after = None if after is None else {**(earlier[1] or {}), **after}
            before = None if was is None else {**(before or {}), **was}
        self._rows[table.name, key] = before, after

    @property
    def has_seen_any(self) -> bool:
        """Whether any row was changed so far."""
        return self.unit_id is not None or bool(self._rows)

    def unit(self, work: Session, metadata: MetaData) -> int:
        """Return the journal row of this unit of work, made at the first change."""
        if self.unit_id is None:
            by = self.author
            made = work.connection().execute(
                metadata.tables["journal"]
                .insert()
                .values(
                    at=by.at,
                    chat_id=by.chat_id,
                    person_id=by.person_id,
                    yard_id=by.yard_id,
                    turn=by.turn,
                    said=by.said,
                    undone_in=None,
                )
            )
            assert made.inserted_primary_key is not None
            self.unit_id = int(made.inserted_primary_key[0])
        return self.unit_id

    def write(self, work: Session) -> None:
        """Write what changed into the journal; what only follows from it needs a cause there."""
        work.flush()
        changed = [(at, images) for at, images in self._rows.items() if images[0] != images[1]]
        self._rows.clear()
        is_said = any(not TABLES[table].is_derived for (table, _), _ in changed)
        if not changed or self._metadata is None or not (is_said or self.unit_id is not None):
            return
        unit_id = self.unit(work, self._metadata)
        work.connection().execute(
            self._metadata.tables["journal_row"].insert(),
            [
                {
                    "journal_id": unit_id,
                    "table_name": table,
                    "row_id": row_id,
                    **_differing(*images),
                }
                for (table, row_id), images in changed
            ],
        )


def recorder_of(work: Session) -> Recorder | None:
    """Return what records a unit of work, or None where it has no author."""
    return work.info.get("recorder")


def sign(work: Session, author: Author) -> None:
    """Say who changes what is changed in a unit of work from here on."""
    work.info["recorder"] = Recorder(author)


def unsign(work: Session) -> None:
    """Journal nothing of a unit of work, neither what it changed so far nor what is to come."""
    work.info.pop("recorder", None)


@contextmanager
def unrecorded(work: Session) -> Iterator[None]:
    """Let rows be put back without that being journalled row by row again."""
    recorder = recorder_of(work)
    if recorder is None:
        raise Unsigned
    work.flush()
    recorder.is_paused = True
    try:
        yield
        work.flush()
    finally:
        recorder.is_paused = False


def watch(session: type[Session]) -> None:
    """Let every session of a class keep what it changes, where it has an author."""
    event.listen(session, "after_flush", _after_flush)
    event.listen(session, "do_orm_execute", _around_bulk)


def _after_flush(work: Session, _context: Any) -> None:
    recorder = recorder_of(work)
    if recorder is None or recorder.is_paused:
        return
    for row in work.new:
        _see_added(work, recorder, row)
    for row in work.dirty:
        _see_changed(recorder, row)
    for row in work.deleted:
        mapper, table, kept = _of(row)
        if kept is not None:
            image = image_of(row, kept.columns(table))
            recorder.see(table, _key(mapper, row), {**image, **_old(row, kept, table)[0]}, None)


def _see_added(work: Session, recorder: Recorder, row: Any) -> None:
    mapper, table, kept = _of(row)
    if kept is None or kept.only:
        return
    key, columns, held = _key(mapper, row), kept.columns(table), inspect(row).dict
    if any(column.key not in held and column.server_default is not None for column in columns):
        (image,) = _read(work, table, columns, _id(table) == key).values()
    else:
        image = {column.key: encoded(held.get(column.key)) for column in columns}
    recorder.see(table, key, None, image)


def _see_changed(recorder: Recorder, row: Any) -> None:
    mapper, table, kept = _of(row)
    if kept is None:
        return
    before, after = _old(row, kept, table)
    if before:
        recorder.see(table, _key(mapper, row), before, after)


def _old(row: Any, kept: Kept, table: Table) -> tuple[Image, Image]:
    """Return the changed columns of a row as they were and as they are."""
    before, after = {}, {}
    for column in kept.columns(table):
        history = inspect(row).attrs[column.key].history
        if history.added:
            # What was never set on a row just added is empty there.
            before[column.key] = encoded(history.deleted[0]) if history.deleted else None
            after[column.key] = encoded(history.added[0])
    return before, after


def _around_bulk(state: ORMExecuteState) -> Result[Any] | None:
    """Keep what an update or delete does to rows that no flush sees."""
    recorder = recorder_of(state.session)
    statement = state.statement
    if recorder is None or recorder.is_paused or not isinstance(statement, Update | Delete):
        return None
    assert isinstance(statement.table, Table)
    kept = TABLES.get(statement.table.name)
    if kept is None:
        return None
    work, table = state.session, statement.table.metadata.tables[statement.table.name]
    columns = kept.columns(table)
    work.flush()
    before = _read(work, table, columns, statement.whereclause, state.parameters)
    result = state.invoke_statement()
    after = _read(work, table, columns, _id(table).in_(before)) if before else {}
    for key, image in before.items():
        now = after.get(key)
        changed = [name for name in image if now is not None and now[name] != image[name]]
        if now is None:
            recorder.see(table, key, image, None)
        elif changed:
            recorder.see(table, key, {n: image[n] for n in changed}, {n: now[n] for n in changed})
    return result


def _read(
    work: Session, table: Table, columns: list[Column[Any]], where: Any, parameters: Any = None
) -> dict[int, Image]:
    query = select(_id(table).label("its_key"), *columns)
    rows = work.connection().execute(
        query if where is None else query.where(where),
        parameters if isinstance(parameters, Mapping) else {},
    )
    found = {}
    for row in rows.mappings():
        image = {column.key: encoded(row[column.key]) for column in columns}
        found[row["its_key"]] = image
    return found


def _of(row: Any) -> tuple[Mapper[Any], Table, Kept | None]:
    mapper = inspect(row).mapper
    table = mapper.local_table
    assert isinstance(table, Table)
    return mapper, table, TABLES.get(table.name)


def _id(table: Table) -> Column[Any]:
    (column,) = table.primary_key.columns
    return column


def _key(mapper: Mapper[Any], row: Any) -> int:
    (key,) = mapper.primary_key_from_instance(row)
    return int(key)


def _differing(before: Image | None, after: Image | None) -> dict[str, Image | None]:
    """Return of a changed row only the columns that differ in the end."""
    if before is None or after is None:
        return {"before": before, "after": after}
    names = [name for name in after if before.get(name) != after[name]]
    return {"before": {n: before.get(n) for n in names}, "after": {n: after[n] for n in names}}
