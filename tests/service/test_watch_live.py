"""The tick on a live service over HTTP: few requests, trouble told once, old data kept in use."""

import logging
from datetime import UTC, datetime, timedelta

import pytest

from jobs.outlooks import Outlooks
from jobs.sources.budget import CallBudget, Limit
from jobs.sources.http import Http, Patience, user_agent
from jobs.sources.open_meteo import OpenMeteoSource
from jobs.watch import Watch
from storage import cells, chats, seasons, yards
from storage.database import Database
from tests.made_once import database_at
from tests.service.weather_standin import WeatherStandin

START = datetime(2026, 3, 20, 13, tzinfo=UTC)
PLENTY = (Limit(10**6, timedelta(minutes=1)),)
PATIENT = Patience(connect_s=5, read_s=10, total_s=20, first_pause_s=0, longest_pause_s=0)


class Clock:
    def __init__(self) -> None:
        self.now = START

    def __call__(self) -> datetime:
        return self.now


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def standin(clock: Clock):
    with WeatherStandin(clock) as service:
        yield service


@pytest.fixture
def db(tmp_path):
    base = database_at(tmp_path / "live.sqlite3")
    yield base
    base.close()


def watch_over(db: Database, standin: WeatherStandin) -> Watch:
    http = Http(user_agent("yard@example.org"), PATIENT, uses_proxies=False, sleep=lambda s: None)
    source = OpenMeteoSource(
        http,
        CallBudget(PLENTY),
        forecast_url=standin.forecast_url,
        archive_url=standin.archive_url,
        history_years=3,
    )
    return Watch(db, source, Outlooks(), puts_off_trouble=False)


def register(db: Database, count: int, places: int) -> None:
    with db.writing() as work:
        chat = chats.chat_at(work, "test", "1", title="", units="us", now=START)
        person = chats.person_at(work, "test", "1", name="", now=START)
        for number in range(count):
            yards.add(
                work,
                chat_id=chat.id,
                person_id=person.id,
                name=f"Yard {number}",
                lat=38.0 + 0.05 * (number % places),
                lon=-96.0,
                timezone="America/Chicago",
                lead_days=21,
                split_days=56,
                rounds=2,
                now=START,
            )


def test_a_hundred_yards_in_twenty_cells_cost_one_forecast_request_a_tick(
    db, standin, clock
) -> None:
    register(db, count=100, places=20)
    watch = watch_over(db, standin)
    for day in range(3):
        clock.now = START + timedelta(days=day)
        before = len(standin.calls_to("forecast"))
        watch.tick(clock.now)
        assert len(standin.calls_to("forecast")) - before <= 1
    with db.reading() as work:
        assert yards.due(work, clock.now, 500) == []
        assert all(seasons.season(work, number, "summer_annuals") for number in range(1, 101))


def test_trouble_is_logged_once_and_the_last_good_data_stays_in_use(
    db, standin, clock, caplog
) -> None:
    register(db, count=1, places=1)
    watch = watch_over(db, standin)
    watch.tick(clock.now)
    with db.reading() as work:
        good = seasons.season(work, 1, "summer_annuals")
    standin.fail("forecast", "502", 1000)
    with caplog.at_level(logging.WARNING):
        for hour in range(1, 30):
            clock.now = START + timedelta(hours=hour)
            watch.tick(clock.now)
    assert sum("fails for" in record.message for record in caplog.records) == 1
    with db.reading() as work:
        kept = seasons.season(work, 1, "summer_annuals")
        cell = cells.cell(work, "open-meteo", 3800, -9600)
    assert good is not None
    assert kept is not None
    assert kept.outlook is not None
    assert good.outlook is not None
    assert kept.outlook["known_until"] == good.outlook["known_until"]
    assert cell is not None
    assert cell.trouble_since is not None

    standin.heal()
    caplog.clear()
    with caplog.at_level(logging.WARNING):
        for hour in range(31, 60):
            clock.now = START + timedelta(hours=hour)
            watch.tick(clock.now)
    assert sum("is back" in record.message for record in caplog.records) == 1
