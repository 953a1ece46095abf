"""A question of ours waits while another thing is answered, and is taken up again in one line."""

from datetime import UTC, datetime
from pathlib import Path

import pytest

from tests.talk.harness import PLACE, Talker, labels_of, lived


@lived
def asked_rate(talker: Talker) -> None:
    talker.say("/start")
    talker.session.location(*PLACE)
    talker.say("front 60x40, back 50x30")
    talker.say("Keep")
    assert "rate" in talker.ask("prodiamine 0.38% granule")


RATE_AGAIN = "Back to my question: what rate does the label give?"


@pytest.mark.parametrize(
    "said", ["how warm is the soil?", "is it time yet", "can i mow today", "asdf qwer zxcv"]
)
def test_the_question_is_put_again_below_another_answer(asked_rate: Talker, said: str) -> None:
    answer = asked_rate.ask(said)
    assert answer.splitlines()[-1] == RATE_AGAIN
    assert answer.count("Back to my question") == 1
    assert "3.2 lb per 1,000 sq ft" in asked_rate.ask("3.2 lb per 1000 sq ft")


def test_a_word_of_thanks_needs_no_reminder(asked_rate: Talker) -> None:
    assert "Back to my question" not in asked_rate.ask("thanks")


def test_an_emergency_is_answered_without_it(asked_rate: Talker) -> None:
    assert "Back to my question" not in asked_rate.ask("the dog ate some of it")


def test_an_answer_is_no_interruption(asked_rate: Talker) -> None:
    assert RATE_AGAIN not in asked_rate.ask("3.2 lb per 1000 sq ft")


def test_what_a_chosen_products_label_says_more_is_noted_of_it(settled: Talker) -> None:
    for said in ("max 2 applications per year", "label says no more than 2 times a year"):
        assert "At most 2 applications" in settled.ask(said), said


def test_a_second_strip_beside_a_size_is_a_zone_of_its_own(talker: Talker) -> None:
    talker.say("/start")
    talker.session.location(*PLACE)
    said = talker.ask("the back is 60 by 45 minus the shed 10x8, plus theres a side strip 6 x 50")
    assert "side strip: 6 ft x 50 ft = 300 sq ft" in said


def test_a_size_said_anew_is_of_the_zone_that_is_there(talker: Talker) -> None:
    talker.say("/start")
    talker.session.location(*PLACE)
    talker.say("front 60x40")
    said = talker.say("front yard is forty by twenty five feet")
    assert "front: 40 ft x 25 ft = 1,000 sq ft" in said[0].reply.text
    assert labels_of(said)
    assert "Total Yard 1: 1,000 sq ft" in said[0].reply.text


def test_a_question_is_taken_up_again_once_and_then_waits_without_a_word(tmp_path: Path) -> None:
    talker = Talker(tmp_path)
    talker.say("39.18, -96.57")
    talker.say("front 60x40")
    talker.say("prodiamine 0.38% granule, 3.2 lb per 1000 sq ft")
    assert "Back to my question" in talker.ask("how warm is the soil")
    assert "Back to my question" not in talker.ask("is it safe for my dog")
    assert "Label maximum: 6.4 lb" in talker.ask("6.4 lb per 1000 a year")


@pytest.mark.parametrize("said", ["when is the second one due", "cuando toca la segunda"])
def test_a_question_names_no_pass(settled: Talker, said: str) -> None:
    settled.say("applied front and back")
    settled.say("i ran out of product")
    assert "Nothing is applied yet" in settled.ask(said)


def test_what_was_said_yesterday_is_not_asked_about_today(settled: Talker) -> None:
    assert "How much did you cover?" in settled.ask("i ran out of product")
    settled.session.wait("P2D")
    assert "Back to my question" not in settled.ask("how warm is the soil")


def test_who_ran_out_of_daylight_emptied_no_hopper(tmp_path: Path) -> None:
    talker = Talker(tmp_path, start=datetime(2026, 4, 8, 14, tzinfo=UTC))
    talker.settle_in()
    answer = talker.ask("did the strip this morning, ran out of daylight for the pool lawn")
    assert "Recorded" in answer
    assert "Still to do: pool lawn" in answer
    assert "How much did you cover" not in answer


def test_the_only_lawn_is_measured_again_by_its_pronoun(talker: Talker) -> None:
    talker.say("/start")
    talker.session.location(*PLACE)
    assert talker.ask("its just one lawn, roughly a quarter acre").startswith("lawn: 0.25 acre")
    assert "lawn: 8,000 sq ft (was 10,890 sq ft)" in talker.ask("it's more like 8000 sq ft")


def test_yes_is_the_percentage_that_was_asked_about(talker: Talker) -> None:
    talker.say("/start")
    talker.session.location(*PLACE)
    talker.say("front 60x40")
    assert "65% prodiamine?" in talker.ask("its called prodiamine 65 something, the blue one")
    assert "what percentage" in talker.ask("how much do i need")
    assert "How much goes on an area?" in talker.ask("yes")
