"""Products and amounts from the chat, against published worked examples."""

import re

import pytest

from jobs.agronomy.season import State, Target
from jobs.standing import standing_of
from storage import applications, products, seasons, yards
from tests.talk.harness import PLACE, Talker, labels_of, lived, text_of


@lived
def measured(talker: Talker) -> None:
    talker.say("/start")
    talker.session.location(*PLACE)
    talker.say("meadow 1000 sq ft")


def kept(talker: Talker) -> list[tuple[str, float, str, int]]:
    with talker.db.reading() as work:
        return [
            (row.ingredients[0]["name"], row.rate_value, row.rate_unit, len(row.maxima))
            for row in products.of_chat(work, 1)
        ]


def test_a_product_in_one_line(measured: Talker) -> None:
    text = measured.ask(
        "/product prodiamine 0.38% granule, 3.2 lb per 1000 sq ft, max 6.4 lb per 1000 a year"
    )
    assert "prodiamine 0.38%, granules, 3.2 lb per 1,000 sq ft" in text
    assert "6.4 lb per 1,000 sq ft in a calendar year" in text
    assert kept(measured) == [("prodiamine", 3.2, "lb/1000 sq ft", 1)]


def test_a_product_piece_by_piece(measured: Talker) -> None:
    assert "active ingredient" in measured.ask("/product")
    assert "How strong is it?" in measured.ask("prodiamine")
    assert "most the label allows" in measured.ask("3.2 lb per 1000 sq ft")
    said = measured.say("6.4 lb per 1000 sq ft")
    assert "per application or for the whole year" in text_of(said)
    assert "in a calendar year" in measured.tap("Whole year")
    assert kept(measured)[0] == ("prodiamine", 3.2, "lb/1000 sq ft", 1)


def test_a_rate_above_the_labels_own_maximum_is_not_kept(measured: Talker) -> None:
    text = measured.ask(
        "/product prodiamine 0.38% granule 3.2 lb per 1000 sq ft max 3 lb per 1000 per application"
    )
    assert "Not saved" in text
    assert kept(measured) == []
    assert "prodiamine 0.38%" in measured.ask("3 lb per 1000 sq ft")


def test_no_maximum_given_is_said_with_the_amounts(measured: Talker) -> None:
    measured.say("/product prodiamine 0.38% granule 3.2 lb per 1000 sq ft")
    measured.tap("My label has none")
    assert "No label maximum given" in measured.ask("/amounts")


@pytest.mark.parametrize(
    "said",
    [
        "my label gives none",
        "My label has none.",
        "the label has no maximum",
        "max?? i dont see one",
        "no max",
        "none given",
        "there is no limit on the label",
        "my label doesn't say",
        "it doesnt give one",
    ],
)
def test_that_a_label_gives_no_maximum_may_be_written(measured: Talker, said) -> None:
    measured.say("/product prodiamine 0.38% granule 3.2 lb per 1000 sq ft")
    assert "Saved without a maximum" in measured.ask(said)
    assert "No label maximum given" in measured.ask("/amounts")


@pytest.mark.parametrize(
    ("awaits", "said", "answer"),
    [
        ("rate", "the bag's in the truck, hang on", "Take your time"),
        ("rate", "i don't have it in front of me", "Take your time"),
        ("rate", "where would that be printed", 'Look on the back for "covers"'),
        ("rate", "theres a bunch of numbers, which one", "the row for your grass"),
        ("rate", "it only has spreader settings", "Without a rate"),
        ("rate", "3.2 a thousand", "has no unit"),
        ("rate", "2.3 lb per 1000 low rate and 4.6 high rate", "Which rate will you use?"),
        ("rate", "between 3 and 5 pounds per thousand depending on the grass", "Which rate will"),
        ("rate", "48 lb on 15000", "a rate of 3.2 lb per 1,000 sq ft"),
        ("rate", "la bolsa está en la troca", "Sin prisa"),
        ("maximum", "what do you mean by max", "do not apply more than"),
        ("maximum", "same as the rate", "maximum 3.2 lb per 1,000 sq ft"),
        (
            "maximum",
            "says 6.4 pounds a thousand for the whole year",
            "6.4 lb per 1,000 sq ft in a c",
        ),
    ],
)
def test_what_people_say_instead_of_a_figure_is_answered(
    measured: Talker, awaits: str, said: str, answer: str
) -> None:
    rate = ", 3.2 lb per 1000 sq ft" if awaits == "maximum" else ""
    measured.say(f"prodiamine 0.38%{rate}")
    assert answer in measured.ask(said)


