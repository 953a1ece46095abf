from datetime import UTC, date, datetime, timedelta
from pathlib import Path

import numpy as np
import pytest

from jobs.agronomy.series import COLUMNS
from jobs.sources.base import Cell, CellRequest, newest_known_day
from jobs.sources.climate.invented_hours import hours_of
from jobs.sources.climate.under_turf import Ground, ground_under
from jobs.sources.recorded import RecordedSource, read_station
from jobs.sources.simulated import SimulatedSource

SHARED_SOIL = Path(__file__).resolve().parents[3] / "shared" / "data" / "soil"
CST = timedelta(hours=-6)
KANSAS = (39.10, -96.60)
NOW = datetime(2024, 4, 10, 18, tzinfo=UTC)


def ask(place=KANSAS, since=date(2013, 1, 1), offset=CST):
    return CellRequest(Cell.at(*place), offset, since)


def fetched(seed=1, now=NOW, **kwargs):
    request = ask(**kwargs)
    return SimulatedSource(seed).fetch([request], now)[request.cell]


def by_month(series, column):
    months = np.array([(series.first_day + timedelta(days=i)).month for i in range(len(series))])
    values = getattr(series, column)
    return np.array([values[months == month].mean() for month in range(1, 13)])


def same_days(one, other):
    first, last = max(one.first_day, other.first_day), min(one.last_day, other.last_day)
    assert (last - first).days > 5
    a, b = one.between(first, last), other.between(first, last)
    return all(np.array_equal(getattr(a, name), getattr(b, name)) for name in COLUMNS)


@pytest.fixture(scope="module")
def kansas():
    return fetched().known


def test_history_reaches_back_ten_years_and_ends_with_the_newest_known_day(kansas):
    assert kansas.first_day == date(2013, 1, 1)
    assert kansas.last_day == newest_known_day(NOW, CST) == date(2024, 4, 9)
    assert not any(np.isnan(getattr(kansas, name)).any() for name in COLUMNS)


def test_a_day_is_the_same_whenever_and_however_it_is_asked_for(kansas):
    short = fetched(now=datetime(2020, 3, 1, tzinfo=UTC), since=date(2019, 12, 20)).known
    later = fetched(now=datetime(2031, 7, 1, tzinfo=UTC), since=date(2016, 5, 5)).known
    assert same_days(kansas, short)
    assert same_days(kansas, later)


def test_a_day_is_the_same_beside_other_cells(kansas):
    requests = [ask((35.0 + i, -90.0 - i), since=date(2020 + i % 4, 1, 1)) for i in range(40)]
    requests.insert(20, ask(since=date(2018, 7, 1)))
    answers = SimulatedSource(1).fetch(requests, NOW)
    assert len(answers) == 41
    assert same_days(kansas, answers[ask().cell].known)


def test_a_source_asked_many_things_still_tells_the_same(kansas):
    source = SimulatedSource(1)
    for year in range(2000, 2024, 3):
        source.fetch([ask(since=date(year, 1, 1))], datetime(year, 12, 1, tzinfo=UTC))
    assert same_days(kansas, source.fetch([ask()], NOW)[ask().cell].known)


def test_another_seed_is_another_world(kansas):
    other = fetched(seed=2).known
    assert not np.array_equal(other.tmean_c, kansas.tmean_c)
    # Two independent courses over one normal; what they share is taken out by the difference.
    assert np.std(other.tmean_c - kansas.tmean_c) > 4


def test_nothing_new_is_an_empty_answer_and_too_old_a_wish_is_cut():
    nothing = fetched(since=date(2024, 4, 10))
    assert len(nothing.known) == 0
    assert nothing.observed_at == datetime(2024, 4, 10, 6, tzinfo=UTC)
    assert 30 * 365 <= len(fetched(since=date(1900, 1, 1)).known) <= 30 * 367


def test_neighbours_share_their_weather_and_far_places_do_not(kansas):
    def departure(place):
        series = fetched(place=place).known
        return series.tmean_c[1:] - series.tmean_c[:-1]

    home = departure(KANSAS)
    assert np.corrcoef(home, departure((39.25, -96.40)))[0, 1] > 0.95
    assert abs(np.corrcoef(home, departure((33.7, -84.4)))[0, 1]) < 0.4
    assert not np.array_equal(fetched(place=(39.11, -96.60)).known.tmean_c, kansas.tmean_c)


# Climate normals of 1991-2020, rounded, from memory (published by national weather services);
# the invented climate only claims to be roughly right, hence the wide tolerance.
@pytest.mark.parametrize(
    ("place", "coldest_c", "warmest_c"),
    [
        ((29.76, -95.37), 12.0, 30.0),  # Houston
        ((33.75, -84.39), 7.0, 27.5),  # Atlanta
        ((39.10, -96.60), -1.0, 26.5),  # Manhattan, Kansas
        ((42.36, -71.06), -1.0, 23.5),  # Boston
        ((44.98, -93.27), -9.0, 23.0),  # Minneapolis
        ((-37.81, 144.96), 10.0, 21.5),  # Melbourne
        ((-36.85, 174.76), 11.0, 20.0),  # Auckland
    ],
)
def test_months_are_roughly_as_cold_and_warm_as_there(place, coldest_c, warmest_c):
    air = by_month(fetched(place=place).known, "tmean_c")
    is_southern = place[0] < 0
    assert air.argmin() in ((5, 6, 7) if is_southern else (11, 0, 1))
    assert air.argmax() in ((11, 0, 1) if is_southern else (5, 6, 7))
    assert air.min() == pytest.approx(coldest_c, abs=3.5)
    assert air.max() == pytest.approx(warmest_c, abs=3.5)


