from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from jobs.agronomy import calibration, sprayer, spreader
from jobs.agronomy.amounts import Amount, amount_for
from jobs.agronomy.labelled_product import product_rate
from jobs.agronomy.rates import Rate, WeightAgainstVolume
from jobs.agronomy.spreader import Try
from jobs.agronomy.strengths import ActiveIngredient, Strength
from jobs.agronomy.units import from_si, to_si

LB_ACRE = to_si(1.0, "lb/acre")
TARGET = product_rate(
    0.65 * LB_ACRE, ActiveIngredient.of_percent("prodiamine", 0.38), "lb/1000 sq ft"
)
WDG = product_rate(0.75 * LB_ACRE, ActiveIngredient.of_percent("prodiamine", 65), "oz/1000 sq ft")
EW2 = product_rate(
    0.5 * LB_ACRE, ActiveIngredient("dithiopyr", Strength(2, "lb/gal")), "fl oz/1000 sq ft"
)


def ft(length: float) -> float:
    return to_si(length, "ft")


def sq_ft(area: float) -> float:
    return to_si(area, "sq ft")


# --- spreader --------------------------------------------------------------------------------


def test_a_weighed_run_tells_the_rate_and_how_far_off_it_is() -> None:
    # W10, check 8: 4.2 lb over 8 x 150 ft is 3.50 lb/1000, 10.9 % under 3.927, computed.
    achieved = calibration.run_rate(to_si(4.2, "lb"), ft(8), ft(150), "lb/1000 sq ft")
    assert achieved.value == pytest.approx(3.50, rel=1e-9)
    off = calibration.deviation(achieved, TARGET)
    assert off.share == pytest.approx(-0.109, abs=5e-4)
    assert off.direction == "low"
    assert not off.is_on_target


@pytest.mark.parametrize(
    ("achieved", "direction"),
    [(4.74, "low"), (4.75, "on_target"), (5.0, "on_target"), (5.25, "on_target"), (5.26, "high")],
)
def test_five_percent_either_way_is_on_target(achieved: float, direction: str) -> None:
    # W8, check 7: 5.00 lb/1000 passes from 4.75 to 5.25 (UMass fact sheet, published).
    off = calibration.deviation(Rate(achieved, "lb/1000 sq ft"), Rate(5, "lb/1000 sq ft"))
    assert off.direction == direction


def test_a_weight_is_never_held_against_a_volume() -> None:
    with pytest.raises(WeightAgainstVolume):
        calibration.deviation(Rate(1, "oz/acre"), Rate(1, "fl oz/acre"))


def test_the_mean_catch_of_pans_tells_the_rate() -> None:
    # W11: 2.0 g in pans of 1 sq ft is 4.41 lb per 1000 sq ft, computed.
    rate = spreader.pan_rate(0.002, sq_ft(1), "lb/1000 sq ft")
    assert rate.value == pytest.approx(4.41, abs=5e-3)


@pytest.mark.parametrize(("swath_ft", "length_ft"), [(8, 125.0), (6, 166.7)])
def test_a_course_of_a_thousand_square_feet(swath_ft: float, length_ft: float) -> None:
    # W12: 1,000/8 and 1,000/6, computed.
    length = calibration.course_length_m(sq_ft(1000), ft(swath_ft))
    assert from_si(length, "ft") == pytest.approx(length_ft, abs=0.05)


def test_half_the_centres_catch_at_six_feet_makes_a_swath_of_twelve() -> None:
    # Ohio State Bulletin 817 (published): half of the centre at 6 ft either side: 12 ft.
    pans_ft = np.arange(-9, 10)
    catch = np.interp(np.abs(pans_ft), [0, 3, 6, 9], [10.0, 9.0, 5.0, 0.0])
    swath = spreader.effective_swath(pans_ft * ft(1), catch)
    assert from_si(swath.effective_m, "ft") == pytest.approx(12, rel=1e-9)
    assert swath.skew == pytest.approx(0, abs=1e-9)


def test_a_skewed_pattern_shows_its_side() -> None:
    swath = spreader.effective_swath([-4, -2, 0, 2, 4, 6, 8], [0, 4, 8, 8, 7, 4, 1])
    assert swath.left_m == pytest.approx(2)
    assert swath.right_m == pytest.approx(6)
    assert swath.skew == pytest.approx(0.5)


def test_pans_that_end_too_soon_are_asked_further_out() -> None:
    with pytest.raises(spreader.PatternTooNarrow):
        spreader.effective_swath([-2, 0, 2], [9, 10, 9])


