"""Rows of several tables in one statement, alive in the session that asked for them."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from functools import cached_property
from itertools import groupby
from operator import itemgetter
from typing import Any, TypeAlias

from sqlalchemy import (
    ColumnElement,
    CompoundSelect,
    Connection,
    CursorResult,
    Dialect,
    Table,
    cast,
    inspect,
    literal_column,
    null,
    select,
    union_all,
    util,
)
from sqlalchemy.orm import Mapper
from sqlalchemy.orm.attributes import instance_dict, instance_state
from sqlalchemy.types import TypeEngine

from storage import models
from storage.database import Work

Model: TypeAlias = type[models.Base]
#: What the driver says of columns, and rows as it gives them.
Unread: TypeAlias = tuple[list[Any], list[Any]]


class Gathering:
    """A statement over several tables, built once; one round trip however many they are.

    Columns of one type stand below each other, so that it is little wider than the widest table.
    A row's relations are set where what they lead to was gathered before it.

    Parameters
    ----------
    wanted
        Tables, each with the condition of the rows wanted.
    """

    def __init__(self, *wanted: tuple[Model, ColumnElement[bool]]) -> None:
        self._wanted = wanted
        self._written: dict[str, _Written] = {}
        self.models = tuple(model for model, _ in wanted)

    @cached_property
    def _shaped(self) -> tuple[list[_Shape], CompoundSelect[Any]]:
        """How rows of each table stand, and the statement: made when it is first asked for."""
        types: list[TypeEngine[Any]] = []
        tables = [(model, _places(model, types)) for model, _ in self._wanted]
        parts = []
        for number, (model, where) in enumerate(self._wanted):
            at = {place: key for key, place in tables[number][1].items()}
            columns = [
                model.__table__.columns[at[place]]
                if place in at
                # The first table's say of which type what is missing is.
                else (null() if number else cast(null(), kind))
                for place, kind in enumerate(types)
            ]
            labelled = [column.label(f"c{place}") for place, column in enumerate(columns)]
            of_table: ColumnElement[int] = literal_column(str(number))
            parts.append(select(of_table.label("of_table"), *labelled).where(where))
        return [_Shape(model, places) for model, places in tables], union_all(*parts)

    def rows(self, work: Work, values: Mapping[str, Any]) -> Iterator[Any]:
        """Return live rows as they are now, in the order of the tables."""
        return self.alive(work, self.read(work, values))

    def read(self, work: Work, values: Mapping[str, Any]) -> Unread:
        """Return the rows as the driver gives them now: the same again is the same."""
        work.flush()
        with self._asked(work.connection(), values) as result:
            assert result.cursor is not None
            kinds = [column[1] for column in result.cursor.description]
            return kinds, sorted(result.cursor.fetchall(), key=itemgetter(0))

    def alive(self, work: Work, unread: Unread) -> Iterator[Any]:
        """Return such rows alive."""
        (kinds, found), (shapes, _) = unread, self._shaped
        # A row fills few of the columns: what the driver gives is read for those alone.
        for number, rows in groupby(found, key=itemgetter(0)):
            yield from shapes[number].live(work, rows, work.connection().dialect, kinds)

    def _asked(self, connection: Connection, values: Mapping[str, Any]) -> CursorResult[Any]:
        """Ask; a statement of many tables is put into words once, not looked up by all it holds."""
        dialect = connection.dialect
        written = self._written.get(dialect.name)
        if written is None:
            written = self._written[dialect.name] = _Written(self._shaped[1], dialect)
        if written.varies:
            return connection.execute(self._shaped[1], values)
        return written.asked(connection, values)


class _Written:
    """A statement in the words of a database; `varies` where they go by how many values it gets."""

    def __init__(self, statement: CompoundSelect[Any], dialect: Dialect) -> None:
        self._compiled: Any = statement.compile(dialect=dialect)
        self.varies = bool(self._compiled.post_compile_params)

    def asked(self, connection: Connection, values: Mapping[str, Any]) -> CursorResult[Any]:
        """Ask, in words already made: by any public way they, or the columns, are made anew."""
        context, given = connection.dialect.execution_ctx_cls, [dict(values)]
        result: CursorResult[Any] = connection._execute_context(
            connection.dialect,
            context._init_compiled,
            self._compiled,
            given,
            util.EMPTY_DICT,
            self._compiled,
            given,
            None,
            None,
        )
        return result


class _Shape:
    """How the rows of one table stand in a gathering."""

    def __init__(self, model: Model, places: Mapping[str, int]) -> None:
        self._mapper: Mapper[Any] = inspect(model)
        self._places = [(key, 1 + place) for key, place in places.items()]
        self._key = [1 + places[str(column.key)] for column in self._mapper.primary_key]
        self._relations: list[tuple[str, str, Mapper[Any]]] = []
        for relation in self._mapper.relationships:
            (column,) = relation.local_columns
            self._relations.append((relation.key, str(column.key), relation.mapper))
        self._readers: dict[str, list[tuple[str, int, Callable[[Any], Any] | None]]] = {}

    def live(
        self, work: Work, rows: Iterable[Any], dialect: Dialect, kinds: Sequence[Any]
    ) -> Iterator[Any]:
        """Return rows alive in a session, each with the values the database has of it now.

        `kinds` are what the driver says of the columns, by place.
        """
        readers = self._readers.get(dialect.name)
        if readers is None:
            columns = self._mapper.local_table.columns
            readers = self._readers[dialect.name] = [
                (key, place, _reader(columns[key].type, dialect, kinds[place]))
                for key, place in self._places
            ]
        keyed, session = self._mapper.identity_key_from_primary_key, work.identity_map
        for values in rows:
            key = keyed(tuple(values[place] for place in self._key))
            row = session.get(key)
            if row is None:
                row = self._mapper.class_manager.new_instance()
                # It is the session's as if it had been loaded by it: nothing follows from having
                # it.
                state = instance_state(row)
                state.key, state.session_id = key, work.hash_key
                session.add(state)
            held = instance_dict(row)
            for name, place, read in readers:
                value = values[place]
                held[name] = value if value is None or read is None else read(value)
            for name, column, leads_to in self._relations:
                of = held[column]
                to = None
                if of is not None:
                    to = session.get(leads_to.identity_key_from_primary_key((of,)))
                if of is None or to is not None:
                    held[name] = to
            yield row


def _reader(kind: TypeEngine[Any], dialect: Dialect, of_driver: Any) -> Callable[[Any], Any] | None:
    """Return what makes of a driver's value what the program has, None where it is that."""
    return kind.dialect_impl(dialect).result_processor(dialect, of_driver)


def _places(model: Model, types: list[TypeEngine[Any]]) -> dict[str, int]:
    """Return where the columns of a table stand, by type; new places are added where it needs."""
    table = model.__table__
    assert isinstance(table, Table)
    left = list(range(len(types)))
    found = {}
    for column in table.columns:
        place = next((p for p in left if type(types[p]) is type(column.type)), None)
        if place is None:
            place = len(types)
            types.append(column.type)
        else:
            left.remove(place)
        found[column.key] = place
    return found
