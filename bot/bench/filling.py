"""A database full of invented yards: one is made by talking, and multiplied row by row."""

from __future__ import annotations

import tempfile
from collections.abc import Iterator
from datetime import datetime
from pathlib import Path
from typing import Any, Final

from sqlalchemy import insert, select, text

from bot.turn import Turn
from bot.wiring import Machine, assemble
from jobs.messenger import Letter
from jobs.sources.simulated import SimulatedSource
from storage import models
from storage.database import Database, Work

#: What one person says before a season.
TALK: Final = (
    {"place": (38.72, -96.41)},
    {"text": "mill lawn 60x40, ditch strip 5 by 80 ft"},
    {"text": "prodiamine 0.38% granule, 3.2 lb/1000 sq ft, max 6.4 lb/1000 a year"},
)
#: Rows are kept so many at a time.
_AT_ONCE: Final = 5_000
#: What belongs to a yard or its chat, so that those it points at come first.
_TABLES: Final[tuple[type[models.Base], ...]] = (
    models.Chat,
    models.Product,
    models.Yard,
    models.Ground,
    models.Zone,
    models.Season,
    models.Alert,
)
#: Columns that name another row of the same yard, by the table they name.
_NAMES: Final[dict[str, type[models.Base]]] = {
    "chat_id": models.Chat,
    "product_id": models.Product,
    "yard_id": models.Yard,
    "ground_id": models.Ground,
}


class Nobody:
    """A messenger that delivers without fail."""

    def send(self, letter: Letter) -> None:
        """Take a letter."""


def machine_on(db: Database) -> Machine:
    """Return a machine that speaks to nobody, in the invented climate."""
    return assemble(
        db, SimulatedSource(0), Nobody(), owner="bench", pictures=Path(tempfile.gettempdir())
    )


def one_yard(machine: Machine, now: datetime) -> None:
    """Let one person set up a yard."""
    for number, said in enumerate(TALK):
        machine.conversation.handle(
            Turn(f"fill:{number}", "telegram", "1", "1", now, **said)  # type: ignore[arg-type]
        )


def multiply(work: Work, yards: int, cells: int) -> None:
    """Multiply the one yard of a database, its chat and all that belongs to it, over cells.

    Cells lie beside each other, a hundred a row, and yards fill one cell after another.
    """
    rows = {table: [_values(row) for row in work.scalars(select(table))] for table in _TABLES}
    #: Numbers are spread by so much, that copies of several rows do not meet.
    widest = max(len(each) for each in rows.values())
    for table in _TABLES:
        many: list[dict[str, Any]] = []
        for row in _copies(table, rows, yards, cells, widest):
            many.append(row)
            if len(many) == _AT_ONCE:
                work.execute(insert(table), many)
                many = []
        if many:
            work.execute(insert(table), many)
        _count_on(work, table)


def multiply_weather(work: Work, cells: int) -> None:
    """Multiply the weather of the one cell of a database likewise."""
    cell = _values(work.scalars(select(models.Cell)).one())
    years = [_values(row) for row in work.scalars(select(models.CellYear))]
    for number in range(1, cells):
        south, east = _away(number)
        place = {"lat_e2": cell["lat_e2"] - south, "lon_e2": cell["lon_e2"] + east}
        other = cell["id"] + number
        work.execute(insert(models.Cell), [{**cell, **place, "id": other}])
        work.execute(insert(models.CellYear), [{**year, "cell_id": other} for year in years])
    _count_on(work, models.Cell)


def remember(work: Work, count: int, at: datetime) -> None:
    """Add alerts that were sent long ago; every chat has its share of them."""
    alike = _values(work.scalars(select(models.Alert).limit(1)).one())
    yards = work.execute(select(models.Yard.id, models.Yard.chat_id)).all()
    times = {"due_at": at, "sent_at": at, "told_at": at, "created_at": at}
    for start in range(0, count, _AT_ONCE):
        old = []
        for number in range(start, min(count, start + _AT_ONCE)):
            yard_id, chat_id = yards[number % len(yards)]
            row = {**alike, **times, "chat_id": chat_id, "yard_id": yard_id, "state": "sent"}
            old.append({**row, "kind": "state", "episode_key": f"old {number}"})
            del old[-1]["id"]
        work.execute(insert(models.Alert), old)


def _away(number: int) -> tuple[int, int]:
    """Return how far south and east a cell lies, in cells."""
    return divmod(number, 100)


def _copies(
    table: type[models.Base],
    rows: dict[type[models.Base], list[dict[str, Any]]],
    yards: int,
    cells: int,
    widest: int,
) -> Iterator[dict[str, Any]]:
    for number in range(1, yards):
        for row in rows[table]:
            copy = {
                name: _moved(value, number, widest) if name == "id" or name in _NAMES else value
                for name, value in row.items()
            }
            if table is models.Chat:
                copy["address"] = str(number + 1)
            if table is models.Yard:
                south, east = _away(number * cells // yards)
                copy["lat"] = row["lat"] - south / 100
                copy["lon"] = row["lon"] + east / 100
            if table is models.Alert:
                copy["episode_key"] = f"{row['episode_key']}:{number}"
            yield copy


def _moved(value: int | None, number: int, widest: int) -> int | None:
    return None if value is None else value + 10 * widest * number


def _count_on(work: Work, table: type[models.Base]) -> None:
    """Let the next row be numbered behind those that brought their numbers along."""
    if work.get_bind().dialect.name == "postgresql":
        name = table.__tablename__
        number = f"setval(pg_get_serial_sequence('{name}', 'id'), max(id))"
        work.execute(text(f'SELECT {number} FROM "{name}"'))


def _values(row: models.Base) -> dict[str, Any]:
    return {column.name: getattr(row, column.name) for column in row.__table__.columns}
