import contextlib
import json
from datetime import UTC, date, datetime, timedelta
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings

from jobs.sources.base import (
    AnswerUnusable,
    Cell,
    CellRequest,
    CellWeather,
    QuotaSpent,
    SourceRefused,
    SourceUnreachable,
)
from jobs.sources.budget import CallBudget, Limit
from jobs.sources.http import Http, Patience, user_agent
from jobs.sources.nws import GENTLE_LIMITS, NwsSource
from jobs.sources.nws_answers import (
    read_gridpoint,
    read_observations,
    read_point,
    read_stations,
)
from tests.service.mutations import mutated
from tests.service.weather_standin import WeatherStandin, air_c

WIRE = Path(__file__).resolve().parents[3] / "shared" / "data" / "wire" / "nws"
NOW = datetime(2026, 4, 2, 14, 20, tzinfo=UTC)
CST = timedelta(hours=-6)
KANSAS = Cell(3910, -9660)


def ask(cell=KANSAS, since=date(2026, 3, 20)):
    return CellRequest(cell, CST, since)


@pytest.fixture(scope="module")
def service():
    with WeatherStandin(lambda: NOW) as standin:
        yield standin


@pytest.fixture
def standin(service):
    service.heal()
    service.calls.clear()
    return service


def source_at(standin, grids=None, limits=GENTLE_LIMITS, agent=None, **kwargs):
    patience = Patience(connect_s=5, read_s=5, total_s=10, first_pause_s=0, longest_pause_s=0)
    agent = agent or user_agent("yard@example.org")
    http = Http(agent, patience, uses_proxies=False, sleep=lambda s: None)
    grids = {} if grids is None else grids
    return NwsSource(http, CallBudget(limits), grids, base_url=standin.nws_url + "/", **kwargs)


def paths(standin):
    return [call.path for call in standin.calls]


def test_the_week_behind_is_known_and_the_week_ahead_is_forecast(standin):
    weather = source_at(standin).fetch([ask()], NOW)[KANSAS]
    assert weather.known.first_day == date(2026, 3, 27)
    assert weather.known.last_day == date(2026, 4, 1)
    assert weather.forecast.first_day == date(2026, 4, 2)
    assert weather.forecast.last_day == date(2026, 4, 8)
    start = datetime(2026, 3, 30, 6, tzinfo=UTC)
    mean = np.mean([air_c(39.1, start + timedelta(hours=hour)) for hour in range(24)])
    assert weather.known.on(date(2026, 3, 30), date(2026, 3, 30)).tmean_c[0] == pytest.approx(mean)
    assert weather.forecast.rain_mm[1] == pytest.approx(4 * 1.2)
    assert weather.observed_at == datetime(2026, 4, 2, 14, tzinfo=UTC)
    assert weather.place == "station KAAA and forecast grid TOP/191,334"


def test_soil_is_estimated_from_air_and_marked_so(standin):
    weather = source_at(standin).fetch([ask()], NOW)[KANSAS]
    assert weather.soil_is_modelled
    soil = np.concatenate([weather.known.soil5_c, weather.forecast.soil5_c])
    air = np.concatenate([weather.known.tmean_c, weather.forecast.tmean_c])
    assert not np.isnan(soil).any()
    assert np.abs(soil - air).max() < 6
    assert np.std(np.diff(soil)) < np.std(np.diff(air)) + 0.3
    other = source_at(standin, soil=lambda days, lat: days.tmean_c + lat).fetch([ask()], NOW)
    np.testing.assert_allclose(other[KANSAS].known.soil5_c, weather.known.tmean_c + 39.1)


def test_hours_carry_reports_up_to_now_and_the_forecast_after(standin):
    hourly = source_at(standin).fetch([ask()], NOW)[KANSAS].hourly
    assert hourly.first_hour == datetime(2026, 4, 2, 6, tzinfo=UTC)
    assert hourly.wind_m_s[0] == pytest.approx(2.0)
    assert hourly.wind_m_s[24] == pytest.approx(3.0)
    assert hourly.humidity_pct[24] == 60
    assert hourly.air_c[30] == air_c(39.1, hourly.first_hour + timedelta(hours=30))


