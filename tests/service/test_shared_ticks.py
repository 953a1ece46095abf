"""A tick that workers share on PostgreSQL: a place is looked at by one, and each yard once."""

import multiprocessing
import os
import time
from datetime import UTC, datetime

import pytest
from sqlalchemy import func, select

from jobs.outlooks import Outlooks
from jobs.sources.simulated import SimulatedSource
from jobs.watch import Watch
from storage import chats, models, yards
from storage.database import Database
from storage.places_taken import taken
from tests.made_once import on_server

SERVER = os.environ.get("SOILBELL_TEST_POSTGRESQL_URL")
pytestmark = [
    pytest.mark.postgresql,
    pytest.mark.skipif(SERVER is None, reason="SOILBELL_TEST_POSTGRESQL_URL names no server"),
]
NOW = datetime(2026, 3, 2, 15, tzinfo=UTC)
PLACES, YARDS_THERE = 12, 3


class Slow(SimulatedSource):
    """A source that takes its time, and tells of which places it was asked."""

    def __init__(self) -> None:
        super().__init__()
        self.asked = []

    def fetch(self, requests, now):
        self.asked += [each.cell for each in requests]
        time.sleep(0.05)
        return super().fetch(requests, now)


def work_on(url, ready, told):
    """Be a worker: tick once, and tell which places were asked for."""
    db, source = Database(url), Slow()
    ready.wait(30)
    Watch(db, source, Outlooks(), cells_at_once=2, puts_off_trouble=False).tick(NOW)
    told.put(source.asked)
    db.close()


@pytest.fixture(scope="module")
def database_url():
    with on_server(SERVER) as url:
        db = Database(url)
        db.upgrade()
        with db.writing() as work:
            chat = chats.chat_at(work, "test", "1", title="", units="us", now=NOW)
            chats.person_at(work, "test", "1", name="", now=NOW)
            for number in range(PLACES * YARDS_THERE):
                yards.add(
                    work,
                    chat_id=chat.id,
                    person_id=1,
                    name=f"Yard {number}",
                    lat=38.0 + 0.1 * (number % PLACES),
                    lon=-96.0,
                    timezone="America/Chicago",
                    lead_days=21,
                    split_days=56,
                    rounds=2,
                    now=NOW,
                )
        db.close()
        yield url


def test_two_workers_share_a_tick_and_no_yard_is_looked_at_twice(database_url):
    forking = multiprocessing.get_context("fork")
    ready, told = forking.Barrier(2), forking.Queue()
    workers = [forking.Process(target=work_on, args=(database_url, ready, told)) for _ in range(2)]
    for worker in workers:
        worker.start()
    asked = [told.get(timeout=60) for _ in workers]
    for worker in workers:
        worker.join(30)
    assert all(asked)
    every = [cell for each in asked for cell in each]
    assert len(every) == len(set(every)) == PLACES
    db = Database(database_url)
    with db.reading() as work:
        assert yards.due(work, NOW) == []
        # Every look counts the version on.
        assert set(work.scalars(select(models.Yard.version))) == {1}
        assert work.scalar(select(func.count()).select_from(models.Season)) == PLACES * YARDS_THERE
    db.close()


def test_places_of_a_worker_that_dies_are_free_at_once(database_url):
    one, other = Database(database_url), Database(database_url)
    places = [(3800, -9600), (3810, -9600)]
    with taken(one, places) as mine:
        assert mine == set(places)
        with taken(other, [*places, (3900, -9600)]) as left:
            assert left == {(3900, -9600)}
        with other.engine.connect() as line:
            theirs = "SELECT pg_terminate_backend(pid) FROM pg_locks WHERE locktype = 'advisory'"
            line.exec_driver_sql(
                f"{theirs} AND database = (SELECT oid FROM pg_database WHERE "
                "datname = current_database())"
            )
        with taken(other, places) as now_theirs:
            assert now_theirs == set(places)
    one.close()
    other.close()
