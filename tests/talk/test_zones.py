"""Zones in words: shown back, asked about where they could not be read, and never lost."""

import pytest

from jobs.agronomy.units import to_si
from storage import yards
from tests.talk.harness import PLACE, PRODUCT, ZONES, Talker, labels_of, lived, text_of


@lived
def there(talker: Talker) -> None:
    talker.say("/start")
    talker.session.location(*PLACE)


def areas(talker: Talker) -> dict[str, float]:
    """Return what is kept, once one has gone on."""
    talker.say("/zones")
    return kept(talker)


def kept(talker: Talker) -> dict[str, float]:
    with talker.db.reading() as work:
        return {zone.name: zone.area_m2 for zone in yards.zones(work, 1)}


def test_each_zone_and_the_total_are_shown_with_fix_and_keep(there: Talker) -> None:
    said = there.say(ZONES)
    text = text_of(said)
    assert "pool lawn: 60 ft x 40 ft = 2,400 sq ft" in text
    assert "Total Yard 1: 3,833 sq ft" in text
    assert labels_of(said) == ["Fix", "Keep"]
    # 12 m x 9 m minus 3 m x 4 m, and the international foot of 0.3048 m (NIST Handbook 44, App. C).
    assert areas(there) == pytest.approx(
        {"pool lawn": 2400 * 0.3048**2, "strip": 400 * 0.3048**2, "south bed": 96.0}, rel=1e-9
    )


def test_nothing_is_kept_until_keep_which_says_what_comes_next(there: Talker) -> None:
    there.say(ZONES)
    assert kept(there) == {}
    there.say("thanks")
    assert kept(there) == {}
    assert "What is in the bag" in there.tap("Keep")
    assert set(kept(there)) == {"pool lawn", "strip", "south bed"}
    # Of what is measured anew nothing is changed until then, either.
    there.say("strip 5 by 90 ft, ditch 10x10")
    assert "nothing is kept" in there.ask("/cancel")
    assert kept(there)["strip"] == pytest.approx(to_si(400, "sq ft"))
    assert "Saved" not in there.ask("/amounts")


def test_a_next_step_keeps_sizes_and_says_so(there: Talker) -> None:
    there.say("front 60x40")
    there.say("back 30x20")
    text = there.ask(PRODUCT)
    assert text.startswith("Saved front, back: 3,000 sq ft in all.")
    assert set(kept(there)) == {"front", "back"}
    # The product is taken back by itself.
    assert "product" in there.take_back()
    assert set(kept(there)) == {"front", "back"}


def test_one_bad_piece_is_named_and_the_others_are_kept(there: Talker) -> None:
    text = there.ask("front 60x40, back somewhat large, side 10 by 20 ft")
    assert '"back somewhat large"' in text
    assert "For example" in text
    assert set(areas(there)) == {"front", "side"}


@pytest.mark.parametrize("bad", ["front 0x40", "front -60x40", "front 60000x40000 ft"])
def test_zero_negative_and_absurd_sizes_are_asked_back_and_not_kept(there: Talker, bad) -> None:
    text = there.ask(bad)
    assert '"front' in text or "front" in text
    assert areas(there) == {}


def test_a_doubtful_size_is_kept_once_confirmed(there: Talker) -> None:
    said = there.say("meadow 3000 x 1500 ft")
    assert "more than 100 acres" in text_of(said)
    assert "meadow: " in there.tap(labels_of(said)[0])
    assert areas(there)["meadow"] == pytest.approx(to_si(4_500_000, "sq ft"), rel=1e-9)


def test_a_doubtful_size_is_dropped_once_denied(there: Talker) -> None:
    said = there.say("meadow 3000 x 1500 ft")
    assert "Skipped" in there.tap(labels_of(said)[1])
    assert areas(there) == {}


def test_saying_a_zone_again_replaces_it_and_says_what_it_was(there: Talker) -> None:
    there.say("front 60x40")
    assert "(was 2,400 sq ft)" in there.ask("front 50x40")
    assert areas(there)["front"] == pytest.approx(to_si(2000, "sq ft"))


@pytest.mark.parametrize(
    "again", ["front is 50x40 now", "actually the front is 50x40", "front 50x40 instead"]
)
def test_a_size_said_again_with_small_words_makes_no_second_zone(there: Talker, again) -> None:
    there.say("front 60x40")
    assert "(was 2,400 sq ft)" in there.ask(again)
    assert areas(there) == pytest.approx({"front": to_si(2000, "sq ft")})


