"""Rows to frozen records: what leaves this floor is never a live row."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import fields
from functools import cache
from operator import attrgetter
from typing import TYPE_CHECKING, Any, TypeVar

if TYPE_CHECKING:
    from _typeshed import DataclassInstance

Record = TypeVar("Record", bound="DataclassInstance")


@cache
def _values_of(record: type[Any]) -> Callable[[Any], tuple[Any, ...]]:
    """Return what takes a record's values off a row, in the order of its fields, all at once."""
    names = [field.name for field in fields(record)]
    return attrgetter(*names)


def plain(row: Any, record: type[Record]) -> Record:
    """Return a record with the row's attributes of the same names."""
    return record(*_values_of(record)(row))


def plain_or_none(row: Any | None, record: type[Record]) -> Record | None:
    """Return the record of a row, or None where there is none."""
    return None if row is None else plain(row, record)
