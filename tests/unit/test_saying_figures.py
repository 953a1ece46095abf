import shutil
from datetime import UTC, date, datetime, time, timedelta
from decimal import Decimal
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
from bot.saying.metric_examples import in_metric
from bot.saying.printed_amounts import Measure, Quantity, ToWeigh
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

WEIGHTS = ["lb", "oz", "g"]
AMOUNT_UNITS = ["lb", "oz", "g", "kg", "fl oz", "pt", "qt", "gal", "mL", "L"]
RATE_UNITS = [
    f"{amount}/{per}"
    for amount in AMOUNT_UNITS
    for per in ("1000 sq ft", "acre", "ha", "m²", "100 m²", "sq ft")
]
PINT = pint.UnitRegistry()
PINT_NAMES = {"ft": "foot", "yd": "yard", "m": "metre"}
AMOUNTS = st.floats(1e-4, 1e4)


SYSTEMS = st.sampled_from(["us", "metric"])
#: Whether an amount is weighed, by a scale with such a step, or as small as may be.
SCALES = st.one_of(
    st.none(),
    st.builds(
        Measure, st.sampled_from([0.01, 0.02, 0.05, 0.1, 0.2, 1.0]), st.sampled_from(WEIGHTS)
    ),
)


def read_back(value, system):
    """Return what somebody reads who is told an amount [kg or L]."""
    with speaking("en", system):
        text = shown(value)
    read = read_amount(text)
    assert isinstance(read, Amount), (text, read)
    assert read.is_weight == (units.dimension_of(value.unit) == "mass")
    return read.amount_si


@given(AMOUNTS, st.sampled_from(AMOUNT_UNITS), SYSTEMS)
def test_an_amount_reads_back_as_it_was_printed(amount_si, unit, system):
    value = Quantity(amount_si, unit)
    number, in_unit = value.printed(system)
    printed_si = units.to_si(float(number), in_unit)
    assert read_back(value, system) == pytest.approx(printed_si, rel=1e-9)


@given(st.floats(1e-3, 1e4), st.sampled_from(AMOUNT_UNITS), SYSTEMS)
def test_an_exact_amount_is_printed_within_a_tenth_of_a_per_cent(amount_si, unit, system):
    for at_most in (None, amount_si):
        printed = read_back(Quantity(amount_si, unit, at_most), system)
        assert printed == pytest.approx(amount_si, rel=1.0001e-3)


@given(st.floats(1e-3, 1e4), st.sampled_from(AMOUNT_UNITS), SYSTEMS, SCALES)
def test_no_amount_is_ever_printed_above_its_maximum(amount_si, unit, system, scale):
    for at_most in (amount_si, amount_si * 0.7):
        for value in (
            Quantity(amount_si, unit, at_most),
            ToWeigh(amount_si, unit, at_most, scale),
        ):
            assert read_back(value, system) <= at_most * (1 + 1e-11)


@given(st.floats(1e-3, 1e4), st.sampled_from(AMOUNT_UNITS), SYSTEMS, SCALES)
def test_what_is_weighed_is_never_more_than_was_reckoned_and_hardly_less(
    amount_si, unit, system, scale
):
    printed = read_back(ToWeigh(amount_si, unit, scale=scale), system)
    assert printed <= amount_si * (1 + 1e-11)
    least = 0.98 if scale is None else 0.95
    assert printed >= amount_si * least * (1 - 1e-9)


@given(st.floats(0.1, 1e3), SYSTEMS, SCALES)
def test_a_scale_that_is_fine_enough_shows_what_is_printed(amount_si, system, scale):
    if scale is None or units.to_si(scale.value, scale.unit) > amount_si / 50:
        return
    value, unit = ToWeigh(amount_si, "lb", scale=scale).printed(system)
    assert unit == scale.unit
    assert value % Decimal(str(scale.value)) == 0


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


# Avoirdupois pound 0.45359237 kg, exact (NIST Handbook 44, Appendix C); check values 1-3, 8 and
# 20 of the trade's arithmetic, computed there from the same constants.
LB, OZ, FL_OZ = 0.45359237, 0.028349523125, 0.0295735295625


