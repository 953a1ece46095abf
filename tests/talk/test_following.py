"""A message that goes on with the one before it, and a figure that is put right in one breath."""

from datetime import UTC, datetime

import pytest

from tests.talk.harness import Talker

START = datetime(2026, 2, 26, 14, tzinfo=UTC)


@pytest.fixture
def talker(tmp_path):
    found = Talker(tmp_path, start=START)
    found.settle_in()
    return found


@pytest.mark.parametrize("further", ["and strip", "what about the strip", "strip?", "y el strip"])
def test_a_name_goes_on_with_the_question_before(talker, further):
    assert "pool lawn:" in talker.ask("how much for the pool lawn")
    heard = talker.ask(further)
    assert "strip:" in heard
    assert "pool lawn:" not in heard
    assert "Recorded" not in heard


def test_a_day_goes_on_with_the_day_asked_about(talker):
    talker.ask("is tomorrow a good day to put it down")
    assert "Sat Feb 28" in talker.ask("what about saturday")


def test_thanks_between_change_nothing(talker):
    talker.ask("how much for the pool lawn")
    talker.ask("thanks")
    assert "strip:" in talker.ask("and the strip?")


def test_a_name_that_goes_on_with_nothing_is_asked_about(talker):
    assert "Recorded" not in talker.ask("and strip")
    assert "#1" not in talker.ask("records")


def test_a_place_goes_on_with_a_report(talker):
    talker.ask("applied pool lawn")
    assert "strip" in talker.ask("and the strip")
    assert "#2" in talker.ask("records")


def test_the_maximum_read_again_counts(talker):
    talker.ask("/product prodiamine 0.38% granule, 3.2 lb per 1000 sq ft")
    talker.ask(
        "max 5 lb per 1000 a year... wait let me look. it says do not exceed 6.4 lb/1000 a year"
    )
    assert "6.4" in talker.ask("/product")


@pytest.mark.parametrize(
    ("said", "rate"),
    [
        ("let's go with 4", "4 lb"),
        ("3.5 lbs", "3.5 lb"),
        ("the high rate i guess", "4.2 lb"),
        ("somewhere in the middle", "3.15 lb"),
        ("pues ponle la baja", "2.1 lb"),
        ("I'd say 6", "over your label's"),
    ],
)
def test_a_rate_is_chosen_out_of_a_range_in_words(talker, said, rate):
    asked = talker.ask("dithiopyr 0.27% granular, 2.1 to 4.2 lb per 1000")
    assert "Which rate will you use?" in asked
    # What else the label says is kept, and the range asked about again.
    assert "Which rate will you use?" in talker.ask("no max on it")
    assert rate in talker.ask(said)


def test_an_amount_used_of_which_nothing_is_on_record_is_the_report(talker):
    assert "Recorded for" in talker.ask("everything is down, used 12 lb")
    assert "12 lb" in talker.ask("records")


def test_a_can_says_what_minutes_came_to_and_what_the_sprinkler_gives(talker):
    talker.ask("everything is down")
    assert "I don't know how fast" in talker.ask("ran the sprinkler 45 min")
    heard = talker.ask("tuna can has 3/8 inch in it")
    assert "Added 0.37 in" in heard
    assert "0.5 in an hour" in heard
    assert "Back to my question" not in heard
    assert "0.54 in" in talker.ask("ran it another 20 minutes")


@pytest.mark.parametrize("said", ["no max", "it doesn't list a max", "no trae máximo"])
def test_a_label_line_says_that_it_gives_no_maximum(talker, said):
    heard = talker.ask(f"prodiamine 0.38% granule, 3.2 lb per 1000, {said}")
    assert "none given" in heard
    assert "did not understand" not in heard


def test_each_zone_gets_the_grass_that_is_said_of_it(talker):
    heard = talker.ask("zoysia on the pool lawn and bermuda on the strip")
    assert "pool lawn: zoysiagrass" in heard
    assert "strip: bermudagrass" in heard
    heard = talker.ask("bermuda except the strip, thats zoysia")
    assert "pool lawn, south bed: bermudagrass" in heard
    assert "strip: zoysiagrass" in heard


