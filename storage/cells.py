"""Weather cells: what each source said last, packed by calendar year."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass, fields
from datetime import date, datetime
from typing import Any, Final

from sqlalchemy import (
    ColumnElement,
    bindparam,
    func,
    insert,
    null,
    select,
    tuple_,
    type_coerce,
    update,
)
from sqlalchemy.types import NullType

from storage import held, models
from storage.database import Work
from storage.gathering import Gathering, Unread
from storage.plain import plain, plain_or_none


@dataclass(frozen=True, slots=True)
class CellRecord:
    """A weather cell without its days."""

    id: int
    source: str
    lat_e2: int
    lon_e2: int
    place: str
    is_invented: bool
    soil_is_modelled: bool
    fetched_at: datetime | None
    observed_at: datetime | None
    last_known_day: date | None
    forecast_first_day: date | None
    forecast: bytes | None
    hourly: dict[str, Any] | None
    trouble: str | None
    trouble_since: datetime | None
    try_again_at: datetime | None
    disagrees_by_c: float | None = None
    out_since: datetime | None = None
    back_at: datetime | None = None
    recent_since: date | None = None


# Queries of every look are built once: building one costs as much as running it.
_HERE = (
    (models.Cell.source == bindparam("source"))
    & (models.Cell.lat_e2 == bindparam("lat_e2"))
    & (models.Cell.lon_e2 == bindparam("lon_e2"))
)
_WITH_YEARS = Gathering(
    (models.Cell, _HERE),
    (models.CellYear, models.CellYear.cell_id.in_(select(models.Cell.id).where(_HERE))),
)
_TABLE = models.table_of(models.Cell)
#: What nobody asks for where many cells are read is the widest: the forecast by the hour.
_LEAN = select(
    *(
        null().label(field.name) if field.name == "hourly" else _TABLE.columns[field.name]
        for field in fields(CellRecord)
    )
).where(
    models.Cell.source == bindparam("source"),
    # By the index; pairs alone would have every cell of the source gone through.
    models.Cell.lat_e2.in_(bindparam("lats", expanding=True)),
    tuple_(models.Cell.lat_e2, models.Cell.lon_e2).in_(bindparam("places", expanding=True)),
)
_IDS = _LEAN.with_only_columns(models.Cell.id, models.Cell.lat_e2, models.Cell.lon_e2)
#: Bytes are as the drivers give them: there is nothing to be made of each of thousands.
_DAYS: ColumnElement[Any] = type_coerce(models.CellYear.days, NullType())
_YEARS = select(models.CellYear.cell_id, models.CellYear.year, _DAYS).where(
    models.CellYear.cell_id.in_(bindparam("cell_ids", expanding=True)),
    models.CellYear.year >= bindparam("first"),
)

#: A place of a cell: latitude and longitude in hundredths of a degree.
Place = tuple[int, int]


def lean(work: Work, source: str, places: Collection[Place]) -> dict[Place, CellRecord]:
    """Return the cells of a source at places, without their forecast by the hour."""
    rows = work.connection().execute(_LEAN, _asked(source, places))
    records = (CellRecord(*row) for row in rows)
    return {(record.lat_e2, record.lon_e2): record for record in records}


def _asked(source: str, places: Collection[Place]) -> dict[str, Any]:
    lats = list({lat_e2 for lat_e2, _ in places})
    return {"source": source, "lats": lats, "places": list(places)}


def cell(work: Work, source: str, lat_e2: int, lon_e2: int) -> CellRecord | None:
    """Return the cell of a source at a place, likewise, or None when nothing is held for it."""
    return lean(work, source, [(lat_e2, lon_e2)]).get((lat_e2, lon_e2))


def read_with_years(work: Work, source: str, lat_e2: int, lon_e2: int) -> Unread:
    """Return the cell of a source at a place, and its packed years, to be held against others."""
    at = {"source": source, "lat_e2": lat_e2, "lon_e2": lon_e2}
    return _WITH_YEARS.read(work, at)


def with_years(work: Work, unread: Unread) -> tuple[CellRecord | None, dict[int, bytes]]:
    """Return a cell so read, and its packed years."""
    rows = list(_WITH_YEARS.alive(work, unread))
    record = next((row for row in rows if isinstance(row, models.Cell)), None)
    years = {row.year: row.days for row in rows if isinstance(row, models.CellYear)}
    return plain_or_none(record, CellRecord), years


def lean_with_years(
    work: Work, source: str, places: Collection[Place]
) -> list[tuple[CellRecord, dict[int, bytes]]]:
    """Return the cells of a source at places, without their forecast by the hour, and their years.

    In two statements.
    """
    records = lean(work, source, places).values()
    found = years(work, [record.id for record in records])
    return [(record, found[record.id]) for record in records]


def years(work: Work, cell_ids: Collection[int], first: int = 0) -> dict[int, dict[int, bytes]]:
    """Return the packed years of cells, from a first one on, by the cell."""
    found: dict[int, dict[int, bytes]] = {cell_id: {} for cell_id in cell_ids}
    asked = {"cell_ids": list(cell_ids), "first": first}
    for cell_id, year, days in work.connection().execute(_YEARS, asked).all():
        found[cell_id][year] = days
    return found


def put(
    work: Work,
    source: str,
    new: Mapping[Place, Mapping[str, Any]],
    before: Mapping[Place, CellRecord],
) -> dict[Place, int]:
    """Set named columns of cells, made where they are new; return the ids of all.

    Parameters
    ----------
    new
        Values by place; for all places of the same columns.
    before
        Those that are held already.
    """
    held.let_go(work)
    ids = {place: record.id for place, record in before.items()}
    changed = [{**new[place], "of_id": ids[place]} for place in new if place in before]
    if changed:
        columns: dict[str, Any] = {name: bindparam(name) for name in changed[0] if name != "of_id"}
        work.connection().execute(
            update(_TABLE).where(_TABLE.c.id == bindparam("of_id")).values(columns), changed
        )
    added = [place for place in new if place not in before]
    rows = [
        {**_EMPTY, **new[place], "source": source, "lat_e2": place[0], "lon_e2": place[1]}
        for place in added
    ]
    if rows:
        work.connection().execute(insert(_TABLE), rows)
        made = work.connection().execute(_IDS, _asked(source, added))
        ids.update({(lat_e2, lon_e2): cell_id for cell_id, lat_e2, lon_e2 in made})
    return ids


_EMPTY: Final = {"place": "", "is_invented": False, "soil_is_modelled": False}


def put_years(
    work: Work, added: Mapping[tuple[int, int], bytes], changed: Mapping[tuple[int, int], bytes]
) -> None:
    """Keep packed years by cell and year: those that are new, and those in place of others."""
    table = models.table_of(models.CellYear)
    if added:
        rows = [
            {"cell_id": cell, "year": year, "days": days} for (cell, year), days in added.items()
        ]
        work.connection().execute(insert(table), rows)
    if changed:
        rows = [
            {"of_cell": cell, "of_year": year, "days": days}
            for (cell, year), days in changed.items()
        ]
        work.connection().execute(
            update(table)
            .where(table.c.cell_id == bindparam("of_cell"), table.c.year == bindparam("of_year"))
            .values(days=bindparam("days")),
            rows,
        )


def of_source(work: Work, source: str, most: int) -> list[CellRecord]:
    """Return cells of a source that hold known days, the newest first."""
    rows = work.scalars(
        select(models.Cell)
        .where(models.Cell.source == source, models.Cell.last_known_day.is_not(None))
        .order_by(models.Cell.last_known_day.desc(), models.Cell.id)
        .limit(most)
    )
    return [plain(row, CellRecord) for row in rows]


def without_years(work: Work, source: str) -> list[Place]:
    """Return the places of a source whose past years are still to come."""
    return _places(work, source, models.Cell.recent_since.is_not(None))


def whole_within(work: Work, source: str, place: Place, lat_e2: int, lon_e2: int) -> list[Place]:
    """Return the places of a source with all their past years, so far from one at most."""
    here = models.Cell
    return _places(
        work,
        source,
        here.lat_e2.between(place[0] - lat_e2, place[0] + lat_e2)
        & here.lon_e2.between(place[1] - lon_e2, place[1] + lon_e2)
        & here.recent_since.is_(None)
        & here.last_known_day.is_not(None),
    )


def left_out(work: Work, source: str, now: datetime) -> list[Place]:
    """Return the places of a source that are left alone for now, as it is in trouble or short."""
    return _places(work, source, models.Cell.try_again_at > now)


def _places(work: Work, source: str, which: ColumnElement[bool]) -> list[Place]:
    query = select(models.Cell.lat_e2, models.Cell.lon_e2)
    rows = work.execute(query.where(models.Cell.source == source, which))
    return [(lat_e2, lon_e2) for lat_e2, lon_e2 in rows]


def newest_answers(work: Work) -> dict[str, datetime]:
    """Return when each source last answered for any cell."""
    rows = work.execute(
        select(models.Cell.source, func.max(models.Cell.fetched_at)).group_by(models.Cell.source)
    )
    return {row[0]: row[1] for row in rows if row[1] is not None}
