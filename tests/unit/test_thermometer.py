"""The yard's thermometer: against the closed form of a half-space, a heat equation and stations."""

from datetime import date, timedelta
from pathlib import Path

import numpy as np
import pvlib
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import solve_ivp
from scipy.sparse import diags_array

from jobs.agronomy.heat import (
    MOIST_LOAM_M2_S,
    damping_depth_m,
    day_wave,
)
from jobs.agronomy.series import DailySeries
from jobs.agronomy.thermometer import Reading, day_swing_c, reading_of
from jobs.agronomy.yard_shift import fit_yard

SOIL = Path(__file__).resolve().parents[3] / "shared" / "data" / "soil"
TODAY = date(2023, 4, 10)


def cell_at(level_c: float = 10.0, days: int = 120, slope: float = 0.0) -> DailySeries:
    """A cell that stands at a level today, having risen by ``slope`` a day."""
    series = DailySeries.missing(TODAY - timedelta(days=days - 1), days)
    series.soil5_c[:] = level_c - slope * np.arange(days)[::-1]
    return series


def ahead(level_c: float = 10.0, days: int = 14) -> np.ndarray:
    return np.full(days, level_c)


TOMORROW = TODAY + timedelta(days=1)


# van Wijk & de Vries 1963: at D 0.5e-6 m²/s 11.73 cm for the day and 2.240 m for the year.
def test_damping_depths_are_the_published_ones():
    assert damping_depth_m(0.5e-6, 86_400) == pytest.approx(0.1173, abs=1e-4)
    assert damping_depth_m(0.5e-6, 365 * 86_400) == pytest.approx(2.240, abs=1e-3)
    expected = [0.074, 0.105, 0.148]
    assert damping_depth_m([0.2e-6, 0.4e-6, 0.8e-6], 86_400) == pytest.approx(expected, abs=6e-4)


# Reference: the heat equation solved numerically (scipy), surface driven by the same two sines.
def test_daily_wave_solves_the_heat_equation():
    depth, nodes = 1.2, 241
    step = depth / (nodes - 1)
    surface = lambda t: float(day_wave(t / 3600 % 24, 0.0))  # noqa: E731

    def change(t, inner):
        full = np.concatenate([[surface(t)], inner, [0.0]])
        return MOIST_LOAM_M2_S * np.diff(full, 2) / step**2

    # The equation is linear, its matrix has three diagonals and never changes.
    neighbours = diags_array([1.0, -2.0, 1.0], offsets=[-1, 0, 1], shape=(nodes - 2, nodes - 2))
    matrix = (MOIST_LOAM_M2_S / step**2 * neighbours).tocsc()
    at = 20 * 86_400 + np.arange(0, 24, 3) * 3600.0
    solved = solve_ivp(
        change,
        (0, at[-1]),
        np.zeros(nodes - 2),
        method="BDF",
        t_eval=at,
        max_step=1800,
        rtol=1e-6,
        jac=matrix,
    )
    for inches in (2, 4):
        node = round(inches * 0.0254 / step)
        closed = day_wave(at / 3600 % 24, node * step)
        assert solved.y[node - 1] == pytest.approx(closed, abs=0.01)


# Reference: hourly air of the typical year of Greensboro, North Carolina (shipped in pvlib), led
# into the ground by the numerical heat equation as the surface's course an hour ahead of the air.
def test_correction_brings_any_hour_of_a_measured_spring_nearer_the_daily_mean():
    path = Path(pvlib.__file__).parent / "data" / "723170TYA.CSV"
    data, _ = pvlib.iotools.read_tmy3(path, map_variables=True)
    air = data["temp_air"].to_numpy(float)[59 * 24 : 150 * 24]
    days = len(air) // 24
    step, nodes, per_hour = 0.01, 150, 40
    pull = MOIST_LOAM_M2_S * 3600 / per_hour / step**2
    ground = np.full(nodes, air[:240].mean())
    at_5_cm = np.empty(len(air))
    for hour, celsius in enumerate(air):
        for _ in range(per_hour):
            ground[0] = celsius
            ground[1:-1] += pull * np.diff(ground, 2)
        at_5_cm[hour] = ground[5]
    truth = at_5_cm.reshape(days, 24).mean(axis=1)
    span = air.reshape(days, 24).max(axis=1) - air.reshape(days, 24).min(axis=1)
    # Labels are hour endings at 75° W; the place lies at 79.95° W; the air is an hour late.
    for clock_hour in (7, 12, 16, 20):
        solar = clock_hour - (79.95 - 75) / 15 - 1.0
        read = at_5_cm.reshape(days, 24)[:, clock_hour - 1]
        corrected = np.array(
            [
                reading_of(TODAY, float(c), 0.05, solar, float(s)).mean_c
                for c, s in zip(read, span, strict=True)
            ]
        )
        raw = np.sqrt(np.mean((read - truth)[10:] ** 2))
        left = np.sqrt(np.mean((corrected - truth)[10:] ** 2))
        assert left < 0.65 * raw, clock_hour