def test_an_amount_is_one_number_in_one_unit():
    assert said(Quantity(7.68 * LB, "lb")) == "7.68 lb"
    assert said(Quantity(7.68 * LB, "lb"), "metric") == "3.484 kg"
    assert said(Quantity(33.496 * LB, "lb")) == "33.5 lb"
    assert said(Quantity(0.42381 * OZ, "oz")) == "0.424 oz"
    assert said(Quantity(0.75 / 0.65 / 43.56 * LB, "g"), "metric") == "12.02 g"
    assert said(Quantity(0.73462 * FL_OZ, "fl oz")) == "0.735 fl oz"
    assert said(Quantity(1.25, "g"), "metric") == "1.25 kg"
    assert said(Quantity(3.785411784 * 2, "qt")) == "2 gal"
    assert said(Quantity(0.0217, "fl oz"), "metric") == "21.7 mL"


def test_what_is_weighed_is_rounded_down_to_what_a_scale_shows():
    front = 3.84 * LB
    assert said(ToWeigh(front, "lb")) == "3.8 lb"
    assert said(ToWeigh(front, "lb", scale=Measure(0.01, "lb"))) == "3.84 lb"
    assert said(ToWeigh(front, "lb", scale=Measure(0.5, "oz"))) == "61 oz"
    assert said(ToWeigh(front, "lb", scale=Measure(5, "g"))) == "1,740 g"
    # A scale in pounds is no use for an ounce: as if none were known.
    assert said(ToWeigh(1.04 * OZ, "lb", scale=Measure(1, "lb"))) == "1.04 oz"
    assert said(ToWeigh(15.36 * FL_OZ, "fl oz", scale=Measure(5, "g"))) == "15.3 fl oz"


def test_an_amount_that_would_round_above_the_maximum_is_cut_instead():
    grams = 0.0120150
    assert said(Quantity(grams, "g", grams), "metric") == "12.01 g"
    ounces = 0.42381 * OZ
    assert said(Quantity(ounces, "oz", ounces)) == "0.4238 oz"
    assert said(Quantity(5 * LB, "lb", 5 * LB)) == "5 lb"


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
    assert said(Day(date(2026, 4, 3), today)) == "Fri Apr 3"
    assert said(Day(date(2025, 4, 3), today)) == "Thu Apr 3, 2025"
    assert said(Clock(time(17))) == "5 pm"
    assert said(Clock(time(0, 30))) == "12:30 am"
    assert said(Clock(time(17)), "metric") == "17:00"
    assert said(Moment(datetime(2026, 4, 9, 8, tzinfo=UTC), today)) == "yesterday 8 am"
    assert said(ShortDay(date(2026, 4, 3))) == "Apr 3"


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
    assert say(day=far, days=10) == "It is due about Mon Apr 20, 10 days from now."


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


@pytest.mark.parametrize(
    ("us", "metric"),
    [
        ("front 60x40, strip 5 by 80 ft", "front 18x12, strip 1.5 by 24 m"),
        ("max 6.4 lb per 1000 a year", "max 31 g per m² a year"),
        ("18 lb cubre 5,000 sq ft", "8 kg cubre 460 m²"),
        ("sprinkler 0.2, 0.3 in in 20 min", "sprinkler 5, 8 mm in 20 min"),
        ("soil 52 at 2 in, 4 pm", "soil 11 at 5 cm, 4 pm"),
        ("nears 50 to 55 °F (10 to 13 °C)", "nears 10 to 13 °C"),
        # Chances, paces and what is a value of the message stay.
        ("dark is 1 chance in 2, light 4 in 5", "dark is 1 chance in 2, light 4 in 5"),
        ("front 20 x 15 paces", "front 20 x 15 paces"),
        ("of nitrogen per 1,000 sq ft each time", "of nitrogen per 1,000 sq ft each time"),
    ],
)
def test_examples_follow_the_units_of_whoever_reads_them(us: str, metric: str) -> None:
    assert in_metric(us) == metric