def test_what_a_bag_covers_is_put_right_and_denies_no_maximum(measured: Talker) -> None:
    measured.say("prodiamine 0.48 percent, other ingredients 99.52 percent")
    assert "4 lb per 1,000" in measured.ask("net weight 50 lbs, covers up to 12,500 square feet")
    assert "0.48%, granules, 5 lb" in measured.ask("wait no thats 10,000 square feet")
    # A year's figure beside a rate that is known is the most: 3.6 lb per 1,000 (computed).
    assert "Not saved" in measured.ask("it's 156 lbs per acre per year i think")


def test_a_strength_said_anew_takes_the_place_of_the_one_before(measured: Talker) -> None:
    measured.say("prodiamine 0.38%, 3.2 lb per 1000, max 6.4 lb per 1000 a year")
    assert "prodiamine 0.43%, granules, 3.2 lb" in measured.ask("sorry its 0.43 percent")
    assert "two rates that differ" in measured.ask("3.5 lb per 1000")
    measured.say("/product prodiamine 0.38%, 3.2 lb per 1000, max 6.4 lb per 1000 a year")
    assert "granules, 3.5 lb" in measured.ask("its actually 3.5 lb per 1000")
    assert "maximum: 7 lb" in measured.ask("the max is 7 lb per 1000 a year, my bad")


def test_a_maximum_is_completed_piece_by_piece(measured: Talker) -> None:
    measured.say("dithiopyr")
    assert "pounds of dithiopyr per gallon" in measured.ask("the liquid")
    measured.say("2 pounds per gallon it says")
    measured.say("its 0.75 fl oz per thousand")
    assert "3 fl oz: on which area" in measured.ask("3 fl oz is the most")
    measured.say("per year")
    assert "3 fl oz per 1,000 sq ft in a calendar year" in measured.ask("per thousand i guess")


def test_a_bare_ounce_of_a_liquid_is_asked_about(measured: Talker) -> None:
    text = measured.ask("/product dithiopyr 2 lb/gal liquid 0.74 oz per 1000 sq ft")
    assert "ounces by weight" in text
    assert kept(measured) == []
    measured.say("0.74 fl oz per 1000 sq ft")
    assert kept(measured)[0][:3] == ("dithiopyr", 0.74, "fl oz/1000 sq ft")


def test_a_range_is_asked_about(measured: Talker) -> None:
    text = measured.ask("/product prodiamine 0.38% granule 2.5 to 3.9 lb per 1000 sq ft")
    assert "2.5 to 3.9" in text
    assert kept(measured) == []


def test_a_per_acre_rate_read_as_per_thousand_is_caught(measured: Talker) -> None:
    said = measured.say("/product prodiamine 65% WDG 18.46 oz per 1000 sq ft")
    assert "43.56 times" in text_of(said)
    both = ["18.46 oz per 1,000 sq ft", "18.46 oz per acre"]
    assert labels_of(said) == [*both, "Let me read it again", "It doesn't say"]
    assert kept(measured) == []
    measured.tap(both[1])
    assert kept(measured)[0][1:3] == (18.46, "oz/acre")


def test_a_question_about_a_product_stands_while_something_is_looked_up(measured: Talker) -> None:
    assert "That is low" in measured.ask("/product prodiamine 0.38% granule, 1.6 lb per 1000 sq ft")
    measured.say("/yard")
    measured.say("/soil")
    measured.tap("product:sure:0")
    assert kept(measured)[0][:2] == ("prodiamine", 1.6)


