import gzip
from datetime import UTC, date, datetime, timedelta
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from jobs.sources.answers import distance_km
from jobs.sources.base import (
    Cell,
    CellRequest,
    SourceRefused,
)
from jobs.sources.recorded import (
    PlaceUnknown,
    RecordedSource,
    RecordUnreadable,
    read_forecasts,
    read_station,
)

SHARED_SOIL = Path(__file__).resolve().parents[3] / "shared" / "data" / "soil"
CST = timedelta(hours=-6)
HERE = (39.10, -96.61)
RECORD = """date,tmax_c,tmin_c,tmean_c,rain_mm,soil5_c,soil10_c
2020-03-01,10.0,1.0,5.0,0.0,4.0,4.5
2020-03-02,12.0,2.0,6.0,1.5,5.0,5.0
2020-03-04,,,7.0,,6.0,5.5
2020-03-05,14.0,3.0,8.0,0.0,,6.0
"""


def write(folder, text=RECORD, name="Elm_Hollow.csv"):
    path = folder / name
    path.write_bytes(gzip.compress(text.encode()) if name.endswith(".gz") else text.encode())
    return path


def ask(lat=HERE[0], lon=HERE[1], since=date(2020, 1, 1)):
    return CellRequest(Cell.at(lat, lon), CST, since)


def fetched(source, now, request=None):
    request = request or ask()
    return source.fetch([request], now)[request.cell]


@pytest.mark.parametrize("name", ["Elm_Hollow.csv", "Elm_Hollow.csv.gz"])
def test_a_record_keeps_its_calendar_with_gaps_as_missing_values(tmp_path, name):
    station = read_station(write(tmp_path, name=name), at=HERE)
    assert (station.name, station.lat, station.lon) == ("Elm_Hollow", *HERE)
    assert station.utc_offset == CST
    assert station.series.first_day == date(2020, 3, 1)
    np.testing.assert_equal(station.series.soil5_c, [4, 5, np.nan, 6, np.nan])
    np.testing.assert_equal(station.series.tmean_c, [5, 6, np.nan, 7, 8])
    np.testing.assert_equal(station.series.rain_mm, [0, 1.5, np.nan, np.nan, 0])


def test_the_index_beside_the_file_wins_over_a_place_given_by_hand(tmp_path):
    write(tmp_path, "station,lat,lon,first\nElm_Hollow,44.0,-70.0,2020-03-01\n", "INDEX.csv")
    station = read_station(write(tmp_path), at=HERE)
    assert (station.lat, station.lon) == (44.0, -70.0)
    assert station.utc_offset == timedelta(hours=-5)


def test_a_record_without_a_place_asks_for_one(tmp_path):
    with pytest.raises(PlaceUnknown, match="LAT,LON"):
        read_station(write(tmp_path))
    with pytest.raises(PlaceUnknown, match="no place on the globe"):
        read_station(write(tmp_path), at=(120.0, 0.0))


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (RECORD.replace("7.0", "warm"), "line 4, column tmean_c: 'warm' is no number"),
        (RECORD.replace("2020-03-04", "3/4/2020"), "line 4, column date: '3/4/2020' is no date"),
        (RECORD.replace("2020-03-04", "0020-03-04"), "line 4, column date"),
        (RECORD.replace("2020-03-04", "2020-03-02"), "line 4: 2020-03-02 stands there twice"),
        (RECORD.replace("soil5_c", "soil"), "line 1: no column soil5_c"),
        (RECORD.replace(",6.0,5.5", ""), "line 4: 5 fields, expected 7"),
        (RECORD.splitlines()[0], "no day in it"),
        ("", "line 1: no column date or soil5_c"),
    ],
)
def test_a_bad_record_says_which_line_and_column(tmp_path, text, said):
    with pytest.raises(RecordUnreadable, match=r"Elm_Hollow\.csv") as caught:
        read_station(write(tmp_path, text), at=HERE)
    assert said in str(caught.value)


def test_a_file_that_is_missing_or_broken_is_named(tmp_path):
    with pytest.raises(RecordUnreadable, match="there is no file"):
        read_station(tmp_path / "none.csv", at=HERE)
    broken = write(tmp_path, name="Elm_Hollow.csv.gz")
    broken.write_bytes(broken.read_bytes()[:-9])
    with pytest.raises(RecordUnreadable, match="cannot be read"):
        read_station(broken, at=HERE)


@given(st.binary(max_size=300))
def test_no_file_whatsoever_fails_in_another_way(tmp_path_factory, data):
    path = tmp_path_factory.mktemp("any") / "any.csv"
    path.write_bytes(data)
    with pytest.raises(RecordUnreadable):
        read_station(path, at=HERE)


def test_values_no_place_on_earth_ever_had_are_missing_values(tmp_path):
    text = RECORD.replace("4.0,4.5", "-9999,4.5").replace("12.0,", "inf,")
    series = read_station(write(tmp_path, text), at=HERE).series
    assert np.isnan(series.soil5_c[0])
    assert np.isnan(series.tmax_c[1])


def test_a_day_is_known_from_six_in_the_morning_of_the_next(tmp_path):
    source = RecordedSource(write(tmp_path), at=HERE)
    known_at = datetime(2020, 3, 3, 12, tzinfo=UTC)
    before = fetched(source, known_at - timedelta(seconds=1))
    after = fetched(source, known_at)
    assert before.known.last_day == date(2020, 3, 1)
    assert after.known.last_day == date(2020, 3, 2)
    assert after.observed_at == datetime(2020, 3, 3, 6, tzinfo=UTC)
    assert after.forecast is None
    assert after.hourly is None


