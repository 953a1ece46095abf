"""What all tables have in common."""

from __future__ import annotations

from datetime import datetime
from typing import Any

from sqlalchemy import JSON, MetaData, String, Table, text
from sqlalchemy.orm import DeclarativeBase

from storage.database import UtcDateTime

#: A column of truth values that older rows lack is false there.
FALSE = text("false")


class Base(DeclarativeBase):
    """Base of all tables; constraints have names on every database."""

    metadata = MetaData(
        naming_convention={
            "ix": "ix_%(table_name)s_%(column_0_N_name)s",
            "uq": "uq_%(table_name)s_%(column_0_N_name)s",
            "fk": "fk_%(table_name)s_%(column_0_N_name)s",
            "pk": "pk_%(table_name)s",
        }
    )
    type_annotation_map = {  # noqa: RUF012 - declarative configuration
        datetime: UtcDateTime,
        dict[str, Any]: JSON,
        list[Any]: JSON,
        str: String,
    }


def table_of(model: type[Base]) -> Table:
    """Return the table of a model, for statements that go past the session."""
    table = model.__table__
    assert isinstance(table, Table)
    return table
