"""The tick on a live service over HTTP: few requests, trouble told once, old data kept in use."""

import gc
import logging
from dataclasses import replace
from datetime import UTC, datetime, timedelta

import pytest
from sqlalchemy import select
from sqlalchemy.event import listen

from jobs import packed_cells
from jobs import watch as watching
from jobs.outlooks import CellOutlook, Outlooks
from jobs.sources.base import Cell
from jobs.sources.budget import CallBudget, Limit
from jobs.sources.http import Http, Patience, user_agent
from jobs.sources.open_meteo import OpenMeteoSource
from jobs.watch import Watch
from storage import cells, chats, models, seasons, yards
from storage.database import Database
from tests.made_once import database_at
from tests.made_yard import alerts_of
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


def watch_over(db: Database, standin: WeatherStandin, limits=PLENTY, **options) -> Watch:
    http = Http(user_agent("yard@example.org"), PATIENT, uses_proxies=False, sleep=lambda s: None)
    source = OpenMeteoSource(
        http,
        CallBudget(limits),
        forecast_url=standin.forecast_url,
        archive_url=standin.archive_url,
        history_years=3,
    )
    return Watch(db, source, Outlooks(), **{"puts_off_trouble": False, **options})


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


def test_what_was_reckoned_of_places_is_gone_when_the_look_is_over(db, standin, clock) -> None:
    register(db, count=3, places=3)
    watch = watch_over(db, standin)
    gc.collect()
    before = sum(isinstance(each, CellOutlook) for each in gc.get_objects())
    gc.disable()
    try:
        watch.tick(clock.now)
        after = sum(isinstance(each, CellOutlook) for each in gc.get_objects())
    finally:
        gc.enable()
    assert after == before


def cell_of(db: Database, lat_e2: int) -> cells.CellRecord | None:
    with db.reading() as work:
        return cells.cell(work, "open-meteo", lat_e2, -9600)


def test_a_new_place_has_a_first_outlook_at_once_and_its_years_later(db, standin, clock) -> None:
    register(db, count=2, places=1)
    watch = watch_over(db, standin)
    watch.look_now(1, clock.now)
    assert not standin.calls_to("archive")
    assert len(standin.calls_to("forecast")) == 1
    with db.reading() as work:
        first = seasons.season(work, 1, "summer_annuals")
    assert first is not None
    assert first.outlook["p50"] is not None
    assert first.outlook["past_years"] == 0
    assert cell_of(db, 3800).recent_since is not None

    assert watch.weather.next_years_at() <= clock.now
    watch.weather.fill_years(clock.now)
    assert len(standin.calls_to("archive")) == 1
    assert cell_of(db, 3800).recent_since is None
    assert watch.weather.next_years_at() is None
    # Its yards are looked at again, with what has come.
    watch.tick(clock.now)
    with db.reading() as work:
        refined = seasons.season(work, 1, "summer_annuals")
    assert refined.outlook["past_years"] >= 3
    assert refined.outlook["p50"] != first.outlook["p50"]


def test_a_new_place_leans_on_the_years_of_one_close_by_until_its_own_come(
    db, standin, clock
) -> None:
    register(db, count=3, places=3)
    with db.writing() as work:
        # 5.6 km from the first, and far away.
        yards.change(work, 3, lat=39.0)
    watch = watch_over(db, standin)
    watch.look_now(1, clock.now)
    watch.weather.fill_years(clock.now)
    source = "open-meteo"
    for yard_id in (2, 3):
        watch.look_now(yard_id, clock.now)
    with db.reading() as work:
        near, far = (packed_cells.held(work, source, Cell(e2, -9600)) for e2 in (3805, 3900))
        named = [seasons.season(work, n, "summer_annuals").outlook["past_years"] for n in (2, 3)]
    assert near.lent is not None
    assert far.lent is None
    assert named[0] >= 3
    assert named[1] == 0
    # What is known of it stays its own.
    assert near.known.first_day == far.known.first_day
    assert near.lent.series.last_day < cell_of(db, 3805).recent_since


def test_a_short_budget_goes_to_the_nearest_decisions_and_says_what_it_left(
    db, standin, clock, caplog
) -> None:
    register(db, count=4, places=4)
    watch_over(db, standin).tick(clock.now)
    with db.writing() as work:
        for number, on in enumerate(("2026-06-20", "2026-03-29", "2026-07-30", "2026-04-10"), 1):
            season = work.scalars(
                select(models.Season).where(models.Season.yard_id == number)
            ).one()
            season.outlook = {**season.outlook, "p50": on}
            work.get_one(models.Yard, number).next_check_at = clock.now
    clock.now = START + timedelta(days=1)
    # A place costs 2.8 calls a day.
    short = watch_over(db, standin, limits=(Limit(6, timedelta(hours=1)),))
    with caplog.at_level(logging.WARNING):
        short.tick(clock.now)
    fresh = [cell_of(db, 3800 + 5 * number).fetched_at == clock.now for number in range(4)]
    assert fresh == [False, True, False, True]
    assert "calls to open-meteo are short: 2 of 4 places keep what they have" in caplog.text
    with db.reading() as work:
        assert all(seasons.season(work, n, "summer_annuals").outlook for n in range(1, 5))