def test_soil_follows_air_damped_and_late(kansas):
    air, soil = kansas.tmean_c, kansas.soil5_c
    assert 0.3 < np.std(np.diff(soil)) / np.std(np.diff(air)) < 0.6
    lags = [
        np.corrcoef(np.diff(air)[: -5 or None], np.diff(soil)[lag:][: len(air) - 6])[0, 1]
        for lag in range(4)
    ]
    assert lags[0] == max(lags)
    assert lags[1] > 0
    means = by_month(kansas, "soil5_c") - by_month(kansas, "tmean_c")
    # Insulated in winter, late in autumn.
    assert means[0] > 1
    assert means[9] > means[3]


def test_cold_ground_rests_near_freezing():
    soil = fetched(place=(45.0, -93.3)).known.between(date(2022, 12, 20), date(2023, 2, 5))
    assert soil.tmean_c.mean() < -5
    assert -5 < soil.soil5_c.mean() < 1
    assert np.mean(np.abs(soil.soil5_c) < 2) > 0.4


def test_snow_keeps_the_frost_out():
    days = np.arange(60)[None, :] + date(2023, 1, 1).toordinal()
    air = np.full((1, 60), -15.0)
    warmest = np.array([200.0])
    start = Ground(*(np.array([[value]]) for value in (1.0, 3.0, 0.0)))
    bare = ground_under(start, air, np.zeros((1, 60)), days, warmest)
    snow = ground_under(start, air, np.full((1, 60), 2.0), days, warmest)
    assert snow.snow_mm[0, -1] == pytest.approx(120.0)
    assert bare.top_c[0, -1] < -6 < -4 < snow.top_c[0, -1]


def test_late_winter_has_false_springs_and_years_differ(kansas):
    warm_weeks = 0
    crossings = []
    for year in range(2014, 2024):
        late = kansas.between(date(year, 2, 1), date(year, 3, 10)).tmean_c
        week = np.convolve(late, np.full(5, 0.2), "valid")
        warm_weeks += week.max() > 10
        soil = kansas.between(date(year, 2, 1), date(year, 7, 1)).soil5_c
        five = np.convolve(soil, np.full(5, 0.2), "valid")
        crossings.append(int(np.argmax(five >= 12.8)))
    assert warm_weeks >= 3
    assert 5 < np.std(crossings) < 25
    # 55 °F at 5 cm comes between early March and early May in Kansas (measured mean: 11 April).
    assert 30 < np.mean(crossings) < 90


def test_rain_comes_in_spells_with_skewed_amounts(kansas):
    wet = kansas.rain_mm > 0.15
    after_wet = wet[1:][wet[:-1]].mean()
    assert 0.2 < wet.mean() < 0.4
    assert after_wet > wet.mean() + 0.1
    amounts = kansas.rain_mm[wet]
    shape = amounts.mean() ** 2 / amounts.var()
    assert 0.35 < shape < 0.8
    assert (kansas.rain_mm >= 0).all()
    assert 500 < kansas.rain_mm.mean() * 365 < 1300


def test_extremes_hold_the_mean_between_them(kansas):
    assert (kansas.tmin_c < kansas.tmean_c).all()
    assert (kansas.tmean_c < kansas.tmax_c).all()


def test_the_forecast_is_the_same_all_day_and_begins_after_what_is_known():
    morning = fetched(now=datetime(2024, 4, 10, 12, 30, tzinfo=UTC), since=date(2024, 4, 1))
    evening = fetched(now=datetime(2024, 4, 11, 3, 0, tzinfo=UTC), since=date(2024, 3, 1))
    assert morning.forecast.first_day == morning.known.last_day + timedelta(days=1)
    assert len(morning.forecast) == 16
    assert same_days(morning.forecast, evening.forecast)
    assert morning.hourly == evening.hourly


def test_the_forecast_is_the_same_beside_other_cells():
    requests = [ask((35.0 + i, -90.0 - i), since=date(2024, 4, 1)) for i in range(5)]
    together = SimulatedSource(1).fetch([*requests, ask(since=date(2024, 1, 1))], NOW)
    alone = fetched(since=date(2024, 4, 1))
    assert same_days(together[ask().cell].forecast, alone.forecast)


