"""Rows to frozen records: what leaves this floor is never a live row."""

from __future__ import annotations

from dataclasses import fields
from typing import TYPE_CHECKING, Any, TypeVar

if TYPE_CHECKING:
    from _typeshed import DataclassInstance

Record = TypeVar("Record", bound="DataclassInstance")


def plain(row: Any, record: type[Record]) -> Record:
    """Return a record with the row's attributes of the same names."""
    return record(**{field.name: getattr(row, field.name) for field in fields(record)})


def plain_or_none(row: Any | None, record: type[Record]) -> Record | None:
    """Return the record of a row, or None where there is none."""
    return None if row is None else plain(row, record)
