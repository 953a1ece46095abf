"""Zones are not alike: what is said of each, and what that changes about the amounts."""

from datetime import UTC, datetime

import pytest

from storage import applications, yards
from tests.talk.harness import Talker, labels_of, text_of

INDAZIFLAM = "indaziflam 0.0224% granule, 4 lb per 1000 sq ft, max 8 lb per 1000 a year"


def zone(talker: Talker, name: str):
    with talker.db.reading() as work:
        return next(zone for zone in yards.zones(work, 1) if zone.name == name)


@pytest.mark.parametrize(
    ("said", "zones", "grass"),
    [
        ("strip is tall fescue", ["strip"], "tall_fescue"),
        ("the strip has bermuda", ["strip"], "bermudagrass"),
        ("strip and south bed are kbg", ["strip", "south bed"], "kentucky_bluegrass"),
        ("everything is zoysia", ["pool lawn", "strip", "south bed"], "zoysiagrass"),
        ("strip is I don't know", ["strip"], "unknown"),
        ("pool lawn: St. Augustine", ["pool lawn"], "st_augustinegrass"),
    ],
)
def test_a_grass_is_kept_with_its_zones(settled: Talker, said, zones, grass) -> None:
    settled.say(said)
    with settled.db.reading() as work:
        named = [each.name for each in yards.zones(work, 1) if each.grass == grass]
    assert named == zones


def test_two_grasses_in_one_message(settled: Talker) -> None:
    settled.say("pool lawn is tall fescue, strip is bermuda")
    assert zone(settled, "pool lawn").grass == "tall_fescue"
    assert zone(settled, "strip").grass == "bermudagrass"


def test_bare_fescue_and_slips_are_asked_about_never_guessed(settled: Talker) -> None:
    assert "tall fescue" in settled.ask("strip is fescue")
    assert "Did you mean" in settled.ask("strip is bermudda")
    assert zone(settled, "strip").grass is None


@pytest.mark.parametrize("answer", ["tall fescue", "Tall fescue"])
def test_the_fescue_that_was_meant_is_awaited(settled: Talker, answer) -> None:
    said = settled.say("strip is fescue")
    assert labels_of(said) == ["Fine fescue", "Tall fescue"]
    text = settled.tap(answer) if answer[0].isupper() else settled.ask(answer)
    assert text == "strip: tall fescue."
    assert zone(settled, "strip").grass == "tall_fescue"


def test_the_grass_that_was_meant_goes_to_all_zones_it_was_said_of(settled: Talker) -> None:
    settled.say("strip and south bed are fescue")
    settled.say("fine fescue")
    kept = [zone(settled, name).grass for name in ("pool lawn", "strip", "south bed")]
    assert kept == [None, "fine_fescue", "fine_fescue"]


def test_the_question_for_a_grass_takes_a_whole_sentence(settled: Talker) -> None:
    settled.say("grass")
    assert "What grass is on strip" in settled.ask("pool lawn is tall fescue")
    assert zone(settled, "pool lawn").grass == "tall_fescue"


def test_another_zone_than_the_one_asked_for_may_be_named(settled: Talker) -> None:
    settled.say("grass")
    assert "What grass is on pool lawn" in settled.ask("the strip is bermuda")
    assert zone(settled, "strip").grass == "bermudagrass"
    assert zone(settled, "pool lawn").grass is None


def test_after_the_fescue_that_was_meant_the_questions_go_on(settled: Talker) -> None:
    settled.say("grass")
    settled.say("fescue")
    assert "What grass is on strip" in settled.ask("tall fescue")
    assert zone(settled, "pool lawn").grass == "tall_fescue"


def test_grasses_are_asked_zone_by_zone_with_buttons(settled: Talker) -> None:
    said = settled.say("grass")
    assert "What grass is on pool lawn" in text_of(said)
    assert "I don't know" in labels_of(said)
    assert "What grass is on strip" in settled.tap("Tall fescue")
    assert "What grass is on south bed" in settled.ask("buffalo grass")
    assert "strictest limits" in settled.tap("I don't know")
    known = settled.ask("grass")
    assert "pool lawn: tall fescue" in known
    assert "strip: buffalograss" in known


