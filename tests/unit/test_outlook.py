from datetime import date, timedelta

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import linalg, stats

from jobs.agronomy.blending import ERROR_CORRELATION, drawn_to_forecast, forecast_error_sd_c
from jobs.agronomy.climatology import fit_climate
from jobs.agronomy.members import persistence
from jobs.agronomy.outlook import Outlook, make_outlook, season_end
from jobs.agronomy.readout import (
    chance_holds,
    crossing,
    degree_days_reaches,
    fan,
    smoothed_paths,
)
from jobs.agronomy.series import DailySeries
from jobs.agronomy.soil import fill_short_gaps, first_at_or_above, trailing_mean
from tests.unit.made_soil import made_series, nonsense_after, wave_c, with_soil

SERIES = made_series(last=date(2017, 12, 31), noise_c=2.0)
CLIMATE = fit_climate(SERIES.until(date(2015, 12, 31)))
CALM = made_series()
CALM_CLIMATE = fit_climate(CALM.until(date(2015, 12, 31)))


def outlook_of(paths, known=(5.0,) * 8, issued=date(2020, 3, 31), forecast_days=None):
    paths = np.asarray(paths, dtype=np.float32)
    known = np.asarray(known, dtype=float)
    return Outlook(
        issued=issued,
        basis="own",
        years=5,
        known_first_day=issued - timedelta(days=len(known) - 1),
        known_c=known,
        is_measured=~np.isnan(known),
        paths_c=paths,
        forecast_until=None if forecast_days is None else issued + timedelta(days=forecast_days),
    )


def test_without_weather_every_member_is_the_wave():
    outlook = make_outlook(CALM_CLIMATE, CALM, date(2016, 3, 1))
    wanted = wave_c(outlook.first_day, outlook.paths_c.shape[1])
    assert np.abs(outlook.paths_c - wanted).max() < 0.6


def test_without_weather_the_crossing_is_the_waves_own():
    # Closed form: 5-day mean of a sine reaches the threshold where the sine, two days back, does.
    days = date(2016, 7, 31) - date(2015, 12, 28)
    smooth = trailing_mean(wave_c(date(2015, 12, 28), days.days + 1))[4:]
    wanted = date(2016, 1, 1) + timedelta(days=int(first_at_or_above(smooth, 12.78)))
    found = crossing(make_outlook(CALM_CLIMATE, CALM, date(2016, 2, 20)), 12.78)
    assert found.p10 <= wanted + timedelta(days=2)
    assert abs((found.p50 - wanted).days) <= 2
    assert (found.p90 - found.p10).days <= 4
    assert found.share == pytest.approx(1.0)


@pytest.mark.parametrize(
    "issued",
    [date(2016, m, d) for m, d in ((1, 1), (2, 29), (4, 10), (6, 30), (7, 20), (9, 5), (11, 15))],
)
def test_any_day_of_the_year_has_an_outlook_to_the_season_end(issued):
    outlook = make_outlook(CLIMATE, SERIES, issued)
    assert outlook.first_day == issued + timedelta(days=1)
    assert outlook.last_day == season_end(issued)
    assert np.isfinite(outlook.paths_c).all()
    assert np.isfinite(outlook.known_c).all()
    assert len(outlook.paths_c) >= 28


@settings(max_examples=25, deadline=None)
@given(st.integers(0, 700), st.floats(-40, 60))
def test_nothing_after_the_issue_date_is_looked_at(days, nonsense):
    issued = date(2016, 1, 5) + timedelta(days=days)
    honest = make_outlook(CLIMATE, SERIES, issued)
    spoiled = make_outlook(CLIMATE, nonsense_after(SERIES, issued, nonsense), issued)
    np.testing.assert_array_equal(honest.paths_c, spoiled.paths_c)
    np.testing.assert_array_equal(honest.known_c, spoiled.known_c)


def test_a_warm_spell_lifts_the_next_days_and_fades():
    issued = date(2016, 3, 20)
    warm = CALM.soil5_c.copy()
    at = (issued - CALM.first_day).days
    warm[at - 5 : at + 1] += 5.0
    usual = make_outlook(CLIMATE, CALM, issued).paths_c.mean(axis=0)
    lift = make_outlook(CLIMATE, with_soil(CALM, warm), issued).paths_c.mean(axis=0) - usual
    assert 3.5 < lift[0] < 5.0
    assert (np.diff(lift[:20]) < 0).all()
    assert 0 <= lift[90] < 0.5


