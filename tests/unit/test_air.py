"""Soil from air: against published forms, a shipped weather year and the measured stations."""

from datetime import date, timedelta
from pathlib import Path

import numpy as np
import pvlib
import pytest
from scipy.signal import lfilter

from jobs.agronomy import air
from jobs.agronomy.air_terms import air_terms
from jobs.agronomy.heat import MOIST_LOAM_M2_S
from jobs.agronomy.memory import faded_mean, faded_sum
from jobs.agronomy.series import DailySeries
from jobs.agronomy.sun import daylight, extraterrestrial_radiation
from tests.bench import published_models as published

DAYS = 800
FIRST = date(2021, 1, 1)
SOIL = Path(__file__).resolve().parents[3] / "shared" / "data" / "soil"


def steady(celsius: float) -> tuple[np.ndarray, np.ndarray, np.ndarray, np.ndarray]:
    level = np.full(DAYS, celsius)
    return level, level - 5, level + 5, np.zeros(DAYS)


@pytest.fixture(scope="module")
def greensboro() -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Daily mean, lowest and highest air of the typical year shipped with pvlib, twice over."""
    path = Path(pvlib.__file__).parent / "data" / "723170TYA.CSV"
    data, _ = pvlib.iotools.read_tmy3(path, map_variables=True)
    hourly = np.tile(data["temp_air"].to_numpy(float).reshape(365, 24), (2, 1))
    return hourly.mean(axis=1), hourly.min(axis=1), hourly.max(axis=1)


def annual_wave(values: np.ndarray) -> tuple[float, float, float]:
    """Mean, amplitude and day of the lowest point of the yearly harmonic."""
    angle = 2 * np.pi * np.arange(len(values)) / 365
    mean = values.mean()
    c, s = 2 * np.mean(values * np.cos(angle)), 2 * np.mean(values * np.sin(angle))
    return mean, float(np.hypot(c, s)), float((np.arctan2(-s, -c) / (2 * np.pi) * 365) % 365)


# FAO-56 (Allen et al. 1998), example 8: 3 September at 20 degrees south, 32.2 MJ/m²/day.
def test_radiation_above_the_air_matches_the_worked_example():
    assert extraterrestrial_radiation([246], -20.0)[0] == pytest.approx(32.2, abs=0.05)


# Reference: the solar position algorithm of Reda & Andreas 2004 as built into pvlib.
@pytest.mark.parametrize(
    ("lat", "lon"), [(36.1, -80.0), (47.0, -68.0), (-35.3, 149.1), (60.2, 24.9)]
)
def test_sunrise_and_sunset_agree_with_a_solar_position_library(lat, lon):
    for day in (date(2024, 1, 10), date(2024, 3, 20), date(2024, 6, 21), date(2024, 11, 3)):
        rise, fall = daylight(day, lat, lon)
        zenith = pvlib.solarposition.get_solarposition([rise, fall], lat, lon)["zenith"]
        # 90.833 degrees at the event; a degree of zenith is 4 to 10 minutes here.
        assert zenith.to_numpy() == pytest.approx(90.833, abs=0.05)
        assert timedelta(0) < fall - rise < timedelta(hours=24)


def test_there_is_neither_sunrise_nor_sunset_in_the_polar_night():
    assert daylight(date(2024, 12, 21), 75.0, 20.0) is None


# Reference: scipy.signal.lfilter, the same recursion day by day.
def test_fading_memory_equals_the_recursive_filter():
    rng = np.random.default_rng(3)
    values = rng.normal(size=(2, 500))
    for keep in (0.3, 0.9, 0.99):
        expected = lfilter([1.0], [1.0, -keep], values, axis=-1)
        assert faded_sum(values, keep) == pytest.approx(expected, abs=1e-9)


def test_fading_average_carries_on_from_where_it_stood():
    rng = np.random.default_rng(4)
    values = rng.normal(10, 3, 900)
    whole = faded_mean(values, 10.0)
    assert faded_mean(values[700:], 10.0, start=whole[699])[50:] == pytest.approx(whole[750:])


def test_snow_lies_in_the_cold_and_goes_with_the_thaw():
    mean = np.concatenate([np.full(20, -5.0), np.full(20, 8.0)])
    rain = np.where(np.arange(40) < 10, 6.0, 0.0)
    cover = air_terms(mean, mean - 3, mean + 3, rain, FIRST, 45.0)["cover"]
    assert np.all(np.diff(cover[:10]) > 0)
    assert cover[19] > 0.99
    # 60 mm at 3 mm per degree-day over 0.5 °C is gone in three days at 8 °C.
    assert cover[21] > 0
    assert np.all(cover[22:] == 0)


def test_soil_follows_steady_air_within_a_few_degrees_at_any_latitude():
    for latitude in (-45.0, -30.0, 0.0, 30.0, 45.0, 60.0):
        soil = air.soil_from_air(*steady(15.0), FIRST, latitude)[400:]
        assert np.all(np.abs(soil - 15.0) < 4.5)


def test_spring_is_spring_south_of_the_equator_too():
    south = air.soil_from_air(*steady(15.0), FIRST, -40.0)
    north = air.soil_from_air(*steady(15.0), FIRST, 40.0)
    half_a_year = 183
    assert south[400:580] == pytest.approx(north[400 + half_a_year :][:180], abs=1.0)


def test_a_short_gap_is_bridged_and_a_long_one_is_admitted():
    mean, low, high, rain = steady(10.0)
    for column in (mean, low, high):
        column[500:502] = np.nan
        column[600:620] = np.nan
    soil = air.soil_from_air(mean, low, high, rain, FIRST, 40.0)
    assert np.isfinite(soil[:605]).all()
    assert np.isnan(soil[605:620]).all()
    assert np.isfinite(soil[620:]).all()


def test_a_missing_mean_is_taken_from_the_extremes():
    mean, low, high, rain = steady(10.0)
    without = air.soil_from_air(np.full(DAYS, np.nan), low, high, rain, FIRST, 40.0)
    assert without == pytest.approx(air.soil_from_air(mean, low, high, rain, FIRST, 40.0))


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


def test_more_elevation_means_a_little_more_sun():
    low = air.soil_from_air(*steady(15.0), FIRST, 40.0, 300.0)
    high = air.soil_from_air(*steady(15.0), FIRST, 40.0, 2300.0)
    assert low == pytest.approx(air.soil_from_air(*steady(15.0), FIRST, 40.0))
    assert np.all(high[100:250] > low[100:250])


def year_wave(day_number, depth_m, mean_c, amplitude_c, coldest_day):
    """The surface's yearly sine as it comes to a depth (Kasuda & Achenbach 1965; from memory)."""
    depths = depth_m / np.sqrt(MOIST_LOAM_M2_S * 365 * 86_400 / np.pi)
    turned = 2 * np.pi * (np.asarray(day_number) - coldest_day) / 365 - depths
    return mean_c - amplitude_c * np.exp(-depths) * np.cos(turned)


