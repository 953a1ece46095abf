"""The commands `replay` and `hindcast`: what they print and write, field by field."""

import csv
import json
import re
from datetime import date, datetime, timedelta
from itertools import pairwise

import pytest

from bot.cli import CANNOT, main
from jobs.agronomy.season import STATE_CHANGE, Kind, State, Target
from jobs.hindcast import first_crossing
from tests.service.recorded_year import SERIES, write_record

YEARS = (2016, 2017)
THRESHOLD_C = (55 - 32) / 1.8
FIELDS = ["at", "kind", "target", "state", "soil_5day_c", "days_to_emergence", "text"]
COLUMNS = ["station", "year", "issued", "threshold_c", "p10", "p50", "p90"]


@pytest.fixture(scope="module")
def record(tmp_path_factory):
    return write_record(tmp_path_factory.mktemp("record"))


@pytest.fixture(scope="module")
def lines(tmp_path_factory):
    """Two replayed years, confirmed three days after each call, of a station without an index."""
    path = write_record(tmp_path_factory.mktemp("replay"), place=None)
    years = f"{YEARS[0]}-{YEARS[1]}"
    asked = ["--year", years, "--apply-after", "P3D", "--units", "metric", "--at", "39.18,-96.57"]
    with pytest.MonkeyPatch.context() as patch:
        out = tmp_path_factory.mktemp("out") / "lines.jsonl"
        with out.open("w", encoding="utf-8") as file:
            patch.setattr("sys.stdout", file)
            assert main(["replay", str(path), *asked, "--json"]) == 0
    return [json.loads(line) for line in out.read_text(encoding="utf-8").splitlines()]


def test_every_line_has_the_agreed_fields_and_nothing_else(lines):
    kinds = {str(kind) for kind in Kind} | {STATE_CHANGE}
    for line in lines:
        assert list(line) == FIELDS
        assert line["kind"] in kinds
        assert line["target"] in {str(target) for target in Target}
        assert line["state"] in {str(state) for state in State}
        assert line["soil_5day_c"] is None or isinstance(line["soil_5day_c"], float)
        assert line["text"].strip()


