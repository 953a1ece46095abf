"""Texts that were not understood: kept only where both sides agreed, and nobody's own."""

from datetime import timedelta
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot import cli
from bot.hearing.unnamed import LONGEST, unnamed
from bot.talk import parting, unread_kept
from jobs import tidy
from jobs.sources.gazetteer import STATES, find_places
from storage import unread as kept
from tests.talk.by_hand import House, Somebody, labels_of, text_of


def is_town(words: str) -> bool:
    return words in STATES or bool(find_places(words))


NAMES = ("front", "Alder Court", "Casey Dell")


@pytest.mark.parametrize(
    ("said", "left"),
    [
        ("did the front w 7.5 lbs", "did the <name> w <number> lbs"),
        ("Casey says its gone to seed", "<name> says its gone to seed"),
        ("call me at 555-201-0199", "call me at <number>"),
        ("write to casey@example.org please", "write to <address> please"),
        ("we moved to Salina, Kansas", "we moved to <name> , <name>"),
        ("we moved to salina kansas", "we moved to <place>"),
        ("my neighbor bob sprayed", "my neighbor <name> sprayed"),
        ("mi vecina lupe regó", "mi vecina <name> regó"),
        ("flern the gribble", "flern the gribble"),
    ],
)
def test_names_places_and_numbers_are_taken_out(said, left):
    assert unnamed(said, NAMES, is_town) == left


@given(st.text(max_size=400))
def test_no_digit_and_no_name_is_left_of_any_text(said):
    left = unnamed(f"{said} Casey Dell 12", ["Casey Dell"], lambda _: False)
    assert len(left) <= 20 * LONGEST
    assert not any(letter in "0123456789" for letter in left)
    assert "casey" not in left.casefold() or "casey" in said.casefold()


def texts(house: House) -> list[str]:
    with house.db.reading() as work:
        return [each.said for each in kept.newest(work, 10)]


def say_something_odd(somebody: Somebody) -> None:
    somebody.within(lambda talk: unread_kept.note(talk, "flern the strip 3 times"))


def agree(somebody: Somebody) -> None:
    somebody.turn(lambda talk: parting.tap(talk, "parting:unread_on"))


def test_nothing_is_kept_unless_the_chat_agreed(tmp_path):
    house = House(tmp_path, keeps_unread=True)
    owner = Somebody(house)
    owner.settle_in()
    say_something_odd(owner)
    assert texts(house) == []
    agree(owner)
    say_something_odd(owner)
    assert texts(house) == ["flern the <name> <number> times"]


def test_nothing_is_kept_where_whoever_runs_the_bot_keeps_none(tmp_path):
    house = House(tmp_path)
    owner = Somebody(house)
    owner.settle_in()
    told = text_of(owner.turn(lambda talk: parting.tap(talk, "parting:unread_on")))
    assert "nothing to agree to" in told
    say_something_odd(owner)
    assert texts(house) == []


def test_agreeing_can_be_taken_back(tmp_path):
    house = House(tmp_path, keeps_unread=True)
    owner = Somebody(house)
    owner.settle_in()
    assert "Keep unread texts" in labels_of(owner.do("ask_privacy"))
    agree(owner)
    asked = owner.do("ask_privacy")
    assert "Keep no unread texts" in labels_of(asked)
    assert "180 days" in text_of(asked)
    owner.turn(lambda talk: parting.tap(talk, "parting:unread_off"))
    say_something_odd(owner)
    assert texts(house) == []


def test_they_are_forgotten_after_half_a_year(tmp_path):
    house = House(tmp_path, keeps_unread=True)
    owner = Somebody(house)
    owner.settle_in()
    agree(owner)
    say_something_odd(owner)
    due = tidy.next_due_at(house.db)
    assert due is not None
    tidy.tidy(house.db, due - timedelta(days=2))
    assert len(texts(house)) == 1
    tidy.tidy(house.db, due)
    assert texts(house) == []


def test_whoever_runs_the_bot_reads_them_by_a_command(tmp_path: Path, capsys):
    house = House(tmp_path, keeps_unread=True)
    owner = Somebody(house)
    owner.settle_in()
    agree(owner)
    say_something_odd(owner)
    say_something_odd(owner)
    assert cli.main(["heard", "--db", house.db.url]) == 0
    out = capsys.readouterr().out
    words = " ".join(out.split())
    assert words == "2 2026-02-10 en ready flern the <name> <number> times"


def test_the_command_says_where_nothing_is_kept(tmp_path, capsys):
    house = House(tmp_path)
    assert cli.main(["heard", "--db", house.db.url]) == 0
    assert "SOILBELL_KEEP_UNREAD is off" in capsys.readouterr().out
