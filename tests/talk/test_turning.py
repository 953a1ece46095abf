"""Several yards: turned to by name or number, listed, and registered by a sentence."""

import pytest

from storage import yards
from tests.talk.harness import PRODUCT, Talker, labels_of, lived, text_of


@lived
def two(talker: Talker) -> None:
    """Two yards, of which the second, Smith's lawn, is talked about."""
    talker.settle_in()
    talker.session.location(38.9, -96.5)
    talker.session.tap("New yard")
    talker.say("/yard")
    talker.tap("More")
    talker.tap("Rename")
    talker.say("Smith's lawn")


def names(talker: Talker) -> list[str]:
    with talker.db.reading() as work:
        return [yard.name for yard in yards.of_chat(work, 1)]


@pytest.mark.parametrize(
    "said",
    [
        "yard 1",
        "Yard 1.",
        "/yard yard 1",
        "/yard 1",
        "switch to yard 1",
        "go to yard 1",
        "go back to 1",
        "show yard 1",
        "show me yard 1",
    ],
)
def test_a_yard_is_turned_to_by_its_number(two: Talker, said) -> None:
    text = two.ask(said)
    assert "Now working on Yard 1." in text
    assert "Yard 1: waiting" in text
    assert "12.27 lb" in two.ask("/amounts")


@pytest.mark.parametrize(
    "said",
    [
        "yard smith",
        "/yard smith",
        "/yard Smith's lawn",
        "switch to smith",
        "go to the smith yard",
        "show smith",
        "yard 2",
    ],
)
def test_a_yard_is_turned_to_by_its_name(two: Talker, said) -> None:
    two.say("yard 1")
    assert "Now working on Smith's lawn." in two.ask(said)


def test_right_after_a_yard_was_added_its_number_is_no_area(settled: Talker) -> None:
    settled.session.location(38.9, -96.5)
    settled.session.tap("New yard")
    assert "Now working on Yard 1." in settled.ask("yard 1")


@pytest.mark.parametrize("said", ["/yard jones", "yard 7", "switch to yard 7"])
def test_a_yard_that_is_not_there_is_said_with_those_that_are(two: Talker, said) -> None:
    answer = two.say(said)
    assert "Yours: Yard 1, Smith's lawn" in text_of(answer)
    assert labels_of(answer) == ["Go to Yard 1", "Go to Smith's lawn"]


@pytest.mark.parametrize("said", ["yards", "my yards", "Show me all yards", "list yards"])
def test_yards_are_listed_with_buttons(two: Talker, said) -> None:
    answer = two.say(said)
    assert "We are on Smith's lawn" in text_of(answer)
    assert "Yard 1: waiting" in text_of(answer)
    assert labels_of(answer) == ["Go to Yard 1", "Go to Smith's lawn"]
    assert "Now working on Yard 1" in two.tap("Go to Yard 1")


def test_a_name_that_fits_two_yards_is_asked_about(two: Talker) -> None:
    two.say("yard 1")
    two.say("/yard")
    two.tap("More")
    two.tap("Rename")
    two.say("Smithers")
    answer = two.say("yard smith")
    assert labels_of(answer) == ["Go to Smithers", "Go to Smith's lawn"]


def test_sizes_behind_the_word_yard_stay_sizes(two: Talker) -> None:
    assert "60 ft x 40 ft" in two.ask("yard 60x40")
    assert names(two) == ["Yard 1", "Smith's lawn"]


@pytest.mark.parametrize(
    "said", ["new yard at 38.9,-96.5", "new yard at 38.9, -96.5", "new yard: 38.9, -96.5"]
)
def test_a_new_yard_at_coordinates_is_registered(settled: Talker, said) -> None:
    text = settled.ask(said)
    assert "Yard 2 is set up at 38.90, -96.50" in text
    assert "Whose lawn is Yard 2" in text
    assert names(settled) == ["Yard 1", "Yard 2"]


def test_the_first_yard_may_be_said_so_too(talker: Talker) -> None:
    talker.say("/start")
    assert "Yard 1 is set up" in talker.ask("new yard at 38.9,-96.5")