def test_a_place_is_looked_up_once(standin):
    grids = {}
    source_at(standin, grids).fetch([ask()], NOW)
    assert paths(standin) == [
        "/points/39.1000,-96.6000",
        "/gridpoints/TOP/191,334",
        "/gridpoints/TOP/191,334/stations",
        "/stations/KAAA/observations",
    ]
    assert grids == {"39.10,-96.60": "TOP/191,334 KAAA"}
    standin.calls.clear()
    source_at(standin, grids).fetch([ask()], NOW)
    assert paths(standin) == ["/gridpoints/TOP/191,334", "/stations/KAAA/observations"]


def test_a_silent_station_gives_way_to_the_next(standin):
    grids = {}
    standin.fail("KAAA", "bad request")
    weather = source_at(standin, grids).fetch([ask()], NOW)[KANSAS]
    assert weather.place.startswith("station KBBB")
    standin.fail("KBBB", "malformed")
    again = source_at(standin, grids).fetch([ask()], NOW)[KANSAS]
    assert again.place.startswith("station KAAA")


def test_a_grid_that_is_gone_is_looked_up_anew(standin):
    grids = {"39.10,-96.60": "TOP/191,334 KAAA"}
    standin.fail("gridpoints", "bad request")
    source = source_at(standin, grids)
    assert isinstance(source.fetch([ask()], NOW)[KANSAS], SourceRefused)
    assert grids == {}
    assert isinstance(source.fetch([ask()], NOW)[KANSAS], CellWeather)


def test_places_abroad_are_refused_and_the_others_served(standin):
    abroad = Cell.at(48.1, 11.6)
    answers = source_at(standin).fetch([ask(abroad), ask()], NOW)
    assert isinstance(answers[abroad], SourceRefused)
    assert isinstance(answers[KANSAS], CellWeather)


def test_without_a_contact_the_service_refuses(standin):
    answer = source_at(standin, agent="nobody").fetch([ask()], NOW)[KANSAS]
    assert isinstance(answer, SourceRefused)
    assert "403" in str(answer)


@pytest.mark.parametrize(
    ("fault", "trouble"),
    [
        ("drop", SourceUnreachable),
        ("502", SourceUnreachable),
        ("minutely", QuotaSpent),
        ("malformed", AnswerUnusable),
        ("elsewhere", AnswerUnusable),
    ],
)
def test_every_trouble_has_its_name(standin, fault, trouble):
    standin.fail("gridpoints", fault, times=3)
    assert isinstance(source_at(standin).fetch([ask()], NOW)[KANSAS], trouble)


def test_once_out_of_reach_the_rest_is_not_tried(standin):
    standin.fail("points", "502", times=3)
    cells = [Cell(3910 + i, -9660) for i in range(5)]
    answers = source_at(standin).fetch([ask(cell) for cell in cells], NOW)
    assert all(isinstance(answer, SourceUnreachable) for answer in answers.values())
    assert len(standin.calls) == 3


def test_the_budget_is_not_exceeded(standin):
    cells = [Cell(3910 + 10 * i, -9660) for i in range(5)]
    source = source_at(standin, limits=[Limit(9, timedelta(minutes=1))])
    answers = source.fetch([ask(cell) for cell in cells], NOW)
    assert sum(isinstance(answer, CellWeather) for answer in answers.values()) == 2
    assert sum(isinstance(answer, QuotaSpent) for answer in answers.values()) == 3
    assert len(standin.calls) == 9


def layer(uom, *values):
    return {
        "uom": f"wmoUnit:{uom}",
        "values": [{"validTime": when, "value": value} for when, value in values],
    }


def gridpoint_sample():
    start = "2026-04-02T12:00:00+00:00"
    later = "2026-04-02T15:00:00+00:00"
    return {
        "geometry": {
            "type": "Polygon",
            "coordinates": [[[-96.61, 39.09], [-96.59, 39.09], [-96.59, 39.11], [-96.61, 39.09]]],
        },
        "properties": {
            "temperature": layer("degC", (f"{start}/PT3H", 12.5), (f"{later}/P1DT6H", 7)),
            "relativeHumidity": layer("percent", (f"{start}/P1D", 71)),
            "windSpeed": layer("km_h-1", (f"{start}/PT4H", 18), (f"{later}/PT2H", None)),
            "quantitativePrecipitation": layer("mm", (f"{start}/PT6H", 9)),
            "waveHeight": {"values": []},
        },
    }


