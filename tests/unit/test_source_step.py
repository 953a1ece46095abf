"""A source that steps away from its own past is noticed, and one that does not is not."""

from datetime import date

import numpy as np
import pytest

from jobs.agronomy.source_step import SourceStep, shared_step_c, source_step
from tests.unit.made_soil import made_series, nonsense_after, with_soil

LATITUDE = 41.0
ISSUED = date(2016, 4, 15)


def told_c(series, issued):
    found = source_step(series, issued, LATITUDE)
    return None if found is None or not found.is_sure else found.step_c


def stepped(by_c, since, **made):
    series = made_series(noise_c=1.0, **made)
    is_after = np.arange(len(series)) >= (since - series.first_day).days
    return with_soil(series, series.soil5_c + by_c * is_after)


@pytest.mark.parametrize("by_c", [2.0, -2.0])
@pytest.mark.parametrize("since", [date(2016, 1, 1), date(2016, 2, 1)])
def test_a_step_of_the_year_is_found_with_its_size(by_c, since):
    found = told_c(stepped(by_c, since), ISSUED)
    assert found == pytest.approx(by_c, abs=0.5)


def test_a_source_that_keeps_to_its_past_is_left_alone():
    found = [told_c(made_series(noise_c=1.0, seed=seed), ISSUED) for seed in range(8)]
    assert found == [None] * 8


def test_a_source_that_was_always_off_has_not_stepped():
    assert told_c(stepped(2.0, date(2009, 6, 1)), ISSUED) is None


def test_nothing_is_said_of_a_source_with_few_years_or_without_air():
    series = stepped(2.0, date(2016, 1, 1), first=date(2013, 6, 1))
    assert told_c(series, ISSUED) is None
    blind = stepped(2.0, date(2016, 1, 1))
    for column in (blind.tmean_c, blind.tmin_c, blind.tmax_c):
        column[:] = np.nan
    assert told_c(blind, ISSUED) is None


def test_later_days_are_not_looked_at():
    series = stepped(2.0, date(2016, 1, 1))
    later = nonsense_after(series, ISSUED)
    assert told_c(later, ISSUED) == told_c(series, ISSUED)


def test_a_leap_day_has_its_past():
    found = told_c(stepped(2.0, date(2015, 12, 1)), date(2016, 2, 29))
    assert found == pytest.approx(2.0, abs=0.6)


def test_what_eight_places_share_is_a_step_of_the_source():
    small = [SourceStep(step_c, 0.7) for step_c in (0.2, 1.4, 0.9, 0.6, 1.1, 1.3, 0.4, 0.9)]
    assert not any(step.is_sure for step in small)
    assert shared_step_c(small) == pytest.approx(0.85)
    assert shared_step_c(small[:7]) is None


def test_what_goes_either_way_at_many_places_is_none():
    assert shared_step_c([SourceStep(1.9 * (-1) ** n, 0.5) for n in range(12)]) is None
