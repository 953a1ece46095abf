from datetime import datetime, timedelta
from zoneinfo import ZoneInfo

import pytest

from bot.hearing.readers.dates import WhenRead, find_when, read_when
from bot.hearing.readers.measurements import (
    TemperatureRead,
    read_depth,
    read_duration,
    read_temperature_reading,
)
from bot.hearing.readers.places import read_place
from bot.hearing.readers.product_lines import read_product
from bot.hearing.readers.reading import Unread
from jobs.agronomy.maxima import LabelMaximum
from jobs.agronomy.rates import Rate
from jobs.agronomy.strengths import Strength

KNOWN = ["prodiamine", "dithiopyr", "pendimethalin", "benefin", "trifluralin", "s-metolachlor"]
NOW = datetime(2026, 4, 10, 14, 30, tzinfo=ZoneInfo("America/Chicago"))


def reasons(product):
    return {question.reason for question in product.questions}


def test_a_granule_is_read_from_one_line():
    product = read_product(
        "prodiamine 0.38% granule, 3.2 lb per 1000 sq ft, max 6.4 lb per 1000 a year", KNOWN
    )
    assert [i.name for i in product.ingredients] == ["prodiamine"]
    assert product.ingredients[0].strength == Strength(0.38, "%")
    assert product.form == "granule"
    assert product.rate == Rate(3.2, "lb/1000 sq ft")
    assert product.limits == (LabelMaximum(Rate(6.4, "lb/1000 sq ft"), period="calendar_year"),)
    assert product.questions == ()
    assert product.leftovers == ()


def test_a_liquid_is_read_from_one_line_in_any_order():
    texts = [
        "dithiopyr 2 lb/gal liquid 0.74 fl oz per 1000 max 0.75 lb ai/acre per year",
        "0.74 fl oz per 1000, liquid, 2 lb per gallon dithiopyr; not more than 0.75 lb ai/A a year",
        "Dithiopyr, EC 2 lb/gal, yearly max 0.75 lb ai per acre, rate 0.74 fl oz/1000",
    ]
    for text in texts:
        product = read_product(text, KNOWN)
        assert product.ingredients[0].strength == Strength(2.0, "lb/gal"), text
        assert (product.form, product.is_liquid) == ("spray", True)
        assert product.rate == Rate(0.74, "fl oz/1000 sq ft")
        assert product.limits == (LabelMaximum(Rate(0.75, "lb/acre"), "ai", "calendar_year"),)
        assert product.questions == ()


def test_two_ingredients_keep_their_own_strengths():
    product = read_product("benefin 1.33% + trifluralin 0.67% granular 2.3 lb/1000", KNOWN)
    assert [(i.name, i.strength.value) for i in product.ingredients] == [
        ("benefin", 1.33),
        ("trifluralin", 0.67),
    ]


def test_several_maxima_keep_their_periods():
    product = read_product(
        "prodiamine 0.38% granules 3.2 lb/1000, max 3.2 lb per 1000 at once,"
        " 6.4 lb per 1000 a year, max 1.5 lb ai per acre in any 12 months",
        KNOWN,
    )
    assert [limit.period for limit in product.limits] == [
        "application",
        "calendar_year",
        "12_months",
    ]


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        ("dithiopyr 2 lb/gal 0.74 oz per 1000", "ounce_which"),
        ("dithiopyr 2 lb/gal 3 lb per 1000", "liquid_by_weight"),
        ("prodiamine 0.38% granule 3 fl oz per 1000", "dry_by_volume"),
        ("prodiamine 0.38% granule 2.5 to 3.9 lb per 1000", "rate_range"),
        ("prodiamine 0.38% granule 6.4 lb per 1000 a year", "rate_or_limit"),
        ("prodiamine 0.38% granule 3.2 lb per 1000 max 6.4 lb per 1000", "limit_period"),
        ("prodiamine 0.38% granule 3,2 lb per 1000", "decimal_comma_rate"),
        ("prodiamine granule 3.2 lb per 1000", "strength"),
        ("prodiamine 380% granule 3.2 lb per 1000", "strength_number"),
        ("prodiamine 0.38% 3.2 lb per 1000", "form"),
        ("prodiamine 0.38% granule", "product_rate"),
        ("prodiamine 0.38% granule 3 lb per 1000, 4 lb per 1000", "two_rates"),
        ("0.38% granule 3.2 lb per 1000", "ingredient"),
        ("prodiamin 0.38% granule 3.2 lb per 1000", "ingredient_spelling"),
        ("prodiamine 0.38% granule 3 lb per M", "per_m"),
    ],
)
def test_a_doubtful_product_is_asked_about(text, reason):
    product = read_product(text, KNOWN)
    assert f"reading.{reason}" in reasons(product)
    assert all(question.sentence() for question in product.questions)