def test_a_misspelt_ingredient_is_asked_about_not_guessed(measured: Talker) -> None:
    text = measured.ask("/product prodiamin 0.38% granule 3.2 lb per 1000")
    assert "prodiamine" in text
    assert kept(measured) == []


def test_an_ingredient_for_certified_applicators_is_stopped(measured: Talker) -> None:
    said = measured.say("/product oxadiazon 2% granule 3.4 lb per 1000 sq ft")
    assert "certified applicators only" in text_of(said)
    assert kept(measured) == []


def amounts_of(talker: Talker, product: str) -> str:
    talker.say(f"/product {product}")
    return talker.ask("/amounts")


def pounds_in(text: str) -> list[float]:
    return [float(found) for found in re.findall(r"([\d.]+) lb\b(?! per 1,000)", text)]


# Worked example W1: prodiamine 0.75 lb ai/A of a 65 % granule dispersed in water, 0.4238 oz per
# 1,000 sq ft (computed there from legal constants).
def test_w1_ounces_of_a_dispersible_granule(measured: Talker) -> None:
    assert "0.424 oz" in amounts_of(measured, "prodiamine 65% WDG 0.75 lb ai per acre")


# W2: dithiopyr 0.5 lb ai/A of a 2 lb/gal liquid, 0.7346 fl oz per 1,000 sq ft.
def test_w2_fluid_ounces_of_a_liquid(measured: Talker) -> None:
    # Printed to 0.1 %.
    assert "0.735 fl oz" in amounts_of(measured, "dithiopyr 2 lb/gal liquid 0.5 lb ai per acre")


# W3: prodiamine 0.65 lb ai/A of a 0.38 % granule, 3.927 lb per 1,000 sq ft, and W13: each of two
# directions 1.963 lb.
def test_w3_and_w13_pounds_of_a_granule_and_half_in_each_pass(measured: Talker) -> None:
    text = amounts_of(measured, "prodiamine 0.38% granule 0.65 lb ai per acre")
    assert pounds_in(text)[0] == pytest.approx(3.9268, rel=1e-3)
    # What is weighed is rounded down, by 2 % at most.
    assert 0.98 * 1.9634 < pounds_in(text)[1] <= 1.9634
    assert pounds_in(measured.tap("Why"))[:2] == pytest.approx([3.9268, 1.9634], rel=1e-3)


# W9: front 2,400, back 5,150, side 980 sq ft at 3.9268 lb/1,000: 9.42 + 20.22 + 3.85 = 33.50 lb.
def test_w9_three_zones(measured: Talker) -> None:
    measured.say("remove meadow")
    measured.say("front 2,400 sq ft, back 5,150 sq ft, side 980 sq ft")
    text = amounts_of(measured, "prodiamine 0.38% granule 0.65 lb ai per acre")
    assert pounds_in(text)[0] == pytest.approx(33.496, rel=1e-3)
    why = pounds_in(measured.tap("Why"))
    assert why[:6:2] == pytest.approx([9.4244, 20.223, 3.8483], rel=1e-3)
    assert why[1:6:2] == pytest.approx([4.7122, 10.112, 1.9242], rel=1e-3)
    for weighed, exact in zip(pounds_in(text)[1:4], why[1:6:2], strict=True):
        assert 0.98 * exact < weighed <= exact * 1.001


def test_caution_and_law_come_with_the_amounts(measured: Talker) -> None:
    text = amounts_of(measured, "prodiamine 0.38% granule 3.2 lb per 1000 sq ft")
    assert "label is the law" in text
    assert "or longer if it says so" in text
    assert "safe" not in text.casefold()


def test_metric_people_get_grams_beside_a_label_in_ounces(measured: Talker) -> None:
    measured.say("metric")
    text = amounts_of(measured, "prodiamine 65% WDG 0.75 lb ai per acre")
    assert "12.01 g" in text or "12.02 g" in text  # W1: 12.015 g per 1,000 sq ft


def test_a_metric_label(measured: Talker) -> None:
    measured.say("remove meadow")
    measured.say("front 100 m2")
    # 1.5 kg is 3.307 lb: one unit, the person's.
    assert "3.31 lb" in amounts_of(measured, "prodiamine 0.38% granule 150 kg/ha")


