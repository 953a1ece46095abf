"""The inspector: every field in one message, asked for once a season; the files of all yards."""

from datetime import UTC, datetime
from pathlib import Path

import icalendar
import pandas as pd
import pypdf
import pytest

from tests.talk.harness import Talker, labels_of, text_of

LIST = "Birch St 12, A. Cobb, Wahoo NE, front 60x40\nWalnut 66, B. Lee, 68506, back 30x20"
LABEL = "prodiamine 0.38% granule, 3.2 lb per 1000 sq ft, max 6.4 lb per 1000 sq ft a year"
EVERY_FIELD = (
    "record wind 5 mph from NW, 68 F, humidity 45%, started 7:20, ended 8:05, carrier none, "
    "equipment drop spreader gate 4, calibration 3.1 lb per 1000, batch 77, re-entry when dry, "
    "posted yes, applicator Sam Reyes licence 555, supervised by A. Dutton license 99, "
    "address 12 Birch St, epa 1234-56, notes gate code asked for"
)


def treated(talker: Talker) -> None:
    """Two yards of two customers, one treated this morning."""
    talker.say(LIST)
    talker.say("yes")
    talker.say(LABEL)
    talker.tap("Use it at my other yard too")
    talker.wait("PT1H")
    assert "Recorded for Birch St 12" in talker.ask("applied front at 7:15")


def filled(talker: Talker) -> None:
    """Have every field of the record said, and the other yard treated."""
    assert "Record 1 of Birch St 12" in talker.ask(EVERY_FIELD)
    talker.say("yard Walnut 66")
    talker.say("applied back")


def described(talker: Talker) -> None:
    """Have said what all records lack."""
    talker.say("all records re-entry after the first rain, batch 78")


def begun(folder: Path) -> Talker:
    return Talker(folder, start=datetime(2026, 4, 11, 14, tzinfo=UTC)).once(treated)


@pytest.fixture(scope="module")
def inspected(tmp_path_factory: pytest.TempPathFactory) -> Talker:
    """Both yards with their records, for those who only look."""
    return begun(tmp_path_factory.mktemp("inspected")).once(filled).once(described)


@pytest.fixture
def changing(tmp_path: Path) -> Talker:
    """The same, for those who change something."""
    return begun(tmp_path).once(filled).once(described)


def files_of(talker: Talker, words: str) -> dict[str, Path]:
    said = talker.say(words)
    paths = [Path(each.reply.file) for each in said if each.reply.file]
    return {path.suffix: path for path in paths}


def test_every_field_is_said_in_one_message_and_lands_in_its_own(tmp_path: Path) -> None:
    inspected = begun(tmp_path)
    # The list asks once for what only people know; a later list of the same season does not.
    first = inspected.ask("/export")
    assert "EPA number" in first
    assert "wind direction, equipment, and re-entry" in first
    assert "missing" not in inspected.ask("/export")
    assert "Record 1 of Birch St 12" in inspected.ask(EVERY_FIELD)
    frame = pd.read_csv(files_of(inspected, "/export")[".csv"], dtype=str)
    row = frame.iloc[0]
    wanted = {
        "Date": "2026-04-11",
        "Start": "07:20",
        "End": "8:05",
        "Yard": "Birch St 12",
        "Customer": "A. Cobb",
        "Address": "12 Birch St, Wahoo, NE",
        "EPA reg. no.": "1234-56",
        "Active ingredient": "prodiamine",
        "Strength": "0.38 %",
        "Spray volume": "none",
        "Equipment": "drop spreader gate 4",
        "Calibration": "3.1 lb per 1000",
        "Wind": "5 mph",
        "Wind from": "NW",
        "Air, °F": "68.0",
        "Humidity, %": "45.0",
        "Applicator": "Sam Reyes",
        "License": "555",
        "Supervised by": "A. Dutton",
        "Supervisor's license": "99",
        "Re-entry": "when dry",
        "Posted": "yes",
        "Batch or lot": "77",
    }
    assert {name: row[name] for name in wanted} == wanted
    # 2,400 sq ft at 3.2 lb per 1,000: plain arithmetic.
    assert float(row["Product amount"]) == pytest.approx(7.68)


def test_the_hour_that_was_said_is_the_hour_of_the_round(inspected: Talker) -> None:
    assert "done 7:20 am" in inspected.ask("/today")


def test_spanish_fields_land_as_the_english_ones(changing: Talker) -> None:
    text = changing.ask("registro 1 viento 6 mph del sur, humedad 50%, terminó 8:30")
    assert "wind 6 mph, wind from S, humidity 50%, end time 8:30" in text


def test_one_message_fills_what_all_records_lack(tmp_path: Path) -> None:
    inspected = begun(tmp_path).once(filled)
    text = inspected.ask("all records re-entry after the first rain, batch 78")
    assert "now in 1 record that lacked it" in text
    frame = pd.read_csv(files_of(inspected, "export all")[".csv"], dtype=str)
    assert list(frame["Re-entry"]) == ["when dry", "after the first rain"]


