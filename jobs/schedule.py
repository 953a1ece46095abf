"""The table of jobs and its two drivers: by the wall, and by hopping to the next due instant.

Nothing here knows about lawns. A job says when it next wants to run; the wall driver looks often
enough, the moved clock hops from one due instant to the next, so both run the same jobs in the same
order.
"""

from __future__ import annotations

import logging
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from typing import Any

from apscheduler.events import EVENT_JOB_ERROR, EVENT_JOB_MAX_INSTANCES, EVENT_JOB_MISSED, JobEvent
from apscheduler.schedulers.background import BackgroundScheduler

from storage.database import may_pass

log = logging.getLogger(__name__)

#: A job that stays due at one instant this often is not getting its work done.
_MOST_RUNS_AT_ONE_INSTANT = 1000

#: The clock is looked at this often [s]; behind by more than this it was set back.
_LOOK_S = 5.0
_SET_BACK = timedelta(seconds=10)


@dataclass(frozen=True, slots=True)
class Job:
    """One line of the table.

    Attributes
    ----------
    name
        What the log calls it.
    every
        How often the wall driver looks.
    run
        Does what is due at an instant.
    next_due_at
        When it next has something to do, or None.
    is_shared
        Whether several workers do it together, where their database lets them.
    """

    name: str
    every: timedelta
    run: Callable[[datetime], object]
    next_due_at: Callable[[], datetime | None]
    is_shared: bool = False


class JobStuck(RuntimeError):
    """Raised when a job is due again and again at the same instant."""


def advance(
    jobs: Sequence[Job],
    now: datetime,
    until: datetime,
    clock_at: Callable[[datetime], object] = lambda _: None,
) -> None:
    """Run every job that falls due up to and including ``until``, each at its own instant.

    Parameters
    ----------
    jobs
        The table; of jobs due together the earlier line runs first.
    now
        Where the clock stands; what was due before runs at this instant.
    until
        Where it moves to.
    clock_at
        Told each instant before its jobs run.
    """
    instant, runs = now, 0
    while True:
        due = [(at, job) for job in jobs if (at := job.next_due_at()) is not None and at <= until]
        if not due:
            clock_at(until)
            return
        first_at = min(at for at, _ in due)
        runs = runs + 1 if first_at <= instant else 0
        if runs > _MOST_RUNS_AT_ONE_INSTANT:
            raise JobStuck(f"{due[0][1].name} is still due at {instant.isoformat()}")
        instant = max(instant, first_at)
        clock_at(instant)
        for at, job in due:
            if at <= instant:
                job.run(instant)


class SteadyScheduler(BackgroundScheduler):  # type: ignore[misc]
    """A scheduler that does not wait for hours to come again when the machine's clock is set back.

    The library plans by the wall alone; whenever that has gone back, every job is planned anew.
    """

    def __init__(self, wall: Callable[[], datetime], **options: Any) -> None:
        super().__init__(**options)
        self._wall = wall
        self._looked_at: tuple[datetime, float] | None = None

    def _process_jobs(self) -> float:
        now, elapsed_s = self._wall(), time.monotonic()
        if self._looked_at is not None:
            then, then_s = self._looked_at
            behind = then + timedelta(seconds=elapsed_s - then_s) - now
            if behind > _SET_BACK:
                log.warning("the clock was set back by %s; jobs go on", behind)
                for job in self.get_jobs():
                    job.modify(next_run_time=now)
        self._looked_at = now, elapsed_s
        wait_s: float | None = super()._process_jobs()
        return _LOOK_S if wait_s is None else min(wait_s, _LOOK_S)


def by_the_wall(
    jobs: Sequence[Job], clock: Callable[[], datetime], wall: Callable[[], datetime] | None = None
) -> BackgroundScheduler:
    """Return a scheduler, not yet started, that runs the table as time passes.

    A late job is run once rather than dropped, and whatever the
    scheduler skips or catches is logged.

    Parameters
    ----------
    jobs
        The table.
    clock
        Tells the instant jobs are run at.
    wall
        Tells the time of this machine's clock, where that is another.
    """
    scheduler = SteadyScheduler(
        wall or clock,
        timezone=UTC,
        job_defaults={"misfire_grace_time": None, "coalesce": True, "max_instances": 1},
    )
    for job in jobs:
        scheduler.add_job(
            _run_if_due,
            "interval",
            args=[job, clock],
            seconds=job.every.total_seconds(),
            id=job.name,
        )
    scheduler.add_listener(_report, EVENT_JOB_MISSED | EVENT_JOB_ERROR | EVENT_JOB_MAX_INSTANCES)
    return scheduler


def _run_if_due(job: Job, clock: Callable[[], datetime]) -> None:
    now = clock()
    due_at = job.next_due_at()
    if due_at is not None and due_at <= now:
        job.run(now)


def _report(event: JobEvent) -> None:
    exception = getattr(event, "exception", None)
    if exception is not None and may_pass(exception):
        log.warning("job %s waits for the database", event.job_id)
    elif exception is not None:
        log.error("job %s failed", event.job_id, exc_info=exception)
    else:
        log.warning("job %s was missed or is still running", event.job_id)
