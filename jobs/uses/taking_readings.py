"""The yard's own thermometer: a reading taken, or asked about where it is far off."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import UTC, datetime

import numpy as np

from jobs import packed_cells
from jobs.local_days import local, season_day
from jobs.outlooks import CellOutlook, Outlooks
from jobs.sources.base import Cell, newest_known_day
from jobs.sources.timezones import standard_offset
from jobs.standing import standing_of
from jobs.yard_soil import air_range_c, as_reading, shift_of, solar_hour, with_days_ahead
from storage import journal, readings, yards
from storage.database import Work
from storage.readings import ReadingRecord
from storage.yards import YardRecord

#: Depth of a reading that names none: 2 in.
USUAL_DEPTH_M = 0.05


class FarOff(ValueError):
    """Raised for a reading so far from what is expected that it is asked about first."""

    def __init__(self, low_c: float, high_c: float) -> None:
        super().__init__(f"expected {low_c:.1f} to {high_c:.1f} °C")
        self.low_c = low_c
        self.high_c = high_c


class NoSoilYet(LookupError):
    """Raised while there is no soil data to hold a reading against."""


@dataclass(frozen=True, slots=True)
class TakeReading:
    """What somebody read off: temperature [°C], depth [m], when, and of which zone if of one."""

    measured_c: float
    depth_m: float
    read_at: datetime
    has_hour: bool
    zone_name: str | None
    said: str
    is_sure: bool = False


@dataclass(frozen=True, slots=True)
class Taken:
    """What a reading came to: the daily mean it stands for, the grid's, and the blend [°C]."""

    mean_c: float
    grid_c: float
    blend_c: float
    count: int


def take(
    work: Work,
    yard: YardRecord,
    command: TakeReading,
    source: str,
    outlooks: Outlooks,
    *,
    person_id: int,
    now: datetime,
) -> Taken:
    """Keep a reading; the yard is judged anew at once.

    Raises
    ------
    NoSoilYet
        If nothing is held for the yard's place yet.
    FarOff
        If it is far from what is expected and the command is not sure.
    """
    held = packed_cells.held(work, source, Cell.at(yard.lat, yard.lon))
    if held is None:
        raise NoSoilYet(yard.name)
    cell = outlooks.of(held, newest_known_day(now, standard_offset(yard.timezone)))
    record = ReadingRecord(
        id=0,
        yard_id=yard.id,
        zone_name=command.zone_name,
        ground_id=None,
        read_at=command.read_at.astimezone(UTC),
        read_on=local(command.read_at, yard.timezone).date(),
        measured_c=command.measured_c,
        depth_m=command.depth_m,
        has_hour=command.has_hour,
    )
    named = [zone for zone in standing_of(work, yard).zones if zone.name == command.zone_name]
    record = replace(record, ground_id=named[0].ground_id if named else None)
    grid_c = _grid_c(cell, yard, record)
    if not command.is_sure:
        _ask_if_far_off(work, cell, yard, record, grid_c)
    reading_id = readings.add(
        work,
        yard_id=yard.id,
        ground_id=record.ground_id,
        read_at=record.read_at,
        read_on=record.read_on,
        measured_c=record.measured_c,
        depth_m=record.depth_m,
        has_hour=record.has_hour,
        said=command.said,
        person_id=person_id,
        now=now,
    )
    journal.note(work, yard.id, "reading.add", reading_id, on=record.read_on.isoformat())
    yards.change(work, yard.id, next_check_at=now)
    every = standing_of(work, yard).readings
    shift = shift_of(cell, yard, every, record.zone_name)
    day = season_day(record.read_on, yard.lat)
    mean_c = _mean_c(cell, yard, record)
    blend_c = float(shift.apply(day, np.array([grid_c]))[0])
    return Taken(mean_c, grid_c, blend_c, len(every))


def _ask_if_far_off(
    work: Work, cell: CellOutlook, yard: YardRecord, record: ReadingRecord, grid_c: float
) -> None:
    day = season_day(record.read_on, yard.lat)
    shift = shift_of(cell, yard, standing_of(work, yard).readings, record.zone_name)
    found = shift.check(
        day,
        grid_c,
        record.measured_c,
        record.depth_m,
        solar_hour(record, yard),
        air_range_c(cell.known, day),
    )
    if found.is_surprising:
        raise FarOff(found.low_c, found.high_c)


def _grid_c(cell: CellOutlook, yard: YardRecord, record: ReadingRecord) -> float:
    """Return the cell's (estimated) daily mean of the reading's day."""
    series = with_days_ahead(cell)
    day = season_day(record.read_on, yard.lat)
    near = series.between(day, day).soil5_c
    if len(near) and np.isfinite(near[0]):
        return float(near[0])
    return float(cell.climate.mean_c[min(365, day.timetuple().tm_yday - 1)])


def _mean_c(cell: CellOutlook, yard: YardRecord, record: ReadingRecord) -> float:
    return as_reading(record, yard, cell.known).mean_c
