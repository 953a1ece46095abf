"""Rows to frozen records: what leaves this floor is never a live row."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import fields
from functools import cache
from operator import attrgetter, itemgetter
from typing import TYPE_CHECKING, Any, TypeAlias, TypeVar

if TYPE_CHECKING:
    from _typeshed import DataclassInstance

Record = TypeVar("Record", bound="DataclassInstance")


_Values: TypeAlias = Callable[[Any], tuple[Any, ...]]


@cache
def _values_of(record: type[Any]) -> tuple[_Values, _Values]:
    """Return what takes a record's values off what a row holds, and off the row itself."""
    names = [field.name for field in fields(record)]
    return itemgetter(*names), attrgetter(*names)


def plain(row: Any, record: type[Record]) -> Record:
    """Return a record with the row's attributes of the same names."""
    held, asked = _values_of(record)
    try:
        values = held(row.__dict__)
    except (AttributeError, KeyError):
        # Something is still to be read, is worked out, or it is no live row.
        values = asked(row)
    return record(*values)


def plain_or_none(row: Any | None, record: type[Record]) -> Record | None:
    """Return the record of a row, or None where there is none."""
    return None if row is None else plain(row, record)
