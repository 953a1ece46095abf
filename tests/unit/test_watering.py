"""Watering in: depths, minutes, cycles, washouts and dry weeks."""

from datetime import UTC, datetime, timedelta

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from jobs.agronomy.day_rules import LabelTerms, under_label, usual_rules
from jobs.agronomy.units import from_si
from jobs.agronomy.watering import (
    INTAKE_MM_H,
    Water,
    after_heavy_rain,
    catch_test,
    cycles,
    dry_spell,
    sprinkler_minutes,
    washout_ahead,
    watering_state,
)

APPLIED = datetime(2024, 4, 10, 9, tzinfo=UTC)
RULES = usual_rules("granule")


def rain(hours_after: float, mm: float) -> Water:
    return Water(APPLIED + timedelta(hours=hours_after), mm, "rain")


def irrigation(hours_after: float, mm: float) -> Water:
    return Water(APPLIED + timedelta(hours=hours_after), mm, "irrigation")


def after(days: float) -> datetime:
    return APPLIED + timedelta(days=days)


# Half an inch within 7 days: Univ. of Arkansas.
def test_half_an_inch_within_seven_days_is_wanted():
    state = watering_state(APPLIED, RULES, [], after(1))
    assert state.missing_mm == pytest.approx(12.7)
    assert state.by == after(7)
    assert not state.is_watered_in


def test_rain_and_irrigation_add_up_until_it_is_in():
    water = [rain(30, 5.0), irrigation(50, 7.7), rain(80, 9.0)]
    state = watering_state(APPLIED, RULES, water, after(4))
    assert state.is_watered_in
    assert state.done_at == after(50 / 24)
    assert (state.rain_mm, state.irrigated_mm, state.missing_mm) == (14.0, 7.7, 0.0)


def test_water_before_the_application_or_still_to_come_does_not_count():
    water = [rain(-3, 20.0), rain(100, 20.0)]
    assert watering_state(APPLIED, RULES, water, after(2)).missing_mm == pytest.approx(12.7)


def test_it_is_overdue_once_its_time_has_passed():
    assert not watering_state(APPLIED, RULES, [], after(7)).is_overdue
    assert watering_state(APPLIED, RULES, [rain(10, 3.0)], after(7.1)).is_overdue
    late = watering_state(APPLIED, RULES, [rain(8 * 24, 20.0)], after(9))
    assert late.is_watered_in
    assert not late.is_overdue


def test_the_labels_depth_and_time_win():
    rules = under_label(RULES, LabelTerms(water_in_mm=6.35, water_in_hours=24))
    state = watering_state(APPLIED, rules, [rain(5, 6.35)], after(0.5))
    assert state.is_watered_in
    assert state.by == after(1)


# Half an inch on 1,000 sq ft is 311.69 US gallons (agreed check value; 27,154 gal an acre-inch).
def test_half_an_inch_on_a_thousand_square_feet_in_gallons():
    litres = RULES.water_in_mm * 92.90304
    assert from_si(litres, "gal") == pytest.approx(311.69, abs=0.01)


def test_cans_give_rate_and_evenness():
    catch = catch_test([10.0, 10.0, 8.0, 12.0], 20)
    assert catch.rate_mm_h == pytest.approx(30.0)
    assert catch.evenness == pytest.approx(0.8)
    with pytest.raises(ValueError, match="cans"):
        catch_test([], 20)
    with pytest.raises(ValueError, match="cans"):
        catch_test([0.0, 0.0], 20)


def test_minutes_follow_from_depth_and_rate():
    assert sprinkler_minutes(12.7, 25.4) == pytest.approx(30.0)
    with pytest.raises(ValueError, match="rate"):
        sprinkler_minutes(12.7, 0.0)


def test_sand_takes_it_in_one_go_and_clay_in_short_cycles():
    assert cycles(12.7, 25.4, "sand").count == 1
    clay = cycles(12.7, 25.4, "clay")
    assert clay.count == 3
    assert clay.soak_minutes >= 30
    assert cycles(12.7, 25.4, "clay", is_slope=True).count > clay.count


