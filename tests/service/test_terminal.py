"""The terminal chat as a program meets it: the real process, one JSON object a line, both ways."""

import json
import os
import subprocess
import sys
from datetime import datetime
from pathlib import Path

import pytest

from tests.made_once import database_at

ROOT = Path(__file__).resolve().parents[2]
REPLY_FIELDS = {"at", "text", "buttons", "picture", "file", "alert"}


def chat(
    folder: Path, *lines: object, options: tuple[str, ...] = (), is_new: bool = False
) -> list[dict]:
    """Run a chat over some lines and return its answers; nothing else may stand on stdout."""
    done = run(folder, *lines, options=options, is_new=is_new)
    assert done.returncode == 0, done.stderr
    return [json.loads(line) for line in done.stdout.splitlines()]


def run(folder: Path, *lines: object, options: tuple[str, ...] = (), is_new: bool = False):
    path = folder / "chat.sqlite3"
    if not is_new:
        # Its tables are made already: how they come to be has tests of its own.
        database_at(path).close()
    typed = "".join((line if isinstance(line, str) else json.dumps(line)) + "\n" for line in lines)
    environment = {
        name: value for name, value in os.environ.items() if not name.startswith("SOILBELL_")
    }
    return subprocess.run(
        [
            sys.executable,
            "-m",
            "bot.cli",
            "chat",
            "--json",
            "--db",
            f"sqlite:///{path}",
            *options,
        ],
        input=typed,
        capture_output=True,
        text=True,
        cwd=ROOT,
        env={**environment, "PYTHONPATH": str(ROOT)},
        timeout=120,
        check=False,
    )


START = ("--start", "2026-03-01T08:00")
PLACE = {"location": [39.18, -96.57]}


def test_one_line_out_for_each_line_in_with_all_fields(tmp_path: Path) -> None:
    answers = chat(
        tmp_path,
        {"say": "/start"},
        PLACE,
        {"say": "front 60x40"},
        {"tap": "Keep"},
        {"wait": "P1D"},
        options=START,
        is_new=True,
    )
    assert len(answers) == 5
    for number, answer in enumerate(answers):
        typed = {"understood"} if number in (0, 2) else set()
        assert set(answer) == {"now", "replies"} | typed
        assert datetime.fromisoformat(answer["now"]).tzinfo is not None
        for reply in answer["replies"]:
            assert set(reply) == REPLY_FIELDS
            for row in reply["buttons"]:
                assert all(set(button) == {"label", "action"} for button in row)
    assert answers[0]["now"] == "2026-03-01T08:00:00+00:00"
    assert answers[4]["now"] == "2026-03-02T08:00:00+00:00"


def test_the_clock_stands_still_between_lines(tmp_path: Path) -> None:
    answers = chat(tmp_path, {"say": "/start"}, PLACE, {"say": "/soil"}, options=START)
    assert len({answer["now"] for answer in answers}) == 1


def test_a_season_through_the_protocol(tmp_path: Path) -> None:
    product = "/product prodiamine 0.38% granule, 3.2 lb per 1000 sq ft, max 6.4 lb/1000 a year"
    answers = chat(
        tmp_path,
        PLACE,
        {"say": "pool lawn 60x40, strip 5 by 80 ft"},
        {"say": product},
        {"wait": "P8W"},
        {"say": "applied"},
        {"wait": "P9W"},
        options=("--start", "2026-02-15T08:00"),
    )
    spring = [reply["alert"] for reply in answers[3]["replies"]]
    assert spring[:2] == ["soil_warming", "window_open"]
    times = [reply["at"] for reply in answers[3]["replies"]]
    assert times == sorted(times)
    assert "second_half_due" in [reply["alert"] for reply in answers[5]["replies"]]


def test_data_and_clock_survive_a_restart(tmp_path: Path) -> None:
    chat(tmp_path, PLACE, {"say": "front 60x40"}, {"wait": "P3D"}, options=START)
    answers = chat(tmp_path, {"say": "/zones"})
    assert answers[0]["now"] == "2026-03-04T08:00:00+00:00"
    assert "front" in answers[0]["replies"][0]["text"]


def test_a_button_shown_before_a_restart_still_works(tmp_path: Path) -> None:
    chat(tmp_path, PLACE, {"say": "front 60x40"}, options=START)
    answers = chat(tmp_path, {"tap": "Keep"})
    assert "error" not in answers[0]