@pytest.mark.parametrize(
    "text", ["dithiopyr 2 lb/gal 0.74 oz per 1000", "prodiamine 0.38% granule 2.5 to 3 lb/1000"]
)
def test_a_rate_in_doubt_is_not_taken(text):
    assert read_product(text, KNOWN).rate is None


def test_words_not_understood_are_reported():
    product = read_product("prodiamine 0.38% granule 3.2 lb/1000 turquoise", KNOWN)
    assert product.leftovers == ("turquoise",)


@pytest.mark.parametrize(
    "text",
    [
        "38.9, -97.6", "38.9 -97.6", "38.9,-97.6", "38.9N 97.6W", "38°54'N 97°36'W",
        "38° 54' N, 97° 36' W", "38°54’0”N 97°36’0”W", "lat 38.9 lon -97.6", "N38.9 W97.6",
        "97.6W 38.9N", "latitude 38.9, longitude -97.6",
    ],
)  # fmt: skip
def test_a_typed_place_is_read(text):
    assert read_place(text) == pytest.approx((38.9, -97.6))


@pytest.mark.parametrize(
    "text", ["98, -97.6", "38.9, -197.6", "38.9N, 97.6", "-38.9S 97W", "38°75'N 97°36'W"]
)
def test_a_place_off_the_map_or_in_doubt_is_asked_back(text):
    asked = read_place(text)
    assert isinstance(asked, Unread)
    assert asked.sentence()


@pytest.mark.parametrize("text", ["60x40", "52", "60 40", "3.2 lb", "4/3", "hello", "front 60x40"])
def test_other_text_is_no_place(text):
    assert read_place(text) is None


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("yesterday 5 pm", "2026-04-09T17:00"),
        ("yesterday at 17:30", "2026-04-09T17:30"),
        ("today", "2026-04-10T12:00"),
        ("now", "2026-04-10T14:30"),
        ("this morning", "2026-04-10T09:00"),
        ("last Tuesday", "2026-04-07T12:00"),
        ("Sunday 9am", "2026-04-05T09:00"),
        ("last Friday", "2026-04-03T12:00"),
        ("3 April", "2026-04-03T12:00"),
        ("Fri 3 Apr", "2026-04-03T12:00"),
        ("Friday, April 3rd", "2026-04-03T12:00"),
        ("Thu 3 Apr", "2025-04-03T12:00"),
        ("April 3rd, 2026", "2026-04-03T12:00"),
        ("Apr 3 at 8", "2026-04-03T08:00"),
        ("2026-04-03", "2026-04-03T12:00"),
        ("2026-04-03T17:00", "2026-04-03T17:00"),
        ("2 days ago", "2026-04-08T12:00"),
        ("a week ago", "2026-04-03T12:00"),
        ("an hour ago", "2026-04-10T13:30"),
        ("3/20", "2026-03-20T12:00"),
        ("20/3/26", "2026-03-20T12:00"),
        ("4/4", "2026-04-04T12:00"),
        ("20 November", "2025-11-20T12:00"),
    ],
)
def test_a_moment_is_read(text, expected):
    when = read_when(text, NOW)
    assert isinstance(when, WhenRead), when
    assert when.at == datetime.fromisoformat(expected).replace(tzinfo=NOW.tzinfo)
    assert not when.is_future


@pytest.mark.parametrize("text", ["tomorrow", "3 May", "4/15", "today 5 pm", "next Monday"])
def test_a_moment_to_come_is_marked(text):
    when = read_when(text, NOW)
    assert isinstance(when, WhenRead)
    assert when.is_future


@pytest.mark.parametrize(
    "text",
    ["4/3", "31 April", "yesterday at 5", "last night", "Friday", "Sat 3 Apr 2026", "2026-02-30"],
)
def test_a_moment_in_doubt_is_asked_back(text):
    asked = read_when(text, NOW)
    assert isinstance(asked, Unread)
    assert asked.sentence()


@pytest.mark.parametrize("text", ["hello", "60x40", "3.2 lb", "strip and pool lawn", "52"])
def test_other_text_is_no_moment(text):
    assert read_when(text, NOW) is None


def test_a_moment_is_found_in_a_longer_text():
    when = find_when("applied 3.2 lb on the strip yesterday 5 pm", NOW)
    assert isinstance(when, WhenRead)
    assert when.rest == "applied 3.2 lb on the strip"
    assert when.at.hour == 17


