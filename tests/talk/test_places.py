"""Where the yard is: shared, typed as degrees, or by the name of a US town."""

import pytest

from storage import yards
from tests.talk.harness import Talker, labels_of, text_of


def places(talker: Talker) -> list[tuple[float, float, str]]:
    with talker.db.reading() as work:
        return [(yard.lat, yard.lon, yard.timezone) for yard in yards.of_chat(work, 1)]


def names(talker: Talker) -> list[str]:
    with talker.db.reading() as work:
        return [yard.name for yard in yards.of_chat(work, 1)]


@pytest.mark.parametrize("text", ["Manhattan KS", "66502", "manhattan, kansas"])
def test_a_town_registers_the_yard(talker: Talker, text: str) -> None:
    talker.say("/start")
    assert "America/Chicago" in talker.ask(text)
    assert places(talker)[0][:2] == pytest.approx((39.18, -96.57), abs=0.1)


def test_an_ambiguous_town_is_asked_back_with_buttons(talker: Talker) -> None:
    talker.say("/start")
    said = talker.say("Springfield")
    assert "more than one Springfield" in text_of(said)
    assert "Springfield, IL" in labels_of(said)
    assert places(talker) == []
    talker.tap("Springfield, IL")
    assert places(talker)[0][2] == "America/Chicago"


def test_a_state_alone_is_no_town_elsewhere_and_words_behind_a_town_are_none_of_it(talker) -> None:
    talker.say("/start")
    assert "Which town in Nebraska?" in talker.ask("nebraska")
    assert "more than one Grand Island" in talker.ask("near Grand Island, out in the country")
    assert "Grand Island, NE" in talker.ask("nebraska")


def test_sizes_said_first_outlive_the_question_which_town(talker: Talker) -> None:
    talker.say("front 60x40")
    talker.say("Springfield")
    assert "front: 60 ft x 40 ft" in talker.tap("Springfield, MO")


def test_degrees_out_of_range_are_asked_back(talker: Talker) -> None:
    talker.say("/start")
    assert "39.18, -96.57" in talker.ask("98.2, -97.6")
    assert places(talker) == []


def test_a_second_place_is_asked_about(talker: Talker) -> None:
    talker.say("/start")
    talker.session.location(39.18, -96.57)
    said = talker.session.location(40.85, -96.6)
    assert labels_of(said) == ["New yard", "Move Yard 1"]
    talker.tap("New yard")
    assert len(places(talker)) == 2
    talker.session.location(41.0, -96.0)
    talker.tap("Move Yard 2")
    assert places(talker)[1][0] == pytest.approx(41.0)


def test_the_time_zone_can_be_corrected(talker: Talker) -> None:
    talker.say("/start")
    talker.session.location(39.18, -96.57)
    talker.tap("Time zone")
    assert "don't know a time zone called" in talker.ask("Gotham")
    assert "America/Denver" in talker.ask("Denver")
    assert places(talker)[0][2] == "America/Denver"
    talker.take_back()
    assert places(talker)[0][2] == "America/Chicago"


def test_another_yard_by_town(talker: Talker) -> None:
    talker.say("/start")
    talker.session.location(39.18, -96.57)
    assert "Yard 2 is set up" in text_of(talker.say("new yard in Lincoln, NE"))
    assert len(places(talker)) == 2


def test_a_yard_gets_the_name_it_is_given(talker: Talker) -> None:
    talker.say("/start")
    talker.session.location(39.18, -96.57)
    talker.tap("Rename")
    assert "Mill Lane 4" in talker.ask("Mill Lane 4")
    assert "Mill Lane 4: waiting" in talker.ask("/yard")


@pytest.mark.parametrize(
    "name", ["Hill", "Grass", "Plan", "Map", "Walk Lane", "Soil", "Yard 12", "Tonight", "metric"]
)
def test_a_name_that_was_asked_for_is_no_command(settled: Talker, name) -> None:
    settled.say("/yard")
    settled.tap("More")
    settled.tap("Rename")
    assert settled.ask(name) == f"OK, it is now {name}."
    assert names(settled) == [name]