def test_all_yards_make_one_workbook_one_log_and_one_calendar(inspected: Talker) -> None:
    said = inspected.say("/export")
    assert "All yards" in labels_of(said)
    files = files_of(inspected, "export all")
    sheets = pd.read_excel(files[".xlsx"], sheet_name=None)
    log, totals = sheets["All yards"], sheets["Totals"]
    assert set(log["Yard"]) == {"Birch St 12", "Walnut 66"}
    # (2,400 + 600) sq ft at 3.2 lb per 1,000, of which 0.38 % is active ingredient.
    assert totals["Product amount"].sum() == pytest.approx(9.6)
    assert totals["Product amount"].sum() == pytest.approx(log["Product amount"].sum())
    assert totals["Active ingredient, lb"].sum() == pytest.approx(9.6 * 0.0038, rel=1e-4)
    pages = pypdf.PdfReader(files[".pdf"], strict=True).pages
    text = " ".join(" ".join(page.extract_text().split()) for page in pages)
    assert "B. Lee" in text
    assert "Supervised by" in text
    calendar = icalendar.Calendar.from_ical(files[".ics"].read_bytes())
    summaries = " ".join(str(event["summary"]) for event in calendar.walk("VEVENT"))
    assert "Birch St 12" in summaries
    assert "Walnut 66" in summaries


@pytest.mark.parametrize(
    ("words", "count"),
    [
        ("export customer Cobb", 1),
        ("export all from April 1 to April 30", 2),
        # That day is still to come: behind April it is no day of the year before.
        ("export all from April 1 to June 30", 2),
        ("export Cobb", 1),
        ("export all 2025", 0),
        ("exporta todo", 2),
        ("export Walnut 66 from April 1 to April 30", 1),
        ("exporta todo de 1 abril a 30 abril", 2),
    ],
)
def test_a_customer_and_days_can_be_asked_for(inspected: Talker, words: str, count: int) -> None:
    assert len(pd.read_csv(files_of(inspected, words)[".csv"])) == count


def test_files_of_some_days_say_so(inspected: Talker) -> None:
    text = inspected.ask("export all from April 1 to April 10")
    assert "Records for all your yards (0 rows)" in text
    assert "Only what was applied from Wed Apr 1 to yesterday" in text


def test_who_works_under_whose_licence_is_on_every_record(changing: Talker) -> None:
    assert "license 777" in changing.ask("I work under Lee Dutton, licence 777")
    frame = pd.read_csv(files_of(changing, "export all")[".csv"], dtype=str)
    assert list(frame["Supervised by"]) == ["A. Dutton", "Lee Dutton"]
    assert "Undone" in changing.take_back()


def test_no_customer_of_that_name_is_said(inspected: Talker) -> None:
    assert "no customer" in text_of(inspected.say("export customer Nobody")).replace(
        "No yard of yours has a customer", "no customer"
    )


def test_words_for_others_name_a_customer_to_nobody_else(inspected: Talker) -> None:
    _, own = inspected.say("notice for Birch St 12")
    assert "Lawn notice, A. Cobb, 12 Birch St, Wahoo, NE: a pre-emergent" in own.reply.text
    assert "EPA reg. no. 1234-56" in own.reply.text
    assert "Until when: when dry, or longer if the label says so" in own.reply.text
    assert "Applied by Sam Reyes, license 555." in own.reply.text
    landlord = inspected.tap("For a landlord")
    assert "A. Cobb" not in landlord
    before = inspected.ask("notice for the landlord at Birch St 12 before")
    assert "may I treat it? I would apply a pre-emergent" in before


def test_words_for_others_come_in_either_language(inspected: Talker) -> None:
    _, said = inspected.say("notice for the neighbors at Birch St 12, in Spanish")
    assert said.reply.text.startswith("Aviso a los vecinos de 12 Birch St, Wahoo, NE:")
    _, said = inspected.say("aviso para el vecino después en inglés")
    assert said.reply.text.startswith("Note to neighbors of 12 Birch St, Wahoo, NE:")


def test_what_the_state_asks_for_is_reminded_of_once_it_was_said(changing: Talker) -> None:
    assert "Check with your county or state" in changing.ask("notice for Walnut 66")
    kept = changing.ask("my state asks for signs and notice 2 days before")
    assert "Your state asks for notice, I was told: 48 hours before" in kept
    assert "Your state's own words win" in kept
    assert "put them up when you apply" in changing.ask("notice for Walnut 66 before")
    assert "no signs and no notice" in changing.ask("mi estado no pide letreros")


def test_what_is_due_to_customers_comes_as_one_notice_each(inspected: Talker) -> None:
    head, *notices = inspected.say("what is due to my customers")
    assert "Done: Birch St 12, Walnut 66." in head.reply.text
    assert ["A. Cobb" in notices[0].reply.text, "B. Lee" in notices[1].reply.text] == [True, True]
    assert len(notices) == 2


def test_what_is_said_of_every_yard_is_done_at_each(changing: Talker) -> None:
    text = changing.ask("watered 0.5 in everywhere")
    assert "Birch St 12" in text
    assert "Walnut 66" in text
    assert "Nothing waits for water at any of your yards" in changing.ask("regué en todas partes")
