"""Weather cells: what each source said last, packed by calendar year."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime
from typing import Any

from sqlalchemy import select

from storage import models
from storage.database import Work
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


def cell(work: Work, source: str, lat_e2: int, lon_e2: int) -> CellRecord | None:
    """Return the cell of a source at a place, or None when nothing is held for it."""
    return plain_or_none(_row(work, source, lat_e2, lon_e2), CellRecord)


def put(work: Work, source: str, lat_e2: int, lon_e2: int, values: Mapping[str, Any]) -> CellRecord:
    """Set named columns of a cell, which is made if new."""
    row = _row(work, source, lat_e2, lon_e2)
    if row is None:
        row = models.Cell(
            source=source,
            lat_e2=lat_e2,
            lon_e2=lon_e2,
            place="",
            is_invented=False,
            soil_is_modelled=False,
        )
        work.add(row)
    for name, value in values.items():
        if not hasattr(models.Cell, name):
            raise AttributeError(name)
        setattr(row, name, value)
    work.flush()
    return plain(row, CellRecord)


def years(work: Work, cell_id: int) -> dict[int, bytes]:
    """Return a cell's packed years."""
    rows = work.execute(
        select(models.CellYear.year, models.CellYear.days).where(models.CellYear.cell_id == cell_id)
    )
    return {row.year: row.days for row in rows}


def year(work: Work, cell_id: int, year: int) -> bytes | None:
    """Return one packed year of a cell."""
    row = work.get(models.CellYear, (cell_id, year))
    return None if row is None else row.days


def put_year(work: Work, cell_id: int, year: int, days: bytes) -> None:
    """Keep a packed year of a cell in place of the one held."""
    row = work.get(models.CellYear, (cell_id, year))
    if row is None:
        work.add(models.CellYear(cell_id=cell_id, year=year, days=days))
    elif row.days != days:
        row.days = days
    work.flush()


def _row(work: Work, source: str, lat_e2: int, lon_e2: int) -> models.Cell | None:
    return work.scalar(
        select(models.Cell).where(
            models.Cell.source == source,
            models.Cell.lat_e2 == lat_e2,
            models.Cell.lon_e2 == lon_e2,
        )
    )
