"""A clock set back stops nothing: jobs go by the time that passes, and leases run out."""

import time
from datetime import UTC, datetime, timedelta

import pytest
from freezegun import freeze_time

from bot.wiring import MovedClock, SteadyClock, WallClock
from jobs.schedule import Job, by_the_wall
from storage import leases
from tests.made_once import database_at

NOON = datetime(2026, 3, 20, 12, tzinfo=UTC)
DAYS = timedelta(days=3)
MINUTE = timedelta(minutes=1)


class Wall:
    """A wall clock, and the time that passes whatever it says."""

    def __init__(self):
        self.at, self.elapsed_s = NOON, 0.0

    def now(self):
        return self.at

    def pass_(self, span, *, shows=None):
        self.elapsed_s += span.total_seconds()
        self.at += span if shows is None else shows

    def clock(self, not_before=None):
        return SteadyClock(not_before, self.now, lambda: self.elapsed_s)


def test_a_clock_set_back_is_carried_on_and_told_of_once(caplog):
    wall = Wall()
    clock = wall.clock()
    wall.pass_(MINUTE, shows=-DAYS)
    assert clock.now() == NOON + MINUTE
    wall.pass_(MINUTE)
    assert clock.now() == NOON + 2 * MINUTE
    assert caplog.text.count("was set back") == 1
    assert clock.is_behind
    wall.pass_(MINUTE, shows=DAYS + 3 * MINUTE)
    assert clock.now() == wall.at
    assert not clock.is_behind


def test_a_clock_set_forward_is_followed_and_one_put_right_by_seconds_stands_still():
    wall = Wall()
    clock = wall.clock()
    wall.pass_(MINUTE, shows=DAYS)
    assert clock.now() == NOON + DAYS
    wall.pass_(timedelta(seconds=1), shows=timedelta(seconds=-5))
    assert clock.now() == NOON + DAYS


def test_a_restart_on_a_clock_set_back_goes_on_where_it_stood():
    assert Wall().clock(NOON + DAYS).now() == NOON + DAYS
    assert Wall().clock(NOON - DAYS).now() == NOON
    # It ran on a clock that was years ahead; now it is right.
    assert Wall().clock(NOON + 900 * DAYS).now() == NOON


def test_jobs_run_on_when_the_wall_is_set_back(monkeypatch):
    back = timedelta(0)

    class Shifted(datetime):
        @classmethod
        def now(cls, tz=None):
            return WallClock().now().astimezone(tz) + back

    monkeypatch.setattr("apscheduler.schedulers.base.datetime", Shifted)
    monkeypatch.setattr("jobs.schedule._LOOK_S", 0.1)
    ran = []
    job = Job("look", timedelta(seconds=0.2), ran.append, lambda: NOON)
    scheduler = by_the_wall([job], lambda: NOON, lambda: WallClock().now() + back)
    scheduler.start()
    try:
        wait_until(lambda: len(ran) >= 2)
        back = -DAYS
        before = len(ran)
        wait_until(lambda: len(ran) >= before + 3)
    finally:
        scheduler.shutdown()


def wait_until(what):
    until_s = time.monotonic() + 20
    while not what():
        assert time.monotonic() < until_s
        time.sleep(0.02)


@pytest.fixture
def db(tmp_path):
    base = database_at(tmp_path / "leases.sqlite3")
    yield base
    base.close()


def test_a_lease_taken_before_the_clock_was_set_back_is_void(db):
    lasts = timedelta(seconds=15)
    with db.writing() as work:
        assert leases.take(work, "tick", "dead", now=NOON, until=NOON + lasts)
    for now, owner, is_taken in (
        (NOON + timedelta(seconds=5), "rival", False),
        (NOON - timedelta(seconds=5), "rival", False),
        (NOON - DAYS, "rival", True),
    ):
        with db.writing() as work:
            assert leases.take(work, "tick", owner, now=now, until=now + lasts) is is_taken


def test_the_walls_clock_tells_utc():
    with freeze_time("2026-03-08 10:30:00"):
        assert WallClock().now() == datetime(2026, 3, 8, 10, 30, tzinfo=UTC)


def test_a_demonstration_runs_along_with_the_wall_and_never_back(db):
    with freeze_time("2026-11-01 08:00:00") as wall:
        clock = MovedClock(db, "test", NOON, stands_still=False)
        wall.tick(5 * MINUTE)
        assert clock.now() == NOON + 5 * MINUTE
        clock.keep(NOON + DAYS)
        wall.tick(MINUTE)
        assert clock.now() == NOON + DAYS + MINUTE
        wall.move_to("2026-10-31 08:00:00")
        assert clock.now() == NOON + DAYS + MINUTE
