"""Did it work, and looking back."""

from datetime import UTC, datetime

import pytest

from storage import sightings, yards
from tests.talk.harness import Talker, labels_of, lived_from, text_of


@lived_from(datetime(2026, 6, 8, 14, tzinfo=UTC))
def june(talker: Talker) -> None:
    """A yard treated in April, in June."""
    talker.settle_in()
    talker.say("applied 12.3 lb on 2 April")


def report(talker: Talker, text: str) -> None:
    """Report an application; where it is strange (another year, late), say that it is right."""
    if "Yes, that's right" in labels_of(talker.say(text)):
        talker.tap("Yes, that's right")


def test_people_are_asked_in_june_and_in_august(june: Talker) -> None:
    asked = [
        said for said in june.wait("P75D") if "seen any crabgrass" in said.reply.text.casefold()
    ]
    assert [said.at.month for said in asked] == [6, 8]
    assert labels_of(asked[:1]) == ["None seen", "I saw some"]


def test_nobody_is_asked_where_nothing_was_put_down(tmp_path) -> None:
    talker = Talker(tmp_path, start=datetime(2026, 6, 8, 14, tzinfo=UTC))
    talker.settle_in()
    heard = talker.wait("P20D")
    assert not [said for said in heard if "seen any" in said.reply.text.casefold()]


def test_crabgrass_on_the_strip_is_a_record(june: Talker) -> None:
    text = june.ask("crabgrass on the strip")
    assert "Noted: crabgrass on strip" in text
    assert "dithiopyr" in text
    with june.db.reading() as work:
        seen = sightings.of_yard(work, 1)
    assert [(each.zone_name, each.is_seen) for each in seen] == [("strip", True)]
    june.take_back()
    with june.db.reading() as work:
        assert sightings.of_yard(work, 1) == []


def test_the_button_none_seen_is_a_record_too(june: Talker) -> None:
    june.wait("P10D")
    assert "none seen" in june.tap("None seen")
    with june.db.reading() as work:
        assert [each.is_seen for each in sightings.of_yard(work, 1)] == [False]


def test_seen_some_asks_where_and_takes_a_bare_zone(june: Talker) -> None:
    june.wait("P10D")
    assert "Where?" in june.tap("I saw some")
    assert "crabgrass on strip" in june.ask("strip")


def test_late_in_the_season_only_pulling_and_planning_is_left(tmp_path) -> None:
    talker = Talker(tmp_path, start=datetime(2026, 8, 20, 14, tzinfo=UTC))
    talker.settle_in()
    text = talker.ask("crabgrass on the strip")
    assert "ull" in text
    assert "next spring" in text
    assert "dithiopyr" not in text


def test_done_right_and_failed_is_a_hint_at_resistance(june: Talker) -> None:
    june.take_back()
    report(june, "applied 12.3 lb on 4 June")
    june.say("watered 0.5 in on 5 June")
    june.wait("P20D")
    text = june.ask("crabgrass on the strip")
    assert "It could be resistance" in text
    assert "extension office" in text


def test_the_third_year_on_one_group_is_said(june: Talker) -> None:
    report(june, "applied on 1 April 2025")
    report(june, "applied on 1 April 2024")
    # Prodiamine is of group 3 (herbicide group lists, from memory).
    assert "Year 3 in a row on group 3" in june.ask("no crabgrass")


def test_two_years_on_a_group_are_not_worth_a_hint(june: Talker) -> None:
    report(june, "applied on 1 April 2025")
    assert "in a row on group" not in june.ask("no crabgrass")


def test_weeds_right_after_the_application_suggest_a_longer_lead(june: Talker) -> None:
    june.take_back()
    report(june, "applied on 4 June")
    said = june.say("crabgrass on the strip")
    assert "Open next year's window" in said[0].reply.text
    lead = next(label for label in labels_of(said) if label.startswith("Open"))
    assert "days before first crabgrass" in june.tap(lead)


def test_the_zone_that_is_first_two_years_running_is_suggested_to_go_first(june: Talker) -> None:
    june.say("crabgrass on the strip 3 June 2025")
    assert "strip showed it first two years running" in june.ask("crabgrass on the strip")


def test_the_weed_clock_is_still_asked_by_its_bare_name(june: Talker) -> None:
    june.ask("crabgrass")
    with june.db.reading() as work:
        assert sightings.of_yard(work, 1) == []


def test_looking_back_sets_years_side_by_side(june: Talker) -> None:
    report(june, "applied on 12 April 2025")
    june.say("crabgrass on the strip 20 July 2025")
    said = june.say("look back")
    assert said[0].reply.picture is not None
    lines = text_of(said).splitlines()
    assert lines[1].startswith("2025")
    assert "first weeds 99 days after the application" in lines[1]
    assert "soil" in lines[1]
    assert lines[2].startswith("2026")
    # 12.3 lb of 0.38 % on 3,833 sq ft: 0.531 lb of active ingredient per acre.
    assert "0.53 lb per acre" in lines[2]
    assert "10 days earlier than in 2025" in text_of(said)


def test_nothing_to_look_back_on_at_first(settled: Talker) -> None:
    assert "Nothing to look back on" in settled.ask("look back")


def test_looking_back_measures_from_what_was_down_before_the_weeds(tmp_path) -> None:
    talker = Talker(tmp_path, start=datetime(2026, 4, 13, 14, tzinfo=UTC))
    talker.settle_in()
    talker.say("applied")
    talker.wait("P3D")
    talker.say("crabgrass on the strip")
    talker.wait("P56D")
    talker.say("applied")
    text = talker.ask("look back")
    assert "applied Mon Apr 13, Thu Jun 11" in text
    assert "first weeds 3 days after the application on Mon Apr 13." in text


@pytest.mark.parametrize(("lead", "told"), [(66, "70 days ahead instead of 66"), (70, "")])
def test_a_longer_lead_is_suggested_only_as_far_as_leads_go(tmp_path, lead: int, told: str) -> None:
    talker = Talker(tmp_path, start=datetime(2026, 4, 13, 14, tzinfo=UTC))
    talker.settle_in()
    with talker.db.writing() as work:
        yards.change(work, 1, lead_days=lead, is_lead_set=True)
    talker.say("applied")
    talker.wait("P3D")
    said = talker.say("crabgrass on the strip")
    assert ("Open next year's window" in text_of(said)) == bool(told)
    assert told in text_of(said)
    assert [label for label in labels_of(said) if label.startswith("Open")] == (
        ["Open 70 days ahead"] if told else []
    )