def test_past_years_wait_for_calls_and_come_by_the_nearest_decision(db, standin, clock) -> None:
    register(db, count=2, places=2)
    watch = watch_over(db, standin, limits=(Limit(150, timedelta(hours=1)),))
    watch.tick(clock.now)
    with db.writing() as work:
        for number, on in ((1, "2026-06-20"), (2, "2026-03-29")):
            season = work.scalars(
                select(models.Season).where(models.Season.yard_id == number)
            ).one()
            season.outlook = {**season.outlook, "p50": on}
    # Three years of one place cost some 126 calls: over what past years may take for now.
    watch.weather.fill_years(clock.now)
    assert cell_of(db, 3805).recent_since is not None
    assert watch.weather.next_years_at() > clock.now
    assert cell_of(db, 3805).trouble is None


def test_a_tick_takes_fewer_statements_than_there_are_yards(db, standin, clock) -> None:
    register(db, count=100, places=5)
    watch = watch_over(db, standin)
    statements = []
    listen(db.engine, "before_cursor_execute", lambda *_: statements.append(1))
    for day in range(2):
        statements.clear()
        watch.tick(START + timedelta(days=day))
        assert len(statements) < 50


def test_yards_taken_together_come_to_what_each_comes_to_alone(db, standin, clock, tmp_path):
    alone = Database(f"sqlite:///{tmp_path / 'alone.sqlite3'}")
    alone.upgrade()
    for base, sizes in ((db, {}), (alone, {"cells_at_once": 1, "yards_at_once": 1})):
        register(base, count=12, places=3)
        watch = watch_over(base, standin, **sizes)
        for day in (0, 1, 16):
            clock.now = START + timedelta(days=day)
            watch.tick(clock.now)
    written = everything(db)
    assert written == everything(alone)
    assert any(alerts for _, alerts, _ in written)
    alone.close()


def everything(db: Database) -> list:
    with db.reading() as work:
        return [
            (
                [replace(each, id=0) for each in seasons.of_yard(work, number)],
                [replace(each, id=0) for each in alerts_of(work, number)],
                yards.yard(work, number).next_check_at,
            )
            for number in range(1, 13)
        ]


def test_a_yard_that_trips_us_up_holds_back_no_other(db, standin, monkeypatch, caplog) -> None:
    register(db, count=6, places=2)
    really = watching.look_and_plan

    def look(work, yard, *rest, **more):
        if yard.name == "Yard 3":
            raise ZeroDivisionError("no such lawn")
        return really(work, yard, *rest, **more)

    monkeypatch.setattr(watching, "look_and_plan", look)
    watch_over(db, standin, puts_off_trouble=True).tick(START)
    with db.reading() as work:
        found = {each.name: each for each in yards.of_chat(work, 1)}
        assert found["Yard 3"].next_check_at == START + timedelta(hours=1)
        assert all(seasons.of_yard(work, y.id) for name, y in found.items() if name != "Yard 3")
        assert not yards.due(work, START)
    assert "yard 4 could not be looked at" in caplog.text


def test_told_to_stop_a_tick_leaves_the_rest_for_the_next_start(db, standin) -> None:
    register(db, count=6, places=2)
    asked = iter((False, False, False, True, True))
    sizes = {"yards_at_once": 2, "is_stopping": lambda: next(asked)}
    watch_over(db, standin, **sizes).tick(START)
    with db.reading() as work:
        assert len(yards.due(work, START)) == 4
    watch_over(db, standin).tick(START)
    with db.reading() as work:
        assert yards.due(work, START) == []


def test_what_another_looked_at_meanwhile_is_not_looked_at_again(db, standin) -> None:
    register(db, count=2, places=1)
    told = []

    def of_yard(yard, now, moved):
        told.append(yard.id)
        rival.tick(now)

    rival = watch_over(db, standin, listener=lambda yard, now, moved: told.append(yard.id))
    watch_over(db, standin, yards_at_once=1, listener=of_yard).tick(START)
    assert sorted(told) == [1, 2]


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
    assert sum("fails for 1 cells: the service" in each.message for each in caplog.records) == 1
    assert "38.00" not in caplog.text
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
