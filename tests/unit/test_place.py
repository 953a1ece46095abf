"""Where the simple picture of spring fails: kinds of spring, zones, published dates."""

from datetime import date
from pathlib import Path

import numpy as np
import pytest

from jobs.agronomy import place, tables
from jobs.agronomy.climatology import fit_climate

SOIL = Path(__file__).resolve().parents[3] / "shared" / "data" / "soil"


def year(mean_c: float, amplitude_c: float, coldest: int = 25) -> np.ndarray:
    return mean_c - amplitude_c * np.cos(2 * np.pi * (np.arange(366) - coldest) / 366)


# Invented years; the kinds follow Missouri- to Gulf-like figures, common practice, no source.
@pytest.mark.parametrize(
    ("mean_c", "amplitude_c", "kind", "why"),
    [
        (13.0, 12.5, "clear", None),
        (9.0, 16.0, "short", None),
        (18.4, 10.0, "mild", None),
        (20.0, 9.0, "none", "never_cold"),
        (10.5, 5.0, "none", "slow_rise"),
        (5.0, 6.0, "none", "never_warm"),
    ],
)
def test_a_place_gets_the_kind_of_spring_its_mean_year_shows(mean_c, amplitude_c, kind, why):
    picture = place.spring_picture(year(mean_c, amplitude_c))
    assert (picture.kind, picture.why_none) == (kind, why)


# Closed form: a sine of mean 13 and amplitude 12.5 crosses 10 and 12.78 °C where arccos says.
def test_days_in_the_band_are_those_of_the_closed_form():
    mean_c, amplitude_c, coldest = 13.0, 12.5, 25
    crossing = [
        coldest + 366 / (2 * np.pi) * np.arccos((mean_c - level) / amplitude_c)
        for level in place.BAND_C
    ]
    picture = place.spring_picture(year(mean_c, amplitude_c, coldest))
    assert picture.band_from == int(np.ceil(crossing[0]))
    assert picture.band_days == pytest.approx(crossing[1] - crossing[0], abs=1)


# 42 degree-days over 12 °C (Fidanza, Dernoeden & Zhang 1996, Crop Sci. 36:990-996), counted here
# by hand: 12 days at 15.5 °C make exactly 42.
def test_emergence_in_the_mean_year_is_counted_from_march():
    mean_c = np.full(366, 5.0)
    mean_c[100:] = 15.5
    assert place.emergence_day(mean_c) == 111
    mean_c[40:60] = 20.0
    assert place.emergence_day(mean_c) == 111
    assert place.emergence_day(mean_c, (2, 1)) == 45


def test_where_march_is_warm_the_count_starts_at_the_coldest_day():
    assert place.count_start(year(13.0, 12.5)) == (3, 1)
    month, day = place.count_start(year(18.4, 9.5, coldest=17))
    assert (month, day) == (1, 18)


def test_a_mean_year_with_gaps_is_refused():
    gappy = year(13.0, 12.5)
    gappy[10] = np.nan
    with pytest.raises(ValueError, match="366"):
        place.spring_picture(gappy)
    with pytest.raises(ValueError, match="366"):
        place.spring_picture(gappy[:365])


def test_a_strip_ten_days_ahead_in_spring_is_two_degrees_warmer():
    mean_c = year(13.0, 12.5)
    warmer = place.degrees_of_days(mean_c, 10.0, 110)
    assert warmer == pytest.approx(2.1, abs=0.1)


def test_a_hot_strip_is_believed_warmer_and_shade_cooler():
    mean_c = year(13.0, 12.5)
    assert 1.0 < place.zone_offset_c(mean_c, "hot_strip") < 3.0
    assert -3.0 < place.zone_offset_c(mean_c, "shade") < -0.5


def test_every_exposure_says_where_its_days_come_from():
    for lead in place.exposure_leads().values():
        assert lead.source
        assert lead.certainty in {"F", "M", "P", "S"}


def test_the_strip_goes_first_and_the_rest_together():
    turns = place.turns({"front": 24.0, "strip": 12.0, "back": 27.0, "shade": 33.0})
    assert [t.zones for t in turns] == [("strip",), ("front", "back"), ("shade",)]
    assert [t.days_left for t in turns] == [12.0, 24.0, 33.0]
    assert place.turns({}) == ()


# Published: K-State 2005, 2016; Univ. of Kentucky 2014; Univ. of Nebraska (Reicher); Univ. of
# Delaware 2009; Univ. of Arkansas 2009; P. Byers, MU Ext. 2016.
@pytest.mark.parametrize(
    ("lat", "lon", "region", "first", "last"),
    [
        (39.10, -96.61, "Kansas", (4, 15), (4, 15)),
        (37.25, -95.70, "south-eastern Kansas", (3, 21), (3, 31)),
        (37.25, -86.23, "central Kentucky", None, (4, 15)),
        (40.85, -96.57, "eastern Nebraska", (4, 20), (5, 10)),
        (39.70, -75.60, "northern Delaware", (3, 15), (4, 15)),
        (34.75, -92.30, "central Arkansas", (3, 1), (3, 1)),
        (37.20, -93.30, "south-western Missouri (Ozarks)", None, (4, 1)),
    ],
)
def test_published_regional_dates_are_found_by_place(lat, lon, region, first, last):
    found = place.regional_date(lat, lon)
    assert (found.region, found.first, found.last) == (region, first, last)
    assert found.speaks == "apply"


def test_no_date_is_made_up_where_none_is_published():
    assert place.regional_date(44.0, -121.0) is None
    assert place.regional_date(-33.9, 151.2) is None


def test_every_published_date_is_whole_and_has_its_source():
    for row in tables.load("regional_dates")["regions"]:
        south, west, north, east = row["box"]
        assert south < north
        assert west < east
        assert row["source"]
        assert row["speaks"] in {"apply", "germination"}
        first = date(2001, *row.get("first", row["last"]))
        assert first <= date(2001, *row["last"])


# Measured: U.S. Climate Reference Network (Bell et al. 2013).
@pytest.mark.shared_data
@pytest.mark.skipif(not SOIL.is_dir(), reason="no station records beside the repository")
def test_measured_climates_get_the_spring_one_would_expect():
    from jobs.sources.recorded import read_station

    def kind(name: str) -> str:
        station = read_station(SOIL / f"{name}.csv.gz")
        return place.spring_picture(fit_climate(station.series, lat=station.lat).mean_c).kind

    assert kind("KS_Manhattan_6_SSW") == "clear"
    assert kind("KY_Bowling_Green_21_NNE") == "clear"
    assert kind("LA_Monroe_26_N") == "mild"
    assert kind("MN_Goodridge_12_NNW") == "short"
    assert kind("ME_Limestone_4_NNW") == "short"