# Kasuda & Achenbach 1965 (closed-form yearly wave; from memory) under the typical year of
# Greensboro, North Carolina, shipped in pvlib: soil at 5 cm is the air's wave hardly damped
# (0.98) and hardly late (1.3 days), a little warmer than air for the sun.
def test_soil_of_greensboro_keeps_to_the_closed_form_yearly_wave(greensboro):
    mean, low, high = greensboro
    soil = air.soil_from_air(mean, low, high, np.zeros(730), date(2022, 1, 1), 36.1, 273.0)
    wave = annual_wave(mean[365:])
    closed = year_wave(np.arange(365), 0.05, *wave)
    closed_mean, closed_amplitude, closed_coldest = annual_wave(closed)
    soil_mean, soil_amplitude, soil_coldest = annual_wave(soil[365:])
    assert 0 < soil_mean - closed_mean < 3
    assert soil_amplitude == pytest.approx(closed_amplitude, rel=0.12)
    assert 0 < soil_coldest - closed_coldest < 8
    # Weather, not depth, is what stands off the wave.
    assert np.std(soil[365:] - closed) < np.std(mean[365:] - closed)


# Biome-BGC 4.1.1 (Thornton 2000): air 0..10 °C, oldest first, gives 440/66.
def test_published_eleven_day_mean_gives_its_check_value():
    got = published.eleven_day_weighted_mean(np.arange(11.0))[-1]
    assert got == pytest.approx(6.667, abs=0.001)


# Zheng, Hunt & Running 1993, Clim. Res. 2:183-191 (step form from memory).
def test_published_damped_step_gives_its_check_values():
    assert published.zheng_step(8.0, 14.0) == pytest.approx(8.6099, abs=1e-4)
    assert published.zheng_step(8.0, 4.0) == pytest.approx(7.0)


