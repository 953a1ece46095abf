import numpy as np
import pandas as pd
import pytest
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays

from jobs.agronomy.soil import (
    degree_days,
    degree_days_max_min,
    fill_short_gaps,
    first_at_or_above,
    last_known,
    trailing_mean,
)

temperatures = st.one_of(st.just(float("nan")), st.floats(-30, 45))


@given(arrays(float, st.integers(0, 40), elements=temperatures), st.integers(1, 9))
def test_trailing_mean_is_pandas_rolling_mean(values, days):
    # pandas, an independent general-purpose library.
    wanted = [
        values[i - days + 1 : i + 1].mean() if i >= days - 1 else np.nan for i in range(len(values))
    ]
    rolled = pd.Series(values).rolling(days, min_periods=days).mean().to_numpy()
    np.testing.assert_allclose(trailing_mean(values, days), wanted, atol=1e-9)
    np.testing.assert_allclose(trailing_mean(values, days), rolled, atol=1e-6)


def test_trailing_mean_of_many_places_is_each_ones_own():
    many = np.arange(24.0).reshape(2, 12) ** 1.5
    np.testing.assert_array_equal(trailing_mean(many)[1], trailing_mean(many[1]))


@given(arrays(float, st.integers(0, 40), elements=temperatures))
def test_short_gaps_are_filled_as_pandas_does_and_long_ones_not(values):
    filled = fill_short_gaps(values, 4)
    straight = pd.Series(values).interpolate(limit_area="inside").to_numpy()
    missing = np.isnan(values)
    run = pd.Series(missing).groupby((~pd.Series(missing)).cumsum()).transform("sum").to_numpy()
    inside = missing & ~np.isnan(straight)
    np.testing.assert_allclose(filled[inside & (run <= 4)], straight[inside & (run <= 4)])
    assert np.isnan(filled[missing & (run > 4)]).all()
    np.testing.assert_array_equal(filled[~missing], values[~missing])


def test_a_gap_at_the_end_is_not_guessed():
    assert np.isnan(fill_short_gaps([5.0, 6.0, np.nan])[-1])


def test_newest_known_value_is_found():
    assert last_known([1.0, 2.0, np.nan]) == 1
    assert last_known([np.nan]) is None
    assert last_known([]) is None


def test_first_day_at_a_threshold():
    np.testing.assert_array_equal(first_at_or_above([[1, 3, 2, 5], [np.nan, 1, 2, 2]], 3), [1, -1])
    assert first_at_or_above(np.empty((2, 0)), 3).tolist() == [-1, -1]


def test_degree_days_of_the_published_examples():
    # Virginia Tech 2007: GDD50 of maximum 75, minimum 27 is 1; a cold day counts nothing.
    assert degree_days_max_min(75.0, 27.0, 50.0) == pytest.approx(1.0)
    assert degree_days_max_min(60.0, 30.0, 50.0) == 0.0


def test_fidanzas_first_emergence_in_fahrenheit_degree_days():
    # Fidanza, Dernoeden & Zhang 1996: 42 degree-days (°C) are 76 (°F); 1.8 by definition.
    days_c = degree_days(np.full(14, 15.0), 12.0)
    days_f = degree_days(np.full(14, 59.0), 53.6)
    assert days_c.sum() == pytest.approx(42.0)
    assert days_f.sum() == pytest.approx(75.6)
