import shutil
from datetime import UTC, date, datetime, time, timedelta
from functools import partial

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.hearing.readers.dates import WhenRead, read_when
from bot.hearing.readers.quantities import Amount, RateRead, read_amount, read_rate
from bot.hearing.readers.sizes import ZoneRead, read_zones
from bot.saying import catalogue
from bot.saying.catalogue import shown
from bot.saying.figures import print_amount, say_amount, say_decimal
from bot.saying.values import (
    Area,
    Clock,
    Day,
    Degrees,
    Depth,
    LabelRate,
    Moment,
    Month,
    Names,
    ShortDay,
    Speed,
    Temperature,
    Weekday,
)
from bot.saying.voice import speaking
from jobs.agronomy import units

AMOUNT_UNITS = ["lb", "oz", "g", "kg", "fl oz", "pt", "qt", "gal", "mL", "L"]
RATE_UNITS = [
    f"{amount}/{per}"
    for amount in AMOUNT_UNITS
    for per in ("1000 sq ft", "acre", "ha", "m²", "100 m²", "sq ft")
]
PINT = pint.UnitRegistry()
PINT_NAMES = {"ft": "foot", "yd": "yard", "m": "metre"}
AMOUNTS = st.floats(1e-4, 1e4)


@given(AMOUNTS, st.sampled_from(AMOUNT_UNITS))
def test_an_amount_reads_back_as_it_was_printed(amount_si, unit):
    printed = print_amount(amount_si, unit)
    read = read_amount(printed.text)
    assert isinstance(read, Amount), (printed, read)
    assert read.amount_si == pytest.approx(printed.amount_si, rel=1e-9)
    assert read.is_weight == (units.dimension_of(unit) == "mass")


@given(st.floats(1e-3, 1e4), st.sampled_from(AMOUNT_UNITS))
def test_an_amount_is_printed_within_a_tenth_of_a_per_cent(amount_si, unit):
    for at_most in (None, amount_si):
        printed = print_amount(amount_si, unit, at_most)
        assert printed.amount_si == pytest.approx(amount_si, rel=1.0001e-3)


@given(st.floats(1e-3, 1e4), st.sampled_from(["lb", "oz", "kg", "fl oz", "gal"]))
def test_an_amount_as_one_number_is_as_close_and_never_above(amount_si, unit):
    for at_most in (None, amount_si):
        read = read_amount(say_decimal(amount_si, unit, at_most))
        assert isinstance(read, Amount)
        assert read.amount_si == pytest.approx(amount_si, rel=1.0001e-3)
        assert at_most is None or read.amount_si <= at_most * (1 + 1e-11)


@given(st.floats(1e-3, 1e4), st.sampled_from(AMOUNT_UNITS))
def test_an_amount_is_never_printed_above_its_maximum(amount_si, unit):
    for at_most in (amount_si, amount_si * 0.7):
        printed = print_amount(amount_si, unit, at_most=at_most)
        assert printed.amount_si <= at_most * (1 + 1e-11)
        read = read_amount(printed.text)
        assert isinstance(read, Amount)
        assert read.amount_si <= at_most * (1 + 1e-11)


@given(st.floats(1e-3, 1e5).map(lambda value: round(value, 4)), st.sampled_from(RATE_UNITS))
def test_a_rate_reads_back_as_it_was_printed(value, unit):
    read = read_rate(shown(LabelRate(value, unit)))
    assert isinstance(read, RateRead), read
    assert read.rate.unit == unit
    assert read.rate.value == pytest.approx(value, rel=1e-9)


@given(
    st.floats(0.5, 900).map(lambda value: round(value, 2)),
    st.floats(0.5, 900).map(lambda value: round(value, 2)),
    st.sampled_from(["ft", "yd", "m"]),
    st.sampled_from(["ft", "m"]),
)
def test_length_by_width_reads_to_the_exact_area(length, width, unit, default):
    (zone,) = read_zones(f"north bed {length} x {width} {unit}", default).items
    if not isinstance(zone, ZoneRead):
        zone = zone.zone
    # pint, a general-purpose reference library, agrees on foot, yard and metre.
    factor = float(PINT.Quantity(1.0, PINT_NAMES[unit]).to("metre").magnitude)
    assert zone.area_m2 == pytest.approx(length * width * factor**2, rel=1e-9)


# Avoirdupois pound 0.45359237 kg, exact (NIST Handbook 44, Appendix C).
def test_pounds_are_said_with_ounces():
    assert say_amount(7 * 0.45359237 + 11 * 0.028349523125, "lb") == "7 lb 11 oz"
    assert say_amount(5 * 0.45359237, "oz") == "5 lb"
    assert say_amount(0.0120153, "oz") == "0.424 oz"
    assert say_amount(33.496 * 0.45359237, "lb") == "33 lb 7.9 oz"


# Check values 1-3, 8 and 20 of the trade's arithmetic, computed there from the same constants.
def test_the_printed_dose_is_the_computed_one():
    assert say_amount(0.42381 / 16 * 0.45359237, "oz") == "0.424 oz"
    assert say_amount(0.75 / 0.65 / 43.56 * 0.45359237, "g") == "12.02 g"
    assert say_amount(0.73462 * 0.0295735295625, "fl oz") == "0.735 fl oz"
    assert say_amount(7.68 * 0.45359237, "lb") == "7 lb 10.9 oz"
    assert say_decimal(7.68 * 0.45359237, "lb") == "7.68 lb"
    assert say_decimal(1.96341 * 0.45359237, "lb") == "1.963 lb"
    assert say_amount(1.53846 / 16 * 0.45359237, "oz") == "1.538 oz"


