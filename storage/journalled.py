"""Which rows the journal keeps, how each is put back, and how a row is written there."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import UTC, date, datetime
from typing import Any, Final, TypeAlias

from sqlalchemy import JSON, Column, Table
from sqlalchemy.types import TypeDecorator

#: A row as the journal keeps it: its columns, JSON-safe.
Image: TypeAlias = dict[str, Any]


@dataclass(frozen=True, slots=True)
class Kept:
    """How the rows of one table are journalled and put back.

    Attributes
    ----------
    mark
        Column by which a row that was added is struck out when that is taken back, so that its
        number is never given to another; without one it is removed.
    mark_by
        Column for who struck it out.
    is_blanked
        Whether a row that was added loses what was said in it instead of going.
    is_part
        Whether a row that was added stands and falls with another.
    only, without
        Columns that are kept (of rows that are never taken back whole); all but some that count on
        by themselves.
    counted
        Columns that are running totals: put back by their difference.
    is_derived
        Whether the row follows from others, so that it is left alone where time has moved it on.
    compared
        Columns by which a row is held to be as it was left; all that changed, where none is named.
    """

    mark: str | None = None
    mark_by: str | None = None
    is_blanked: bool = False
    is_part: bool = False
    only: frozenset[str] = frozenset()
    without: frozenset[str] = frozenset()
    counted: frozenset[str] = frozenset()
    is_derived: bool = False
    compared: frozenset[str] = frozenset()

    def columns(self, table: Table) -> list[Column[Any]]:
        """Return the columns of a table that are journalled."""
        return [
            column
            for column in table.columns
            if (not self.only or column.key in self.only) and column.key not in self.without
        ]


_STRUCK: Final = Kept(mark="undone_at")

#: The tables a person changes, and those that follow from them.
TABLES: Final[Mapping[str, Kept]] = {
    "chat": Kept(only=frozenset({"language", "units"})),
    "person": Kept(
        only=frozenset(
            {
                "pace_m",
                "licence",
                "licence_until",
                "works_under",
                "under_licence",
                "scale_step",
                "scale_unit",
                "language",
                "units",
            }
        )
    ),
    "yard": Kept(mark="archived_at", without=frozenset({"version", "next_check_at"})),
    "ground": Kept(is_part=True),
    "ground_origin": Kept(is_part=True),
    "zone": Kept(mark="removed_at"),
    "product": Kept(mark="archived_at", counted=frozenset({"shelf_si"})),
    "application": Kept(mark="undone_at", mark_by="undone_by"),
    "application_zone": Kept(is_part=True),
    "watering": _STRUCK,
    "reading": _STRUCK,
    "machine": Kept(is_blanked=True, without=frozenset({"changed_at"})),
    "machine_try": _STRUCK,
    "yard_photo": _STRUCK,
    "seeding": _STRUCK,
    "sighting": _STRUCK,
    "yard_wishes": Kept(),
    "chat_wishes": Kept(),
    "mute": Kept(),
    "snooze": Kept(),
    "season": Kept(
        without=frozenset({"version"}),
        is_derived=True,
        compared=frozenset({"year", "state", "since", "told"}),
    ),
    "alert": Kept(
        without=frozenset({"lease_until", "lease_owner"}),
        is_derived=True,
        compared=frozenset({"state", "due_at"}),
    ),
}

#: Tables that keep no person's word: the machine's own, or what is only ever added to.
NOT_KEPT: Final = frozenset(
    {
        "clock",
        "lease",
        "heartbeat",
        "dialogue",
        "turn",
        "journal",
        "journal_change",
        "journal_row",
        "cell",
        "cell_year",
        "call_line",
        "call_made",
        "season_event",
        "alert_attempt",
        "calendar_entry",
        "membership",
        "invitation",
        "unread_text",
        "pin",
    }
)


def encoded(value: Any) -> Any:
    """Return a column's value JSON-safe: instants in UTC and days as ISO text."""
    if isinstance(value, datetime):
        return value.astimezone(UTC).isoformat()
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, dict | list | tuple):
        return json.loads(json.dumps(value))
    return value


def decoded(column: Column[Any], value: Any) -> Any:
    """Return a kept value as its column takes it."""
    if value is None or isinstance(column.type, JSON):
        return value
    held = column.type.impl_instance if isinstance(column.type, TypeDecorator) else column.type
    if held.python_type is datetime:
        return datetime.fromisoformat(value)
    return date.fromisoformat(value) if held.python_type is date else value


def image_of(row: Any, columns: list[Column[Any]]) -> Image:
    """Return a live row as the journal keeps it."""
    return {column.key: encoded(getattr(row, column.key)) for column in columns}