def test_instants_are_local_standard_time_with_its_offset(lines):
    # Kansas: six hours behind UTC, in summer too.
    for line in lines:
        assert re.fullmatch(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d-06:00", line["at"])
        assert datetime.fromisoformat(line["at"]).isoformat() == line["at"]
    instants = [line["at"] for line in lines]
    assert instants == sorted(instants)


def test_both_years_are_played(lines):
    for year in YEARS:
        kinds = [line["kind"] for line in lines if line["at"].startswith(str(year))]
        assert kinds.count("window_open") == 1
        assert kinds.index("soil_warming") < kinds.index("window_open")


def test_days_to_emergence_are_whole_days_in_order_or_null(lines):
    for line in lines:
        days = line["days_to_emergence"]
        if days is not None:
            assert list(days) == ["p10", "p50", "p90"]
            assert all(isinstance(value, int) for value in days.values())
            assert days["p10"] <= days["p50"] <= days["p90"]
    pings = [line for line in lines if line["kind"] == "window_open"]
    assert all(0 < ping["days_to_emergence"]["p50"] <= 25 for ping in pings)


def test_next_years_emergence_is_not_told_as_this_ones(lines):
    for line in lines:
        at = datetime.fromisoformat(line["at"])
        if line["days_to_emergence"] is not None:
            assert (at + timedelta(days=line["days_to_emergence"]["p50"])).year == at.year
    assert {line["days_to_emergence"] for line in lines if line["kind"] == "season_over"} == {None}


def test_who_applies_three_days_after_the_call_is_called_again_eight_weeks_later(lines):
    for year in YEARS:
        told = [line for line in lines if line["at"].startswith(str(year))]
        opened, due = (
            next(datetime.fromisoformat(line["at"]) for line in told if line["kind"] == kind)
            for kind in ("window_open", "second_half_due")
        )
        applied = [line for line in told if (line["kind"], line["state"]) == ("state", "applied")]
        days = [datetime.fromisoformat(line["at"]) for line in applied]
        assert days[0] == opened + timedelta(days=3)
        # The default split interval of the project, 56 days.
        assert due.date() == days[0].date() + timedelta(days=56)
        assert days[1] == due + timedelta(days=3)


def test_metric_units_are_told_in_millimetres_and_degrees_celsius(lines):
    told = " ".join(line["text"] for line in lines)
    assert " mm " in told
    assert "°F" not in told
    assert " in of " not in told


@pytest.mark.parametrize(
    "asked",
    [
        ["--year", "soon"],
        ["--year", "2017-2016"],
        ["--year", "2016", "--apply-after", "soon"],
        ["--year", "2016", "--at", "here"],
        ["--year", "2016", "--at", "99,0"],
        ["--year", "1901"],
    ],
)
def test_a_replay_that_cannot_be_is_refused_in_one_sentence(record, asked, capsys):
    assert main(["replay", str(record), *asked, "--json"]) == CANNOT
    assert_one_sentence(capsys)


def test_a_record_that_cannot_be_read_is_refused_in_one_sentence(tmp_path, capsys):
    assert main(["replay", str(tmp_path / "none.csv"), "--year", "2016"]) == CANNOT
    assert "none.csv" in assert_one_sentence(capsys)
    spoilt = write_record(tmp_path)
    # A malformed field anywhere, also on a later day, spoils the record: line and column are named.
    spoilt.write_text(spoilt.read_text() + "2019-01-01,warm,,,,\n")
    assert main(["replay", str(spoilt), "--year", "2016"]) == CANNOT
    said = assert_one_sentence(capsys)
    assert f"line {len(SERIES) + 2}, column soil5_c" in said
    nowhere = write_record(
        tmp_path, SERIES.between(date(2016, 1, 1), date(2016, 1, 9)), "n", place=None
    )
    assert main(["replay", str(nowhere), "--year", "2016"]) == CANNOT
    assert "LAT,LON" in assert_one_sentence(capsys)


def assert_one_sentence(capsys):
    out, err = capsys.readouterr()
    assert out == ""
    assert err.startswith("soilbell: ")
    assert err.count("\n") == 1
    assert "Traceback" not in err
    return err


def hindcast(record, folder, *asked, years=("2012", "2018")):
    out = folder / "forecasts.csv"
    wanted = ["--from-year", years[0], "--to-year", years[1], "--out", str(out)]
    assert main(["hindcast", str(record), "--threshold-f", "55", *wanted, *asked]) == 0
    text = out.read_text()
    assert text.splitlines()[0] == ",".join(COLUMNS)
    return list(csv.DictReader(text.splitlines()))


def test_a_hindcast_has_a_row_a_week_from_february_to_the_crossing(record, tmp_path):
    rows = hindcast(record, tmp_path, "--every-days", "7", "--forecast", "none")
    # The record begins with 2011: 2014 is the first year with three full ones before it.
    assert sorted({row["year"] for row in rows}) == [str(year) for year in range(2014, 2019)]
    for year in range(2014, 2019):
        mine = [date.fromisoformat(row["issued"]) for row in rows if row["year"] == str(year)]
        crossed = first_crossing(SERIES, THRESHOLD_C, year)
        assert mine[0] == date(year, 2, 1)
        assert {(after - before).days for before, after in pairwise(mine)} == {7}
        assert mine[-1] < crossed <= mine[-1] + timedelta(days=7)
    for row in rows:
        assert row["station"] == record.name.removesuffix(".csv")
        assert float(row["threshold_c"]) == pytest.approx(THRESHOLD_C, abs=1e-4)
        days = [date.fromisoformat(row[level]) for level in ("p10", "p50", "p90")]
        assert date.fromisoformat(row["issued"]) < days[0] <= days[1] <= days[2]


def test_what_is_not_reached_by_the_end_of_july_is_never(record, tmp_path):
    rows = hindcast(record, tmp_path, "--threshold-f", "110", years=("2015", "2015"))
    assert len(rows) == 26
    assert {row[level] for row in rows for level in ("p10", "p50", "p90")} == {"never"}


def test_a_forecast_speaks_in_the_row_of_its_own_issue_date_only(record, tmp_path):
    plain = hindcast(record, tmp_path, years=("2015", "2015"))
    issued = date.fromisoformat(plain[3]["issued"])
    forecast = tmp_path / "forecast.csv"
    # The second one was issued on a day without a row.
    days = [
        (first, first + timedelta(days=ahead + 1))
        for first in (issued, issued + timedelta(1))
        for ahead in range(16)
    ]
    table = "".join(f"{first},{day},20.0\n" for first, day in days)
    forecast.write_text(f"issued,date,soil5_c\n{table}")
    drawn = hindcast(record, tmp_path, "--forecast", str(forecast), years=("2015", "2015"))
    assert drawn[3]["p50"] < plain[3]["p50"]
    assert drawn[:3] + drawn[4:] == plain[:3] + plain[4:]


@pytest.mark.parametrize(
    "asked",
    [
        ["--from-year", "2016", "--to-year", "2015", "--out", "x.csv"],
        ["--from-year", "2015", "--to-year", "2016", "--out", "none/x.csv"],
        ["--from-year", "2015", "--to-year", "2016", "--out", "x.csv", "--every-days", "0"],
        ["--from-year", "2015", "--to-year", "2016", "--out", "x.csv", "--forecast", "none.csv"],
        ["--from-year", "2015", "--to-year", "2016", "--out", "x.csv", "--threshold-f", "500"],
        ["--from-year", "2015", "--to-year", "2016", "--out", "x.csv", "--threshold-f", "nan"],
    ],
)
def test_a_hindcast_that_cannot_be_is_refused_in_one_sentence(
    record, tmp_path, monkeypatch, asked, capsys
):
    monkeypatch.chdir(tmp_path)
    assert main(["hindcast", str(record), *asked]) == CANNOT
    assert_one_sentence(capsys)
    assert not (tmp_path / "x.csv").exists()
