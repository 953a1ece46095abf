from datetime import date, timedelta

import numpy as np
import pandas as pd
import pytest
from numpy.lib.stride_tricks import sliding_window_view
from scipy import stats

from jobs.agronomy.climatology import fit_climate, leap_slots
from jobs.agronomy.members import spread_out
from jobs.agronomy.past_band import past_band
from jobs.agronomy.regional import curve, harmonics
from jobs.agronomy.running_state import AIR_OF_SOIL, MEMORY_DAYS, running_state, states_on
from jobs.agronomy.series import DailySeries
from tests.unit.made_soil import made_series, wave_c, with_soil


def test_days_find_their_place_in_a_leap_year():
    days = pd.date_range("1999-12-01", "2005-03-05")
    same = [pd.Timestamp(2000, d.month, d.day).day_of_year - 1 for d in days]
    np.testing.assert_array_equal(leap_slots(date(1999, 12, 1), len(days)), same)


def test_the_mean_year_of_a_pure_annual_wave_is_the_wave():
    climate = fit_climate(made_series())
    wanted = wave_c(date(2016, 1, 1), 366)
    assert climate.basis == "own"
    assert climate.years == tuple(range(2010, 2017))
    assert np.abs(climate.mean_c - wanted).max() < 0.2
    assert np.abs(climate.departure_c).max() < 0.3


def test_a_fifth_of_the_days_missing_does_not_bend_the_mean_year():
    whole = made_series(noise_c=2.0)
    soil = whole.soil5_c.copy()
    soil[np.random.default_rng(3).random(len(soil)) < 0.2] = np.nan
    soil[400:520] = np.nan
    bent = np.abs(fit_climate(with_soil(whole, soil)).mean_c - fit_climate(whole).mean_c)
    assert bent.max() < 1.0
    assert bent.mean() < 0.5


def test_long_gaps_borrow_the_departures_of_another_year():
    whole = made_series(noise_c=2.0)
    soil = whole.soil5_c.copy()
    gap = slice(1200, 1300)
    soil[gap] = np.nan
    climate = fit_climate(with_soil(whole, soil))
    assert not np.isnan(climate.departure_c).any()
    assert not climate.is_real[gap].any()
    np.testing.assert_array_equal(
        climate.departure_c[gap], climate.departure_c[1200 - 365 : 1300 - 365]
    )


def test_a_place_without_years_stands_on_its_latitude():
    south = fit_climate(DailySeries.empty(date(2020, 1, 1)), lat=35.0)
    north = fit_climate(DailySeries.empty(date(2020, 1, 1)), lat=47.0, elevation_m=300.0)
    assert south.basis == north.basis == "regional"
    assert south.years == ()
    assert south.curve_sd_c > 1.5
    # 12.8 °C is passed weeks earlier in the south.
    assert np.argmax(south.mean_c > 12.8) + 25 < np.argmax(north.mean_c > 12.8)


def test_the_other_hemisphere_uses_the_same_latitudes():
    np.testing.assert_array_equal(
        curve(-38.0, 100.0, 4).coefficients, curve(38.0, 100.0, 4).coefficients
    )


def test_one_year_pulls_the_regional_curve_towards_itself():
    one_year = made_series(date(2015, 1, 1), date(2015, 12, 31))
    leaning = fit_climate(one_year, lat=47.0)
    regional = fit_climate(DailySeries.empty(date(2016, 1, 1)), lat=47.0)
    truth = wave_c(date(2016, 1, 1), 366)
    assert leaning.basis == "own and regional"
    assert 0 < leaning.curve_sd_c < regional.curve_sd_c
    assert np.abs(leaning.mean_c - truth).mean() < 0.5 * np.abs(regional.mean_c - truth).mean()


def test_nothing_known_at_all_is_still_a_year():
    climate = fit_climate(DailySeries.empty(date(2020, 1, 1)))
    assert np.isfinite(climate.mean_c).all()
    assert climate.curve_sd_c == pytest.approx(5.0)


def test_running_averages_agree_with_pandas():
    values = np.random.default_rng(5).standard_normal(400)
    windows = sliding_window_view(values, MEMORY_DAYS).astype(np.float32)
    state = running_state(windows, windows)
    # pandas' exponential mean with the same decay a day, an independent implementation; it looks
    # back without end, ours four months.
    decay = np.exp(-1 / 30.0)
    slow = pd.Series(values).ewm(alpha=1 - decay, adjust=False).mean().to_numpy()[MEMORY_DAYS - 1 :]
    np.testing.assert_allclose(state[180:, 1], slow[180:], atol=0.02)
    np.testing.assert_array_equal(state[:, 0], values[MEMORY_DAYS - 1 :].astype(np.float32))
    np.testing.assert_allclose(state[180:, 3], slow[180:], atol=0.02)


def test_where_no_air_is_known_the_soil_answers_for_it():
    values = np.random.default_rng(6).standard_normal((280, MEMORY_DAYS))
    state = running_state(values, None)
    np.testing.assert_allclose(state[:, 3], AIR_OF_SOIL * state[:, 1], rtol=1e-6)
    np.testing.assert_array_equal(state[:, 2], 0.0)


def test_days_before_the_first_count_as_no_departure():
    climate = fit_climate(made_series(noise_c=2.0))
    first = states_on([climate], np.array([3]))[0, 0]
    window = np.concatenate([np.zeros(MEMORY_DAYS - 4), climate.departure_c[:4]])
    np.testing.assert_allclose(first[:2], running_state(window, None)[:2], rtol=1e-5)


def test_harmonics_are_orthogonal_over_the_year():
    gram = harmonics(4).T @ harmonics(4)
    np.testing.assert_allclose(gram, np.diag([366.0] + [183.0] * 8), atol=1e-9)


def test_the_past_band_holds_four_years_in_five():
    climate = fit_climate(made_series(date(1990, 1, 1), date(2016, 12, 31), noise_c=2.0))
    band = past_band(climate, date(2017, 4, 1), 30)
    width = (band.p90_c - band.p10_c).mean()
    five = pd.Series(climate.departure_c[: climate.known_days]).rolling(5).mean().std()
    # A normal sample's p10-p90 is 2.563 standard deviations wide (scipy).
    assert width == pytest.approx((stats.norm.ppf(0.9) - stats.norm.ppf(0.1)) * five, rel=0.2)
    assert (band.low_c <= band.p10_c).all()
    assert (band.p10_c < band.mean_c).all()
    assert (band.mean_c < band.p90_c).all()
    assert (band.p90_c <= band.high_c).all()
    assert band.first_day == date(2017, 4, 1)


def test_the_past_mean_is_a_trailing_mean_across_new_year():
    climate = fit_climate(made_series())
    band = past_band(climate, date(2017, 1, 1), 3)
    wanted = [wave_c(date(2017, 1, 1) + timedelta(days=i - 4), 5).mean() for i in range(3)]
    np.testing.assert_allclose(band.mean_c, wanted, atol=0.3)


def test_without_years_the_band_is_wide():
    climate = fit_climate(DailySeries.empty(date(2020, 1, 1)), lat=40.0)
    band = past_band(climate, date(2020, 4, 1), 2)
    assert band.years == 0
    assert (band.p90_c - band.p10_c > 6.0).all()


def test_evenly_likely_points_follow_the_normal_law():
    points = np.sort(spread_out(60))
    # scipy's normal quantiles.
    wanted = stats.norm.ppf((np.arange(60) + 0.5) / 60)
    np.testing.assert_allclose(points, wanted, atol=0.02)
