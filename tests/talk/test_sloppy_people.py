"""People who type as people do: short answers, half a label, vague days, a leading point."""

from pathlib import Path

import pytest

from storage import applications
from tests.talk.harness import Talker


def test_a_typed_yes_or_no_does_what_the_button_would(tmp_path: Path) -> None:
    talker = Talker(tmp_path)
    talker.say("39.18, -96.57")
    talker.say("front 60x40")
    assert "Send the zone again" in talker.ask("no")
    assert "Saved" in talker.ask("Yes")


def test_a_whole_label_said_again_replaces_the_one_in_question(tmp_path: Path) -> None:
    talker = Talker(tmp_path)
    talker.say("39.18, -96.57")
    talker.say("front 60x40")
    assert "43.56" in talker.ask("prodiamine 0.5% granule 300 lb per 1000")
    text = talker.ask("prodiamine 0.5% granule 3 lb per 1000, max 6 lb per 1000 a year")
    assert "Saved" in text
    assert "300" not in text


def test_a_maximum_found_later_is_kept_and_stops_a_rate_above_it(settled: Talker) -> None:
    assert "Saved" in settled.ask("max 7 lb per 1000 a season")
    assert "over your label maximum" in settled.ask("max 2 lb per 1000 per application")
    settled.say("/amounts")
    assert "3.2 lb per 1,000 sq ft" in settled.tap("Why")


def test_a_period_is_typed_as_well_as_tapped(tmp_path: Path) -> None:
    talker = Talker(tmp_path)
    talker.say("39.18, -96.57")
    talker.say("front 60x40")
    assert "period not said" in talker.ask(
        "prodiamine 0.5% granule 3 lb per 1000, max 6 lb per 1000"
    )
    assert "in a calendar year" in talker.ask("the whole year")


def test_the_same_label_said_twice_is_one_change(settled: Talker) -> None:
    label = "prodiamine 0.5% granule, 3 lb per 1000, max 6 lb per 1000 a year"
    settled.say(label)
    settled.say(label)
    assert "3.2 lb per 1,000" in settled.take_back()


def test_half_an_inch_with_a_leading_point_is_half_an_inch(settled: Talker) -> None:
    settled.say("applied")
    assert "0.1 in since the application" in settled.ask("watered .1 in")


def test_a_zone_over_its_maximum_is_left_out_of_the_second_round(settled: Talker) -> None:
    settled.until_alert("window_open")
    settled.say("applied pool lawn")
    settled.say("applied south bed")
    assert "9 times your label rate" in settled.ask("applied strip 12 lb")
    assert "over your label maximum" in settled.ask("yes")
    half = settled.until_alert("second_half_due")
    assert "Zones: pool lawn, south bed." in half.reply.text
    recorded = settled.ask("applied")
    assert "strip" not in recorded
    assert "Second application" not in recorded


@pytest.mark.parametrize(
    "text",
    ["is it safe for kids?", "when can the dog go back out", "is it safe to walk on it"],
)
def test_people_and_pets_are_kept_off_and_never_promised_safety(settled: Talker, text: str) -> None:
    answer = settled.ask(text)
    assert "off until" in answer
    assert "label may say longer" in answer
    assert "safe" not in answer.casefold()


def test_what_a_service_did_in_no_named_week_is_asked_back(settled: Talker) -> None:
    answer = settled.ask("the service put down prodiamine on the strip last week")
    assert "Which day was that, between Mon Feb 2 and Sun Feb 8?" in answer
    assert "#1" not in settled.ask("/record")
    assert "strip" in settled.ask("the service put down prodiamine on the strip yesterday")
    # How much went down there nobody knows: the round, the load and the sketch leave it out.
    for command in ("/spreader", "/sketch", "/today"):
        assert "wrong on my end" not in settled.ask(command)


