from __future__ import annotations

from datetime import date, timedelta
from itertools import pairwise
from pathlib import Path

import numpy as np
import pandas as pd
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from jobs.agronomy.barrier import (
    Dose,
    hold,
    judge,
    loss_factor,
    notes,
    residue,
    weeks_of_control,
)
from jobs.agronomy.ingredients import ingredients
from jobs.agronomy.units import to_si

LB_ACRE = to_si(1.0, "lb/acre")
DATA = Path(__file__).resolve().parents[3] / "shared" / "data" / "soil"


def steady(soil_c: float, days: int = 500) -> np.ndarray:
    return np.full(days, soil_c)


# --- loss ------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("soil_c", "factor"),
    # Section 3.1 of our reference sheet, computed from EFSA 2007/8: Ea 65.4 kJ/mol.
    [(5, 0.2353), (10, 0.3877), (15, 0.6278), (20, 1.0), (25, 1.568), (30, 2.423)],
)
def test_loss_by_soil_temperature(soil_c: float, factor: float) -> None:
    assert float(loss_factor(soil_c, 20.0)) == pytest.approx(factor, rel=5e-4)


def test_ten_degrees_more_lose_two_and_a_half_times_as_fast() -> None:
    # Check 22: 65,400 J/mol from 10 to 20 °C is Q10 2.5796; EFSA 2007/8 prints 2.58 (from memory).
    q10 = float(loss_factor(20.0, 10.0))
    assert q10 == pytest.approx(2.5796, rel=1e-4)
    assert float(loss_factor(30.0, 20.0)) == pytest.approx(2.4232, rel=1e-4)


def test_frozen_soil_loses_nothing() -> None:
    assert loss_factor([-20.0, -1.0, 0.0], 20.0) == pytest.approx([0, 0, 0])


@pytest.mark.parametrize(
    ("dose", "half_life", "days", "left"),
    # Check 23: on Schleicher et al. 1995, Weed Sci. 43:140-148 (published doses, half-lives, days).
    [(0.6, 35, 87, 0.1071), (1.7, 23, 59, 0.2872)],
)
def test_residue_at_the_end_of_good_control(
    dose: float, half_life: float, days: float, left: float
) -> None:
    assert float(residue(dose, half_life, days)) == pytest.approx(left, abs=5e-5)


def test_a_split_leaves_more_in_midsummer_than_a_single_dose() -> None:
    # Section 3.3 of our reference sheet, computed: half-life 60 d, single 0.75 leaves 0.206 on day
    # 112; 0.375 + 0.375 on day 56 leaves 0.299, with a peak of 0.571.
    assert float(residue(0.75, 60, 112)) == pytest.approx(0.206, abs=5e-4)
    split = residue(0.375, 60, 112) + residue(0.375, 60, 56)
    assert float(split) == pytest.approx(0.299, abs=5e-4)
    assert float(residue(0.375, 60, 56)) + 0.375 == pytest.approx(0.571, abs=5e-4)


def test_spring_prodiamine_carried_over_into_autumn() -> None:
    # Section 8 of our reference sheet, computed: 0.5^(183/60) = 0.121.
    assert float(residue(1.0, 60, 183)) == pytest.approx(0.121, abs=5e-4)


def test_days_summed_agree_with_an_independent_solver() -> None:
    # scipy's solver of ordinary differential equations (general-purpose reference library).
    soil = 12 + 9 * np.sin(np.linspace(0, 2.5, 150))
    k = np.log(2) / 35

    def lose(t: float, c: np.ndarray) -> np.ndarray:
        return -k * float(loss_factor(soil[min(int(t), 149)], 19.5)) * c

    solved = solve_ivp(lose, (0, 150), [0.6], max_step=0.25, rtol=1e-8).y[0, -1]
    summed = float(residue(0.6, 35, float(np.sum(loss_factor(soil, 19.5)))))
    assert summed == pytest.approx(float(solved), rel=2e-3)


# --- days of control -------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("ingredient", "rate_kg_ha", "soil_c", "days"),
    # Schleicher et al. 1995 (published): 90 % control to day 87 and to day 59, in their own soil.
    [("dithiopyr", 0.6, 19.5, 87), ("pendimethalin", 1.7, 17.5, 59)],
)
def test_the_two_published_pairs_come_back(
    ingredient: str, rate_kg_ha: float, soil_c: float, days: int
) -> None:
    start = date(2025, 4, 20)
    found = hold([Dose(start, ingredient, rate_kg_ha)], start, steady(soil_c))
    assert found.ends is not None
    assert (found.ends - start).days == pytest.approx(days, abs=1)


