import json
import logging
from datetime import UTC, date, datetime, timedelta
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from jobs.sources.base import (
    AnswerUnusable,
    Cell,
    CellRequest,
    CellWeather,
    QuotaSpent,
    SourceRefused,
    SourceTrouble,
    SourceUnreachable,
)
from jobs.sources.budget import CallBudget, Limit
from jobs.sources.http import Http, Patience, reason_in, user_agent
from jobs.sources.open_meteo import OpenMeteoSource
from jobs.sources.open_meteo_answers import read_archive, read_forecast
from jobs.sources.open_meteo_costs import FREE_LIMITS, cost
from tests.service.mutations import mutated
from tests.service.weather_standin import (
    ARCHIVE_IS_COLDER_C,
    WeatherStandin,
    air_c,
    soil_c,
)

WIRE = Path(__file__).resolve().parents[3] / "shared" / "data" / "wire" / "open_meteo"
NOW = datetime(2026, 4, 2, 14, 20, tzinfo=UTC)
CST = timedelta(hours=-6)
KANSAS = Cell(3910, -9660)


def ask(cell=KANSAS, since=date(2026, 3, 20), offset=CST):
    return CellRequest(cell, offset, since)


@pytest.fixture(scope="module")
def service():
    with WeatherStandin(lambda: NOW) as standin:
        yield standin


@pytest.fixture
def standin(service):
    service.heal()
    service.calls.clear()
    return service


PATIENT = Patience(connect_s=5, read_s=10, total_s=20, first_pause_s=0, longest_pause_s=0)
HURRIED = Patience(connect_s=5, read_s=0.2, total_s=0.3, first_pause_s=0, longest_pause_s=0)


def source_at(standin, limits=FREE_LIMITS, patience=PATIENT, **kwargs):
    http = Http(user_agent("yard@example.org"), patience, uses_proxies=False, sleep=lambda s: None)
    return OpenMeteoSource(
        http,
        CallBudget(limits),
        forecast_url=standin.forecast_url,
        archive_url=standin.archive_url,
        **kwargs,
    )


def local_mean(what, day, offset=CST):
    start = datetime(day.year, day.month, day.day, tzinfo=UTC) - offset
    return np.mean([what(KANSAS.lat, start + timedelta(hours=hour)) for hour in range(24)])


def test_known_days_and_forecast_are_local_standard_days(standin):
    weather = source_at(standin).fetch([ask()], NOW)[KANSAS]
    assert weather.known.first_day == date(2026, 3, 20)
    # 2 April, 08:20 standard time: 1 April is known since 06:00.
    assert weather.known.last_day == date(2026, 4, 1)
    assert weather.forecast.first_day == date(2026, 4, 2)
    assert weather.forecast.last_day == date(2026, 4, 16)
    for series in (weather.known, weather.forecast):
        for i in (0, 5):
            day = series.first_day + timedelta(days=i)
            assert series.soil5_c[i] == pytest.approx(local_mean(soil_c, day))
            assert series.tmean_c[i] == pytest.approx(local_mean(air_c, day))
            assert series.tmin_c[i] < series.tmean_c[i] < series.tmax_c[i]
    assert not weather.soil_is_modelled
    assert weather.place == "grid cell 39.13, -96.62"
    assert weather.observed_at == datetime(2026, 4, 2, 14, tzinfo=UTC)


def test_hours_begin_with_the_first_day_ahead_and_rain_falls_in_the_hour_that_begins(standin):
    hourly = source_at(standin).fetch([ask()], NOW)[KANSAS].hourly
    assert hourly.first_hour == datetime(2026, 4, 2, 6, tzinfo=UTC)
    assert hourly.air_c[0] == air_c(KANSAS.lat, hourly.first_hour)
    assert set(hourly.wind_m_s) == {3.0}
    wet = [hourly.first_hour + timedelta(hours=i) for i, mm in enumerate(hourly.rain_mm) if mm > 0]
    assert wet
    assert {at.hour for at in wet} == {6}


def test_many_cells_share_one_request_and_long_ones_are_posted(standin):
    cells = [Cell(3500 + 10 * i, -9000 - 10 * i) for i in range(150)]
    answers = source_at(standin).fetch([ask(cell) for cell in cells[:20]], NOW)
    assert all(isinstance(answers[cell], CellWeather) for cell in cells[:20])
    assert [call.method for call in standin.calls] == ["GET"]
    answers = source_at(standin).fetch([ask(cell) for cell in cells], NOW)
    assert all(isinstance(answers[cell], CellWeather) for cell in cells)
    assert [call.method for call in standin.calls] == ["GET", "POST"]
    south, north = answers[cells[0]], answers[cells[-1]]
    assert south.known.soil5_c[0] > north.known.soil5_c[0] + 5


