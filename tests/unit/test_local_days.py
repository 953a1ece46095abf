from datetime import UTC, date, datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from jobs.local_days import (
    LOOK_AT,
    calendar_day,
    local,
    next_look_at,
    season_day,
)

ZONES = (
    "America/Chicago",
    "Asia/Kolkata",
    "Australia/Melbourne",
    "Europe/London",
    "Asia/Kathmandu",
)
instants = st.integers(0, 4 * 365 * 24 * 60).map(
    lambda minutes: datetime(2024, 1, 1, tzinfo=UTC) + timedelta(minutes=minutes)
)


@given(instants, st.sampled_from(ZONES))
def test_the_next_look_is_the_coming_eight_in_the_morning_there(now: datetime, zone: str) -> None:
    look = next_look_at(now, zone)
    assert timedelta(0) < look - now <= timedelta(hours=25)
    assert local(look, zone).time() == LOOK_AT


# Clock changes of the IANA database: US spring 8 March 2026, London autumn 25 October 2026.
@pytest.mark.parametrize(
    ("zone", "before", "hours"),
    [
        ("America/Chicago", datetime(2026, 3, 7, 14, tzinfo=UTC), 23),
        ("Europe/London", datetime(2026, 10, 24, 7, tzinfo=UTC), 25),
    ],
)
def test_looks_keep_to_the_wall_clock_over_a_clock_change(zone, before, hours) -> None:
    first = next_look_at(before - timedelta(seconds=1), zone)
    assert next_look_at(first, zone) - first == timedelta(hours=hours)


def test_half_hour_zones_are_looked_at_on_their_own_clock() -> None:
    look = next_look_at(datetime(2026, 3, 1, tzinfo=UTC), "Asia/Kolkata")
    assert look == datetime(2026, 3, 1, 2, 30, tzinfo=UTC)


@given(st.dates(date(2000, 1, 1), date(2100, 1, 1)), st.floats(-60, 60))
def test_season_days_go_back_to_the_calendar(day: date, lat: float) -> None:
    assert calendar_day(season_day(day, lat), lat) == day


def test_the_southern_first_of_september_is_read_as_early_march() -> None:
    assert season_day(date(2026, 9, 1), -37.0) == date(2027, 3, 2)
    assert season_day(date(2026, 9, 1), 37.0) == date(2026, 9, 1)