@pytest.mark.parametrize("key", [k for k, i in ingredients().items() if i.barrier and i.control])
def test_weeks_of_control_cover_what_the_trade_gives(key: str) -> None:
    # Lengths of control in our table (mostly from memory): the band takes in their middle.
    item = ingredients()[key]
    for row in item.control:
        for rate in (row.rate_low_kg_ha, row.rate_high_kg_ha):
            given_weeks = (row.low_weeks + row.high_weeks) / 2
            band = weeks_of_control(key, rate)
            assert band is not None
            low, high = band
            assert low <= given_weeks <= high, (key, rate / LB_ACRE, band)


@pytest.mark.parametrize("soil_c", [0.0, 5.0, 10.0, 15.0])
def test_cold_soil_stretches_no_length_of_control_beyond_the_tables(soil_c: float) -> None:
    # Benefin with trifluralin: 6-10 weeks (from memory), and figures solved from nothing else.
    start = date(2025, 3, 1)
    doses = [Dose(start, "benefin", 1.8), Dose(start, "trifluralin", 0.9)]
    found = hold(doses, start, steady(soil_c))
    assert found.ends_late is not None
    assert (found.ends_late - start).days <= 70
    band = weeks_of_control("benefin", 2.7, soil_c=soil_c)
    assert band is not None
    assert band[1] <= 10


def test_a_lower_rate_of_an_ingredient_is_never_said_to_hold_longer() -> None:
    for item in ingredients().values():
        rows = sorted(item.control, key=lambda row: row.rate_high_kg_ha)
        for lower, higher in pairwise(rows):
            assert lower.high_weeks <= higher.high_weeks, item.key


def test_a_full_dose_holds_longer_than_a_half() -> None:
    # Johnson 1996, Weed Technol. (published): a half dose does not inherit a full dose's life.
    full = weeks_of_control("prodiamine", 0.75 * LB_ACRE)
    half = weeks_of_control("prodiamine", 0.375 * LB_ACRE)
    assert full is not None
    assert half is not None
    assert half[1] < full[1]
    assert half[0] < full[0]


def test_thin_turf_holds_shorter_than_dense() -> None:
    bands = [weeks_of_control("dithiopyr", 0.56, d) for d in ("thin", "ordinary", "dense")]
    highs = [band[1] for band in bands if band is not None]
    assert highs == sorted(highs)
    assert highs[0] < highs[-1]


def test_a_trace_holds_nothing() -> None:
    assert weeks_of_control("prodiamine", 0.05) == (0, 0)
    start = date(2025, 4, 1)
    found = hold([Dose(start, "prodiamine", 0.05)], start, steady(15))
    assert not found.holds_at_all
    assert judge(found, date(2025, 7, 1)).verdict == "no_barrier"


def illinois_like() -> np.ndarray:
    """Soil from 1 November on: 11.5 °C mean, 13 °C either way, coldest in late January."""
    day = np.arange(400)
    return 11.5 - 13 * np.cos(2 * np.pi * (day - 85) / 365.25)


@pytest.mark.parametrize("rate_kg_ha", [0.6, 0.8])
def test_an_autumn_application_of_prodiamine_holds_into_summer(rate_kg_ha: float) -> None:
    # Fermanian & Haley 1994, Weed Technol. 8:617-620 (published): autumn 0.6 kg/ha or more gave
    # at least 82 % control in the next season, 0.8 at least 91 %.
    start = date(2024, 11, 1)
    found = hold([Dose(start, "prodiamine", rate_kg_ha)], start, illinois_like())
    assert found.ends is not None
    assert found.ends >= date(2025, 6, 20)
    # The early edge of the band still covers first emergence in spring.
    assert found.ends_early is not None
    assert found.ends_early >= date(2025, 5, 1)


def test_prodiamine_uncorrected_for_winter_would_not_have_lasted() -> None:
    # Section 3.1 of our reference sheet: 60 d left uncorrected from 15 November to 1 May is 14 %.
    assert float(residue(1.0, 60, 167)) == pytest.approx(0.145, abs=5e-3)
    left = residue(1.0, 60, float(np.sum(loss_factor(illinois_like()[14:181], 20.0))))
    assert float(left) > 0.5


@pytest.mark.shared_data
def test_autumn_prodiamine_holds_into_summer_on_measured_illinois_soil() -> None:
    # Fermanian & Haley 1994 (published, Illinois): autumn 0.6 kg/ha or more held; soil measured.
    file = DATA / "IL_Champaign_9_SW.csv.gz"
    if not file.exists():
        pytest.skip("the measured station records are not beside the repository")
    soil = pd.read_csv(file, parse_dates=["date"]).set_index("date")["soil5_c"].interpolate()
    ends = []
    for year in range(2010, 2023):
        start = date(year, 11, 1)
        course = soil[str(start) : str(start + timedelta(days=364))]
        found = hold([Dose(start, "prodiamine", 0.6)], start, course.to_numpy())
        assert found.ends is not None
        ends.append((found.ends - date(year + 1, 1, 1)).days)
    assert min(ends) >= 160
    assert max(ends) <= 240