@pytest.mark.parametrize(
    ("at", "catch"), [([-1, 1], [1, 1]), ([0, 1, 2], [2, 1, 0]), ([-1, 0, 0, 1], [1, 2, 2, 1])]
)
def test_pans_without_a_pattern_are_refused(at: list[float], catch: list[float]) -> None:
    with pytest.raises(ValueError, match="pans"):
        spreader.effective_swath(at, catch)


@given(st.floats(3.0, 12.0), st.floats(0.1, 50.0))
def test_triangles_overlapped_at_the_half_of_centre_spread_evenly(base: float, top: float) -> None:
    # Closed form: triangles of half-base w laid at spacing w sum to a constant, their height.
    x = np.linspace(-base, base, 41)
    catch = top * (1 - np.abs(x) / base)
    swath = spreader.effective_swath(x, catch)
    assert swath.effective_m == pytest.approx(base, rel=1e-9)
    summed = spreader.overlapped(x, catch, swath.effective_m)
    assert summed == pytest.approx(np.full_like(summed, top), rel=1e-9)


def test_overlap_is_summed_in_whatever_order_the_pans_are_listed() -> None:
    x, catch = np.array([0.0, -3, 3, -1.5, 1.5]), np.array([8.0, 1, 3, 5, 6])
    shuffled = [3, 0, 4, 2, 1]
    plain = spreader.overlapped(x, catch, 4.0)
    assert spreader.overlapped(x[shuffled], catch[shuffled], 4.0) == pytest.approx(plain[shuffled])
    # Back and forth: the neighbour's strong side meets our strong side, at 3 m: 3 + its own at 1 m.
    assert plain[2] == pytest.approx(3 + np.interp(1, [0, 1.5], [8, 6]))


def test_the_next_setting_lies_between_two_tries() -> None:
    tries = [Try(5, Rate(3.0, "lb/1000 sq ft")), Try(7, Rate(5.0, "lb/1000 sq ft"))]
    found = spreader.next_setting(tries, Rate(4.0, "lb/1000 sq ft"))
    assert found.setting == pytest.approx(6.0)
    assert found.is_between_tries
    assert not found.is_good_already


def test_one_try_ten_percent_low_opens_up_in_proportion() -> None:
    # W10: 10.9 % low, open up and repeat (computed).
    found = spreader.next_setting([Try(10, Rate(3.5, "lb/1000 sq ft"))], TARGET)
    assert found.setting == pytest.approx(10 * 3.9268 / 3.5, rel=1e-4)
    assert not found.is_between_tries


def test_a_far_target_is_approached_by_no_more_than_double() -> None:
    found = spreader.next_setting([Try(4, Rate(1, "lb/1000 sq ft"))], Rate(9, "lb/1000 sq ft"))
    assert found.setting == 8


def test_a_try_on_target_stays() -> None:
    found = spreader.next_setting(
        [Try(4, Rate(3.0, "lb/1000 sq ft")), Try(5, Rate(3.9, "lb/1000 sq ft"))], TARGET
    )
    assert found.is_good_already
    assert found.setting == 5


def test_tries_that_contradict_each_other_are_weighed_again() -> None:
    tries = [Try(5, Rate(4.0, "lb/1000 sq ft")), Try(6, Rate(3.0, "lb/1000 sq ft"))]
    with pytest.raises(spreader.TriesDisagree) as caught:
        spreader.next_setting(tries, TARGET)
    assert caught.value.settings == (5, 6)


@given(
    st.lists(st.integers(1, 400), min_size=2, max_size=6, unique=True),
    st.lists(st.floats(0.2, 3.0), min_size=6, max_size=6),
    st.floats(0.0, 1.0),
)
def test_suggested_settings_rise_with_the_target(
    settings: list[int], steps: list[float], share: float
) -> None:
    settings.sort()
    rates = np.cumsum(steps)[: len(settings)]
    tries = [Try(s, Rate(float(r), "kg/ha")) for s, r in zip(settings, rates, strict=True)]
    low, high = sorted((rates[0] + share * (rates[-1] - rates[0]), (rates[0] + rates[-1]) / 2))
    first = spreader.next_setting(tries, Rate(float(low), "kg/ha"))
    second = spreader.next_setting(tries, Rate(float(high), "kg/ha"))
    assert settings[0] - 1e-9 <= first.setting <= second.setting + 1e-9 <= settings[-1] + 2e-9


def test_two_directions_halve_the_round_and_strips_come_out_even() -> None:
    # W13: each pass at 3.927/2 = 1.963 lb/1000, computed; method UMass (published).
    plan = spreader.pass_plan(sq_ft(5000), ft(50), ft(8), TARGET)
    assert plan.passes == 7
    assert from_si(plan.spacing_m, "ft") == pytest.approx(50 / 7)
    assert plan.weights[0].value == pytest.approx(1.9634 * 5, rel=1e-4)
    assert plan.per_pass.value * 7 * 2 == pytest.approx(amount_for(sq_ft(5000), TARGET).value)
    assert calibration.target_for_pass(TARGET).value == pytest.approx(1.9634, rel=1e-4)
    assert spreader.pass_plan(sq_ft(4800), ft(48), ft(8), TARGET).passes == 6