def test_the_archive_gives_ten_years_and_is_shifted_to_the_forecasts_soil(standin):
    weather = source_at(standin).fetch([ask(since=date(2010, 1, 1))], NOW)[KANSAS]
    assert weather.known.first_day == date(2016, 1, 1)
    assert weather.known.last_day == date(2026, 4, 1)
    assert not np.isnan(weather.known.soil5_c).any()
    assert ARCHIVE_IS_COLDER_C > 1
    day = date(2019, 5, 5)
    then = weather.known.soil5_c[(day - weather.known.first_day).days]
    assert then == pytest.approx(local_mean(soil_c, day), abs=0.4)
    archive = standin.calls_to("archive")[0].params
    assert archive["timezone"] == "Etc/GMT+6"
    assert archive["end_date"] == "2026-03-26"
    assert [call.path for call in standin.calls] == ["/v1/forecast", "/v1/archive"]


def test_without_its_history_a_cell_is_troubled_and_the_others_are_not(standin):
    standin.fail("archive", "bad request")
    other = Cell(4000, -9000)
    answers = source_at(standin).fetch([ask(since=date(2018, 1, 1)), ask(other)], NOW)
    assert isinstance(answers[KANSAS], SourceRefused)
    assert isinstance(answers[other], CellWeather)


@pytest.mark.parametrize(
    ("fault", "trouble", "said"),
    [
        ("hang", SourceUnreachable, "in time"),
        ("trickle", SourceUnreachable, "in time"),
        ("drop", SourceUnreachable, "no connection"),
        ("cut", SourceUnreachable, "cut short"),
        ("502", SourceUnreachable, "502"),
        ("bad request", SourceRefused, "Cannot initialize"),
        ("malformed", AnswerUnusable, "no JSON"),
        ("nulls", AnswerUnusable, "no soil temperature"),
        ("elsewhere", AnswerUnusable, "not for 39.10"),
        ("absurd", AnswerUnusable, "cannot be true"),
        ("too short a list", AnswerUnusable, "0 places"),
    ],
)
def test_every_trouble_has_its_name(standin, fault, trouble, said):
    standin.fail("forecast", fault, times=3)
    patience = HURRIED if fault in ("hang", "trickle") else PATIENT
    answer = source_at(standin, patience=patience).fetch([ask()], NOW)[KANSAS]
    assert isinstance(answer, trouble)
    assert said in str(answer)
    repeats = trouble is SourceUnreachable
    assert len(standin.calls) == (3 if repeats else 1)


def test_a_service_that_comes_back_within_three_attempts_is_no_trouble(standin):
    standin.fail("forecast", "502")
    standin.fail("forecast", "drop")
    assert isinstance(source_at(standin).fetch([ask()], NOW)[KANSAS], CellWeather)
    assert len(standin.calls) == 3


@pytest.mark.parametrize(
    ("fault", "wait_s"), [("minutely", 60), ("hourly", 3600), ("daily", 86_400)]
)
def test_told_to_wait_nothing_is_asked_before(standin, fault, wait_s):
    source = source_at(standin)
    standin.fail("forecast", fault)
    told = source.fetch([ask()], NOW)[KANSAS]
    assert isinstance(told, QuotaSpent)
    assert told.retry_after_s == wait_s
    just_before = NOW + timedelta(seconds=wait_s - 1)
    assert isinstance(source.fetch([ask()], just_before)[KANSAS], QuotaSpent)
    assert len(standin.calls) == 1
    assert isinstance(source.fetch([ask()], NOW + timedelta(seconds=wait_s))[KANSAS], CellWeather)


def test_proxies_of_the_environment_count_only_where_wanted(standin, monkeypatch):
    for name in ("http_proxy", "HTTP_PROXY", "all_proxy"):
        monkeypatch.setenv(name, "http://127.0.0.1:9")
    for name in ("no_proxy", "NO_PROXY"):
        monkeypatch.delenv(name, raising=False)
    assert isinstance(source_at(standin).fetch([ask()], NOW)[KANSAS], CellWeather)
    through = OpenMeteoSource(
        Http("t", Patience(attempts=1)), CallBudget(FREE_LIMITS), forecast_url=standin.forecast_url
    )
    assert isinstance(through.fetch([ask()], NOW)[KANSAS], SourceUnreachable)


def test_an_answer_without_end_is_not_read_to_the_end(standin):
    http = Http("t", PATIENT, uses_proxies=False, most_bytes=5_000)
    source = OpenMeteoSource(http, CallBudget(FREE_LIMITS), forecast_url=standin.forecast_url)
    answer = source.fetch([ask()], NOW)[KANSAS]
    assert isinstance(answer, AnswerUnusable)
    assert "longer than" in str(answer)


