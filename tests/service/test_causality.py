"""Replays and hindcasts know nothing of later days, other stations or older years.

A made-up record (seeded) does; a measured station is asked too where the records lie beside the
repository.
"""

from datetime import date, datetime, time, timedelta
from functools import cache
from itertools import takewhile
from pathlib import Path

import pytest

from jobs.agronomy.units import c_from_f
from jobs.hindcast import hindcast_rows
from jobs.replay import replay_year, replay_years
from jobs.sources.recorded import read_station
from tests.service.recorded_year import NONSENSE, SERIES, STATION, spoilt_after, write_record

YEAR = 2016
APPLY_AFTER = timedelta(days=3)
MEASURED = (
    Path(__file__).resolve().parents[3] / "shared" / "data" / "soil" / "KS_Manhattan_6_SSW.csv.gz"
)


def station_of(which):
    if which == "made":
        return STATION
    if not MEASURED.is_file():
        pytest.skip("the measured station records are not beside the repository")
    return read_station(MEASURED)


def spoilt(station, day, kind):
    return replace_series(station, spoilt_after(station.series, day, kind))


def replace_series(station, series):
    return type(station)(station.name, station.lat, station.lon, series, station.utc_offset)


def told_until(lines, day):
    """Lines up to the moment the day after ``day`` becomes known: 06:00 two days later."""
    end = datetime.combine(day + timedelta(days=2), time(6))
    return list(takewhile(lambda line: line.at.replace(tzinfo=None) < end, lines))


@cache
def honest():
    return tuple(replay_year(STATION, YEAR, apply_after=APPLY_AFTER))


def told_on(kind):
    return next(line.at.date() for line in honest() if line.kind == kind)


@pytest.mark.parametrize("kind", NONSENSE)
def test_a_replay_tells_the_same_whatever_comes_later(kind):
    # The ping tells what the day before it brought.
    day = told_on("window_open") - timedelta(days=1)
    wanted = told_until(honest(), day)
    assert wanted[-1].kind == "window_open"
    changed = replay_year(spoilt(STATION, day, kind), YEAR, apply_after=APPLY_AFTER)
    assert told_until(changed, day) == wanted


def test_a_second_half_falls_due_the_same_whatever_comes_later():
    day = told_on("second_half_due") - timedelta(days=1)
    changed = replay_year(spoilt(STATION, day, "huge"), YEAR, apply_after=APPLY_AFTER)
    assert told_until(changed, day) == told_until(honest(), day)


def test_the_nonsense_reaches_the_machine_once_its_days_have_come():
    # Else the tests above would hold for nothing.
    day = told_on("window_open") - timedelta(days=5)
    changed = replay_year(spoilt(STATION, day, "a heat that never came"), YEAR)
    ping = next(line for line in changed if line.kind == "window_open")
    assert day < ping.at.date() < told_on("window_open")


@pytest.mark.shared_data
def test_a_measured_station_is_replayed_the_same_whatever_comes_later():
    station = station_of("measured")
    ping = next(line for line in replay_year(station, YEAR) if line.kind == "window_open")
    day = ping.at.date() - timedelta(days=1)
    changed = told_until(replay_year(spoilt(station, day, "shuffled"), YEAR), day)
    assert changed[-1] == ping


def hindcast(series, until=YEAR):
    asked = {"threshold_c": c_from_f(55.0), "from_year": YEAR - 1, "to_year": until}
    return list(hindcast_rows(series, **asked, station="made"))


@pytest.mark.parametrize("which", ["made", pytest.param("measured", marks=pytest.mark.shared_data)])
@pytest.mark.parametrize("kind", NONSENSE)
def test_hindcast_rows_are_the_same_whatever_comes_later(which, kind):
    series = station_of(which).series
    day = date(YEAR, 3, 7)
    wanted = [row for row in hindcast(series) if row.issued <= day]
    assert wanted[-1].issued == day
    changed = [row for row in hindcast(spoilt_after(series, day, kind)) if row.issued <= day]
    assert changed == wanted


def test_a_year_is_replayed_afresh():
    # Nothing of one year's database reaches the next.
    day = told_on("window_open")
    both = told_until(replay_years(STATION, YEAR - 1, YEAR, apply_after=APPLY_AFTER), day)
    assert both[0].at.year == YEAR - 1
    assert [line for line in both if line.at.year == YEAR] == told_until(honest(), day)


def test_what_the_record_lacks_is_fetched_from_nowhere(tmp_path):
    # Beside the short record lies a long one of the same place, and one that cannot be read: with
    # or without them it tells the same (and tests/conftest.py refuses the network).
    short = SERIES.between(date(YEAR - 1, 1, 1), SERIES.last_day)
    alone, beside = tmp_path / "alone", tmp_path / "beside"
    alone.mkdir()
    beside.mkdir()
    write_record(beside, SERIES, "XX_Elm_Hollow_2_N")
    (beside / "XX_Ash_Ridge.csv").write_text("nonsense")
    (one, other) = (read_station(write_record(folder, short)) for folder in (alone, beside))
    lines = told_until(replay_year(one, YEAR), told_on("window_open"))
    assert lines == told_until(replay_year(other, YEAR), told_on("window_open"))
    # One year of its own stands behind what is told, not the neighbour's five.
    assert {line.letter.facts["past_years"] for line in lines if line.letter} == {1}


def test_a_record_that_starts_with_the_year_is_its_own_history():
    bare = replace_series(STATION, SERIES.between(date(YEAR, 1, 1), SERIES.last_day))
    first = next(replay_year(bare, YEAR))
    assert first.letter is None or first.letter.facts["past_years"] == 0