def test_messages_are_kept_from_an_hour_and_until_one(talker):
    assert "9 pm to 8 am" in talker.ask("dont text me before 8")
    assert "10 pm to 8 am" in talker.ask("no messages after 10 please")
    assert "9 pm to 8 am" in talker.ask("i dont want texts after 9")
    assert "9 pm to 6:30 am" in talker.ask("nothing before 6:30 in the morning ok")


def test_what_goes_down_in_late_summer_is_annual_bluegrass_s(tmp_path):
    talker = Talker(tmp_path, start=datetime(2026, 9, 3, 20, tzinfo=UTC))
    talker.settle_in()
    assert "late-summer application" in talker.ask("everything is down")


def test_a_pace_is_read_out_of_a_sentence(tmp_path):
    talker = Talker(tmp_path, start=START)
    talker.ask("Wichita Kansas")
    talker.ask("front is 20 paces by 15 paces")
    assert "1,875 sq ft" in talker.ask("oh my step is like 2 and a half feet")


def test_a_nod_behind_another_answer_records_nothing(talker):
    talker.ask("applied the strip")
    assert "Is this another one" in talker.ask("applied the strip")
    talker.ask("rain coming?")
    assert "Recorded" not in talker.ask("ok good")
    assert "#2" not in talker.ask("records")


def test_a_house_told_behind_its_lot_is_taken_off_it(tmp_path):
    talker = Talker(tmp_path, start=START)
    talker.ask("Olathe, Kansas")
    talker.ask("the lot is a quarter acre")
    assert "8,740 sq ft" in talker.ask("house is 45 by 30 and driveway is 20 by 40")


def test_a_depth_said_anew_puts_the_water_right(talker):
    talker.ask("everything is down")
    assert "So far 0.3 in" in talker.ask("watered 0.3 in")
    heard = talker.ask("no, it was 0.4 inches")
    assert "So far 0.4 in" in heard
    assert "0.1 in to go" in heard
    assert "the watering" in talker.ask("undo")


@pytest.mark.parametrize("said", ["so that's a no?", "come again?", "¿o sea que no?"])
def test_an_answer_is_given_once_more(talker, said):
    answer = talker.ask("is saturday a good day for it").splitlines()[0]
    assert talker.ask("ok, got it").startswith("OK.")
    assert talker.ask(said).splitlines()[0] == answer


@pytest.mark.parametrize("said", ["wow thats early", "you sure about that?", "¿por qué tan tarde?"])
def test_a_doubt_is_told_why(talker, said):
    talker.ask("is it time yet")
    told = talker.ask(said)
    assert any(each in told for each in ("4 chances in 5", "4 probabilidades de 5"))
    assert "Fidanza" not in told


@pytest.mark.parametrize(
    ("said", "told"),
    [
        ("what do you mean?", "or what the bag covers"),
        ("where do i find that", "or what the bag covers"),
        ("¿dónde lo encuentro?", "o cuánto cubre el saco"),
        ("can i do that later?", "It can wait"),
        ("is that really necessary", "It can wait"),
    ],
)
def test_a_question_of_ours_is_explained_and_waits(talker, said, told):
    talker.ask("/product prodiamine 0.38% granule")
    assert told in talker.ask(said)
    assert "3.2 lb" in talker.ask("3.2 lb per 1000")


@pytest.mark.parametrize("said", ["got it", "ok will do", "makes sense", "hmm", "ya veo"])
def test_what_is_only_taken_note_of_is_no_report(talker, said):
    assert talker.ask(said).startswith(("OK.", "Está bien."))
    assert "#1" not in talker.ask("records")


def test_the_other_of_two_yards_goes_on_with_the_question_before(talker):
    talker.ask("add another lawn in Wahoo, Nebraska")
    talker.ask("call it Church")
    assert "at Church" in talker.ask("is it time for the church")
    assert "at Yard 1" in talker.ask("and the other one?")