@pytest.mark.parametrize("way_out", ["never mind", "Stop.", "cancel", "/cancel", "/soil"])
def test_a_question_for_a_name_can_be_left(settled: Talker, way_out) -> None:
    settled.say("/yard")
    settled.tap("More")
    settled.tap("Rename")
    settled.say(way_out)
    settled.say("Hill")
    assert names(settled) == ["Yard 1"]


def test_what_is_down_is_no_name(settled: Talker) -> None:
    settled.say("/yard")
    settled.tap("More")
    settled.tap("Rename")
    assert "Recorded" in settled.ask("applied the strip")
    assert names(settled) == ["Yard 1"]


def test_a_lead_that_was_asked_for_is_taken_and_other_words_are_answered(settled: Talker) -> None:
    settled.say("/yard")
    settled.tap("More")
    settled.tap("How early")
    assert "12.27 lb" in settled.ask("/amounts")
    settled.say("/yard")
    settled.tap("More")
    settled.tap("How early")
    assert "30 days before" in settled.ask("30 days")


def test_a_time_zone_that_was_asked_for_is_taken(settled: Talker) -> None:
    settled.say("/yard")
    settled.tap("More")
    settled.tap("Time zone")
    assert "don't know a time zone" in settled.ask("Atlantis")
    assert "America/New_York" in settled.ask("New York")


def test_abroad_the_first_yard_brings_metres_with_it(talker: Talker) -> None:
    talker.say("/start")
    talker.session.location(52.2, 0.12)
    assert "front: 12 m x 9 m = 108 m²" in talker.ask("front 12 x 9")
    assert "OK: feet, pounds and °F" in talker.ask("use feet")


def test_before_there_is_a_yard_no_two_changes_are_chosen_between(talker: Talker) -> None:
    assert "First I need the location" in talker.ask("good morning, I have two lawns to look after")


def test_which_town_is_asked_again_until_it_is_told(talker: Talker) -> None:
    assert "more than one Springfield" in talker.ask("Springfield")
    assert "more than one Springfield" in talker.ask("front 60x40 ft")
    assert "front: 60 ft x 40 ft" in talker.ask("Missouri")


def test_a_post_office_filed_under_a_county_far_off_makes_no_second_town(talker: Talker) -> None:
    assert talker.ask("El Paso Texas").startswith("El Paso, TX: Yard 1 is set up there")


def test_a_place_said_in_passing_makes_the_first_yard(talker: Talker) -> None:
    said = "Hi, I bought a house with a lawn and no clue. Knoxville TN"
    assert talker.ask(said).startswith("Knoxville, TN: Yard 1 is set up there")


@pytest.mark.parametrize("said", ["is it ok to spray in may", "tell me when", "my yard is weedy"])
def test_small_words_are_no_state(talker: Talker, said: str) -> None:
    assert "is set up there" not in talker.ask(said)


@pytest.mark.parametrize(
    ("said", "name"),
    [
        ("church is in Salina KS", "church"),
        ("my moms place, Salina KS", "mom's"),
        ("the rental is in Salina KS", "rental"),
        ("la casa de mi abuela está en Salina KS", "abuela"),
        ("Salina KS", "Yard 1"),
        ("my yard is in Salina KS", "Yard 1"),
    ],
)
def test_a_place_is_called_what_its_people_call_it(tmp_path, said, name) -> None:
    talker = Talker(tmp_path)
    talker.ask(said)
    assert f"{name}:" in talker.ask("/soil")


def test_a_name_waits_for_its_place(tmp_path) -> None:
    talker = Talker(tmp_path)
    talker.ask("Salina KS")
    assert "don't know that place" in talker.ask("add another one, grandpa's house, Nowhereville")
    assert "grandpa's is set up" in talker.ask("Topeka KS")
    talker.ask("front 60x40")
    assert "Recorded for Yard 1" not in talker.ask("grandpas is done")