@pytest.mark.parametrize(
    ("line", "answers", "maximum"),
    [
        (
            "prodiamine 0.38% granules 3.2 lb per 1000 max 6.4 per yr",
            ["3.2 lb per 1000", "lb per 1000"],
            "6.4 lb per 1,000 sq ft in a calendar year",
        ),
        (
            "prodiamine 0.38% granules 3.2 lb per 1000 max 9.6 a year",
            ["lb", "per 1000"],
            "9.6 lb per 1,000 sq ft in a calendar year",
        ),
        (
            "benefin + trifluralin 2% granule 3.2 lb per 1000 max 5 lb a season",
            ["per 1000 sq ft"],
            "5 lb per 1,000 sq ft in a season",
        ),
        (
            "prodiamine 0.38% granules max 6.4 lb a year",
            ["3.2 lb per 1000", "6.4 lb per 1000 a year"],
            "6.4 lb per 1,000 sq ft in a calendar year",
        ),
    ],
)
def test_a_maximum_without_its_area_is_asked_about_and_the_rate_is_kept(
    measured: Talker, line: str, answers: list[str], maximum: str
) -> None:
    measured.say(line)
    for answer in answers[:-1]:
        assert "The most the label allows" in measured.ask(answer)
    assert maximum in measured.ask(answers[-1])
    assert kept(measured)[0][1:] == (3.2, "lb/1000 sq ft", 1)


@pytest.mark.parametrize(
    ("first", "second", "name"),
    [
        ("prodiamine 65% wdg 0.37 oz per 1000", "isoxaben 75% df", "isoxaben"),
        ("prodiamine 65% wdg 0.37 oz per 1000", "quinclorac 75% df", "quinclorac"),
        ("mesotrione 4 lb/gal 0.15 fl oz per 1000", "isoxaben 75 df", "isoxaben"),
        ("prodiamine 65% wdg 0.37 oz per 1000", "prodiamine 40% wdg", "prodiamine"),
    ],
)
def test_the_next_product_takes_no_dose_from_the_one_before(
    measured: Talker, first: str, second: str, name: str
) -> None:
    assert "most the label allows" in measured.ask(first)
    assert "How much goes on an area" in measured.ask(second)
    # A dry flowable stays dry, so that its ounces are ounces by weight.
    said = measured.say("0.5 oz per 1000")
    if "That's what it says" in labels_of(said):
        measured.tap("That's what it says")
    with measured.db.reading() as work:
        newest = products.of_chat(work, 1)[0]
    assert [part["name"] for part in newest.ingredients] == [name]
    assert (newest.rate_value, newest.rate_unit) == (0.5, "oz/1000 sq ft")


def test_an_ingredient_added_in_words_makes_a_mixture(measured: Talker) -> None:
    measured.say("/product prodiamine 0.38% granule 3.2 lb per 1000")
    measured.say("and isoxaben 0.4%")
    measured.say("max 6.4 lb per 1000 a year")
    with measured.db.reading() as work:
        newest = products.of_chat(work, 1)[0]
    assert [part["name"] for part in newest.ingredients] == ["prodiamine", "isoxaben"]


def test_a_corrected_spelling_completes_the_mixture(measured: Talker) -> None:
    assert "dithiopyr" in measured.ask("/product prodiamine 0.2% + ditiopyr 0.1% granule")
    assert "How much goes on an area" in measured.ask("dithiopyr")
    # The strengths said before the name was put right are not lost.
    assert "prodiamine 0.2% + dithiopyr 0.1%" in measured.ask("3.2 lb per 1000 sq ft")