def test_cups_only_from_a_weighed_cup() -> None:
    assert spreader.cups(to_si(4, "lb"), to_si(8, "oz")) == pytest.approx(8)
    with pytest.raises(ValueError, match="weigh"):
        spreader.cups(1.0, 0.0)


def test_a_small_zone_of_a_strong_granule_needs_a_fine_scale() -> None:
    # Practitioner's note (common practice): 600 sq ft of a 65 % granule is 7 g.
    amount = amount_for(sq_ft(600), WDG)
    assert amount.si * 1000 == pytest.approx(7.2, abs=0.05)
    assert calibration.is_weighable(amount.si, 0.0001)
    assert not calibration.is_weighable(amount.si, 0.005)


def test_running_out_half_way_says_what_is_still_needed() -> None:
    used = Amount(to_si(10, "lb"), "lb")
    found = spreader.ran_out(sq_ft(5000), sq_ft(2000), used, Rate(4, "lb/1000 sq ft"))
    assert found.achieved.value == pytest.approx(5.0)
    assert from_si(found.left_m2, "sq ft") == pytest.approx(3000)
    assert found.still_needed.value == pytest.approx(12.0)


# --- sizes of the usual errors ---------------------------------------------------------------


# --- sprayer ---------------------------------------------------------------------------------


def test_gallons_an_acre_by_the_nozzle_formula() -> None:
    # W16, check 9: 0.4 GPM, 3 mph, 20 in: 39.6 GPA (formula: Mesa County, published).
    gpa = sprayer.gallons_per_acre(0.4, 3, 20)
    assert gpa == pytest.approx(39.6)


def test_gallons_an_acre_against_the_formula_not_the_printed_page() -> None:
    # W14, check 10: 101 fl oz/min, 3 mph, 18 in: 86.80 by the formula; the Oklahoma State page
    # (published) prints 88, against its own numbers.
    assert sprayer.gallons_per_acre(101 / 128, 3, 18) == pytest.approx(86.80, abs=0.005)


def test_boom_and_boomless_formulas_agree() -> None:
    # Mesa County (published): 495 with the swath in feet; 20 nozzles of 18 in are a swath of 30 ft.
    boom = sprayer.gallons_per_acre(0.4, 3, 18)
    assert sprayer.boomless_gallons_per_acre(0.4 * 20, 3, 30) == pytest.approx(boom)


def test_the_nozzle_constant_follows_from_its_units() -> None:
    # 43,560 sq ft/A x 12 in/ft x 60 min/h / 5,280 ft/mile, exact (NIST Handbook 44, Appendix C).
    assert sprayer.NOZZLE_CONSTANT == 43560 * 12 * 60 / 5280
    assert sprayer.BOOMLESS_CONSTANT == 43560 * 60 / 5280


@pytest.mark.parametrize(("seconds", "expected", "printed"), [(45, 3.0303, 3), (27, 5.0505, 5)])
def test_speed_over_two_hundred_feet(seconds: float, expected: float, printed: int) -> None:
    # W15, check 11: Oklahoma State (published) rounds to 3 and 5 mph.
    mph = sprayer.mph(ft(200) / seconds)
    assert mph == pytest.approx(expected, abs=5e-4)
    assert round(mph) == printed
    # 88 feet a minute are a mile an hour (exact).
    assert sprayer.mph(ft(88) / 60) == pytest.approx(1.0, rel=1e-12)


def test_a_128th_of_an_acre() -> None:
    # W17, check 12: 43,560/128 = 340.3125 sq ft, 18.4476 ft square (Mesa, Larimer County: 18.5).
    area = from_si(sprayer.ACRE_128TH_M2, "sq ft")
    assert area == pytest.approx(340.3125, rel=1e-9)
    assert math.sqrt(area) == pytest.approx(18.4476, abs=5e-5)


@pytest.mark.parametrize(
    ("spacing_in", "course_ft"), [(12, 340), (16, 255), (20, 204), (24, 170), (36, 113)]
)
def test_courses_of_the_128th_acre_method(spacing_in: float, course_ft: int) -> None:
    # W19, check 13: Clemson table (published).
    assert round(from_si(sprayer.course_128th_m(to_si(spacing_in, "in")), "ft")) == course_ft


