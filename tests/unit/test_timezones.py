from datetime import timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from jobs.sources.timezones import (
    UnknownZone,
    is_zone,
    standard_offset,
    standard_offset_at,
    zone_at,
    zone_named,
)


# The IANA time zone database assigns these places; offsets are its standard time.
@pytest.mark.parametrize(
    ("lat", "lon", "zone", "hours"),
    [
        (39.10, -96.61, "America/Chicago", -6),
        (42.68, -108.67, "America/Denver", -7),
        (33.45, -112.07, "America/Phoenix", -7),
        (41.79, -73.74, "America/New_York", -5),
        (-37.81, 144.96, "Australia/Melbourne", 10),
        (53.35, -6.26, "Europe/Dublin", 0),
        (28.61, 77.21, "Asia/Kolkata", 5.5),
    ],
)
def test_a_place_has_its_zone_and_standard_time(lat, lon, zone, hours):
    assert zone_at(lat, lon) == zone
    assert standard_offset(zone) == timedelta(hours=hours)
    assert standard_offset_at(lat, lon) == timedelta(hours=hours)


def test_at_sea_the_nautical_zone_of_the_longitude_serves():
    assert standard_offset_at(0.0, -150.0) == timedelta(hours=-10)
    assert standard_offset_at(-40.0, 80.0) == timedelta(hours=5)


def test_where_the_map_has_no_answer_longitude_decides(monkeypatch):
    monkeypatch.setattr("jobs.sources.timezones.tzfpy.get_tz", lambda lon, lat: "")
    assert zone_at(10.0, -76.0) == "Etc/GMT+5"
    assert zone_at(10.0, 2.0) == "Etc/GMT"
    assert standard_offset_at(10.0, 179.9) == timedelta(hours=12)


@given(st.floats(-90, 90), st.floats(-180, 180))
def test_every_place_on_the_globe_has_a_zone(lat, lon):
    assert is_zone(zone_at(lat, lon))
    assert timedelta(hours=-12) <= standard_offset_at(lat, lon) <= timedelta(hours=14)


@pytest.mark.parametrize(("lat", "lon"), [(91, 0), (0, 181), (float("nan"), 0)])
def test_a_point_off_the_globe_is_refused(lat, lon):
    with pytest.raises(ValueError, match="no place on the globe"):
        zone_at(lat, lon)


def test_people_may_name_a_zone_loosely():
    assert zone_named("america/chicago") == "America/Chicago"
    assert zone_named(" New York ") == "America/New_York"
    assert zone_named("Narnia") is None


def test_an_unknown_zone_has_no_offset():
    with pytest.raises(UnknownZone, match="Narnia"):
        standard_offset("Narnia")
    assert not is_zone("../etc/passwd")
