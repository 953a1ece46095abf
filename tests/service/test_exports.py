"""Exports open without complaint in readers that are not ours."""

import csv
import re
from datetime import UTC, date, datetime
from pathlib import Path

import icalendar
import openpyxl
import pandas as pd
import pypdf
import pytest
from sqlalchemy import func, select

from jobs import exports
from jobs.exports import LogRow, columns, write_csv, write_pdf, write_xlsx
from storage import models, yards
from tests.talk.harness import Talker


@pytest.fixture
def exported(tmp_path) -> tuple[Talker, dict[str, Path]]:
    talker = Talker(tmp_path, start=datetime(2026, 4, 6, 19, tzinfo=UTC))
    talker.settle_in()
    talker.wait("PT1H")
    talker.say("applied strip and pool lawn")
    talker.say("applied south bed")
    talker.say("record 1 notes =1+1 in the shed")
    talker.say("can I seed the south bed on 20 October?")
    talker.tap("seed:plan:1")
    return talker, export(talker)


def export(talker: Talker) -> dict[str, Path]:
    paths = [Path(said.reply.file) for said in talker.say("/export") if said.reply.file]
    return {path.suffix: path for path in paths}


def test_csv_opens_in_pandas_with_every_column(exported) -> None:
    _, files = exported
    frame = pd.read_csv(files[".csv"])
    assert len(frame) == 3
    assert len(frame.columns) == len(columns())
    assert list(frame["Zone"]) == ["pool lawn", "strip", "south bed"]
    assert list(frame["Area, sq ft"])[:2] == [2400.0, 400.0]
    assert set(frame["Date"]) == {"2026-04-06"}
    # RFC 4180: fields with commas are quoted, every line has as many fields.
    with files[".csv"].open(newline="", encoding="utf-8") as file:
        assert {len(line) for line in csv.reader(file)} == {len(columns())}


def test_no_two_columns_are_headed_alike(exported) -> None:
    _, files = exported
    with files[".csv"].open(newline="", encoding="utf-8") as file:
        headings = next(csv.reader(file))
    assert len(set(headings)) == len(headings)
    assert {"Product", "Product amount"} <= set(headings)


def test_xlsx_opens_in_openpyxl_and_nothing_in_it_is_a_formula(exported) -> None:
    _, files = exported
    book = openpyxl.load_workbook(files[".xlsx"])
    page = book.active
    assert page.max_row == 4
    assert page.freeze_panes == "A2"
    cells = [cell for row in page.iter_rows() for cell in row]
    assert not [cell for cell in cells if cell.data_type == "f"]
    assert "'=1+1 in the shed" in [cell.value for cell in cells]


def test_the_printable_log_opens_in_a_pdf_reader(exported) -> None:
    _, files = exported
    reader = pypdf.PdfReader(files[".pdf"], strict=True)
    text = " ".join(page.extract_text() for page in reader.pages)
    assert "Application log: Yard 1" in text
    assert "pool" in text
    assert "The product label is the law" in text


def test_a_long_log_repeats_its_head_on_every_page(tmp_path) -> None:
    row = LogRow(**{**dict.fromkeys(columns()), "record": 7, "zone": "north meadow"})
    headings = {name: f"head of {name}" for name in columns()}
    path = write_pdf([row] * 150, headings, "Log", ["Made up."], tmp_path / "log.pdf", "Totals")
    pages = [page.extract_text() for page in pypdf.PdfReader(path).pages]
    assert len(pages) > 2
    assert all("head of" in page for page in pages)
    assert sum(page.count("meadow") for page in pages) == 150


def calendar_of(path: Path) -> icalendar.Calendar:
    return icalendar.Calendar.from_ical(path.read_bytes())


def events_of(path: Path) -> dict[str, icalendar.Event]:
    return {str(event["uid"]): event for event in calendar_of(path).walk("VEVENT")}


def test_the_calendar_keeps_to_the_standard(exported) -> None:
    _, files = exported
    raw = files[".ics"].read_bytes()
    # RFC 5545, 3.1: lines end in CRLF and are folded at 75 octets.
    assert raw.endswith(b"END:VCALENDAR\r\n")
    assert all(len(line) <= 75 for line in raw.split(b"\r\n"))
    calendar = calendar_of(files[".ics"])
    # RFC 5545, 3.6: PRODID and VERSION are required; 3.6.1: UID and DTSTAMP in each event.
    assert str(calendar["version"]) == "2.0"
    assert "prodid" in calendar
    events = events_of(files[".ics"])
    assert len(events) == 2
    for event in events.values():
        assert not event.errors
        assert event["dtstamp"].dt.tzinfo is not None
        assert event["dtend"].dt > event["dtstart"].dt