def test_a_harmed_grass_gets_nothing_and_the_reason_is_said(settled: Talker) -> None:
    settled.say("pool lawn is tall fescue, strip and south bed are bermuda")
    settled.say(INDAZIFLAM)
    text = settled.ask("/amounts")
    assert "Skipped pool lawn: indaziflam harms tall fescue" in text
    assert "5.73 lb in all" in text
    assert "\npool lawn: " not in text


def test_what_harms_a_whole_season_of_grasses_waits_for_the_grass(settled: Talker) -> None:
    settled.say(INDAZIFLAM)
    text = settled.ask("/amounts")
    assert "No amounts" in text
    assert "I don't know your grass" in text
    assert "lb" not in text
    settled.tap("None of these")
    assert "in all." in settled.ask("/amounts")


def test_the_strictest_maximum_governs_where_the_grass_is_not_known(settled: Talker) -> None:
    # 0.65 lb ai/A a year on bentgrass and fine fescue: from memory.
    settled.say("prodiamine 0.38% granule, 3.2 lb per 1000 sq ft")
    settled.tap("My label has none")
    settled.say("strip is unknown, pool lawn is tall fescue, south bed is bermuda")
    assert "strip: " in settled.ask("/amounts")  # 0.53 lb ai/A: the first round passes
    settled.until_alert("window_open")
    settled.say("applied")
    settled.wait("P60D")
    text = settled.ask("/amounts")
    assert "Skipped strip" in text
    assert "0.65 lb per acre" in text
    assert "pool lawn: " in text


def test_a_labels_own_maximum_wins_over_the_remembered_one(settled: Talker) -> None:
    settled.say("strip is unknown")
    settled.until_alert("window_open")
    settled.say("applied")
    assert "Skipped strip" not in settled.ask("/amounts")


def test_a_buffer_along_water_is_off_the_area_and_the_product(settled: Talker) -> None:
    # 25 ft untreated around water: Maine BPC best practices.
    assert "25 ft" in settled.ask("pool lawn is near water")
    assert "pool lawn: 3.8 lb per pass" in settled.ask("/amounts")
    assert "1,400 sq ft of 2,400 sq ft" in settled.ask("pool lawn buffer 40 x 25 ft")
    text = settled.ask("/amounts")
    assert "pool lawn: 2.2 lb per pass, 2 passes" in text
    assert "1,000 sq ft along water" in text
    settled.until_alert("window_open")
    settled.say("applied pool lawn")
    with settled.db.reading() as work:
        share = applications.of_yard(work, 1)[0].shares[0]
    assert share.area_m2 == pytest.approx(1400 * 0.3048**2)


def test_the_sketch_names_the_buffer_and_what_is_treated(settled: Talker) -> None:
    settled.say("strip buffer 80 x 3 ft")
    (said,) = settled.say("sketch")
    # 5 x 80 ft less 3 x 80 ft is 160 sq ft, at 3.2 lb per 1,000 0.512 lb, 4.096 oz a pass.
    facts = "strip, 160 sq ft to treat, buffer 240 sq ft, 4.09 oz per pass."
    assert facts in said.reply.text
    assert said.reply.picture is not None


def test_a_buffer_as_large_as_its_zone_is_refused(settled: Talker) -> None:
    assert "is all of strip" in settled.ask("strip buffer 80 x 25 ft")
    assert zone(settled, "strip").buffer_m2 == 0


def test_a_zone_asked_each_time_stands_apart_and_is_not_waited_for(settled: Talker) -> None:
    settled.say("strip is ask each time")
    text = settled.ask("/amounts")
    assert "10.99 lb in all" in text
    assert "strip (ask each time): 1.28 lb" in text
    settled.until_alert("window_open")
    assert "Still to do" not in settled.ask("applied")


def test_a_zone_never_treated_is_in_no_total(settled: Talker) -> None:
    settled.say("strip is never treated")
    assert "strip" not in settled.ask("/amounts")
    settled.say("strip is treated every round")
    assert "strip: " in settled.ask("/amounts")