def test_afternoon_readings_come_down_and_dawn_readings_go_up():
    assert reading_of(TODAY, 11.5, 0.05, 16.0).mean_c < 11.5
    assert reading_of(TODAY, 11.5, 0.05, 7.0).mean_c > 11.5


def test_deeper_readings_need_less_correction():
    shallow, _ = day_swing_c(0.025, 15.0)
    deep, _ = day_swing_c(0.10, 15.0)
    assert shallow > 2 * deep > 0


def test_a_reading_without_its_hour_is_left_as_it_is_but_trusted_less():
    unknown = reading_of(TODAY, 11.5, 0.05)
    assert unknown.mean_c == 11.5
    assert unknown.sd_c > reading_of(TODAY, 11.5, 0.05, 10.0).sd_c


def test_a_depth_no_thermometer_reaches_is_refused():
    with pytest.raises(ValueError, match="depth"):
        reading_of(TODAY, 11.5, 3.0)


def test_without_readings_the_yard_is_its_cell():
    shift = fit_yard([], cell_at())
    assert shift.apply(TOMORROW, ahead()) == pytest.approx(ahead())
    assert np.all(shift.offset_sd_c(TOMORROW, ahead()) > 1.0)


@given(
    apart=st.floats(-4, 4),
    noise=st.floats(0.3, 3),
    age=st.integers(0, 100),
)
def test_one_reading_moves_the_yard_towards_it_but_never_beyond(apart, noise, age):
    shift = fit_yard([Reading(TODAY - timedelta(days=age), 10 + apart, noise)], cell_at())
    moved = shift.offset_c(TOMORROW, ahead(days=1))[0]
    assert 0 <= moved * np.sign(apart) <= abs(apart)


def test_noisier_and_older_readings_move_it_less():
    def moved(noise: float, age: int) -> float:
        reading = Reading(TODAY - timedelta(days=age), 12.0, noise)
        return float(fit_yard([reading], cell_at()).offset_c(TOMORROW, ahead(days=1))[0])

    assert moved(0.6, 0) > moved(1.5, 0) > 0
    assert moved(0.6, 0) > moved(0.6, 14) > moved(0.6, 60) > 0


def test_last_springs_readings_say_more_than_last_autumns():
    cell = cell_at(days=500)
    spring = fit_yard([Reading(TODAY - timedelta(days=365), 12.0, 0.6)], cell)
    autumn = fit_yard([Reading(TODAY - timedelta(days=182), 12.0, 0.6)], cell)
    assert spring.offset_c(TOMORROW, ahead(days=1))[0] > autumn.offset_c(TOMORROW, ahead(days=1))[0]


def test_confidence_grows_with_readings_and_fades_with_days():
    few = fit_yard([Reading(TODAY, 12.0, 0.6)], cell_at())
    many = fit_yard(
        [Reading(TODAY - timedelta(days=d), 12.0, 0.6) for d in (0, 2, 4, 6, 8)], cell_at()
    )
    sd_few = few.offset_sd_c(TOMORROW, ahead())
    assert np.all(many.offset_sd_c(TOMORROW, ahead()) < sd_few)
    assert np.all(np.diff(sd_few) > 0)


def test_a_warm_yard_is_warmer_still_on_a_warm_forecast():
    readings = [
        Reading(TODAY - timedelta(days=d), 11.0 - 0.2 * d + 0.1 * (10 - 0.2 * d), 0.3)
        for d in range(0, 30, 5)
    ]
    shift = fit_yard(readings, cell_at(slope=0.2))
    cold, warm = shift.offset_c(TOMORROW, np.array([[6.0], [14.0]]))[:, 0]
    assert warm > cold > 0


def test_many_courses_at_once_give_what_each_gives_alone():
    shift = fit_yard([Reading(TODAY, 12.0, 0.6)], cell_at())
    courses = np.random.default_rng(1).normal(11, 2, (5, 14))
    together = shift.apply(TOMORROW, courses)
    assert together == pytest.approx(np.stack([shift.apply(TOMORROW, c) for c in courses]))
    assert shift.offset_sd_c(TOMORROW, courses).shape == (5, 14)


def test_a_zones_readings_move_that_zone_more_than_its_yard_and_the_yard_more_than_nothing():
    readings = [Reading(TODAY - timedelta(days=d), 13.0, 0.6, "strip") for d in (0, 3, 6)]
    strip, yard, back = (
        fit_yard(readings, cell_at(), zone).offset_c(TOMORROW, ahead(days=1))[0]
        for zone in ("strip", None, "back")
    )
    assert strip > yard > 0
    assert back == pytest.approx(yard)