def test_work_of_a_rough_day_is_asked_for_its_day(settled: Talker) -> None:
    """Watering in, the second application and seeding count from the day: none is made up."""
    for said, first, last in (
        ("applied it a couple weeks ago", "Thu Jan 22", "Thu Jan 29"),
        ("put it down earlier this month", "Sun Feb 1", "today"),
        ("spread it around the 5th", "Tue Feb 3", "Sat Feb 7"),
        ("i did the strip over the weekend", "Sat Feb 7", "Sun Feb 8"),
        ("lo eché hace un par de semanas", "Thu Jan 22", "Thu Jan 29"),
        ("lo apliqué a principios de mes", "Feb 1", "today"),
        ("lo apliqué la semana pasada", "Feb 2", "Feb 8"),
    ):
        asked = settled.ask(said)
        assert first in asked, said
        assert last in asked, said
        settled.say("cancel")
    assert "#1" not in settled.ask("/record")
    settled.say("applied the strip last week")
    # Said on a Tuesday, of last week's work.
    assert "Tue Feb 3" in settled.ask("tuesday") + settled.ask("yes")
    said = settled.ask("did the pool lawn last weekend and the south bed yesterday")
    assert "Sat Feb 7" in said
    assert "south bed" in said


def test_a_zone_called_after_the_drain_is_still_treated(tmp_path: Path) -> None:
    talker = Talker(tmp_path)
    talker.settle_in()
    talker.say("drain side 20x10")
    talker.tap("Keep")
    # The name of a zone is no emergency.
    assert talker.ask("applied drain side").startswith("Recorded for Yard 1: drain side")


def test_no_early_warm_spell_is_told_in_the_middle_of_summer(settled: Talker) -> None:
    settled.wait("P180D")
    assert settled.session.now.month in (7, 8, 9)
    assert "warm spell" not in settled.ask("/soil")


def test_a_slip_of_the_year_or_of_the_decimal_point_is_recorded_nowhere(settled: Talker) -> None:
    assert "years ago" in settled.ask("applied 1 Jan 1990")
    settled.until_alert("window_open")
    settled.say("applied")
    assert "looks wrong" in settled.ask("watered 50 in")
    with settled.db.reading() as work:
        assert len(applications.of_yard(work, 1)) == 1
        assert applications.waterings(work, 1) == []


def test_what_was_put_down_long_since_is_not_called_to_be_watered_in(settled: Talker) -> None:
    assert "water it in" not in settled.ask("applied strip 1 October 2025")


@pytest.mark.parametrize(
    "text",
    [
        "i applied the back",
        "I spread the back this morning",
        "we did the back yesterday",
        "i only did the back",
        "I put out 7.7 lb on the back",
        "we've just treated the back",
    ],
)
def test_a_report_on_the_back_is_a_report(settled: Talker, text: str) -> None:
    settled.say("back 50x70")
    assert "Recorded for Yard 1: back" in settled.ask(text)


def test_a_question_about_the_back_is_not_one_about_people(settled: Talker) -> None:
    settled.say("back 50x70")
    assert "Keep kids" not in settled.ask("can I seed the back on 5 September?")
    settled.say("applied back")
    assert "0.5 in" in settled.ask("we watered the back 0.5 in")


@pytest.mark.parametrize(
    "text", ["can we walk on the back yet?", "when can I go on the lawn", "may the dog go back out"]
)
def test_people_and_pets_on_the_back_are_kept_off(settled: Talker, text: str) -> None:
    settled.say("back 50x70")
    assert "Keep kids and pets off" in settled.ask(text)


def test_ground_that_is_no_zone_here_is_asked_about_and_never_taken_for_another(settled: Talker):
    only = settled.ask("the back yard is done")
    assert only.startswith('Which zone is "back yard"? Yard 1 has: pool lawn, strip, south bed.')
    assert "Nothing" in settled.ask("/record")
    both = settled.ask("put it down on the strip and the back yard")
    assert "Recorded for Yard 1: strip" in both
    assert "I recorded nothing for it" in both