@pytest.mark.parametrize("start", ["2026-02-01T08:00", "2026-05-01T08:00"])
def test_a_start_other_than_the_clock_of_an_old_database_is_refused(tmp_path, start) -> None:
    chat(tmp_path, {"say": "/start"}, options=START)
    done = run(tmp_path, {"say": "/start"}, options=("--start", start))
    assert done.returncode == 2
    assert "new database" in done.stderr
    assert done.stdout == ""


#: None of them is a valid request.
NO_REQUESTS = (
    "no json",
    "[]",
    {},
    {"say": 5},
    {"say": "/start", "tap": "x"},
    {"sing": "la"},
    {"location": [98, 0]},
    {"location": ["a", "b"]},
    {"wait": "soon"},
    {"wait": "3 days"},
    {"tap": "no such button"},
    {"photo": "no/such/file.jpg"},
    {"file": "no/such/list.csv"},
)


@pytest.fixture(scope="module")
def after_no_request(tmp_path_factory: pytest.TempPathFactory) -> list[list[dict]]:
    """What each of them is answered with in one session, and the request after it."""
    asked = [each for line in NO_REQUESTS for each in (line, {"say": "/help"})]
    answers = chat(tmp_path_factory.mktemp("no"), {"say": "/start"}, *asked, options=START)
    return [answers[at : at + 2] for at in range(1, len(answers), 2)]


@pytest.mark.parametrize("number", range(len(NO_REQUESTS)), ids=map(str, NO_REQUESTS))
def test_a_line_that_is_no_valid_request_gets_an_error_and_the_session_goes_on(
    after_no_request: list[list[dict]], number: int
) -> None:
    wrong, after = after_no_request[number]
    assert set(wrong) == {"now", "replies", "error"}
    assert wrong["replies"] == []
    assert wrong["error"]
    assert after["replies"]


def test_a_tap_goes_by_action_then_by_label_in_the_newest_message(tmp_path: Path) -> None:
    answers = chat(tmp_path, PLACE, {"say": "front 60x40"}, {"tap": "zones:keep:1"}, options=START)
    assert "Saved" in answers[2]["replies"][0]["text"]


def test_weeks_days_hours_and_minutes_are_waited(tmp_path: Path) -> None:
    answers = chat(tmp_path, {"wait": "P1W"}, {"wait": "P1DT2H30M"}, options=START)
    assert [answer["now"] for answer in answers] == [
        "2026-03-08T08:00:00+00:00",
        "2026-03-09T10:30:00+00:00",
    ]


def test_users_have_chats_of_their_own(tmp_path: Path) -> None:
    chat(tmp_path, PLACE, {"say": "front 60x40"}, options=(*START, "--user", "1"))
    answers = chat(tmp_path, {"say": "/zones"}, options=("--user", "2"))
    assert "front:" not in answers[0]["replies"][0]["text"]


def test_another_climate_does_not_take_over_a_database(tmp_path: Path) -> None:
    chat(tmp_path, {"say": "/start"}, options=START)
    done = run(tmp_path, {"say": "/start"}, options=("--seed", "7"))
    assert done.returncode == 2
    assert "climate" in done.stderr


def test_a_climate_nobody_knows_is_refused_in_one_sentence(tmp_path: Path) -> None:
    done = run(tmp_path, {"say": "/start"}, options=("--climate", "martian"))
    assert done.returncode == 2
    assert len(done.stderr.strip().splitlines()) == 1


def test_the_database_is_kept_in_wal_mode(tmp_path: Path) -> None:
    import sqlite3

    chat(tmp_path, {"say": "/start"}, options=START)
    with sqlite3.connect(tmp_path / "chat.sqlite3") as connection:
        assert connection.execute("PRAGMA journal_mode").fetchone() == ("wal",)
    connection.close()


def test_a_recorded_climate_is_replayed_and_says_its_station(tmp_path: Path) -> None:
    days = [
        f"{year}-{month:02d}-{day:02d}"
        for year in range(2010, 2016)
        for month in range(1, 13)
        for day in range(1, 29)
    ]
    rows = "\n".join(f"{day},{10 + int(day[5:7]) % 7}.0" for day in days)
    station = tmp_path / "made_up.csv"
    station.write_text(f"date,soil5_c\n{rows}\n")
    (tmp_path / "INDEX.csv").write_text("station,lat,lon\nmade_up,39.1,-96.6\n")
    answers = chat(
        tmp_path,
        PLACE,
        {"say": "why"},
        options=("--climate", f"recorded:{station}", "--start", "2015-03-01T14:00"),
    )
    text = answers[1]["replies"][0]["text"]
    assert "station made up" in text
    assert "invented" not in text