def observations_sample():
    def reported(at, value):
        return {
            "properties": {
                "timestamp": at,
                "temperature": {"unitCode": "wmoUnit:degC", "value": value},
                "relativeHumidity": {"unitCode": "wmoUnit:percent", "value": 50},
                "windSpeed": {"unitCode": "wmoUnit:km_h-1", "value": None},
                "precipitationLastHour": {"unitCode": "wmoUnit:mm", "value": 2.5},
            }
        }

    return {
        "features": [
            reported("2026-04-02T13:53:00+00:00", 11.0),
            reported("2026-04-02T13:51:00+00:00", 12.0),
            reported("2026-04-02T12:53:00+00:00", 10.0),
        ]
    }


def body(told):
    return json.dumps(told).encode()


FIRST, LAST = NOW - timedelta(hours=3, minutes=20), NOW - timedelta(minutes=20)


def test_intervals_spread_over_their_hours_and_amounts_are_shared_out():
    hours = read_gridpoint(body(gridpoint_sample()), KANSAS)
    assert hours.first_hour == datetime(2026, 4, 2, 12, tzinfo=UTC)
    assert len(hours.air_c) == 33
    assert hours.air_c[:4].tolist() == [12.5, 12.5, 12.5, 7.0]
    assert hours.rain_mm[:6].tolist() == [1.5] * 6
    assert np.isnan(hours.rain_mm[6:]).all()
    assert hours.wind_m_s[0] == pytest.approx(5.0)
    assert np.isnan(hours.wind_m_s[3])


def test_reports_are_gathered_by_the_nearest_hour():
    hours = read_observations(body(observations_sample()), FIRST, LAST)
    np.testing.assert_equal(hours.air_c, [np.nan, np.nan, 10.0, 11.5])
    # What was reported at 14 fell from 13 to 14.
    np.testing.assert_equal(hours.rain_mm, [np.nan, 2.5, 2.5, np.nan])


def test_unknown_units_are_not_guessed():
    sample = gridpoint_sample()
    sample["properties"]["temperature"]["uom"] = "wmoUnit:degF"
    with pytest.raises(AnswerUnusable, match="degF"):
        read_gridpoint(body(sample), KANSAS)


POINT = {"properties": {"gridId": "TOP", "gridX": 31, "gridY": 80}}
STATIONS = {"features": [{"properties": {"stationIdentifier": "KMHK"}}]}


@settings(max_examples=300)
@given(mutated(gridpoint_sample()))
def test_no_grid_answer_breaks_the_reader(answer):
    with contextlib.suppress(AnswerUnusable):
        read_gridpoint(answer, KANSAS)


@settings(max_examples=200)
@given(mutated(observations_sample()))
def test_no_report_breaks_the_reader(answer):
    try:
        hours = read_observations(answer, FIRST, LAST)
    except AnswerUnusable:
        return
    assert len(hours.air_c) == 4


@settings(max_examples=150)
@given(mutated(POINT), mutated(STATIONS))
def test_no_lookup_breaks_the_reader(point, stations):
    for read, answer in ((read_point, point), (read_stations, stations)):
        with contextlib.suppress(AnswerUnusable):
            read(answer)


@pytest.mark.shared_data
@pytest.mark.skipif(not WIRE.is_dir(), reason="no samples of answers beside the tree")
def test_real_answers_read():
    # Answers of api.weather.gov for Florida (TAE grid), 2019-2022.
    assert str(read_point((WIRE / "points.json").read_bytes())) == "TAE/58,65"
    stations = read_stations((WIRE / "gridpoints_stations.json").read_bytes())
    assert len(stations) > 5
    hours = read_gridpoint((WIRE / "detailed_forecast.json").read_bytes(), Cell.at(30.02, -84.98))
    assert hours.first_hour == datetime(2022, 2, 3, 21, tzinfo=UTC)
    assert hours.air_c[0] == pytest.approx(22.78, abs=0.01)
    assert hours.wind_m_s[0] == pytest.approx(20.372 / 3.6)
    assert len(hours.air_c) == 182
    days = hours.by_day(timedelta(hours=-5))
    assert days.first_day == date(2022, 2, 3)
    assert np.isnan(days.tmean_c[0])
    assert days.tmin_c[1] <= days.tmean_c[1] <= days.tmax_c[1]