@pytest.mark.parametrize("name", ["quinclorac", "dicamba"])
def test_what_acts_on_leaves_alone_is_not_watered_in_and_makes_no_round(
    measured: Talker, name: str
) -> None:
    measured.tap("Keep")
    measured.say(f"{name} 75% wdg 0.367 oz per 1000")
    measured.tap("My label has none")
    said = measured.ask("applied")
    assert f"Water the way your label says: {name} works on leaves" in said
    assert "does not count as a pre-emergent application" in said
    assert "Now water it in" not in said
    assert "Second application" not in said
    assert "needs watering in" in measured.ask("watered 0.5 in")
    assert "Barrier" not in measured.ask("why")
    assert "weed killer that works on leaves" in measured.ask("/day")
    with measured.db.reading() as work:
        assert [each.target for each in applications.of_yard(work, 1)] == ["other"]
        season = seasons.season(work, 1, Target.SUMMER_ANNUALS)
        assert season is None or season.state != State.APPLIED


def test_a_leaf_herbicide_later_leaves_the_barrier_as_it_was(measured: Talker) -> None:
    measured.say("/product prodiamine 0.38% granule 3.2 lb per 1000, max 6.4 lb per 1000 a year")
    measured.say("applied")
    before = re.findall("^Barrier.*", measured.ask("why"), re.MULTILINE)
    measured.say("/product quinclorac 75% wdg 0.367 oz per 1000")
    measured.wait("P20D")
    measured.say("applied")
    assert len(before) == 1
    after = re.findall("^Barrier.*", measured.ask("why"), re.MULTILINE)[0]
    # Three weeks of weather may move the figure by a week; the later bag does not.
    weeks = [[int(each) for each in re.findall(r"\d+", line)[:2]] for line in (before[0], after)]
    assert weeks[0] == pytest.approx(weeks[1], abs=1)


def test_a_bare_figure_beside_an_ingredient_is_offered_as_its_percentage(settled: Talker) -> None:
    asked = settled.say("0.48 prodiamine")
    assert "0.48% prodiamine?" in text_of(asked)
    assert labels_of(asked) == ["0.48%", "Change it"]
    settled.tap("0.48%")
    assert "prodiamine 0.48%" in settled.ask("3.2 lb per 1000, max 6.4 lb per 1000 a year")


def test_a_product_named_in_passing_answers_the_question_with_its_strength(
    measured: Talker,
) -> None:
    measured.say("/product")
    text = measured.ask("I've got a backpack sprayer and dithiopyr 2EW")
    assert "How much goes on" in text
    text = measured.ask("0.55 fl oz per 1000")
    assert "dithiopyr 2 lb/gal" in text


def test_beside_the_question_for_a_maximum_reports_are_reports(measured: Talker) -> None:
    measured.say("/product prodiamine 0.38% granule, 3.2 lb per 1000 sq ft")
    assert "how fast your sprinkler" in measured.ask("watered it for 30 min")
    assert "Saved without a maximum" in measured.ask("not sure about the max")


def test_two_applications_over_the_maximum_are_said_with_what_fits(measured: Talker) -> None:
    label = "prodiamine 0.38% granule, 3.2 lb per 1000 sq ft, max 6 lb per 1000 sq ft a year"
    said = measured.say(label)
    # 2 x 3.2 = 6.4, over 6; 6 / 2 = 3: plain arithmetic.
    assert "2 applications come to 6.4 lb per 1,000 sq ft" in text_of(said)
    assert "2 of 3 lb per 1,000 sq ft where your label allows that rate, or one of 3.2" in text_of(
        said
    )
    assert "One application" in labels_of(said)
    measured.tap("2 of 3 lb per 1,000 sq ft")
    assert kept(measured)[0] == ("prodiamine", 3.0, "lb/1000 sq ft", 1)
    assert "come to" not in measured.ask("product")


def test_a_range_of_rates_is_kept_and_held_against(measured: Talker) -> None:
    label = "prodiamine 0.38% granule, 3.1 to 3.4 lb per 1000 sq ft, max 7 lb per 1000 a year"
    said = measured.say(label)
    assert "Your label gives 3.1 to 3.4 lb per 1,000 sq ft" in text_of(said)
    assert labels_of(said) == ["3.1 lb per 1,000 sq ft", "3.4 lb per 1,000 sq ft"]
    assert "over your label's 3.1 to 3.4" in measured.ask("4 lb per 1000 sq ft")
    text = measured.ask("3.2")
    assert "Label rates: 3.1 to 3.4 lb per 1,000 sq ft" in text
    assert "3.4 lb per 1,000 sq ft in one application" in text
    assert "over your label's 3.1 to 3.4" in measured.ask("rate 5 lb per 1000")