def test_a_dose_that_would_round_above_the_maximum_is_cut_finer_instead():
    grams = 0.0120150
    assert say_amount(grams, "g", at_most=grams) == "12.01 g"
    ounces = 0.42381 / 16 * 0.45359237
    assert say_amount(ounces, "oz", at_most=ounces) == "0.4238 oz"
    assert say_amount(5 * 0.45359237, "lb", at_most=5 * 0.45359237) == "5 lb"


def test_each_family_of_units_answers_in_its_own():
    assert say_amount(1.25, "g") == "1.25 kg"
    assert say_amount(0.25, "kg") == "250 g"
    assert say_amount(0.0217, "fl oz") == "0.734 fl oz"
    assert say_amount(0.0217, "mL") == "21.7 mL"
    assert say_amount(3.785411784 * 2, "qt") == "2 gal"


def said(value, units="us", language="en"):
    with speaking(language, units):
        return shown(value)


def test_areas_are_said_in_the_persons_units():
    assert said(Area(2400 * 0.09290304)) == "2,400 sq ft"
    assert said(Area(2400 * 0.09290304), "metric") == "223 m²"
    assert said(Area(43560 * 0.09290304)) == "43,560 sq ft (1 acre)"
    assert said(Area(43560 * 0.09290304 * 1.2)) == "52,272 sq ft (1.2 acres)"
    assert said(Area(12000), "metric") == "12,000 m² (1.2 ha)"


def test_temperatures_depths_and_winds_are_said_in_the_persons_units():
    assert said(Temperature(11.11)) == "52 °F"
    assert said(Temperature(11.11), "metric") == "11.1 °C"
    assert said(Temperature(-0.04), "metric") == "0.0 °C"
    assert said(Degrees(2.22)) == "4 °F"
    assert said(Depth(0.0127)) == "0.5 in"
    assert said(Depth(0.0127), "metric") == "13 mm"
    assert said(Speed(3.57632)) == "8 mph"
    assert said(Speed(3.57632), "metric") == "3.6 m/s"
    assert said(Speed(float("nan"))) == "?"


@given(st.dates(date(2024, 3, 1), date(2027, 11, 30)), st.integers(-700, 299))
def test_a_day_reads_back_as_it_was_said(today, away):
    day = today + timedelta(days=away)
    now = datetime(today.year, today.month, today.day, 13, tzinfo=UTC)
    read = read_when(shown(Day(day, today)), now)
    assert isinstance(read, WhenRead), read
    assert read.at.date() == day


def test_days_are_said_as_people_say_them():
    today = date(2026, 4, 10)
    assert said(Day(date(2026, 4, 10), today)) == "today"
    assert said(Day(date(2026, 4, 9), today)) == "yesterday"
    assert said(Day(date(2026, 4, 3), today)) == "Fri 3 Apr"
    assert said(Day(date(2025, 4, 3), today)) == "Thu 3 Apr 2025"
    assert said(Clock(time(17))) == "5 pm"
    assert said(Clock(time(0, 30))) == "12:30 am"
    assert said(Clock(time(17)), "metric") == "17:00"
    assert said(Moment(datetime(2026, 4, 9, 8, tzinfo=UTC), today)) == "yesterday 8 am"
    assert said(ShortDay(date(2026, 4, 3))) == "3 Apr"


# Abbreviated months and weekdays, lists and plural units: CLDR, by way of Babel.
def test_names_of_days_and_lists_are_cldrs_in_every_language():
    today = date(2026, 4, 10)
    assert said(Day(date(2026, 4, 3), today), language="es") == "vie 3 de abril"
    assert said(Names(["front", "strip", "back"])) == "front, strip, back"
    assert said(Names(["front", "strip", "back"], "standard")) == "front, strip, and back"
    assert said(Names(["a", "b", "c"]), language="es") == "a, b y c"
    assert [said(Month(number)) for number in (1, 5, 12)] == ["Jan", "May", "Dec"]
    assert [said(Weekday(number)) for number in (0, 6)] == ["Mon", "Sun"]


def test_a_day_after_a_preposition_is_no_about_tomorrow(a_message):
    today = date(2026, 4, 10)
    say = a_message('It is due { DAY($day, style: "about") }, { SPAN($days) } from now.')
    assert say(day=Day(date(2026, 4, 11), today), days=1) == "It is due tomorrow, 1 day from now."
    far = Day(date(2026, 4, 20), today)
    assert say(day=far, days=10) == "It is due about Mon 20 Apr, 10 days from now."


def test_a_list_is_joined_as_the_message_asks(a_message):
    say = a_message('Zones { $zones }; { LIST($zones, style: "standard") }.')
    assert say(zones=("front", "strip")) == "Zones front, strip; front and strip."


@pytest.fixture
def a_message(tmp_path, monkeypatch):
    """Say a message that stands in a catalogue of its own."""

    def of(text):
        folder = tmp_path / "catalogues"
        shutil.copytree(catalogue.FOLDER / "en", folder / "en")
        (folder / "en" / "alone.ftl").write_text(f"alone-message = {text}\n", encoding="utf-8")
        monkeypatch.setattr(catalogue, "FOLDER", folder)
        catalogue.forget()
        return partial(catalogue.say, "alone.message")

    yield of
    monkeypatch.undo()
    catalogue.forget()