def test_ounces_caught_are_gallons_an_acre() -> None:
    # W20, check 14: 48 oz caught is 48 GPA, computed; and by volume over area, independently.
    assert sprayer.gpa_from_128th(48) == 48
    by_area = sprayer.spray_rate(to_si(48, "fl oz"), sprayer.ACRE_128TH_M2)
    assert from_si(by_area.rate_si, "gal/acre") == pytest.approx(48, rel=1e-12)


def test_a_handgun_by_the_18_and_a_half_foot_square() -> None:
    # W18, check 15: 150 fl oz is 150 GPA, a 25-gal tank covers 1/6 acre (Mesa County, published).
    plan = sprayer.tank_plan(to_si(1, "acre"), to_si(25, "gal"), sprayer.gpa_from_128th(150), WDG)
    assert from_si(plan.tank_area_m2, "acre") == pytest.approx(1 / 6, rel=1e-12)
    assert plan.full_loads == 6
    assert plan.last is None


def test_a_backpack_tank_and_its_last_part_load() -> None:
    # W20, check 14: 4 gal at 48 GPA cover 3,630 sq ft; 1.5385 oz (43.6 g) of 65 % at 0.75 lb ai/A;
    # 2.667 fl oz of 2 lb/gal at 0.5 lb ai/A; 8,530 sq ft take 2.35 loads. Computed.
    plan = sprayer.tank_plan(sq_ft(8530), to_si(4, "gal"), 48, WDG)
    assert from_si(plan.tank_area_m2, "sq ft") == pytest.approx(3630, rel=1e-9)
    assert plan.full.product.value == pytest.approx(1.5385, abs=5e-5)
    assert plan.full.product.in_unit("g").value == pytest.approx(43.6, abs=0.05)
    assert plan.loads == pytest.approx(2.35, abs=5e-4)
    assert plan.last is not None
    assert plan.last.product.value == pytest.approx(1.5385 * (8530 / 3630 - 2), rel=1e-4)
    assert len(plan.all) == 3
    liquid = sprayer.tank_plan(sq_ft(8530), to_si(4, "gal"), 48, EW2)
    assert liquid.full.product.value == pytest.approx(2.667, abs=5e-4)


@given(st.floats(10, 50_000), st.floats(3, 400), st.floats(5, 200))
def test_the_loads_add_up_to_the_amount_for_the_area(
    area_m2: float, tank_l: float, gpa: float
) -> None:
    plan = sprayer.tank_plan(area_m2, tank_l, gpa, WDG)
    assert math.fsum(load.product.si for load in plan.all) == pytest.approx(
        amount_for(area_m2, WDG).si, rel=1e-6
    )
    assert math.fsum(load.area_m2 for load in plan.all) == pytest.approx(area_m2, rel=1e-6)
    assert all(load.carrier_l <= tank_l * (1 + 1e-9) for load in plan.all)


def test_gallons_per_thousand_square_feet_and_per_acre() -> None:
    # W21, check 16: 1 gal/1000 is 43.56 GPA; 1.5 is 65.34 (a list post citing Virginia Tech: 65).
    for per_1000, per_acre in ((1.0, 43.56), (1.5, 65.34)):
        rate = Rate(per_1000, "gal/1000 sq ft")
        assert from_si(rate.rate_si, "gal/acre") == pytest.approx(per_acre, rel=1e-9)


def test_three_pints_an_acre_in_each_gallon() -> None:
    # W21: 3 pt/A at 65.34 GPA is 0.046 pt, 0.74 fl oz, about 1.5 tablespoons a gallon (same post).
    each = sprayer.product_per_gallon(Rate(3, "pt/acre"), 65.34)
    assert each.value == pytest.approx(0.046, abs=5e-4)
    assert each.in_unit("fl oz").value == pytest.approx(0.74, abs=0.006)
    assert sprayer.tablespoons(each.si) == pytest.approx(1.5, abs=0.04)


def test_half_an_inch_of_water_on_a_thousand_square_feet() -> None:
    # W22, check 21: 311.69 gal; 0.75 in an hour runs 40 minutes, computed.
    water = sprayer.water_l(12.7, sq_ft(1000))
    assert from_si(water, "gal") == pytest.approx(311.69, abs=5e-3)
    assert sprayer.sprinkler_minutes(12.7, 0.75 * 25.4) == pytest.approx(40)


@pytest.mark.parametrize("bad", [0.0, -1.0, math.nan, math.inf])
def test_figures_that_cannot_be_are_refused(bad: float) -> None:
    with pytest.raises(ValueError, match="above zero"):
        sprayer.gallons_per_acre(bad, 3, 20)
    with pytest.raises(ValueError, match="above zero"):
        sprayer.tank_plan(100, bad, 48, WDG)
