"""What a piece of work took: seconds of the wall and of the processor, statements, memory."""

from __future__ import annotations

import resource
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass

from sqlalchemy import event

from storage.database import Database


@dataclass
class Meter:
    """Counts while it is on."""

    wall_s: float = 0.0
    cpu_s: float = 0.0
    statements: int = 0

    def count_statements(self, db: Database) -> None:
        """Count the statements of a database from now on."""

        @event.listens_for(db.engine, "before_cursor_execute")
        def count(*_: object) -> None:
            self.statements += 1

    @contextmanager
    def running(self) -> Iterator[None]:
        """Measure what is done within."""
        wall_s, cpu_s = time.perf_counter(), time.process_time()
        try:
            yield
        finally:
            self.wall_s += time.perf_counter() - wall_s
            self.cpu_s += time.process_time() - cpu_s


def peak_mb() -> int:
    """Return the most memory this process has had so far [MB]."""
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    return round(peak / (1024 * 1024 if sys.platform == "darwin" else 1024))