def test_a_new_yard_nowhere_on_earth_is_asked_about(settled: Talker) -> None:
    assert "for example: 39.18, -96.57" in settled.ask("new yard at 138.9,-96.5")
    assert names(settled) == ["Yard 1"]


def test_a_second_yard_takes_the_product_of_the_first(settled: Talker) -> None:
    settled.say("new yard at 38.9,-96.5")
    settled.say("lawn 50x50")
    said = settled.say("/product")
    assert "Use prodiamine, 3.2 lb per 1,000 sq ft" in labels_of(said)
    text = settled.tap("Use prodiamine, 3.2 lb per 1,000 sq ft")
    assert "Saved for Yard 2: prodiamine 0.38%" in text
    assert "Label maximum: 6.4 lb" in text
    # 2,500 sq ft at 3.2 lb per 1,000 sq ft.
    assert "8 lb" in settled.ask("/amounts")
    settled.take_back()
    assert "No product yet" in settled.ask("/yard")
    assert "Saved for Yard 2: prodiamine" in settled.ask("same product as yard 1")
    # One bag, one shelf.
    settled.say("I have 50 lb left")
    settled.say("yard 1")
    settled.say("buy")
    assert "Your 50 lb is enough" in settled.tap("Skip the rest") + settled.ask("buy")


def test_the_same_label_written_again_is_the_same_product(settled: Talker) -> None:
    settled.say("new yard at 38.9,-96.5")
    settled.say("lawn 50x50")
    settled.say(PRODUCT)
    with settled.db.reading() as work:
        first, second = yards.of_chat(work, 1)
    assert first.product_id == second.product_id is not None
    settled.take_back()
    with settled.db.reading() as work:
        first, second = yards.of_chat(work, 1)
    assert first.product_id is not None
    assert second.product_id is None


def test_a_report_that_names_two_yards_is_kept_at_each(two: Talker) -> None:
    two.say("front 30x20")
    two.say("Keep")
    two.say(PRODUCT)
    said = two.ask("yard 1 and smith's lawn are done")
    assert "Recorded for Yard 1" in said
    assert "Recorded for Smith's lawn: front" in said


def test_the_zones_of_a_yard_that_is_named_are_its_own(two: Talker) -> None:
    two.say("front 30x20")
    two.say("Keep")
    two.say(PRODUCT)
    two.say("yard 1")
    assert "Recorded for Smith's lawn: front" in two.ask("smith's lawn is all done")


def test_a_link_opens_a_yard_of_the_chat_and_no_other(settled: Talker) -> None:
    settled.say("new yard at 38.9, -96.5")
    assert "Now working on Yard 1" in settled.ask("/start yard_1")
    assert "too old" in settled.ask("/start yard_99")


def test_a_report_is_never_put_on_record_at_the_wrong_yard(two: Talker) -> None:
    two.say("front 30x20")
    two.say("Keep")
    two.say(PRODUCT)
    two.wait("P2D")
    asked = two.say("put it down this morning")
    assert text_of(asked).startswith("Which yard is that of?")
    assert labels_of(asked) == ["Smith's lawn", "Yard 1", "All 2"]
    assert "Recorded for Yard 1" in two.ask("the yard 1 one")
    # Just named, it is plainly meant.
    assert "at Yard 1" in two.ask("watered 0.2 in")
    # A zone that one yard alone has names it.
    assert "Recorded for Smith's lawn: front" in two.ask("front is done")
    two.wait("P2D")
    two.say("watered 0.3 in")
    both = two.tap("All 2")
    assert "Yard 1 is watered in" in both
    assert "at Smith's lawn" in both


def test_sizes_behind_another_place_are_those_of_a_new_yard(settled: Talker) -> None:
    settled.session.location(38.9, -96.5)
    said = settled.ask("front 30x20")
    assert "Yard 2 is set up at 38.90, -96.50" in said
    assert "Total Yard 2: 600 sq ft" in said
