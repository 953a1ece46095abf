"""No dose without its facts: what is missing is asked, what is doubtful stays visible."""

import re

from tests.talk.harness import PLACE, Talker, labels_of, lived, text_of


@lived
def measured(talker: Talker) -> None:
    talker.say("/start")
    talker.session.location(*PLACE)
    talker.say("meadow 1000 sq ft")


def doses_in(text: str) -> list[str]:
    return re.findall(r"[\d.]+ (?:lb|oz)\b(?! per)", text)


def test_no_amount_until_the_strength_is_known(measured: Talker) -> None:
    measured.say("/product prodiamine granule 3.2 lb per 1000, max 6.4 lb per 1000 a year")
    for asked in ("/amounts", "/spreader", "sketch"):
        assert doses_in(measured.ask(asked)) == [], asked
    assert "How strong is it" in measured.ask("/amounts")
    assert "prodiamine 0.38%" in measured.ask("0.38%")
    assert "3.2 lb in all" in measured.ask("/amounts")


def test_a_doubt_stays_beside_the_amount_after_it_was_confirmed(measured: Talker) -> None:
    measured.say("/product prodiamine 0.38% granule, 1.6 lb per 1000 sq ft")
    measured.tap("That's what it says")
    assert "Please check" not in measured.ask("max 6.4 lb per 1000 a year")
    for asked in ("/amounts", "/spreader", "/product"):
        assert "In doubt: 1.6 lb per 1,000 sq ft is below" in measured.ask(asked), asked


def test_a_maximum_is_held_against_what_is_remembered(measured: Talker) -> None:
    said = measured.say(
        "/product prodiamine 0.38% granule 3.2 lb per 1000 max 64 lb per 1000 a year"
    )
    assert "64 lb per acre" in text_of(said)
    assert labels_of(said)[1] == "64 lb per acre"
    # Read again, it is asked for as any maximum; the product itself is kept.
    assert "most the label allows" in measured.tap("Let me read it again")
    assert "Label maximum: 6.4 lb" in measured.ask("max 6.4 lb per 1000 a year")


def test_granules_that_must_be_sprayed_are_asked_about(measured: Talker) -> None:
    said = measured.say("/product prodiamine 65% granule 0.4 oz per 1000")
    assert labels_of(said)[:2] == ["It is a granule", "It is mixed with water"]
    assert "sprayed" in measured.tap("It is mixed with water")


def test_a_liquids_percentage_is_asked_by_the_gallon(measured: Talker) -> None:
    assert "per gallon" in measured.ask("/product dithiopyr 24% EC 0.74 fl oz per 1000")
    assert "dithiopyr 2 lb/gal" in measured.ask("2 lb per gallon")


def test_a_bag_is_read_off_piece_by_piece(measured: Talker) -> None:
    measured.say("/product")
    measured.tap("prodiamine")
    measured.say("0.38%")
    measured.say("granules")
    said = measured.ask("16 lb bag covers 5,000 sq ft")
    assert "I read 16 lb bag covers 5,000 sq ft as a rate of 3.2 lb per 1,000 sq ft" in said
    measured.say("not more than 6.4 lb per 1000 a year")
    # What a bag weighs is kept with what it covers, without a word of its own.
    assert "16 lb" in measured.ask("label")
    assert "3.2 lb in all" in measured.ask("/amounts")


def test_other_questions_are_answered_while_a_product_waits(measured: Talker) -> None:
    measured.say("prodiamine 0.38% granule, 3.2 lb per 1000")
    assert "Mow before you apply" in measured.ask("can I mow today?")
    assert "6.4 lb per 1,000 sq ft in a calendar year" in measured.ask("max 6.4 lb per 1000 a year")


def test_a_label_in_spanish(measured: Talker) -> None:
    said = measured.ask(
        "prodiamina 0.38% granulado, bolsa de 50 libras rinde 15,000 pies,"
        " máximo 6.8 libras por mil al año"
    )
    # Who only just came is answered in the language they write.
    assert "prodiamina 0.38 %, granulado, 3.333 lb por 1,000 sq ft" in said
    assert "6.8 lb por 1,000 sq ft en un año calendario" in said


def test_amounts_of_an_area_or_of_one_zone(measured: Talker) -> None:
    measured.say("/product prodiamine 0.38% granule, 3.2 lb per 1000, max 6.4 lb per 1000 a year")
    assert "2,000 sq ft: 6.4 lb" in measured.ask("how much for 2,000 sq ft")
    assert "meadow: 1.6 lb per pass, 2 passes" in measured.ask("how much for the meadow")


def test_no_call_names_an_amount_of_a_strength_nobody_knows(talker: Talker) -> None:
    talker.say("/start")
    talker.session.location(*PLACE)
    talker.say("front 60x40")
    talker.say("Keep")
    talker.say("prodiamine granules")
    talker.say("3.2 lb per 1000 sq ft")
    called = talker.until_alert("soil_warming")
    assert "You need" not in called.reply.text
    assert "How strong is it?" in talker.ask("amounts")
    # Nor does the record claim one; what went down stays down, openly of no known amount.
    said = talker.ask("applied")
    assert "The amount is open" in said
    assert "lb, today" not in said
    assert "front, amount not known" in talker.ask("record")
    talker.say("0.38%")
    talker.say("max 6.4 lb per 1000 sq ft a year")
    assert "Tell me: record 1 amount 7.5 lb" in talker.ask("what is still allowed")
    assert "Record #1: 7.5 lb." in talker.ask("record 1 amount 7.5 lb")
    assert "minus 3.125 lb" in talker.ask("what is still allowed")


def test_a_doubted_maximum_that_the_label_does_not_give_goes(talker: Talker) -> None:
    talker.say("/start")
    talker.session.location(*PLACE)
    talker.say("front 60x40")
    talker.say("/product prodiamine granule, 3.2 lb per 1000 sq ft, max 6.4 lb per 1000 a year")
    # A percentage alone is the strength that is missing, whatever is asked since.
    talker.say("/buy")
    assert "Saved for Yard 1: prodiamine 0.38%" in talker.ask("0.38%")
    doubted = talker.ask("max 60 lb per 1000 a year")
    assert "Please check the maximum" in doubted
    assert "Label maximum: none given" in talker.ask("it doesn't say a maximum")
