"""Outlooks of cells: what is held is read, reckoned and judged."""

from __future__ import annotations

import tempfile
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from typing import Any, Final

from bot.bench.meter import Meter, peak_mb
from bot.bench.weather_stand_in import standin
from jobs import packed_cells as held_cells
from jobs.agronomy.season import Target
from jobs.outlooks import Outlooks, judge
from jobs.sources.base import Cell, CellRequest, CellWeather
from storage.database import Database

_MORNING: Final = datetime(2026, 3, 2, 14, 30, tzinfo=UTC)
_OFFSET: Final = timedelta(hours=-6)
_SINCE: Final = date(2010, 1, 1)


def run(cells: int) -> dict[str, Any]:
    """Return the figures of outlooks for so many cells: the first ones, and the next day's."""
    places = [Cell(3800 + number // 100, -9700 + number % 100) for number in range(cells)]
    with tempfile.TemporaryDirectory() as folder, standin() as source:
        db = Database(f"sqlite:///{Path(folder) / 'bench.sqlite3'}")
        db.upgrade()
        keeping = Meter()
        for start in range(0, cells, 100):
            asked = [CellRequest(cell, _OFFSET, _SINCE) for cell in places[start : start + 100]]
            answers = source.fetch(asked, _MORNING)
            with keeping.running(), db.writing() as work:
                weather = {k: v for k, v in answers.items() if isinstance(v, CellWeather)}
                held_cells.keep(work, source.name, True, weather, _MORNING)
        outlooks = Outlooks()
        figures = {
            "cells": cells,
            "keeping_ms_a_cell": round(1000 * keeping.cpu_s / cells, 2),
            "cold": _reckon(db, source.name, outlooks, places, date(2026, 2, 27)),
            "warm": _reckon(db, source.name, outlooks, places, date(2026, 2, 28)),
            "peak_mb": peak_mb(),
        }
        db.close()
    return figures


def _reckon(
    db: Database, source: str, outlooks: Outlooks, places: list[Cell], issued: date
) -> dict[str, Any]:
    meter = Meter()
    meter.count_statements(db)
    with meter.running(), db.reading() as work:
        for start in range(0, len(places), 100):
            held = held_cells.held_of(work, source, places[start : start + 100])
            for outlook in outlooks.make([(cell, issued) for cell in held.values()]):
                for target in Target:
                    judge(outlook, target)
    return {
        "cpu_s": round(meter.cpu_s, 2),
        "outlooks_a_second": round(len(places) / meter.cpu_s),
        "statements_a_cell": round(meter.statements / len(places), 2),
    }
