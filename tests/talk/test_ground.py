"""Ground by words: zones renamed, split and merged, parts of them done, missed and left over."""

import pytest

from tests.talk.harness import PLACE, Talker, labels_of, lived, text_of

PRODUCT = "prodiamine 0.38% granule, 3 lb per 1000 sq ft, max 6 lb per 1000 sq ft a year"


@lived
def yard(talker: Talker) -> None:
    talker.say("/start")
    talker.session.location(*PLACE)
    talker.say("front 60x40, back 50x30, side strip 6x50")
    talker.tap("Keep")
    talker.say(PRODUCT)


@pytest.mark.parametrize(
    "said", ["rename front to north", "call the front lawn north", "the front is called north now"]
)
def test_a_zone_takes_another_name(yard: Talker, said: str) -> None:
    assert "front is now called north" in yard.ask(said)
    assert "north: 60 ft x 40 ft" in yard.ask("/zones")


def test_ground_that_nobody_knows_is_asked_about(yard: Talker) -> None:
    for said in (
        "rename pool to north",
        "split pool into a 5x5 and the rest",
        "merge back and pool",
    ):
        assert 'Which zone is "pool"?' in yard.ask(said)
    assert "Mill Lane" in yard.ask("rename yard to Mill Lane")
    assert "back: 45 ft x 50 ft" in yard.ask("resize back to 45x50")


def test_a_name_that_is_taken_is_refused(yard: Talker) -> None:
    assert "already has a zone called front" in yard.ask("rename back to front")


def test_a_split_needs_sizes_unless_it_is_in_half(yard: Talker) -> None:
    assert "Nothing is split yet" in yard.ask("split the back into upper and lower")
    assert "play area 600 sq ft, back 2 900 sq ft" in yard.ask(
        "split the back into play area 20x30 and the rest"
    )
    assert "front 1 1,200 sq ft, front 2 1,200 sq ft" in yard.ask("split the front in half")
    said = yard.ask("split side strip into two halves, near and far")
    assert "near 150 sq ft, far 150 sq ft" in said
    said = yard.ask("split near into left and right halves")
    assert "left 75.0 sq ft, right 75.0 sq ft" in said


def test_parts_that_come_to_more_than_the_zone_are_refused(yard: Talker) -> None:
    asked = yard.ask("split the back into upper 40x40 and lower 20x20")
    assert "The parts come to 2,000 sq ft, the zone has 1,500 sq ft" in asked


def test_zones_are_merged_and_taken_apart_by_undo(yard: Talker) -> None:
    assert "one zone: sunny, 2,700 sq ft" in yard.ask("merge side strip and front into sunny")
    assert "sunny: 2,700 sq ft\n" in yard.ask("/zones")
    yard.say("undo")
    yard.tap("Undo it")
    assert "front: 60 ft x 40 ft" in yard.ask("/zones")


@pytest.mark.parametrize(
    ("said", "had", "left"),
    [
        ("half of the back is done", "750", "750"),
        ("did 100 sq ft of the back", "100", "1,400"),
        ("did two thirds of the back", "1,000", "500"),
        ("about 20% of the back got nothing", "1,200", "300"),
        ("i only got half the back", "750", "750"),
    ],
)
def test_a_part_is_recorded_as_such(yard: Talker, said: str, had: str, left: str) -> None:
    assert f"{had} sq ft of back is done. {left} sq ft still to do" in yard.ask(said)
    assert "back: " in yard.ask("/amounts")
    assert f"back, {left} sq ft:" in yard.tap("Why")


def test_the_rest_completes_a_zone(yard: Talker) -> None:
    yard.say("applied half of the back")
    assert "all of back is done" in yard.ask("applied rest of back")


def test_what_is_excepted_is_not_recorded(yard: Talker) -> None:
    assert "Recorded for Yard 1: front, side strip (" in yard.ask("did everything except the back")
    left = yard.ask("what's left")
    assert "Still to do: back." in left
    assert "Nothing left" not in left


@pytest.mark.parametrize("said", ["did most of the back", "did a third of it"])
def test_a_part_nobody_can_tell_is_asked(yard: Talker, said: str) -> None:
    assert "For example: applied half of" in yard.ask(said)


def test_a_part_larger_than_its_zone_is_refused(yard: Talker) -> None:
    assert "is more than front has" in yard.ask("did 5000 sq ft of the front")


def test_a_missed_stripe_is_left_out_of_the_record_and_asked_for_again(yard: Talker) -> None:
    yard.say("applied the back")
    # 4 x 50 ft = 200 sq ft at 3 lb per 1,000 sq ft is 0.6 lb, 9.6 oz (computed).
    assert "9.6 oz" in yard.ask("missed a stripe 4 ft wide and 50 ft long in the back")
    yard.tap("Take it out")
    assert "back: 4.79 oz per pass" in yard.ask("/amounts")


def test_a_stripe_without_a_length_is_asked_for_it(yard: Talker) -> None:
    assert "How long was that stripe of 4 ft?" in yard.ask("missed a stripe 4 ft wide by the fence")


def test_as_far_as_it_went_is_recorded_by_a_tap(yard: Talker) -> None:
    yard.say("ran out with a third of the back left")
    said = yard.session.tap("I did it in one pass")
    assert labels_of(said) == ["Record it for back"]
    # 4.5 lb on 1,000 of 1,500 sq ft (computed).
    assert "got 4.5 lb per 1,000 sq ft. 500 sq ft of back are left" in text_of(said)
    assert "back (1,000 sq ft)" in yard.tap("Record it for back")


def test_a_service_may_have_done_a_part(yard: Talker) -> None:
    said = yard.ask(
        "the service did half of the back yesterday with prodiamine 0.38% 3 lb per 1000"
    )
    assert "750 sq ft of back is done" in said


def test_the_rest_that_must_wait_takes_nothing_back(yard: Talker) -> None:
    said = yard.ask("the front is done; the rest must wait until thursday")
    assert "Recorded for Yard 1: front" in said
    assert "If you did not apply then" not in said
