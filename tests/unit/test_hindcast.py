import csv
import io
from datetime import date, timedelta
from itertools import pairwise
from pathlib import Path

import numpy as np
import pytest

from jobs.agronomy.series import DailySeries
from jobs.hindcast import first_crossing, hindcast_rows, write_forecasts_csv
from tests.unit.made_soil import made_series, nonsense_after, with_soil

SERIES = made_series(last=date(2017, 12, 31), noise_c=2.0)
SOIL = Path(__file__).resolve().parents[3] / "shared" / "data" / "soil"


def rows_of(series, **changed):
    asked = {"threshold_c": 12.78, "from_year": 2013, "to_year": 2016} | changed
    return list(hindcast_rows(series, **asked))


def test_one_row_a_week_from_february_to_the_day_before_the_crossing():
    rows = [row for row in rows_of(SERIES) if row.year == 2015]
    crossed = first_crossing(SERIES, 12.78, 2015)
    assert rows[0].issued == date(2015, 2, 1)
    assert {(b.issued - a.issued).days for a, b in pairwise(rows)} == {7}
    assert rows[-1].issued < crossed <= rows[-1].issued + timedelta(days=7)


def test_a_year_needs_three_full_ones_before_it():
    # The record starts in June 2009: 2010, 2011 and 2012 are full.
    assert {row.year for row in rows_of(SERIES, from_year=2010)} == {2013, 2014, 2015, 2016}


def test_nothing_later_than_the_issue_date_changes_a_row():
    honest = rows_of(SERIES)
    for row in honest[::5]:
        spoiled = rows_of(nonsense_after(SERIES, row.issued), to_year=row.year)
        assert row in spoiled
        assert [r for r in spoiled if r.issued <= row.issued] == [
            r for r in honest if r.issued <= row.issued
        ]


def test_a_day_inside_a_gap_keeps_its_row():
    soil = SERIES.soil5_c.copy()
    at = (date(2015, 2, 22) - SERIES.first_day).days
    soil[at - 6 : at + 6] = np.nan
    rows = [row for row in rows_of(with_soil(SERIES, soil)) if row.year == 2015]
    assert date(2015, 2, 22) in {row.issued for row in rows}
    assert all(row.p10 > row.issued for row in rows)


def test_never_where_the_threshold_is_out_of_reach():
    rows = rows_of(SERIES, threshold_c=60.0, from_year=2015, to_year=2015)
    assert len(rows) == 26
    assert all(row.p10 is None for row in rows)
    assert rows[-1].issued < date(2015, 7, 31)


def test_a_warm_forecast_brings_the_date_forward_on_its_own_day_only():
    plain = rows_of(SERIES, from_year=2015, to_year=2015)
    issued = plain[4].issued
    days = DailySeries.missing(issued + timedelta(days=1), 16)
    warm = with_soil(days, np.full(16, 18.0))
    drawn = rows_of(SERIES, from_year=2015, to_year=2015, forecasts={issued: warm})
    assert drawn[4].p50 < plain[4].p50
    assert drawn[:4] + drawn[5:] == plain[:4] + plain[5:]


def test_quantiles_stand_in_order():
    for row in rows_of(SERIES):
        assert row.issued < row.p10 <= row.p50 <= row.p90


def test_every_day_is_asked_for_too():
    daily = rows_of(SERIES, every_days=1, from_year=2015, to_year=2015)
    weekly = rows_of(SERIES, from_year=2015, to_year=2015)
    assert [row for row in daily if row in weekly] == weekly
    with pytest.raises(ValueError, match="every_days"):
        rows_of(SERIES, every_days=0)


def test_gaps_of_up_to_four_days_are_filled_for_the_crossing():
    soil = np.full(365, 5.0)
    soil[100:] = 15.0
    series = with_soil(DailySeries.missing(date(2015, 1, 1), 365), soil)
    # Day 101 is 11 April; the 5-day mean is 13 on the fourth warm day.
    assert first_crossing(series, 12.78, 2015) == date(2015, 4, 14)
    soil[101:105] = np.nan
    assert first_crossing(with_soil(series, soil), 12.78, 2015) == date(2015, 4, 14)
    soil[101:106] = np.nan
    assert first_crossing(with_soil(series, soil), 12.78, 2015) == date(2015, 4, 21)


def test_the_file_has_the_agreed_columns_and_words():
    file = io.StringIO()
    rows = rows_of(SERIES, from_year=2015, to_year=2015, station="made")
    never = rows_of(SERIES, from_year=2015, to_year=2015, threshold_c=60.0)
    assert write_forecasts_csv([*rows, never[0]], file) == len(rows) + 1
    file.seek(0)
    read = list(csv.DictReader(file))
    assert list(read[0]) == ["station", "year", "issued", "threshold_c", "p10", "p50", "p90"]
    assert read[0]["station"] == "made"
    assert read[0]["issued"] == "2015-02-01"
    assert date.fromisoformat(read[0]["p50"]) == rows[0].p50
    assert read[-1]["p90"] == "never"


@pytest.mark.shared_data
def test_measured_stations_are_foretold_as_well_as_required():
    if not SOIL.is_dir():
        pytest.skip("the measured station records are not beside the repository")
    from jobs.sources.recorded import read_station
    from tests.bench.scoring import THRESHOLD_C, YEARS, by_band, score

    scored = []
    for path in sorted(SOIL.glob("*.csv.gz")):
        series = read_station(path).series
        rows = hindcast_rows(series, threshold_c=THRESHOLD_C, from_year=YEARS[0], to_year=YEARS[-1])
        scored += score(rows, series)
    bands = by_band(scored)
    assert all(len(band) > 200 for band in bands.values())
    for band, most in (((1, 7), 0.62), ((8, 14), 0.65), ((15, 21), 0.75)):
        both = [one for one in bands[band] if one.baseline_error is not None]
        ours = np.mean([abs(one.error) for one in both])
        assert ours / np.mean([abs(one.baseline_error) for one in both]) < most
    for band in bands.values():
        assert 0.74 <= np.mean([one.is_inside for one in band]) <= 0.86