def test_only_days_not_held_already_are_handed_over(tmp_path):
    source = RecordedSource(write(tmp_path), at=HERE)
    now = datetime(2020, 3, 9, tzinfo=UTC)
    assert fetched(source, now, ask(since=date(2020, 3, 4))).known.first_day == date(2020, 3, 4)
    nothing_new = fetched(source, now, ask(since=date(2020, 3, 9)))
    assert len(nothing_new.known) == 0
    # 4 March is the newest day whose soil was measured.
    assert nothing_new.observed_at == datetime(2020, 3, 5, 6, tzinfo=UTC)


def test_before_the_record_begins_there_is_trouble_rather_than_weather(tmp_path):
    trouble = fetched(RecordedSource(write(tmp_path), at=HERE), datetime(2020, 3, 2, tzinfo=UTC))
    assert isinstance(trouble, SourceRefused)
    assert "begins on 2020-03-01" in str(trouble)


def test_later_nonsense_changes_nothing_that_is_known_now(tmp_path):
    clean = read_station(write(tmp_path), at=HERE)
    spoilt = read_station(
        write(tmp_path, RECORD.replace("7.0", "999").replace("6.0,5.5", "-55,5"), "b.csv"), at=HERE
    )
    now = datetime(2020, 3, 3, 12, tzinfo=UTC)
    one, other = (fetched(RecordedSource(station), now) for station in (clean, spoilt))
    np.testing.assert_equal(one.known.soil5_c, other.known.soil5_c)
    np.testing.assert_equal(one.known.tmean_c, other.known.tmean_c)
    assert one.observed_at == other.observed_at


def test_in_a_folder_the_nearest_station_speaks(tmp_path):
    index = "station,lat,lon\nA,39.1,-96.6\nB,44.0,-70.0\nnot_there,39.0,-97.0\n"
    write(tmp_path, index, "INDEX.csv")
    write(tmp_path, name="A.csv")
    write(tmp_path, RECORD.replace("4.0,4.5", "1.0,1.0"), "B.csv.gz")
    source = RecordedSource(tmp_path)
    now = datetime(2020, 3, 2, 18, tzinfo=UTC)
    assert fetched(source, now, ask(39.0, -97.0)).known.soil5_c[0] == 4.0
    maine = fetched(source, now, ask(44.01, -70.01))
    assert maine.known.soil5_c[0] == 1.0
    assert maine.place == "station B"
    assert fetched(source, now, ask(44.0, -72.0)).place == "station B, 160 km away"


def test_a_spoilt_station_in_a_folder_is_trouble_for_its_own_cells_only(tmp_path):
    write(tmp_path, "station,lat,lon\nA,39.1,-96.6\nB,44.0,-70.0\n", "INDEX.csv")
    write(tmp_path, name="A.csv")
    write(tmp_path, "nonsense", "B.csv")
    near, far = ask(), ask(44.0, -70.0)
    answers = RecordedSource(tmp_path).fetch([near, far], datetime(2020, 3, 9, tzinfo=UTC))
    assert len(answers[near.cell].known) == 5
    assert isinstance(answers[far.cell], RecordUnreadable)


def test_a_folder_without_stations_is_refused(tmp_path):
    with pytest.raises(RecordUnreadable, match=r"INDEX\.csv"):
        RecordedSource(tmp_path)


def test_forecasts_are_kept_by_the_day_they_were_issued(tmp_path):
    text = "issued,date,soil5_c\n2020-03-01,2020-03-02,5.5\n2020-03-01,2020-03-17,9\n"
    text += "2020-03-01,2020-03-01,1\n2020-03-01,2020-03-18,1\n2020-03-08,2020-03-10,\n"
    forecasts = read_forecasts(write(tmp_path, text, "forecasts.csv.gz"))
    assert list(forecasts) == [date(2020, 3, 1), date(2020, 3, 8)]
    first = forecasts[date(2020, 3, 1)]
    assert (first.first_day, first.last_day) == (date(2020, 3, 2), date(2020, 3, 17))
    assert (first.soil5_c[0], first.soil5_c[-1]) == (5.5, 9.0)
    assert np.isnan(first.soil5_c[1:-1]).all()
    assert np.isnan(forecasts[date(2020, 3, 8)].soil5_c).all()


def test_a_bad_forecast_file_says_where(tmp_path):
    text = "issued,date,soil5_c\n2020-03-01,tomorrow,5\n"
    with pytest.raises(RecordUnreadable, match="line 2, column date"):
        read_forecasts(write(tmp_path, text))


def test_distances_follow_the_great_circle():
    # A minute of latitude is one nautical mile, 1.852 km (definition; the sphere gives 1.853).
    assert distance_km((40.0, -90.0), (41.0, -90.0)) == pytest.approx(60 * 1.852, rel=2e-3)
    assert distance_km((0.0, 179.5), (0.0, -179.5)) == pytest.approx(60 * 1.852, rel=2e-3)


@pytest.mark.shared_data
@pytest.mark.skipif(not SHARED_SOIL.is_dir(), reason="no station records beside the repository")
def test_measured_stations_read_as_their_index_describes_them():
    # INDEX.csv of the tidied U.S. Climate Reference Network records.
    station = read_station(SHARED_SOIL / "KS_Manhattan_6_SSW.csv.gz")
    assert (station.lat, station.lon) == (39.1, -96.61)
    assert station.series.first_day == date(2009, 8, 3)
    assert station.series.last_day == date(2024, 4, 7)
    assert np.isnan(station.series.soil5_c).mean() == pytest.approx(0.010, abs=0.0005)
