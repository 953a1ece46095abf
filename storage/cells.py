"""Weather cells: what each source said last, packed by calendar year."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime
from typing import Any

from sqlalchemy import bindparam, func, select, update

from storage import models
from storage.database import Work
from storage.gathering import Gathering
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


# Queries of every look are built once: building one costs as much as running it.
_HERE = (
    (models.Cell.source == bindparam("source"))
    & (models.Cell.lat_e2 == bindparam("lat_e2"))
    & (models.Cell.lon_e2 == bindparam("lon_e2"))
)
_CELL = select(models.Cell).where(_HERE).execution_options(populate_existing=True)
_YEAR = select(models.CellYear.days).where(
    models.CellYear.cell_id == bindparam("cell_id"), models.CellYear.year == bindparam("of_year")
)
_WITH_YEARS = Gathering(
    (models.Cell, _HERE),
    (models.CellYear, models.CellYear.cell_id.in_(select(models.Cell.id).where(_HERE))),
)


def cell(work: Work, source: str, lat_e2: int, lon_e2: int) -> CellRecord | None:
    """Return the cell of a source at a place, or None when nothing is held for it."""
    at = {"source": source, "lat_e2": lat_e2, "lon_e2": lon_e2}
    return plain_or_none(work.scalar(_CELL, at), CellRecord)


def put(
    work: Work, source: str, lat_e2: int, lon_e2: int, values: Mapping[str, Any]
) -> tuple[int, CellRecord | None]:
    """Set named columns of a cell, made if new; return its id and what was held of it before."""
    if unknown := [name for name in values if name not in models.Cell.__table__.columns]:
        raise AttributeError(unknown[0])
    before = cell(work, source, lat_e2, lon_e2)
    if before is not None:
        changed = {k: value for k, value in values.items() if getattr(before, k) != value}
        if changed:
            work.execute(
                update(models.Cell)
                .where(models.Cell.id == before.id)
                .values(changed)
                .execution_options(synchronize_session=False)
            )
        return before.id, before
    row = models.Cell(
        **{
            "source": source,
            "lat_e2": lat_e2,
            "lon_e2": lon_e2,
            "place": "",
            "is_invented": False,
            "soil_is_modelled": False,
            **values,
        }
    )
    work.add(row)
    work.flush()
    return row.id, None


def with_years(
    work: Work, source: str, lat_e2: int, lon_e2: int
) -> tuple[CellRecord | None, dict[int, bytes]]:
    """Return the cell of a source at a place, and its packed years."""
    at = {"source": source, "lat_e2": lat_e2, "lon_e2": lon_e2}
    rows = list(_WITH_YEARS.rows(work, at))
    record = next((row for row in rows if isinstance(row, models.Cell)), None)
    years = {row.year: row.days for row in rows if isinstance(row, models.CellYear)}
    return plain_or_none(record, CellRecord), years


def year(work: Work, cell_id: int, year: int) -> bytes | None:
    """Return one packed year of a cell."""
    row = work.execute(_YEAR, {"cell_id": cell_id, "of_year": year}).one_or_none()
    return None if row is None else row.days


def add_year(work: Work, cell_id: int, year: int, days: bytes) -> None:
    """Keep the first days of a packed year of a cell."""
    work.add(models.CellYear(cell_id=cell_id, year=year, days=days))
    work.flush()


def set_year(work: Work, cell_id: int, year: int, days: bytes) -> None:
    """Put a packed year of a cell in place of the one held."""
    work.execute(
        update(models.CellYear)
        .where(models.CellYear.cell_id == cell_id, models.CellYear.year == year)
        .values(days=days)
        .execution_options(synchronize_session=False)
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


def newest_answers(work: Work) -> dict[str, datetime]:
    """Return when each source last answered for any cell."""
    rows = work.execute(
        select(models.Cell.source, func.max(models.Cell.fetched_at)).group_by(models.Cell.source)
    )
    return {row[0]: row[1] for row in rows if row[1] is not None}
