"""Tables of the weather."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, datetime
from functools import lru_cache
from typing import Any

from sqlalchemy import JSON, Dialect, ForeignKey, LargeBinary, TypeDecorator, UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column

from storage.models.declarative import Base


class _ReadAlike(TypeDecorator[dict[str, Any]]):
    """JSON that is only looked at: read once while it is the same, a tenth of a turn."""

    impl = JSON
    cache_ok = True

    def result_processor(self, dialect: Dialect, coltype: object) -> Callable[[Any], Any] | None:
        """Return what reads a driver's value; None where the driver does."""
        read = super().result_processor(dialect, coltype)
        return read and lru_cache(maxsize=64)(read)


class Cell(Base):
    """A weather cell of one source, with the newest forecast and the source's trouble, if any."""

    __tablename__ = "cell"
    __table_args__ = (UniqueConstraint("source", "lat_e2", "lon_e2"),)

    id: Mapped[int] = mapped_column(primary_key=True)
    source: Mapped[str]
    lat_e2: Mapped[int]
    lon_e2: Mapped[int]
    place: Mapped[str]
    is_invented: Mapped[bool]
    soil_is_modelled: Mapped[bool]
    fetched_at: Mapped[datetime | None]
    observed_at: Mapped[datetime | None]
    last_known_day: Mapped[date | None]
    forecast_first_day: Mapped[date | None]
    forecast: Mapped[bytes | None] = mapped_column(LargeBinary)
    hourly: Mapped[dict[str, Any] | None] = mapped_column(_ReadAlike)
    trouble: Mapped[str | None]
    trouble_since: Mapped[datetime | None]
    try_again_at: Mapped[datetime | None]

    #: Days and crews: how much warmer its soil is than another source's, where that is too much;
    #: and the newest outage that is over.
    disagrees_by_c: Mapped[float | None]
    out_since: Mapped[datetime | None]
    back_at: Mapped[datetime | None]

    #: First day held where the years before it are still to come; None: all that is wanted is held.
    recent_since: Mapped[date | None] = mapped_column(index=True)


class CellYear(Base):
    """One calendar year of a cell's known days, packed (see `jobs.packed_cells`)."""

    __tablename__ = "cell_year"

    cell_id: Mapped[int] = mapped_column(ForeignKey("cell.id"), primary_key=True)
    year: Mapped[int] = mapped_column(primary_key=True)
    days: Mapped[bytes] = mapped_column(LargeBinary)