# SWAT (Neitsch et al. 2011, TR-406): the worked chain for bulk density 1.4, 150 mm of water.
def test_published_swat_step_gives_its_check_values():
    damping = published.swat_damping_depth_mm(1.4, 150.0, 1000.0)
    bare = published.swat_bare_surface_c(14.0, 20.0, 8.0, 18.0)
    assert damping == pytest.approx(3108.6, abs=0.1)
    assert bare == pytest.approx(13.958, abs=0.001)
    assert published.swat_step(10.0, bare, 12.0, 50.0, damping) == pytest.approx(10.7767, abs=1e-4)


def invented_place(offset_c: float, days: int = 1500) -> DailySeries:
    """A place whose soil is the generic form plus a steady offset and noise."""
    rng = np.random.default_rng(11)
    wave = 10 - 12 * np.cos(2 * np.pi * (np.arange(days) - 20) / 365.25)
    mean = wave + faded_mean(rng.normal(0, 8, days), 3.0)
    rain = rng.exponential(2.5, days) * (rng.random(days) < 0.3)
    soil = air.soil_from_air(mean, mean - 5, mean + 5, rain, FIRST, 40.0)
    soil = soil + offset_c + rng.normal(0, 0.3, days)
    return DailySeries(FIRST, soil, mean, mean - 5, mean + 5, rain)


def test_a_place_that_runs_warm_is_learned_from_its_own_years():
    place = invented_place(2.0)
    past, coming = (
        place.between(FIRST, date(2023, 12, 31)),
        place.between(date(2023, 10, 1), date(2024, 12, 31)),
    )
    fitted = air.fit_soil_from_air(past, 40.0)
    error = (fitted.apply(coming) - coming.soil5_c)[92:]
    assert abs(error.mean()) < 0.15
    assert np.sqrt(np.mean(error**2)) < 0.45


def test_the_less_history_the_closer_to_the_generic_form():
    place = invented_place(2.0)
    learned = []
    for days in (90, 180, 1000):
        fitted = air.fit_soil_from_air(place.between(FIRST, FIRST + timedelta(days=days)), 40.0)
        generic = air.FittedSoil(40.0, air.GENERIC, 0, 0.0, 0 * fitted.weights)
        learned.append(np.mean((fitted.apply(place) - generic.apply(place))[-365:]))
    assert 0.2 < learned[0] < learned[1] < learned[2] < 2.2


def test_without_any_soil_of_its_own_a_place_gets_the_generic_form():
    place = invented_place(2.0)
    blank = DailySeries(
        FIRST, np.full(len(place), np.nan), place.tmean_c, place.tmin_c, place.tmax_c, place.rain_mm
    )
    fitted = air.fit_soil_from_air(blank, 40.0)
    assert fitted.days == 0
    assert fitted.apply(place) == pytest.approx(
        air.soil_from_air(place.tmean_c, place.tmin_c, place.tmax_c, place.rain_mm, FIRST, 40.0)
    )


def test_fitting_the_generic_form_on_nothing_says_so():
    from tests.bench.soil_from_air import fit_generic

    with pytest.raises(ValueError, match="no day has both"):
        fit_generic([DailySeries.missing(FIRST, 100)], [40.0])


# Measured: U.S. Climate Reference Network (Diamond et al. 2013; Bell et al. 2013).
@pytest.mark.shared_data
@pytest.mark.skipif(not SOIL.is_dir(), reason="no station records beside the repository")
def test_measured_springs_are_met_within_the_required_error():
    from tests.bench.soil_from_air import fitted_estimate, generic_estimate, spring_rmse, stations

    some = stations()[::7]
    assert np.median([spring_rmse(s, generic_estimate(s)) for s in some]) < 2.0
    assert np.median([spring_rmse(s, fitted_estimate(s)) for s in some]) < 1.5


@pytest.mark.shared_data
@pytest.mark.skipif(not SOIL.is_dir(), reason="no station records beside the repository")
def test_shipped_constants_are_those_the_pooled_stations_give():
    from tests.bench.soil_from_air import fit_generic, stations

    form = fit_generic([s.series for s in stations()], [s.lat for s in stations()])
    assert form.weights == pytest.approx(air.GENERIC.weights, abs=6e-4)
    assert form.intercept_c == pytest.approx(air.GENERIC.intercept_c, abs=6e-3)