# --- several doses ---------------------------------------------------------------------------


def test_two_halves_add_up() -> None:
    start = date(2025, 4, 1)
    second = start + timedelta(days=56)
    one = hold([Dose(start, "dithiopyr", 0.28)], start, steady(19.5))
    both = hold(
        [Dose(start, "dithiopyr", 0.28), Dose(second, "dithiopyr", 0.28)], start, steady(19.5)
    )
    single = hold([Dose(start, "dithiopyr", 0.56)], start, steady(19.5))
    assert one.ends is not None
    assert both.ends is not None
    assert single.ends is not None
    assert one.ends < single.ends < both.ends


def test_the_order_of_doses_does_not_matter_and_add_ons_count_for_nothing() -> None:
    start = date(2025, 4, 1)
    doses = [
        Dose(start, "dithiopyr", 0.3),
        Dose(start + timedelta(days=40), "pendimethalin", 1.7),
        Dose(start, "isoxaben", 1.0),
    ]
    first = hold(doses, start, steady(18))
    second = hold(doses[::-1], start, steady(18))
    assert first == second
    assert first.unknown == ("isoxaben",)
    assert hold(doses[2:], start, steady(18)).holds_at_all is False


@given(
    st.floats(0.3, 1.6),
    st.floats(2, 30),
    st.floats(0.5, 8),
)
def test_warmer_soil_never_makes_it_last_longer(rate: float, soil_c: float, more: float) -> None:
    start = date(2025, 1, 1)
    dose = [Dose(start, "prodiamine", rate)]
    cool = hold(dose, start, steady(soil_c, 1500))
    warm = hold(dose, start, steady(soil_c + more, 1500))
    assert cool.ends is None or (warm.ends is not None and warm.ends <= cool.ends)


@given(st.floats(0.2, 1.6), st.floats(5, 28))
def test_the_band_is_wide_and_in_order(rate: float, soil_c: float) -> None:
    start = date(2025, 1, 1)
    found = hold([Dose(start, "prodiamine", rate)], start, steady(soil_c, 3000))
    assert found.ends_early is not None
    assert found.ends is not None
    assert found.ends_late is not None
    assert start <= found.ends_early <= found.ends <= found.ends_late
    days = (found.ends - start).days
    assert (found.ends_early - start).days == pytest.approx(days / 2, abs=1)
    assert (found.ends_late - start).days == pytest.approx(days * 1.5, abs=2)
    weeks = found.weeks_from(start)
    assert weeks is not None
    assert weeks[0] * 7 <= days <= weeks[1] * 7


def test_a_barrier_beyond_the_known_soil_stays_open() -> None:
    start = date(2025, 4, 1)
    found = hold([Dose(start, "prodiamine", 0.84)], start, steady(10, 60))
    assert found.ends is None
    assert found.holds_at_all
    assert found.weeks_from(start) is None


def test_gaps_in_the_soil_and_doses_before_it_are_refused() -> None:
    with pytest.raises(ValueError, match="begins after"):
        hold([Dose(date(2025, 3, 31), "dithiopyr", 0.5)], date(2025, 4, 1), [10.0, 11.0])
    with pytest.raises(ValueError, match="gaps"):
        hold([], date(2025, 4, 1), [10.0, np.nan])


# --- what to do ------------------------------------------------------------------------------


def test_the_verdict_compares_with_how_long_the_weed_still_germinates() -> None:
    start = date(2025, 4, 1)
    found = hold([Dose(start, "dithiopyr", 0.56)], start, steady(19.5))
    assert found.ends is not None
    assert found.ends_early is not None
    assert judge(found, found.ends + timedelta(days=20)).verdict == "fading"
    assert judge(found, found.ends - timedelta(days=1)).verdict == "may_fade"
    assert judge(found, found.ends_early - timedelta(days=1)).verdict == "will_last"
    half = judge(found, date(2025, 8, 15), start + timedelta(days=56))
    assert (half.verdict, half.due) == ("second_half_due", start + timedelta(days=56))


def test_a_second_half_is_due_earlier_where_the_barrier_ends_first() -> None:
    start = date(2025, 4, 1)
    found = hold([Dose(start, "pendimethalin", 0.85)], start, steady(22))
    assert found.ends is not None
    due = judge(found, date(2025, 8, 15), start + timedelta(days=56)).due
    assert due == found.ends < start + timedelta(days=56)


def test_what_may_have_shortened_it_is_said_as_notes() -> None:
    # Arkansas 2009 (published): watered in within 7 days.
    assert notes([3.0, np.nan, 60.0], 9, "thin") == ("heavy_rain", "late_water_in", "thin_turf")
    assert notes([12.0], 1, "ordinary") == ()
