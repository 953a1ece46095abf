"""Everyday questions, as they are typed on a phone: answered, and never taken for a report."""

from datetime import UTC, datetime

import pytest

from storage import applications
from tests.talk.harness import Talker


@pytest.mark.parametrize(
    "asked",
    [
        "whats my soil at",
        "What's my soil at?",
        "what’s the soil temp",
        "how's the soil",
        "hows the soil doing today",
        "how warm is the soil right now?",
        "soil temp",
        "ground temperature",
    ],
)
def test_questions_about_the_soil_get_the_soil(settled: Talker, asked) -> None:
    assert settled.ask(asked) == settled.ask("/soil")


@pytest.mark.parametrize(
    "asked",
    [
        "when should i put down pre emergent",
        "When should I put down pre-emergent?",
        "when do i put the pre-emergent down this year",
        "when to apply preemergent",
        "when is the best time to apply pre em",
        "when can we spray",
        "is it too early to apply pre-emergent",
    ],
)
def test_questions_about_when_get_the_days_to_put_it_down(settled: Talker, asked) -> None:
    text = settled.ask(asked)
    assert text.startswith("Not yet. Apply at Yard 1 between")


@pytest.mark.parametrize(
    "asked",
    [
        "how much for the strip",
        "How much product for the pool lawn?",
        "how much do i need for the strip and the south bed",
    ],
)
def test_questions_about_amounts_of_zones_get_those_zones(settled: Talker, asked) -> None:
    text = settled.ask(asked)
    assert "lb per pass" in text or "oz per pass" in text
    assert "Total" not in text
    assert ("strip: 10.2 oz per pass, 2 passes" in text) == ("strip" in asked)


@pytest.mark.parametrize("asked", ["how much on the lawn", "how much do I put down on the yard"])
def test_questions_about_amounts_get_the_amounts(settled: Talker, asked) -> None:
    assert settled.ask(asked) == settled.ask("/amounts")


@pytest.mark.parametrize(
    "asked",
    [
        "is it too late",
        "am I too late?",
        "is it too late to put it down",
        "did i miss the window",
    ],
)
def test_questions_about_too_late_get_a_plain_answer(settled: Talker, asked) -> None:
    assert settled.ask(asked).startswith("No, you are early")


@pytest.mark.parametrize(
    "asked",
    [
        "when is the second app",
        "when's the second half?",
        "whens my 2nd application due",
        "when do i put down the next round",
        "is the second half due",
    ],
)
def test_questions_about_the_second_one_get_when_it_falls_due(settled: Talker, asked) -> None:
    assert "is applied" in settled.ask(asked)
    settled.say("applied")
    assert "Second application" in settled.ask(asked) or "second" in settled.ask(asked)


@pytest.mark.parametrize("asked", ["when do i water", "When should I water it in?"])
def test_when_to_water_follows_what_is_down(settled: Talker, asked) -> None:
    # Half an inch within seven days: Univ. of Arkansas Extension 2009.
    assert "0.5 in within 7 days" in settled.ask(asked)
    settled.say("applied")
    assert "Needs watering in" in settled.ask(asked)


def test_when_to_water_a_leaf_herbicide_is_left_to_its_label(settled: Talker) -> None:
    settled.say(
        "/product prodiamine 0.38% + 2,4-d 1% granule, 3.2 lb per 1000 sq ft, "
        "max 6.4 lb per 1000 a year"
    )
    assert "works on leaves" in settled.ask("when do i water")


@pytest.mark.parametrize(
    "asked",
    [
        "can i mow",
        "Can I mow the lawn tomorrow?",
        "when can i mow",
        "should we cut the grass first",
    ],
)
def test_mowing_waits_until_it_is_watered_in_and_dry(settled: Talker, asked) -> None:
    text = settled.ask(asked)
    assert "watered in and dry" in text
    assert "Your label wins" in text


@pytest.mark.parametrize(
    "asked",
    [
        "i aerated did i break the barrier",
        "I aerated yesterday, is the barrier broken?",
        "can i aerate",
        "does aerating break the barrier",
        "when should I core-aerate?",
    ],
)
def test_aeration_is_for_before_or_for_autumn(settled: Talker, asked) -> None:
    text = settled.ask(asked)
    assert "or in the fall" in text
    assert "label wins" in text


@pytest.mark.parametrize(
    "said",
    [
        "i applied the strip",
        "put down the strip",
        "just spread it on the strip now",
    ],
)
def test_no_report_is_taken_for_a_question(settled: Talker, said) -> None:
    settled.say(said)
    with settled.db.reading() as work:
        assert len(applications.of_yard(work, 1)) == 1


def test_a_question_in_between_does_not_answer_for_a_product(settled: Talker) -> None:
    settled.say("/product prodiamine 0.38% granule, 3.2 lb per 1000 sq ft")
    assert "I did not understand" not in settled.ask("whats my soil at")
    assert "Saved without a maximum" in settled.ask("my label gives none")


@pytest.mark.parametrize("asked", ["when should i seed the strip", "is it too late to seed"])
def test_questions_about_seed_stay_with_seed(settled: Talker, asked) -> None:
    text = settled.ask(asked)
    assert text != settled.ask("/soil")
    assert text != settled.ask("/yard")


def test_before_there_is_a_yard_the_place_is_asked_for(talker: Talker) -> None:
    talker.say("/start")
    for asked in ("whats my soil at", "can i mow", "how much for the front"):
        text = talker.ask(asked)
        assert "First I need the location" in text or "Where is your lawn" in text


def test_the_second_half_is_dated_once_the_first_is_down(tmp_path) -> None:
    talker = Talker(tmp_path, start=datetime(2026, 4, 13, 14, tzinfo=UTC))
    talker.settle_in()
    talker.say("applied")
    # 56 days after 13 April is 8 June.
    assert "Mon Jun 8" in talker.ask("when is the second half")
