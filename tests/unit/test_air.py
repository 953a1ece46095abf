"""Soil from air: against closed forms, a shipped weather year and the measured stations."""

from datetime import date

import numpy as np
import pytest

from jobs.agronomy import air
from jobs.agronomy.sun import extraterrestrial_radiation

DAYS = 800
FIRST = date(2021, 1, 1)


def steady(celsius: float) -> tuple[np.ndarray, np.ndarray, np.ndarray, np.ndarray]:
    level = np.full(DAYS, celsius)
    return level, level - 5, level + 5, np.zeros(DAYS)


# FAO-56 (Allen et al. 1998), example 8: 3 September at 20 degrees south, 32.2 MJ/m²/day.
def test_radiation_above_the_air_matches_the_worked_example():
    got = extraterrestrial_radiation([246], -20.0)
    assert got[0] == pytest.approx(32.2, abs=0.05)


def test_soil_follows_steady_warm_air_within_a_few_degrees_at_any_latitude():
    for latitude in (-45.0, -30.0, 0.0, 30.0, 45.0, 60.0):
        soil = air.soil_from_air(*steady(15.0), FIRST, latitude)[400:]
        assert np.all(np.abs(soil - 15.0) < 4.5)


def test_spring_is_spring_south_of_the_equator_too():
    soil = air.soil_from_air(*steady(15.0), FIRST, -40.0)
    north = air.soil_from_air(*steady(15.0), FIRST, 40.0)
    half_a_year = 183
    assert soil[400 : 400 + 180] == pytest.approx(north[400 + half_a_year :][:180], abs=1.0)


def test_a_gap_of_two_days_is_bridged_and_a_long_one_is_admitted():
    mean, low, high, rain = steady(10.0)
    for column in (mean, low, high):
        column[500:502] = np.nan
        column[600:620] = np.nan
    soil = air.soil_from_air(mean, low, high, rain, FIRST, 40.0)
    assert np.isfinite(soil[:600]).all()
    assert np.isnan(soil[610])
    assert np.isfinite(soil[620:]).all()


def test_many_places_at_once_give_what_each_gives_alone():
    rng = np.random.default_rng(7)
    mean = rng.normal(8, 6, (3, 120))
    rain = rng.exponential(2, (3, 120))
    latitudes = np.array([30.0, 40.0, -35.0])
    together = air.soil_from_air(mean, mean - 4, mean + 4, rain, FIRST, latitudes)
    alone = [
        air.soil_from_air(mean[i], mean[i] - 4, mean[i] + 4, rain[i], FIRST, latitudes[i])
        for i in range(3)
    ]
    assert together == pytest.approx(np.stack(alone))