def test_what_stands_on_a_zone_is_taken_off_it_and_undo_takes_back_the_last_alone(there) -> None:
    there.say("front 60x40, back 50x30")
    there.say("the back has a 10 by 14 shed")
    assert "minus shed 8 ft x 10 ft" in there.ask("the shed's actually 8x10")
    there.say("the shed's actually 10x14")
    there.say("theres a flower bed in the front thats 4x20, dont count that")
    assert "really lawn" in there.ask("theres a pool 16x32")
    assert "front, back. Total: 3,760 sq ft" in there.ask("take that back")
    expected = {"front": to_si(2400, "sq ft"), "back": to_si(1360, "sq ft")}
    assert areas(there) == pytest.approx(expected)


@pytest.mark.parametrize(
    "said",
    [
        "next one is my neighbor Dale, same town, front 30x40 and back 30x50",
        "my mom's place is front 30x20",
        "lo de mi mamá: frente 30x20",
    ],
)
def test_sizes_of_another_place_change_nothing_here(there: Talker, said: str) -> None:
    there.say("front 60x40, back 50x30")
    answer = there.ask(said)
    asked = ("Is that another yard?", "¿Es otra propiedad?", "Type a US town and state")
    assert any(each in answer for each in asked)
    assert areas(there) == pytest.approx(
        {"front": to_si(2400, "sq ft"), "back": to_si(1500, "sq ft")}
    )


def test_that_all_is_told_keeps_it_and_what_is_left_to_others_is_no_way_out(there: Talker) -> None:
    there.say("front 60x40, back 50x30, ditch 100x10")
    assert "Removed: ditch" in there.ask("the town mows the ditch actually, forget it")
    assert "is now called dog yard" in there.ask("rename back to dog yard")
    there.say("front 30x40")
    assert "Saved" in there.ask("nope, thats all of em")
    assert set(areas(there)) == {"front", "dog yard"}


def test_a_lot_beside_its_parts_is_asked_about(there: Talker) -> None:
    there.say("lot 100x150")
    assert "remove lot" in there.ask("front 40x40")


def test_one_side_of_a_zone_is_put_right(there: Talker) -> None:
    there.say("front 60x40, left side 8x45, back deck strip 5x20")
    assert "65 ft x 40 ft" in there.ask("wait the front is 65 not 60")
    assert "8 ft x 40 ft" in there.ask("oops left side is 40 not 45")
    assert "Send the zone again" in there.ask("the front is 70, not 50")


def test_things_on_a_lot_said_behind_it_are_taken_off_it(there: Talker) -> None:
    there.say("the entire property is 90' x 140'")
    there.say("house 1,900sf, 2 car garage 24x24, driveway 20' x 35', back deck 12x14")
    there.say("and a 30x40 garden plot out back i don't treat")
    left = 12600 - 1900 - 24 * 24 - 20 * 35 - 12 * 14 - 30 * 40
    assert areas(there) == pytest.approx({"entire property": to_si(left, "sq ft")})


def test_undo_puts_the_old_size_back(there: Talker) -> None:
    there.say("front 60x40")
    there.tap("Keep")
    there.say("front 50x40, back 10x10")
    there.tap("Keep")
    there.take_back()
    assert areas(there) == pytest.approx({"front": to_si(2400, "sq ft")})


def test_a_zone_is_taken_out_by_name_and_comes_back_by_undo(there: Talker) -> None:
    there.say(ZONES)
    assert "Removed: strip" in there.ask("remove strip")
    assert set(kept(there)) == {"pool lawn", "south bed"}
    there.take_back()
    assert set(areas(there)) == {"pool lawn", "strip", "south bed"}


@pytest.mark.parametrize("answer", ["Yes, remove them", "yes"])
def test_all_zones_are_taken_out_only_once_confirmed(there: Talker, answer) -> None:
    there.say(ZONES)
    said = there.say("remove all")
    assert "pool lawn, strip, south bed" in text_of(said)
    assert len(kept(there)) == 3
    assert answer == "yes" or answer in labels_of(said)
    assert "Removed" in (there.ask(answer) if answer == "yes" else there.tap(answer))
    assert kept(there) == {}
    there.take_back()
    assert len(kept(there)) == 3


@pytest.mark.parametrize("answer", ["No, keep them", "no"])
def test_all_zones_stay_where_that_is_denied(there: Talker, answer) -> None:
    there.say(ZONES)
    there.say("delete everything")
    assert "Nothing was removed" in (there.ask(answer) if answer == "no" else there.tap(answer))
    assert len(kept(there)) == 3
    there.say("yes")
    assert len(kept(there)) == 3


def test_a_button_that_takes_all_zones_out_goes_stale_with_its_question(there: Talker) -> None:
    there.say(ZONES)
    there.say("remove all")
    there.say("shed side 20x10")
    assert "too old" in there.tap("zones:clear:1")
    assert len(areas(there)) == 4