def test_new_seed_is_locked_out_until_it_may_be_treated(settled: Talker) -> None:
    # 3 to 4 mowings before a pre-emergent: common practice, no source.
    assert "3 or 4 mowings" in settled.ask("strip is new seed")
    assert "Skipped strip: new seed" in settled.ask("/amounts")
    assert "back in the plan" in settled.ask("strip is established")
    assert "strip: " in settled.ask("/amounts")


def test_slope_and_clay_change_the_watering(settled: Talker) -> None:
    settled.say("pool lawn is on a slope")
    settled.say("strip is clay")
    assert "pool lawn, strip: water in short cycles" in settled.ask("/amounts")
    settled.say("pool lawn is not on a slope")
    assert "\nstrip: water in short cycles" in settled.ask("/amounts")


def test_what_is_known_of_a_zone_outlives_measuring_it_again(settled: Talker) -> None:
    settled.say("strip is tall fescue")
    settled.say("strip is ask each time")
    settled.say("strip 5 by 90 ft")
    again = zone(settled, "strip")
    assert (again.grass, again.part, again.is_treated) == ("tall_fescue", "ask", False)


def test_undo_takes_back_what_was_said_of_a_zone(settled: Talker) -> None:
    settled.say("strip is tall fescue")
    settled.say("strip is new sod")
    assert "the change to strip" in settled.take_back()
    assert (zone(settled, "strip").grass, zone(settled, "strip").locked_why) == (
        "tall_fescue",
        None,
    )
    settled.take_back()
    assert zone(settled, "strip").grass is None


def test_sizes_along_water_are_still_sizes(settled: Talker) -> None:
    assert "creek edge" in settled.ask("creek edge 60 x 25 ft")
    settled.tap("Keep")
    assert zone(settled, "creek edge").area_m2 == pytest.approx(1500 * 0.3048**2)


def test_other_plain_words_are_not_taken_for_grass(settled: Talker) -> None:
    for said in ("the weather is nice", "it is raining"):
        settled.say(said)
        assert zone(settled, "pool lawn").grass is None, said


def test_everything_is_all_but_what_is_never_treated(settled: Talker) -> None:
    settled.say("strip is never treated")
    settled.until_alert("window_open")
    assert "Recorded for Yard 1: pool lawn, south bed" in settled.ask("applied everything")
    assert zone(settled, "strip").part == "never"
    settled.say("strip is treated every round")
    assert zone(settled, "strip").is_treated


def test_the_day_from_which_a_zone_may_be_treated_is_told_by_the_yards_own_day(tmp_path) -> None:
    # Half past eight in the evening of 28 May at the yard is the 29th by the world's clock.
    talker = Talker(tmp_path, start=datetime(2026, 5, 29, 1, 30, tzinfo=UTC))
    talker.settle_in()
    talker.say("60 days apart")
    talker.say("applied on 30 March")
    said = talker.ask("/amounts")
    assert "Not before tomorrow" in said
    assert "Not before today" not in said


def test_a_grass_named_before_or_beside_the_sizes_is_kept_with_them(talker: Talker) -> None:
    talker.say("/start")
    talker.session.location(38.72, -96.41)
    assert "Noted: tall fescue" in talker.ask("its all tall fescue")
    talker.say("front 60x40, back 50x30")
    beside = talker.ask("side 20x10, bermuda")
    assert "Grass of side: bermudagrass." in beside
    assert "I see no size" not in beside
    # Two grasses have the name: it is asked, never guessed.
    assert "fine fescue or tall fescue?" in talker.ask("strip 5 by 40, fescue")
    talker.tap("Keep")
    known = talker.ask("grass")
    assert "front: tall fescue" in known
    assert "side: bermudagrass" in known


def test_grasses_beside_sizes_are_each_of_their_own_zone(talker: Talker) -> None:
    talker.say("/start")
    talker.session.location(38.72, -96.41)
    said = talker.ask("front 60x40 bermuda, back 50x30 tall fescue")
    assert "Grass of front: bermudagrass." in said
    assert "Grass of back: tall fescue." in said
    said = talker.ask("south of the house 40 by 100, mostly buffalograss")
    assert "Grass of south of the house: buffalograss." in said
    talker.tap("Keep")
    assert "front: bermudagrass" in talker.ask("grass")