@given(
    depth=st.floats(1, 40),
    rate=st.floats(2, 60),
    soil=st.sampled_from(sorted(INTAKE_MM_H)),
    is_slope=st.booleans(),
)
def test_cycles_give_the_whole_depth_and_never_more_than_the_turf_holds(
    depth, rate, soil, is_slope
):
    plan = cycles(depth, rate, soil, is_slope=is_slope)
    assert plan.count * plan.minutes_each == pytest.approx(sprinkler_minutes(depth, rate))
    standing = (rate - INTAKE_MM_H[soil]) * plan.minutes_each / 60
    assert standing <= (2.5 if is_slope else 5.0) + 1e-6


def test_two_inches_ahead_are_a_washout_and_a_gentle_soak_is_not():
    storm = [0.0] * 10 + [10.0] * 5 + [0.0] * 40
    seen = washout_ahead(storm, APPLIED, RULES)
    assert seen.is_likely
    assert seen.rain_mm == pytest.approx(50.0)
    assert APPLIED <= seen.from_ <= APPLIED + timedelta(hours=10)
    assert not washout_ahead([0.5] * 48, APPLIED, RULES).is_likely
    assert not washout_ahead([], APPLIED, RULES).is_likely


def test_half_an_inch_in_a_day_is_enough_to_wash_a_slope():
    shower = [1.0] * 15 + [0.0] * 33
    assert not washout_ahead(shower, APPLIED, RULES).is_likely
    assert washout_ahead(shower, APPLIED, usual_rules("granule", is_slope_or_clay=True)).is_likely


@given(st.lists(st.floats(0, 20), min_size=1, max_size=60))
def test_worst_day_of_rain_is_the_largest_sum_of_any_24_hours(hours):
    seen = washout_ahead(hours, APPLIED, RULES)
    within = hours[:48]
    starts = range(max(1, len(within) - 23))
    assert seen.rain_mm == pytest.approx(max(sum(within[i : i + 24]) for i in starts), abs=1e-6)


def test_two_inches_overnight_before_it_was_in_means_looking_for_washed_spots():
    state = watering_state(APPLIED, RULES, [rain(20, 50.0)], after(1))
    answer = after_heavy_rain(state, 50.0, after(0.5), RULES)
    assert answer.answer == "look_for_washed_spots"
    assert not answer.was_watered_in


# Strongly bound actives stay: under 1 % moved by 51-64 mm/h on a 6 % slope (Baird et al. 2000).
def test_two_inches_after_it_was_in_leave_it_in_place():
    water = [irrigation(10, 13.0), rain(60, 50.0)]
    state = watering_state(APPLIED, RULES, water, after(3))
    assert after_heavy_rain(state, 50.0, after(2), RULES).answer == "keep_watered_in"
    assert after_heavy_rain(state, 12.0, after(2), RULES).answer == "keep"


# First-order decay: 0.5 ** (21 / 60) = 0.785.
def test_three_dry_weeks_before_the_weeds_call_for_water_now():
    state = watering_state(APPLIED, RULES, [rain(30, 2.0)], after(21))
    spell = dry_spell(state, APPLIED, after(21), half_life_days=60.0)
    assert spell.answer == "water_now"
    assert spell.missing_mm == pytest.approx(10.7)
    assert spell.share_left == pytest.approx(0.785, abs=0.001)


def test_weeds_that_came_while_it_lay_dry_are_not_stopped_any_more():
    state = watering_state(APPLIED, RULES, [], after(21))
    assert dry_spell(state, APPLIED, after(21), after(15)).answer == "partly_late"
    assert dry_spell(state, APPLIED, after(21), after(30)).answer == "water_now"


def test_a_few_dry_days_are_no_loss():
    state = watering_state(APPLIED, RULES, [], after(3))
    spell = dry_spell(state, APPLIED, after(3))
    assert spell.answer == "in_time"
    assert spell.share_left is None
    done = watering_state(APPLIED, RULES, [rain(3, 20.0)], after(3))
    assert dry_spell(done, APPLIED, after(3)).answer == "watered_in"


def test_missing_hours_of_the_forecast_count_as_dry():
    assert washout_ahead([np.nan, 30.0, np.nan], APPLIED, RULES).rain_mm == pytest.approx(30.0)