@pytest.mark.parametrize(
    ("said", "gone"),
    [
        ("the strip is getting dug up, leave it out", {"strip"}),
        ("forget the south bed, it's all gravel now", {"south bed"}),
        ("leave out the strip, just do the bed and the pool lawn", {"strip"}),
        ("the strip and the bed are going away, remove both", {"strip", "south bed"}),
        ("we only have a strip and a bed, drop the pool lawn", {"pool lawn"}),
        ("ya no cuentes la franja, es de la ciudad", {"strip"}),
        ("take out the north strip", set()),
        ("take out the garage bed", set()),
        ("take the strip out, it's too narrow for the spreader", {"strip"}),
        ("ok drop the strip, the hoa does it", {"strip"}),
        ("remove a zone", set()),
        ("half of the strip is flowers", set()),
        ("part of the bed is a garden now", set()),
    ],
)
def test_zones_are_taken_out_wherever_their_names_stand(there: Talker, said, gone) -> None:
    there.say(ZONES)
    there.ask(said)
    assert set(areas(there)) == {"pool lawn", "strip", "south bed"} - gone


def test_an_unknown_zone_is_not_taken_out(there: Talker) -> None:
    there.say(ZONES)
    assert "no zone" in there.ask("remove terrace")
    assert len(areas(there)) == 3


def test_unnamed_zones_get_numbers(there: Talker) -> None:
    there.say("60x40, 20x10")
    assert set(areas(there)) == {"zone 1", "zone 2"}


def test_metric_people_write_and_read_metres(there: Talker) -> None:
    there.say("metric")
    text = there.ask("front 12x9")
    assert "12 m x 9 m = 108 m²" in text
    assert areas(there)["front"] == pytest.approx(108.0)


def test_sizes_said_before_there_is_a_yard_are_kept_until_there_is_one(talker: Talker) -> None:
    talker.say("/start")
    assert "Got it" in talker.ask("front 60x40")
    assert "front: 60 ft x 40 ft" in text_of(talker.session.location(*PLACE))
    assert set(areas(talker)) == {"front"}


def test_zones_with_sizes_behind_the_command(there: Talker) -> None:
    there.say("/zones front 60x40")
    assert set(areas(there)) == {"front"}


def test_thirty_zones_fit_a_message(there: Talker) -> None:
    there.say(", ".join(f"plot {number} 20x{number + 10}" for number in range(30)))
    assert len(areas(there)) == 30
    assert all(len(said.reply.text) < 4000 for said in there.say("/zones"))


def test_ground_on_record_is_asked_about_under_its_new_name(settled: Talker) -> None:
    settled.until_alert("window_open")
    settled.say("applied strip 2.4 lb")
    assert "What you applied on strip stays on record" in settled.ask("remove strip")
    settled.say("ditch 5 by 80 ft")
    assert "Is ditch where strip was?" in settled.tap("Keep")
    assert "ditch, 400" not in settled.ask("/amounts")
    settled.say("ditch 5 by 81 ft")
    settled.tap("Keep")
    assert "Noted: ditch is other ground" in settled.tap("Other ground")
    assert "ditch: " in settled.ask("/amounts")


def test_a_word_of_a_zones_name_is_asked_about(talker: Talker) -> None:
    talker.say("/start")
    talker.session.location(*PLACE)
    talker.say("front 60x40, side strip 6x50")
    assert "Is strip your zone side strip" in talker.ask("strip is really 6 by 55")
    assert "side strip: 6 ft x 55 ft" in talker.tap("Yes, 330 sq ft")
    talker.say("strip 6x20")
    assert "strip: 6 ft x 20 ft" in talker.tap("No, another zone")


def test_two_sizes_of_one_name_are_asked_about(talker: Talker) -> None:
    talker.say("/start")
    talker.session.location(*PLACE)
    assert "Two sizes for front: 60 ft x 40 ft; 30 ft x 20 ft" in talker.ask(
        "front 60x40 and front 30x20"
    )
    assert "List each part" in talker.ask("/zones")


@pytest.mark.parametrize("said", ["front 4 rods by 3 rods", "front 6000 mm by 4000 mm"])
def test_a_unit_nobody_knows_is_named(talker: Talker, said: str) -> None:
    talker.say("/start")
    talker.session.location(*PLACE)
    assert f"I don't know {said.split()[2]}" in talker.ask(said)


def test_outside_the_united_states_bare_numbers_are_metres_or_asked(talker: Talker) -> None:
    talker.say("/start")
    talker.session.location(40.4, -3.7)
    assert "20 m x 10 m" in talker.ask("side 20x10")
    talker.say("use feet")
    assert "Feet, inches or meters" in talker.ask("front 20x10")
    assert "20 m x 10 m" in talker.ask("front 20x10 m")


def test_sizes_that_nobody_said_to_keep_are_dropped_by_cancel(talker: Talker) -> None:
    talker.say("/start")
    talker.session.location(*PLACE)
    talker.say("front 60x40 ft")
    talker.tap("Keep")
    talker.say("back 50x30 ft")
    talker.say("side 20x10 ft, front 60x50 ft")
    assert "nothing is kept" in talker.ask("/cancel")
    there = talker.ask("/zones")
    assert "2,400 sq ft in all" in there
    assert "back" not in there