def test_no_service_at_all_is_trouble_for_each_cell():
    http = Http("t", Patience(attempts=1), uses_proxies=False)
    source = OpenMeteoSource(
        http, CallBudget(FREE_LIMITS), forecast_url="http://127.0.0.1:9/v1/forecast"
    )
    other = Cell(4000, -9000)
    answers = source.fetch([ask(), ask(other)], NOW)
    assert all(isinstance(answers[cell], SourceUnreachable) for cell in (KANSAS, other))


def test_costs_follow_the_two_published_examples():
    # platform notes after the service's pricing page: 15 variables 1.5 calls, 4 weeks 3.0.
    assert cost(1, 15, 7) == 1.5
    assert cost(1, 5, 28) == 3.0
    assert cost(20, 5, 7) == 20


def test_the_budget_is_spent_on_known_yards_first_and_never_exceeded(standin):
    cells = [Cell(3500 + 10 * i, -9000) for i in range(6)]
    old = [ask(cell) for cell in cells[:3]]
    new = [ask(cell, since=date(2017, 1, 1)) for cell in cells[3:]]
    source = source_at(standin)
    answers = source.fetch([*new, *old], NOW)
    assert all(isinstance(answers[request.cell], CellWeather) for request in old)
    waiting = [answers[r.cell] for r in new if isinstance(answers[r.cell], SourceTrouble)]
    assert len(waiting) == 2
    assert all(isinstance(told, QuotaSpent) and told.retry_after_s <= 60 for told in waiting)
    assert len(standin.calls_to("archive")) == 1
    assert len(standin.calls_to("forecast")) == 1
    later = source.fetch(new, NOW + timedelta(minutes=1))
    assert sum(isinstance(answer, CellWeather) for answer in later.values()) == 1


def test_every_attempt_is_charged(standin):
    standin.fail("forecast", "502", times=3)
    source = source_at(standin, limits=[Limit(8, timedelta(minutes=1))])
    answer = source.fetch([ask()], NOW)[KANSAS]
    # Thirty-one days cost 3.3 calls: a third attempt would not fit into eight.
    assert isinstance(answer, QuotaSpent)
    assert len(standin.calls) == 2


def test_a_hundred_cells_cost_one_forecast_request_a_tick(standin):
    source = source_at(standin)
    cells = [Cell(3500 + 10 * i, -9000) for i in range(100)]
    for hour in (0, 1, 2):
        at = NOW + timedelta(hours=hour)
        answers = source.fetch([ask(cell, since=date(2026, 3, 30)) for cell in cells], at)
        assert all(isinstance(answer, CellWeather) for answer in answers.values())
    assert len(standin.calls) == 3


def test_a_key_reaches_the_service_but_no_log_and_no_message(standin, caplog):
    caplog.set_level(logging.DEBUG)
    # Whatever another test has set: this library's own lines are wanted here.
    caplog.set_level(logging.DEBUG, logger="urllib3")
    source = source_at(standin, key="SECRET-KEY")
    standin.fail("forecast", "drop", times=3)
    trouble = source.fetch([ask()], NOW)[KANSAS]
    source.fetch([ask()], NOW)
    assert standin.calls[-1].params["apikey"] == "SECRET-KEY"
    assert "SECRET-KEY" not in str(trouble)
    assert trouble.__cause__ is None
    assert "urllib3" in {record.name.split(".")[0] for record in caplog.records}
    assert "SECRET-KEY" not in caplog.text


def test_the_caller_gives_an_address_for_complaints(standin):
    source_at(standin).fetch([ask()], NOW)
    assert standin.calls[0].headers["User-Agent"] == "soilbell (yard@example.org)"
    for contact in ("", "  ", "a\nb"):
        with pytest.raises(ValueError, match="address"):
            user_agent(contact)


def test_the_credit_line_is_the_one_the_licence_asks_for(standin):
    assert source_at(standin).credit == "Weather data by Open-Meteo.com"
    assert not source_at(standin).is_invented
    assert not source_at(standin).can_move_clock


def forecast_sample(hours=30):
    first = 1_775_000_400 - 1_775_000_400 % 3600
    return {
        "latitude": 39.13,
        "longitude": -96.62,
        "utc_offset_seconds": 0,
        "hourly_units": {"soil_temperature_6cm": "°C", "wind_speed_10m": "m/s"},
        "hourly": {
            "time": [first + 3600 * i for i in range(hours)],
            "soil_temperature_6cm": [10.0 + i / 10 for i in range(hours)],
            "temperature_2m": [12.0] * hours,
            "precipitation": [0.0] * hours,
            "wind_speed_10m": [2.0] * hours,
            "relative_humidity_2m": [50] * hours,
        },
    }