def test_the_forecast_errs_more_the_further_it_looks(kansas):
    source = SimulatedSource(1)
    air, soil = [], []
    for week in range(150):
        now = datetime(2020, 1, 10, 18, tzinfo=UTC) + timedelta(days=7 * week)
        ahead = source.fetch([ask(since=now.date())], now)[ask().cell].forecast
        truth = kansas.between(ahead.first_day, ahead.last_day)
        air.append(ahead.tmean_c - truth.tmean_c)
        soil.append(ahead.soil5_c - truth.soil5_c)
    air_rmse, soil_rmse = (np.sqrt(np.mean(np.square(errors), axis=0)) for errors in (air, soil))
    assert 0.2 < air_rmse[0] < 1.5
    assert 1.2 < air_rmse[4] < 3.5
    assert air_rmse[0] < air_rmse[4] < air_rmse[9] < 7
    assert soil_rmse[0] < soil_rmse[6] < soil_rmse[15]
    assert abs(np.mean(soil)) < 0.6


def test_hours_agree_with_their_days():
    weather = fetched(since=date(2024, 4, 1))
    days, hourly = weather.forecast, weather.hourly
    assert hourly.first_hour == datetime(2024, 4, 10, 6, tzinfo=UTC)
    air, rain, wind, humidity = (
        np.array(values).reshape(16, 24)
        for values in (hourly.air_c, hourly.rain_mm, hourly.wind_m_s, hourly.humidity_pct)
    )
    np.testing.assert_allclose(rain.sum(axis=1), days.rain_mm, atol=0.02)
    np.testing.assert_allclose(air.mean(axis=1), days.tmean_c, atol=2.5)
    np.testing.assert_allclose(air[:, 5], days.tmin_c, atol=0.051)
    np.testing.assert_allclose(air[:, 15], days.tmax_c, atol=0.051)
    assert (air[:, 13:16].mean(axis=1) > air[:, 3:6].mean(axis=1)).all()
    assert (wind[:, 15] > wind[:, 3]).all()
    assert (humidity[:, 5] > humidity[:, 15]).all()
    assert humidity.min() >= 10
    assert humidity.max() <= 100


def test_hours_start_on_a_whole_utc_hour_even_where_the_clock_runs_half_an_hour_off():
    days = fetched(since=date(2024, 4, 1)).forecast
    hourly = hours_of(days, np.full(16, 3.0), np.zeros(16), timedelta(hours=5, minutes=30))
    assert hourly.first_hour.minute == 0


def test_the_climate_says_that_it_is_invented():
    source = SimulatedSource()
    assert source.is_invented
    assert source.can_move_clock
    assert source.fetch([], NOW) == {}
    assert "invented" in fetched(since=date(2024, 4, 1)).place


@pytest.mark.parametrize("place", [(89.9, 0.0), (-90.0, 180.0), (0.0, -180.0), (70.0, 100.0)])
def test_no_corner_of_the_globe_breaks_it(place):
    known = fetched(place=place, since=date(2023, 1, 1), offset=timedelta(0)).known
    for name in COLUMNS:
        assert np.isfinite(getattr(known, name)).all()
    assert np.abs(known.tmean_c).max() < 70


@pytest.mark.shared_data
@pytest.mark.skipif(not SHARED_SOIL.is_dir(), reason="no station records beside the repository")
@pytest.mark.parametrize(
    "name", ["IL_Champaign_9_SW", "KS_Manhattan_6_SSW", "KY_Bowling_Green_21_NNE", "SD_Pierre_24_S"]
)
def test_weather_varies_and_lasts_as_measured(name):
    # U.S. Climate Reference Network, daily records 2009-2024 (Diamond et al. 2013).
    station = read_station(SHARED_SOIL / f"{name}.csv.gz")
    request = CellRequest(Cell.at(station.lat, station.lon), station.utc_offset, date(2010, 1, 1))
    measured = RecordedSource(station).fetch([request], NOW)[request.cell].known
    invented = SimulatedSource(1).fetch([request], NOW)[request.cell].known
    for column, spread_ratio in (("tmean_c", 0.25), ("soil5_c", 0.35)):
        real, made = (_departures(series, column) for series in (measured, invented))
        assert np.nanstd(made) == pytest.approx(np.nanstd(real), rel=spread_ratio)
        for lag, tolerance in ((1, 0.1), (3, 0.25), (7, 0.25)):
            assert _autocorrelation(made, lag) == pytest.approx(
                _autocorrelation(real, lag), abs=tolerance
            )
    assert by_month(invented, "soil5_c")[3] == pytest.approx(
        np.nanmean(_of_month(measured, "soil5_c", 4)), abs=3.0
    )


def _of_month(series, column, month):
    days = [series.first_day + timedelta(days=i) for i in range(len(series))]
    return getattr(series, column)[[day.month == month for day in days]]


def _departures(series, column):
    values = getattr(series, column)
    angle = 2 * np.pi * np.arange(len(values)) / 365.2425
    waves = np.column_stack(
        [np.ones_like(angle), *(f(k * angle) for k in (1, 2) for f in (np.cos, np.sin))]
    )
    known = ~np.isnan(values)
    return values - waves @ np.linalg.lstsq(waves[known], values[known], rcond=None)[0]


def _autocorrelation(values, lag):
    pairs = np.column_stack([values[lag:], values[:-lag]])
    pairs = pairs[~np.isnan(pairs).any(axis=1)]
    return np.corrcoef(pairs.T)[0, 1]