def test_going_on_keeps_sizes_and_cancel_says_that_they_stay(talker: Talker) -> None:
    talker.say("/start")
    talker.session.location(*PLACE)
    talker.say("front 60x40 ft")
    talker.say(PRODUCT)
    talker.say("/product")
    assert "What I saved before stays" in talker.ask("/cancel")
    assert "2,400 sq ft in all" in talker.ask("/zones")


@pytest.mark.parametrize("words", ["in all", "total", "altogether", "all together", "combined"])
def test_a_sum_of_all_is_asked_about_and_names_no_zone(there: Talker, words: str) -> None:
    # Ground that has no parts yet is meant by its sum.
    assert there.ask(f"it is 6000 sq ft {words}").startswith("zone 1: 6,000 sq ft")
    there.session.tap("Keep")
    there.say("/cancel")
    assert "one more zone beside the others" in there.ask(f"it is 7000 sq ft {words}")


def test_a_spanish_name_of_several_words_is_kept_whole_and_without_its_article(tmp_path) -> None:
    talker = Talker(tmp_path)
    talker.say("hola")
    talker.session.location(*PLACE)
    said = talker.ask("el frente 40x30 y la franja de la banqueta 3x60")
    assert said.startswith("frente: 40 ft x 30 ft")
    assert "\nfranja de la banqueta: 3 ft x 60 ft" in said


def test_a_verb_that_leans_on_a_name_is_no_part_of_it(talker: Talker) -> None:
    talker.say("/start")
    talker.session.location(*PLACE)
    said = talker.ask("front's thirty five by twenty eight, out back it's fifty by forty")
    assert said.startswith("front: 35 ft x 28 ft")
    assert "\nback: 50 ft x 40 ft" in said
    assert "Smith's: 12 ft x 9 ft" in talker.ask("Smith's 12x9")


def test_sizes_said_oddly_are_right_or_asked(talker: Talker) -> None:
    """Real ways of saying a size; none may be swallowed or lent to another zone."""
    talker.say("/start")
    talker.session.location(*PLACE)
    for said, expected in (
        ("side twenty-four hundred sq ft", "side: 2,400 sq ft"),
        ("i mean 60x45", "side: 60 ft x 45 ft = 2,700 sq ft (was 2,400 sq ft)"),
        ("pool lawn one thousand two hundred sq ft", "pool lawn: 1,200 sq ft"),
        ("actually 30x30", "Which zone is that the size of"),
        ("add a hill strip 6 by 80", "hill strip: 6 ft x 80 ft"),
        ("back diamond 20x30", "could not make that shape"),
        ("back parallelogram 20x30", "could not make that shape"),
        ("back trapezoid 20 and 30 by 15", "could not make that shape"),
        ("L-shaped front 30x20 and 10x15", "front: 30 ft x 20 ft plus 10 ft x 15 ft = 750 sq ft"),
    ):
        assert expected in talker.ask(said), said
    talker.say("cancel")
    talker.say("front 60x40")
    talker.say("keep")
    talker.say("front 50x40")
    talker.say("cancel")
    assert "No sizes wait to be saved. Yard 1 has 2,400 sq ft" in talker.ask("keep")


def test_ground_that_no_zone_is_is_asked_about_and_the_report_waits_for_it(
    settled: Talker,
) -> None:
    settled.say("applied pool lawn and south bed")
    asked = settled.say("finished the side yard yesterday, 1.3 lb")
    assert 'Which zone is "side yard"' in text_of(asked)
    assert labels_of(asked) == ["strip"]
    assert "strip (400 sq ft), 1.3 lb, yesterday" in settled.tap("strip")


def test_one_amount_for_known_and_unknown_ground_is_put_on_neither(settled: Talker) -> None:
    asked = settled.ask("did the pool lawn and the side yard with 9 lb")
    assert "Recorded" not in asked
    assert "pool lawn, strip (2,800 sq ft), 9 lb" in settled.ask("the strip")


def test_a_zone_just_recorded_is_not_removed_unasked(settled: Talker) -> None:
    settled.say("applied")
    asked = settled.say("nah scratch the strip")
    assert labels_of(asked) == ["Take strip out", "Remove strip from the yard"]
    assert "still to do: strip" in settled.ask("yes")
    assert "strip" in settled.ask("/zones")
    settled.say("applied the strip")
    assert "Removed: strip" in settled.ask("remove the strip")


def test_what_had_no_water_is_no_work_undone(settled: Talker) -> None:
    settled.say("applied")
    assert "watering in" in settled.ask("the strip didnt get any water")
