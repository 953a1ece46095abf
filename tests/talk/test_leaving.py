"""Leaving in words, from the greeting to the last row."""

from pathlib import Path

import pytest
from sqlalchemy import func, select

from storage.models import Base
from tests.talk.harness import PLACE, ZONES, Talker, labels_of


def rows_left(talker: Talker) -> dict[str, int]:
    with talker.db.reading() as work:
        counted = {
            table.name: work.scalar(select(func.count()).select_from(table))
            for table in Base.metadata.sorted_tables
        }
    nobodys = ("cell", "cell_year", "clock", "lease", "heartbeat")
    return {name: count for name, count in counted.items() if count and name not in nobodys}


def test_delete_my_data_and_the_word_leave_nothing(tmp_path: Path):
    settled = Talker(tmp_path, draws=True)
    settled.settle_in()
    settled.ask("applied strip")
    settled.ask("soil")
    pictures = list(settled.machine.conversation._pictures.glob("*.png"))
    assert pictures
    asked = settled.ask("delete my data")
    assert "yards 1, records 1" in asked
    assert "Deleted" in settled.ask("ERASE")
    assert rows_left(settled) == {}
    assert not any(path.exists() for path in pictures)
    assert settled.ask("/start").startswith("I tell you when")


def test_the_word_may_be_typed_as_phones_write_it(settled: Talker):
    settled.ask("delete my data")
    assert "Deleted" in settled.ask("Erase.")


def test_after_a_no_the_word_is_asked_for_anew(settled: Talker):
    settled.ask("delete my data")
    settled.ask("no")
    assert "type: ERASE" in settled.ask("erase")
    assert rows_left(settled)["yard"] == 1


def test_the_yard_is_removed_by_yes_and_back_by_undo(settled: Talker):
    assert "Remove Yard 1?" in settled.ask("remove this yard")
    assert "Removed: Yard 1" in settled.ask("yes")
    assert "Where is the lawn" not in settled.ask("/undo")
    assert "Yard 1" in settled.ask("/yard")


def test_the_button_removes_it_too(settled: Talker):
    settled.say("sold the house")
    assert "Removed: Yard 1" in settled.tap("Remove Yard 1")


def test_stop_and_start_again_in_words(settled: Talker):
    assert "no more messages from me" in settled.ask("stop")
    assert settled.wait("P60D") == []
    assert "This is how things stand" in settled.ask("start again")


def test_the_command_start_begins_to_write_again(settled: Talker):
    settled.ask("stop")
    assert "This is how things stand" in settled.ask("/start")
    settled.until_alert("window_open")


def test_everything_comes_as_a_file_by_words_and_by_button(settled: Talker):
    for said in (
        settled.say("everything as a file"),
        settled.say("what do you know about me") and settled.session.tap("Everything as a file"),
    ):
        assert Path(said[0].reply.file or "").suffix == ".json"


@pytest.mark.parametrize("text", ["is it time yet", "did I miss it", "can I mow today"])
def test_questions_are_answered_before_a_place_is_known(talker: Talker, text: str):
    talker.say("/start")
    said = talker.ask(text)
    assert len(said.splitlines()) >= 2
    assert said.splitlines()[-1].startswith("Where is your lawn?")
    talker.session.location(*PLACE)
    assert "sq ft" in talker.ask(ZONES)


def test_when_has_a_button_that_says_why(settled: Talker):
    assert "Why" in labels_of(settled.say("is it time yet"))
    assert "Fidanza" in settled.tap("Why")


def test_no_more_alerts_of_one_yard_leave_those_of_the_others(settled: Talker):
    settled.ask("new yard in 68066, call it Garza")
    assert "this season" in settled.ask("stop sending me alerts for Garza")
    assert "never off" in settled.ask("turn the alerts back on")
