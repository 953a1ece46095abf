"""Labels as bags print them and people dictate them, and answers to what was asked of one."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest

from bot.hearing import drafts
from bot.hearing.draft import Draft, ProductSaid
from bot.hearing.forms import product_forms, read_form
from bot.hearing.forms.label_answers import AnswerSaid
from bot.hearing.heard import Pending, Scene, Slots
from bot.hearing.readers.coverage import find_coverage
from bot.hearing.readers.label_words import read_label_facts
from bot.hearing.readers.quantities import RateRead, read_rate
from bot.hearing.readers.spoken import spoken
from jobs.agronomy.maxima import LabelMaximum
from jobs.agronomy.rates import Rate
from jobs.agronomy.strengths import Strength

GRANULE = "prodiamine 0.38%, granule, 3.2 lb per 1000 sq ft"


def scene(draft: Draft | None = None) -> Scene:
    pending = None if draft is None else Pending("enter_product", draft=draft.to_json())
    now = datetime(2026, 4, 1, tzinfo=UTC)
    return Scene(now=now, zones=("front",), yards=("Yard 1",), pending=pending)


def heard(text: str, draft: Draft | None = None) -> Slots | None:
    forms = product_forms.FORMS
    found = (form.read(text, scene(draft)) for form in forms)
    return next((slots for slots in found if slots is not None), None)


@pytest.mark.parametrize(
    ("text", "rate"),
    [
        ("three point two pounds per thousand", Rate(3.2, "lb/1000 sq ft")),
        ("3 and a quarter pounds to the thousand", Rate(3.25, "lb/1000 sq ft")),
        ("2 and three quarter pounds per 1000", Rate(2.75, "lb/1000 sq ft")),
        ("a pound and a half per thousand", Rate(1.5, "lb/1000 sq ft")),
        ("three quarters of a pound per thousand", Rate(0.75, "lb/1000 sq ft")),
        ("tres cuartos de libra por mil pies", Rate(0.75, "lb/1000 sq ft")),
        ("2 libras y cuarto por 1000 pies", Rate(2.25, "lb/1000 sq ft")),
        ("point 75 lb per 1000", Rate(0.75, "lb/1000 sq ft")),
        ("one hundred twenty pounds per acre", Rate(120.0, "lb/acre")),
        ("point seven four fluid ounces per thousand", Rate(0.74, "fl oz/1000 sq ft")),
        ("tres punto dos libras por mil", Rate(3.2, "lb/1000 sq ft")),
        ("tres coma dos libras por cada mil pies cuadrados", Rate(3.2, "lb/1000 sq ft")),
        ("media onza líquida por mil pies cuadrados", Rate(0.5, "fl oz/1000 sq ft")),
    ],
)
def test_dictated_rates_are_read_in_both_languages(text, rate) -> None:
    read = read_rate(text)
    assert isinstance(read, RateRead)
    assert read.rate.unit == rate.unit
    assert read.rate.value == pytest.approx(rate.value)


@pytest.mark.parametrize("text", ["max once a year", "one bag", "a pound", "second pass", "0.38%"])
def test_words_that_count_nothing_stay_words(text) -> None:
    assert spoken(text) == text


@pytest.mark.parametrize(
    ("text", "rate"),
    [
        # 16 lb on 5,000 sq ft is 3.2 lb per 1,000; 40 lb on an acre 0.918 (computed).
        ("16 lb bag covers 5,000 sq ft", Rate(3.2, "lb/1000 sq ft")),
        ("18 pound bag, covers 5000", Rate(3.6, "lb/1000 sq ft")),
        ("covers 5,000 square feet, bag is 15 lb", Rate(3.0, "lb/1000 sq ft")),
        ("a bag of 16 lb does up to 5k", Rate(3.2, "lb/1000 sq ft")),
        ("40 lb bag treats an acre", Rate(0.9182, "lb/1000 sq ft")),
        ("20 kg, for 500 m2", Rate(4.0, "kg/100 m²")),
    ],
)
def test_what_a_bag_covers_gives_the_rate(text, rate) -> None:
    coverage, _ = find_coverage(text)
    assert coverage is not None
    assert coverage.rate == rate


def test_a_reckoned_rate_never_passes_what_the_bag_says() -> None:
    coverage, _ = find_coverage("50 lb bag covers 15,000 sq ft")
    assert coverage is not None
    assert coverage.rate is not None
    assert coverage.rate.value <= 50 / 15


def test_a_rate_that_differs_from_what_the_bag_covers_is_asked() -> None:
    read = drafts.read("prodiamine 0.38% granule, 2.5 lb per 1000, 16 lb bag covers 5,000 sq ft")
    assert read.rate is None
    assert "reading.two_rates" in {each.reason for each in read.questions}


def test_rates_of_product_and_of_ingredient_that_agree_are_one() -> None:
    # 3.2 lb of 0.38 % per 1,000 sq ft is 0.53 lb ai/A (computed).
    read = drafts.read("prodiamine 0.38% granule 3.2 lb per 1000, 0.53 lb ai per acre")
    assert read.rate == Rate(3.2, "lb/1000 sq ft")
    differ = drafts.read("prodiamine 0.38% granule 3.2 lb per 1000, 0.75 lb ai per acre")
    assert differ.rate is None


@pytest.mark.parametrize(
    "words",
    [
        "do not apply more than 6.4 lb per 1000 a year",
        "not to exceed 6.4 lb per 1000 per year",
        "maximum annual rate 6.4 lb per 1000 sq ft",
        "no aplicar más de 6.4 libras por mil al año",
    ],
)
def test_maxima_in_a_labels_own_words(words) -> None:
    read = drafts.read(f"prodiamine 0.38% granule 3.2 lb per 1000, {words}")
    assert read.limits == (LabelMaximum(Rate(6.4, "lb/1000 sq ft"), "product", "calendar_year"),)
    assert read.rate == Rate(3.2, "lb/1000 sq ft")


@pytest.mark.parametrize(
    ("text", "strength", "form"),
    [
        ("dithiopyr 40 WSP", Strength(40, "%"), "spray"),
        ("prodiamine 4 FL", Strength(4, "lb/gal"), "spray"),
        ("prodiamina 0.38% granulado", Strength(0.38, "%"), "granule"),
        ("prodiamine 0.38, 16 lb bag covers 5,000 sq ft", Strength(0.38, "%"), None),
    ],
)
def test_strengths_as_bags_print_them(text, strength, form) -> None:
    read = drafts.read(text)
    assert read.ingredients[0].strength == strength
    assert read.form == form


def test_a_bare_strength_of_a_liquid_is_asked() -> None:
    read = drafts.read("prodiamine 4 liquid")
    assert read.ingredients[0].strength is None
    assert "reading.strength_code" in {each.reason for each in read.questions}


def test_a_price_in_passing_counts_nothing() -> None:
    read = drafts.read("prodiamine 0.38% granule 3.2 lb per 1000, paid $38 a bag")
    assert read.rate == Rate(3.2, "lb/1000 sq ft")
    assert read.leftovers == ()


@pytest.mark.parametrize(
    ("text", "values"),
    [
        (
            "two applications a year",
            {"max_applications": 2, "applications_period": "calendar_year"},
        ),
        (
            "dos aplicaciones al año",
            {"max_applications": 2, "applications_period": "calendar_year"},
        ),
        ("60 días de separación", {"smallest_interval_days": 60}),
    ],
)
def test_the_rest_of_a_label_in_both_languages(text, values) -> None:
    assert read_label_facts(text).values == values


@pytest.mark.parametrize(
    "text",
    [
        "I got the prodiamine down today",
        "applied prodiamine 0.38% today",
        "is 3.2 lb per 1000 right?",
        "prodiamine",
        "front 60x40",
    ],
)
def test_a_report_or_a_question_is_no_label(text) -> None:
    assert heard(text) is None


@pytest.mark.parametrize(
    "text",
    [
        "what's the soil doing",
        "can I mow today",
        "it rained 2 inches",
        "front 60x40",
        "what rate do you think",
        "who are you",
    ],
)
@pytest.mark.parametrize("awaits", ["rate", "maximum", "period", "strength", "ingredient"])
def test_only_answers_go_into_a_product_half_entered(text, awaits) -> None:
    assert heard(text, Draft(GRANULE, GRANULE, awaits=awaits)) is None


@pytest.mark.parametrize(
    ("awaits", "text", "what"),
    [
        ("maximum", "my label gives none", "nomax"),
        ("maximum", "la etiqueta no dice", "nomax"),
        ("period", "for the whole year", "year"),
        ("period", "por temporada", "season"),
        ("form", "it's granules", "granule"),
        ("form", "mixed with water", "spray"),
    ],
)
def test_answers_that_stand_for_buttons(awaits, text, what) -> None:
    slots = heard(text, Draft(GRANULE, GRANULE, awaits=awaits))
    assert slots is not None
    assert slots.read == AnswerSaid(what)


def test_a_bare_figure_is_a_strength_where_one_was_asked_and_no_rate() -> None:
    asked = Draft("prodiamine, granule, 3.2 lb per 1000 sq ft", "x", awaits="strength")
    slots = heard("0.38", asked)
    assert slots is not None
    assert isinstance(slots.read, ProductSaid)
    assert slots.read.read.ingredients[0].strength == Strength(0.38, "%")
    rate = heard("3.2", Draft("prodiamine 0.38%, granule", "x", awaits="rate"))
    assert rate is not None
    assert rate.unread is not None


def test_a_draft_survives_as_plain_values_and_forgets_what_it_does_not_know() -> None:
    draft = Draft(GRANULE, "words", sure=("above_range x",), awaits="maximum")
    assert Draft.from_json({**draft.to_json(), "is_sure": True}) == draft


def test_the_rest_of_a_label_waits_until_the_product_is_kept() -> None:
    said = drafts.begun("dithiopyr 0.13% granule, bags 40 lb $30")
    more = drafts.continued(drafts.kept(said, "rate"), "4 lb per 1000")
    assert more.facts.packs[0].price == 3000
    assert more.read.rate == Rate(4.0, "lb/1000 sq ft")


@pytest.mark.parametrize(
    ("text", "act"),
    [
        ("4.2 lb over 8 x 150 ft at setting 5", "set_spreader"),
        ("12 lb went on 5,000 at gate 4", "set_spreader"),
        ("40 gal tank, 1 gal per 1000", "set_spreader"),
        ("how many cups", "ask_spreader"),
        ("course for 1000 sq ft with a swath of 8 ft", "ask_spreader"),
        ("how large is 1/128 acre", "ask_spreader"),
        ("ran out half way on the front", "report_gap"),
        ("missed a stripe 2 ft x 60 ft", "report_gap"),
        ("se me acabó a la mitad", "report_gap"),
        ("20-5-10 for 1 lb N per 1000 sq ft", "ask_amounts"),
        ("3 lb per 1000 of 0.38%", "ask_amounts"),
        ("I have 10 lb left", "set_stock"),
        ("half a bag left", "set_stock"),
        ("16 lb bag covers 5,000 sq ft", "enter_product"),
    ],
)
def test_forms_of_machines_and_labels(text, act) -> None:
    found = read_form(text, scene())
    assert found is not None
    assert found.act == act