def archive_sample(days=5):
    first = 1_588_572_000
    return {
        "latitude": 39.1,
        "longitude": -96.6,
        "utc_offset_seconds": -21_600,
        "daily": {
            "time": [first + 86_400 * i for i in range(days)],
            "soil_temperature_0_to_7cm_mean": [14.0] * days,
            "temperature_2m_mean": [15.0] * days,
            "temperature_2m_min": [10.0] * days,
            "temperature_2m_max": [20.0] * days,
            "precipitation_sum": [0.0] * days,
        },
    }


def read(sample, cells=(KANSAS,)):
    return read_forecast(json.dumps(sample).encode(), cells)


def test_a_list_counts_its_places_and_only_the_first_lacks_its_number():
    two = [forecast_sample(), forecast_sample() | {"location_id": 1}]
    assert len(read(two, [KANSAS, KANSAS])) == 2
    with pytest.raises(AnswerUnusable, match="mixes up"):
        read([two[1], two[0]], [KANSAS, KANSAS])
    with pytest.raises(AnswerUnusable, match="2 places, not for 3"):
        read(two, [KANSAS] * 3)


def test_one_bad_place_of_a_list_does_not_spoil_the_others():
    bad = forecast_sample() | {"location_id": 1}
    bad["hourly"]["temperature_2m"][3] = "warm"
    good, spoilt = read([forecast_sample(), bad], [KANSAS, KANSAS])
    assert good.hours.air_c[0] == 12.0
    assert isinstance(spoilt, AnswerUnusable)


def test_nulls_are_missing_hours_and_holes_in_time_stay_holes():
    sample = forecast_sample()
    sample["hourly"]["soil_temperature_6cm"][2] = None
    for values in sample["hourly"].values():
        del values[5:7]
    (grid,) = read(sample)
    assert len(grid.hours.air_c) == 30
    assert np.flatnonzero(np.isnan(grid.hours.soil5_c)).tolist() == [2, 5, 6]


def test_values_in_other_units_are_not_taken_for_ours():
    sample = forecast_sample()
    sample["hourly_units"]["wind_speed_10m"] = "km/h"
    (answer,) = read(sample)
    assert isinstance(answer, AnswerUnusable)
    assert "km/h" in str(answer)


def test_archive_days_are_the_days_asked_for():
    body = json.dumps(archive_sample()).encode()
    (days,) = read_archive(body, [KANSAS], CST)
    assert days.first_day == date(2020, 5, 4)
    assert len(days) == 5
    (answer,) = read_archive(body, [KANSAS], timedelta(hours=-5))
    assert isinstance(answer, AnswerUnusable)


@settings(max_examples=300)
@given(st.one_of(mutated(forecast_sample()), mutated([forecast_sample(3), forecast_sample(4)])))
def test_no_forecast_answer_breaks_the_reader(body):
    for cells in ([KANSAS], [KANSAS, KANSAS]):
        try:
            answers = read_forecast(body, cells)
        except AnswerUnusable:
            continue
        assert len(answers) == len(cells)


@settings(max_examples=200)
@given(mutated(archive_sample()))
def test_no_archive_answer_breaks_the_reader(body):
    try:
        answers = read_archive(body, [KANSAS], CST)
    except AnswerUnusable:
        return
    assert len(answers) == 1


needs_wire = pytest.mark.skipif(not WIRE.is_dir(), reason="no samples of answers beside the tree")


@pytest.mark.shared_data
@needs_wire
def test_a_real_answer_reads_with_what_it_lacks_named():
    # Real answers of the service: one with soil in Unix time, one for three places.
    body = (WIRE / "forecast_soil_melbourne_20240116_unixtime.json").read_bytes()
    told = json.loads(body)
    melbourne = Cell.at(-37.81, 144.96)
    (answer,) = read_forecast(body, [melbourne])
    assert "precipitation" in str(answer)
    hours = len(told["hourly"]["time"])
    for name in ("precipitation", "wind_speed_10m", "relative_humidity_2m"):
        told["hourly"][name] = [None] * hours
    (grid,) = read(told, [melbourne])
    assert grid.hours.soil5_c[0] == 29.5
    assert grid.hours.first_hour == datetime(2024, 1, 16, 9, tzinfo=UTC)
    three = (WIRE / "forecast_multi_location_trimmed.json").read_bytes()
    cells = [Cell.at(40.35, -74.15), Cell.at(40.34, -74.08), Cell.at(40.35, -74.01)]
    assert all("time is no number" in str(answer) for answer in read_forecast(three, cells))


@pytest.mark.shared_data
@needs_wire
def test_real_refusals_give_their_reasons():
    for path in sorted(WIRE.glob("error_*.json")):
        assert reason_in(path.read_bytes()) == json.loads(path.read_bytes())["reason"]
