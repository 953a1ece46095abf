"""A morning's tick over yards that are all due: the first one, and the next day's."""

from __future__ import annotations

import gc
import tempfile
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any, Final

from sqlalchemy import func, select, update

from bot.bench.filling import machine_on, multiply, one_yard
from bot.bench.meter import Meter, peak_mb
from bot.bench.weather_stand_in import StandinSource, standin
from jobs.outlooks import Outlooks
from jobs.watch import Watch
from storage import models
from storage.database import Database

#: A morning on which windows are not far off.
_MORNING: Final = datetime(2026, 3, 2, 14, 30, tzinfo=UTC)
#: The plain design is measured on so many yards at most.
_PLAIN_YARDS: Final = 200


def run(yards: int, cells: int, *, url: str | None, has_baseline: bool) -> dict[str, Any]:
    """Return the figures of a tick over so many yards in so many cells."""
    figures = _on(url, yards, min(cells, yards))
    if has_baseline:
        fewer = min(yards, _PLAIN_YARDS)
        plain = _on(None, fewer, fewer, at_once=1)
        figures["baseline"] = plain
        figures["times_faster"] = {
            name: round(plain[name]["cpu_ms_a_yard"] / figures[name]["cpu_ms_a_yard"], 1)
            for name in ("cold", "warm")
        }
    return figures


def _on(url: str | None, yards: int, cells: int, at_once: int | None = None) -> dict[str, Any]:
    with tempfile.TemporaryDirectory() as folder, standin() as source:
        db = Database(url or f"sqlite:///{Path(folder) / 'bench.sqlite3'}")
        try:
            db.upgrade()
            one_yard(machine_on(db), _MORNING - timedelta(days=1))
            with db.writing() as work:
                multiply(work, yards, cells)
                work.execute(update(models.Yard).values(next_check_at=_MORNING))
            outlooks = Outlooks()
            looks = Watch(db, source, outlooks)
            if at_once is not None:
                looks = Watch(db, source, outlooks, cells_at_once=at_once, yards_at_once=at_once)
            return {
                "yards": yards,
                "cells": cells,
                "cold": _tick(db, looks, source, _MORNING, yards),
                "warm": _tick(db, looks, source, _MORNING + timedelta(days=1), yards),
                "quiet_tick_ms": _quiet_ms(db, looks),
                "alerts": _count(db, models.Alert),
            }
        finally:
            db.close()


def _tick(
    db: Database, looks: Watch, source: StandinSource, now: datetime, yards: int
) -> dict[str, Any]:
    meter = Meter()
    meter.count_statements(db)
    # As the program does (`bot.running`): what is loaded once is not gone through again.
    gc.collect()
    gc.freeze()
    before = source.requests, source.cells
    with meter.running():
        looks.tick(now)
    with db.reading() as work:
        left = work.scalar(
            select(func.count()).select_from(models.Yard).where(models.Yard.next_check_at <= now)
        )
    return {
        "wall_s": round(meter.wall_s, 2),
        "cpu_s": round(meter.cpu_s, 2),
        "cpu_ms_a_yard": round(1000 * meter.cpu_s / yards, 3),
        "statements_a_yard": round(meter.statements / yards, 3),
        "requests": source.requests - before[0],
        "cells_asked_for": source.cells - before[1],
        "yards_left": left,
        "peak_mb": peak_mb(),
    }


def _quiet_ms(db: Database, looks: Watch) -> float:
    meter = Meter()
    with meter.running():
        looks.tick(_MORNING + timedelta(days=1, minutes=1))
    return round(1000 * meter.cpu_s, 2)


def _count(db: Database, table: type[models.Base]) -> int:
    with db.reading() as work:
        return work.scalar(select(func.count()).select_from(table)) or 0
