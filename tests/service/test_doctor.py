"""`soilbell doctor`: what it looks at, and what it says to fix."""

from datetime import UTC, date, datetime, timedelta

import numpy as np
import pytest

from bot import cli, logs
from bot.doctor import calls_left, examine
from bot.settings import Settings
from bot.wiring import WallClock
from jobs import packed_cells
from jobs.agronomy.series import DailySeries
from jobs.kept_budget import KeptBudget
from jobs.sources.base import Cell, CellWeather
from jobs.sources.open_meteo_costs import FREE_LIMITS
from storage.database import Database
from tests.service.bot_process import closed_port
from tests.service.platform_standin import TOKEN
from tests.service.weather_standin import WeatherStandin
from tests.unit.made_soil import made_series, with_soil

NOW_HERE = "127.0.0.1"


@pytest.fixture
def database_url(tmp_path):
    return f"sqlite:///{tmp_path / 'bot.sqlite3'}"


def look(monkeypatch, tmp_path, standin, database_url, **changes):
    """Return the findings by subject, with nothing but loopback in reach."""
    monkeypatch.chdir(tmp_path)
    for name in ("HTTP_PROXY", "HTTPS_PROXY", "ALL_PROXY"):
        monkeypatch.setenv(name, f"http://{NOW_HERE}:{closed_port()}")
    monkeypatch.setenv("NO_PROXY", NOW_HERE)
    settings = {
        "token": TOKEN,
        "platform_url": standin.base_url,
        "platform_timeout_s": 1,
        "database_url": database_url,
        "source": "simulated",
        **changes,
    }
    return {finding.subject: finding for finding in examine(Settings(**settings))}


def test_all_well(monkeypatch, tmp_path, standin, database_url):
    db = Database(database_url)
    db.upgrade()
    db.close()
    found = look(monkeypatch, tmp_path, standin, database_url)
    assert all(finding.is_well for finding in found.values()), found
    assert found["token"].says == "the chat platform knows it as @yard_test_bot."
    assert "the newest" in found["database"].says
    assert "invented weather" in found["weather from simulated"].says


def test_before_the_first_start_the_database_is_not_made(
    monkeypatch, tmp_path, standin, database_url
):
    found = look(monkeypatch, tmp_path, standin, database_url)
    assert found["database"].is_well
    assert "first start" in found["database"].says
    assert not list(tmp_path.iterdir())


def test_a_token_nobody_knows(monkeypatch, tmp_path, standin, database_url):
    other = f"{TOKEN[:-1]}X"
    token = look(monkeypatch, tmp_path, standin, database_url, token=other)["token"]
    assert "Copy it again" in token.fix
    assert other.partition(":")[2] not in token.line


def test_no_token(monkeypatch, tmp_path, standin, database_url):
    token = look(monkeypatch, tmp_path, standin, database_url, token="")["token"]
    assert "Set SOILBELL_TOKEN" in token.fix


def test_a_platform_out_of_reach(monkeypatch, tmp_path, standin, database_url):
    nowhere = f"http://{NOW_HERE}:{closed_port()}/bot"
    found = look(monkeypatch, tmp_path, standin, database_url, platform_url=nowhere)
    assert "online" in found["token"].fix
    assert "online" in found["clock"].fix


def test_a_page_in_between_is_not_taken_for_the_platforms_word(
    monkeypatch, tmp_path, standin, database_url
):
    standin.fail("getMe", "502")
    found = look(monkeypatch, tmp_path, standin, database_url)
    assert "gives no answer" in found["token"].says


def test_updates_come_the_way_they_are_wanted_or_not(monkeypatch, tmp_path, standin, database_url):
    def updates(**changes):
        return look(monkeypatch, tmp_path, standin, database_url, **changes)["updates"]

    here, there = "https://bot.example.org/s3cret", "https://old.example.org/s3cret"
    standin.say(7, "hi")
    assert updates().line == "ok   updates: asked for, 1 waiting."
    assert "before `soilbell bot` starts" in updates(webhook_url=here).line
    standin.webhook = {"url": there}
    assert updates().line.startswith("--   updates: the chat platform brings them to old.example")
    assert "another bot" in updates(webhook_url=here).fix
    assert "s3cret" not in updates().line + updates(webhook_url=here).line
    standin.webhook = {"url": here}
    assert updates(webhook_url=here).is_well
    standin.brought.append((1, 8443, 503))
    assert "(Wrong response from the webhook: 503); 1 waiting." in updates(webhook_url=here).says
    assert "certificate" in updates(webhook_url=here).fix


def test_an_old_schema(monkeypatch, tmp_path, standin, database_url):
    db = Database(database_url)
    db.upgrade()
    with db.engine.begin() as connection:
        connection.exec_driver_sql("UPDATE alembic_version SET version_num = '0001'")
    db.close()
    found = look(monkeypatch, tmp_path, standin, database_url)
    assert found["database"].fix == "Run `soilbell db upgrade`."