@pytest.mark.parametrize(
    ("text", "celsius", "depth_m", "hour", "words"),
    [
        ("52", 100 / 9, None, None, ""),
        ("soil 52", 100 / 9, None, None, ""),
        ("52F", 100 / 9, None, None, ""),
        ("soil 52 pool lawn", 100 / 9, None, None, "pool lawn"),
        ("11.5 C at 3 in, 4 pm", 11.5, 0.0762, 16.0, ""),
        ("11.5°C 5 cm deep 7:30 am", 11.5, 0.05, 7.5, ""),
    ],
)
def test_a_thermometer_reading_is_read(text, celsius, depth_m, hour, words):
    read = read_temperature_reading(text, "F")
    assert isinstance(read, TemperatureRead), read
    assert read.temperature_c == pytest.approx(celsius)
    assert read.depth_m == (None if depth_m is None else pytest.approx(depth_m))
    assert (read.hour, read.words) == (hour, words)


@pytest.mark.parametrize("text", ["soil 12", "soil 200", "45-50", "soil 70 C"])
def test_a_thermometer_reading_in_doubt_is_asked_back(text):
    asked = read_temperature_reading(text, "F")
    assert isinstance(asked, Unread)
    assert asked.sentence()


def test_depths_are_read_to_metres():
    for text in ("0.4 in", '0.4"', "10.16 mm", "1.016 cm"):
        assert read_depth(text) == pytest.approx(0.01016)
    assert read_depth("1/2 inch") == pytest.approx(0.0127)
    for text in ("2", "much", "1/0 in"):
        assert isinstance(read_depth(text), Unread)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("3 days", timedelta(days=3)),
        ("P3D", timedelta(days=3)),
        ("2 weeks", timedelta(days=14)),
        ("two weeks", timedelta(days=14)),
        ("P1W", timedelta(days=7)),
        ("6 h", timedelta(hours=6)),
        ("PT6H30M", timedelta(hours=6, minutes=30)),
        ("1 day 6 hours", timedelta(hours=30)),
        ("a week", timedelta(days=7)),
    ],
)
def test_a_stretch_of_time_is_read(text, expected):
    assert read_duration(text) == expected


@pytest.mark.parametrize("text", ["soon", "P", "0 days", "2 months", "3"])
def test_a_stretch_of_time_in_doubt_is_asked_back(text):
    asked = read_duration(text)
    assert isinstance(asked, Unread)
    assert asked.sentence()


@pytest.mark.parametrize(
    ("code", "strength", "form", "is_liquid"),
    [
        ("65 WDG", Strength(65, "%"), "spray", False),
        ("75DF", Strength(75, "%"), "spray", False),
        ("50 wp", Strength(50, "%"), "spray", False),
        ("0.38 G", Strength(0.38, "%"), "granule", False),
        ("2 EC", Strength(2, "lb/gal"), "spray", True),
        ("3.3 EC", Strength(3.3, "lb/gal"), "spray", True),
        ("4L", Strength(4, "lb/gal"), "spray", True),
        ("4 F", Strength(4, "lb/gal"), "spray", True),
        ("3.8 CS", Strength(3.8, "lb/gal"), "spray", True),
    ],
)  # fmt: skip
# How US turf products are named by strength and formulation: common practice, no source.
def test_a_trade_code_is_a_strength_and_a_form_and_is_said_back(code, strength, form, is_liquid):
    product = read_product(f"prodiamine {code}", KNOWN)
    assert product.ingredients[0].strength == strength
    assert (product.form, product.is_liquid) == (form, is_liquid)
    assert product.codes == ((code, strength),)


@pytest.mark.parametrize("code", ["400 SC", "480 EC", "0.65 WG", "65 G", "99 WDG", "0 k G"])
def test_a_code_whose_number_counts_something_else_is_asked_about(code):
    product = read_product(f"prodiamine {code}", KNOWN)
    assert product.ingredients[0].strength is None
    assert "reading.strength_code" in reasons(product)
    assert all(question.sentence() for question in product.questions)


@pytest.mark.parametrize("amount", ["12 g", "4 l", "4 L", "12 G per 1000 sq ft", "2 L/ha"])
def test_grams_and_litres_are_no_trade_codes(amount):
    assert read_product(f"prodiamine {amount}", KNOWN).codes == ()


def test_an_ingredient_named_twice_counts_once():
    product = read_product("prodiamine granule, prodiamine 0.38%, 3 lb per 1000", KNOWN)
    assert [(i.name, i.strength) for i in product.ingredients] == [
        ("prodiamine", Strength(0.38, "%"))
    ]


def test_a_maximum_of_ingredient_by_volume_is_asked_about():
    product = read_product(
        "dithiopyr 2 EC 0.74 fl oz per 1000 max 2 fl oz ai per acre a year", KNOWN
    )
    assert product.limits == ()
    assert "reading.ingredient_by_volume" in reasons(product)


@pytest.mark.parametrize("figure", ["31/04", "9" * 17, "99999999999"])
def test_a_figure_no_strength_can_be_leaves_the_line_unread(figure: str) -> None:
    read = read_product(f"prodiamine {figure} granule", KNOWN)
    assert [question.reason for question in read.questions] == ["reading.product"]