def test_spring_ground_keeps_what_its_air_does_not_explain():
    # One degree in the ground for weeks: with the air as warm, and with the air as usual.
    warm_air, usual_air = np.array([1.0, 1.0, 0.0, 1.0]), np.array([1.0, 1.0, 0.0, 0.0])
    spring, winter = persistence(60, 10.0), persistence(60, 0.0)
    assert (spring @ warm_air)[19] < 0.6 * (spring @ usual_air)[19]
    assert (winter @ warm_air)[19] > (spring @ warm_air)[19]
    between = persistence(60, 5.0)
    np.testing.assert_allclose(between, (spring + winter) / 2)
    for ground in (spring, winter):
        assert 0.7 < (ground @ usual_air)[0] < 1.15
        assert abs((ground @ usual_air)[59]) < 0.6


def test_gaps_in_recent_days_are_bridged_and_said_so():
    issued = date(2016, 4, 1)
    soil = SERIES.soil5_c.copy()
    at = (issued - SERIES.first_day).days
    soil[at - 30 : at - 18] = np.nan
    outlook = make_outlook(CLIMATE, with_soil(SERIES, soil), issued)
    assert np.isfinite(outlook.known_c).all()
    assert (~outlook.is_measured).sum() == 12
    assert outlook.first_day == issued + timedelta(days=1)


def test_stale_data_starts_the_members_earlier_and_wider():
    issued = date(2016, 4, 1)
    fresh = make_outlook(CLIMATE, SERIES, issued)
    stale = make_outlook(CLIMATE, SERIES.until(date(2016, 3, 22)), issued)
    assert stale.first_day == date(2016, 3, 23)
    assert stale.last_day == fresh.last_day
    assert stale.paths_c[:, 10].std() > fresh.paths_c[:, 1].std()


def test_no_recent_days_at_all_still_answer_from_the_climate():
    outlook = make_outlook(CLIMATE, DailySeries.empty(date(2016, 1, 1)), date(2016, 3, 1))
    found = crossing(outlook, 12.78)
    assert found.p10 < found.p50 < found.p90


def test_three_years_answer_wider_than_many():
    few = fit_climate(SERIES.between(date(2013, 1, 1), date(2015, 12, 31)))
    wide = make_outlook(few, SERIES, date(2016, 3, 1))
    assert wide.years == 3
    assert wide.basis == "own"
    assert crossing(wide, 12.78).p50 is not None


def test_no_years_answer_from_the_region_wider_still_and_say_so():
    none = fit_climate(DailySeries.empty(date(2016, 1, 1)), lat=42.0)
    recent = SERIES.between(date(2016, 1, 1), date(2016, 3, 1))
    outlook = make_outlook(none, recent, date(2016, 3, 1))
    assert outlook.basis == "regional"
    assert outlook.years == 0
    found = crossing(outlook, 12.78)
    own = crossing(make_outlook(CLIMATE, recent, date(2016, 3, 1)), 12.78)
    assert (found.p90 - found.p10) > (own.p90 - own.p10) / 2
    assert found.p10 < found.p50 < found.p90


def test_a_forecast_draws_the_near_days_and_lets_the_far_ones_be():
    issued = date(2016, 3, 1)
    plain = make_outlook(CLIMATE, SERIES, issued)
    hot = plain.paths_c.mean(axis=0)[:16] + 6.0
    drawn = make_outlook(CLIMATE, SERIES, issued, forecast_soil5_c=hot)
    moved = drawn.paths_c.mean(axis=0) - plain.paths_c.mean(axis=0)
    assert 4.0 < moved[0] < 6.0
    assert (moved[:16] > 2.4).all()
    assert abs(moved[60]) < 0.05
    assert drawn.paths_c[:, 0].std() < 0.8 * plain.paths_c[:, 0].std()


def test_a_forecast_of_nothing_changes_nothing():
    paths = np.random.default_rng(1).standard_normal((9, 20))
    assert drawn_to_forecast(paths, np.full(16, np.nan)) is paths


def test_a_stale_outlook_takes_the_forecast_on_its_own_days():
    paths = np.zeros((4, 30)) + np.arange(4.0)[:, None]
    forecast = np.full(3, 9.0)
    on_time = drawn_to_forecast(paths, forecast, 0).mean(axis=0)
    late = drawn_to_forecast(paths, forecast, 5).mean(axis=0)
    assert on_time.argmax() <= 2
    assert 5 <= late.argmax() <= 7


