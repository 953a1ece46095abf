"""Whether a source has stepped away from its own past at many places at once, for the operator."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import timedelta
from typing import Final

from jobs import packed_cells as held_cells
from jobs.agronomy.source_step import SourceStep, shared_step_c, source_step
from jobs.local_days import season_day, season_shift_days
from jobs.sources.base import Cell
from storage import cells
from storage.database import Work

#: Places looked at: with more, the mean hardly moves.
_MOST_PLACES: Final = 24
#: Places whose newest known day is older than the newest of all by more than this say nothing.
_FRESH: Final = timedelta(days=10)


@dataclass(frozen=True, slots=True)
class SharedStep:
    """What a source's places share: how many were looked at, and their step [°C], None if none."""

    places: int
    step_c: float | None


def shared_step(work: Work, source: str) -> SharedStep:
    """Return how a source's soil stands against its air, over places, beside past years."""
    steps: list[SourceStep] = []
    records = cells.of_source(work, source, _MOST_PLACES)
    for record in records:
        newest, last = records[0].last_known_day, record.last_known_day
        if last is None or newest is None or newest - last > _FRESH or record.soil_is_modelled:
            continue
        held = held_cells.held(work, source, Cell(record.lat_e2, record.lon_e2))
        if held is None:
            continue
        lat = record.lat_e2 / 100
        known = held.known.shifted(season_shift_days(lat))
        step = source_step(known, season_day(last, lat), abs(lat))
        if step is not None:
            steps.append(step)
    return SharedStep(len(steps), shared_step_c(steps))
