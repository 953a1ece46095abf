"""Rows of several tables in one statement, alive in the session that asked for them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any, TypeAlias

from sqlalchemy import ColumnElement, Table, cast, inspect, literal_column, null, select, union_all
from sqlalchemy.orm import Mapper
from sqlalchemy.orm.attributes import instance_dict, instance_state
from sqlalchemy.types import TypeEngine

from storage import models
from storage.database import Work

Model: TypeAlias = type[models.Base]


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
        types: list[TypeEngine[Any]] = []
        self._tables = [(inspect(model), _places(model, types)) for model, _ in wanted]
        parts = []
        for number, (model, where) in enumerate(wanted):
            at = {place: key for key, place in self._tables[number][1].items()}
            columns = [
                model.__table__.columns[at[place]] if place in at else cast(null(), kind)
                for place, kind in enumerate(types)
            ]
            labelled = [column.label(f"c{place}") for place, column in enumerate(columns)]
            of_table: ColumnElement[int] = literal_column(str(number))
            parts.append(select(of_table.label("of_table"), *labelled).where(where))
        self._statement = union_all(*parts)
        self.models = tuple(model for model, _ in wanted)

    def rows(self, work: Work, values: Mapping[str, Any]) -> Iterator[Any]:
        """Return live rows as they are now, in the order of the tables."""
        work.flush()
        found = work.connection().execute(self._statement, values).all()
        for number, *columns in sorted(found, key=lambda row: row[0]):
            mapper, places = self._tables[number]
            yield _live(work, mapper, {key: columns[place] for key, place in places.items()})


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


def _live(work: Work, mapper: Mapper[Any], values: dict[str, Any]) -> Any:
    key = mapper.identity_key_from_primary_key(
        tuple(values[str(column.key)] for column in mapper.primary_key)
    )
    row = work.identity_map.get(key)
    if row is None:
        row = mapper.class_manager.new_instance()
        # It is the session's as if it had been loaded by it: nothing follows from having it.
        state = instance_state(row)
        state.key, state.session_id = key, work.hash_key
        work.identity_map.add(state)
    held = instance_dict(row)
    held.update(values)
    for relation in mapper.relationships:
        (column,) = relation.local_columns
        of = values[str(column.key)]
        to = None
        if of is not None:
            to = work.identity_map.get(relation.mapper.identity_key_from_primary_key((of,)))
        if of is None or to is not None:
            held[relation.key] = to
    return row