def test_drawing_in_is_kalmans_update():
    # The textbook form, by scipy: gain = P H' (H P H' + R)^-1, for one red noise from rest.
    days, given_ = 12, 5
    day = np.arange(1, days + 1.0)
    prior = 2.3**2 * (np.exp(-np.abs(day[:, None] - day) / 7) - np.exp(-(day[:, None] + day) / 7))
    lead = day[:given_]
    sd = np.minimum(0.6 + 0.2 * (lead - 1), 3.0)
    error = ERROR_CORRELATION ** np.abs(lead[:, None] - lead) * np.outer(sd, sd)
    np.testing.assert_allclose(forecast_error_sd_c(lead), sd)
    gain = prior[:, :given_] @ linalg.inv(prior[:given_, :given_] + error)
    forecast = np.array([1.0, -2.0, 0.5, 3.0, 1.5])
    paths = np.array([[1.0], [-1.0]]) * np.ones(days)
    drawn = drawn_to_forecast(paths, forecast)
    np.testing.assert_allclose(drawn.mean(axis=0), gain @ forecast, atol=1e-9)
    after = np.diag(prior - gain @ prior[:given_])
    np.testing.assert_allclose(drawn.std(axis=0) ** 2, after / np.diag(prior), atol=1e-9)


def test_quantiles_are_those_of_the_members():
    # A hundred members, one day apart: the p-th quantile is the inverse of their step function
    # (scipy/numpy "inverted_cdf"); the last day falls away, for 80 of the days are enough.
    paths = np.full((100, 140), 15.0)
    for i in range(100):
        paths[i, 3 + i :] = 5.0
    outlook = outlook_of(paths, known=(15.0,) * 8)
    crossed = first_at_or_above(-smoothed_paths(outlook), -12.0)
    since = outlook.first_day
    found = crossing(outlook, 12.0, "falling", since=since)
    for level, day in ((0.1, found.p10), (0.5, found.p50), (0.9, found.p90)):
        wanted = np.quantile(crossed, level, method="inverted_cdf")
        assert (day - since).days == wanted - (level == 0.9)


def test_the_range_holds_four_chances_in_five_and_little_more():
    # Near, days are few and each holds many members: those at the ends count in full.
    chances = {2: 0.08, 3: 0.1, 4: 0.3, 5: 0.3, 6: 0.14, 7: 0.08}
    paths = np.full((100, 40), 5.0)
    at = 0
    for day, share in chances.items():
        count = round(100 * share)
        paths[at : at + count, day:] = 60.0
        at += count
    found = crossing(outlook_of(paths), 12.0)
    first, last = ((d - outlook_of(paths).first_day).days for d in (found.p10, found.p90))
    held = sum(share for day, share in chances.items() if first <= day <= last)
    assert 0.8 <= held <= 0.85
    # From the 10th to the 90th percentile it would hold 0.84 without the day before.
    assert (first, last) == (3, 6)


def test_of_two_ranges_that_hold_as_much_the_earlier_is_told():
    paths = np.full((100, 40), 5.0)
    at = 0
    for day, count in {2: 10, 3: 75, 4: 10, 5: 5}.items():
        paths[at : at + count, day:] = 60.0
        at += count
    found = crossing(outlook_of(paths), 12.0)
    first, last = ((d - outlook_of(paths).first_day).days for d in (found.p10, found.p90))
    # Without the last day or without the first one 85 of 100 are held.
    assert (first, last) == (2, 3)


def test_one_chance_in_five_is_told_for_the_deadline():
    paths = np.full((100, 140), 5.0)
    for i in range(100):
        paths[i, 3 + i :] = 15.0
    found = degree_days_reaches([outlook_of(paths)], 12.0, 3.0, date(2020, 3, 1))[0]
    # One day at three degrees over the base: member i on day 3 + i.
    assert (found.p20 - outlook_of(paths).first_day).days == 3 + 19
    assert found.p10 < found.p20 < found.p50


def near_and_far(near, on, far_on=28, forecast_days=16, direction="rising"):
    """Of a hundred members ``near`` cross on one day, the rest on another (days after issue)."""
    before, after = (5.0, 60.0) if direction == "rising" else (60.0, -300.0)
    paths = np.full((100, 60), before)
    paths[:near, on - 1 :] = after
    paths[:, far_on - 1 :] = after
    outlook = outlook_of(paths, known=(before,) * 8, forecast_days=forecast_days)
    found = crossing(outlook, 12.0, direction, since=outlook.first_day)
    return tuple((day - outlook.issued).days for day in (found.p10, found.p50, found.p90))


def test_a_crossing_the_forecast_sees_within_a_week_is_named_from_one_chance_in_four():
    assert near_and_far(25, 7) == (7, 7, 28)
    assert near_and_far(24, 7)[1] == 28


def test_without_a_forecast_the_median_is_named():
    assert near_and_far(49, 7, forecast_days=None)[1] == 28
    assert near_and_far(51, 7, forecast_days=None)[1] == 7


def test_beyond_a_week_or_the_forecasts_end_the_median_is_named():
    assert near_and_far(49, 8)[1] == 28
    assert near_and_far(49, 5, forecast_days=5)[1] == 5
    assert near_and_far(49, 6, forecast_days=5)[1] == 28