def test_a_zone_with_a_product_of_its_own_becomes_a_yard_with_its_records(talker: Talker) -> None:
    talker.settle_in()
    talker.say("call it Home")
    talker.say("applied everything yesterday, 10 lb")
    talker.say("dithiopyr 0.27% granules, on the strip")
    asked = talker.say("3.4 lb per 1000, at most 6.8 lb per 1000 a year")
    assert labels_of(asked) == ["Make it Home strip", "Use it on all of Home"]
    text = talker.tap("Make it Home strip")
    assert "strip is now the yard Home strip" in text
    assert "Saved for Home strip: dithiopyr 0.27%" in text
    apart = _yards_now(talker)
    assert apart.keys() == {"Home", "Home strip"}
    assert apart["Home"][0] == {"pool lawn", "south bed"} == apart["Home"][1].keys()
    assert apart["Home strip"][0] == {"strip"} == apart["Home strip"][1].keys()
    assert [each[2] for each in apart.values()] == ["prodiamine", "dithiopyr"]
    assert {each[3] for each in apart.values()} == {"applied"}
    # What was put down is split, and nothing is lost or doubled.
    put_down = [amount for each in apart.values() for amount in each[1].values()]
    assert sum(put_down) == pytest.approx(10 * 0.45359237, rel=1e-3)
    assert "the yard Home strip, made of strip" in talker.take_back()
    assert _yards_now(talker).keys() == {"Home"}
    assert len(_yards_now(talker)["Home"][1]) == 3


def test_a_zone_whose_records_are_also_another_s_stays_in_its_yard(talker: Talker) -> None:
    talker.settle_in()
    talker.say("applied everything yesterday, 10 lb")
    talker.say("split the strip in half")
    talker.say("dithiopyr 0.27% granule, 3.4 lb per 1000, max 6.8 lb per 1000 a year on strip 1")
    assert "stays part of Yard 1, with one product" in talker.tap("Make it Yard 1 strip 1")
    assert _yards_now(talker).keys() == {"Yard 1"}
    assert "Saved for Yard 1: dithiopyr" in talker.tap("Use it on all of Yard 1")
    both = "prodiamine 0.38% granule 3.2 lb per 1000 on the pool lawn, dithiopyr 0.27% granule 3.4"
    assert "One product at a time" in talker.ask(f"{both} lb per 1000 on the south bed")


def _yards_now(talker: Talker) -> dict[str, tuple[set[str], dict[str, float], str, str]]:
    """Return by yard its zones, what they got [kg], its product and its season."""
    with talker.db.reading() as work:
        return {
            yard.name: (
                {zone.name for zone in standing.zones},
                {each.zone_name: each.amount_si or 0 for d in standing.done for each in d.shares},
                standing.label.ingredient_names[0],
                standing.seasons["summer_annuals"].state,
            )
            for yard in yards.of_chat(work, 1)
            for standing in (standing_of(work, yard),)
        }


def test_a_product_for_one_zone_alone_is_not_given_to_the_whole_yard(talker: Talker) -> None:
    talker.say("/start")
    talker.session.location(*PLACE)
    talker.say("front 60x40, strip 3 by 80 ft")
    label = "prodiamine 0.38% granule, 3.2 lb per 1000 sq ft, max 6.4 lb per 1000 a year"
    assert "One product serves a whole yard" in talker.ask(f"product for the strip is {label}")
    assert kept(talker) == []
    talker.tap("Use it on all of Yard 1")
    assert kept(talker)[0][0] == "prodiamine"
    talker.say("swath 8 ft")
    text = talker.ask("spreader")
    # 240 sq ft at 1.6 lb per 1,000 are 6.1 oz, rounded down: plain arithmetic.
    assert "strip: 6.1 oz per pass, both lengthwise, 1 strip there and 1 strip back" in text
    assert "strip: narrower than your 8 ft spread" in text
