"""A season of a crew over real HTTP: eight yards, two people, a granule and a spray.

`python -m tests.bench.thirty_yards` lives the same with thirty.
"""

import io
from datetime import UTC, datetime, timedelta

import icalendar
import pandas as pd
import pypdf
import pytest

from tests.service.crew_season import FIELDS, crew

#: What an inspector looks for on every record, by the headings of the workbook.
COMPLETE = (
    "Date",
    "Start",
    "End",
    "Yard",
    "Customer",
    "Address",
    "Zone",
    "Area, sq ft",
    "Product",
    "EPA reg. no.",
    "Active ingredient",
    "Strength",
    "Planned rate",
    "Product amount",
    "Unit",
    "Spray volume",
    "Equipment",
    "Calibration",
    "Target weed",
    "Wind",
    "Wind from",
    "Air, °F",
    "Humidity, %",
    "Applicator",
    "Re-entry",
    "Posted",
)
#: Weeks between the two applications, and how late the second may be [days].
APART, LATE = 56, 14


@pytest.fixture(scope="module")
def lived(tmp_path_factory):
    """A season: what the crew did and was told, and the files at its end."""
    start = datetime(2026, 4, 2, 14, tzinfo=UTC)
    with crew(tmp_path_factory.mktemp("crew"), 8, start) as found:
        found.set_up()
        found.live(until=datetime(2026, 6, 14, 14, tzinfo=UTC))
        (filled,) = found.say(FIELDS)
        files = found.files("export all")
        notices = found.say("what is due to my customers")
        days = found.days_of()
        yield found, filled, files, notices, days


def log_of(lived):
    return pd.read_excel(io.BytesIO(lived[2][".xlsx"]), sheet_name=None, dtype={"Record": int})


def test_no_yard_is_without_its_second_application_in_time(lived):
    days = lived[4]
    assert len(days) == 8
    assert {len(each) for each in days.values()} == {2}
    apart = {(last - first).days for first, last in days.values()}
    assert min(apart) >= APART
    assert max(apart) <= APART + LATE


def test_eight_yards_take_few_messages_a_day_and_few_alerts_a_year(lived):
    found = lived[0]
    begun = min(found.sent)
    assert max(count for day, count in found.sent.items() if day != begun) <= 12
    # Of thirty yards in a year: 60 messages on 40 mornings at most; of eight in a spring, these.
    assert len(found.told) <= 15


def test_both_people_did_their_part_and_every_record_is_complete(lived):
    log = log_of(lived)["All yards"]
    assert len(log) == 2 * 2 * 8
    # A granule needs no water; everything else stands on every record.
    log["Spray volume"] = log["Spray volume"].where(log["Unit"] != "lb", "none")
    lacking = {name: int(log[name].isna().sum()) for name in COMPLETE if log[name].isna().any()}
    assert lacking == {}
    assert set(log["Unit"]) == {"lb", "fl oz"}
    assert log["Applicator"].nunique() == 2
    # Each with a licence of their own, or under somebody's.
    assert not (log["License"].isna() & log["Supervisor's license"].isna()).any()
    assert set(log["Supervised by"].dropna()) == {"A. Cobb"}


def test_the_workbooks_totals_are_those_of_the_areas(lived):
    sheets = log_of(lived)
    log, totals = sheets["All yards"], sheets["Totals"]
    # Yard n has (40 + n) x 40 + 30 x 20 sq ft; every fourth is sprayed: plain arithmetic.
    area = {n: (40 + n) * 40 + 600 for n in range(8)}
    pounds = 2 * 3.2 / 1000 * sum(area[n] for n in range(8) if n % 4)
    ounces = 2 * 0.5 / 1000 * sum(area[n] for n in range(0, 8, 4))
    summed = totals.groupby("Unit")["Product amount"].sum()
    assert summed["lb"] == pytest.approx(pounds, rel=1e-3)
    assert summed["fl oz"] == pytest.approx(ounces, rel=1e-3)
    assert log["Product amount"].sum() == pytest.approx(pounds + ounces, rel=1e-3)


def test_calendar_and_printed_log_are_read_by_others(lived):
    files = lived[2]
    calendar = icalendar.Calendar.from_ical(files[".ics"])
    assert str(calendar["version"]) == "2.0"
    pages = pypdf.PdfReader(io.BytesIO(files[".pdf"]), strict=True).pages
    text = " ".join(" ".join(page.extract_text().split()) for page in pages)
    assert {f"Birch {n}" in text for n in range(8)} == {True}
    assert "when dry" in text
    assert pd.read_csv(io.BytesIO(files[".csv"]))["Yard"].nunique() == 8


def test_the_state_s_rule_is_in_the_calls_and_each_yard_could_be_answered(lived):
    found = lived[0]
    calls = [text for _, text in found.told if "apply and water in" in text]
    assert calls
    assert all("48 hours before" in text for text in calls)
    assert all("put them up when you apply" in text for text in calls)
    assert any("still to answer" in text for text in found.pages)
    assert found.today - min(found.sent) > timedelta(days=70)
