"""What a piece of work took: seconds of the wall and of the processor, statements, memory."""

from __future__ import annotations

import resource
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from functools import wraps
from typing import Any

from sqlalchemy import event

from storage.database import Database


@dataclass
class Meter:
    """Counts while it is on.

    Attributes
    ----------
    stages
        Processor time by the name of each stage [s]; a stage within another counts in both.
    """

    wall_s: float = 0.0
    cpu_s: float = 0.0
    statements: int = 0
    stages: dict[str, float] = field(default_factory=dict)

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

    def stage(self, owner: Any, *names: str) -> None:
        """Measure functions of a module or class, each as a stage of its name."""
        for name in names:
            setattr(owner, name, self._timed(name.lstrip("_"), getattr(owner, name)))

    def _timed(self, stage: str, work: Callable[..., Any]) -> Callable[..., Any]:
        @wraps(work)
        def timed(*args: Any, **kwargs: Any) -> Any:
            began_s = time.thread_time()
            try:
                return work(*args, **kwargs)
            finally:
                took_s = time.thread_time() - began_s
                self.stages[stage] = self.stages.get(stage, 0.0) + took_s

        return timed

    def told_stages(self) -> dict[str, float]:
        """Return the stages [s], the widest first."""
        widest = sorted(self.stages.items(), key=lambda each: -each[1])
        return {name: round(seconds, 3) for name, seconds in widest}


def peak_mb() -> int:
    """Return the most memory this process has had so far [MB]."""
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    return round(peak / (1024 * 1024 if sys.platform == "darwin" else 1024))
