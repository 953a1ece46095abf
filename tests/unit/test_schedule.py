import logging
import threading
from datetime import UTC, datetime, timedelta

import pytest

from jobs.schedule import Job, JobStuck, advance, by_the_wall

T0 = datetime(2026, 3, 1, 8, tzinfo=UTC)
DAY = timedelta(days=1)


class Daily:
    """A job due at its own times, which notes when it ran."""

    def __init__(self, first: datetime, every: timedelta) -> None:
        self.due, self.every, self.ran = first, every, []

    def run(self, now: datetime) -> None:
        self.ran.append(now)
        self.due = now + self.every

    def job(self, name: str) -> Job:
        return Job(name, timedelta(seconds=1), self.run, lambda: self.due)


def test_each_job_runs_at_its_own_instants_and_the_clock_is_told() -> None:
    daily, weekly, clock = Daily(T0 + DAY, DAY), Daily(T0 + 7 * DAY, 7 * DAY), []
    advance([daily.job("daily"), weekly.job("weekly")], T0, T0 + 14 * DAY, clock.append)
    assert daily.ran == [T0 + n * DAY for n in range(1, 15)]
    assert weekly.ran == [T0 + 7 * DAY, T0 + 14 * DAY]
    assert clock == sorted(clock)
    assert clock[-1] == T0 + 14 * DAY


def test_what_was_due_before_runs_at_once_and_not_in_the_past() -> None:
    late = Daily(T0 - 3 * DAY, 10 * DAY)
    advance([late.job("late")], T0, T0 + DAY)
    assert late.ran == [T0]


def test_of_jobs_due_together_the_earlier_line_runs_first() -> None:
    order = []
    first = Job("a", DAY, lambda _: order.append("a"), lambda: None if "a" in order else T0)
    second = Job("b", DAY, lambda _: order.append("b"), lambda: None if "b" in order else T0)
    advance([first, second], T0, T0)
    assert order == ["a", "b"]


def test_a_job_that_stays_due_is_reported_rather_than_run_for_ever() -> None:
    stuck = Job("stuck", DAY, lambda _: None, lambda: T0)
    with pytest.raises(JobStuck, match="stuck"):
        advance([stuck], T0, T0 + DAY)


def test_the_wall_driver_runs_what_is_due_and_nothing_else() -> None:
    ran = threading.Event()
    never = []
    due = Job("due", timedelta(seconds=0.05), lambda _: ran.set(), lambda: T0)
    later = Job("later", timedelta(seconds=0.05), never.append, lambda: T0 + DAY)
    scheduler = by_the_wall([due, later], lambda: datetime(2026, 3, 1, 9, tzinfo=UTC))
    scheduler.start()
    try:
        assert ran.wait(5)
    finally:
        scheduler.shutdown()
    assert never == []


def test_a_failing_job_is_logged_and_does_not_stop_the_others(caplog) -> None:
    ran = threading.Event()

    def fail(_: datetime) -> None:
        raise RuntimeError("broken rake")

    jobs = [
        Job("fails", timedelta(seconds=0.05), fail, lambda: T0),
        Job("works", timedelta(seconds=0.05), lambda _: ran.set(), lambda: T0),
    ]
    scheduler = by_the_wall(jobs, lambda: T0)
    with caplog.at_level(logging.ERROR):
        scheduler.start()
        try:
            assert ran.wait(5)
        finally:
            scheduler.shutdown()
    assert "broken rake" in caplog.text