def test_a_strip_is_believed_hot_until_its_own_thermometer_speaks():
    believed = {"strip": 2.0}
    before = fit_yard([], cell_at(), "strip", expected_c=believed)
    assert before.offset_c(TOMORROW, ahead(days=1))[0] == pytest.approx(2.0)
    cool = [Reading(TODAY - timedelta(days=d), 10.0, 0.6, "strip") for d in (0, 3, 6)]
    after = fit_yard(cool, cell_at(), "strip", expected_c=believed)
    assert after.offset_c(TOMORROW, ahead(days=1))[0] < 1.0


def test_a_hot_strips_reading_that_is_as_hot_as_believed_says_nothing_of_the_yard():
    reading = [Reading(TODAY, 12.0, 0.6, "strip")]
    yard = fit_yard(reading, cell_at(), expected_c={"strip": 2.0})
    assert yard.offset_c(TOMORROW, ahead(days=1))[0] == pytest.approx(0.0)


def test_readings_on_days_the_cell_knows_nothing_of_are_left_out():
    cell = cell_at()
    cell.soil5_c[-40:-20] = np.nan
    old = Reading(TODAY - timedelta(days=30), 14.0, 0.6)
    assert fit_yard([old], cell).readings == 0
    assert fit_yard([Reading(TODAY + timedelta(days=3), 14.0, 0.6)], cell).readings == 0


def test_a_reading_far_off_is_asked_about_with_what_was_expected():
    shift = fit_yard([], cell_at(10.0))
    asked = shift.check(TODAY, 10.0, 22.0, 0.05, 16.0)
    assert asked.is_surprising
    assert asked.low_c < 10.0 < asked.high_c < 22.0
    assert not shift.check(TODAY, 10.0, 12.5, 0.05, 16.0).is_surprising
    assert shift.check(TODAY, 10.0, float("nan")).is_surprising


def test_expected_range_is_told_as_the_thermometer_would_show_it():
    shift = fit_yard([], cell_at(10.0))
    dawn = shift.check(TODAY, 10.0, 10.0, 0.05, 6.0)
    afternoon = shift.check(TODAY, 10.0, 10.0, 0.05, 16.0)
    assert dawn.low_c < afternoon.low_c
    assert dawn.high_c < afternoon.high_c


def test_what_a_yard_has_shown_before_no_longer_surprises():
    readings = [Reading(TODAY - timedelta(days=d), 14.0, 0.6) for d in (1, 4, 8, 12)]
    stranger, known = fit_yard([], cell_at()), fit_yard(readings, cell_at())
    assert stranger.check(TODAY, 10.0, 16.0, 0.05, 10.0).is_surprising
    assert not known.check(TODAY, 10.0, 16.0, 0.05, 10.0).is_surprising


def test_of_what_the_cell_stands_off_its_own_air_the_yard_shares_only_a_part():
    cell = cell_at()
    explained = cell.soil5_c - 2.0
    shift = fit_yard([], cell, explained_c=explained)
    told = shift.offset_c(TOMORROW, ahead(), ahead(8.0))
    assert told == pytest.approx(-0.4 * 2.0)
    # Where no air is forecast the newest excess stands.
    assert shift.offset_c(TOMORROW, ahead()) == pytest.approx(told)
    assert fit_yard([], cell).offset_c(TOMORROW, ahead(), ahead(10.0)) == pytest.approx(0.0)


def test_readings_outvote_what_the_cells_air_suggests():
    cell = cell_at()
    readings = [Reading(TODAY - timedelta(days=d), 10.0, 0.6) for d in range(0, 20, 2)]
    shift = fit_yard(readings, cell, explained_c=cell.soil5_c - 2.0)
    assert abs(shift.offset_c(TOMORROW, ahead(days=1))[0]) < 0.25


# Measured: pairs of U.S. Climate Reference Network stations a few miles apart (Bell et al. 2013).
@pytest.mark.shared_data
@pytest.mark.skipif(not SOIL.is_dir(), reason="no station records beside the repository")
def test_five_readings_take_three_tenths_off_the_error_of_neighbouring_stations():
    from tests.bench.soil_from_air import stations
    from tests.bench.yard_correction import paired_errors, ratio

    pairs = paired_errors({s.name: s for s in stations()})
    raw, corrected, standard = (np.concatenate(part) for part in zip(*pairs, strict=True))
    assert ratio(raw, corrected) < 0.70
    assert 0.75 < np.mean(np.abs(standard) < 1.2816) < 0.90
