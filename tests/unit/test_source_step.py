"""A source that steps away from its own past is noticed, and one that does not is not."""

from datetime import date

import numpy as np
import pytest

from jobs.agronomy.source_step import source_step_c
from tests.unit.made_soil import made_series, nonsense_after, with_soil

LATITUDE = 41.0
ISSUED = date(2016, 4, 15)


def stepped(by_c, since, **made):
    series = made_series(noise_c=1.0, **made)
    is_after = np.arange(len(series)) >= (since - series.first_day).days
    return with_soil(series, series.soil5_c + by_c * is_after)


@pytest.mark.parametrize("by_c", [2.0, -2.0])
@pytest.mark.parametrize("since", [date(2016, 1, 1), date(2016, 2, 1)])
def test_a_step_of_the_year_is_found_with_its_size(by_c, since):
    found = source_step_c(stepped(by_c, since), ISSUED, LATITUDE)
    assert found == pytest.approx(by_c, abs=0.5)


def test_a_source_that_keeps_to_its_past_is_left_alone():
    found = [
        source_step_c(made_series(noise_c=1.0, seed=seed), ISSUED, LATITUDE) for seed in range(8)
    ]
    assert found == [None] * 8


def test_a_source_that_was_always_off_has_not_stepped():
    assert source_step_c(stepped(2.0, date(2009, 6, 1)), ISSUED, LATITUDE) is None


def test_nothing_is_said_of_a_source_with_few_years_or_without_air():
    series = stepped(2.0, date(2016, 1, 1), first=date(2013, 6, 1))
    assert source_step_c(series, ISSUED, LATITUDE) is None
    blind = stepped(2.0, date(2016, 1, 1))
    for column in (blind.tmean_c, blind.tmin_c, blind.tmax_c):
        column[:] = np.nan
    assert source_step_c(blind, ISSUED, LATITUDE) is None


def test_later_days_are_not_looked_at():
    series = stepped(2.0, date(2016, 1, 1))
    later = nonsense_after(series, ISSUED)
    assert source_step_c(later, ISSUED, LATITUDE) == source_step_c(series, ISSUED, LATITUDE)


def test_a_leap_day_has_its_past():
    found = source_step_c(stepped(2.0, date(2015, 12, 1)), date(2016, 2, 29), LATITUDE)
    assert found == pytest.approx(2.0, abs=0.6)