def test_a_fall_does_not_lean():
    assert near_and_far(49, 7, direction="falling")[1] == 28


def test_what_too_few_members_reach_is_not_in_sight():
    paths = np.full((10, 30), 5.0)
    paths[:3, 10:] = 20.0
    found = crossing(outlook_of(paths), 12.0)
    assert found.p10 is not None
    assert found.p50 is None
    assert found.p90 is None
    assert found.share == pytest.approx(0.3)


def test_a_threshold_already_reached_is_told_with_its_day():
    found = crossing(outlook_of(np.full((3, 9), 20.0), known=[5.0] * 4 + [14.0] * 6), 12.0)
    assert found.p10 == found.p50 == found.p90 == date(2020, 3, 29)
    assert found.share == 1.0


def test_the_trailing_mean_reaches_back_into_known_days():
    # Four known days of 10 and one ahead of 20: a mean of exactly 12.
    found = crossing(outlook_of(np.full((3, 9), 20.0), known=[10.0] * 8), 12.0)
    assert found.p50 == date(2020, 4, 1)


def test_soil_falls_through_70_f_in_late_summer():
    found = crossing(make_outlook(CALM_CLIMATE, CALM, date(2016, 8, 1)), 21.11, "falling")
    wave = trailing_mean(wave_c(date(2016, 7, 11), 160))[4:]
    wanted = date(2016, 7, 15) + timedelta(days=int(first_at_or_above(-wave, -21.11)))
    assert abs((found.p50 - wanted).days) <= 2


def test_in_november_the_next_spring_is_meant():
    outlook = make_outlook(CLIMATE, SERIES, date(2016, 11, 15))
    assert outlook.spring_year == 2017
    assert date(2017, 3, 10) < crossing(outlook, 12.78).p50 < date(2017, 5, 20)


def test_the_chance_that_a_warm_spell_holds():
    paths = np.full((4, 20), 15.0)
    paths[0, 4:] = 0.0
    outlook = outlook_of(paths, known=[15.0] * 8)
    assert chance_holds(outlook, 12.0, 3) == pytest.approx(1.0)
    assert chance_holds(outlook, 12.0, 10) == pytest.approx(0.75)


def test_degree_days_count_from_their_day_on():
    # 15 °C over a base of 12: three a day (closed form).
    outlook = outlook_of(np.full((3, 30), 15.0), known=[15.0] * 10, issued=date(2020, 3, 5))
    assert degree_days_reaches([outlook], 12.0, 42.0, date(2020, 3, 1))[0].p50 == date(2020, 3, 14)
    assert degree_days_reaches([outlook], 12.0, 9.0, date(2020, 3, 1))[0].p50 == date(2020, 3, 3)
    assert degree_days_reaches([outlook], 12.0, 9.0, date(2020, 3, 10))[0].p50 == date(2020, 3, 12)


def test_the_fan_is_numpys_quantiles_of_the_five_day_means():
    outlook = make_outlook(CLIMATE, SERIES, date(2016, 3, 1))
    drawn = fan(outlook)
    smooth = smoothed_paths(outlook)
    np.testing.assert_allclose(drawn.values_c[2], np.median(smooth, axis=0))
    assert (np.diff(drawn.values_c, axis=0) >= 0).all()
    assert drawn.first_day == date(2016, 3, 2)


def test_the_members_spread_as_far_as_the_truth_strays():
    """On made-up weather, p10-p90 of a day a month ahead holds about four truths in five."""
    inside = 0
    seeds = range(30)
    for seed in seeds:
        series = made_series(last=date(2017, 6, 30), noise_c=2.0, seed=seed)
        climate = fit_climate(series.until(date(2016, 12, 31)))
        outlook = make_outlook(climate, series, date(2017, 3, 10))
        low, high = np.quantile(outlook.paths_c[:, 29], (0.1, 0.9))
        truth = series.soil5_c[(date(2017, 4, 9) - series.first_day).days]
        inside += low <= truth <= high
    # Binomial limits of 30 draws at 0.8, one in two hundred on each side (scipy).
    assert stats.binom.ppf(0.005, 30, 0.8) <= inside <= stats.binom.ppf(0.995, 30, 0.8)


def test_short_gaps_do_not_change_the_newest_state():
    soil = SERIES.soil5_c.copy()
    at = (date(2016, 4, 1) - SERIES.first_day).days
    soil[at - 9 : at - 6] = np.nan
    outlook = make_outlook(CLIMATE, with_soil(SERIES, soil), date(2016, 4, 1))
    straight = fill_short_gaps(soil)[at - 9 : at - 6]
    # Bridged about the mean year, which is straight enough over three days.
    np.testing.assert_allclose(outlook.known_c[-10:-7], straight, atol=0.1)