def test_a_database_of_something_else(monkeypatch, tmp_path, standin, database_url):
    db = Database(database_url)
    with db.engine.begin() as connection:
        connection.exec_driver_sql("CREATE TABLE recipes (id INTEGER)")
    db.close()
    found = look(monkeypatch, tmp_path, standin, database_url)
    assert "something else" in found["database"].says
    assert not found["database"].is_well


@pytest.mark.parametrize(("seconds", "way"), [(600, "slow"), (-600, "fast")])
def test_a_clock_that_is_off(monkeypatch, tmp_path, standin, database_url, seconds, way):
    standin.clock_is_off_s = seconds
    clock = look(monkeypatch, tmp_path, standin, database_url)["clock"]
    assert f"seconds {way}" in clock.says
    assert "timedatectl" in clock.fix


def test_live_sources_are_asked_one_by_one(monkeypatch, tmp_path, standin, database_url):
    with WeatherStandin(WallClock().now) as weather:
        live = {
            "source": "open-meteo",
            "contact": "yard@example.org",
            "forecast_url": weather.forecast_url,
            "archive_url": weather.archive_url,
            "nws_url": weather.nws_url,
        }
        found = look(monkeypatch, tmp_path, standin, database_url, **live)
        for name in ("weather from open-meteo", "weather from nws"):
            assert "weather for 39.18, -96.57 known to" in found[name].says
        weather.fail("/v1/forecast", "bad request")
        weather.fail("/points", "bad request")
        found = look(monkeypatch, tmp_path, standin, database_url, **live)
        assert "online" in found["weather from open-meteo"].fix
        # The one behind may be missing: outside its country it always is.
        assert found["weather from nws"].is_well
        assert "no weather" in found["weather from nws"].says


def test_a_live_source_without_a_contact(monkeypatch, tmp_path, standin, database_url):
    found = look(monkeypatch, tmp_path, standin, database_url, source="nws")
    assert "SOILBELL_CONTACT" in found["weather from nws"].fix


def test_the_exit_code_tells_whether_there_is_something_to_fix(
    monkeypatch, capsys, tmp_path, standin
):
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr(logs, "set_up", lambda level, secrets: None)
    usual = {"token": TOKEN, "platform_url": standin.base_url, "source": "simulated"}
    for name, value in usual.items():
        monkeypatch.setenv(f"SOILBELL_{name.upper()}", value)
    assert cli.main(["doctor"]) == 0
    assert capsys.readouterr().out.count("ok ") == 5
    standin.clock_is_off_s = 3600
    assert cli.main(["doctor"]) == 1
    assert "FIX  clock" in capsys.readouterr().out


def test_the_calls_of_a_day_and_the_places_that_wait_for_some_are_told(database_url) -> None:
    db, now = Database(database_url), WallClock().now()
    db.upgrade()
    known = DailySeries.missing(now.date() - timedelta(days=30), 30)
    weather, here, there = CellWeather(known, None, None, now), Cell(3910, -9660), Cell(41, 2)
    KeptBudget(db, "open-meteo", FREE_LIMITS).spend(12.4, now - timedelta(hours=2))
    with db.writing() as work:
        since = {here: known.first_day, there: None}
        packed_cells.keep(work, "open-meteo", False, dict.fromkeys(since, weather), now, since)
        short = {there: ("short of calls", now + timedelta(hours=1))}
        packed_cells.note_trouble(work, "open-meteo", short, now)
    db.close()
    (found,) = calls_left(Settings(source="open-meteo", database_url=database_url))
    assert found.says == (
        "12 of 9800 a day spent; 1 places keep older weather for now, 1 wait for their past years."
    )
    assert found.is_lacking


@pytest.mark.parametrize(
    ("step_c", "place_count", "is_told"), [(2, 9, True), (0, 9, False), (2, 7, False)]
)
def test_a_source_that_stepped_away_from_its_past_at_many_places_is_a_fault(
    monkeypatch, tmp_path, standin, database_url, step_c, place_count, is_told
):
    db = Database(database_url)
    db.upgrade()
    last = date(2016, 4, 15)
    now = datetime(2016, 4, 16, tzinfo=UTC)
    with db.writing() as work:
        for place in range(place_count):
            series = made_series(date(2010, 1, 1), last, noise_c=1.0, seed=place)
            this_year = np.arange(len(series)) >= (date(2016, 1, 1) - series.first_day).days
            known = with_soil(series, series.soil5_c + step_c * this_year)
            at = Cell.at(40.0 + place / 2, -96.0)
            packed_cells.keep(
                work, "simulated", True, {at: CellWeather(known, None, None, now)}, now
            )
    db.close()
    found = look(monkeypatch, tmp_path, standin, database_url).get("soil from simulated")
    assert (found is not None) == is_told
    if found is not None:
        assert "°C warmer for its air than in past years, over 9 places" in found.says
        assert not found.is_well