def test_the_calendar_holds_second_half_and_seeding_and_no_window_that_was_used(exported) -> None:
    _, files = exported
    events = events_of(files[".ics"])
    kinds = {uid.split(".")[0]: event for uid, event in events.items()}
    assert set(kinds) == {"half2", "seed"}
    assert kinds["seed"]["dtstart"].dt == date(2026, 10, 20)
    # RFC 5545, 3.8.1.11: what may still move is TENTATIVE.
    assert kinds["half2"]["status"] == "TENTATIVE"
    assert kinds["seed"]["status"] == "CONFIRMED"


def test_files_hold_words_and_what_each_application_came_to(exported) -> None:
    _, files = exported
    frame = pd.read_csv(files[".csv"])
    assert set(frame["Form"]) == {"granules"}
    assert "in a calendar year" in frame["Label maximum"][0]
    codes = re.compile(r"\b[a-z]+_[a-z_]+\b")
    assert not [cell for column in frame for cell in frame[column] if codes.search(str(cell))]
    text = " ".join(page.extract_text() for page in pypdf.PdfReader(files[".pdf"]).pages)
    # 2,400 + 400 sq ft of record 1 at 3.2 lb per 1,000 sq ft: 8.96 lb.
    assert "Total, Record 1" in text
    assert "8.96 lb" in text
    assert "2,800" in text


def test_the_calendar_updates_in_place(exported) -> None:
    talker, files = exported
    first = events_of(files[".ics"])
    again = events_of(export(talker)[".ics"])
    assert {uid: int(event["sequence"]) for uid, event in again.items()} == dict.fromkeys(first, 0)
    talker.say("record 1 date 2 April")
    talker.say("record 2 date 2 April")
    talker.wait("P1D")
    moved = events_of(export(talker)[".ics"])
    assert set(moved) == set(first)
    changed = {
        uid
        for uid, event in moved.items()
        if event["dtstart"].dt != first[uid]["dtstart"].dt
        or event["dtend"].dt != first[uid]["dtend"].dt
    }
    assert changed
    for uid, event in moved.items():
        # RFC 5545, 3.8.7.4: SEQUENCE grows with each significant revision.
        assert int(event["sequence"]) == (1 if uid in changed else 0)
        assert event["dtstamp"].dt >= first[uid]["dtstamp"].dt


def test_a_seeding_taken_back_is_cancelled_not_forgotten(exported) -> None:
    talker, files = exported
    first = events_of(files[".ics"])
    talker.take_back()
    talker.machine.conversation.invite_by("https://t.me/a_bot?start={payload}")
    after = events_of(export(talker)[".ics"])
    gone = [uid for uid in first if uid.startswith("seed")]
    # RFC 5545, 3.8.1.11: STATUS CANCELLED.
    assert [str(after[uid]["status"]) for uid in gone] == ["CANCELLED"]
    assert [int(after[uid]["sequence"]) for uid in gone] == [1]
    # What stays opens its yard on the platform, by a link that is read there.
    links = {str(event["url"]) for uid, event in after.items() if uid not in gone}
    assert links == {"https://t.me/a_bot?start=yard_1"}


def test_values_survive_csv_and_workbook(tmp_path) -> None:
    numbers = dict.fromkeys(columns())
    row = LogRow(**{**numbers, "record": 7, "zone": 'by the "pond", west', "notes": "@home"})
    headings = {name: name for name in columns()}
    read = pd.read_csv(write_csv([row], headings, tmp_path / "a.csv"))
    assert read["zone"][0] == 'by the "pond", west'
    assert read["notes"][0] == "'@home"
    write_xlsx([row], headings, "log", tmp_path / "a.xlsx")
    page = openpyxl.load_workbook(tmp_path / "a.xlsx").active
    assert page.cell(2, 1).value == 7


@pytest.mark.parametrize(
    ("yard", "title"),
    [
        ("Front/Back: [new]?*", "Front Back new"),
        ("A\\B", "A B"),
        ("'quoted'", "quoted"),
        ("the long yard behind the mill by the river", "the long yard behind the mill b"),
        ("?!/", "!"),
        ("???", "1"),
    ],
)
def test_a_yard_of_any_name_becomes_a_workbook(tmp_path, yard, title) -> None:
    talker = Talker(tmp_path, start=datetime(2026, 4, 6, 19, tzinfo=UTC))
    talker.settle_in()
    talker.say("applied strip")
    with talker.db.writing() as work:
        yards.change(work, 1, name=yard)
    assert openpyxl.load_workbook(export(talker)[".xlsx"]).sheetnames == [title, "Totals"]


def test_files_are_written_once_the_turn_is_kept(exported, monkeypatch) -> None:
    talker, _ = exported
    kept: list[int] = []

    def turns() -> int:
        with talker.db.reading() as work:
            return work.scalar(select(func.count()).select_from(models.Turn)) or 0

    monkeypatch.setattr(exports, "write_pdf", lambda *_: kept.append(turns()))
    before = turns()
    talker.say("/export")
    assert kept == [before + 1]
